"""What is a verb? A word, the clauses it knows, and the function that turns them into a plan."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from types import ModuleType
from typing import TYPE_CHECKING, TypeAlias

from methodsheets.trade.form.docstring import docstring
from methodsheets.vocabulary.frame import Frame

from .words import Clause

if TYPE_CHECKING:
    from .plan import Plan
    from .station import Station
    from .words import Said

Make: TypeAlias = "Callable[[Station, Said], Plan]"

TURNING, VICE, BENCH, ANY = Frame


@dataclass(frozen=True)
class Verb:
    """One verb in one frame."""

    name: str
    frame: Frame
    family: str
    first: Clause | None
    clauses: tuple[Clause, ...]
    help: str
    make: Make

    @property
    def all_clauses(self) -> tuple[Clause, ...]:
        """The unnamed first one and the others."""
        return (self.first, *self.clauses) if self.first else self.clauses


_MARKS = "verb_marks"


@dataclass(frozen=True)
class _Mark:
    verbs: tuple[tuple[str, Frame], ...]
    family: str
    first: Clause | None
    clauses: tuple[Clause, ...]


def verb(
    *names: str,
    frame: Frame = TURNING,
    family: str,
    first: Clause | None = None,
    clauses: Sequence[Clause] = (),
) -> Callable[[Make], Make]:
    """Mark a function as the meaning of a verb in a frame; its docstring's first line is the verb's help."""

    def mark(make: Make) -> Make:
        marks = (
            *getattr(make, _MARKS, ()),
            _Mark(tuple((name, frame) for name in names), family, first, tuple(clauses)),
        )
        setattr(make, _MARKS, marks)
        return make

    return mark


def collect(modules: Iterable[ModuleType]) -> dict[tuple[str, Frame], Verb]:
    """All verbs of the given modules, by (name, frame); a name may mean one thing on the lathe, another in the vice."""
    table: dict[tuple[str, Frame], Verb] = {}
    for module in modules:
        for _, make in inspect.getmembers(module, inspect.isfunction):
            for mark in getattr(make, _MARKS, ()):
                for name, frame in mark.verbs:
                    help_line = docstring(make).split("\n")[0]
                    table[name, frame] = Verb(
                        name=name,
                        frame=frame,
                        family=mark.family,
                        first=mark.first,
                        clauses=mark.clauses,
                        help=help_line,
                        make=make,
                    )
    return table
