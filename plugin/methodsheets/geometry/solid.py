"""What is left of the metal after a cut, and what has gone?"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

import manifold3d as m3  # type: ignore[import-not-found]
import numpy as np

from .frame import Array, Frame
from .mesh import Index, Mask, Mesh
from .shell import Shell
from .surface import Surface

CRUMB = 0.005
"""mm: pieces thinner than this are the kernel's dust, not metal (see `Solid.pieces`)."""

NOTHING = 1e-9
"""mm³: less than this is no metal."""

SKIN = 1e-7
"""mm: a skin thinner than this has no thickness. Well below `surface.SAME`: surfaces stay themselves."""

ASIDE = (SKIN, 0.6180339887 * SKIN, 0.2763932023 * SKIN)
"""mm: a hair's move that leaves no skin where it is; no facet that is made lies along it."""

SMALLEST = 1e-6
"""mm³: a smaller difference between two solids is none."""


class GeometryError(RuntimeError):
    """The solid kernel refused an operation: a mistake of ours, not of the author's."""


class SurfaceTable:
    """Which surfaces the skins of one job consist of; lives as long as a solid of the job does."""

    def __init__(self, facets: int) -> None:
        """An empty table for a job with so many facets a turn."""
        self.facets = facets
        self._skins: dict[int, tuple[Surface, ...]] = {}

    def __len__(self) -> int:
        return len(self._skins)

    def enter(self, surfaces: Iterable[Surface]) -> int:
        """Note the surfaces of a new skin; returns the number the kernel carries through every cut."""
        number: int = m3.Manifold.reserve_ids(1)
        self._skins[number] = tuple(surfaces)
        return number

    def adopt(self, other: SurfaceTable) -> None:
        """Take over the skins of another job, whose piece is joined to ours; numbers never collide."""
        if other is self:
            return
        if other.facets != self.facets:
            raise ValueError(f"pieces of one job need equal facets a turn (got {self.facets} and {other.facets})")
        self._skins.update(other._skins)

    def find(self, skin: int, face: int) -> Surface:
        """The surface of one face of one skin."""
        return self._skins[skin][face]


class Solid:
    """A piece of metal, or a cutter: unchangeable; `-` cuts, `+` joins, `&` is the common part.

    All lengths mm. Cuts are worked out when something is first asked of the result; `volume` forces it.
    """

    __slots__ = ("__weakref__", "_body", "_known", "_mesh", "_pieces", "_volume", "table")

    def __init__(self, body: m3.Manifold, table: SurfaceTable) -> None:
        """Only this room makes solids straight from a kernel body."""
        self._body = body
        self.table = table
        self._mesh: Mesh | None = None
        self._volume: float | None = None
        self._known: dict[Callable[[Mesh], object], object] = {}
        self._pieces: list[Solid] | None = None

    @classmethod
    def from_shell(cls, shell: Shell, table: SurfaceTable) -> Solid:
        """A solid from its skin; GeometryError where the skin is not closed."""
        skin = table.enter(shell.surfaces)
        mesh = m3.Mesh64(
            np.ascontiguousarray(shell.vertices, np.float64),
            np.ascontiguousarray(shell.triangles, np.uint64),
            run_index=np.array([0, 3 * len(shell.triangles)], np.uint64),
            run_original_id=np.array([skin], np.uint32),
            face_id=np.ascontiguousarray(shell.face, np.uint64),
        )
        solid = cls(m3.Manifold(mesh), table)
        solid.check()
        return solid

    # -------------------------------------------------------------- cutting and joining
    def _other(self, other: Solid) -> m3.Manifold:
        self.table.adopt(other.table)
        return other._body

    def __sub__(self, other: Solid) -> Solid:
        return Solid(self._body - self._other(other), self.table)

    def __add__(self, other: Solid) -> Solid:
        return Solid(self._body + self._other(other), self.table)

    def __and__(self, other: Solid) -> Solid:
        return Solid(self._body ^ self._other(other), self.table)

    def split(self, cutter: Solid) -> tuple[Solid, Solid]:
        """(what lies inside the cutter, what is left): one pass of the kernel for both."""
        inside, outside = self._body.split(self._other(cutter))
        return Solid(inside, self.table), Solid(outside, self.table)

    def pieces(self, least: float = CRUMB) -> list[Solid]:
        """The separate pieces, largest first, without the kernel's dust: pieces thinner (2V/A) than `least` mm."""
        return [p for p in self._separate() if p.volume > NOTHING and p.thickness > least]

    def _separate(self) -> list[Solid]:
        """Everything the kernel counts as a piece, largest first; worked out once."""
        if self._pieces is None:
            self._pieces = sorted((Solid(p, self.table) for p in self._body.decompose()), key=lambda p: -p.volume)
        return self._pieces

    def without_skins(self, least: float = CRUMB) -> list[Solid]:
        """Pieces thicker (2V/A) than `least` mm, freed of skins without thickness that cling to them; largest first.

        Needed for the difference of nearly equal solids, which consists of crumbs of 1e-14 mm³ and of such skins.
        What a hair's move does not bring out of itself is metal; a skin never is. Exact to a hair.
        """
        found = []
        for piece in (p for p in self._separate() if p.volume > SMALLEST):
            metal = Solid(piece._body ^ piece._body.translate(ASIDE), self.table)
            found += [p for p in metal.pieces(least) if p.volume > SMALLEST]
        return sorted(found, key=lambda p: -p.volume)

    def together(self, others: Iterable[Solid]) -> Solid:
        """It and the others as one solid, in one pass of the kernel."""
        bodies = [self._body, *(self._other(o) for o in others)]
        return self if len(bodies) == 1 else Solid(m3.Manifold.batch_boolean(bodies, m3.OpType.Add), self.table)

    # -------------------------------------------------------------- moving
    def moved(self, frame: Frame) -> Solid:
        """The solid carried along when its frame is placed as `frame`; its surfaces go with it."""
        return Solid(self._body.transform(np.ascontiguousarray(frame.matrix)), self.table)

    def shifted(self, vector: Sequence[float]) -> Solid:
        """The solid moved by a vector (mm)."""
        x, y, z = map(float, vector)
        return Solid(self._body.translate((x, y, z)), self.table)

    # -------------------------------------------------------------- asking
    def hollows(self) -> list[float]:
        """Volumes of the closed hollows inside, mm³, largest first; slits without width between pieces are shut."""
        if self.empty:
            return []
        steps = [(side * SKIN, a) for a in range(3) for side in (1.0, -1.0)]
        hair = [tuple(step if axis == a else 0.0 for axis in range(3)) for step, a in steps]
        shut = m3.Manifold.batch_boolean([self._body.translate(m) for m in hair], m3.OpType.Add)
        inward = [-float(skin.volume()) for skin in shut.decompose()]
        return sorted((volume for volume in inward if volume > SMALLEST), reverse=True)

    def check(self) -> None:
        """Force pending cuts; GeometryError where the kernel failed."""
        status = self._body.status()
        if status != m3.Error.NoError:
            raise GeometryError(f"the solid kernel reports {status.name}")

    @property
    def volume(self) -> float:
        """mm³."""
        if self._volume is None:
            self.check()
            self._volume = float(self._body.volume())
        return self._volume

    @property
    def area(self) -> float:
        """Area of the whole skin, mm²."""
        return float(self._body.surface_area())

    @property
    def thickness(self) -> float:
        """2V/A in mm: the thickness of a skin; of a squat piece only an order of size."""
        area = self.area
        return 2 * self.volume / area if area > 0 else 0.0

    @property
    def empty(self) -> bool:
        """Whether there is no metal."""
        return self._body.is_empty() or self.volume < NOTHING

    @property
    def bounds(self) -> tuple[Array, Array]:
        """(low (3,), high (3,)) of the box around it, mm; ValueError where there is no metal."""
        if self._body.is_empty():
            raise ValueError("an empty solid has no bounds")
        box = np.array(self._body.bounding_box(), float).reshape(2, 3)
        return box[0], box[1]

    @property
    def triangles(self) -> int:
        """How many facets."""
        return int(self._body.num_tri())

    def gap(self, other: Solid, search: float = 1.0) -> float:
        """Least distance to another solid, mm, looked for up to `search`; 0 where they touch or overlap."""
        if self.box_gap(other) >= search:
            return search
        return float(self._body.min_gap(self._other(other), search))

    def box_gap(self, other: Solid) -> float:
        """How far their boxes stand apart, mm, 0 where they meet; the solids stand as far or farther. No metal: inf."""
        if self.empty or other.empty:
            return math.inf
        (low, high), (their_low, their_high) = self.bounds, other.bounds
        return float(np.linalg.norm(np.maximum(0.0, np.maximum(low - their_high, their_low - high))))

    def contains(self, points: Array) -> Mask:
        """(n,) bool: which of the points (n, 3) lie inside; undecided for points on the skin.

        Counts the facets that a ray from the point goes out through; where it begins on one, or nearly so, the solid
        angles under which all are seen are added up, which takes ten times as long.
        """
        inside = np.zeros(len(points), bool)
        if self.empty:
            return inside
        low, high = self.bounds
        corners = self.mesh().corners
        turned, spots = corners @ CROOKED, points @ CROOKED
        for i in np.flatnonzero(((points >= low) & (points <= high)).all(axis=1)):
            count = _goes_out(turned - spots[i])
            inside[i] = (_winding(corners - points[i]) > 0.5) if count is None else count > 0
        return inside

    def holds(self, where: Sequence[float]) -> bool:
        """Whether a point (x, y, z) lies inside."""
        return bool(self.contains(np.array([where], float))[0])

    def mesh(self) -> Mesh:
        """Its skin; worked out once and kept with the solid."""
        if self._mesh is None:
            self._mesh = _read_mesh(self._body, self.table)
        return self._mesh

    def remembered(self, work_out: Callable[[Mesh], object]) -> object:
        """What `work_out` finds on its skin (mass, features), kept with the solid after the first time."""
        if work_out not in self._known:
            self._known[work_out] = work_out(self.mesh())
        return self._known[work_out]


CROOKED = np.linalg.qr(np.array([[0.83, 0.29, 0.31], [-0.37, 0.71, 0.53], [0.13, -0.61, 0.79]]))[0]
"""Axes that no edge of a workpiece is parallel to, so that a ray along the third of them meets none end on."""
ON_SKIN = 1e-6
"""mm: nearer than this a ray cannot tell on which side of a facet it begins."""
ON_EDGE = 1e-9
"""mm²: below this it cannot tell on which side of an edge it goes by."""


def _goes_out(corners: Array) -> int | None:
    """How many facets more a ray from the origin along the third axis leaves through than enters; None on the skin."""
    x, y, z = corners[:, :, 0], corners[:, :, 1], corners[:, :, 2]
    after = [1, 2, 0]
    sides = x * y[:, after] - x[:, after] * y  # an edge's two facets get the same number with the sign changed
    met = np.flatnonzero((sides > -ON_EDGE).all(axis=1) | (sides < ON_EDGE).all(axis=1))
    sides, whole = sides[met], sides[met].sum(axis=1)
    if (np.abs(sides) < ON_EDGE).any():
        return None
    at = (sides[:, after] * z[met]).sum(axis=1) / whole
    if (np.abs(at) < ON_SKIN).any():
        return None
    return int(np.sign(whole[at > 0]).sum())


def _winding(corners: Array) -> float:
    """How many times a closed skin goes round the origin (1 inside, 0 outside)."""
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    la, lb, lc = (np.linalg.norm(v, axis=1) for v in (a, b, c))
    above = np.einsum("ij,ij->i", a, np.cross(b, c))
    dots = [np.einsum("ij,ij->i", p, q) for p, q in ((a, b), (b, c), (c, a))]
    below = la * lb * lc + dots[0] * lc + dots[1] * la + dots[2] * lb
    return float(np.arctan2(above, below).sum() / (2 * np.pi))


def _read_mesh(body: m3.Manifold, table: SurfaceTable) -> Mesh:
    """Vertices, triangles and surfaces of a kernel body.

    Always the double-precision mesh: the single-precision one loses microns.
    """
    raw = body.to_mesh64()
    vertices = np.array(raw.vert_properties, np.float64)[:, :3]
    triangles = np.array(raw.tri_verts).astype(np.int64)
    merged = np.array(raw.merge_from_vert, np.int64)
    if len(merged):
        to = np.arange(len(vertices))
        to[merged] = np.array(raw.merge_to_vert, np.int64)
        triangles = to[triangles]
    index, surfaces = _surfaces(raw, table, len(triangles))
    for array in (vertices, triangles, index):
        array.flags.writeable = False
    return Mesh(vertices, triangles, index, surfaces)


def _surfaces(raw: m3.Mesh64, table: SurfaceTable, triangles: int) -> tuple[Index, tuple[Surface, ...]]:
    """One surface number per triangle. Each run of triangles is one skin, carried along by one move."""
    index = np.zeros(triangles, np.int64)
    faces = np.array(raw.face_id, np.int64)
    moves = np.array(raw.run_transform, float).reshape(-1, 4, 3)
    bounds = np.array(raw.run_index, np.int64) // 3
    known: dict[Surface, int] = {}
    for run, skin in enumerate(raw.run_original_id):
        part = slice(int(bounds[run]), int(bounds[run + 1]))
        if part.start == part.stop:
            continue
        move = _move(moves[run]) if len(moves) else None
        numbers, inverse = np.unique(faces[part], return_inverse=True)
        found = [table.find(int(skin), int(n)) for n in numbers]
        found = found if move is None else [s.moved(move) for s in found]
        index[part] = np.array([known.setdefault(s, len(known)) for s in found])[inverse]
    return index, tuple(known)


def _move(matrix: Array) -> Frame | None:
    """The move of a run, or None where it rests."""
    rotation, origin = matrix[:3].T, matrix[3]
    if np.array_equal(rotation, np.eye(3)) and not origin.any():
        return None
    return Frame(rotation, origin)
