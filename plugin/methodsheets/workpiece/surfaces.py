"""Is the surface there that the work is held by, and which surfaces has a cut eaten into?"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..geometry import STOCK, Axis, Mesh, Solid, Surface
from ..geometry.surface import group_same
from .datum import FACES, FaceName, Holding, TurningFrame, VicePose
from .state import State
from .work import Cut

WORTH = 1e-3
"""mm²: less of a surface than this is none."""


def held_surface(
    state: State, holding: Holding, diameter: float, start: float, end: float, *, inside: bool | None = None
) -> float:
    """Share (0 to 1) of a round surface that is really there to be gripped, between two lengths from the face.

    The surface of that diameter about the gripped axis, outside or (`inside`, else as the holding says) in a bore.
    Found from what the facets remember, so a surface finished in two operations counts as one. What another piece
    covers does not count.
    """
    found = round_surfaces(state, holding, start, end, inside=inside)
    return sum(share for d, share in found if abs(d - diameter) < 2e-6)


def round_surfaces(
    state: State, holding: Holding, start: float, end: float, *, inside: bool | None = None
) -> list[tuple[float, float]]:
    """(diameter in mm, share 0 to 1) of the cylinders about the gripped axis between two lengths, most of it first."""
    bore = holding.inside if inside is None else inside
    axis = Axis.upright(*holding.gripped_axis)
    low, high = holding.frame(state.ends).span(start, end)
    net: dict[float, float] = {}
    for solid in state:
        for radius, area in _cylinders(solid, axis, low, high, inside=bore):
            net[radius] = net.get(radius, 0.0) + area
        for radius, area in _cylinders(solid, axis, low, high, inside=not bore):
            net[radius] = net.get(radius, 0.0) - area
    whole = {r: 2 * math.pi * r * (high - low) for r in net}
    shares = [(2 * r, min(1.0, net[r] / whole[r])) for r in net if net[r] > WORTH and whole[r] > 0]
    return sorted(shares, key=lambda found: -found[1])


def held_taper(
    state: State, holding: Holding, taper: float, start: float, end: float, *, inside: bool | None = None
) -> float:
    """Share (0 to 1) of a cone about the gripped axis that is there between two lengths: a taper shank, a taper bore.

    `taper` = degrees between axis and side, met within 0.001°; 0 where there is no such cone.
    """
    bore = holding.inside if inside is None else inside
    axis = Axis.upright(*holding.gripped_axis)
    low, high = holding.frame(state.ends).span(start, end)
    share = 0.0
    for solid in state:
        mesh = solid.mesh()
        for number, s in enumerate(mesh.surfaces):
            if s.kind == "cone" and s.coaxial(axis) and abs(s.taper - taper) < 1e-3:
                mask = (mesh.surface_index == number) & (mesh.outward != bore)
                area = mesh.area_between(mask, axis.direction, low, high) / _facet_share(solid.table.facets)
                share += area / _cone_area(s, low, high)
    return min(1.0, share)


def _cone_area(cone: Surface, low: float, high: float) -> float:
    """Side area in mm² of the whole cone between two z: π (r + R) times the slant height."""
    slope = math.tan(math.radians(cone.taper))
    radii = [abs(z - cone.point[2]) * slope for z in (low, high)]
    return math.pi * sum(radii) * (high - low) / math.cos(math.radians(cone.taper))


def _cylinders(solid: Solid, axis: Axis, low: float, high: float, *, inside: bool) -> list[tuple[float, float]]:
    """(radius, true area mm²) of coaxial cylinders in a band that look away from the axis (or towards it, `inside`)."""
    mesh = solid.mesh()
    out = []
    for radius in sorted({round(s.radius, 6) for s in mesh.surfaces if s.kind == "cylinder" and s.coaxial(axis)}):
        mask = mesh.on(lambda s, r=radius: s.cylinder_on(axis, r))  # type: ignore[misc]
        mask &= mesh.outward != inside
        area = mesh.area_between(mask, axis.direction, low, high) / _facet_share(solid.table.facets)
        out.append((radius, area))
    return out


def _facet_share(facets: int) -> float:
    """Area of a faceted cylinder (equal-area corners) over that of the true one."""
    t = 2 * math.pi / facets
    return math.sqrt(t / math.sin(t)) * math.sin(t / 2) / (t / 2)


@dataclass(frozen=True)
class Flat:
    """A flat along the work: `angle` degrees as the set-up sees it, `distance` mm from its axis, `area` mm²."""

    angle: float
    distance: float
    area: float


def flats(state: State, frame: TurningFrame, start: float, end: float) -> list[Flat]:
    """Flats parallel to the set-up's axis between two lengths from its face, by angle: hexagon sides, spanner flats."""
    low, high = frame.span(start, end)
    found: dict[tuple[float, float], float] = {}
    for solid in state:
        mesh = solid.mesh()
        mask = mesh.on(lambda s: s.kind == "plane" and abs(s.direction[2]) < 1e-7)
        for index in np.unique(mesh.surface_index[mask]):
            _add_flats(mesh, int(index), frame, (low, high), found)
    return sorted((Flat(a, d, area) for (a, d), area in found.items() if area > WORTH), key=lambda f: f.angle)


def _add_flats(
    mesh: Mesh, index: int, frame: TurningFrame, band: tuple[float, float], found: dict[tuple[float, float], float]
) -> None:
    """Add both sides of one plane (it may bound metal on either) to the flats found so far."""
    n = np.array(mesh.surfaces[index].direction)
    for normal in (n, -n):
        mask = (mesh.surface_index == index) & (mesh.normals @ normal > 0.5)
        area = mesh.area_between(mask, (0, 0, 1), *band)
        offset = np.array(mesh.surfaces[index].point) - np.array([*frame.axis, 0.0])
        angle = frame.work_angle(math.degrees(math.atan2(normal[1], normal[0])))
        angle = 180.0 if angle < -180 + 1e-6 else round(angle, 6) + 0.0
        key = (angle, round(float(offset @ normal), 6) + 0.0)
        found[key] = found.get(key, 0.0) + area


def held_flats(state: State, holding: Holding, across: float, sides: int, start: float, end: float) -> float:
    """Share (0 to 1) of the flats of a regular bar (4 or 6 `sides`, mm `across` flats) about the gripped axis."""
    frame = TurningFrame(holding.out, state.ends, holding.gripped_axis)
    area = sum(f.area for f in flats(state, frame, start, end) if abs(f.distance - across / 2) < 1e-6)
    if start == end:
        return 0.0
    return min(1.0, area / (sides * across * math.tan(math.pi / sides) * abs(end - start)))


def held_in_vice(state: State, pose: VicePose, height: float, *, side: FaceName | None = None) -> float:
    """Share (0 to 1) of a vice jaw's band that meets flat metal: the outermost plane on one side of the work.

    The band runs from the lower face up to `height` mm, over the whole length. `side` = the face of the work that meets
    the jaw: the one towards you unless said otherwise.
    """
    low_corner, high_corner = state.bounds
    outward = np.array(FACES[side or pose.towards], float)
    reach = float(max(outward @ low_corner, outward @ high_corner))
    up = pose.frame.rotation[:, 2]
    bottom = float(up @ pose.frame.origin) - pose.size[2]
    area = 0.0
    for solid in state:
        mesh = solid.mesh()
        mask = mesh.on(lambda s: s.kind == "plane") & (mesh.normals @ outward > 1 - 1e-9)
        mask &= np.abs(mesh.corners[:, 0] @ outward - reach) < 1e-4
        area += mesh.area_between(mask, up.tolist(), bottom, bottom + height)
    length = float(np.abs(np.cross(outward, up)) @ (high_corner - low_corner))
    return min(1.0, area / (length * height)) if height > 0 else 0.0


def touched_surfaces(cut: Cut) -> dict[str, float]:
    """Earlier surfaces that a cut has eaten into: {operation that made them: mm²}, the stock's skin excepted."""
    return {o: a for o, a in _eaten(cut).items() if o != STOCK}


def skin_taken(cut: Cut) -> float:
    """Area of the stock's own skin (scale, casting skin) that a cut has taken off, mm²."""
    return _eaten(cut).get(STOCK, 0.0)


def skin_left(state: State) -> float:
    """Area of the stock's own skin that is still there, mm²."""
    return sum(s.mesh().area_of(lambda f: f.operation == STOCK) for s in state)


SAME_SIZE = 2e-6
"""mm by which two diameters are the same."""


def skin_facing(state: State, normal: tuple[float, float, float]) -> float:
    """Area mm² of the stock's own skin on planes that look that way."""
    return sum(
        float(mesh.areas[mesh.on(_flat_skin) & (mesh.normals @ np.array(normal) > 0.999)].sum())
        for mesh in (solid.mesh() for solid in state)
    )


def _flat_skin(surface: Surface) -> bool:
    return surface.kind == "plane" and surface.operation == STOCK


def skin_of_diameter(state: State, size: float) -> float:
    """Area mm² of the stock's own skin on cylinders of a diameter along z."""
    return sum(
        solid.mesh().area_of(
            lambda s: s.operation == STOCK and s.kind == "cylinder" and abs(s.diameter - size) < SAME_SIZE
        )
        for solid in state
    )


def finished_faces(state: State) -> dict[str, float]:
    """Area mm² of what each operation made and is still there; the stock's own skin under 'stock'."""
    out: dict[str, float] = {}
    for solid in state:
        for operation, area in solid.mesh().areas_by_operation().items():
            out[operation] = out.get(operation, 0.0) + area
    return {o: a for o, a in out.items() if a > WORTH}


def _eaten(cut: Cut) -> dict[str, float]:
    """Area of earlier surfaces on the metal that went, by operation.

    Where the cutter runs exactly along an earlier surface the kernel leaves skins without thickness, with that surface
    on one side and the cutter's, which looks the other way, on the other: such pairs cancel.
    """
    out: dict[str, float] = {}
    for solid in cut.removed.values():
        mesh = solid.mesh()
        groups = np.array(group_same(mesh.surfaces))
        ours = np.array([s.operation == cut.operation for s in mesh.surfaces])
        areas = [
            np.bincount(mesh.surface_index, mesh.areas * side, len(groups)) for side in (mesh.outward, ~mesh.outward)
        ]
        for theirs, opposite in (areas, areas[::-1]):
            along = np.bincount(groups, opposite * ours)
            for i in np.flatnonzero(~ours):
                skin = min(theirs[i], along[groups[i]])
                along[groups[i]] -= skin
                name = mesh.surfaces[i].operation
                out[name] = out.get(name, 0.0) + float(theirs[i] - skin)
    return {o: a for o, a in out.items() if a > WORTH}
