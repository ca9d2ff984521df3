"""Where on the work is that, in the words of the set-up that says it?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

import numpy as np
import numpy.typing as npt

from ..geometry import Axis, Frame, Outline
from ..geometry.frame import point

Array: TypeAlias = npt.NDArray[np.float64]
End: TypeAlias = Literal["A", "B"]
FaceName: TypeAlias = Literal["top", "bottom", "front", "back", "left", "right"]
Place2: TypeAlias = tuple[float, float]

FACES: dict[FaceName, tuple[int, int, int]] = {
    "top": (0, 0, 1),
    "bottom": (0, 0, -1),
    "front": (0, -1, 0),
    "back": (0, 1, 0),
    "right": (1, 0, 0),
    "left": (-1, 0, 0),
}
"""The six faces of milled work and which way each looks, in the frame of the work."""


@dataclass(frozen=True)
class Ends:
    """Where the two ends of the work stand: z in mm, in the frame of the work (0 at the raw end A)."""

    a: float
    b: float

    @property
    def length(self) -> float:
        """Length over all, mm."""
        return self.b - self.a

    def of(self, end: End) -> float:
        """The z of an end."""
        return self.a if end == "A" else self.b

    def moved(self, end: End, z: float) -> Ends:
        """The ends after one of them was cut back to z."""
        return replace(self, a=z) if end == "A" else replace(self, b=z)


@dataclass(frozen=True)
class TurningFrame:
    """Shop words to the frame of the work, for work that turns or is divided.

    Lengths s run from the face that looks at you, positive into the metal. Angles are anticlockwise as you look at
    that face, from the 0° mark, which stays the mark from both ends: turned end for end, +a and -a swap.
    Radii are about `axis` (x, y of the work). The work itself never moves.
    """

    out: End
    ends: Ends
    axis: Place2 = (0.0, 0.0)

    @property
    def face(self) -> float:
        """The z of the face that looks at you."""
        return self.ends.of(self.out)

    @property
    def inward(self) -> float:
        """+1 where lengths run with z, -1 where they run against it."""
        return 1.0 if self.out == "A" else -1.0

    def z_of(self, s: float) -> float:
        """The z at a length from the face, mm."""
        return self.face + self.inward * s

    def s_of(self, z: float) -> float:
        """The length from the face at a z, mm."""
        return self.inward * (z - self.face)

    def span(self, start: float, end: float) -> tuple[float, float]:
        """(lower, upper) z between two lengths from the face."""
        low, high = sorted((self.z_of(start), self.z_of(end)))
        return low, high

    def work_angle(self, angle: float) -> float:
        """Degrees about z of the work for an angle as the shop sees it; its own inverse."""
        return -angle if self.out == "A" else angle

    def to_work(self, s: float, radius: float = 0.0, angle: float = 0.0) -> Array:
        """The point (3,) of the work at a length, a radius about the axis and an angle in degrees."""
        a = math.radians(self.work_angle(angle))
        return np.array([self.axis[0] + radius * math.cos(a), self.axis[1] + radius * math.sin(a), self.z_of(s)])

    def to_shop(self, where: Sequence[float] | Array) -> tuple[float, float, float]:
        """(length s, radius, angle from -180 to 180) of a point of the work."""
        x, y = float(where[0]) - self.axis[0], float(where[1]) - self.axis[1]
        angle = self.work_angle(math.degrees(math.atan2(y, x))) if math.hypot(x, y) > 1e-9 else 0.0
        return self.s_of(float(where[2])), math.hypot(x, y), angle + 0.0

    def axis_of(self, radius: float = 0.0, angle: float = 0.0) -> Axis:
        """An axis parallel to the main one, at a radius and an angle about it: of a hole on a pitch circle.

        Lengths along it are z of the work; use `outline` to write profiles in lengths from the face.
        """
        x, y, _ = self.to_work(0.0, radius, angle)
        return Axis.upright(float(x), float(y))

    def cross_axis(self, s: float, angle: float = 0.0) -> Axis:
        """The axis of a hole across the work: through the main axis at a length, outward at an angle."""
        a = math.radians(self.work_angle(angle))
        return Axis.through(self.to_work(s).tolist(), (math.cos(a), math.sin(a), 0.0))

    def normal(self, angle: float) -> tuple[float, float, float]:
        """The outward direction across the axis at an angle."""
        a = math.radians(self.work_angle(angle))
        return (math.cos(a), math.sin(a), 0.0)

    def plane(self, angle: float, distance: float) -> tuple[tuple[float, float, float], float]:
        """(normal, distance from the origin of the work) of a flat at a distance from the set-up's axis."""
        n = self.normal(angle)
        return n, distance + n[0] * self.axis[0] + n[1] * self.axis[1]

    def outline(self, shape: Outline | Sequence[Place2]) -> Outline:
        """A half profile of (radius, length from the face) as (radius, z), ready to be turned about `axis_of()`."""
        drawn = shape if isinstance(shape, Outline) else Outline(*shape)
        return drawn.placed((0.0, self.face), mirror=self.out == "B")

    def faced(self, off: float) -> Ends:
        """The ends after so much (mm) was faced off the end that looks at you."""
        return self.ends.moved(self.out, self.z_of(off))


@dataclass(frozen=True)
class Holding:
    """How work that turns or is divided is held.

    `machine` and `holder` in the shop's words; `axis` and `grip_axis` are (x, y) in mm in the frame of the work: of the
    axis of rotation, and of the surface that is gripped where that is another one (packed over, offset).
    `grip` = (from, to) lengths from the face that looks at you; `inside` = gripped in a bore (mandrel, jaws outward).
    """

    machine: str
    holder: str
    out: End = "A"
    axis: Place2 = (0.0, 0.0)
    grip_axis: Place2 | None = None
    diameter: float | None = None
    grip: tuple[float, float] | None = None
    inside: bool = False

    @property
    def gripped_axis(self) -> Place2:
        """(x, y) of the axis of the gripped surface."""
        return self.axis if self.grip_axis is None else self.grip_axis

    @property
    def throw(self) -> float:
        """Distance between the axis of rotation and that of the gripped surface, mm: the packing's business."""
        return math.dist(self.axis, self.gripped_axis)

    def frame(self, ends: Ends) -> TurningFrame:
        """The set-up's lengths, radii and angles on work whose ends stand there."""
        return TurningFrame(self.out, ends, self.axis)


@dataclass(frozen=True, eq=False)
class VicePose:
    """Six-face work in the vice: which face is up, which looks towards you, and where measuring starts.

    x from the left edge, y from the edge towards you, depth from the upper face as it stands; `size` is length (x),
    width (y) and height of the box around the work in that pose, mm. The zero stays where it was set, as on the dials,
    until the pose is taken anew; only the depth follows the upper face when that is milled (`faced`).
    """

    up: FaceName
    towards: FaceName
    frame: Frame
    """x to the right, y away from you, z up; origin at the upper left corner next to you."""
    size: tuple[float, float, float]

    @classmethod
    def of(cls, bounds: tuple[Array, Array], up: FaceName, towards: FaceName) -> VicePose:
        """The pose of work within bounds; ValueError where the two faces are not neighbours."""
        u, t = np.array(FACES[up], float), np.array(FACES[towards], float)
        if abs(u @ t) > 0.5:
            raise ValueError(f"the face towards you cannot be the {towards} when the {up} is up")
        axes = np.stack([np.cross(u, t), -t, u])
        corners = np.stack(bounds) @ axes.T
        low, high = corners.min(axis=0), corners.max(axis=0)
        origin = axes.T @ np.array([low[0], low[1], high[2]])
        return cls(up, towards, Frame(axes.T, origin), point(high - low))

    def to_work(self, x: float, y: float, depth: float = 0.0) -> Array:
        """The point (3,) of the work at x, y and a depth below the upper face."""
        return self.frame.points([x, y, -depth])

    def seen(self, where: Sequence[float] | Array) -> tuple[float, float, float]:
        """(x, y, depth) at which a point of the work lies in this pose."""
        x, y, z = self.frame.inverse().points(np.asarray(where, float))
        return float(x), float(y), -float(z)

    def box_of(self, bounds: tuple[Array, Array]) -> tuple[Array, Array]:
        """(low, high) corners in x, y and depth of a box that is given by its corners in the work."""
        corners = np.stack([self.seen(corner) for corner in bounds])
        return corners.min(axis=0), corners.max(axis=0)

    def axis_of(self, x: float, y: float) -> Axis:
        """The axis of a hole at x, y; lengths along it are depths."""
        return Axis(point(self.to_work(x, y)), point(-self.frame.rotation[:, 2]), point(self.frame.rotation[:, 0]))

    def faced(self, off: float) -> VicePose:
        """The pose after so much (mm) was milled off the upper face: depths start at the new face."""
        lower = Frame(self.frame.rotation, self.frame.points([0.0, 0.0, -off]))
        return replace(self, frame=lower, size=(self.size[0], self.size[1], self.size[2] - off))
