"""Which views and sizes does a turned part need?

The front view lies along the main axis, end A at the left. A hollow part is shown half in section, one with holes
beside its axis wholly; solid shafts are not cut (ISO 128-3). Lengths are measured from the end that was the datum when
the shoulder was cut. An end view is added where something can be seen there only.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from methodfigures.part.spec import Callout, Circle, Cutting, Line, Side, Size, View
from methodsheets.drawings.finished.ends import EndView, end_views
from methodsheets.drawings.finished.lying import Turned, clear, is_taper, open_side, touches
from methodsheets.drawings.finished.made import NEAR, NECK, Made, Views, polar, spot
from methodsheets.drawings.finished.turned_notes import notes
from methodsheets.drawings.finished.words import angle_words, diameter_words, hole_words
from methodsheets.operations.say import diameter, number
from methodsheets.workpiece.features import Round, Tapered, at_levels


def turned_views(made: Made) -> Views:
    """Front view and, where they are needed, the views of the ends."""
    part = Turned(made)
    ends = end_views(made, part.axis, part.up)
    front = View(
        (0.0, 0.0, 1.0),
        part.up,
        cutting=part.cutting,
        plane=part.plane,
        axis=part.at(0.0, 0.0) if part.alike else None,
        sizes=tuple(_lengths(part)) + tuple(_diameters(part)) + tuple(_cross_sizes(part)),
        callouts=tuple(notes(part)),
        lines=tuple(_lines(part)),
        circles=tuple(_cross_marks(part)),
        threads=tuple(thread.symbol() for thread in made.threads if part.axis.parallel(thread.axis.direction)),
    )
    sides = {True: None, False: None} | {end.at_a: _end_view(part, end) for end in ends}
    return Views(front, ((0.0, 0.0, -1.0), part.up), _described(part, len(ends)), sides[True], sides[False])


def _described(part: Turned, ends: int) -> str:
    how = {Cutting.NONE: "", Cutting.HALF: ", its lower half in section", Cutting.FULL: ", in section"}[part.cutting]
    beside = {0: "", 1: " and the view of one end", 2: " and the views of both ends"}[ends]
    return f"The finished part along its axis, end A at the left{how}{beside}, with its sizes."


# ------------------------------------------------------------------------------------------------ lengths
def _lengths(part: Turned) -> Iterable[Size]:
    low, high = part.ends
    side = part.lengths_side
    yield _length(part, low, high, side)
    levels = _shoulders(part)
    necks = _necks(part, levels)
    for z, from_b in levels.items():
        if z in necks.values():
            continue
        yield _length(part, *((z, high) if from_b else (low, z)), side)
    for start, end in necks.items():
        yield _length(part, start, end, side)


def _length(part: Turned, start: float, end: float, side: Side) -> Size:
    first, second = (part.at(z, part.reach(z, side)) for z in (start, end))
    return Size(first, second, number(round(end - start, 4)), side)


def _shoulders(part: Turned) -> dict[float, bool]:
    """Z of each outer shoulder and taper's end, and whether it was cut with end B as the datum."""
    low, high = part.ends
    found: dict[float, bool] = {}
    for z, flat in at_levels(part.made.features.flats, 2):
        if low + NEAR < z < high - NEAR and part.reach(z, Side.BELOW) and _outer(part, z):
            found.setdefault(round(z, 6), _from_b(part, flat.operation))
    for t in part.made.features.tapers:
        if t.inside or t.axis.distance(part.axis.point) > NEAR or not is_taper(t):
            continue
        for z in (t.low, t.high):
            if low + NEAR < z < high - NEAR and not any(abs(z - known) < NEAR for known in found):
                found[round(z, 6)] = _from_b(part, t.operation)
    return dict(sorted(found.items()))


def _outer(part: Turned, z: float) -> bool:
    """Whether something outside begins or ends there."""
    tapers = (t for t in part.made.features.tapers if not t.inside)
    return any(touches(r, z) for r in part.rounds) or any(touches(t, z) for t in tapers)


def _from_b(part: Turned, operation: str) -> bool:
    maker = part.made.makers.get(operation)
    holding = maker.station.holding if maker else None
    return holding is not None and holding.out == "B"


def _necks(part: Turned, levels: dict[float, bool]) -> dict[float, float]:
    """Narrow grooves: z of the shoulder that is measured from the datum, and z of the other."""
    out = {}
    for r in part.upright(part.made.outside):
        both = [z for z in levels if min(abs(z - r.low), abs(z - r.high)) < NEAR]
        sides = [o for o in part.upright(part.made.outside) if abs(o.high - r.low) < NEAR or abs(o.low - r.high) < NEAR]
        if len(both) == 2 and r.length <= NECK and len(sides) == 2 and all(o.diameter > r.diameter for o in sides):
            out[both[0]] = both[1]
    return out


# ------------------------------------------------------------------------------------------------ diameters
def _diameters(part: Turned) -> Iterable[Size]:
    for r in part.rounds:
        side = open_side(part, r)
        if side is None or part.made.thread_on(r) is not None:
            continue
        z = r.low if side is Side.LEFT else r.high
        h = part.height(r)
        yield Size(part.at(z, h - r.diameter / 2), part.at(z, h + r.diameter / 2), diameter_words(part.made, r), side)
    for t in part.made.features.tapers:
        if not t.inside and is_taper(t) and t.axis.distance(part.axis.point) < NEAR:
            yield from _taper_ends(part, t)


def _taper_ends(part: Turned, t: Tapered) -> Iterable[Size]:
    for z, d, side in ((t.low, t.at_low, Side.LEFT), (t.high, t.at_high, Side.RIGHT)):
        same = any(touches(r, z) and abs(r.diameter - d) < NEAR for r in part.rounds)
        if not same and clear(part, z, d, side):
            yield Size(part.at(z, -d / 2), part.at(z, d / 2), diameter(round(d, 4)), side)


# ------------------------------------------------------------------------------------------------ cross holes
def _cross_sizes(part: Turned) -> Iterable[Size]:
    low, high = part.ends
    side = part.lengths_side
    for z in sorted({round(hole.axis.point[2], 6) for hole in part.crosswise}):
        maker = next(h.operation for h in part.crosswise if abs(h.axis.point[2] - z) < NEAR)
        start, end = (z, high) if _from_b(part, maker) else (low, z)
        first = part.at(start, 0.0 if start == z else part.reach(start, side))
        second = part.at(end, 0.0 if end == z else part.reach(end, side))
        yield Size(first, second, number(round(end - start, 4)), side)


def _cross_marks(part: Turned) -> Iterable[Circle]:
    for hole in part.crosswise:
        if not part.lies_flat(hole):
            yield Circle(spot(part.mouth(hole)), hole.diameter, mark=True)


def _lines(part: Turned) -> Iterable[Line]:
    low, high = part.ends
    yield Line(part.at(low, 0.0), part.at(high, 0.0))
    for r in part.rounds:
        h = part.height(r)
        if abs(h) > NEAR:
            yield Line(part.at(r.low, h), part.at(r.high, h))
    for hole in part.crosswise:
        if part.lies_flat(hole):
            yield Line(spot(hole.axis.at(hole.low)), spot(hole.axis.at(hole.high)))
    if part.cutting is Cutting.FULL:
        for hole in part.beside:
            x, y = (hole.axis.point[i] - part.axis.point[i] for i in (0, 1))
            if abs(x * part.up[1] - y * part.up[0]) < NEAR:
                h = x * part.up[0] + y * part.up[1]
                yield Line(part.at(hole.low, h), part.at(hole.high, h))


# ------------------------------------------------------------------------------------------------ ends
def _end_view(part: Turned, end: EndView) -> View:
    towards = np.array([0.0, 0.0, -1.0 if end.at_a else 1.0])
    right = spot(np.cross(part.up, towards))
    callouts = [Callout(spot(place), words) for place, words in end.notes]
    callouts += [
        Callout(spot(group[0].axis.at(end.face) + _edge_of(group[0], part)), _pattern_words(part, group))
        for group in end.holes
    ]
    circles = [Circle(spot(h.axis.at(end.face)), h.diameter, mark=True) for group in end.holes for h in group]
    for group in end.holes:
        radius, _ = polar(group[0], part.axis.point)
        if len(group) > 1:
            circles.append(Circle(spot(part.axis.at(end.face)), 2 * radius))
    wide = 2 * max(part.height(r) + r.diameter / 2 for r in part.rounds) if part.rounds else 10.0
    circles.append(Circle(spot(part.axis.at(end.face)), wide, mark=True))
    return View(
        right,
        part.up,
        title=f"end {'A' if end.at_a else 'B'}",
        sizes=tuple(end.sizes),
        callouts=tuple(callouts),
        circles=tuple(circles),
        threads=tuple(t.symbol() for t in part.made.threads if t.axis.parallel((0, 0, 1)) and (t.inside or end.at_a)),
    )


def _edge_of(hole: Round, part: Turned) -> np.ndarray:
    """From the middle of a hole to the point of its edge that a leader meets: outwards, at 45°."""
    out = np.array(hole.axis.point) - np.array(part.axis.point)
    length = float(np.linalg.norm(out[:2]))
    across = out[:2] / length if length > NEAR else np.array(part.up[:2])
    return np.array([across[0], across[1], 0.0]) * hole.diameter / 2


def _pattern_words(part: Turned, group: list[Round]) -> str:
    """'6 × Ø5.5 through on Ø42', '2 × Ø10 through on R15.5 at 45° and −45°'."""
    words = hole_words(part.made, group[0])
    radius, _ = polar(group[0], part.axis.point)
    angles = sorted(polar(h, part.axis.point)[1] for h in group)
    if len(group) > 2 and _equally_spaced(angles):
        return f"{len(group)} × {words} on {diameter(round(2 * radius, 4))}"
    many = f"{len(group)} × " if len(group) > 1 else ""
    at = " and ".join(angle_words(a) for a in angles[:4])
    return f"{many}{words} on R{number(round(radius, 4))} at {at}"


def _equally_spaced(angles: list[float]) -> bool:
    step = 360.0 / len(angles)
    return all(abs((b - a) % 360.0 - step) < 0.01 for a, b in zip(angles, [*angles[1:], angles[0]], strict=True))
