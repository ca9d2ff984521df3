"""What lies on a sheet: lines, areas and lettering, each with its height above the paper?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from operator import attrgetter
from typing import Final

import numpy as np
from numpy.typing import NDArray

MOVE: Final = 1
LINE: Final = 2
CURVE: Final = 4
CLOSE: Final = 79
"""Codes of the points of a path: begin, line to, one of three points of a cubic curve, back to the beginning."""


@dataclass(frozen=True, slots=True)
class Style:
    """Look of a path: roles of fill and stroke (None = without), line width in mm, ends of lines."""

    fill: str | None = None
    stroke: str | None = None
    width: float = 0.0
    cap: str = "round"


@dataclass(frozen=True, slots=True)
class PathMark:
    """Lines or areas of one style; `codes` None = a polyline, else a code for each point."""

    z: float
    style: Style
    vertices: NDArray[np.float64]
    codes: NDArray[np.uint8] | None = None


@dataclass(frozen=True, slots=True)
class TextMark:
    """One line of lettering; (x, y) is the left end of its base line, `turn` in degrees anticlockwise."""

    z: float
    text: str
    x: float
    y: float
    height: float
    width: float
    turn: float = 0.0
    weight: str = "normal"
    role: str = "ink"


Mark = PathMark | TextMark


_height = attrgetter("z")


def grouped(marks: Iterable[Mark]) -> Iterator[tuple[Style, list[PathMark]] | TextMark]:
    """Marks from the bottom to the top, neighbours of one style in one run."""
    run: list[PathMark] = []
    for mark in sorted(marks, key=_height):
        if run and not (isinstance(mark, PathMark) and mark.style == run[0].style):
            yield run[0].style, run
            run = []
        if isinstance(mark, PathMark):
            run.append(mark)
        else:
            yield mark
    if run:
        yield run[0].style, run
