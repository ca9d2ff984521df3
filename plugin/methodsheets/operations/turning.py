"""What do the turning verbs cut? Each gives the outline swept about the set-up's axis, in lengths from the face."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.process import Process

from .advice import taper_facts
from .facts import judged
from .outlines import VIA, open_path
from .plan import CutData, Made, Plan, Sketch
from .say import dia, diameter, dim, number
from .station import Station
from .turned_work import (
    CALLED,
    CLEAR,
    CORNER,
    FROM,
    INSIDE,
    LEAVE,
    LEFT_HAND,
    OVER,
    clear_in_front,
    inside_work,
    removes,
)
from .verb import verb
from .words import Clause, Said


@verb(
    "turn",
    family="turning",
    clauses=[
        Clause("to", "length", "finished diameter", True),
        OVER,
        replace(FROM, apart=False),
        CORNER,
        LEAVE,
        LEFT_HAND,
        CALLED,
    ],
)
def turn(station: Station, said: Said) -> Plan:
    """Turn to a diameter over a length from the face, or from `from`."""
    start = said.get("from", 0.0)
    over = said.get("over", station.stick_out - start if station.stick_out else station.length - start)
    finished, corner = said.length("to"), said.get("corner", 0.0)
    to = finished + said.get("leave", 0.0)
    end, r = start + over, to / 2
    inside_work(station, said, start, end)
    swing = station.swing(start, end)
    removes(said, to, 2 * swing)
    begin = start if start else -CLEAR
    outline = Outline((r, begin), (swing + CLEAR, begin), (swing + CLEAR, end))
    outline = outline.arc((r + corner, end - corner), corner, 90, 180) if corner else outline.to((r, end))
    words = f"Turn to {dia(to)} over {dim(over)}" + (f", from {dim(start)}" if start else "")
    if said.get("leave"):
        words += f", {dim(said.get('leave'))} left on for a later cut"
    return Plan(
        words, [station.turned(outline)],
        CutData(Process.TURN, 2 * swing, 2 * swing, to, over + 2, slide="cross slide"),
        Sketch(start, end, to, 2 * swing, cut_words=number(over), diameter_words=diameter(to)),
        checks=[clear_in_front(station, (start, end), r, said, plain=not corner)], tool_words=_knife(said),
        makes=(Made("diameter", to, -0.5, left_on="leave" in said),
            *_lengths(station, start, end)),
        feature=str(said.get("called", diameter(to))),
        handling=1.0, reach_depth=swing - r, corner=corner, left_hand=bool(said.get("left hand")),
    )  # fmt: skip


def _lengths(station: Station, start: float, end: float) -> tuple[Made, ...]:
    """What a shoulder makes, set by the saddle: its length, its distance from the face and from the far end."""
    return tuple(Made("length", length) for length in (end - start, end, station.length - end))


def _knife(said: Said) -> str:
    return "left-hand knife tool" if said.get("left hand") else "knife tool"


@verb(
    "taper",
    family="turning",
    clauses=[
        Clause("from", "length", "diameter at its near end"),
        Clause("to", "length", "diameter at its far end"),
        Clause("angle", "angle", "half the included angle"),
        Clause("over", "length", "its length along the axis", True),
        Clause("starting", "length", "where it starts, from the face", apart=True),
        INSIDE,
        LEFT_HAND,
        CALLED,
    ],
)
def taper(station: Station, said: Said) -> Plan:
    """Turn a taper, by two diameters or by one diameter and the half angle."""
    start, over = said.get("starting", 0.0), said.length("over")
    inside_work(station, said, start, start + over)
    near, far = _taper_ends(station, said, start, over)
    if said.get("inside"):
        return _inside_taper(station, said, start, near, far)
    end, swing = start + over, station.swing(start, start + over)
    _inside_the_work(said, near, far, over, swing)
    pointed = near == 0 and start == 0
    if not pointed:
        removes(said, min(near, far), 2 * swing)
    slope = (far - near) / 2 / over
    begin = start if start else -CLEAR
    first = near / 2 + slope * (begin - start)
    corners = [(max(0.0, first), begin), (swing + CLEAR, begin), (swing + CLEAR, end), (far / 2, end)]
    if first < 0:
        corners.append((0.0, start - near / 2 / slope))  # it would meet the axis in front of the face
    half = math.degrees(math.atan(abs(slope)))
    at_first = "a point" if pointed else dia(near)
    plan = Plan(
        f"Taper from {at_first} to {dia(far)} over {dim(over)}",
        [station.turned(Outline(*corners))],
        CutData(Process.TURN, 2 * swing, 2 * swing, min(near, far), over / math.cos(math.radians(half)) + 2,
            slide="compound slide"),
        Sketch(start, end, near, 2 * swing, end_diameter=far, cut_words=number(over), diameter_words=diameter(near)),
        checks=[clear_in_front(station, (start, end), near / 2, said, plain=False)],
        tool_words=_knife(said), handling=3.0,
        makes=(Made("diameter", far, -0.5), *([] if pointed else [Made("diameter", near, -0.5)]), Made("length", over)),
        feature=str(said.get("called", f"taper {'to a point' if pointed else f'{diameter(near)} to {diameter(far)}'}")),
        reach_depth=swing - min(near, far) / 2,
        left_hand=bool(said.get("left hand")),
    )  # fmt: skip
    return plan.with_more(facts=taper_facts(station, half, near, far, over))


def _inside_the_work(said: Said, near: float, far: float, over: float, swing: float) -> None:
    """Refuse a taper that comes out of the work before it is as long as it is said to be."""
    if max(near, far) <= 2 * swing + 1e-6:
        return
    runs = over * abs(2 * swing - min(near, far)) / abs(far - near)
    words = f"the taper runs out of the work (got {diameter(max(near, far))} on work of {diameter(2 * swing)})"
    half = said.get("angle")
    rule = "`angle` is that of one side with the axis" if half is not None else "a taper takes metal all along"
    whole = f", or `angle {number(half / 2)} deg` if {number(half)}° is between both sides" if half is not None else ""
    remedy = f"write `over {number(round(runs, 3))} mm`{whole}"
    raise MethodError(said.where("angle" if half is not None else "to"), words, rule, remedy, code="wrong-value")


def _taper_ends(station: Station, said: Said, start: float, over: float) -> tuple[float, float]:
    """(near, far) diameter: two are said, or one and the half angle; the outside is taken where none is said."""
    near, far, angle = said.get("from"), said.get("to"), said.get("angle")
    if near is not None and far is not None and angle is not None:
        words = "a taper has two diameters, or one and `angle` (got all three)"
        raise MethodError(said.where("angle"), words, "the third follows", "take one away", code="repeated-clause")
    if angle is not None:
        change = 2 * over * math.tan(math.radians(angle))
        if near is None and far is None:
            far = 2 * station.swing(start, start + over)
        near = far - change if near is None else near
        far = near + change
    if near is None or far is None:
        words, rule = "a taper needs two diameters, or one and `angle`", "`from`, `to`, `angle`: two of them"
        raise MethodError(
            said.place, words, rule, "write e.g. `taper: from 12 mm to 16 mm, over 40 mm`", code="missing-clause"
        )
    if near < 0 or far < 0 or near == far:
        words = (
            f"the taper runs past the axis (got {number(min(near, far))} mm)"
            if near != far
            else "a taper has two diameters"
        )
        raise MethodError(
            said.place, words, "diameters are positive", "shorten it or make the angle smaller", code="wrong-value"
        )
    return near, far


def _inside_taper(station: Station, said: Said, start: float, near: float, far: float) -> Plan:
    """A taper in a bore: metal goes from the hole that is there out to the cone."""
    over = said.length("over")
    end, there = start + over, 2 * station.bore_radius(start + over / 2)
    if there <= 0 or max(near, far) <= there:
        wanted = f"{diameter(near)} to {diameter(far)}"
        words = f"there is no hole for the taper here, or it is too large (got {diameter(there)} for {wanted})"
        raise MethodError(
            said.place, words, "a taper is bored out of a hole", "drill or bore first", code="smaller-than-hole"
        )
    slope = (far - near) / 2 / over
    begin = start if start else -CLEAR
    first = max(0.0, near / 2 + slope * (begin - start))
    half = math.degrees(math.atan(abs(slope)))
    plan = Plan(
        f"Bore a taper from {dia(near)} to {dia(far)} over {dim(over)}",
        [station.turned(Outline((0, begin), (first, begin), (far / 2, end), (0, end)))],
        CutData(Process.BORE, max(near, far), there, max(near, far), over / math.cos(math.radians(half)) + 2,
            slide="compound slide"),
        Sketch(start, end, near, there, end_diameter=far, cut_words=number(over), diameter_words=diameter(near)),
        tool_words="boring bar", tool_size=there, handling=4.0, inside=True, straight=False, reach_depth=end,
        makes=(Made("diameter", near, 0.5), Made("diameter", far, 0.5), Made("length", over)),
        feature=str(said.get("called", f"taper bore {diameter(near)} to {diameter(far)}")),
    )  # fmt: skip
    return plan.with_more(facts=taper_facts(station, half, near, far, over))


STEEPEST = 60.0
"""Degrees: slope towards the axis, going in from the face, that a round-nose tool still follows (from its shape)."""


@verb(
    "profile",
    family="turning",
    clauses=[Clause("points", "points", "(length from the face, diameter) pairs", True), VIA, CALLED],
)
def profile(station: Station, said: Said) -> Plan:
    """Turn a profile of lengths from the face and diameters, joined by straight lines, or by arcs `via` a point."""
    points = [(d / 2, s) for s, d in (p[:2] for p in said.get("points"))]
    if len(points) < 2 or any(b[1] < a[1] for a, b in pairwise(points)):
        words, rule = "the points of a profile run from the face into the metal, two at least", "lengths do not fall"
        raise MethodError(
            said.where("points"), words, rule, "write e.g. `points (0 mm, 10 mm), (8 mm, 16 mm)`", code="wrong-value"
        )
    start, end = points[0][1], points[-1][1]
    inside_work(station, said, start, end)
    swing = station.swing(start, end)
    begin = start if start > 1e-9 else -CLEAR
    via = [(d / 2, s) for s, d in (p[:2] for p in said.get("via", ()))]
    outline = open_path(Outline((swing + CLEAR, begin), (points[0][0], begin)), points, via, said.where("points"))
    least = 2 * min(r for r, _ in points)
    falls = [math.degrees(math.atan2(a[0] - b[0], b[1] - a[1])) for a, b in pairwise(points)]
    steepest = number(round(max(0.0, *falls), 1))
    words = f"its steepest fall towards the axis is {steepest}°; a round-nose tool follows {number(STEEPEST)}°"
    return Plan(
        f"Turn the profile from {dim(start)} to {dim(end)}, {dia(least)} at its smallest",
        [station.turned(outline.to((swing + CLEAR, end)))],
        CutData(Process.TURN, 2 * swing, 2 * swing, least, 1.1 * (end - start) + 2, slide="cross slide"),
        Sketch(start, end, least, 2 * swing, cut_words=number(end - start)), tool_words="round-nose tool", handling=3.0,
        checks=[judged("way-in", max(falls) <= STEEPEST + 1e-6, words, said.place.line)], straight=False,
        makes=(*(Made("diameter", 2 * r, -0.5) for r, _ in points), Made("length", end - start)),
        feature=str(said.get("called", "profile")), reach_depth=swing - least / 2,
    )  # fmt: skip
