"""How does a calculation refuse? The refusals every subject shares."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


class OutOfRange(ValueError):
    """A value lies where the calculation does not hold.

    `parameter` is the name of the value, `value` what was given, `unit` its unit, `rule` the range in words.
    """

    def __init__(self, parameter: str, value: object, unit: str, rule: str) -> None:
        self.parameter = parameter
        self.value = value
        self.unit = unit
        self.rule = rule
        shown = f"{value:g}" if isinstance(value, float | int) and not isinstance(value, bool) else repr(value)
        unit_shown = "" if unit in {"1", "text", "flag", "count", ""} else f" {unit}"
        super().__init__(f"{parameter} is {shown}{unit_shown}; the rule: {rule}")


class TooMuch(ValueError):
    """A calculation would go on too long with these values.

    `most` is how many lines of a program it may take.
    """

    def __init__(self, name: str, most: int) -> None:
        self.name = name
        self.most = most
        super().__init__(f"{name} would go on too long with these values; take smaller numbers or fewer of them")


class NotInTable(LookupError):
    """A name is not in a table.

    `name` is what was asked for, `what` the kind of thing ("material"), `known` every name there is and
    `suggestions` the nearest of them.
    """

    def __init__(self, name: str, what: str, known: Iterable[str]) -> None:
        self.name = name
        self.what = what
        self.known = tuple(known)
        self.suggestions = _nearest(name, self.known)
        if self.suggestions:
            hint = "did you mean " + " or ".join(self.suggestions) + "?"
        elif len(self.known) <= 20:
            hint = "known: " + (", ".join(self.known) or "none")
        else:
            hint = f"{len(self.known)} are known, the first: " + ", ".join(self.known[:8])
        super().__init__(f"no {what} called {name!r}; {hint}")


def _nearest(name: str, known: tuple[str, ...]) -> tuple[str, ...]:
    """Return up to three known names that look like the one asked for."""
    plain = {candidate.lower(): candidate for candidate in known}
    close = difflib.get_close_matches(name.strip().lower(), list(plain), n=3, cutoff=0.6)
    return tuple(plain[found] for found in close)
