"""How do the marks of a sheet become few bytes of SVG, the same bytes for the same marks?

Coordinates are rounded to 0.01 mm once and then written as the way from the point before, so no error adds up. Points
that lie less than 0.02 mm beside the line of their neighbours are left out: less than a tenth of the narrowest line.
A style is said only where it differs from that of the whole drawing, an ink line.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Final
from xml.sax.saxutils import escape

import numpy as np
import shapely
from numpy.typing import NDArray

from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import PREFIX
from methodfigures.paper.marks import CLOSE, CURVE, MOVE, Mark, PathMark, Style, TextMark, grouped
from methodfigures.paper.palette import INK, variable
from methodfigures.paper.shapes import Points

FAMILY: Final = "'DejaVu Sans','Bitstream Vera Sans',Verdana,Geneva,sans-serif"
DECIMALS: Final = 2
"""Paper coordinates are written to 0.01 mm."""
THIN: Final = 0.02
"""mm: how far a left-out point may lie beside the line that is written."""
_UNIT: Final = 10**DECIMALS
READABLE: Final = 11
"""px: lettering on a screen is no smaller."""

Whole = NDArray[np.int64]


def document(marks: Collection[Mark], width: float, height: float, title: str, description: str) -> str:
    """Inline SVG of a sheet of `width` × `height` mm; the same marks give the same bytes.

    It tells its page how wide it must be on a screen for its smallest lettering to be read.
    """
    least = min((mark.height for mark in marks if isinstance(mark, TextMark)), default=0.0) / lettering.CAPITAL
    wide = f' style="--ms-least:{math.ceil(READABLE * width / least)}px"' if least else ""
    root = f"fill:none;stroke:{variable(INK)};stroke-linecap:round;stroke-linejoin:round;font-family:{FAMILY}"
    return (
        f'<svg width="100%" viewBox="0 0 {number(width)} {number(height)}" xmlns="http://www.w3.org/2000/svg" '
        f'class="ms-drawing"{wide} role="img" aria-labelledby="{PREFIX}-t {PREFIX}-d">'
        f'<title id="{PREFIX}-t">{escape(title)}</title><desc id="{PREFIX}-d">{escape(description)}</desc>'
        f'<g style="{root}">{"".join(_elements(marks, height))}</g></svg>'
    )


def number(value: float) -> str:
    """A number as short as it can be: 0.5 is ".5", −0.25 is "-.25"."""
    return _SHORT[round(value * _UNIT)]


def _elements(marks: Iterable[Mark], height: float) -> Iterator[str]:
    items = list(grouped(marks))
    paths = _path_data([item[1] for item in items if not isinstance(item, TextMark)], height)
    texts: list[str] = []
    common = ("", 0.0)
    for item in items:
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
        yield f'<path style="{_said(item[0])}" d="{next(paths)}"/>'
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


@functools.lru_cache(maxsize=256)
def _said(style: Style) -> str:
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
    return ";".join(said)


# ---------------------------------------------------------------------- coordinates
@dataclass
class _Straight:
    """The lines and outlines without curves of a whole sheet, worked on all at once; a piece is a stretch of them."""

    loops: list[Points] = field(default_factory=list)
    closed: list[bool] = field(default_factory=list)
    pieces: list[int] = field(default_factory=list)
    """Number of the first loop of each piece."""

    def add(self, marks: Iterable[PathMark]) -> None:
        """One piece more."""
        self.pieces.append(len(self.loops))
        for mark in marks:
            if mark.codes is None:
                self.loops.append(mark.vertices)
                self.closed.append(False)
                continue
            codes = mark.codes.tobytes()
            start = 0
            while start >= 0:
                after = codes.find(_MOVE, start + 1)
                end = after if after >= 0 else len(codes)
                self.loops.append(mark.vertices[start:end])
                self.closed.append(codes[end - 1] == CLOSE)
                start = after

    def data(self, height: float) -> Iterator[str]:
        """Path data of each piece."""
        if not self.loops:
            return
        loops = _thinned(self.loops)
        sizes = np.fromiter(map(len, loops), np.int64, len(loops))
        ends = np.cumsum(sizes)
        starts, closed = ends - sizes, np.array(self.closed)
        whole = _whole(np.concatenate(loops), height)
        before = np.arange(-1, len(whole) - 1)
        # the pen is back at the beginning of an outline that was closed
        before[starts[1:]] = np.where(closed[:-1], starts[:-1], ends[:-1] - 1)
        steps = whole - whole[before]
        first = starts[self.pieces]
        steps[first] = whole[first]
        kind = np.select([steps[:, 1] == 0, steps[:, 0] == 0], [_LEVEL, _UPRIGHT], _SLANTED)
        kind[starts[1:]] = np.where(closed[:-1], _AGAIN, _BEGIN)
        kind[first] = _FIRST
        # the last point of an outline is its first: z draws that way
        keep = (kind <= _AGAIN) | steps.any(1)
        keep[ends[closed] - 1] = False
        words = _words(steps[keep], kind[keep])
        cuts = np.cumsum(keep)[first] - 1
        last = closed[np.array([*self.pieces[1:], len(loops)]) - 1].tolist()
        for a, b, shut in zip(cuts.tolist(), [*cuts[1:].tolist(), len(words)], last, strict=True):
            yield "".join(words[a:b]) + ("z" if shut else "")


def _path_data(runs: list[list[PathMark]], height: float) -> Iterator[str]:
    """The path data of every run: every stretch of straight outlines at once, every circle by itself."""
    straight, plan = _Straight(), []
    for run in runs:
        parts: list[str | None] = []
        for curved, marks in itertools.groupby(run, key=_is_curved):
            if curved:
                parts += [_curves(_whole(m.vertices[:-1], height)) for m in marks]
            else:
                straight.add(marks)
                parts.append(None)
        plan.append(parts)
    data = straight.data(height)
    for parts in plan:
        yield "".join(next(data) if part is None else part for part in parts)


def _is_curved(mark: PathMark) -> bool:
    return mark.codes is not None and _CURVE in mark.codes.tobytes()


def _whole(points: Points, height: float) -> Whole:
    return np.rint(points * (_UNIT, -_UNIT) + (0.0, height * _UNIT)).astype(np.int64)


def _thinned(loops: list[Points]) -> list[Points]:
    """The lines without the points that do not show."""
    out = list(loops)
    many = [i for i, loop in enumerate(loops) if len(loop) > 3]
    if many:
        given = [loops[i] for i in many]
        lines = shapely.linestrings(np.concatenate(given), indices=np.repeat(range(len(many)), [*map(len, given)]))
        coordinates, owner = shapely.get_coordinates(
            shapely.simplify(lines, THIN, preserve_topology=False), return_index=True
        )
        ends = np.cumsum(np.bincount(owner, minlength=len(many))).tolist()
        for i, a, b in zip(many, [0, *ends], ends, strict=False):
            out[i] = coordinates[a:b]
    return out


def _words(steps: Whole, kind: Whole) -> list[str]:
    """Each step as path data; its letter is left out where the step before says it already."""
    before = np.r_[_FIRST, kind[:-1]]
    same = (kind == before) & (kind >= _LEVEL)
    same |= (kind == _SLANTED) & ((before == _BEGIN) | (before == _AGAIN))
    flat = (kind == _LEVEL) | (kind == _UPRIGHT)
    values, where = np.unique(np.where(kind == _UPRIGHT, steps[:, 1], steps[:, 0]), return_inverse=True)
    one = np.array([[_SHORT[v], _NEXT[v]] for v in values.tolist()], object)[where, same.astype(np.int64)]
    values, where = np.unique(steps[:, 1], return_inverse=True)
    two = np.array([_NEXT[v] for v in values.tolist()], object)[where]
    two[flat] = ""
    letters: list[str] = _LETTERS[np.where(same, _NONE, kind)].tolist()
    return [a + b + c for a, b, c in zip(letters, one.tolist(), two.tolist(), strict=True)]


_FIRST, _BEGIN, _AGAIN, _LEVEL, _UPRIGHT, _SLANTED, _NONE = range(7)
_LETTERS: Final = np.array(["M", "m", "zm", "h", "v", "l", ""], object)
"""What a step is: the start of a piece, of a line, of a line after a closed one; along, up, across."""
_MOVE: Final = bytes([MOVE])
_CURVE: Final = bytes([CURVE])


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
