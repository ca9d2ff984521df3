"""Where does a joined piece come to stand, and what does the work weigh then? Volumes against closed forms."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.method import metal
from methodsheets.method.done import CheckedOperation
from methodsheets.operations import mouths
from methodsheets.reading.limits import Limit

PI = math.pi
CHUCK = "three-jaw chuck, on 40 mm, grip 15 mm, end A out"


def op(*lines: str) -> str:
    return block("op", *lines)


def setup(*lines: str) -> str:
    return block("setup", *lines)


def pin_of(size: float, long: float) -> str:
    """A pin of the method's own, parted off a rod."""
    rod = setup("piece: pin", f"stock: round {size} mm x {long + 30} mm", "material: silver steel", "machine: lathe",
                f"hold: collet chuck, on {size} mm, grip 12 mm, end A out")  # fmt: skip
    return rod + op("face: 1 mm") + op(f"part off: {long} mm, wide 2 mm")


def joined(before: str, line: str, hold: str = "press blocks, end A up", stock: str = "round 40 mm x 60 mm",
           pin: tuple[float, float] = (6, 30)) -> CheckedOperation:  # fmt: skip
    """A pin joined to the work after some operations."""
    text = method(before + pin_of(*pin) + setup("piece: main", "machine: press", f"hold: {hold}") + op(line),
                  stock=stock, front="piece: main\n")  # fmt: skip
    made = work_out(text)
    assert [str(p) for p in made.method.problems if not p.code.startswith("check-")] == []
    return made.live.operations[-1]


TABLE = "rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end {} up"


@pytest.mark.parametrize("end", ["A", "B"])
@pytest.mark.parametrize(
    ("place", "count"),
    [("on radius 13 mm, at 30 deg", 1), ("on circle 26 mm, divide 3", 3), ("on radius 13 mm, at 0 deg, 75 deg", 2),
     ("places (12 mm, -5 mm)", 1), ("places (12 mm, -5 mm), (-9 mm, 9 mm)", 2)],
)  # fmt: skip
def test_a_pin_in_a_hole_off_the_axis_fills_it(end: str, place: str, count: int) -> None:
    """V = bar + n · π/4 · d² · (l - deep): what stands proud; the hole and the metal in it cancel."""
    held = setup("piece: main", "machine: mill", f"hold: {TABLE.format(end)}")
    where = [(13.0, a) for a in (30.0, 0.0, 120.0, 240.0, 75.0)]
    where += [(math.hypot(12, 5), math.degrees(math.atan2(-5, 12))), (math.hypot(9, 9), 135.0)]
    holes = "".join(op(f"drill: 6 mm, deep 20 mm, on radius {r} mm, at {a} deg") for r, a in where)
    one = joined(held + holes, f"press in: pin, at -10 mm, {place}", f"press blocks, end {end} up")
    alone = one.before.volume
    assert one.after.volume == pytest.approx(alone + count * PI / 4 * 36 * 30, rel=1e-6)
    assert len(one.after.bodies) == 1 + count
    assert {c.state for c in one.checks if c.key in ("overlap", "seat")} == {"passed"}
    assert one.plan.join is not None
    assert [round(s.length, 6) for s in one.plan.join.sits.seats] == [20.0] * count
    assert sum(b.grams for b in one.after.bodies.values()) == pytest.approx(one.grams_after)


@pytest.mark.parametrize(("long", "inner"), [(30, "divide 3"), (30, "at 40 deg")])
def test_a_pin_across_the_work_goes_in_where_it_was_drilled(long: int, inner: str) -> None:
    held = setup("piece: main", "machine: mill", "hold: vee block, on 40 mm, grip 20 mm, end A out")
    one = joined(held + op(f"cross-drill: 6 mm, from face 12 mm, deep 14 mm, {inner}"),
                 f"press in: pin, from face 12 mm, {inner}, in 37 mm", pin=(6, long))  # fmt: skip
    assert {c.state for c in one.checks if c.key in ("overlap", "seat")} == {"passed"}, [c.words for c in one.checks]
    count = 3 if "divide" in inner else 1
    assert one.after.volume - one.before.volume == pytest.approx(count * PI / 4 * 36 * long, rel=1e-6)


def test_several_pins_go_into_the_face_of_a_block() -> None:
    held = setup("piece: main", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
    places = "places (15 mm, 20 mm), (45 mm, 20 mm)"
    one = joined(held + op(f"drill: 6 mm, deep 20 mm, {places}"), f"press in: pin, at -10 mm, end B, {places}",
                 "press blocks, up top, towards front", "plate 60 mm x 40 mm x 25 mm")  # fmt: skip
    assert one.after.volume == pytest.approx(one.before.volume + 2 * PI / 4 * 36 * 30, rel=1e-6)
    low, high = one.after.bounds
    assert high[2] - low[2] == pytest.approx(35.0)


@pytest.mark.parametrize(
    ("up", "towards", "hole", "line"),
    [("right", "front", "(12 mm, 20 mm)", "from face 12 mm, at 0 deg, in 40 mm"),
     ("left", "front", "(13 mm, 20 mm)", "from face 12 mm, at 180 deg, in 40 mm"),
     ("back", "top", "(30 mm, 12 mm)", "from face 12 mm, at 90 deg, in 30 mm"),
     ("front", "bottom", "(40 mm, 13 mm)", "from face 12 mm, at 270 deg, off axis 10 mm, in 30 mm")],
)  # fmt: skip
def test_a_pin_goes_level_into_a_side_of_a_block(up: str, towards: str, hole: str, line: str) -> None:
    """A hole of 6, 20 deep, drilled with that side up; then the block stands on its bottom: 10 of 30 stand out."""
    held = setup("piece: main", "machine: mill", f"hold: machine vice, up {up}, towards {towards}, grip 10 mm")
    one = joined(held + op(f"drill: 6 mm, deep 20 mm, places {hole}"), f"press in: pin, {line}",
                 "press blocks, up top, towards front", "plate 60 mm x 40 mm x 25 mm")  # fmt: skip
    assert {c.state for c in one.checks if c.key in ("overlap", "seat", "in-line")} <= {"passed"}, one.checks
    assert one.after.volume == pytest.approx(one.before.volume + PI / 4 * 36 * 30, rel=1e-6)
    assert one.plan.join is not None
    assert [round(s.length, 6) for s in one.plan.join.sits.seats] == [20.0]


def test_a_bead_goes_round_every_mouth_that_is_asked_for() -> None:
    """Two webs 12 apart: two inner mouths, each with a ring of V = 2π (r + l/3) l²/2, l = √2 · throat (Pappus)."""
    text = (Path(__file__).parents[1] / "methods" / "two-web-shaft.md").read_text(encoding="utf-8")
    text += setup("machine: bench", "hold: by hand, end A up") + op("secure: pin, with weld, throat 0.7 mm, side inner")
    one = work_out(text).live.operations[-1]
    leg = math.sqrt(2) * 0.7
    ring = 2 * PI * (4 + leg / 3) * leg * leg / 2
    assert one.after.volume - one.before.volume == pytest.approx(2 * ring, rel=2e-3)
    assert [c.state for c in one.checks if c.key == "bead"] == ["passed", "passed"]
    (force,) = [f for f in one.facts if f.key == "bead_force"]
    assert force.value.value == pytest.approx(2 * 124.0 * 0.7 * PI * 8, rel=1e-3)  # type: ignore[union-attr]


def test_interference_is_a_fit_and_its_size_is_said() -> None:
    """A pin of 6.02 in a hole of 6: 20 µm, a fit; 0.2 mm are a clash."""
    held = setup("piece: main", "machine: lathe", f"hold: {CHUCK}") + op("drill: 6 mm, deep 20 mm")
    one = joined(held, "press in: pin, at -10 mm", pin=(6.02, 30))
    words = {c.key: (c.state, str(c.words.metric)) for c in one.checks}
    assert words["overlap"][0] == "passed"
    assert "20" in words["overlap"][1]
    clash = joined(held, "press in: pin, at -10 mm", pin=(6.2, 30))
    assert [c.key for c in clash.checks if c.state == "failed"] == ["overlap"]
    loose = joined(held, "slide in: pin, at -10 mm", pin=(6.02, 30))
    assert [c.key for c in loose.checks if c.state == "failed"] == ["overlap"]


def test_a_driven_pin_goes_square_into_its_wall() -> None:
    """A hole of 6 mm across a cone of 20° a side is 6 · tan 20° = 2.18 mm longer on one side."""
    cone = setup("piece: main", "machine: lathe", f"hold: {CHUCK}") + op("taper: from 20 mm, angle 20 deg, over 25 mm")
    held = setup("piece: main", "machine: mill", "hold: vee block, on 40 mm, grip 15 mm, end A out")
    one = joined(
        cone + held + op("cross-drill: 6 mm, from face 12 mm, through"), "press in: pin, from face 12 mm, in 15 mm"
    )
    (check,) = [c for c in one.checks if c.key == "square"]
    assert check.state == "failed"
    assert "20° off square" in check.words.metric


def test_each_wall_has_its_own_press_force() -> None:
    """Two webs, 8 and 5 long: force in the ratio of the lengths, 20 mm from the hole's axis to the rim's edge at most.

    F = μ p π d L with the pressure of one hub (Lamé), so F1 : F2 = 8 : 5 where the thinnest walls are alike.
    """
    calc = block("calc", "seat = fit_by_interference(6 mm, 4 um, 10 um)")
    held = setup("piece: main", "machine: lathe", f"hold: {CHUCK}") + op("groove: from 8 mm, wide 12 mm, to 12 mm")
    table = setup("piece: main", "machine: mill", f"hold: {TABLE.format('A')}")
    holes = op("drill: 6 mm, deep 25 mm, on radius 13 mm, at 0 deg")
    one = joined(calc + held + table + holes, "press in: pin, at -5 mm, on radius 13 mm, at 0 deg")
    (told,) = [t for t in one.tables if t.title == "What each wall asks and holds"]
    forces = [row[4].value for row in told.rows if not isinstance(row[4], str)]
    assert forces[0] / forces[1] == pytest.approx(8 / 5, rel=1e-6)
    rounds = [row[3].value for row in told.rows if not isinstance(row[3], str)]
    assert rounds == [pytest.approx(14.0, rel=1e-3)] * 2  # 20 - 13 = 7 mm to the edge
    (whole,) = [f for f in one.facts if f.key == "press_force"]
    assert whole.value.value == pytest.approx(sum(forces))  # type: ignore[union-attr]


TWO_WORKS = (
    setup("piece: one", "stock: round 40 mm x 60 mm", "machine: press", "hold: press blocks, end A up")
    + op("pin: 3 mm, long 10 mm, on circle 20 mm, divide 3")
    + setup("piece: main", "stock: round 40 mm x 60 mm", "machine: press", "hold: press blocks, end A up")
    + op("pin: 3 mm, long 10 mm, on circle 20 mm, divide 3")
    + op("press in: one, at -60 mm")
)
"""Eight bodies are there when a piece of four comes, so twelve in all."""


def refused(monkeypatch: pytest.MonkeyPatch, room: object, name: str, most: int) -> list[int]:
    """Lines of the operations that are too much when a limit is that small."""
    monkeypatch.setattr(room, name, Limit(most, "of a method", "", "there would be"))
    made = work_out(method(TWO_WORKS, front="piece: main\n"))
    return [one.place.line for one in made.live.problems if one.code == "too-much"]


def test_bodies_are_counted_over_all_pieces_of_a_method(monkeypatch: pytest.MonkeyPatch) -> None:
    """A limit of each work by itself was met by none of a hundred pieces."""
    lines = [number for number, line in enumerate(method(TWO_WORKS, front="piece: main\n").split("\n"), 1)
             if line.startswith(("pin:", "press in:"))]  # fmt: skip
    assert refused(monkeypatch, mouths, "BODIES", 12) == []
    assert refused(monkeypatch, mouths, "BODIES", 11) == lines[2:]
    assert refused(monkeypatch, mouths, "BODIES", 6) == lines[1:]


def test_facets_that_are_joined_are_counted_like_those_that_are_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    assert len(refused(monkeypatch, metal, "FACETS_IN_ALL", 1000)) == 2  # all but the first, before which are none
    assert refused(monkeypatch, metal, "FACETS_IN_ALL", 20_000) == []
