"""Which loose pieces of line belong together?  Pieces to polylines, closed edges to loops."""

from __future__ import annotations

import numpy as np

from methodfigures.paper.shapes import Points
from methodfigures.solids.mesh import Floats

_WIDEST = 1 << 31
"""More than there are steps of the grid across a picture."""


def chained(start: Floats, end: Floats, size: float) -> list[Points]:
    """Pieces start → end (n, 2) joined to polylines wherever exactly two meet; doubles dropped, straight runs
    thinned.  `size` = extent of the picture, for the tolerance.
    """
    if not len(start):
        return []
    ends = np.concatenate([start, end])
    keys = np.rint(ends / (size * 1e-6)).astype(np.int64)
    keys -= keys.min(0)
    _, first, where = np.unique(keys[:, 0] * _WIDEST + keys[:, 1], return_index=True, return_inverse=True)
    xy = ends[first]
    a, b = where[: len(start)], where[len(start) :]
    low, high = np.minimum(a, b), np.maximum(a, b)
    code = np.unique(low * len(xy) + high)
    low, high = code // len(xy), code % len(xy)
    apart = low != high
    return [_thinned(xy[walk], size) for walk in _walks(low[apart].tolist(), high[apart].tolist(), len(xy))]


def _walks(low: list[int], high: list[int], count: int) -> list[list[int]]:
    """Maximal walks through the edges low - high: first from ends and branches, then closed rings."""
    near: list[list[int]] = [[] for _ in range(count)]
    for a, b in zip(low, high, strict=True):
        near[a].append(b)
        near[b].append(a)
    out: list[list[int]] = []
    passed = [False] * count  # corners inside a walk, where exactly two edges meet
    for a, others in enumerate(near):
        if len(others) != 2:
            for b in others:
                if len(near[b]) != 2:
                    if a < b:
                        out.append([a, b])
                elif not passed[b]:
                    out.append(_walk(a, b, near, passed))
    for a, others in enumerate(near):
        if len(others) == 2 and not passed[a]:
            out.append(_walk(a, others[0], near, passed))
    return out


def _walk(a: int, b: int, near: list[list[int]], passed: list[bool]) -> list[int]:
    """On from a over b to the next end or branch, or round to a again."""
    path, start = [a, b], a
    while b != start and len(near[b]) == 2:
        passed[b] = True
        one, other = near[b]
        a, b = b, (other if one == a else one)
        path.append(b)
    passed[start] = True
    return path


def _thinned(p: Points, size: float) -> Points:
    """Without the points inside straight runs; a line that runs back on itself keeps its tip."""
    if len(p) < 3:
        return p
    d1, d2 = p[1:-1] - p[:-2], p[2:] - p[1:-1]
    bend = np.abs(d1[:, 0] * d2[:, 1] - d1[:, 1] * d2[:, 0]) > 1e-7 * size * np.hypot(d1[:, 0], d1[:, 1])
    back = np.einsum("ij,ij->i", d1, d2) < 0
    return p[np.r_[True, bend | back, True]]
