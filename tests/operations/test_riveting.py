"""Rivets: their metal against closed forms, the length that is left for a head, what they carry, and planted faults.

Proportions of heads and the old rules for their length are from memory, as the calculation says; volumes are exact.
"""

from __future__ import annotations

import functools
import math
from pathlib import Path

import pytest
from tests.method.bench import work_out

from methodsheets.method.done import CheckedOperation
from methodsheets.method.job import Evaluated
from methodsheets.trade.joining.rivets import rivet, rivet_strength

TEXT = (Path(__file__).parents[1] / "methods" / "riveted-hinge.md").read_text(encoding="utf-8")
LINE = "rivet: 4 mm, head snap, long 17 mm, places (10 mm, 10 mm), (50 mm, 10 mm)"
PLACES = "places (10 mm, 10 mm), (50 mm, 10 mm)"
HOLE = f"drill: 4.2 mm, through, {PLACES}"


@functools.cache
def riveted(*changes: tuple[str, str]) -> Evaluated:
    text = TEXT
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return work_out(text, slug="riveted-hinge")


def last(*changes: tuple[str, str]) -> CheckedOperation:
    made = riveted(*changes)
    assert made.live.operations[-1].verb == "rivet", [str(problem) for problem in made.method.problems]
    return made.live.operations[-1]


def failed(done: CheckedOperation) -> dict[str, str]:
    return {check.key: str(check.words).replace("\u202f", " ") for check in done.checks if check.state == "failed"}


def volume_of(done: CheckedOperation) -> float:
    return done.after.bodies["rivet"].solid.volume


SHANK = math.pi / 4 * 4.2**2 * 10
SNAP = math.pi * 3 * (3 * 3.5**2 + 3**2) / 6
"""A cap 7 wide and 3 high."""
SUNK = math.pi * 1.9 / 12 * (8**2 + 8 * 4.2 + 4.2**2) - math.pi / 4 * 4.2**2 * 1.9
"""A cone of 90 degrees from 8 down to the hole, less the shank in it."""
PAN = math.pi * 2.8 / 12 * (6.4**2 + 6.4 * 4.2 + 4.2**2)
FLUSH = (
    ("4 mm x 60 mm\nmachine: mill\nhold: machine vice, up top, towards front, grip 2.5 mm\n```\n\n```op\n" + HOLE,
     "4 mm x 60 mm\nmachine: mill\nhold: machine vice, up top, towards front, grip 2.5 mm\n```\n\n```op\n" + HOLE
     + f"\n```\n\n```op\ncountersink: 8 mm, {PLACES}"),
    (LINE, f"rivet: 4 mm, head countersunk, tail snap, {PLACES}"),
)  # fmt: skip


def test_the_metal_of_a_closed_rivet() -> None:
    assert volume_of(last()) == pytest.approx(SHANK + 2 * SNAP, rel=2e-3)
    pans = last((LINE, f"rivet: 4 mm, head pan, {PLACES}"))
    assert volume_of(pans) == pytest.approx(SHANK + 2 * PAN, rel=2e-3)
    flush = last(*FLUSH)
    assert failed(flush) == {}
    assert volume_of(flush) == pytest.approx(SHANK + SNAP + SUNK, rel=2e-3)


def test_what_is_left_for_the_head_has_its_volume() -> None:
    """What goes in is what is there afterwards: the rivet with one head, and the end that stands out."""
    for head, beyond in (("snap", 1.123), ("countersunk", 0.5236), ("pan", 0.9456)):
        found = rivet(4, 10, head, 4.2)
        assert found.allowance * math.pi * 4 == pytest.approx(beyond * 64 + math.pi / 4 * (4.2**2 - 16) * 10, rel=1e-3)
    assert 1.25 <= rivet(4, 6, "snap", 4.05).allowance / 4 <= 1.55, "old rule: 1.25 to 1.5 diameters"
    assert 0.65 <= rivet(4, 6, "countersunk", 4.05).allowance / 4 <= 1.0, "old rule: 0.75 to 1 diameter"


def test_what_the_rivets_carry() -> None:
    """Two of 4.2 in one plane of shear at half of the yield, against bearing in the thinner plate."""
    found = rivet_strength(4.2, 2, 1, 4, 200, 215)
    assert found.shear == pytest.approx(2 * math.pi / 4 * 4.2**2 * 100)
    assert found.bearing == pytest.approx(2 * 4.2 * 4 * 215)
    told = {fact.key: fact for fact in last().facts}
    assert "shear first" in str(told["rivet_force"].note)
    assert float(told["rivet_length"].value.value) == pytest.approx(
        10 + float(told["rivet_allowance"].value.value), abs=0.01
    )


def test_the_sheet_has_its_time_its_weight_and_its_caution() -> None:
    done = last()
    assert failed(done) == {}
    assert done.plan.by_hand == 6
    assert "riveting" in {caution.key for caution in done.cautions}
    assert done.grams_after == pytest.approx(7.85e-3 * (60 * 20 * 10 + 4 * SNAP), rel=5e-3)


LEAF = "hold: machine vice, up top, towards front, grip 4 mm\n```\n\n```op\n"
FAULTS = [
    ("nothing lies on the leaf", ("slide on: strap", "deburr: edges"), "rivet",
     "only the leaf has a hole"),
    ("the strap lies hollow", ("slide on: strap", "slide on: strap, at -4.5 mm"), "rivet", "0.5 mm of air"),
    ("the hole too large", (HOLE, HOLE.replace("4.2", "4.8")), "rivet-hole", "Ø4.8"),
    ("the hole of the rivet's own size", (HOLE, HOLE.replace("4.2", "4")), "rivet-hole", "Ø4 in the"),
    ("the hole too small", (HOLE, HOLE.replace("4.2", "3.9")), "overlap", "does not go into the hole"),
    ("one leaf drilled elsewhere", (LEAF + HOLE, LEAF + HOLE.replace("(50 mm", "(50.6 mm")), "in-line", "beside"),
    ("one leaf not drilled", (LEAF + HOLE, LEAF + "deburr: edges"), "overlap", "no hole is there"),
    ("too short for a head", ("long 17 mm", "long 14 mm"), "rivet-length", "4 mm stand out"),
    ("far too long", ("long 17 mm", "long 22 mm"), "rivet-length", "12 mm stand out"),
    ("too near the edge", (PLACES, "places (10 mm, 10 mm), (56 mm, 10 mm)"), "rivet-edge", "4 mm from the middle"),
    ("too near each other", (PLACES, "places (10 mm, 10 mm), (16 mm, 10 mm)"), "rivet-edge", "3.9 mm from the middle"),
    ("no countersink", ("head snap, long 17 mm", "head countersunk"), "rivet-head", "no countersink"),
    ("a thin rivet for a thick grip", ("4 mm x 60 mm", "22 mm x 60 mm"), "rivet-grip", "diameters"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "change", "key", "words"), FAULTS, ids=[fault[0] for fault in FAULTS])
def test_a_planted_fault_is_found(name: str, change: tuple[str, str], key: str, words: str) -> None:
    found = failed(last(change))
    assert key in found, found
    assert words in found[key]
    assert all(all(check.advice) for check in riveted(change).method.failed)
