"""How is a cam milled: its outline by dwell and lift or by a table of lifts, set angle by angle on the dividing head?

The follower moves on a line through the axis. Cam and cutter are worked out from the middle of the follower: the cam
touches a roller from inside, a flat follower along its tangents.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from methodsheets.formula.measure import Measure
from methodsheets.geometry import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Check, Fact, Table, Working
from methodsheets.trade.dividing.cams import CamLift, cam_cusp, cam_lift, table_lifts
from methodsheets.trade.form.errors import OutOfRange
from methodsheets.vocabulary.cam import FOLLOWERS, MOTIONS, Follower, Motion
from methodsheets.vocabulary.change import Change

from .advice import handle_words
from .facts import fact, judged, length_measure, measure_of, worked
from .milling import CUTTER
from .outlines import CLIMB
from .plan import Made, Plan
from .say import degrees, dim, number
from .side_outlines import AT, side_plan
from .station import Station
from .turned_work import CALLED, FROM, OVER
from .verb import TURNING, verb
from .words import Clause, Said

Array = npt.NDArray[np.float64]
TURN = np.linspace(0.0, 360.0, 720, endpoint=False)
"""Angles of the points round a cam: every half degree."""
STEEPEST = 30.0
"""Degrees between the push of a cam and the line of its follower (common practice for a guided follower)."""
INDEXING = 0.3
"""Minutes to turn, lock and feed for one setting: an estimate."""
ROWS = 120


@dataclass(frozen=True, eq=False)
class _Cam:
    """A cam all round; angles in radians from where its rise begins, the rest in mm."""

    turn: Array
    lift: Array
    slope: Array
    bend: Array
    base: float
    follower: Follower
    roller: float
    """Radius of the roller, 0 for others."""

    @property
    def middle(self) -> Array:
        """Distance of the follower's middle from the axis."""
        return self.base + self.roller + self.lift

    def beside(self, reach: float) -> tuple[Array, Array]:
        """(x, y) of a curve that runs `reach` outside the cam, at every angle of the follower."""
        r, s, c = self.middle, np.sin(self.turn), np.cos(self.turn)
        if self.follower is Follower.FLAT:
            r = r + reach
            return r * c - self.slope * s, r * s + self.slope * c
        along = np.hypot(r, self.slope)
        off = (reach - self.roller) / along
        return r * c + off * (r * c + self.slope * s), r * s + off * (r * s - self.slope * c)

    @property
    def bow(self) -> Array:
        """Radius of curvature of the cam: below nothing where it is hollow; not a radius where it is undercut."""
        r = self.middle
        if self.follower is Follower.FLAT:
            return r + self.bend
        bent = r**2 + 2 * self.slope**2 - r * self.bend
        flat = np.where(np.abs(bent) < 1e-9, 1e-9, bent)
        return (r**2 + self.slope**2) ** 1.5 / flat - self.roller


@verb(
    "cam",
    frame=TURNING,
    family="milling",
    clauses=[
        Clause("base", "length", "radius of the base circle", True),
        Clause("lift", "length", "whole lift", says="the lift"),
        Clause(
            "lifts",
            "lengths",
            "lifts at equal steps round the whole turn, the first at 0 deg",
            says="the lift",
            apart=True,
        ),
        Clause("rise", "angle", "angle of the rise"),
        Clause("dwell", "angle", "angle at the top"),
        Clause("fall", "angle", "angle of the fall; that of the rise without it"),
        Clause("motion", "text", "uniform, harmonic, parabolic or cycloidal; harmonic without it", choices=MOTIONS),
        Clause("follower", "text", "point, roller or flat", True, choices=FOLLOWERS),
        Clause("roller", "length", "diameter of the roller"),
        Clause("step", "angle", "angle from setting to setting; 5 deg without it", changes=(Change.NUMBERS,)),
        FROM,
        OVER,
        replace(AT, apart=True),
        CUTTER,
        CLIMB,
        CALLED,
    ],
)
def cam(station: Station, said: Said) -> Plan:
    """Mill a cam by dwell and lift, or by a table of lifts, turning the work from setting to setting."""
    lifts, words, working = _lifting(said)
    shape = _round(said, lifts)
    step = _step(said)
    x, y = shape.beside(0.0)
    broken = _undercut(shape)
    if broken is not None:
        raise MethodError(said.where("base"), *broken, code="wrong-outline")
    outline = Outline(*zip(x.tolist(), y.tolist(), strict=True))
    run = float(np.hypot(np.diff(x, append=x[0]), np.diff(y, append=y[0])).sum())
    plan = side_plan(
        station, said, outline, f"a cam, base R{dim(shape.base)}, {words}, for {_follower(shape)}", "cam", run
    )
    cutter, turns = plan.cut.diameter, round(360.0 / step)
    high = float(shape.lift.max())
    plan = plan.with_more(
        facts=[*_facts(shape, step, cutter, working)],
        checks=_checks(shape, said, cutter),
        tables=[_table(station, shape, step, cutter, float(said.get("at", 0.0)))],
    )
    return replace(
        plan,
        handling=plan.handling + turns * INDEXING,
        makes=(*plan.makes, Made("width", 2 * shape.base + high), Made("length", shape.base + high)),
    )


def _lifting(said: Said) -> tuple[tuple[CamLift, ...], str, Working | None]:
    """Lifts all round, from where the rise begins, and how they are told."""
    if "lifts" in said:
        lifts = said.get("lifts")
        try:
            found = table_lifts(lifts)
        except ValueError as error:
            raise MethodError(said.where("lifts"), f"{error} (got {len(lifts)})", "equal steps round the whole turn",
                              "write more lifts", code="wrong-value") from None  # fmt: skip
        return tuple(map(found, TURN.tolist())), f"{len(lifts)} lifts up to {dim(max(lifts))}", None
    lift, rise, dwell = said.length("lift"), float(said.length("rise")), float(said.get("dwell", 0.0))
    fall, motion = float(said.get("fall", rise)), said.get("motion", Motion.HARMONIC)
    try:
        _, working = worked(cam_lift, rise / 2, lift, rise, dwell, fall, str(motion))
    except OutOfRange as error:
        rule, remedy = "rise, dwell and fall fit into one turn, and all are more than nothing", "check the angles"
        raise MethodError(said.where("rise"), str(error), rule, remedy, code="wrong-value") from None
    words = f"lift {dim(lift)} in {degrees(rise)}, {motion}" + (f", dwell {degrees(dwell)}" if dwell else "")
    words += f", fall in {degrees(fall)}"
    return _by_law(lift, rise, dwell, fall, str(motion)), words, working


@functools.lru_cache(maxsize=32)
def _by_law(lift: float, rise: float, dwell: float, fall: float, motion: str) -> tuple[CamLift, ...]:
    """The same cam stands in the part, in the operation that mills it, and again at each save."""
    return tuple(cam_lift(angle, lift, rise, dwell, fall=fall, motion=motion) for angle in TURN.tolist())


def _round(said: Said, found: Sequence[CamLift]) -> _Cam:
    follower, base = said.get("follower"), said.length("base")
    roller = said.length("roller") / 2 if follower is Follower.ROLLER else 0.0
    if base <= 0 or (follower is Follower.ROLLER and roller <= 0):
        words, rule = "a cam has a base circle, and a roller a diameter", "both more than nothing"
        raise MethodError(said.where("base"), words, rule, "check the sizes", code="wrong-value")
    lift, slope, bend = (np.array([getattr(one, name) for one in found]) for name in ("lift", "slope", "bend"))
    if lift.min() < -base / 2:
        words, rule = (
            f"the lifts go {number(round(-float(lift.min()), 2))} mm below the base circle",
            "a lift leads outwards",
        )
        raise MethodError(said.where("lifts"), words, rule, "check the lifts", code="wrong-value")
    return _Cam(turn=np.radians(TURN), lift=lift, slope=slope, bend=bend, base=base, follower=follower, roller=roller)


def _step(said: Said) -> float:
    step = float(said.get("step", 5.0))
    turns = 360.0 / step if step > 0 else 0.0
    if not 0.25 <= step <= 30.0 or abs(turns - round(turns)) > 1e-6:
        words = f"a step goes into the whole turn (got {number(step)}°)"
        raise MethodError(
            said.where("step"), words, "0.25 to 30 degrees", "write e.g. `step 2 deg`", code="wrong-value"
        )
    return step


def _follower(shape: _Cam) -> str:
    if shape.follower is Follower.ROLLER:
        return f"a roller Ø{number(2 * shape.roller)}"
    return f"a {shape.follower} follower"


def _undercut(shape: _Cam) -> tuple[str, str, str] | None:
    """What is wrong where the follower cannot touch all of such a cam; None where it can."""
    at = int(shape.bow.argmin()) if shape.follower is Follower.FLAT else _sharpest(shape)
    if at is None:
        return None
    where, radius = degrees(round(math.degrees(float(shape.turn[at])), 1)), float(shape.bow[at])
    if shape.follower is Follower.FLAT and radius <= 0:
        words = f"a flat follower does not reach into the hollow of this cam at {where}"
        return words, "a cam for a flat follower bulges all round", "a larger base, a longer rise, or a roller"
    if shape.follower is Follower.ROLLER and radius <= 0:
        words = f"the roller is too large for this cam: at {where} it cuts its own track away"
        return words, "a roller is smaller than the bend of its own track", "a smaller roller, or a larger base"
    return None


def _sharpest(shape: _Cam) -> int | None:
    """Where the track of a roller's middle bends most outwards; None where it never bends less than the roller."""
    track = shape.bow + shape.roller
    bad = np.flatnonzero((track > 0) & (track <= shape.roller))
    return int(bad[0]) if len(bad) else None


def _checks(shape: _Cam, said: Said, cutter: float) -> list[Check]:
    line, checks = said.place.line, []
    if shape.follower is not Follower.FLAT:
        steep = float(np.degrees(np.arctan2(np.abs(shape.slope), shape.middle)).max())
        words = f"the cam pushes up to {degrees(round(steep, 1))} beside the line of its follower"
        remedy = "take a larger base circle, or a longer rise"
        checks.append(judged("cam-push", steep <= STEEPEST, words, line, tight=steep > 0.9 * STEEPEST, remedy=remedy))
    hollow = shape.bow[shape.bow < 0]
    if len(hollow):
        least = float(-hollow.max())
        words = f"the hollow of the cam has a radius of {dim(round(least, 2))}, the cutter {dim(cutter / 2)}"
        checks.append(judged("cam-hollow", cutter / 2 <= least + 1e-6, words, line))
    if "lifts" not in said and said.get("motion", Motion.HARMONIC) is Motion.UNIFORM:
        words = "uniform motion begins and ends with a knock"
        checks.append(judged("cam-push", True, words, line, tight=True))
    return checks


def _facts(shape: _Cam, step: float, cutter: float, working: Working | None) -> list[Fact]:
    ridge, cusp = worked(cam_cusp, float((shape.base + shape.lift).max()), step, cutter)
    round_ones = shape.bow[shape.bow > 0]
    same = abs(cutter - 2 * shape.roller) < 1e-6
    note = "the cutter is as large as the roller: it stands where the roller's middle runs" if same else ""
    return [
        fact("cam_lift", "Lift", float(shape.lift.max()), "mm", "size", [working]),
        fact("cam_settings", "Settings round the cam", float(round(360.0 / step)), "1", "count", note=note),
        fact("cam_ridge", "Ridge between two settings", ridge, "mm", "deviation", [cusp], note="file it off"),
        fact("cam_bow", "Sharpest bend of the cam, radius", float(round_ones.min()), "mm", "size"),
    ]  # fmt: skip


def settings(shape: Any, step: float, cutter: float) -> list[tuple[float, float, float]]:
    """(angle of the work in degrees, lift there, distance of the cutter's middle from the axis) of every setting."""
    x, y = shape.beside(cutter / 2)
    angle, far = np.degrees(np.unwrap(np.arctan2(y, x))), np.hypot(x, y)
    order = np.argsort(angle % 360.0)
    a, d = (angle % 360.0)[order], far[order]
    a, d = np.concatenate([a[-1:] - 360.0, a, a[:1] + 360.0]), np.concatenate([d[-1:], d, d[:1]])
    every = np.arange(0.0, 360.0 - 1e-9, step)
    return [(float(t), float(np.interp(t, np.degrees(shape.turn), shape.lift, period=360.0)), float(np.interp(t, a, d)))
            for t in every]  # fmt: skip


def _table(station: Station, shape: _Cam, step: float, cutter: float, at: float) -> Table:
    """Every setting: what the head reads, and where the cutter stands."""
    dial, rows = station.table, list[tuple[Measure | str, ...]]()
    for i, (angle, lift, far) in enumerate(settings(shape, step, cutter), 1):
        turned = (at + angle) % 360.0
        read = (handle_words(dial, turned),) if dial else ()
        edge = far - cutter / 2
        sizes = (length_measure(round(one, 3), "size") for one in (lift, far, edge))
        rows.append((str(i), measure_of(turned, "deg", "angle"), *read, *sizes))
    handle = (f"Handle of the {dial.name}",) if dial else ()
    middle = f"Middle of the cutter, {number(cutter)} mm, from the axis"
    columns = ("No.", "Angle", *handle, "Lift there", middle, "Its edge from the axis")
    return Table("Settings of the cam", columns, tuple(rows[:ROWS]))
