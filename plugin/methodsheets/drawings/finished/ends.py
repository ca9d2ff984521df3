"""What of a turned part can be seen at an end only: holes beside the axis, flats, hexagons, an eccentric?"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from methodfigures.part.spec import Side, Size
from methodsheets.drawings.finished.made import NEAR, Made, Spot, polar, spot
from methodsheets.drawings.finished.words import angle_words
from methodsheets.geometry import Axis
from methodsheets.operations.say import number
from methodsheets.workpiece.features import Flat, Round

MOST_FLATS = 8
"""An octagon has as many flats; an operation that cuts more gives the work another form."""


@dataclass
class EndView:
    """What the view of one end shows."""

    at_a: bool
    face: float
    holes: list[list[Round]] = field(default_factory=list)
    """Groups of equal holes on one circle."""
    notes: list[tuple[np.ndarray, str]] = field(default_factory=list)
    sizes: list[Size] = field(default_factory=list)

    @property
    def empty(self) -> bool:
        """Whether there is nothing that the front view does not show."""
        return not (self.holes or self.notes or self.sizes)


def end_views(made: Made, axis: Axis, up: Spot) -> list[EndView]:
    """The views of the ends that are needed, end A before end B."""
    low, high = made.piece.work.state.bounds
    views = {True: EndView(True, float(low[2])), False: EndView(False, float(high[2]))}
    for group in _hole_groups(made, axis):
        views[_seen_from_a(made, group[0].low, group[0].high, _reach(group[0], axis))].holes.append(group)
    for flats, words in _flat_groups(made, axis):
        one = flats[0]
        middle = (np.array(one.low) + np.array(one.high)) / 2
        radius = math.hypot(middle[0] - axis.point[0], middle[1] - axis.point[1])
        at_a = _seen_from_a(made, one.low[2], one.high[2], radius + 1.0)
        views[at_a].notes.append((middle, words))
    offset = _offset(made, axis, up)
    if offset is not None:
        views[True].sizes.append(offset)
    return [view for view in views.values() if not view.empty]


def _reach(hole: Round, axis: Axis) -> float:
    return hole.axis.distance(axis.point) + hole.diameter / 2


def _hole_groups(made: Made, axis: Axis) -> list[list[Round]]:
    groups: dict[tuple[float, ...], list[Round]] = {}
    for h in made.holes:
        if abs(abs(h.axis.direction[2]) - 1) > 1e-7 or h.axis.distance(axis.point) < NEAR:
            continue
        radius, _ = polar(h, axis.point)
        key = tuple(round(v, 3) for v in (h.diameter, h.low, h.high, radius))
        groups.setdefault(key, []).append(h)
    return list(groups.values())


def _flat_groups(made: Made, axis: Axis) -> list[tuple[list[Flat], str]]:
    """Flats along the work with their words: across flats where two or more face each other.

    What one operation cut in many flats, as the teeth of a wheel and the sides of splines, is told in its own words.
    """
    groups: dict[tuple[float, ...], list[Flat]] = {}
    cut: dict[str, list[Flat]] = {}
    for f in made.features.flats:
        if abs(f.normal[2]) > 1e-7:
            continue
        cut.setdefault(f.operation, []).append(f)
        away = f.level - float(np.array(f.normal[:2]) @ np.array(axis.point[:2]))
        if away > NEAR:
            groups.setdefault(tuple(round(v, 3) for v in (away, f.low[2], f.high[2])), []).append(f)
    form = {tag: words for tag, flats in cut.items() if len(flats) > MOST_FLATS and (words := made.words_of(tag))}
    found = [(cut[tag][:1], words) for tag, words in form.items()]
    plain = ([f for f in flats if f.operation not in form] for flats in groups.values())
    keys = list(groups)
    return found + [(flats, _flat_words(made, flats, keys[i][0])) for i, flats in enumerate(plain) if flats]


def _flat_words(made: Made, found: list[Flat], away: float) -> str:
    angles = sorted(-math.degrees(math.atan2(f.normal[1], f.normal[0])) for f in found)
    opposite = any(abs(abs(a - b) - 180) < 0.01 for a in angles for b in angles)
    names = {2: "across flats", 4: "square, across flats", 6: "hexagon, across flats", 8: "octagon, across flats"}
    if opposite and len(found) in names:
        return f"{number(round(2 * away, 4))} {names[len(found)]}"
    at = " and ".join(angle_words(a) for a in angles[:4])
    return f"flat {number(round(away, 4))} from the axis at {at}"


def _seen_from_a(made: Made, low: float, high: float, radius: float) -> bool:
    """Whether what stands between two lengths, that far from the axis, is seen from end A better than from B."""
    before = [r for r in made.outside if r.high <= low + NEAR]
    behind = [r for r in made.outside if r.low >= high - NEAR]
    covered = any(r.diameter / 2 + math.hypot(*r.axis.point[:2]) > radius - NEAR for r in before)
    open_b = not any(r.diameter / 2 + math.hypot(*r.axis.point[:2]) > radius - NEAR for r in behind)
    return not (covered and open_b)


def _offset(made: Made, axis: Axis, up: Spot) -> Size | None:
    """The throw of an eccentric: from the main axis to the one that is furthest from it."""
    off = [r for r in made.outside if abs(abs(r.axis.direction[2]) - 1) < 1e-7 and r.axis.distance(axis.point) > NEAR]
    if not off:
        return None
    far = max(off, key=lambda r: r.axis.distance(axis.point))
    first, second = spot(axis.at(far.low)), spot(far.axis.at(far.low))
    words = number(round(far.axis.distance(axis.point), 4))
    return Size(first, second, words, Side.LEFT)
