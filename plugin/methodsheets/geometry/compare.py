"""Is the finished part the part that was wanted, and who is to blame where it is not?"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from .frame import Array, Point, point
from .solid import CRUMB, SMALLEST, Solid

DifferenceKind: TypeAlias = Literal["left on", "missing"]


@dataclass(frozen=True, eq=False)
class Difference:
    """One place where the part differs: metal left on, or metal missing.

    `volume` mm³; `thickness` 2V/A in mm (true for a skin; for a squat piece see `low` and `high`, the corners of the
    box around it); `name` of the feature whose room it fills, or of the operation that took it.
    """

    kind: DifferenceKind
    volume: float
    thickness: float
    low: Point
    high: Point
    solid: Solid
    name: str = ""

    @property
    def size(self) -> Point:
        """Edges of the box around it, mm."""
        return (self.high[0] - self.low[0], self.high[1] - self.low[1], self.high[2] - self.low[2])


def compare(done: Solid, want: Solid, least: float = CRUMB) -> list[Difference]:
    """What is left on and what is missing, piece by piece, largest first; skins below `least` mm do not count."""
    found = [_difference("left on", [p]) for p in (done - want).without_skins(least)]
    found += [_difference("missing", [p]) for p in (want - done).without_skins(least)]
    return sorted(found, key=lambda d: -d.volume)


FILM = 0.002
"""mm: pieces that fit exactly overlap by films thinner than this (the kernel's rounding)."""


BARE = 0.7
"""Share of a facet's height below which an overlap is two round surfaces of one size whose facets do not match."""


def pairs_that_meet(boxes: Sequence[tuple[Array, Array]]) -> int:
    """How many pairs of boxes, each its low and its high corner in mm, have room in common."""
    if len(boxes) < 2:
        return 0
    low, high = (np.array(corners) for corners in zip(*boxes, strict=True))
    meet = ((low[:, None] < high[None]) & (low[None] < high[:, None])).all(axis=2)
    return int(meet.sum() - len(boxes)) // 2


def facet_film(solid: Solid) -> float:
    """How thick, in mm, the overlap of a solid with its own seat may be, where the facets of the two do not match."""
    radii = [s.radius for s in solid.mesh().surfaces if s.kind == "cylinder"]
    height = max(radii, default=0.0) * (1.0 - math.cos(math.pi / solid.table.facets))
    return max(FILM, BARE * height)


def overlap(one: Solid, other: Solid, film: float = FILM) -> float:
    """mm³ in which two solids overlap: a tool in the work, a pin in a hole too small. Thinner films do not count."""
    return sum(p.volume for p in (one & other).without_skins(film))


def faults(
    done: Solid,
    want: Solid,
    features: Iterable[tuple[str, Solid]],
    cuts: Iterable[tuple[str, Solid]],
    least: float = CRUMB,
    left_on: Solid | None = None,
) -> list[Difference]:
    """Differences with names, largest first.

    Metal left on belongs to the feature whose room it fills: `features` are (name, what it should have cut away).
    Metal missing belongs to the operation that took it: `cuts` are (name, what it took). Connected errors come apart.
    What belongs to nobody is reported last of its kind, without a name. `left_on` is done - want, where it is known.
    """
    rest = done - want if left_on is None else left_on
    found = _named("left on", rest, features, least)
    # Volumes tell whether anything is missing, and spare the sound part a cut of two nearly equal solids: the dearest.
    if want.volume - (done.volume - rest.volume) > SMALLEST / 2:
        found += _named("missing", want - done, cuts, least)
    return sorted(found, key=lambda d: -d.volume)


def _named(kind: DifferenceKind, rest: Solid, owners: Iterable[tuple[str, Solid]], least: float) -> list[Difference]:
    found = list[Difference]()
    bare: list[Solid] | None = rest.without_skins(least)
    if not bare:
        return []
    rest = bare[0].together(bare[1:])
    for name, body in owners:
        if rest.volume < SMALLEST:
            break
        if rest.box_gap(body) > 0:
            continue
        share, left = rest.split(body)
        if share.empty:
            continue
        # What is freed of its skins, and then goes to one owner whole or to none, need not be freed once more.
        pieces = bare if bare is not None and left.empty else share.without_skins(least)
        rest, bare = left, None
        if pieces:
            found.append(_difference(kind, pieces, name))
    orphans = rest.without_skins(least) if bare is None else bare
    return found + ([_difference(kind, orphans)] if orphans else [])


def _difference(kind: DifferenceKind, pieces: Sequence[Solid], name: str = "") -> Difference:
    boxes = [p.bounds for p in pieces]
    low = point([min(float(b[0][i]) for b in boxes) for i in range(3)])
    high = point([max(float(b[1][i]) for b in boxes) for i in range(3)])
    whole = pieces[0].together(pieces[1:])
    return Difference(
        kind=kind,
        volume=sum(p.volume for p in pieces),
        thickness=max(p.thickness for p in pieces),
        low=low,
        high=high,
        solid=whole,
        name=name,
    )
