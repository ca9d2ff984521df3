"""Where are the holes, flats and slots of one operation? On the axis, on a pitch circle, at angles or at points."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from methodsheets.reading.limits import HOLES
from methodsheets.reading.problem import MethodError

from .say import degrees, dim, number, plural
from .words import Clause, Said

ANGLE_CLAUSES = (
    Clause("at", "angles", "angle from the 0° mark; several in a row", says="the angles"),
    Clause("divide", "count", "so many, equally spaced", says="the angles"),
    Clause("starting", "angle", "angle of the first", apart=True),
    Clause("skip", "counts", "numbers of the divisions that are left out"),
)
"""How dividing repeats a cut: `at 0, 60, 120` or `divide 6, skip 2`."""

RADIUS_CLAUSES = (
    Clause("on radius", "length", "distance of the holes from the axis", says="how far from the axis", apart=True),
    Clause("on circle", "length", "pitch circle diameter", says="how far from the axis", apart=True),
)
POINT_CLAUSES = (
    Clause("places", "points", "(x, y) from the left edge and the edge towards you", says="where they lie"),
    Clause("about", "points", "the same, as the middle of a pitch circle: `on circle 50 mm, about (30 mm, 20 mm)`",
           says="where they lie"),
    Clause("row", "count", "so many in a row from each place, to the right"),
    Clause("apart", "length", "distance from one to the next of a row; from row to row too, unless that is said"),
    Clause("row at", "angle", "direction of the row, anticlockwise from the right"),
    Clause("rows", "count", "so many rows: a grid"),
    Clause("rows apart", "length", "distance from row to row, square to them"),
)  # fmt: skip
"""Where holes lie on a block: single places, pitch circles about them, rows and grids from them."""
MOST = HOLES
"""More cuts than this in one operation is taken for a slip of the pen."""


@dataclass(frozen=True)
class Places:
    """The places of one operation in its set-up: about the axis (radius, angles) or at points."""

    radius: float = 0.0
    angles: tuple[float, ...] = (0.0,)
    points: tuple[tuple[float, float], ...] = ()
    divided: int = 0

    @property
    def count(self) -> int:
        """How many."""
        return len(self.points) or len(self.angles)

    @property
    def on_axis(self) -> bool:
        """One place, on the axis."""
        return not self.points and self.radius == 0.0

    def words(self) -> str:
        """', 6 on pitch circle Ø35' — what is added to the operation's sentence."""
        if self.points:
            first = ", ".join(f"({dim(x)}, {dim(y)})" for x, y in self.points[:4])
            return f" at {first}" + (f" and {self.count - 4} more" if self.count > 4 else "")
        if self.on_axis:
            return ""
        if self.divided:
            return f", {plural(self.count, 'place')} of {self.divided}"
        return " at " + ", ".join(degrees(a) for a in self.angles)


def read_angles(said: Said, at: str = "at") -> tuple[tuple[float, ...], int]:
    """The angles of `at …` (the clause `at`) or `divide N`, and N; one at 0° where nothing is said."""
    if "divide" not in said:
        angles = tuple(float(a) for a in said.get(at)) if at in said else (float(said.get("starting", 0.0)),)
        _few(said, at, len(angles))
        return angles, 0
    count, first = said.get("divide"), said.get("starting", 0.0)
    if count < 1:
        raise MethodError(
            said.where("divide"),
            f"a circle is divided into one or more (got {count})",
            "a whole number",
            "write e.g. `divide 6`",
            code="wrong-value",
        )
    _few(said, "divide", count)
    skip = set(said.get("skip", ()))
    wrong = sorted(n for n in skip if not 1 <= n <= count)
    if wrong or len(skip) == count:
        raise MethodError(
            said.where("skip"),
            f"cannot skip {', '.join(map(str, wrong)) or 'all'} of {count}",
            "divisions are numbered from 1",
            "check the numbers",
            code="wrong-value",
        )
    return tuple(first + 360.0 * i / count for i in range(count) if i + 1 not in skip), count


def _few(said: Said, word: str, count: int) -> None:
    if count > MOST:
        raise MethodError(
            said.where(word),
            f"too many cuts in one operation (got {count})",
            f"at most {MOST}",
            "split the operation",
            code="too-many",
        )


def read_places(said: Said, at: str = "at") -> Places:
    """The places of holes about an axis: on it, or at a radius and the angles of the clause `at`."""
    radius = said.get("on radius", said.get("on circle", 0.0) / 2 if "on circle" in said else 0.0)
    several = said.has("divide") or len(said.values.get(at, ())) > 1
    if radius == 0.0 and not several:
        return Places()  # one hole on the axis has no angle
    angles, divided = read_angles(said, at)
    if radius < 0:
        raise MethodError(
            said.where("on radius"),
            f"a radius is not negative (got {number(radius)} mm)",
            "distance from the axis",
            "turn the angle by 180° instead",
            code="wrong-value",
        )
    if radius == 0.0 and (len(angles) > 1 or divided > 1):
        raise MethodError(
            said.place,
            f"{len(angles)} holes on one axis",
            "several holes need a pitch circle",
            "add `on radius 17.5 mm` or `on circle 35 mm`",
            code="missing-clause",
        )
    return Places(radius, angles if radius else (0.0,), (), divided if radius else 0)


def read_points(said: Said, at: str = "at") -> Places:
    """The places of holes on the upper face of a block; its middle is not assumed."""
    points = said.get("places", said.get("about"))
    if not points:
        raise MethodError(
            said.place,
            "where on the face?",
            "a hole in the vice needs its place",
            "add `places (10 mm, 8 mm)`: from the left edge and the edge towards you",
            code="missing-clause",
        )
    word = "places" if said.has("places") else "about"
    _few(said, word, len(points))
    if any(len(p) != 2 for p in points):
        raise MethodError(
            said.where(word),
            "a place on a face has two lengths",
            "(from the left, from the edge towards you)",
            "write e.g. `(10 mm, 8 mm)`",
            code="wrong-value",
        )
    return Places(points=_on_circles(said, _in_rows(said, tuple((float(p[0]), float(p[1])) for p in points)), at))


def _in_rows(said: Said, firsts: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
    """The places themselves, or the holes of the row or grid that begins at each."""
    if "row" not in said and "rows" not in said:
        return firsts
    many, rows = said.get("row", 1), said.get("rows", 1)
    if min(many, rows) < 1:
        words, rule = f"a row has one hole or more (got {min(many, rows)})", "a whole number"
        raise MethodError(said.where("row"), words, rule, "write e.g. `row 5, apart 12 mm`", code="wrong-value")
    _few(said, "row" if said.has("row") else "rows", many * rows * len(firsts))
    step = said.length("apart") if many > 1 else 0.0
    between = said.get("rows apart", step) if rows > 1 else 0.0
    if (many > 1 and step <= 0) or (rows > 1 and between <= 0):
        words, rule = "the holes of a row lie on one another", "each stands a distance from the next"
        raise MethodError(said.where("apart"), words, rule, "write e.g. `apart 12 mm`", code="wrong-value")
    a = math.radians(said.get("row at", 0.0))
    cos, sin = round(math.cos(a), 12), round(math.sin(a), 12)
    along = [(i * step, j * between) for j in range(rows) for i in range(many)]
    return tuple((x + u * cos - v * sin, y + u * sin + v * cos) for x, y in firsts for u, v in along)


def _on_circles(said: Said, middles: tuple[tuple[float, float], ...], at: str) -> tuple[tuple[float, float], ...]:
    """The places themselves, or the holes of a pitch circle about each; angles run from the right, anticlockwise."""
    if "on circle" not in said and "on radius" not in said:
        return middles
    round_it = read_places(said, at)
    points = tuple((x + dx, y + dy) for x, y in middles for _, dx, dy in coordinates(round_it))
    _few(said, "places", len(points))
    return points


def coordinates(places: Places) -> Sequence[tuple[float, float, float]]:
    """(angle, x, y) of every place of a pitch circle, x along 0°."""
    return [
        (a, places.radius * math.cos(math.radians(a)), places.radius * math.sin(math.radians(a))) for a in places.angles
    ]
