"""Metal that each verb on a six-face block takes, against closed forms, on all six faces."""

from __future__ import annotations

import math

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.method.done import CheckedOperation

PI = math.pi
PLATE = "plate 60 mm x 40 mm x 25 mm"
SHOP = "osierbank-large"
"""The shop with the larger cutters: here only the metal counts."""


def vice(up: str = "top", towards: str = "front") -> str:
    return block("setup", "machine: mill", f"hold: machine vice, up {up}, towards {towards}, grip 8 mm")


def done(setup: str, *lines: str) -> CheckedOperation:
    made = work_out(method(setup + "".join(block("op", line) for line in lines), stock=PLATE), SHOP)
    assert not made.method.problems, [str(p) for p in made.method.problems]
    return made.live.operations[-1]


def segment(radius: float, distance: float) -> float:
    """Area of a circle beyond a chord."""
    return radius**2 * math.acos(distance / radius) - distance * math.sqrt(radius**2 - distance**2)


ROUND_END = segment(17.0, 8.0)
"""A bulge of 9 mm on a chord of 30 mm: circle through (50, 5), (59, 20), (50, 35), of radius (15² + 9²) / 18 = 17 mm."""

CASES = [
    ("face", ["face: 1 mm"], 60 * 40 * 1, "Mill the top face, 1 off"),
    ("face to a thickness", ["face: to length 22 mm"], 60 * 40 * 3, "Mill the top face to 22 thick"),
    ("step left", ["step: side left, wide 10 mm, deep 6 mm"], 10 * 40 * 6, "Mill a step 10 × 6 along the left side"),
    ("step back", ["step: side back, wide 10 mm, deep 6 mm"], 10 * 60 * 6, "Mill a step 10 × 6 along the back side"),
    ("slot", ["slot: wide 8 mm, deep 5 mm, along length"], 60 * 8 * 5, "Mill a slot 8 wide, 5 deep, along the length"),
    ("slot across", ["slot: wide 8 mm, deep 5 mm, along width, middle 20 mm"], 40 * 8 * 5, "Mill a slot 8 wide, 5 deep, along the width"),
    ("closed slot", ["slot: wide 8 mm, deep 5 mm, along length, from 10 mm, to 50 mm"], (32 * 8 + PI * 16) * 5, "Mill a slot 8 wide, 5 deep, along the length"),
    ("pocket", ["pocket: from (10 mm, 10 mm), to (40 mm, 30 mm), deep 6 mm, corner 4 mm"], (600 - (4 - PI) * 16) * 6, "Mill a pocket 30 × 20, 6 deep"),
    ("outline", ["profile: points (5 mm, 5 mm), (50 mm, 5 mm), (50 mm, 35 mm), (5 mm, 35 mm), deep 6 mm"],
     (60 * 40 - 45 * 30) * 6, "Mill the outline of 4 corners, 6 deep"),
    ("outline with round corners", ["profile: points (5 mm, 5 mm, 6 mm), (50 mm, 5 mm), (50 mm, 35 mm, 6 mm), (5 mm, 35 mm), deep 6 mm"],
     (60 * 40 - 45 * 30 + 2 * 36 * (1 - PI / 4)) * 6, "Mill the outline of 4 corners, 6 deep"),
    ("outline with a round corner that looks inward", ["profile: points (5 mm, 5 mm), (50 mm, 5 mm), (50 mm, 20 mm), (30 mm, 20 mm, 5 mm), (30 mm, 35 mm), (5 mm, 35 mm), deep 6 mm"],
     (60 * 40 - (45 * 15 + 25 * 15 + 25 * (1 - PI / 4))) * 6, "Mill the outline of 6 corners, 6 deep"),
    ("outline with an arc that bulges", ["profile: points (5 mm, 5 mm), (50 mm, 5 mm), (59 mm, 20 mm), (50 mm, 35 mm), (5 mm, 35 mm), via (59 mm, 20 mm), deep 6 mm"],
     (60 * 40 - 45 * 30 - ROUND_END) * 6, "Mill the outline of 5 corners, 6 deep"),
    ("outline with a hollow arc, written clockwise", ["profile: points (5 mm, 35 mm), (50 mm, 35 mm), (41 mm, 20 mm), (50 mm, 5 mm), (5 mm, 5 mm), via (41 mm, 20 mm), deep 6 mm"],
     (60 * 40 - 45 * 30 + ROUND_END) * 6, "Mill the outline of 5 corners, 6 deep"),
    ("opening", ["profile: points (10 mm, 10 mm), (40 mm, 10 mm), (40 mm, 30 mm), deep 6 mm, inside"], 30 * 20 / 2 * 6, "Mill the opening of 3 corners, 6 deep"),
    ("vee", ["vee: wide 10 mm, along width"], 10 * 5 / 2 * 40, "Mill a 90° vee 10 wide along the width"),
    ("vee of 60°", ["vee: wide 10 mm, along length, angle 60 deg"], 10 * 5 / math.tan(PI / 6) / 2 * 60, "Mill a 60° vee 10 wide along the length"),
    ("dovetail", ["dovetail: wide 12 mm, deep 6 mm, along length"], (12 * 6 + 36 / math.tan(PI / 3)) * 60, "Mill a 60° dovetail slot 12 wide at the face, 6 deep, along the length"),
    ("T-slot", ["t-slot: wide 6 mm, deep 10 mm, head 12 mm, high 5 mm, along width"], (6 * 5 + 12 * 5) * 40, "Mill a T-slot 6 wide, head 12 × 5, 10 deep, along the width"),
    ("chamfer", ["chamfer: 2 mm, side front"], 2 * 60, "Chamfer the front edge 2 × 45°"),
    ("chamfer all round", ["chamfer: 2 mm, side all"], 2 * 2 * (60 + 40) - 4 * 8 / 3, "Chamfer the upper edges 2 × 45°"),
    ("holes", ["drill: 5 mm, through, places (10 mm, 10 mm), (50 mm, 30 mm)"], 2 * PI * 6.25 * 25, "Drill 2 × Ø5 through at (10, 10), (50, 30)"),
    ("counterbore", ["drill: 5 mm, through, places (20 mm, 20 mm)", "counterbore: 10 mm, deep 6 mm, places (20 mm, 20 mm)"], PI * (25 - 6.25) * 6, "Counterbore Ø10 6 deep at (20, 20)"),
    ("counterbore from the back", ["drill: 5 mm, through, places (20 mm, 20 mm)", "counterbore: 10 mm, deep 3 mm, back, places (20 mm, 20 mm)"], PI * (25 - 6.25) * 3, "Counterbore Ø10 3 deep from the back at (20, 20)"),
    ("bore", ["drill: 15 mm, through, places (30 mm, 20 mm)", "bore: to 20 mm, deep 10 mm, places (30 mm, 20 mm)"], PI * (100 - 56.25) * 10, "Bore to Ø20 10 deep at (30, 20)"),
    ("saw out", ["saw out: from (10 mm, 10 mm), to (40 mm, 30 mm)"], 30 * 20 * 25, "Saw out 30 × 20"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "lines", "volume", "words"), CASES, ids=[case[0] for case in CASES])
def test_metal_and_words(name: str, lines: list[str], volume: float, words: str) -> None:
    one = done(vice(), *lines)
    assert one.volume == pytest.approx(volume, rel=1e-4)
    assert one.words.metric == words


FACES = {
    "top": ("front", 60 * 40), "bottom": ("front", 60 * 40), "front": ("bottom", 60 * 25), "back": ("top", 60 * 25),
    "left": ("front", 40 * 25), "right": ("top", 40 * 25),
}  # fmt: skip


@pytest.mark.parametrize("up", FACES)
def test_every_face_can_be_up(up: str) -> None:
    """A millimetre off a face takes that face's area; the block shrinks on that side and no other."""
    towards, area = FACES[up]
    one = done(vice(up, towards), "face: 1 mm")
    assert one.volume == pytest.approx(area, rel=1e-9)
    low, high = one.after.bounds
    was_low, was_high = one.before.bounds
    moved = [float(a) for a in (*(low - was_low), *(was_high - high))]
    assert sorted(moved) == pytest.approx([0, 0, 0, 0, 0, 1])
    place = {"left": 0, "front": 1, "bottom": 2, "right": 3, "back": 4, "top": 5}[up]
    assert moved[place] == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("towards", "x", "y"), [("front", 10.0, 8.0), ("back", 50.0, 32.0), ("left", 8.0, 30.0), ("right", 52.0, 10.0)]
)
def test_places_are_counted_from_the_left_and_from_you(towards: str, x: float, y: float) -> None:
    """(10, 8) with each side towards you in turn, on a block 60 by 40: where that hole lies in the block's own frame."""
    one = done(vice("top", towards), "drill: 5 mm, through, places (10 mm, 8 mm)")
    (hole,) = [s for solid in one.after for s in solid.mesh().surfaces if s.kind == "cylinder"]
    assert (hole.point[0], hole.point[1]) == (pytest.approx(x), pytest.approx(y))


def test_a_second_cut_is_measured_from_the_new_face() -> None:
    one = done(vice(), "face: 2 mm", "slot: wide 8 mm, deep 5 mm, along length")
    low, high = one.removed[0].bounds
    assert (low[2], high[2]) == (pytest.approx(18.0), pytest.approx(23.0))


@pytest.mark.parametrize("keep", ["front", "back"])
def test_saw_off_keeps_what_is_said(keep: str) -> None:
    saw = block("setup", "machine: saw", "hold: saw vice, up left, towards front")
    one = done(saw, f"saw off: 20 mm, wide 1 mm, keep {keep}")
    assert one.after.volume == pytest.approx((20 if keep == "front" else 39) * 40 * 25, rel=1e-6)


@pytest.mark.parametrize(("up", "towards", "words"), [
    ("left", "front", "Mill the left face to 58 long"),
    ("front", "bottom", "Mill the front face to 38 wide"),
    ("bottom", "back", "Mill the bottom face to 24 thick"),
])  # fmt: skip
def test_a_size_between_two_faces_is_called_as_the_trade_does(up: str, towards: str, words: str) -> None:
    size = words.split()[-2]
    made = work_out(method(vice(up, towards) + block("op", f"face: to length {size} mm"), stock=PLATE), SHOP)
    assert made.live.operations[-1].words.metric == words
