"""What a core was worth that is cut out, and how the shaft then bends under the tool, against closed forms.

The shaft of a sieve shaker: journals of 12, webs of 40 by 10, a pin of 10 that is 12 mm off the axis, held on one journal.
"""

from __future__ import annotations

import functools
import math
import re
from pathlib import Path

import pytest
from tests.method.bench import block, work_out

from methodsheets.formula.measure import Measure
from methodsheets.method.done import CheckedOperation
from methodsheets.sheet.model import Fact
from methodsheets.trade.bending.offset_shafts import offset_shaft
from methodsheets.trade.metal.materials import material

SHAFT = (Path(__file__).parents[1] / "methods" / "sieve-shaft.md").read_text(encoding="utf-8")
PLAIN = SHAFT[: SHAFT.index("```part")] + SHAFT[SHAFT.index("```setup") :]
STEEL = material("EN8")
E, NU = STEEL.modulus, STEEL.poisson
G = E / (2 * (1 + NU))
THICK_FIRST = PLAIN.replace("turn: to 12 mm, over 12 mm", "turn: to 13 mm, over 12 mm", 1)
"""The journal of end A is left at 13, to be finished when the core is out."""


def fine(
    lathe: str = "three-jaw chuck, on 12 mm, grip 11 mm, end A out", op: str = "turn: to 12 mm, over 12 mm"
) -> str:
    return block("setup", "machine: lathe", f"hold: {lathe}") + block("op", op)


@functools.cache
def done(text: str) -> CheckedOperation:
    made = work_out(text)
    assert not [p for p in made.method.problems if not p.code.startswith("check-")], [
        str(p) for p in made.method.problems
    ]
    return made.live.operations[-1]


def fact(one: CheckedOperation, key: str) -> Fact:
    return next(f for f in one.facts if f.key == key)


def number(one: CheckedOperation, key: str) -> float:
    value = fact(one, key).value
    assert isinstance(value, Measure)
    return value.value


def mean_width(radius: float, throw: float) -> float:
    """Mean chord of a disc between its middle and the throw."""
    area = throw * math.sqrt(radius**2 - throw**2) / 2 + radius**2 / 2 * math.asin(throw / radius)
    return 2 * area / throw


WIDE = mean_width(20.0, 12.0)


def test_the_gap_opens_as_the_handbook_says() -> None:
    closed = offset_shaft(12, 10, 20, 10, WIDE, 100.0, 1.0, E, NU)
    assert number(done(SHAFT), "gap_opens") == pytest.approx(closed.opening, rel=5e-3)
    assert fact(done(SHAFT), "gap_opens").working[0].name == "offset_shaft"


def test_the_twist_is_that_of_the_webs_the_pin_and_the_journals() -> None:
    """T l / G I_p of each journal and of half of each web, and Castigliano's twist of webs and pin."""
    webs = math.radians(offset_shaft(12, 10, 20, 10, WIDE, 100.0, 1.0, E, NU).twist) * 1000
    polar = [math.pi * d**4 / 32 for d in (12, 40)]
    rest = 1e6 / G * (13 / polar[0] + 10 / polar[1])
    assert number(done(SHAFT), "end_twists") == pytest.approx(webs + rest, rel=0.01)


def test_the_core_was_worth_much() -> None:
    """While it is in, the shaft is a bar of 40 with two journals of 12: 13 mm of them bend, the rest hardly."""
    one = done(SHAFT)
    note = fact(one, "end_bends").note.metric
    bend = math.pi / 64
    length, thin, thick = 53.0, bend * 12**4, bend * 40**4
    before = 100 / (3 * E) * ((12**3 + length**3 - 52**3) / thin + (52**3 - 12**3) / thick)
    told = re.search(r"([\d.]+)\s*µm while the core was in", note)
    assert told is not None, note
    assert float(told[1]) == pytest.approx(1000 * before, rel=0.15), "shear is not in the closed form"
    assert number(one, "end_bends") > 10 * before


def test_clamping_the_pin_is_worth_its_caution() -> None:
    one = done(SHAFT)
    said = next(c.words for c in one.cautions if c.key == "clamp-what-is-left")
    assert said.startswith("Clamp the pin while you saw.")
    assert "100\u202fN (from memory)" in said
    assert "with the pin clamped between the webs it moves" in said
    note = fact(one, "gap_under_saw").note.metric
    assert "with the pin clamped" in note


@pytest.mark.parametrize(("pin", "more"), [("8", 1.8), ("6", 5.0)])
def test_a_thinner_pin_leaves_less(pin: str, more: float) -> None:
    """Bending and torsion of the pin go with the fourth power of its diameter; webs and journals stay."""
    thin = PLAIN.replace("9.8 mm", f"{int(pin) - 0.2} mm").replace("ream: 10 mm", f"ream: {pin} mm")
    thin = thin.replace("round 10 mm x", f"round {pin} mm x").replace("on 10 mm, grip 25", f"on {pin} mm, grip 25")
    assert number(done(thin), "end_twists") > more * number(done(SHAFT), "end_twists")
    assert number(done(thin), "gap_opens") > number(done(SHAFT), "gap_opens")


def test_a_neck_on_the_axis_is_a_plain_bar() -> None:
    """A groove sawn round a bar: no throw, so it twists as a stepped bar does."""
    text = (
        "---\nmethod: Neck\nmaterial: EN8\nstock: round 40 mm x 60 mm\nworkshop: osierbank-small\n---\n\n"
        + block("setup", "machine: bench", "hold: bench vice, on 40 mm, grip 15 mm, end A out")
        + block("op", "saw out: from 20 mm, wide 10 mm, down to 16 mm")
    )
    one = done(text)
    polar = [math.pi * d**4 / 32 for d in (40, 16)]
    assert number(one, "end_twists") == pytest.approx(1e6 / G * (35 / polar[0] + 10 / polar[1]), rel=5e-3)
    assert not [f for f in one.facts if f.key == "gap_opens"], "nothing is off the axis"


def test_two_pins_side_by_side_are_not_known() -> None:
    holes = "drill: 9.8 mm, through, from 12 mm, on radius 12 mm, at 0 deg"
    two = PLAIN.replace(holes, holes.replace("at 0 deg", "at 0 deg, 180 deg"))
    two = two.replace("ream: 10 mm, through, from 12 mm, on radius 12 mm, at 0 deg",
                      "ream: 10 mm, through, from 12 mm, on radius 12 mm, at 0 deg, 180 deg")  # fmt: skip
    second = PLAIN[PLAIN.index("```setup\npiece: work") : PLAIN.index("```setup\nmachine: bench")]
    key = second.replace("at 0 deg", "at 180 deg").replace("retain: pin", "retain: key")
    stock = "```setup\npiece: key\nmachine: bench\nstock: round 10 mm x 40 mm\nhold: by hand, end A out\n```\n\n```op\ndeburr: ends\n```\n\n"
    two = two.replace("```setup\nmachine: bench", f"{stock}{key}```setup\nmachine: bench", 1)
    one = done(two.replace("keep pin", "keep pin and key"))
    assert fact(one, "end_bends").value.metric == "not known, because 2 pieces side by side carry the ends"  # type: ignore[union-attr]
    assert not [c for c in one.cautions if c.key == "clamp-what-is-left"]


# ------------------------------------------------------------------------------------------------ turning afterwards
def test_an_end_turned_after_the_core_is_out_bends_with_the_whole_shaft() -> None:
    """And turned before, the sheet says of it what the other would be: the two orders know of one another."""
    one = done(THICK_FIRST + fine())
    cut = THICK_FIRST.rindex("```setup")
    made = work_out(THICK_FIRST[:cut] + fine() + THICK_FIRST[cut:])
    before = made.live.operations[-2]
    assert not made.method.failed
    assert number(one, "deflection") > 4 * number(before, "bends_with_support")
    assert number(before, "bends_without_support") == pytest.approx(number(one, "deflection"), rel=0.02)
    worth = number(before, "bends_without_support") - number(before, "bends_with_support")
    assert number(before, "support_worth") == pytest.approx(worth)
    assert "with what operation" in fact(before, "support_worth").note.metric
    assert not [f for f in one.facts if f.key == "support_worth"], "nothing is left in any more"
    assert "the core that held the ends in line is out" in fact(one, "deflection").note.metric
    assert "out of round" in fact(one, "taper_left").value.metric  # type: ignore[union-attr]


def test_a_centre_holds_the_free_end() -> None:
    centred = THICK_FIRST.replace(
        "turn: to 13 mm, over 12 mm\n```", "turn: to 13 mm, over 12 mm\n```\n\n```op\ncentre: 2 mm\n```", 1
    )
    held = centred + fine("three-jaw chuck, on 12 mm, grip 11 mm, end A out, support tailstock centre")
    keys = {f.key: f for f in done(held).facts}
    assert "deflection" not in keys or number(done(held), "deflection") < 0.2 * number(
        done(THICK_FIRST + fine()), "deflection"
    )


def test_about_another_axis_it_is_not_known() -> None:
    """Turned about the pin's own axis the frame does not serve, and the sheet says so."""
    hold = "four-jaw chuck, on 40 mm, grip 9 mm, stick-out 43 mm, end A out, axis offset 1 mm at 0 deg"
    one = done(PLAIN + fine(hold, "turn: to 41 mm, from 13 mm, over 8 mm"))
    value = fact(one, "deflection").value
    assert value.metric == "not known, because the work turns about an axis that is not that of its ends"  # type: ignore[union-attr]


def test_ends_turned_on_too_thin_a_pin_are_a_fault() -> None:
    thin = THICK_FIRST.replace("9.8 mm", "5.8 mm").replace("ream: 10 mm", "ream: 6 mm")
    thin = thin.replace("round 10 mm x", "round 6 mm x").replace("on 10 mm, grip 25", "on 6 mm, grip 25")
    one = done(thin + fine())
    failed = [check for check in one.checks if check.state == "failed"]
    assert [check.key for check in failed] == ["stiffness"], [str(check.words) for check in failed]
    assert "without its core" in failed[0].words.metric
    assert "before the core is cut out" in failed[0].remedy
