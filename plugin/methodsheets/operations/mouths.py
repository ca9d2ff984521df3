"""Where does a piece go in, which way, and how is it turned: along the axis, beside it, across it, into a face?

Every join reads its place here. A mouth is a frame of the work: its z leads into the metal, its x is the 0° mark.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from methodsheets.geometry import Axis, Frame
from methodsheets.geometry.frame import Array, point
from methodsheets.reading.limits import BODIES, Limit
from methodsheets.reading.problem import MethodError, Place
from methodsheets.workpiece import Ends
from methodsheets.workpiece.datum import End

from .places import RADIUS_CLAUSES, Places, read_angles, read_places, read_points
from .plan import WayIn
from .say import degrees, dim, number, plural
from .station import Station
from .words import Clause, Said

AT_ANGLE = "at angle"
"""The clause behind `at 30 deg`, where `at 2 mm` is a depth."""
FROM_FACE = Clause(
    "from face",
    "length",
    "the piece goes in across the axis, so far from the face; on a block, so far "
    "below the upper face, through the side that `at 90 deg` names: 0° is the right, 90° the back",
)
OFF_AXIS = Clause(
    "off axis", "length", "how far a piece across the work lies beside the axis, or the middle of a block"
)
IN = Clause("in", "length", "how far its outer end stands from the axis, or from the middle of a block", apart=True)
PLACE_CLAUSES = (
    *(replace(clause, apart=False) for clause in RADIUS_CLAUSES),
    Clause("places", "points", "(x, y) of its axis: on a block from its edges, on turned work from the axis; "
           "of a block that is laid on a block, of its front left corner"),
    Clause(AT_ANGLE, "angles", "angle of its place from the 0° mark, written `at 30 deg`; several in a row",
           says="the angles"),
    Clause("divide", "count", "so many equal pieces, equally spaced", says="the angles"),
    Clause("starting", "angle", "angle of the first of them", apart=True),
    Clause("skip", "counts", "numbers of the divisions that stay empty"),
    FROM_FACE, IN, OFF_AXIS,
)  # fmt: skip
"""The place of a join, in every frame."""
BESIDE = ("on radius", "on circle", "places")
"""The words of them for a place beside the axis or on a face."""
FLAT = 1e-9
"""Cosine below which a direction runs along a side."""
FLIPPED = Frame.turned(180.0, Axis(direction=(1.0, 0.0, 0.0), zero=(0.0, 1.0, 0.0)))


@dataclass(frozen=True, eq=False)
class Mouth:
    """One place at which a piece goes in."""

    frame: Frame
    right: tuple[float, float, float]
    """What runs to the right when it is drawn: the section then shows its axis and the main one."""

    def below(self, where: Sequence[float] | Array) -> float:
        """How far a point of the work lies below the mouth, mm."""
        return float((np.asarray(where, float) - self.frame.origin) @ self.frame.rotation[:, 2])

    @property
    def way(self) -> WayIn:
        """For the drawing."""
        return WayIn(point(self.frame.rotation[:, 2]), self.right, point(self.frame.origin))

    def seat(self, ends: Ends, out: End, deep: float, turned: float, offset: tuple[float, float]) -> Frame:
        """Where the frame of a piece comes to stand.

        Parameters:
            ends: where the ends of the piece stand in its own frame
            out: the end that looks out of the mouth
            deep: mm of that end below the mouth
            turned: degrees of its 0° mark, anticlockwise as you look at the mouth
            offset: (x, y) of its own axis that comes on the axis of the mouth
        """
        own = Frame.shifted((-offset[0], -offset[1], 0.0))
        if out == "B":
            own = Frame.shifted((0.0, 0.0, ends.b)).compose(FLIPPED).compose(own)
        else:
            own = Frame.shifted((0.0, 0.0, -ends.a)).compose(own)
        return self.frame.compose(Frame.shifted((0.0, 0.0, deep))).compose(Frame.turned(-turned)).compose(own)


@dataclass(frozen=True, eq=False)
class Mouths:
    """The places of one join, and how they are told."""

    all: tuple[Mouth, ...]
    words: str = ""
    across: float | None = None
    """Distance from the face of a piece that lies across the work."""
    angles: tuple[float, ...] = ()
    radius: float = 0.0

    @property
    def count(self) -> int:
        """How many equal pieces."""
        return len(self.all)


def read_mouths(station: Station, said: Said, *, across: bool = False, bodies: int = 1) -> Mouths:
    """The place or places of a join; `across` = the verb's usual way is across the axis of turned work.

    Parameters:
        bodies: how many each of the pieces has

    Raises:
        MethodError: a place is wrong, or the pieces of the method would have too many bodies.
    """
    found = _mouths(station, said, across)
    works = {id(piece): piece for piece in (station.piece, *station.pieces.values())}
    few(said.place, BODIES, sum(len(piece.bodies) for piece in works.values()) + bodies * found.count)
    return found


def few(place: Place, limit: Limit, count: int) -> None:
    """Refuse more than may be put in: counted before it is looked at."""
    if count > limit:
        what, rule = f"{limit.said} (got {count:,})", f"at most {limit:,} {limit.of}"
        raise MethodError(place, what, rule, "put fewer of them in", code="too-much")


def _mouths(station: Station, said: Said, across: bool) -> Mouths:
    if station.pose is not None:
        return _into_a_side(station, said) if "from face" in said else _on_face(station, said)
    if "from face" in said or across:
        return _across(station, said)
    return _along(station, said)


def _along(station: Station, said: Said) -> Mouths:
    """Parallel to the axis of turned work: on it, on a circle about it, at (x, y) from it."""
    frame = station.turning
    if "places" in said:
        spots = tuple((math.hypot(x, y), math.degrees(math.atan2(y, x)) if x or y else 0.0) for x, y in _flat(said))
        told = ", ".join(f"({dim(x)}, {dim(y)})" for x, y in _flat(said))
        words = f", at {told} from the axis"
        places = Places(spots[0][0], tuple(a for _, a in spots), (), 0)
    else:
        places = read_places(said, AT_ANGLE)
        spots = tuple((places.radius, a) for a in places.angles)
        words = "" if places.on_axis else f", {dim(places.radius)} off the axis{_at(places)}"
    return Mouths(tuple(_mouth(station, r, a) for r, a in spots), words, None, tuple(a for _, a in spots),
                  frame.axis_of().distance(frame.to_work(0, *spots[0]).tolist()))  # fmt: skip


def _mouth(station: Station, radius: float, angle: float) -> Mouth:
    frame = station.turning
    stands = Frame.of(frame.to_work(0.0, radius, angle).tolist(), x=(1.0, 0.0, 0.0), z=(0.0, 0.0, frame.inward))
    return Mouth(stands, frame.normal(angle) if radius else (1.0, 0.0, 0.0))


def _flat(said: Said) -> tuple[tuple[float, float], ...]:
    """Places on the face of turned work, from its axis: x along the 0° mark, y along 90°."""
    points = said.get("places")
    if any(len(p) != 2 for p in points):
        words, rule = "a place on a face has two lengths", "(along the 0° mark, along 90°), from the axis"
        raise MethodError(said.where("places"), words, rule, "write e.g. `(13 mm, 0 mm)`", code="wrong-value")
    return tuple((float(p[0]), float(p[1])) for p in points)


def _at(places: Places) -> str:
    if places.divided:
        return f", {plural(places.count, 'place')} of {places.divided}"
    return " at " + ", ".join(degrees(a) for a in places.angles)


def _across(station: Station, said: Said) -> Mouths:
    """Square to the axis of turned work, its mouth at an angle."""
    along, off = said.length("from face"), said.get("off axis", 0.0)
    if not 0 <= along <= station.length:
        words = f"the place lies beside the work (got {number(along)} mm of {number(station.length)} mm)"
        rule = "lengths run from the face into the metal"
        raise MethodError(said.where("from face"), words, rule, "check the length", code="too-long")
    outer = said.get("in", station.swing(max(0.0, along - 0.5), along + 0.5))
    angles, divided = read_angles(said, AT_ANGLE)
    away = (0.0, 0.0, -station.turning.inward)
    mouths = []
    for angle in angles:
        outward = np.array(station.turning.normal(angle))
        origin = station.turning.to_work(along) + outer * outward + off * np.cross([0.0, 0.0, 1.0], outward)
        mouths.append(Mouth(Frame.of(origin.tolist(), x=away, z=(-outward).tolist()), away))
    words = f", across the work {dim(along)} from the face" + (f", {dim(off)} off the axis" if off else "")
    return Mouths(tuple(mouths), words + _at(Places(0.0, angles, (), divided)), along, angles)


def _on_face(station: Station, said: Said) -> Mouths:
    """Square into the face of a block that is up."""
    assert station.pose is not None
    places = read_points(said, AT_ANGLE) if "places" in said else Places(points=((0.0, 0.0),))
    across, inward = station.pose.frame.rotation[:, 0], -station.pose.frame.rotation[:, 2]
    frames = [Frame.of(station.pose.to_work(x, y).tolist(), x=across.tolist(), z=inward.tolist())
              for x, y in places.points]  # fmt: skip
    words = places.words().replace(" at ", ", at ", 1) if said.has("places") else ""
    return Mouths(tuple(Mouth(frame, point(across)) for frame in frames), words)


def _into_a_side(station: Station, said: Said) -> Mouths:
    """Level into a side of a block: so far below its upper face, beside its middle, from the angle of that side."""
    assert station.pose is not None
    pose, deep, off = station.pose, said.length("from face"), said.get("off axis", 0.0)
    length, width, high = pose.size
    if not 0 <= deep <= high:
        words = f"the place lies beside the work (got {number(deep)} mm of {number(high)} mm)"
        rule = "on a block it counts from the upper face downwards"
        raise MethodError(said.where("from face"), words, rule, "check the depth", code="too-long")
    angles, divided = read_angles(said, AT_ANGLE)
    up = pose.frame.rotation[:, 2]
    middle, mouths = np.asarray(pose.to_work(length / 2, width / 2, deep), float), []
    for angle in angles:
        x, y = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        outward = np.array(pose.frame.vectors((x, y, 0.0)))
        # What lies beyond a side that is not met has no say: a wall is met where the ray from the middle leaves.
        outer = min(half / abs(part) for half, part in ((length / 2, x), (width / 2, y)) if abs(part) > FLAT)
        origin = middle + said.get("in", outer) * outward + off * np.cross(up, outward)
        mouths.append(Mouth(Frame.of(origin.tolist(), x=up.tolist(), z=(-outward).tolist()), point(up)))
    words = f", into the side, {dim(deep)} below the upper face" + (f", {dim(off)} off the middle" if off else "")
    return Mouths(tuple(mouths), words + _at(Places(0.0, angles, (), divided)), deep, angles)
