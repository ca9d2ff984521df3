"""Is a wide face given to the face mill that the shop has, and a large hole the time of the drills before it?"""

from __future__ import annotations

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.operations.station import paths_over
from methodsheets.sheet.model import Operation

VICE = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")


def face(wide: float, shop: str, more: str = "") -> Operation:
    text = method(VICE + block("op", f"face: 1 mm{more}"), stock=f"plate 90 mm x {wide:g} mm x 30 mm", material="EN3B")
    return work_out(text, shop).method.operations[-1]


@pytest.mark.parametrize(
    ("wide", "shop", "more", "tool"),
    [
        (40.0, "osierbank-large", "", "face mill"),
        (15.0, "osierbank-large", "", "end mill"),
        (40.0, "osierbank-small", "", "end mill"),
        (40.0, "osierbank-large", ", cutter 16 mm", "end mill"),
    ],
)
def test_a_wide_face_takes_the_face_mill_that_is_there(wide: float, shop: str, more: str, tool: str) -> None:
    assert tool in face(wide, shop, more).tool


def test_paths_side_by_side() -> None:
    assert [paths_over(40, 50), paths_over(40, 16), paths_over(40, 40)] == [1, 4, 1]


def test_the_drills_before_a_large_one_take_their_time() -> None:
    hold = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 18 mm, end A out")
    at_once, after = (
        work_out(
            method(
                hold + "".join(block("op", f"drill: {size} mm, deep 30 mm") for size in sizes),
                stock="round 40 mm x 80 mm",
                material="EN3B",
            )
        ).method.operations
        for sizes in ((20,), (6, 13, 20))
    )
    assert "first" in " ".join(note.metric for note in at_once[-1].notes)
    assert "first" not in " ".join(note.metric for note in after[-1].notes)
    assert at_once[-1].cutting_minutes > after[-1].cutting_minutes * 1.2
    assert at_once[-1].handling_minutes > after[-1].handling_minutes
