"""How is a core cut out of the middle of the work: from which side, how far down, and what stays?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.lanes import scale_for, scale_words
from methodfigures.paper.palette import TINT, TOOL
from methodfigures.paper.shapes import dashes
from methodfigures.paper.sheet import FINE, NARROW, TALLEST, Layer, Sheet
from methodfigures.setups.standing import free_leader, free_text, piece, swatch
from methodfigures.solids.mesh import Floats, Mesh
from methodfigures.solids.sections import section
from methodfigures.solids.views import Place, ViewBook, basis, draw_cut, extent
from methodfigures.specs import Spec

WAYS: Final = ("saw", "file", "cutter")
MIDDLE: Final = 142.0
"""Middle of the section in the gap."""
LEFT: Final = 8.0
WIDE: Final = 96.0
TALL: Final = 46.0
ROUND: Final = 40.0
ABOVE: Final = 34.0
FILE: Final = 3.0
"""Thickness of a file on the paper, mm."""
Vector = tuple[float, float, float]


@dataclass(frozen=True, eq=False)
class SawGap(Spec):
    """A gap cut out of turned work: `before`, what is left, `after`, and the core, `removed`.

    `along` = direction in the work from the face that looks at you into the metal, `up` = the side that the tool comes
    from; the face stands `start` mm along `along` from the origin of the work, `axis` is a point of the axis.  `gap` =
    (from, to), mm from the face; `floor` = height above the axis down to which the tool goes; `grip` = (from, to) of
    what holds the work.  `way` one of `WAYS`, `size` = kerf or diameter of the cutter.
    Texts: `kept_name`, `tool_name`, `holder_name`, `removed_text`, `side_text` (which angle is up).
    """

    before: tuple[Mesh, ...]
    after: tuple[Mesh, ...]
    removed: tuple[Mesh, ...]
    gap: tuple[float, float]
    along: Vector = (0.0, 0.0, 1.0)
    up: Vector = (1.0, 0.0, 0.0)
    axis: Vector = (0.0, 0.0, 0.0)
    start: float = 0.0
    floor: float = 0.0
    grip: tuple[float, float] = (0.0, 0.0)
    way: str = "saw"
    size: float = 1.5
    kept_name: str = ""
    tool_name: str = "saw blade"
    holder_name: str = "vice"
    removed_text: str = ""
    side_text: str = ""
    title: str = "Sawing out"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


@dataclass
class _Bench:
    """What is fixed before drawing."""

    spec: SawGap
    view: Floats
    scale: float
    place: Place
    axis_y: float
    low: float
    high: float

    def x(self, s: float) -> float:
        """Paper x of a length from the face."""
        return float(self.place.points((s + self.spec.start, 0.0))[0])

    def y(self, h: float) -> float:
        """Paper y of a height above the axis."""
        return self.axis_y + h * self.scale


def draw_saw_gap(spec: SawGap, book: ViewBook | None = None) -> Drawing:
    """Lengthwise section with the tool in the gap, and the section in the gap; 170 mm wide."""
    a, b = spec.gap
    words = (
        spec.description
        or f"A core is cut out from {spec.number(a)} to {spec.number(b)} behind the face with the {spec.tool_name}. "
        + (f"The {spec.kept_name} stays. " if spec.kept_name else "")
        + f"{spec.side_text}. The metal removed is shown crossed: {spec.removed_text}."
    )
    return compose_saw_gap(spec, book or ViewBook()).drawing(spec.title, words)


def compose_saw_gap(spec: SawGap, book: ViewBook) -> Sheet:
    """The sheet of `draw_saw_gap` before it becomes a drawing."""
    view = basis(spec.along, spec.up)
    low, high = extent(view, spec.before)
    size = high - low
    base = 30.0
    k = scale_for(min(WIDE / size[0], TALL / size[1], ROUND / size[1], (TALLEST - base - ABOVE) / size[1], 4.0))
    sheet = Sheet(170.0, base + float(size[1]) * k + ABOVE)
    place = Place(view, k, np.array([LEFT, base]) - low * k)
    axis_y = float(place.spot(spec.axis)[1])
    bench = _Bench(spec=spec, view=view, scale=k, place=place, axis_y=axis_y, low=base, high=base + float(size[1]) * k)
    _holder(sheet, bench)
    _lengthwise(sheet, bench, book)
    _in_the_gap(sheet, bench, book)
    _tools(sheet, bench)
    _sizes(sheet, bench)
    _names(sheet, bench)
    sheet.text(168.0, 1.2, scale_words(k), align="right")
    return sheet


def _holder(sheet: Sheet, bench: _Bench) -> None:
    """What grips the work, from below."""
    a, b = sorted(bench.x(s) for s in bench.spec.grip)
    if b - a > 1:
        shape = shapely.box(a, bench.low - 30.0, b, bench.axis_y + 1.5)
        piece(sheet, shape, (0.0, bench.low - 6.0, 999.0, 999.0), TINT, z=1.5)


def _lengthwise(sheet: Sheet, bench: _Bench, book: ViewBook) -> None:
    """The work cut along its axis, the core crossed."""
    spec = bench.spec
    depth = float(bench.view[2] @ np.asarray(spec.axis, float))
    draw_cut(sheet, book.cut(spec.after, bench.view, depth), bench.place, pitches=(2.0, 1.3), z=3.0)
    sheet.removed(bench.place.shape(book.section(spec.removed, bench.view, depth)), 4.8, pitch=0.9)
    left, right = (float(bench.place.points(p)[0]) for p in extent(bench.view, spec.before))
    sheet.centre_line((left, bench.axis_y), (right, bench.axis_y), 2.5)


def _in_the_gap(sheet: Sheet, bench: _Bench, book: ViewBook) -> None:
    """The section in the middle of the gap, seen from the face; how far down the tool goes."""
    spec = bench.spec
    towards = -np.asarray(spec.along, float)
    view = basis(np.cross(np.asarray(spec.up, float), towards), spec.up)
    middle = np.asarray(spec.axis, float) * (1.0 - np.abs(spec.along))
    middle = middle + np.asarray(spec.along, float) * (spec.start + sum(spec.gap) / 2)
    depth = float(view[2] @ middle)
    zero = view[:2] @ np.asarray(spec.axis, float)
    place = Place(view, bench.scale, np.array([MIDDLE, bench.axis_y]) - zero * bench.scale)
    draw_cut(sheet, book.cut(spec.after, view, depth), place, angles=(45.0, -45.0), pitches=(1.4, 1.8), z=3.0)
    gone = place.shape(book.section(spec.removed, view, depth))
    sheet.removed(gone, 4.8, pitch=0.9)
    half = max(float(gone.bounds[2] - MIDDLE), float(MIDDLE - gone.bounds[0])) if not gone.is_empty else 10.0
    y = bench.y(spec.floor)
    for line in dashes(np.array([(MIDDLE - half - 4.0, y), (MIDDLE + half + 4.0, y)]), "phantom", NARROW):
        sheet.lines([line], NARROW, Layer.TOOL, cap="butt", ink=False)
    sheet.centre_mark((MIDDLE, bench.axis_y), 1.5)
    top = max(bench.high, float(gone.bounds[3]) if not gone.is_empty else 0.0)
    dim.block_arrow(sheet, (MIDDLE, top + 13.0), (MIDDLE, top + 3.0))
    free_text(sheet, [(MIDDLE + 4.0, top + 7.0, "left")], spec.words("feed", "feed"))
    sheet.text(MIDDLE, bench.low - 7.0, spec.words("section", "section in the gap"))
    if spec.side_text:
        sheet.text(MIDDLE, bench.low - 12.5, spec.side_text)


def _tools(sheet: Sheet, bench: _Bench) -> None:
    """The blade at both walls, the cutter or the file at the first one; it comes from above."""
    spec, top = bench.spec, bench.high + 15.0
    a, b = sorted(bench.x(s) for s in spec.gap)
    y = bench.y(spec.floor)
    wide = FILE if spec.way == "file" else max(spec.size * bench.scale, 1.0)
    wide = min(wide, b - a)
    piece(sheet, shapely.box(a, y, a + wide, top), (0.0, 0.0, 999.0, top - 3.0), TOOL, z=Layer.TOOL)
    if b - a > 2.2 * wide:
        second = shapely.box(b - wide, y, b, top - 3.0)
        for line in dashes(np.asarray(second.exterior.coords), "phantom", FINE):
            sheet.lines([line], FINE, Layer.TOOL + 0.1, cap="butt", ink=False)


def _sizes(sheet: Sheet, bench: _Bench) -> None:
    """From the face to the gap, and how wide it is."""
    spec, (a, b) = bench.spec, bench.spec.gap
    y = bench.low - 8.0
    held_behind = spec.grip[1] <= spec.grip[0] or spec.grip[0] >= b
    dim.linear(sheet, (bench.x(a), bench.low), (bench.x(b), bench.low), y, spec.words("wide", spec.number(b - a)))
    if a > 1e-6:
        if held_behind:
            ends = (bench.x(0.0), bench.low), (bench.x(a), bench.low)
            dim.linear(sheet, *ends, y, spec.words("start", spec.number(a)))
        else:
            ends = (bench.x(0.0), bench.high), (bench.x(a), bench.high)
            dim.linear(sheet, *ends, bench.high + 7.0, spec.words("start", spec.number(a)))


def _names(sheet: Sheet, bench: _Bench) -> None:
    """Tool, what stays, holder, key to the metal that goes."""
    spec = bench.spec
    a, b = sorted(bench.x(s) for s in spec.gap)
    top = bench.high + 9.0
    ends = [(b + 6.0, top + 6.0, True), (b + 6.0, top + 10.0, True), (a - 6.0, top + 6.0, False)]
    free_leader(sheet, (a + 0.5, top), ends, spec.tool_name, dot=True)
    if spec.kept_name:
        spot = _spot_of_kept(bench)
        if spot is not None:
            out = [(b + 10.0 + d, bench.low - 14.0 - e, True) for d in (0.0, 4.0, 8.0) for e in (0.0, 3.0)]
            out += [(a - 4.0, bench.low - 14.0, False)]
            free_leader(sheet, spot, out, spec.kept_name, dot=True)
    g0, g1 = sorted(bench.x(s) for s in spec.grip)
    if g1 - g0 > 1 and spec.holder_name:
        spot = ((g0 + g1) / 2, bench.low - 3.0)
        out = [(g1 + 4.0, bench.low - 3.0 + e, True) for e in (0.0, 4.0, -4.0)]
        out = [place for place in out if place[0] + lettering.width(spec.holder_name) < MIDDLE - 26.0]
        out += [(spot[0] + d, bench.low - 20.0 - e, d > 0) for e in (0.0, 3.0) for d in (4.0, -4.0)]
        free_leader(sheet, spot, out, spec.holder_name, dot=True)
    if spec.removed_text:
        swatch(sheet, 4.0 + (lettering.width(spec.removed_text) + 8) / 2, 2.0, spec.removed_text)


def _spot_of_kept(bench: _Bench) -> tuple[float, float] | None:
    """A spot on what stays in the gap, in the lengthwise section; None where it does not lie in that plane."""
    spec = bench.spec
    depth = float(bench.view[2] @ np.asarray(spec.axis, float))
    a, b = sorted(bench.x(s) for s in spec.gap)
    window = shapely.box(a + 0.3, 0.0, b - 0.3, 999.0)
    faces = [bench.place.shape(section(mesh, bench.view, depth)).intersection(window) for mesh in spec.after]
    faces = [face for face in faces if face.area > 0.5]
    if not faces:
        return None
    point = max(faces, key=lambda face: face.area).representative_point()
    return float(point.x), float(point.y)
