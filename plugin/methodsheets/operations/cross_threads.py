"""What is tapped across the axis: a hole for a grub screw, the clamping screw of a slit collar?"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from methodsheets.geometry import Axis, profile
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.process import Process

from .advice import tapping_checks
from .cross_holes import ACROSS, place_across
from .holes import DEEP
from .plan import CutData, Made, Plan, Sketch
from .say import dim, number
from .station import PROUD, Station
from .threads import LEFT, NAME, _Hand, _thread
from .verb import TURNING, verb
from .words import Clause, Said

POINT_OF_DRILL = "point"
SHEET = (Change.WORDS, Change.NUMBERS)
SKIN = 0.02
"""mm that are left out at both ends where the hole is measured."""


def _clauses() -> Iterator[Clause]:
    """Those of a hole across; how deep a tap goes shows in words and numbers, as the solid keeps the drilled hole."""
    for clause in ACROSS:
        if clause.word != POINT_OF_DRILL:
            yield replace(clause, changes=SHEET) if clause.says == DEEP.says else clause


@verb(
    "cross-tap",
    frame=TURNING,
    family="threads",
    first=NAME,
    clauses=[*_clauses(), LEFT],
)
def cross_tap(station: Station, said: Said) -> Plan:
    """Tap a hole square to the axis; the hole stays at its drilled size in the solid."""
    thread, left, where = _thread(said), _Hand.of(said), place_across(station, said)
    radius, along, off = thread.major / 2, where.along, where.off
    met = [station.metal_across(radius, along, angle, off) for angle in where.angles]
    through = bool(said.get("through")) or "deep" not in said
    deep = max(outer - inner for outer, inner in met) if through else said.length("deep")
    axes = [one for angle, (outer, _) in zip(where.angles, met, strict=True)
            for one in station.across_axes(along, angle, outer - deep, off)]  # fmt: skip
    there = 2 * _hole(station, axes[0], deep)
    count, how_deep = len(where.angles), "through" if through else f"{dim(deep)} deep"
    at = f" at {', '.join(f'{number(a)}°' for a in where.angles)}" if any(where.angles) else ""
    plan = Plan(
        f"Tap {left.adverb}{left.name(thread)} {how_deep} across the work, {dim(along)} from the face{at}", [],
        CutData(Process.TAP, thread.major, there, thread.major, deep, holes=count, pitch=thread.pitch,
                depth_of_thread=thread.depth, slide="by hand", tool_turns=True),
        Sketch(along - radius, along + radius, thread.major, there, through=through, angles=where.angles,
               divided=where.divided, diameter_words=left.name(thread), size=thread.major, view="across"),
        marks=[_mouth(axis, deepest - sign * deep, sign, radius) for axis, deepest, sign in axes], must_cut=False,
        cautions=["tapping"], tool_words="tap", tool_size=thread.major,
        feature=str(said.get("called", f"thread {left.name(thread)}")), handling=1.0,
        by_hand=0.5 * count + 0.1 * count * deep / thread.pitch / 2, axes=axes,
        makes=(Made("depth", deep), Made("length", along)),
    )  # fmt: skip
    plan = left.carried_through(plan)
    return plan.with_more(checks=tapping_checks(said.place.line, thread, there, there))


def _hole(station: Station, axis: tuple[Axis, float, float], deep: float) -> float:
    """Radius of the hole that is there, the least over the depth of the thread; 0 for none."""
    line, deepest, sign = axis
    low, high = sorted((deepest - sign * SKIN, deepest - sign * (deep - SKIN)))
    shape = profile(station.piece.state.solid, line, low, high)
    met = shape.inner[shape.outer > shape.inner + SKIN] if len(shape.inner) else shape.inner
    return float(met.min()) if len(met) else 0.0


def _mouth(axis: Axis, mouth: float, sign: float, radius: float) -> np.ndarray:
    """Three quarters of a circle a little outside the mouth: the symbol of a thread."""
    return np.stack([axis.at(mouth - sign * PROUD, radius, math.degrees(a)) for a in np.linspace(0.35, 5.06, 55)])
