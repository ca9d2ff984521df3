"""Metal that goes when webs, cams and counterweights are milled on the side of turned work, against closed forms."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass
from pathlib import Path

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.method.done import CheckedOperation

PI = math.pi
STOCK = "round 50 mm x 60 mm"
SHOP = "osierbank-large"
TABLE = block("setup", "machine: mill", "hold: rotary table with three-jaw chuck, on 50 mm, grip 20 mm, end A up")
LEVER = (Path(__file__).parents[1] / "methods" / "lever-arm.md").read_text(encoding="utf-8")


@functools.cache
def milled(line: str, *more: str, setup: str = TABLE) -> CheckedOperation:
    made = work_out(method(setup + block("op", line, *more), stock=STOCK), SHOP)
    assert not [p for p in made.method.problems if not p.code.startswith("check-")], [
        str(p) for p in made.method.problems
    ]
    return made.live.operations[-1]


def hull(hub: float, nose: float, offset: float) -> float:
    """Area of two discs and what lies between their two outer tangents."""
    lean = math.acos((hub - nose) / offset)
    return hub**2 * (PI - lean) + nose**2 * lean + (hub + nose) * offset * math.sin(lean)


def beyond(radius: float, distance: float) -> float:
    """Area of a disc beyond a chord."""
    return radius**2 * math.acos(distance / radius) - distance * math.sqrt(radius**2 - distance**2)


DISC = PI * 625
CASES = [
    ("web: hub 12 mm, nose 9 mm, offset 13 mm, over 10 mm", (DISC - hull(12, 9, 13)) * 10),
    ("web: hub 9 mm, nose 12 mm, offset 11 mm, at 120 deg, over 10 mm", (DISC - hull(9, 12, 11)) * 10),
    ("web: hub 10 mm, nose 10 mm, offset 12 mm, over 10 mm, climb", (DISC - hull(10, 10, 12)) * 10),
    ("web: hub 12 mm, nose 9 mm, offset 13 mm, over 10 mm, flanks only", 2 * beyond(25, 12) * 10),
    ("web: hub 12 mm, nose 9 mm, offset 13 mm, at 75 deg, over 10 mm, flanks only", 2 * beyond(25, 12) * 10),
    ("outline: points (-15 mm, -15 mm), (15 mm, -15 mm), (15 mm, 15 mm), (-15 mm, 15 mm), over 10 mm", (DISC - 900) * 10),
    ("outline: points (-10 mm, -15 mm), (10 mm, -15 mm), (10 mm, 15 mm), (-10 mm, 15 mm), over 10 mm, offset 3 mm, at 90 deg",
     (DISC - 600) * 10),
    ("outline: points (-15 mm, -15 mm, 5 mm), (15 mm, -15 mm), (15 mm, 15 mm), (-15 mm, 15 mm), over 10 mm",
     (DISC - 900 + 25 * (1 - PI / 4)) * 10),
    ("outline: points (15 mm, 0 mm), (0 mm, 15 mm), (-15 mm, 0 mm), (0 mm, -15 mm), via (0 mm, 15 mm), (0 mm, -15 mm), over 10 mm",
     (DISC - PI * 225) * 10),
]  # fmt: skip


@pytest.mark.parametrize(("line", "volume"), CASES, ids=[line for line, _ in CASES])
def test_metal_outside_the_outline(line: str, volume: float) -> None:
    one = milled(line)
    assert one.volume == pytest.approx(volume, rel=1e-3)
    low, high = one.removed[0].bounds
    assert (low[2], high[2]) == (pytest.approx(0.0), pytest.approx(10.0))
    assert not [check for check in one.checks if check.state == "failed"]


@pytest.mark.parametrize(("at", "way"), [(0, (1, 0)), (90, (0, -1)), (180, (-1, 0)), (45, (0.7071, -0.7071))])
def test_the_nose_points_where_it_is_said(at: float, way: tuple[float, float]) -> None:
    """90° is anticlockwise as one looks at face A, which is -y of the work."""
    one = milled(f"web: hub 8 mm, nose 6 mm, offset 15 mm, at {at} deg, over 10 mm")
    tip = [21.0 * x for x in way] + [5.0]
    solid = one.after.solid
    assert solid.holds([0.99 * tip[0], 0.99 * tip[1], 5.0])
    assert not solid.holds([-0.5 * tip[0], -0.5 * tip[1], 5.0])


@pytest.mark.parametrize("end", ["A", "B"])
def test_both_ends_see_the_same_outline(end: str) -> None:
    """Looked at from either face, y lies a quarter turn anticlockwise from x."""
    setup = block(
        "setup", "machine: mill", f"hold: rotary table with three-jaw chuck, on 50 mm, grip 20 mm, end {end} up"
    )
    one = milled("outline: points (-15 mm, -10 mm), (15 mm, -10 mm), (0 mm, 20 mm), over 10 mm", setup=setup)
    z, y = (5.0, -18.0) if end == "A" else (55.0, 18.0)
    assert one.after.solid.holds([0.0, y, z])
    assert not one.after.solid.holds([0.0, -y, z])


@pytest.mark.parametrize(
    ("more", "way", "sense", "side"),
    [("", "conventional", "goes anticlockwise", "on its left"), (", climb", "climb", "goes clockwise", "on its right")],
)
def test_which_way_round(more: str, way: str, sense: str, side: str) -> None:
    """A right-hand cutter turns clockwise seen from above; going round the outside clockwise it climbs (textbooks)."""
    one = milled(f"web: hub 12 mm, nose 9 mm, offset 13 mm, over 10 mm{more}")
    said = next(f for f in one.facts if f.key == "way_round").value.metric  # type: ignore[union-attr]
    assert said.startswith(way)
    assert sense in said
    assert side in said
    assert any(c.key == "climb" for c in one.cautions) == bool(more)


def test_the_cutter_is_drawn_at_the_flank() -> None:
    one = milled("web: hub 12 mm, nose 9 mm, offset 13 mm, at 30 deg, over 10 mm")
    lean = math.degrees(math.acos(3 / 13))
    assert one.plan.sketch.angles == pytest.approx((30 + lean, 30 - lean))
    assert one.plan.sketch.radius == pytest.approx(12.0)
    assert not any("No drawing" in str(note) for note in one.notes)


def test_a_roughing_cutter_s_force_is_not_known() -> None:
    one = milled("web: hub 12 mm, nose 9 mm, offset 13 mm, over 10 mm, cutter 16 mm", "tool: roughing cutter")
    assert one.tool is not None
    assert one.tool.usual_name == "roughing cutter"
    words = next(f for f in one.facts if f.key == "roughing_force").value.metric  # type: ignore[union-attr]
    assert "not known" in words


@dataclass(frozen=True)
class Planted:
    """A change in the sound lever, and what must be found on the line of the web."""

    name: str
    line: str
    key: str
    says: str
    more: str = ""
    hold: str = "rotary table with three-jaw chuck, on 16 mm, grip 28 mm, end A up"


WEB = "web: hub 12 mm, nose 8 mm, offset 14 mm, over 10 mm"
FAULTS = [
    Planted("the arm points the other way", WEB + ", at 180 deg", "finished-surface", "belong to the finished part"),
    Planted("the nose is too thin", WEB.replace("nose 8", "nose 6"), "finished-surface", "belong to the finished part"),
    Planted("the hub is left too thick", WEB.replace("hub 12", "hub 13"), "intended-part", "left on"),
    Planted("milled into the jaws", WEB.replace("over 10", "over 20"), "jaws", "the cut from 0 to 20 lies in the grip"),
    Planted("a cutter that is not there", WEB + ", cutter 25 mm", "tool-size", "no end mill"),
    Planted("a checked size left by a roughing cutter", WEB + ", cutter 16 mm", "tool-shape", "leaves ribs on the wall",
            "tool: roughing cutter\ncheck: limits(24 mm, \"js12\") with caliper"),
]  # fmt: skip


@pytest.mark.parametrize("case", FAULTS, ids=[case.name for case in FAULTS])
def test_a_planted_fault(case: Planted) -> None:
    line = "\n".join(part for part in (case.line, case.more) if part)
    text = LEVER.replace("```op\n" + WEB, "```op\n" + line)
    made = work_out(text, SHOP, "lever-arm").method
    told = [f"{check.line} {check.key}: {check.words}" for check in made.failed]
    keys = {check.key for check in made.failed}
    assert case.key in keys, told
    assert any(case.says in check.words.metric for check in made.failed if check.key == case.key), told
    assert {check.line for check in made.failed if check.key == case.key} == {text[: text.index(line)].count("\n") + 1}
    assert not [p for p in made.problems if not p.code.startswith("check-")], [str(p) for p in made.problems]


def test_what_stands_in_front_keeps_the_cutter_out() -> None:
    one = milled("web: hub 12 mm, nose 9 mm, offset 13 mm, from 15 mm, over 10 mm")
    failed = [check for check in one.checks if check.state == "failed"]
    assert [check.key for check in failed] == ["way-in"]
    assert "in the first 15 stands outside the outline" in failed[0].words.metric
    assert failed[0].remedy


REFUSED = [
    ("web: hub 12 mm, nose 2 mm, offset 8 mm, over 10 mm", "wrong-value"),
    ("web: hub 12 mm, offset 8 mm, over 10 mm", "missing-clause"),
    ("web: hub 30 mm, nose 30 mm, offset 2 mm, over 10 mm", "nothing-to-cut"),
    ("outline: points (0 mm, 0 mm), (10 mm, 0 mm), over 10 mm", "wrong-value"),
    ("outline: points (-9 mm, -9 mm), (9 mm, 9 mm), (9 mm, -9 mm), (-9 mm, 9 mm), over 10 mm", "wrong-outline"),
    ("web: hub 12 mm, nose 9 mm, offset 13 mm, from 55 mm, over 10 mm", "too-long"),
]  # fmt: skip


@pytest.mark.parametrize(("line", "code"), REFUSED)
def test_what_makes_no_outline_is_refused(line: str, code: str) -> None:
    problems = work_out(method(TABLE + block("op", line), stock=STOCK), SHOP).method.problems
    assert [p.code for p in problems if not p.code.startswith("check-")] == [code], [str(p) for p in problems]
    assert problems[0].remedy


def test_inside_an_opening_the_sense_is_the_other_one() -> None:
    """Climb milling keeps the work on the cutter's right: round the inside that is anticlockwise."""
    vice = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 8 mm")
    line = "profile: points (10 mm, 10 mm), (50 mm, 10 mm), (30 mm, 30 mm), deep 4 mm, climb"
    for more, sense in (("", "clockwise"), (", inside", "anticlockwise")):
        made = work_out(method(vice + block("op", line + more), stock="plate 60 mm x 40 mm x 25 mm"), SHOP)
        one = made.live.operations[-1]
        said = next(f for f in one.facts if f.key == "way_round").value.metric  # type: ignore[union-attr]
        assert said.startswith(f"climb: the cutter goes {sense} round")
        assert one.plan.climb
