"""How does a solid stand on the paper?  Elevations, end views, sections and pictorials of one or more solids."""

from __future__ import annotations

import itertools
import math
from collections import OrderedDict
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeVar

import numpy as np
import shapely
from numpy.typing import ArrayLike
from shapely.geometry.base import BaseGeometry

from methodfigures.paper.shapes import Points, dashes, lines_in, lines_off, moved, point
from methodfigures.paper.sheet import FINE, HATCH, NARROW, WIDE, Layer, Sheet
from methodfigures.solids import revolved
from methodfigures.solids.hidden_lines import Lines, find_lines, on_top
from methodfigures.solids.mesh import Floats, Mesh
from methodfigures.solids.sections import EMPTY, cells_between, section, silhouette, trimmed

T = TypeVar("T")


# ---------------------------------------------------------------------- directions
def basis(right: ArrayLike, up: ArrayLike) -> Floats:
    """View matrix with the rows right, up and towards the reader, from two directions in the work."""
    r = np.asarray(right, float)
    r = r / np.linalg.norm(r)
    u = np.asarray(up, float)
    u = u - r * (u @ r)
    u = u / np.linalg.norm(u)
    return np.stack([r, u, np.cross(r, u)])


def pictorial_basis(
    axis: ArrayLike = (0, 0, 1), up: ArrayLike = (1, 0, 0), yaw: float = -35.0, pitch: float = 25.0
) -> Floats:
    """View matrix of a pictorial: `axis` runs across the paper turned by `yaw` degrees, `up` upwards, seen from above
    by `pitch` degrees.  With the defaults the end of `axis` shows its face.
    """
    a, u = np.asarray(axis, float), np.asarray(up, float)
    w = np.cross(a, u)
    y, p = math.radians(yaw), math.radians(pitch)
    right = a * math.cos(y) + w * math.sin(y)
    towards = (-a * math.sin(y) + w * math.cos(y)) * math.cos(p) + u * math.sin(p)
    return np.stack([right, np.cross(towards, right), towards])


@dataclass(frozen=True, eq=False)
class Place:
    """Where view coordinates land on the paper: `scale` (paper mm per mm), `origin` = paper point of the work's
    0, 0, 0; `window` = part of the paper in which the view may draw.
    """

    basis: Floats
    scale: float
    origin: Points
    window: shapely.Polygon | None = None

    def points(self, p: ArrayLike) -> Points:
        """View coordinates to paper."""
        return np.asarray(p, float) * self.scale + self.origin

    def spot(self, xyz: ArrayLike) -> Points:
        """A point of the work on the paper."""
        return self.points((self.basis @ np.asarray(xyz, float))[:2])

    def shape(self, g: BaseGeometry) -> BaseGeometry:
        """A shape in view coordinates, on the paper and inside the window."""
        g = moved(g, float(self.origin[0]), float(self.origin[1]), self.scale)
        return g if self.window is None else g.intersection(self.window)

    def lines(self, lines: Sequence[Points]) -> list[Points]:
        """Polylines in view coordinates, on the paper and inside the window."""
        on_paper = [self.points(p) for p in lines]
        if self.window is None:
            return on_paper
        return lines_in(on_paper, self.window)


def centred(view: Floats, scale: float, centre: ArrayLike, meshes: Sequence[Mesh]) -> Place:
    """The place that puts the middle of the solids' picture at paper point `centre`."""
    low, high = extent(view, meshes)
    return Place(view, scale, point(centre) - (low + high) / 2 * scale)


def extent(view: Floats, meshes: Sequence[Mesh]) -> tuple[Points, Points]:
    """Lower left and upper right corner of the solids' picture in view coordinates."""
    v = np.concatenate([m.vertices for m in meshes]) @ view[:2].T
    return v.min(0), v.max(0)


# ---------------------------------------------------------------------- looking
@dataclass(frozen=True)
class Look:
    """A scene as it is seen: what it covers, and its lines; both in view coordinates."""

    silhouette: BaseGeometry
    lines: Lines


@dataclass(frozen=True)
class Cut:
    """A scene cut open: the cut face of each solid, what the rest covers, and the lines behind the cut."""

    faces: tuple[BaseGeometry, ...]
    silhouette: BaseGeometry
    lines: Lines


@dataclass(frozen=True)
class Ghost:
    """The metal that goes, seen in its place: `shown` = where it is in front, `lines` = its outlines."""

    shown: BaseGeometry
    lines: Lines


@dataclass
class ViewBook:
    """Looks at solids and remembers what it saw, so that all figures that show one state share the work.

    Hold one per job and drop it with the job; it keeps the `limit` latest results.
    """

    limit: int = 400
    _pages: OrderedDict[Hashable, Any] = field(default_factory=OrderedDict)

    def _remember(self, key: Hashable, make: Callable[[], T]) -> T:
        if key in self._pages:
            self._pages.move_to_end(key)
        else:
            self._pages[key] = make()
            if len(self._pages) > self.limit:
                self._pages.popitem(last=False)
        result: T = self._pages[key]
        return result

    def profile(self, mesh: Mesh) -> revolved.Profile | None:
        """Profile of a body of revolution, None for others."""
        return self._remember(("profile", mesh.key()), lambda: revolved.profile_of(mesh))

    def look(self, meshes: Sequence[Mesh], view: Floats, *, hidden: bool = False) -> Look:
        """The solids as seen from outside."""
        key = ("look", _keys(meshes), _key(view), hidden)
        return self._remember(key, lambda: self._look(meshes, view, hidden))

    def cut(self, meshes: Sequence[Mesh], view: Floats, depth: float = 0.0, whole: frozenset[int] = frozenset()) -> Cut:
        """The solids cut by the plane at `depth`; the ones numbered in `whole` (shafts, pins) are left uncut."""
        key = ("cut", _keys(meshes), _key(view), round(depth, 6), whole)
        return self._remember(key, lambda: self._cut(meshes, view, depth, whole))

    def section(self, meshes: Sequence[Mesh], view: Floats, depth: float = 0.0) -> BaseGeometry:
        """The cut faces alone, all solids together."""
        key = ("section", _keys(meshes), _key(view), round(depth, 6))
        return self._remember(key, lambda: shapely.union_all([section(m, view, depth) for m in meshes]))

    def silhouette(self, meshes: Sequence[Mesh], view: Floats) -> BaseGeometry:
        """The part of the paper that the solids cover, in view coordinates."""
        key = ("silhouette", _keys(meshes), _key(view))
        return self._remember(key, lambda: self._cover(meshes, view))

    def ghost(self, after: Sequence[Mesh], removed: Sequence[Mesh], view: Floats) -> Ghost:
        """The removed solids in place among the solids `after`."""
        key = ("ghost", _keys(after), _keys(removed), _key(view))
        return self._remember(key, lambda: _ghost(after, removed, view))

    def _quick(self, meshes: Sequence[Mesh], view: Floats) -> list[tuple[revolved.Profile, float, float]] | None:
        """(profile, direction, lift) of each solid if all are revolved about lines square to the view and stand
        clear of one another lengthwise.
        """
        if abs(abs(view[0, 2]) - 1) > 1e-9:
            return None
        ends = sorted((float(m.vertices[:, 2].min()), float(m.vertices[:, 2].max())) for m in meshes if not m.empty)
        if any(b[0] < a[1] - 1e-6 for a, b in itertools.pairwise(ends)):
            return None
        found = [self.profile(m) for m in meshes if not m.empty]
        if any(p is None for p in found):
            return None
        return [(p, float(view[0, 2]), float(view[1, :2] @ p.axis)) for p in found if p is not None]

    def _look(self, meshes: Sequence[Mesh], view: Floats, hidden: bool) -> Look:
        quick = None if hidden else self._quick(meshes, view)
        if quick is not None:
            parts = [revolved.elevation(*q) for q in quick]
            lines = _merged([n for _, n in parts])
            for mesh, (profile, _, _) in zip([m for m in meshes if not m.empty], quick, strict=True):
                lines.smooth.extend(revolved.marks_in_front(mesh, view, profile.axis))
            return Look(shapely.union_all([s for s, _ in parts]), lines)
        return Look(self.silhouette(meshes, view), find_lines(meshes, view, hidden=hidden)[0])

    def _cover(self, meshes: Sequence[Mesh], view: Floats) -> BaseGeometry:
        quick = self._quick(meshes, view)
        if quick is not None:
            return shapely.union_all([revolved.elevation(*q)[0] for q in quick])
        return shapely.union_all([silhouette(m, view) for m in meshes])

    def _cut(self, meshes: Sequence[Mesh], view: Floats, depth: float, whole: frozenset[int]) -> Cut:
        quick = self._quick(meshes, view) if not whole else None
        if quick is not None and all(abs(float(view[2, :2] @ p.axis) - depth) < 1e-6 for p, _, _ in quick):
            parts = [revolved.lengthwise(*q) for q in quick]
            return Cut(
                tuple(c for c, _, _ in parts),
                shapely.union_all([s for _, s, _ in parts]),
                _merged([n for _, _, n in parts]),
            )
        faces = tuple(EMPTY if i in whole else section(m, view, depth) for i, m in enumerate(meshes))
        back = [m if i in whole else trimmed(m, view, depth) for i, m in enumerate(meshes)]
        cover = shapely.union_all([silhouette(m, view, f) for m, f in zip(back, faces, strict=True)])
        lines = find_lines(back, view)[0]
        return Cut(faces, cover, lines if whole else _behind(lines, faces))


def _behind(lines: Lines, faces: Sequence[BaseGeometry]) -> Lines:
    """Lines that no cut face covers: everything else in the picture lies behind the cut."""
    whole = shapely.union_all(list(faces))
    if whole.is_empty:
        return lines
    inner = whole.buffer(-1e-4 * max(whole.bounds[2] - whole.bounds[0], whole.bounds[3] - whole.bounds[1]))
    return Lines(*(lines_off(part, inner) for part in (lines.sharp, lines.contour, lines.smooth)))


def _merged(parts: Sequence[Lines]) -> Lines:
    names = ("sharp", "contour", "smooth", "hidden")
    return Lines(*([line for p in parts for line in getattr(p, name)] for name in names))


def _keys(meshes: Sequence[Mesh]) -> tuple[str, ...]:
    return tuple(m.key() for m in meshes)


def _key(view: Floats) -> bytes:
    return np.round(view, 9).tobytes()


def _ghost(after: Sequence[Mesh], removed: Sequence[Mesh], view: Floats) -> Ghost:
    n, scene = len(after), [*after, *removed]
    standing, gone = find_lines(scene, view, groups=[range(n), range(n, len(scene))])
    every = standing.visible() + gone.visible()
    if not gone.visible():
        return Ghost(EMPTY, gone)
    size = float(np.ptp(np.concatenate(every), axis=0).max())
    cells = cells_between(every, size)
    if not cells:
        return Ghost(EMPTY, gone)
    facets, owner = [], []
    for i, m in enumerate(scene):
        seen = m.normals @ view[2] > 1e-7
        facets.append((m.vertices @ view.T)[m.triangles[seen]])
        owner.append(np.full(int(seen.sum()), i >= n))
    spots = shapely.get_coordinates(shapely.point_on_surface(np.array(cells)))
    p, f, z = on_top(spots, np.concatenate(facets))
    order = np.lexsort((z, p))
    top = np.nonzero(np.r_[p[order][1:] != p[order][:-1], True])[0]
    front = [cells[p[order[i]]] for i in top if np.concatenate(owner)[f[order[i]]]]
    return Ghost(shapely.union_all(front), gone)


# ---------------------------------------------------------------------- drawing
def draw_lines(
    sheet: Sheet, lines: Lines, place: Place, *, wide: float = WIDE, narrow: float = HATCH, z: float = Layer.EDGE
) -> None:
    """Edges and contours wide, run-outs narrow, hidden lines dashed."""
    sheet.lines(place.lines(lines.sharp) + place.lines(lines.contour), wide, z)
    sheet.lines(place.lines(lines.smooth), narrow, z, ink=False)
    for p in place.lines(lines.hidden):
        sheet.lines(dashes(p, "hidden", NARROW), NARROW * 0.8, z - 0.1, cap="butt", ink=False)


def draw_look(
    sheet: Sheet,
    look: Look,
    place: Place,
    *,
    wide: float = WIDE,
    narrow: float = HATCH,
    fill: str = "paper",
    z: float = Layer.WORK,
) -> None:
    """A view from outside: filled, then its lines."""
    sheet.area(place.shape(look.silhouette), fill, z)
    draw_lines(sheet, look.lines, place, wide=wide, narrow=narrow, z=z + 1.5)


def draw_cut(
    sheet: Sheet,
    cut: Cut,
    place: Place,
    *,
    angles: Sequence[float] = (45.0, -45.0),
    pitches: Sequence[float] = (2.0, 1.4),
    wide: float = WIDE,
    narrow: float = HATCH,
    hatch: float = HATCH,
    z: float = Layer.WORK,
) -> None:
    """A section: what lies behind, then each cut face hatched in its own way and outlined."""
    sheet.area(place.shape(cut.silhouette), "paper", z)
    draw_lines(sheet, cut.lines, place, wide=wide, narrow=narrow, z=z + 1.4)
    for i, face in enumerate(cut.faces):
        g = place.shape(face)
        sheet.hatch(g, angles[i % len(angles)], pitches[i % len(pitches)], hatch, z + 0.3)
        sheet.outline(g, "wide", z + 1.5, width=wide)


def draw_ghost(sheet: Sheet, ghost: Ghost, place: Place, z: float = Layer.WORK, *, phantom: bool = True) -> None:
    """Removed metal in a pictorial: tinted where it is in front, its lines phantom (or left out)."""
    sheet.area(place.shape(ghost.shown), "removed", z + 0.2)
    if not phantom:
        return
    for p in place.lines(ghost.lines.sharp + ghost.lines.contour):
        sheet.lines(dashes(p, "phantom", FINE), 0.18, z + 0.4, cap="butt", ink=False)
