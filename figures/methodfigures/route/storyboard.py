"""What is the route of a method at a glance?  One pictorial for each operation, grouped by set-up."""

from __future__ import annotations

import hashlib
import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.sheet import SHEET_WIDTH, WIDE, Sheet
from methodfigures.solids.mesh import Floats, Mesh
from methodfigures.solids.pictorial import draw_pictorial, pictorial_view
from methodfigures.solids.views import ViewBook, centred, extent

HEADING = 2.0
CAPTION = 1.9
NUMBER = 2.2
LINE = 3.1


@dataclass(frozen=True)
class Cell:
    """One operation: `number` and `words` under the picture, `group` = set-up it belongs to (name over its cells),
    the solids `after` it and the metal `removed`; `face` = outward direction of the end that looks at you, `up` = what
    points upwards in the set-up (None where the work turns about its axis and shows the same from all sides).
    """

    number: str
    words: str
    group: str
    after: tuple[Mesh, ...]
    removed: tuple[Mesh, ...] = ()
    face: tuple[float, float, float] = (0.0, 0.0, -1.0)
    up: tuple[float, float, float] | None = None

    def key(self) -> str:
        """A digest of everything in the cell."""
        solids = [[m.key() for m in group] for group in (self.after, self.removed)]
        parts = (self.number, self.words, self.group, solids, self.face, self.up)
        return hashlib.sha256(repr(parts).encode()).hexdigest()


@dataclass(frozen=True)
class Storyboard:
    """The cells of a method in order, `columns` to a row."""

    cells: tuple[Cell, ...]
    columns: int = 4
    title: str = "Route of the method"
    description: str = ""
    width: float = SHEET_WIDTH
    """mm: of a sheet, or of a phone's screen."""
    rest: str = ""
    """What is left out, in words, at the foot."""

    def key(self) -> str:
        """A digest of everything that goes into the drawing."""
        parts = ([c.key() for c in self.cells], self.columns, self.title, self.description, self.width, self.rest)
        return hashlib.sha256(repr(parts).encode()).hexdigest()


@dataclass(frozen=True)
class Grid:
    """Rows and columns of cells with the rules and names over them."""

    cells: Sequence[Cell]
    columns: int
    caption_rows: int = 2
    sheet: float = SHEET_WIDTH
    """Width of them all, mm."""

    @property
    def width(self) -> float:
        """Width of a cell in mm."""
        return self.sheet / self.columns

    def row(self, i: int) -> Sequence[Cell]:
        """The cells of a row."""
        return self.cells[i * self.columns : (i + 1) * self.columns]

    @property
    def rows(self) -> int:
        """Number of rows."""
        return -(-len(self.cells) // self.columns)

    def spans(self, i: int) -> list[tuple[str, int, int]]:
        """(group, first column, last column) of the stretches of one set-up in a row."""
        out: list[tuple[str, int, int]] = []
        for column, cell in enumerate(self.row(i)):
            if out and out[-1][0] == cell.group:
                out[-1] = (cell.group, out[-1][1], column)
            else:
                out.append((cell.group, column, column))
        return out

    def named(self, i: int) -> list[tuple[list[str], int, int]]:
        """The same with the lines of each name; a set-up that runs on from the row above is not named again."""
        above = self.cells[i * self.columns - 1].group if i else None
        out = []
        for name, a, b in self.spans(i):
            lines = [] if name == above else lettering.wrap(name, (b - a + 1) * self.width - 4, HEADING, "bold")
            out.append((lines, a, b))
        return out

    def heading(self, i: int) -> float:
        """Height of the names over row i."""
        return 2.0 + max((len(lines) for lines, _, _ in self.named(i)), default=0) * 3.2

    def caption(self, i: int) -> float:
        """Height of the captions under row i."""
        rows = [len(caption_lines(c.number, c.words, self.width - 4, self.caption_rows)) for c in self.row(i)]
        return max(rows, default=1) * LINE + 2.6

    def draw_heading(self, sheet: Sheet, i: int, top: float) -> None:
        """Heavy rules over the set-ups of a row, with their names."""
        for lines, a, b in self.named(i):
            sheet.lines([[(a * self.width + 1.2, top), ((b + 1) * self.width - 1.2, top)]], WIDE, 2.0)
            for j, words in enumerate(lines):
                sheet.text(a * self.width + 2, top - 3.4 - j * 3.2, words, HEADING, align="left", weight="bold")


def caption_lines(number: str, words: str, width: float, rows: int) -> list[str]:
    """The words under a cell in at most `rows` lines beside its number."""
    return lettering.shortened(words, width - lettering.width(number, NUMBER, "bold") - 1.6, rows, CAPTION) or [""]


def draw_caption(sheet: Sheet, x: float, y: float, number: str, words: str, width: float, rows: int) -> None:
    """Number in bold and words beside it; y = base line of the first line."""
    sheet.text(x, y, number, NUMBER, align="left", weight="bold")
    left = x + lettering.width(number, NUMBER, "bold") + 1.6
    for j, line in enumerate(caption_lines(number, words, width, rows)):
        sheet.text(left, y - j * LINE, line, CAPTION, align="left")


def draw_storyboard(spec: Storyboard, book: ViewBook | None = None) -> Drawing:
    """One pictorial per operation, all at one scale; removed metal tinted, in phantom lines."""
    return compose_storyboard(spec, book or ViewBook()).drawing(spec.title, spec.description or describe(spec.cells))


def compose_storyboard(spec: Storyboard, book: ViewBook) -> Sheet:
    """The sheet of `draw_storyboard` before it becomes a drawing."""
    grid = Grid(spec.cells, spec.columns, sheet=spec.width)
    scale, views = _scale(book, grid)
    tall = [max(_height(c, v) for c, v in pairs) * scale for pairs in _by_row(grid, views)]
    heights = [grid.heading(i) + tall[i] + grid.caption(i) + 3.5 for i in range(grid.rows)]
    sheet = Sheet(spec.width, sum(heights) + 2.5 + tell_rest_height(spec.rest))
    tell_rest(sheet, spec.rest)
    top = sheet.height - 1.5
    for i, height in enumerate(heights):
        grid.draw_heading(sheet, i, top)
        for j, (cell, view) in enumerate(zip(grid.row(i), views[i * spec.columns :], strict=False)):
            centre = ((j + 0.5) * grid.width, top - grid.heading(i) - 1.5 - tall[i] / 2)
            place = centred(view, scale, centre, [*cell.after, *cell.removed])
            draw_pictorial(sheet, book, cell.after, cell.removed, place, wide=0.3)
            base = top - height + grid.caption(i) - 1.6
            draw_caption(sheet, j * grid.width + 2, base, cell.number, cell.words, grid.width - 4, grid.caption_rows)
        top -= height
    return sheet


def tell_rest_height(rest: str) -> float:
    """Height of the line that says what is left out, mm."""
    return LINE + 2.6 if rest else 0.0


def tell_rest(sheet: Sheet, rest: str) -> None:
    """What is left out, at the foot of the sheet."""
    if rest:
        sheet.text(2.0, 2.4, rest, CAPTION, align="left")


def _by_row(grid: Grid, views: list[Floats]) -> list[list[tuple[Cell, Floats]]]:
    pairs = list(zip(grid.cells, views, strict=True))
    return [pairs[i * grid.columns : (i + 1) * grid.columns] for i in range(grid.rows)]


def _height(cell: Cell, view: Floats) -> float:
    low, high = extent(view, [*cell.after, *cell.removed])
    return float((high - low)[1])


def _scale(book: ViewBook, grid: Grid) -> tuple[float, list[Floats]]:
    """One scale for all cells, and the view of each."""
    guess = 0.4
    views = [pictorial_view(book, c.after, c.removed, c.face, guess, up=c.up) for c in grid.cells]
    sizes = [extent(v, [*c.after, *c.removed]) for c, v in zip(grid.cells, views, strict=True)]
    wide = max(float((high - low)[0]) for low, high in sizes)
    tall = max(float((high - low)[1]) for low, high in sizes)
    return min((grid.width - 4.5) / wide, 0.8 * grid.width / tall), views


def describe(cells: Sequence[Cell]) -> str:
    """The route in words."""
    out = []
    for group, members in itertools.groupby(cells, key=lambda c: c.group):
        steps = "; ".join(f"{c.number} {c.words}" for c in members)
        out.append(f"{group}: {steps}.")
    return " ".join(out)
