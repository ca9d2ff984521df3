"""Which loose pieces of line belong together?  Pieces to polylines, closed edges to loops."""

from __future__ import annotations

import numpy as np

from methodfigures.paper.shapes import Points
from methodfigures.solids.mesh import Floats, Ints


def chained(start: Floats, end: Floats, size: float) -> list[Points]:
    """Pieces start → end (n, 2) joined to polylines wherever exactly two meet; doubles dropped, straight runs
    thinned.  `size` = extent of the picture, for the tolerance.
    """
    if not len(start):
        return []
    grid = size * 1e-6
    keys = np.round(np.concatenate([start, end]) / grid).astype(np.int64)
    _, first, where = np.unique(keys, axis=0, return_index=True, return_inverse=True)
    xy = np.concatenate([start, end])[first]
    pairs: Ints = np.sort(where.reshape(2, -1).T, axis=1).astype(np.int64)
    pairs = np.unique(pairs[pairs[:, 0] != pairs[:, 1]], axis=0)
    return [_thinned(xy[walk], size) for walk in _walks(pairs, len(xy))]


def _walks(pairs: Ints, count: int) -> list[list[int]]:
    """Maximal walks through edges: first from ends and branches, then closed rings."""
    near: list[list[int]] = [[] for _ in range(count)]
    for a, b in pairs.tolist():
        near[a].append(b)
        near[b].append(a)
    used: set[tuple[int, int]] = set()
    out: list[list[int]] = []

    def walk(a: int, b: int) -> list[int]:
        path = [a, b]
        used.add((a, b) if a < b else (b, a))
        while len(near[b]) == 2:
            n = near[b][0] if near[b][0] != a else near[b][1]
            pair = (b, n) if b < n else (n, b)
            if pair in used:
                break
            used.add(pair)
            path.append(n)
            a, b = b, n
        return path

    for closed in (False, True):
        for a, others in enumerate(near):
            if closed or len(others) != 2:
                out += [walk(a, b) for b in others if ((a, b) if a < b else (b, a)) not in used]
    return out


def _thinned(p: Points, size: float) -> Points:
    """Without the points inside straight runs; a line that runs back on itself keeps its tip."""
    if len(p) < 3:
        return p
    d1, d2 = p[1:-1] - p[:-2], p[2:] - p[1:-1]
    bend = np.abs(d1[:, 0] * d2[:, 1] - d1[:, 1] * d2[:, 0]) > 1e-7 * size * np.hypot(d1[:, 0], d1[:, 1])
    back = np.einsum("ij,ij->i", d1, d2) < 0
    return p[np.r_[True, bend | back, True]]
