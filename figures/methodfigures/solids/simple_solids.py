"""Small solids written out as meshes, for the examples of the gallery: turned bodies, straight prisms, blocks."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from methodfigures.solids.mesh import Mesh

FACETS = 72


def turned(outline: Sequence[tuple[float, float]], axis: tuple[float, float] = (0.0, 0.0)) -> Mesh:
    """A closed outline of (z, r), in either sense, turned about a line along z."""
    p = np.asarray(outline, float)
    z, r = p[:, 0], p[:, 1]
    if float(np.sum(r * np.roll(z, -1) - z * np.roll(r, -1))) < 0:
        z, r = z[::-1], r[::-1]
    t = np.arange(FACETS) * 2 * np.pi / FACETS
    vertices: list[list[float]] = []
    rings: list[np.ndarray] = []
    for a, b in zip(z, r, strict=True):
        if b < 1e-9:
            rings.append(np.full(FACETS, len(vertices)))
            vertices.append([axis[0], axis[1], float(a)])
        else:
            rings.append(len(vertices) + np.arange(FACETS))
            vertices += [[axis[0] + float(b * np.cos(v)), axis[1] + float(b * np.sin(v)), float(a)] for v in t]
    triangles: list[tuple[int, ...]] = []
    surface: list[int] = []
    curved: list[bool] = []
    for i in range(len(z)):
        j = (i + 1) % len(z)
        if r[i] < 1e-9 and r[j] < 1e-9:
            continue
        a, b = rings[i], rings[j]
        for n in range(FACETS):
            m = (n + 1) % FACETS
            for tri in ((a[n], a[m], b[m]), (a[n], b[m], b[n])):
                if len(set(map(int, tri))) == 3:
                    triangles.append(tuple(map(int, tri)))
                    surface.append(len(curved))
        curved.append(bool(abs(z[i] - z[j]) > 1e-9))
    return Mesh.of(vertices, triangles, surface, curved)


def rod(diameter: float, start: float, end: float, axis: tuple[float, float] = (0.0, 0.0)) -> Mesh:
    """A round bar along z."""
    return turned([(start, 0), (start, diameter / 2), (end, diameter / 2), (end, 0)], axis)


def tube(diameter: float, bore: float, start: float, end: float, axis: tuple[float, float] = (0.0, 0.0)) -> Mesh:
    """A tube along z."""
    return turned([(start, bore / 2), (start, diameter / 2), (end, diameter / 2), (end, bore / 2)], axis)


def prism(
    outline: Sequence[tuple[float, float]],
    start: float,
    end: float,
    *,
    right: ArrayLike = (1, 0, 0),
    up: ArrayLike = (0, 0, 1),
    along: ArrayLike = (0, 1, 0),
    rounded: frozenset[int] = frozenset(),
) -> Mesh:
    """A convex or star-shaped outline, drawn in `right` and `up`, carried from `start` to `end` `along` a direction.

    The whole outline must be visible from its middle.  The sides numbered in `rounded`
    are facets of one round surface (outline anticlockwise, side i from corner i).
    """
    p = np.asarray(outline, float)
    if float(np.sum(p[:, 0] * np.roll(p[:, 1], -1) - p[:, 1] * np.roll(p[:, 0], -1))) < 0:
        p = p[::-1]
    r, u, a = (np.asarray(v, float) for v in (right, up, along))
    flat = p[:, :1] * r + p[:, 1:] * u
    n, middle = len(p), p.mean(0)
    centre = middle[0] * r + middle[1] * u
    vertices = np.concatenate([flat + a * start, flat + a * end, [centre + a * start, centre + a * end]])
    triangles, surface = [], []
    for i in range(n):
        j = (i + 1) % n
        triangles += [(i, j, 2 * n), (j + n, i + n, 2 * n + 1), (j, i, i + n), (j, i + n, j + n)]
        side = n + 2 if i in rounded else i
        surface += [n, n + 1, side, side]
    if float(np.cross(r, u) @ a) > 0:
        triangles = [(i, k, j) for i, j, k in triangles]
    return Mesh.of(vertices, triangles, surface, [*[False] * (n + 2), True])


def block(low: tuple[float, float, float], high: tuple[float, float, float]) -> Mesh:
    """A rectangular block."""
    (x0, y0, z0), (x1, y1, z1) = low, high
    return prism([(x0, z0), (x1, z0), (x1, z1), (x0, z1)], y0, y1)


def round_with(
    diameter: float, start: float, end: float, *, flat: float | None = None, groove: tuple[float, float] | None = None
) -> Mesh:
    """A round bar along z with a flat at x = `flat`, or a `groove` (width, distance of its bottom from the axis)."""
    r = diameter / 2
    if flat is not None:
        half = float(np.arccos(flat / r))
        extra: list[tuple[float, float]] = []
    else:
        assert groove is not None
        half = float(np.arcsin(groove[0] / 2 / r))
        extra = [(groove[1], -groove[0] / 2), (groove[1], groove[0] / 2)]
    t = np.linspace(half, 2 * np.pi - half, FACETS)
    outline = [(float(r * np.cos(v)), float(r * np.sin(v))) for v in t] + extra
    return prism(
        outline, start, end, right=(1, 0, 0), up=(0, 1, 0), along=(0, 0, 1), rounded=frozenset(range(FACETS - 1))
    )
