"""Which way, and how far, does each body of an assembly move so that one sees what goes into what?

The largest body stays. A body that sits on a round of it, or in a hole, goes along the axis of that; another goes along
the axis along which it stands furthest from the middle of the largest. It goes to the nearer end, until it is clear.
"""

from __future__ import annotations

import numpy as np

from methodsheets.drawings.finished.made import NEAR, TOUCHING, Made, Spot, spot
from methodsheets.geometry import Solid
from methodsheets.workpiece.features import Round, features_of

GAP = 0.15
"""Room between two bodies that are taken apart, as a share of the largest."""


def exploded(made: Made) -> tuple[Spot, ...]:
    """How far each body is moved, mm, in the order of the bodies."""
    solids = [body.solid for body in made.piece.work.bodies.values()]
    stays = max(range(len(solids)), key=lambda i: solids[i].volume)
    low, high = solids[stays].bounds
    gap = GAP * float((high - low).max())
    moved = [np.zeros(3) for _ in solids]
    ways: dict[tuple[float, ...], list[int]] = {}
    for i, solid in enumerate(solids):
        if i != stays:
            ways.setdefault(tuple(np.round(_way(solid, solids[stays]), 6).tolist()), []).append(i)
    for key, mine in ways.items():
        way = np.array(key)
        edge = _reach(solids[stays], way)[1]
        for i in sorted(mine, key=lambda one: _reach(solids[one], way)[0]):
            start, end = _reach(solids[i], way)
            moved[i] = way * (edge + gap - start)
            edge += gap + end - start
    return tuple(spot(by) for by in moved)


def _way(solid: Solid, stays: Solid) -> np.ndarray:
    """Unit vector along which a body leaves the one that stays."""
    middle, other = (np.asarray(one.bounds).mean(axis=0) for one in (solid, stays))
    axis = _seat(features_of(solid).rounds, features_of(stays).rounds)
    if axis is None:
        axis = np.eye(3)[int(np.argmax(np.abs(middle - other)))]
    towards = float(axis @ (middle - other))
    return axis if towards > -NEAR else -axis


def _seat(mine: tuple[Round, ...], others: tuple[Round, ...]) -> np.ndarray | None:
    """Axis of the longest round that lies in a hole of the other body, or on a shaft of it."""
    pairs = (
        (min(a.high, b.high) - max(a.low, b.low), a)
        for a in mine
        for b in others
        if a.inside != b.inside
        and abs(a.diameter - b.diameter) < 2 * TOUCHING
        and a.axis.parallel(b.axis.direction)
        and a.axis.distance(b.axis.point) < TOUCHING
    )
    length, found = max(pairs, key=lambda one: one[0], default=(0.0, None))
    return np.array(found.axis.direction, float) if found is not None and length > NEAR else None


def _reach(solid: Solid, way: np.ndarray) -> tuple[float, float]:
    """Where a body begins and ends along a direction, mm."""
    along = solid.mesh().vertices @ way
    return float(along.min()), float(along.max())
