"""How long does a picture take? Medians by kind, of everything that the demo handbook draws for all its workshops."""

from __future__ import annotations

import statistics
import time
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from methodfigures.paper import writer
from methodfigures.paper.drawing import Drawing
from methodfigures.solids.views import ViewBook
from methodsheets.drawings.drawing_room import DrawingRoom
from methodsheets.method.evaluate import evaluate_method
from methodsheets.method.job import Evaluated
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import Problems
from methodsheets.workshop.reader import read_workshop

SET_UPS = ("TurningSetup", "ViceSetup", "RotarySetup", "CrossSetup")
ROUTES = ("Storyboard", "SectionStrip")


@dataclass
class Times:
    """Milliseconds of this process's own work and bytes, by kind of figure; a route counts by its cells."""

    drawn: dict[str, list[float]] = field(default_factory=lambda: defaultdict(list))
    sizes: dict[str, list[float]] = field(default_factory=lambda: defaultdict(list))
    written: list[float] = field(default_factory=list)
    asked: int = 0
    total: float = 0.0

    def rows(self) -> list[tuple[str, str]]:
        """(kind, what was measured) in the order of what they cost."""
        count = sum(len(all_) for all_ in self.drawn.values())
        rows = [("pictures drawn of those shown", f"{count} of {self.asked}, {self.total:.1f} s in one process")]
        set_ups = [ms for kind in SET_UPS for ms in self.drawn.get(kind, [])]
        rows.append(("set-up figures, median", f"{statistics.median(set_ups):.1f} ms"))
        for kind in sorted(self.drawn, key=lambda kind: -sum(self.drawn[kind])):
            ms, kb = self.drawn[kind], statistics.median(self.sizes[kind]) / 1000
            words = f"{statistics.median(ms):.1f} ms, worst {max(ms):.0f}; {kb:.1f} kB ({len(ms)})"
            rows.append((f"{kind}{', a cell' if kind in ROUTES else ''}", words))
        rows.append(("writing the SVG, median", f"{statistics.median(self.written):.1f} ms"))
        return rows


class _Clocked(DrawingRoom):
    """A drawing room with a clock beside it."""

    times: Times

    def _draw(self, *given: Any) -> None:
        *first, draw, line = given

        def clocked(spec: Any, book: ViewBook) -> Drawing:
            started = time.process_time()
            figure: Drawing = draw(spec, book)
            kind, cells = type(spec).__name__, len(getattr(spec, "cells", "1"))
            self.times.drawn[kind].append(1000 * (time.process_time() - started) / cells)
            self.times.sizes[kind].append(len(figure.svg) / cells)
            return figure

        super()._draw(*first, clocked, line)


def picture_times(folder: Path) -> Times:
    """Draw every method of a folder for every workshop, as a cold build does in one process."""
    times, problems = Times(), Problems()
    paths = sorted((folder / "workshops").glob("*.yml"))
    shops = [shop for path in paths if (shop := read_workshop(path, folder, problems)) is not None]
    plain, writer.document = writer.document, _clocked_writer(writer.document, times)
    try:
        for path in sorted(folder.glob("*.md")):
            shared: dict[str, Drawing] = {}
            views = ViewBook()
            for shop in shops:
                room = _Clocked(_worked_out(path, shop), shared, book=views)
                room.times = times
                started = time.process_time()
                times.asked += len(room.draw_all())
                times.total += time.process_time() - started
    finally:
        writer.document = plain
    return times


def _clocked_writer(plain: Callable[..., str], times: Times) -> Callable[..., str]:
    def document(*given: Any) -> str:
        started = time.process_time()
        written = plain(*given)
        times.written.append(1000 * (time.process_time() - started))
        return written

    return document


def _worked_out(path: Path, shop: Any) -> Evaluated:
    def library(name: str) -> Evaluated | None:
        other = path.with_name(f"{name}.md")
        return _worked_out(other, shop) if other.exists() else None

    problems = Problems()
    file = parse_method(path.read_text("utf-8"), path.name, problems)
    assert file is not None
    return evaluate_method(file, shop, library, problems)
