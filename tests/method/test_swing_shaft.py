"""The pair of swing shafts: one part two ways, the same metal in the end, and what the bar left in is worth."""

from __future__ import annotations

import functools
import math

import pytest
from tests.method.bench import demo, work_out

from methodsheets.formula.measure import Measure
from methodsheets.method.job import Evaluated

BUILT, SOLID = "swing-shaft-built-up", "swing-shaft-solid"


@functools.cache
def made(slug: str) -> Evaluated:
    return work_out(demo(slug), slug=slug)


def bends(slug: str, title: str) -> float:
    """Millimetres by which the work bends at the tool in the cuts of a feature; what is not said is below a micron."""
    found = [f.value.value for o in made(slug).live.operations if o.plan.feature == title for f in o.facts
             if f.key == "deflection" and isinstance(f.value, Measure)]  # fmt: skip
    return max(found, default=0.0)


@pytest.mark.parametrize("slug", [BUILT, SOLID])
def test_the_part_has_the_volume_of_its_cylinders(slug: str) -> None:
    """V = π/4 (2 · 10² · 14 + 2 · 32² · 8 + 8² · 16), less two centre holes of about 18 mm³ each."""
    closed = math.pi / 4 * (2 * 10**2 * 14 + 2 * 32**2 * 8 + 8**2 * 16)
    job = made(slug).live
    assert closed - 60 < job.pieces[job.main].work.state.volume < closed - 20
    assert not made(slug).method.failed


def test_the_bar_left_in_is_worth_microns_at_the_journals() -> None:
    """The journals of the built-up shaft are finished while the bar still joins the webs; those of the other are not."""
    assert bends(SOLID, "journal A") > 0.003
    assert bends(BUILT, "journal A") < 0.0015


def test_the_pin_is_pressed_into_two_webs_and_stays_whole() -> None:
    job = made(BUILT).live
    (join,) = [o.plan.join for o in job.operations if o.plan.join is not None]
    assert [round(seat.length, 6) for seat in join.sits.seats] == [32.0]  # one hole: the bar is whole as yet
    assert job.pieces["shaft"].work.bodies["pin"].solid.volume == pytest.approx(math.pi / 4 * 64 * 32, rel=1e-6)
