"""A small handbook in a temporary folder, and a stand-in for the evaluation that is quick and can be made to fail."""

from __future__ import annotations

import os
from collections.abc import Callable, MutableMapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from methodsheets.formula.measure import Measure
from methodsheets.handbook.model import Options
from methodsheets.reading.problem import Place, Problems
from methodsheets.sheet.model import Drawing, Limit, Method, Operation, Setup, Totals
from methodsheets.sheet.words import Words

SHOP = """\
workshop: The {name} shop
machines:
  lathe:
    kind: lathe
    speeds: {speeds} 1/min
rates:
  hour: 12 money
  currency: crowns
"""

METHOD = """\
---
method: {title}
part: {part}
material: EN1A
stock: {stock}
workshop: {workshop}
---

Text of {title}.

```setup
machine: lathe
hold: three-jaw chuck, on 20 mm, grip 10 mm, end A out
```

```op
turn: to 16 mm, over 20 mm
```
"""


def mm(value: float) -> Measure:
    return Measure(value, "mm", "size", f"{value:.3f} mm", f"{value / 25.4:.4f} in")


@dataclass
class Job:
    """What is known while a method is worked out."""

    problems: Problems


@dataclass
class Stand:
    """What the stand-in gives for a method: the record, and the job for whoever draws it."""

    method: Method
    live: Any = None


@dataclass
class Folder:
    """A folder with methods and workshops, and how to build it."""

    path: Path
    log: Path
    made: list[str] = field(default_factory=list)

    @property
    def methods(self) -> Path:
        return self.path / "methods"

    @property
    def store(self) -> Path:
        return self.path / ".cache" / "store.sqlite"

    def shop(self, key: str, speeds: str = "100, 200, 400") -> Path:
        file = self.methods / "workshops" / f"{key}.yml"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(SHOP.format(name=key, speeds=speeds), "utf-8")
        return file

    def method(self, slug: str, **said: str) -> Path:
        file = self.methods / f"{slug}.md"
        file.parent.mkdir(parents=True, exist_ok=True)
        known = {"title": slug.capitalize(), "part": slug, "stock": "round 20 mm x 50 mm", "workshop": "small"}
        file.write_text(METHOD.format(**{**known, **said}), "utf-8")
        return file

    def options(self, **changes: Any) -> Options:
        said: dict[str, Any] = {"root": self.path, "methods": (self.methods,), "store": self.store}
        return Options(**{**said, **changes})

    def worked(self) -> list[str]:
        """What was worked out since this was asked last: 'slug for workshop', in order."""
        lines = self.log.read_text().split("\n")[:-1] if self.log.exists() else []
        self.log.unlink(missing_ok=True)
        return sorted(lines)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Folder:
    """Two workshops and no methods yet; evaluation and drawing are stand-ins that write down what they did."""
    import methodsheets.drawings.drawing_room
    import methodsheets.method.evaluate

    made = Folder(tmp_path, tmp_path / "worked.log")
    made.shop("large", "50 to 800")
    made.shop("small")
    monkeypatch.setattr(methodsheets.method.evaluate, "evaluate_method", _evaluate(made.log))
    monkeypatch.setattr(methodsheets.drawings.drawing_room, "draw_method", _draw)
    monkeypatch.setattr(methodsheets.drawings.drawing_room, "Figure", Figure)
    return made


def _evaluate(log: Path) -> Callable[..., Stand]:
    def evaluate(file: Any, workshop: Any, library: Any, problems: Any = None) -> Stand:
        with log.open("a") as opened:
            opened.write(f"{file.slug} for {workshop.key}\n")
        if "CRASH" in file.text:
            raise ZeroDivisionError("a planted fault")
        if "DIE" in file.text:
            os._exit(9)
        stock = file.front.stock.value if file.front.stock else ""
        other = library(stock.removeprefix("from ")) if stock.startswith("from ") else None
        found = problems if problems is not None else ()
        live = Problems(list(found))
        return Stand(_method(file, workshop, other.method if other else None, tuple(found)), live=Job(live))

    return evaluate


def _method(file: Any, workshop: Any, other: Method | None, problems: tuple[Any, ...]) -> Method:
    speed = workshop.machines["lathe"].speed_for(330).value
    limit = Limit("journal", mm(16), mm(16.0), mm(15.98))
    operation = Operation(
        10, "op-10-turn", "turn", Words("Turn"), Words(f"Turn at {speed:g}"), 17, 1, "knife tool",
        limits=(limit,), cutting_minutes=len(file.text) / 100, handling_minutes=1.0,
    )  # fmt: skip
    setup = Setup(
        1,
        "setup-1",
        Words("Turn it"),
        13,
        0,
        "lathe",
        "lathe",
        "three-jaw chuck",
        Words("Chuck"),
        operations=(operation,),
    )
    stock = f"{other.title} ({other.digest})" if other else file.front.stock.value
    each = operation.cutting_minutes + operation.handling_minutes
    totals = Totals(5, operation.cutting_minutes, 1.0, 10.0, 10 + each, 10 + 5 * each)
    return Method(
        file.slug, file.path, file.front.method.value, file.front.part.value, workshop.key, workshop.name,
        "draft", "", "", "", "EN1A", Words(stock), 5, "", setups=(setup,), totals=totals, problems=problems,
    )  # fmt: skip


@dataclass(frozen=True)
class Figure:
    """A drawing, before it is put into a page."""

    svg: str


def _draw(stand: Stand, shared: MutableMapping[str, Figure], views: Any) -> list[tuple[Drawing, str]]:
    method = stand.method
    if "NO PICTURE" in method.title:
        stand.live.problems.warning(Place(method.path, 13), "the picture could not be drawn")
        return []
    speed = method.setups[0].operations[0].words.metric.split(" ")[-1]
    key = f"{method.slug}--setup-1--{speed}"  # alike in workshops with the same speed
    figure = shared.get(key)
    if figure is None:
        head = '<svg width="100%" viewBox="0 0 170 100" xmlns="http://www.w3.org/2000/svg">'
        figure = shared[key] = Figure(f'{head}<path id="{key}" fill="var(--ms-ink,#000000)"/></svg>')
    return [(Drawing(key, "setup", Words("Set-up 1"), scheme="setup-1"), figure.svg)]
