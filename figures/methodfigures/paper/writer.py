"""How do the marks of a sheet become few bytes of SVG, the same bytes for the same marks?

Coordinates are rounded to 0.01 mm once and then written as the way from the point before, so no error adds up. Points
that lie less than 0.02 mm beside the line of their neighbours are left out: less than a tenth of the narrowest line.
A style is said only where it differs from that of the whole drawing, an ink line.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from typing import Final
from xml.sax.saxutils import escape

import numpy as np
import shapely
from numpy.typing import NDArray

from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import PREFIX
from methodfigures.paper.marks import CLOSE, CURVE, MOVE, Mark, PathMark, Style, TextMark, grouped
from methodfigures.paper.palette import INK, variable

FAMILY: Final = "'DejaVu Sans','Bitstream Vera Sans',Verdana,Geneva,sans-serif"
DECIMALS: Final = 2
"""Paper coordinates are written to 0.01 mm."""
THIN: Final = 0.02
"""mm: how far a left-out point may lie beside the line that is written."""
_UNIT: Final = 10**DECIMALS

Whole = NDArray[np.int64]


def document(marks: Iterable[Mark], width: float, height: float, title: str, description: str) -> str:
    """Inline SVG of a sheet of `width` × `height` mm; the same marks give the same bytes."""
    root = f"fill:none;stroke:{variable(INK)};stroke-linecap:round;stroke-linejoin:round;font-family:{FAMILY}"
    return (
        f'<svg width="100%" viewBox="0 0 {number(width)} {number(height)}" xmlns="http://www.w3.org/2000/svg" '
        f'class="ms-drawing" role="img" aria-labelledby="{PREFIX}-t {PREFIX}-d">'
        f'<title id="{PREFIX}-t">{escape(title)}</title><desc id="{PREFIX}-d">{escape(description)}</desc>'
        f'<g style="{root}">{"".join(_elements(marks, height))}</g></svg>'
    )


def number(value: float) -> str:
    """A number as short as it can be: 0.5 is ".5", −0.25 is "-.25"."""
    return _SHORT[round(value * _UNIT)]


def _elements(marks: Iterable[Mark], height: float) -> Iterator[str]:
    texts: list[str] = []
    common = ("", 0.0)
    for item in grouped(marks):
        if isinstance(item, TextMark):
            here = (item.role, item.height)
            if texts and here != common:
                yield _lettering(common, texts)
                texts = []
            common = here
            texts.append(_text(item, height))
            continue
        if texts:
            yield _lettering(common, texts)
            texts = []
        yield _path(*item, height)
    if texts:
        yield _lettering(common, texts)


def _lettering(common: tuple[str, float], texts: list[str]) -> str:
    role, size = common
    style = f"stroke:none;fill:{variable(role)};font-size:{number(size / lettering.CAPITAL)}px"
    return f'<g style="{style}">{"".join(texts)}</g>'


def _text(mark: TextMark, height: float) -> str:
    x, y = number(mark.x), number(height - mark.y)
    turn = f' transform="rotate({number(-mark.turn)} {x} {y})"' if mark.turn else ""
    weight = f' style="font-weight:{mark.weight}"' if mark.weight != "normal" else ""
    length = f'textLength="{number(mark.width)}" lengthAdjust="spacingAndGlyphs"'
    return f'<text x="{x}" y="{y}"{turn} {length}{weight}>{escape(mark.text)}</text>'


def _path(style: Style, run: list[PathMark], height: float) -> str:
    d = "".join(_pieces(run, height))
    said = []
    if style.fill:
        said.append(f"fill:{variable(style.fill)}")
    if not style.stroke:
        said.append("stroke:none")
    elif style.stroke != INK:
        said.append(f"stroke:{variable(style.stroke)}")
    if style.stroke:
        said.append(f"stroke-width:{number(style.width)}")
        if style.cap != "round":
            said.append(f"stroke-linecap:{style.cap}")
    return f'<path style="{";".join(said)}" d="{d}"/>'


# ---------------------------------------------------------------------- coordinates
def _pieces(run: list[PathMark], height: float) -> Iterator[str]:
    """The path data of a run: every stretch of straight outlines at once, every circle by itself."""
    for curved, marks in itertools.groupby(run, key=lambda m: m.codes is not None and CURVE in m.codes):
        if curved:
            yield from (_curves(_whole(m.vertices[:-1], height)) for m in marks)
        else:
            yield _straight(*_loops(marks), height)


def _whole(points: NDArray[np.float64], height: float) -> Whole:
    return np.rint(points * (_UNIT, -_UNIT) + (0.0, height * _UNIT)).astype(np.int64)


def _loops(marks: Iterable[PathMark]) -> tuple[list[NDArray[np.float64]], list[bool]]:
    """Every line and outline, and whether it is closed."""
    loops, closed = [], []
    for mark in marks:
        if mark.codes is None:
            loops.append(mark.vertices)
            closed.append(False)
            continue
        starts = np.flatnonzero(mark.codes == MOVE).tolist()
        for a, b in itertools.pairwise([*starts, len(mark.codes)]):
            loops.append(mark.vertices[a:b])
            closed.append(mark.codes[b - 1] == CLOSE)
    return loops, closed


def _straight(loops: list[NDArray[np.float64]], closed: list[bool], height: float) -> str:
    """Path data of lines and outlines without curves."""
    loops = _thinned(loops)
    sizes = [len(loop) for loop in loops]
    ends = np.cumsum(sizes)
    starts = ends - sizes
    whole = _whole(np.concatenate(loops), height)
    before = np.arange(-1, len(whole) - 1)
    # the pen is back at the beginning of an outline that was closed
    before[starts[1:]] = np.where(closed[:-1], starts[:-1], ends[:-1] - 1)
    steps = whole - whole[before]
    steps[0] = whole[0]
    begins = np.zeros(len(whole), np.int8)
    begins[starts] = 1
    begins[starts[1:]] += np.asarray(closed[:-1], np.int8)
    # the last point of an outline is its first: z draws that way
    keep = np.ones(len(whole), bool)
    keep[(ends - 1)[closed]] = False
    return _ways(steps[keep].tolist(), begins[keep].tolist()) + ("z" if closed[-1] else "")


def _thinned(loops: list[NDArray[np.float64]]) -> list[NDArray[np.float64]]:
    """The lines without the points that do not show."""
    out = list(loops)
    many = [i for i, loop in enumerate(loops) if len(loop) > 3]
    if many:
        given = [loops[i] for i in many]
        lines = shapely.linestrings(np.concatenate(given), indices=np.repeat(range(len(many)), [*map(len, given)]))
        simple = shapely.simplify(lines, THIN, preserve_topology=False)
        coordinates, owner = shapely.get_coordinates(simple, return_index=True)
        for i, part in zip(many, np.split(coordinates, np.flatnonzero(np.diff(owner)) + 1), strict=True):
            out[i] = part
    return out


def _ways(steps: list[list[int]], begins: list[int]) -> str:
    """Steps as path data. `begins` is 0 within a line, 1 where one begins, 2 where one begins after a closed one."""
    out = [f"M{_SHORT[steps[0][0]]}{_NEXT[steps[0][1]]}"]
    way = ""  # what follows the absolute move says its way; after a relative one it is a relative line
    for (dx, dy), begin in zip(steps[1:], begins[1:], strict=True):
        if begin:
            out.append(("zm" if begin == 2 else "m") + _SHORT[dx] + _NEXT[dy])
            way = "l"
        elif dy == 0:
            if dx:
                out.append(_NEXT[dx] if way == "h" else f"h{_SHORT[dx]}")
                way = "h"
        elif dx == 0:
            out.append(_NEXT[dy] if way == "v" else f"v{_SHORT[dy]}")
            way = "v"
        else:
            out.append((_NEXT[dx] if way == "l" else f"l{_SHORT[dx]}") + _NEXT[dy])
            way = "l"
    return "".join(out)


def _curves(whole: Whole) -> str:
    """A closed outline of cubic curves; every control point as the way from the start of its curve."""
    first, rest = whole[0].tolist(), (whole[1:].reshape(-1, 3, 2) - whole[:-1:3, None]).ravel().tolist()
    return f"M{_SHORT[first[0]]}{_NEXT[first[1]]}c{_SHORT[rest[0]]}{''.join(_NEXT[v] for v in rest[1:])}z"


class _Words(dict[int, str]):
    """Hundredths of a millimetre as they are written; with `gap`, as they are written after another number."""

    def __init__(self, gap: str) -> None:
        super().__init__()
        self.gap = gap

    def __missing__(self, value: int) -> str:
        words = f"{value / _UNIT:.{DECIMALS}f}".rstrip("0").rstrip(".")
        words = words.replace("0.", ".", 1) if words.startswith(("0.", "-0.")) else words
        self[value] = words if words[0] == "-" else self.gap + words
        return self[value]


_SHORT: Final = _Words("")
_NEXT: Final = _Words(" ")
