"""Does a picture that fails take the others with it, whichever of the functions behind it fails?"""

from __future__ import annotations

import inspect
from types import ModuleType
from typing import Any

import pytest
from tests.method.bench import block, method, work_out

from methodfigures.paper.drawing import Drawing as Figure
from methodsheets.drawings import drawing_room, explaining, settings, story
from methodsheets.drawings.drawing_room import draw_method
from methodsheets.method.job import Evaluated

TEXT = method(
    block(
        "calc",
        'bore = fit(12 mm, "H7/g6")',
        'pin = press_fit(fit(12 mm, "H7/s6"), length=20 mm, hub=30 mm, hub_material="EN1A", shaft_material="EN1A")',
    )
    + block("part", "- round: 38 mm, over 30 mm")
    + block(
        "setup", "machine: lathe", "hold: four-jaw chuck, on 40 mm, grip 15 mm, axis offset 2 mm at 0 deg, end A out"
    )
    + block("op", "face: 0.5 mm")
    + block("op", "taper: from 20 mm, to 28 mm, over 20 mm")
)
ROOMS: tuple[ModuleType, ...] = (drawing_room, explaining, settings, story)
Drawn = tuple[Evaluated, dict[str, Figure], set[str]]


def behind(room: ModuleType) -> list[str]:
    """The functions that find out what is shown: a room's own and those that it calls; figures are drawn already."""
    return [
        name for name, one in vars(room).items()
        if inspect.isfunction(one) and not name.startswith(("_", "draw_"))
    ]  # fmt: skip


@pytest.fixture(scope="module")
def drawn() -> Drawn:
    """A small method with all its pictures."""
    made, figures = work_out(TEXT), dict[str, Figure]()
    found = {drawing.key for drawing, _ in draw_method(made, figures)}
    assert len(found) > 6
    assert not [one for one in made.live.problems if one.code == "no-picture"]
    return made, figures, found


def test_a_picture_that_fails_costs_no_other(drawn: Drawn, monkeypatch: pytest.MonkeyPatch) -> None:
    made, figures, whole = drawn
    failed: dict[str, set[str]] = {}
    for room in ROOMS:
        for name in behind(room):
            with monkeypatch.context() as patched:
                patched.setattr(room, name, _raising)
                found = {drawing.key for drawing, _ in draw_method(made, figures)}
            said = [one for one in made.live.problems if one.code == "no-picture"]
            assert found <= whole
            assert found, name
            if said:
                assert all("nobody foresaw" in one.what and one.place.line for one in said), name
                failed[name] = whole - found
            else:
                assert found == whole, name
            made.live.problems.found[:] = [one for one in made.live.problems if one.code != "no-picture"]
    assert failed["scene_of"]
    assert len(failed) > 8


def test_a_body_that_lies_wholly_in_another_is_not_drawn_and_fails_no_picture() -> None:
    """Two pins at one place: the drawing of the part had more places for its bodies than bodies that are seen."""
    pins = block("op", "pin: 3 mm, long 10 mm, on radius 10 mm, at 0 deg") * 2
    made = work_out(method(block("setup", "machine: press", "hold: press blocks, end A up") + pins))
    assert len(made.live.pieces[made.live.main].work.bodies) == 3
    assert any(drawing.kind == "part" for drawing, _ in draw_method(made))
    assert [str(one) for one in made.live.problems if one.code == "no-picture"] == []


def _raising(*given: Any, **more: Any) -> Any:
    raise KeyError("nobody foresaw this")
