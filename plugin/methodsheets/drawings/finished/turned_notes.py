"""Which notes does a turned part need: threads, tapers, bores, centre holes, chamfers, cross holes, its bodies?"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from methodfigures.part.spec import Callout, Cutting
from methodsheets.drawings.finished.lying import Turned, is_taper, open_side
from methodsheets.drawings.finished.made import NEAR, CutThread, Spot, spot
from methodsheets.drawings.finished.words import angle_words, diameter_words, hole_words, roughness_words
from methodsheets.method.intention import RunsTrue
from methodsheets.operations.say import diameter, number
from methodsheets.workpiece.features import Fillet, Round, Tapered, features_of

SIZE = 0.02
"""mm on the diameter within which a surface is the one that is meant."""
BESIDE = 0.7
"""Share of a surface at which its finish is told: notes of its diameter point at its middle."""
FRAMED, STANDS = 0.3, 0.85
"""The same for the frame of a run-out, and for its datum."""
LETTERS = "DEFGHKLMN"
"""Of datums: A and B are the ends of the work."""
BROKEN = 0.15
"""mm: a chamfer smaller than this is a broken edge, no size of the drawing."""
DRILL_POINT = (55.0, 70.0)
"""Half angles of the cones that drills leave."""


def notes(part: Turned) -> Iterable[Callout]:
    """All notes of the front view; they point at its lower half where that is cut."""
    low_half = part.cutting is Cutting.HALF
    sign = -1.0 if low_half else 1.0
    yield from _outside_notes(part, sign)
    if part.cutting is not Cutting.NONE:
        yield from _bore_notes(part, sign)
    yield from _centre_notes(part)
    yield from _edge_notes(part, sign)
    yield from _surfaces(part, sign)
    yield from _true(part)
    yield from _items(part)
    for hole in part.crosswise:
        yield Callout(spot(part.mouth(hole)), _cross_words(part, hole))


def _surfaces(part: Turned, sign: float) -> Iterable[Callout]:
    """The finish of a surface of one diameter, on the longest stretch of it that is shown."""
    shown = part.upright(part.made.outside) + (part.bores if part.cutting is not Cutting.NONE else [])
    for asked in part.made.finishes:
        low, high = asked.span or part.ends
        spans = [
            (min(r.high, high) - max(r.low, low), max(r.low, low), r)
            for r in shown
            if abs(r.diameter - asked.diameter) < SIZE
        ]
        length, start, r = max(spans, key=lambda one: one[:2], default=(0.0, 0.0, None))
        if r is not None and length > NEAR:
            z = start + BESIDE * length
            yield Callout(part.at(z, part.height(r) + sign * r.diameter / 2), roughness_words(asked), surface=True)


def framed(part: Turned) -> dict[RunsTrue, tuple[Spot, Spot]]:
    """Where the frame of each run-out that is asked points to, and where its datum stands: of those that are shown."""
    shown = part.upright(part.made.outside) + (part.bores if part.cutting is not Cutting.NONE else [])
    found = {}
    for asked in part.made.trues:
        low, high = asked.on.span or part.ends
        ours = [r for r in shown if abs(r.diameter - asked.on.diameter) < SIZE
                and 2 * (min(r.high, high) - max(r.low, low)) > r.length]  # fmt: skip
        theirs = [r for r in shown if abs(r.diameter - asked.to.diameter) < SIZE and r not in ours]
        if ours and theirs:
            on, to = (max(rounds, key=lambda r: r.length) for rounds in (ours, theirs))
            found[asked] = (_on(part, on, FRAMED), _on(part, to, STANDS))
    return found


def _on(part: Turned, r: Round, share: float) -> Spot:
    """A place on the outline of a round, at a share of its length."""
    sign = -1.0 if part.cutting is Cutting.HALF else 1.0
    return spot(part.at(r.low + share * r.length, part.height(r) + sign * r.diameter / 2))


def _true(part: Turned) -> Iterable[Callout]:
    """The frame of every run-out, and its datum under a letter: one for each surface."""
    letters: dict[Spot, str] = {}
    for asked, (on, to) in framed(part).items():
        letter = letters.setdefault(to, LETTERS[len(letters) % len(LETTERS)])
        yield Callout(on, number(asked.within), frame=letter)
    yield from (Callout(at, letter, datum=True) for at, letter in letters.items())


def _items(part: Turned) -> Iterable[Callout]:
    """The bodies of an assembly with their numbers in the parts list."""
    bodies = part.made.piece.work.bodies
    if len(bodies) < 2:
        return
    for number_of, body in enumerate(bodies.values(), start=1):
        own = features_of(body.solid)
        outer = [r for r in own.rounds if not r.inside]
        free = [r for r in part.made.outside if any(_same_round(r, o) for o in outer)] or outer
        if free:
            largest = max(free, key=lambda r: (r.diameter, r.length))
            bore = max((r.diameter for r in own.rounds if r.inside and r.axis.distance(largest.axis.point) < 20.0
                        and r.diameter < largest.diameter), default=0.0)  # fmt: skip
            middle = (largest.diameter + bore) / 4
            place = largest.spot(0.35) + np.array(part.up) * middle
            if not part.axis.parallel(largest.axis.direction):
                place = largest.spot() + np.array([0.0, 0.0, 0.22 * largest.diameter])  # clear of notes of its own axis
        else:
            low, high = body.solid.bounds
            place = (low + high) / 2 + np.array(part.up) * 0.4 * float(high[0] - low[0])
        yield Callout(spot(place), str(number_of), area=True, item=True)


def _same_round(one: Round, other: Round) -> bool:
    return abs(one.diameter - other.diameter) < NEAR and one.axis.distance(other.axis.point) < NEAR


def _outside_notes(part: Turned, sign: float) -> Iterable[Callout]:
    for r in part.rounds:
        thread = part.made.thread_on(r)
        top = part.height(r) + sign * r.diameter / 2
        if thread is not None:
            middle = _seen_middle(part, r, thread)
            yield Callout(part.at(middle, top), _thread_words(thread, r.length))
        elif open_side(part, r) is None:
            yield Callout(part.at((r.low + r.high) / 2, top), diameter_words(part.made, r), extent=part.told_apart(r))
    for t in part.made.features.tapers:
        if not t.inside and is_taper(t) and t.axis.distance(part.axis.point) < NEAR:
            rate = abs(t.at_high - t.at_low) / (t.high - t.low)
            words = f"taper 1 : {number(round(1 / rate, 3))}" if rate > 1e-9 else "taper"
            middle = (t.at_low + t.at_high) / 4
            yield Callout(part.at((t.low + t.high) / 2, sign * middle), words)
    alike: dict[float, list[Fillet]] = {}
    for f in part.made.features.fillets:
        alike.setdefault(round(f.radius, 4), []).append(f)
    for radius, found in alike.items():
        many, f = f"{len(found)} × " if len(found) > 1 else "", found[0]
        yield Callout(part.at(f.at, sign * (f.diameter / 2 - 0.7 * f.radius)), f"{many}R{number(radius)}")


def _seen_middle(part: Turned, r: Round, thread: CutThread) -> float:
    """The middle of the longest stretch of a threaded round that stands free and is threaded."""
    free = [o for o in part.upright(part.made.outside) if _same_round(o, r) and thread.on(o)] or [r]
    spans = [(max(thread.low, o.low), min(thread.high, o.high)) for o in free]
    low, high = max(spans, key=lambda span: span[1] - span[0])
    return (low + high) / 2


def _thread_words(thread: CutThread, whole: float) -> str:
    length = thread.high - thread.low
    return thread.name if length > whole - 0.6 else f"{thread.name} × {number(round(length, 3))}"


def _bore_notes(part: Turned, sign: float) -> Iterable[Callout]:
    for h in part.bores:
        words = hole_words(part.made, h)
        yield Callout(part.at((h.low + h.high) / 2, sign * h.diameter / 2), words)
    for t in part.made.features.tapers:
        if t.inside and is_taper(t) and t.axis.distance(part.axis.point) < NEAR and not _is_point(t):
            words = f"{diameter(round(t.at_low, 4))} to {diameter(round(t.at_high, 4))}"
            yield Callout(part.at((t.low + t.high) / 2, sign * (t.at_low + t.at_high) / 4), words)


def _centre_notes(part: Turned) -> Iterable[Callout]:
    for hole in part.centres:
        mouth = next(
            t
            for t in part.made.features.tapers
            if t.inside and abs(t.half_angle - 30) < 0.1 and min(abs(t.high - hole.low), abs(t.low - hole.high)) < 0.01
        )
        wide = max(mouth.at_low, mouth.at_high)
        z = mouth.low if mouth.at_low > mouth.at_high else mouth.high
        yield Callout(part.at(z, 0.0), f"ISO 6411-A{number(round(hole.diameter, 2))}/{number(round(wide, 2))}")


def _edge_notes(part: Turned, sign: float) -> Iterable[Callout]:
    """Chamfers; equal ones of one kind share a note."""
    groups: dict[tuple[bool, str], list[Tapered]] = {}
    for t in part.made.features.tapers:
        if is_taper(t) or _is_point(t) or t.axis.distance(part.axis.point) > NEAR or abs(t.half_angle - 30) < 0.1:
            continue
        if (t.inside and part.cutting is Cutting.NONE) or t.high - t.low < BROKEN:
            continue
        slope = "45°" if abs(t.half_angle - 45) < 1e-3 else angle_words(t.half_angle)
        groups.setdefault((t.inside, f"{number(round(t.high - t.low, 3))} × {slope}"), []).append(t)
    for (_, words), found in groups.items():
        t = found[0]
        height = (t.at_low + t.at_high) / 4
        many = "" if len(found) == 1 else f" ({len(found)} places)"
        yield Callout(part.at((t.low + t.high) / 2, sign * height), words + many)


def _is_point(t: Tapered) -> bool:
    return t.inside and min(t.at_low, t.at_high) < NEAR and DRILL_POINT[0] < t.half_angle < DRILL_POINT[1]


def _cross_words(part: Turned, hole: Round) -> str:
    deep = part.made.capped(hole, high=True) or part.made.capped(hole, high=False)
    thread = part.made.thread_on(hole)
    name = thread.name if thread else diameter_words(part.made, hole)
    if not deep:
        both = hole.low < -NEAR and hole.high > NEAR
        return f"{name} through" if both else f"{name} through one wall"
    outer = max(abs(hole.low), abs(hole.high))
    inner = min(hole.low, hole.high, key=abs)
    inner = inner if hole.low * hole.high > 0 else -abs(inner)
    return f"{name} × {number(round(outer - inner, 2))} deep"
