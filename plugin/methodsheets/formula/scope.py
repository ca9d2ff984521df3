"""Which names are known here, what are they worth, and where were they given?"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from methodsheets.formula.errors import FormulaError
from methodsheets.formula.values import Value
from methodsheets.reading.problem import MethodError, Place, did_you_mean


@dataclass(frozen=True)
class Known:
    """A name with its value; `value` is None where its line could not be worked out."""

    name: str
    value: Value | None
    place: Place | None = None
    line: Any = None
    """The `CalcLine` it comes from."""


class Scope:
    """Names and their values; a name is given once. An inner scope sees the names of the outer one."""

    def __init__(self, outer: Scope | None = None) -> None:
        self.outer = outer
        self._known: dict[str, Known] = {}

    def define(self, name: str, value: Value | None, place: Place | None = None, line: Any = None) -> None:
        """Give a name its value, or None where that failed; MethodError if it has one already."""
        before = self._known.get(name)
        if before is not None and place is not None:
            where = f" (first on line {before.place.line})" if before.place else ""
            raise MethodError(
                place,
                f"`{name}` is given twice{where}",
                "a name has one value in a method",
                "choose another name",
                code="repeated-name",
            )
        self._known[name] = Known(name, value, place, line)

    def __contains__(self, name: str) -> bool:
        return self.known(name) is not None

    def __iter__(self) -> Iterator[Known]:
        return iter(self._known.values())

    def known(self, name: str) -> Known | None:
        """The entry of a name, here or further out."""
        found = self._known.get(name)
        return found if found is not None or self.outer is None else self.outer.known(name)

    def names(self) -> tuple[str, ...]:
        """All names that can be used here, in the order they were given."""
        outer = self.outer.names() if self.outer else ()
        return (*outer, *self._known)

    def value(self, name: str) -> Value:
        """The value of a name; FormulaError with a suggestion where it is not known."""
        found = self.known(name)
        if found is None:
            raise FormulaError(
                f"unknown name `{name}`",
                "names come from the lines of `calc` blocks above",
                _remedy(name, did_you_mean(name, self.names())),
                code="unknown-name",
            )
        if found.value is None:
            where = f": line {found.place.line} is wrong" if found.place else ""
            raise FormulaError(f"`{name}` has no value{where}", "", "mend that line first", code="follow-up")
        return found.value

    def inner(self) -> Scope:
        """A scope inside this one, for names that hold only there."""
        return Scope(self)


def _remedy(name: str, resembles: str) -> str:
    """What to do about an unknown name; classes of fit and threads are words, not names.

    resembles: the names that could be meant, in words; '' where there are none.
    """
    if re.fullmatch(r"[A-Za-z]{1,2}\d{1,2}", name) and not resembles.startswith("did you mean"):
        return f'give it in a calc block, or if it is a fit or a thread put it in double quotes, e.g. "{name}"'
    return resembles or "give it in a calc block"
