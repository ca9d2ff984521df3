"""A support is read in every spelling of the trade, and each is built, checked, drawn and counted as itself."""

from __future__ import annotations

import itertools
import math

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.drawings.solids import Drawn
from methodsheets.drawings.turning import turning_spec
from methodsheets.formula.measure import Measure
from methodsheets.method.done import CheckedOperation
from methodsheets.method.job import Evaluated
from methodsheets.trade.metal.materials import material
from methodsheets.vocabulary.support import ALONE, SPELLED, SUPPORTS, HeldUp, Support

BAR = "round 20 mm x 120 mm"
HOLD = "hold: three-jaw chuck, on 20 mm, grip 20 mm, end A out"
SPELLINGS = [(support, word) for support, row in SUPPORTS.items() for word in row.words]


def bar(support: str = "", *ops: str) -> Evaluated:
    hold = HOLD + (f", support {support}" if support else "")
    blocks = block("setup", "machine: lathe", hold) + "".join(block("op", op) for op in ops)
    return work_out(method(blocks, stock=BAR))


def last(made: Evaluated) -> CheckedOperation:
    assert made.live.operations, [str(p) for p in made.method.problems]
    return made.live.operations[-1]


def bending(done: CheckedOperation) -> float:
    found = next((f.value for f in done.facts if f.key == "deflection"), None)
    return found.value if isinstance(found, Measure) else 0.0


@pytest.mark.parametrize(("support", "word"), SPELLINGS, ids=[word for _, word in SPELLINGS])
def test_every_spelling_is_read(support: Support, word: str) -> None:
    american = word.replace("centre", "center").replace(" ", "-").upper()
    assert SPELLED.read(word) is SPELLED.read(american) is support


@pytest.mark.parametrize("where", ["hold", "verb"])
@pytest.mark.parametrize("word", ["banana", "centre banana", "live"])
def test_anything_else_is_refused_with_place_and_remedy(where: str, word: str) -> None:
    made = bar(word) if where == "hold" else bar("", f"support: {word}")
    problem = made.method.problems[0]
    assert "no such support" in problem.what
    assert problem.place.line == (10 if where == "hold" else 14)
    assert "travelling steady" in problem.rule
    assert problem.remedy


@pytest.mark.parametrize("support", [s for s in Support if s.row.centre], ids=str)
def test_a_centre_counts_as_one_however_it_is_called(support: Support) -> None:
    free, held = last(bar("", "turn: to 19.5 mm, over 60 mm")), last(bar(support, "turn: to 19.5 mm, over 60 mm"))
    assert bending(held) < 0.3 * bending(free)
    assert held.rig is not None
    assert held.rig.tail


def test_each_centre_looks_like_itself() -> None:
    shapes = []
    for support in (Support.ROTATING_CENTRE, Support.DEAD_CENTRE, Support.HALF_CENTRE):
        done = last(bar(support, "turn: to 19.5 mm, over 60 mm"))
        assert done.rig is not None
        shapes.append({part.name: part.ring for part in done.rig.tail})
    assert all(a != b for a, b in itertools.combinations(shapes, 2))


def test_a_travelling_steady_is_built_beside_the_tool_on_the_turned_diameter() -> None:
    done = last(bar("travelling steady", "turn: to 18 mm, over 60 mm"))
    assert done.rig is not None
    assert done.rig.tail == ()
    tip = next(part for part in done.rig.follows if part.name == "finger tip")
    assert min(r for _, r in tip.ring) == pytest.approx(9.0)
    assert 46.0 < tip.bounds[0] < tip.bounds[2] <= 60.0
    assert not [check for check in done.checks if check.state == "failed"]


def test_a_travelling_steady_holds_the_work_at_the_tool() -> None:
    """At each place it is a bar in the chuck that rests on the finger 8 mm beyond the tool.

    F a³ b² (3 a + 4 b) / (12 E I L³) with b = L - a (handbook formula, from memory), the finger bearing on the
    turned diameter; the 8 mm before it comes onto the work are free, so the cut starts 20 mm from the face here.
    """
    free = last(bar("", "turn: from 20 mm, to 19.5 mm, over 40 mm, left hand"))
    done = last(bar("travelling steady", "turn: from 20 mm, to 19.5 mm, over 40 mm, left hand"))
    a, b = 80.0, 8.0
    push = 0.5 * done.worked.force
    moment = math.pi * 20.0**4 / 64
    whole = push * a**3 * b**2 * (3 * a + 4 * b) / (12 * material("EN1A").modulus * moment * (a + b) ** 3)
    assert whole < bending(free) / 5
    assert bending(done) == pytest.approx(whole, rel=0.12, abs=0.0005)


def test_a_travelling_steady_is_drawn_as_itself() -> None:
    made = bar("travelling steady", "turn: to 18 mm, over 60 mm")
    figure = turning_spec(Drawn(), made.live.setups[-1], last(made), pictorials=False)
    assert figure is not None
    assert figure.support == "travelling steady"
    assert {part.name for part in figure.tail_parts or ()} == {"steady", "finger", "finger tip"}


def test_a_steady_is_brought_up_beside_the_centre_and_none_takes_both_away() -> None:
    both = ALONE.brought(Support.DEAD_CENTRE).brought(Support.FIXED_STEADY, 30.0)
    assert both == HeldUp(Support.DEAD_CENTRE, Support.FIXED_STEADY, 30.0)
    assert both.words == "dead centre and fixed steady"
    assert both.brought(Support.NONE) == ALONE


@pytest.mark.parametrize("support", [s for s in Support if not s.row.place_of_its_own], ids=str)
@pytest.mark.parametrize("where", ["hold", "verb"])
def test_a_place_for_what_has_none_is_refused(support: Support, where: str) -> None:
    made = bar(f"{support}, support at 20 mm") if where == "hold" else bar("", f"support: {support}, at 20 mm")
    assert made.method.problems[0].code == "idle-clause"


def test_a_half_centre_lets_a_tool_face_down_to_its_hole() -> None:
    """The tool meets the plain centre's cone where the half centre is cut away."""
    ops = ("centre: 3.15 mm", "support: {}", "face: 0.4 mm, down to 8 mm")
    plain, half = (last(bar("", *(op.format(kind) for op in ops))) for kind in ("dead centre", "half centre"))
    assert [c.key for c in plain.checks if c.state == "failed"] == ["centre"]
    assert [c.key for c in half.checks if c.state == "failed"] == []
