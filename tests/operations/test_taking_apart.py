"""A split bearing is bored as one and parted again: each half is its own body with its half of the bore."""

from __future__ import annotations

import functools
import math
from pathlib import Path

import pytest
from tests.method.bench import Evaluated, block, work_out

TEXT = (Path(__file__).parents[1] / "methods" / "split-bearing.md").read_text(encoding="utf-8")
SOLDER, APART = "soft-solder: cap, end A", "take apart: cap"
HALF = math.pi * 12**2 / 4 * 20 / 2


@functools.cache
def bearing(*changes: tuple[str, str]) -> Evaluated:
    text = TEXT
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return work_out(text, slug="split-bearing")


def volumes(made: Evaluated) -> dict[str, float]:
    return {f"{name}/{key}": body.solid.volume for name, piece in made.live.pieces.items()
            for key, body in piece.work.bodies.items()}  # fmt: skip


def test_each_half_has_half_of_the_bore() -> None:
    """Two blocks less half a cylinder each."""
    found = volumes(bearing())
    assert found == {"cap/cap": pytest.approx(40 * 20 * 11.5 - HALF, rel=1e-4),
                     "base/base": pytest.approx(40 * 20 * 19.5 - HALF, rel=1e-4)}  # fmt: skip


def test_the_cap_can_be_held_and_cut_on_its_own_afterwards() -> None:
    more = block("setup", "piece: cap", "machine: mill", "hold: machine vice, up top, towards front, grip 4 mm")
    made = work_out(TEXT + "\n" + more + block("op", "face: 0.5 mm"), slug="split-bearing")
    # Half a cylinder's lowest slice goes too: the circle's segment between its middle and 0.5 mm beside it.
    segment = 2 * (0.5 * math.sqrt(36 - 0.25) + 36 * math.asin(0.5 / 6)) / 2
    assert made.live.operations[-1].volume == pytest.approx((40 * 0.5 - segment) * 20, rel=1e-3)


def test_it_has_its_time_its_caution_and_its_words() -> None:
    done = bearing().live.operations[-1]
    assert "solder runs" in str(done.words)
    assert done.worked.minutes == 5
    assert "hot" in {caution.key for caution in done.cautions}
    assert done.grams_after == pytest.approx(bearing().live.pieces["base"].work.bodies["base"].grams, rel=1e-9)


@pytest.mark.parametrize(
    ("changes", "words"),
    [(((SOLDER, SOLDER.replace("soft-solder", "silver-braze")),), "does not come off again"),
     (((SOLDER, SOLDER.replace("soft-solder", "weld")),), "does not come off again"),
     (((APART, "take apart: base"),), "no such piece"), (((APART, "take apart: lid"),), "no such piece"),
     (((SOLDER, "deburr: edges"),), "no such piece")],
)  # fmt: skip
def test_what_does_not_come_off_is_refused(changes: tuple[tuple[str, str], ...], words: str) -> None:
    problem = next(p for p in bearing(*changes).method.problems if p.code == "not-joined")
    assert words in problem.what
    assert problem.remedy
