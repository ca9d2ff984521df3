"""How does a turned part lie on the paper: its main axis, what is up, what is cut, where its outline stands?"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from methodfigures.part.spec import Cutting, Side
from methodsheets.drawings.finished.made import NEAR, Made, Spot
from methodsheets.geometry import Axis
from methodsheets.workpiece.features import Round, Tapered

EDGE_BREAK = 5.0
"""mm: a cone no longer than this beside a face is a chamfer; a longer one is a taper."""


@dataclass(frozen=True)
class Turned:
    """A turned part as it is laid down for drawing."""

    made: Made

    @cached_property
    def axis(self) -> Axis:
        """The main axis: the one with the greatest length of round about it."""
        total: dict[tuple[float, float], float] = {}
        for r in self.upright(self.made.outside):
            key = (round(r.axis.point[0], 4), round(r.axis.point[1], 4))
            total[key] = total.get(key, 0.0) + r.length
        x, y = max(sorted(total), key=lambda key: total[key]) if total else (0.0, 0.0)
        return Axis.upright(x, y)

    @staticmethod
    def upright(rounds: Iterable[Round]) -> list[Round]:
        """The rounds along the work."""
        return [r for r in rounds if abs(abs(r.axis.direction[2]) - 1) < 1e-7]

    @cached_property
    def rounds(self) -> list[Round]:
        """Journals and rims along the work; one that a groove or a thread interrupts counts once."""
        found: list[Round] = []
        for r in self.upright(self.made.outside):
            same = next((f for f in found if self._continues(f, r)), None)
            if same is not None:
                found.remove(same)
                r = Round(
                    axis=r.axis,
                    diameter=r.diameter,
                    low=same.low,
                    high=r.high,
                    inside=False,
                    part=r.part,
                    operation=r.operation,
                )
            found.append(r)
        return found

    def _continues(self, one: Round, other: Round) -> bool:
        """Whether only something thinner stands between two stretches of one cylinder that one operation made."""
        if one.diameter != other.diameter or one.operation != other.operation:
            return False
        if one.axis.distance(other.axis.point) > NEAR:
            return False
        between = [r for r in self.upright(self.made.outside) if r.low < other.low - NEAR and r.high > one.high + NEAR]
        return all(r.diameter <= one.diameter + NEAR for r in between)

    @cached_property
    def bores(self) -> list[Round]:
        """Bores about the main axis, centre holes left out."""
        mine = [h for h in self.upright(self.made.holes) if h.axis.distance(self.axis.point) < NEAR]
        return [h for h in mine if not self.is_centre(h)]

    @cached_property
    def centres(self) -> list[Round]:
        """Pilot holes of centre holes on the main axis."""
        mine = [h for h in self.upright(self.made.holes) if h.axis.distance(self.axis.point) < NEAR]
        return [h for h in mine if self.is_centre(h)]

    def is_centre(self, hole: Round) -> bool:
        """Whether a hole was made by a centre drill: a 60° cone stands at its mouth (ISO 866)."""
        return any(
            t.inside and abs(t.half_angle - 30.0) < 0.1 and min(t.at_low, t.at_high) - hole.diameter < NEAR * 10
            and t.axis.distance(hole.axis.point) < NEAR and min(abs(t.high - hole.low), abs(t.low - hole.high)) < 0.01
            for t in self.made.features.tapers
        )  # fmt: skip

    @cached_property
    def beside(self) -> list[Round]:
        """Holes along the work beside its main axis."""
        return [h for h in self.upright(self.made.holes) if h.axis.distance(self.axis.point) > NEAR]

    @cached_property
    def crosswise(self) -> list[Round]:
        """Holes square to the axis."""
        return [h for h in self.made.holes if abs(h.axis.direction[2]) < 1e-7 and not h.part]

    @cached_property
    def up(self) -> Spot:
        """What is up on the paper: the eccentric, else so that cross holes face the reader, else the 0° mark."""
        off = max(self.rounds, key=lambda r: r.axis.distance(self.axis.point), default=None)
        towards: Round | None = off if off and off.axis.distance(self.axis.point) > NEAR else None
        if towards is None and self.bores and self.beside:
            towards = self.beside[0]
        if towards is not None:
            x, y = (towards.axis.point[i] - self.axis.point[i] for i in (0, 1))
            return (x / math.hypot(x, y), y / math.hypot(x, y), 0.0)
        if self.crosswise:
            mouth = self.mouth(self.crosswise[0]) - self.crosswise[0].axis.at(0.0)
            length = math.hypot(mouth[0], mouth[1])
            if self.bores:  # the mouth lies in the cut half
                return (-mouth[0] / length, -mouth[1] / length, 0.0)
            return (mouth[1] / length, -mouth[0] / length, 0.0)
        return (1.0, 0.0, 0.0)

    def mouth(self, hole: Round) -> np.ndarray:
        """Where a cross hole comes out of the work, the side that faces the reader where it goes right through."""
        return hole.axis.at(hole.high if abs(hole.high) >= abs(hole.low) else hole.low)

    def lies_flat(self, hole: Round) -> bool:
        """Whether a cross hole lies in the plane of the paper."""
        return bool(abs(abs(np.array(self.up) @ np.array(hole.axis.direction)) - 1) < 1e-6)

    @property
    def plane(self) -> float:
        """Where the main axis lies towards the reader."""
        towards = np.cross((0.0, 0.0, 1.0), self.up)
        return float(towards @ np.array(self.axis.point))

    @cached_property
    def cutting(self) -> Cutting:
        """How much is cut away."""
        if len(self.made.piece.work.bodies) > 1:
            return Cutting.FULL
        if not self.bores:
            return Cutting.NONE
        off = any(r.axis.distance(self.axis.point) > NEAR for r in self.rounds)
        return Cutting.FULL if off or self.beside else Cutting.HALF

    @property
    def alike(self) -> bool:
        """Whether the outline stands below the axis as it does above."""
        return all(r.axis.distance(self.axis.point) < NEAR for r in self.rounds)

    def told_apart(self, r: Round) -> float:
        """What of a groove must be told apart to see it, mm: its width, or its two depths; 0 where it is none."""
        beside = [o.diameter for o in self.upright(self.made.outside) if o is not r and _meets(o, r)]
        deep = min(beside, default=0.0) - r.diameter
        return min(r.length, deep) if deep > NEAR else 0.0

    @cached_property
    def ends(self) -> tuple[float, float]:
        """Z of the two ends."""
        low, high = self.made.piece.work.state.bounds
        return float(low[2]), float(high[2])

    @property
    def lengths_side(self) -> Side:
        """Lengths stand below the view; above it where notes need the cut lower half."""
        return Side.ABOVE if self.cutting is Cutting.HALF else Side.BELOW

    def height(self, one: Round) -> float:
        """Height of a round's own axis over the main one, as the view shows it."""
        return float(np.array(self.up) @ (np.array(one.axis.point) - np.array(self.axis.point)))

    def at(self, z: float, height: float) -> Spot:
        """The point in the plane of the paper at a length and a height over the main axis."""
        base = np.array(self.axis.point) + np.array(self.up) * height
        return (float(base[0]), float(base[1]), float(z))

    def reach(self, z: float, side: Side) -> float:
        """How high (or low) the outline stands at a shoulder, over the main axis."""
        sign = 1.0 if side is Side.ABOVE else -1.0
        heights = [sign * self.height(r) + r.diameter / 2 for r in self.rounds if touches(r, z)]
        for t in self.made.features.tapers:
            if not t.inside and touches(t, z):
                heights.append((t.at_low if abs(t.low - z) < NEAR else t.at_high) / 2)
        for f in self.made.features.flats:
            if f.along(2) and abs(abs(f.level) - abs(z)) < NEAR and not heights:
                heights.append(max(abs(v) for v in (*f.low[:2], *f.high[:2])))
        return sign * max(heights, default=0.0)


def _meets(one: Round, other: Round) -> bool:
    return min(abs(one.high - other.low), abs(one.low - other.high)) < NEAR


def touches(one: Round | Tapered, z: float) -> bool:
    """Whether it begins or ends at a length."""
    return min(abs(one.low - z), abs(one.high - z)) < NEAR


def is_taper(t: Tapered) -> bool:
    """Whether a cone is a taper of the part and not a chamfer."""
    return t.high - t.low > EDGE_BREAK or t.half_angle < 15.0


def open_side(part: Turned, r: Round) -> Side | None:
    """The side to which nothing larger stands in the way of the extension lines; the nearer end first."""
    low, high = part.ends
    sides = [Side.LEFT, Side.RIGHT] if r.low - low <= high - r.high else [Side.RIGHT, Side.LEFT]
    for side in sides:
        z = r.low if side is Side.LEFT else r.high
        if clear(part, z, r.diameter, side, part.height(r)):
            return side
    return None


def clear(part: Turned, z: float, d: float, side: Side, height: float = 0.0) -> bool:
    """Whether nothing larger stands between a diameter and its end of the part."""
    top, foot = height + d / 2, height - d / 2
    for other in part.rounds:
        beyond = other.low < z - NEAR if side is Side.LEFT else other.high > z + NEAR
        h = part.height(other)
        if beyond and (h + other.diameter / 2 > top - NEAR or h - other.diameter / 2 < foot + NEAR):
            return False
    return True
