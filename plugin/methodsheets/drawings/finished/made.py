"""What is known of the finished part: its features, who made each, its threads, and the limits that were asked for?"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from methodfigures.part.spec import Thread, View
from methodsheets.geometry import Axis
from methodsheets.method.done import CheckedOperation
from methodsheets.method.intention import RunsTrue
from methodsheets.method.job import Finished
from methodsheets.method.piece import Piece
from methodsheets.operations import say
from methodsheets.operations.qualities import Given, Quality
from methodsheets.sheet.model import Limit
from methodsheets.workpiece.features import Features, Flat, Round, Tapered, features_of

NEAR = 1e-3
"""mm: two places that are closer than this are one."""
TOUCHING = 0.3
"""mm: a bore and a shaft in it with no more between their walls are a seat; nobody measures it on the finished part."""
NECK = 8.0
"""mm: a groove no wider than this has its width as a size of its own."""
Spot = tuple[float, float, float]


@dataclass(frozen=True)
class Views:
    """The views that were chosen, and what they show in words."""

    front: View
    pictorial: tuple[Spot, Spot]
    description: str
    beside_left: View | None = None
    beside_right: View | None = None
    below: View | None = None


@dataclass(frozen=True)
class CutThread:
    """A thread of the part: its name, where it stands on its axis, its diameters in mm."""

    name: str
    axis: Axis
    low: float
    high: float
    major: float
    minor: float
    inside: bool

    def symbol(self) -> Thread:
        """As the figure draws it; the end of the thread is its far end from the nearer face."""
        start, end = spot(self.axis.at(self.low)), spot(self.axis.at(self.high))
        return Thread(start, end, self.major, self.minor, self.inside)

    def on(self, one: Round) -> bool:
        """Whether it is cut on (or in) this round."""
        same = one.inside == self.inside and one.axis.distance(self.axis.point) < NEAR * 10
        return same and one.low < self.high - NEAR and one.high > self.low + NEAR


def is_block_work(job: Finished, piece: Piece) -> bool:
    """Whether it was held by its faces."""
    return any(setup.held.pose for setup in job.setups if setup.piece is piece)


@dataclass(frozen=True)
class Made:
    """The finished part of a method as its drawing needs it."""

    job: Finished
    piece: Piece
    features: Features
    makers: Mapping[str, CheckedOperation]
    """The operation behind each tag that the surfaces remember."""
    block_work: bool
    threads: tuple[CutThread, ...] = field(default=())

    @classmethod
    def of(cls, job: Finished, piece: Piece) -> Made:
        """All that is known once the method has been worked out."""
        features = features_of(piece.work.state.solid)
        makers = {done.tag: done for done in job.operations if done.tag}
        return cls(job, piece, features, makers, is_block_work(job, piece), _threads(job, piece, features))

    # ------------------------------------------------------------------------------------------------ rounds
    @cached_property
    def outside(self) -> tuple[Round, ...]:
        """Journals and rims that stand free: what lies in another body's bore is left out."""
        seats = [r for r in self.features.rounds if r.inside]
        return tuple(free for r in self.features.rounds if not r.inside for free in _free(r, seats))

    @cached_property
    def holes(self) -> tuple[Round, ...]:
        """Bores and holes that are open: one with a body in it is no hole any more."""
        shafts = [r for r in self.features.rounds if not r.inside]
        return tuple(r for r in self.features.rounds if r.inside and not _filled(r, shafts))

    @property
    def uncut(self) -> frozenset[int]:
        """Numbers of the bodies that are not cut lengthwise: pins, and shafts without a bore of their own."""
        found = set()
        for number, body in enumerate(self.piece.work.bodies.values()):
            own = features_of(body.solid)
            bored = any(r.inside and r.diameter > 0.25 * _widest(own) and r.length > r.diameter / 2 for r in own.rounds)
            if len(self.piece.work.bodies) > 1 and not bored and _slender(own):
                found.add(number)
        return frozenset(found)

    def thread_on(self, one: Round) -> CutThread | None:
        """The thread that is cut on (or in) a round, if there is one."""
        return next((thread for thread in self.threads if thread.on(one)), None)

    def words_of(self, operation: str) -> str:
        """The first clause of an operation's words, as a note: 'Mill a 90° vee 12 wide'; '' where there is none."""
        maker = self.makers.get(operation)
        return say.plain(maker.plan.words).split(", ")[0] if maker else ""

    def in_a_row(self, operation: str) -> bool:
        """Whether an operation cut a row of equal gaps whose step its words tell, as those of a rack do."""
        maker = self.makers.get(operation)
        return maker is not None and maker.plan.sketch.pitch > 0.0

    def shaped(self, operation: str, normal: Spot) -> bool:
        """Whether the form of the cutter made a face that slopes to its axis, as the sides of a vee and a dovetail.

        A wall of a pocket or an outline stands along the cutter's axis.
        """
        maker = self.makers.get(operation)
        setup = next((one for one in self.job.setups if maker in one.operations), None)
        pose = setup.held.pose if setup else None
        return pose is not None and abs(float(pose.frame.rotation[:, 2] @ np.array(normal))) > NEAR

    # ------------------------------------------------------------------------------------------------ limits
    def limit_of(self, one: Round) -> Limit | None:
        """The limits that the operation which made a round asked for, where they are of this diameter."""
        maker = self.makers.get(one.operation)
        if maker is None:
            return None
        asked = (limit for limit in maker.limits if limit.has_limits and not _general(limit))
        return next((limit for limit in asked if abs(limit.nominal.value - one.diameter) < NEAR), None)

    @cached_property
    def asked(self) -> tuple[Limit, ...]:
        """All limits of sizes in the order of the method, each once."""
        found = {(x.name, x.upper.value, x.lower.value): x for done in self.makers.values() for x in done.limits}
        return tuple(limit for limit in found.values() if limit.has_limits and not _general(limit))

    @property
    def general(self) -> bool:
        """Whether sizes without limits were checked against the general tolerance."""
        return any(_general(limit) for done in self.makers.values() for limit in done.limits)

    @cached_property
    def finishes(self) -> tuple[Given, ...]:
        """Every finish that the part asks for, where its surface lies in the finished work."""
        asked, laid = self.job.asked.whole, self.job.proved.laid
        if asked is None or laid is None:
            return ()
        return tuple(one.along(laid[2], one.line) for one in asked.asks if one.quality is Quality.FINISH)

    @cached_property
    def trues(self) -> tuple[RunsTrue, ...]:
        """Every run-out that the part asks for, where its surface lies in the finished work."""
        asked, laid = self.job.asked.whole, self.job.proved.laid
        if asked is None or laid is None:
            return ()
        return tuple(one.along(laid[2], one.line) for one in asked.trues)

    # ------------------------------------------------------------------------------------------------ closed ends
    def capped(self, hole: Round, high: bool) -> bool:
        """Whether a hole ends in metal at that end: at a flat bottom or in the point of the drill."""
        level = hole.high if high else hole.low
        for cone in self.features.tapers:
            mouth = cone.axis.at(cone.low if cone.at_low > cone.at_high else cone.high)
            here = abs(float(hole.axis.lengths(mouth[None])[0]) - level) < NEAR  # its axis may run the other way
            if cone.inside and here and _same_axis(cone, hole) and min(cone.at_low, cone.at_high) < NEAR:
                return True
        return any(_closes(flat, hole, level, high) for flat in self.features.flats)


def spot(point: Sequence[float] | np.ndarray) -> Spot:
    """A point as the figure takes it."""
    x, y, z = (float(v) for v in point)
    return (x, y, z)


def _general(limit: Limit) -> bool:
    return limit.fit.startswith("ISO 2768")


def _free(shaft: Round, seats: Sequence[Round]) -> list[Round]:
    """The stretches of a shaft that no bore of another body covers."""
    stretches = [(shaft.low, shaft.high)]
    for seat in seats:
        if seat.axis.distance(shaft.axis.point) > NEAR or not seat.axis.parallel(shaft.axis.direction):
            continue
        if -NEAR < seat.diameter - shaft.diameter < 2 * TOUCHING:
            stretches = [piece for one in stretches for piece in _without(one, (seat.low, seat.high))]
    return [
        Round(
            axis=shaft.axis,
            diameter=shaft.diameter,
            low=a,
            high=b,
            inside=False,
            part=shaft.part,
            operation=shaft.operation,
        )
        for a, b in stretches
    ]


def _without(one: tuple[float, float], gap: tuple[float, float]) -> list[tuple[float, float]]:
    if gap[1] <= one[0] or gap[0] >= one[1]:
        return [one]
    return [(a, b) for a, b in ((one[0], gap[0]), (gap[1], one[1])) if b - a > NEAR]


def _filled(hole: Round, shafts: Sequence[Round]) -> bool:
    return any(
        shaft.axis.distance(hole.axis.point) < NEAR
        and shaft.axis.parallel(hole.axis.direction)
        and -NEAR < hole.diameter - shaft.diameter < 2 * TOUCHING
        and min(shaft.high, hole.high) - max(shaft.low, hole.low) > 0.5 * hole.length
        for shaft in shafts
    )


def _widest(features: Features) -> float:
    return max((r.diameter for r in features.rounds if not r.inside), default=0.0)


def _slender(features: Features) -> bool:
    outer = [r for r in features.rounds if not r.inside]
    if not outer:
        return False
    return max(r.high for r in outer) - min(r.low for r in outer) > 1.5 * _widest(features)


def _same_axis(one: Tapered, other: Round) -> bool:
    return one.axis.distance(other.axis.point) < NEAR and one.axis.parallel(other.axis.direction)


def _closes(flat: Flat, hole: Round, level: float, high: bool) -> bool:
    """Whether a flat lies across the end of a hole and looks into it."""
    direction = np.array(hole.axis.direction)
    facing = float(direction @ np.array(flat.normal))
    if facing > -0.999 if high else facing < 0.999:
        return False
    corners = np.array([flat.low, flat.high])
    lengths = hole.axis.lengths(corners)
    if abs(float(lengths.mean()) - level) > NEAR * 10:
        return False
    middle = corners.mean(axis=0)
    across = hole.axis.radii(np.array([middle]))[0]
    reach = float(np.linalg.norm(corners[1] - corners[0])) / 2
    return float(across) < 0.5 * hole.diameter and reach < 0.75 * hole.diameter


# ------------------------------------------------------------------------------------------------ threads
def _threads(job: Finished, piece: Piece, features: Features) -> tuple[CutThread, ...]:
    """Every thread that is marked on the finished work, where its hole or its shank is still there."""
    found: list[CutThread] = []
    for done in job.operations:
        if not done.plan.cut.pitch or not done.plan.sketch.diameter_words:
            continue
        marks = [mark for mark in piece.work.state.marks if mark.operation == done.tag]
        if not marks:
            continue
        for one in _threaded(done, [mark.points for mark in marks], features):
            if not any(one.name == known.name and one.axis.distance(known.axis.point) < NEAR for known in found):
                found.append(one)
    return tuple(found)


def _threaded(done: CheckedOperation, marks: list[np.ndarray], features: Features) -> list[CutThread]:
    plan = done.plan
    major, name = plan.cut.diameter, plan.sketch.diameter_words
    inside = plan.cut.start < major - NEAR or plan.inside
    minor = plan.cut.start if inside else major - 2 * plan.cut.depth_of_thread
    deep = plan.sketch.end - plan.sketch.start
    if not inside and done.station.holding is not None:
        low, high = done.frame.span(plan.sketch.start, plan.sketch.end)
        return [
            CutThread(
                name=name,
                axis=Axis.upright(*done.frame.axis),
                low=low,
                high=high,
                major=major,
                minor=minor,
                inside=False,
            )
        ]
    out = []
    for hole in features.rounds:
        if not hole.inside or abs(hole.diameter - plan.cut.start) > 0.05:
            continue
        ends = [float(hole.axis.lengths(mark).mean()) for mark in marks if _about(hole.axis, mark, major / 2)]
        if not ends:
            continue
        from_low = abs(ends[0] - hole.low) < abs(ends[0] - hole.high)
        length = hole.length if plan.sketch.through else min(deep, hole.length)
        low, high = (hole.low, hole.low + length) if from_low else (hole.high - length, hole.high)
        out.append(CutThread(name=name, axis=hole.axis, low=low, high=high, major=major, minor=minor, inside=True))
    return out


def _about(axis: Axis, mark: np.ndarray, radius: float) -> bool:
    """Whether a mark is an arc about an axis."""
    return bool(np.abs(axis.radii(mark) - radius).max() < 0.1)


def polar(one: Round, middle: Sequence[float]) -> tuple[float, float]:
    """(radius about the main axis, angle as the shop sees it from end A) of a hole along the work."""
    x, y = one.axis.point[0] - middle[0], one.axis.point[1] - middle[1]
    radius = math.hypot(x, y)
    return radius, -math.degrees(math.atan2(y, x)) if radius > NEAR else 0.0
