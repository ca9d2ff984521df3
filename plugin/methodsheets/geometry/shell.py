"""Which triangles stand for a turned or a pulled outline, and which true surface does each belong to?"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from . import surface as true
from .frame import Array, Axis, Frame
from .outline import Arc, Facets, Outline, Piece, area_factor
from .surface import Surface

Index = npt.NDArray[np.int64]

ON_AXIS = 1e-9
"""mm: points of a half profile nearer to the axis than this lie on it."""

CHORD = 0.003
"""mm: how near the facets of a corner rounding keep to the arc of a turned profile."""


@dataclass(frozen=True, eq=False)
class Shell:
    """A closed skin: vertices (n, 3) mm, triangles (m, 3) outward, face (m,) index into surfaces."""

    vertices: Array
    triangles: Index
    face: Index
    surfaces: tuple[Surface, ...]


def turned_shell(outline: Outline, operation: str, axis: Axis, per_turn: int) -> Shell:
    """The skin of a (radius, length) outline turned about an axis; ValueError where it crosses the axis."""
    facets = outline.facets(per_turn, CHORD)
    if facets.points[:, 0].min() < -ON_AXIS:
        raise ValueError(f"a turned outline keeps to one side of its axis (got radius {facets.points[:, 0].min():g})")
    vertices, rings = _rings(facets.points, axis, per_turn)
    pieces = outline.closed.pieces
    onward = np.arange(1, per_turn + 1) % per_turn
    triangles: list[Index] = []
    face: list[int] = []
    surfaces: list[Surface] = []
    numbers: dict[int, int] = {}
    for i, owner in enumerate(facets.owner):
        j = (i + 1) % len(facets.points)
        start, end = facets.points[i], facets.points[j]
        if max(start[0], end[0]) <= ON_AXIS:
            continue
        if owner not in numbers:
            numbers[owner] = len(surfaces)
            surfaces.append(_turned_surface(pieces[owner], start, end, operation, axis))
        a, b, c, d = rings[i], rings[i][onward], rings[j][onward], rings[j]
        if start[0] > ON_AXIS:
            triangles.append(np.stack([a, b, c], 1))
            face += [numbers[owner]] * per_turn
        if end[0] > ON_AXIS:
            triangles.append(np.stack([a, c, d], 1))
            face += [numbers[owner]] * per_turn
    return Shell(vertices, np.concatenate(triangles), np.array(face), tuple(surfaces))


def _rings(points: Array, axis: Axis, per_turn: int) -> tuple[Array, list[Index]]:
    """Vertices of a turned profile, and for each profile point the ring of its vertices (one repeated, on the axis)."""
    angles = np.arange(per_turn) * (2 * math.pi / per_turn)
    spokes = np.outer(np.cos(angles), axis.zero) + np.outer(np.sin(angles), axis.side)
    spokes *= area_factor(per_turn)
    vertices, rings, count = [], [], 0
    for radius, length in points:
        middle = np.array(axis.point) + length * np.array(axis.direction)
        if radius <= ON_AXIS:
            vertices.append(middle[None, :])
            rings.append(np.full(per_turn, count))
        else:
            vertices.append(middle + radius * spokes)
            rings.append(count + np.arange(per_turn))
        count += len(vertices[-1])
    return np.concatenate(vertices), rings


def _turned_surface(piece: Piece, start: Array, end: Array, operation: str, axis: Axis) -> Surface:
    direction = np.array(axis.direction)
    (r0, z0), (r1, z1) = start, end
    if isinstance(piece, Arc):
        return true.torus(operation, axis.at(piece.centre[1]), direction, piece.centre[0], piece.radius, piece.label)
    if abs(z1 - z0) < ON_AXIS:
        return true.plane(operation, axis.at(z0), direction, piece.label)
    if abs(r1 - r0) < ON_AXIS:
        return true.cylinder(operation, axis.point, direction, float(r0), piece.label)
    slope = (r1 - r0) / (z1 - z0)
    opening = direction if slope > 0 else -direction
    return true.cone(operation, axis.at(z0 - r0 / slope), opening, math.degrees(math.atan(abs(slope))), piece.label)


def pulled_shell(
    outline: Outline,
    start: float,
    end: float,
    operation: str,
    frame: Frame,
    per_turn: int,
    triangulate: Callable[[Array], Index],
) -> Shell:
    """The skin of an (x, y) outline of a frame, pulled along the frame's z from start to end (mm)."""
    if not end > start:
        raise ValueError(f"a prism needs a height (got {start:g} to {end:g})")
    facets = outline.facets(per_turn)
    n = len(facets.points)
    lower = np.column_stack([facets.points, np.full(n, start)])
    upper = np.column_stack([facets.points, np.full(n, end)])
    cap = triangulate(facets.points)
    ends = [true.plane(operation, frame.points(p), frame.rotation[:, 2]) for p in (lower[0], upper[0])]
    sides, owners = _side_surfaces(outline, facets, operation, frame)
    here = np.arange(n)
    onward = (here + 1) % n
    walls = np.stack([np.stack([here, onward, n + onward], 1), np.stack([here, n + onward, n + here], 1)], 1)
    triangles = np.concatenate([cap[:, ::-1], cap + n, walls.reshape(-1, 3)])
    face = np.concatenate([np.repeat([0, 1], len(cap)), np.repeat(owners + 2, 2)])
    return Shell(frame.points(np.concatenate([lower, upper])), triangles, face, (*ends, *sides))


def _side_surfaces(outline: Outline, facets: Facets, operation: str, frame: Frame) -> tuple[list[Surface], Index]:
    """The surfaces of a prism's sides, and for each facet the number of its own: all facets of an arc share one."""
    pieces = outline.closed.pieces
    found: list[Surface] = []
    numbers: dict[int, int] = {}
    for i, owner in enumerate(facets.owner.tolist()):
        if owner not in numbers:
            numbers[owner] = len(found)
            found.append(_side_surface(pieces[owner], facets, i, operation, frame))
    return found, np.array([numbers[owner] for owner in facets.owner.tolist()], np.int64)


def _side_surface(piece: Piece, facets: Facets, i: int, operation: str, frame: Frame) -> Surface:
    if isinstance(piece, Arc):
        middle = frame.points([*piece.centre, 0.0])
        return true.cylinder(operation, middle, frame.rotation[:, 2], piece.radius, piece.label)
    along = facets.points[(i + 1) % len(facets.points)] - facets.points[i]
    normal = frame.vectors([along[1], -along[0], 0.0])
    return true.plane(operation, frame.points([*facets.points[i], 0.0]), normal, piece.label)
