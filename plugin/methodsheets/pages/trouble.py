"""Can the method be done in this workshop, and if not, what stands against it and where?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from methodsheets.reading.problem import Severity
from methodsheets.sheet.model import Check, Method
from methodsheets.sheet.words import Words

Trouble = tuple[str, str, Words]
"""The anchor of the place ('' for the method as a whole), its name ('Operation 30'), what is wrong."""


def troubles(method: Method) -> tuple[Trouble, ...]:
    """Everything that stands against a method in one workshop, in the order of the work; nothing if all agrees.

    In a workshop that is not its author's, what could not be worked out at all counts too: in the author's own it is
    told at its block.
    """
    return (*_failed(method), *_not_worked_out(method))


def works(method: Method) -> bool:
    """Whether nothing stands against the method in its workshop."""
    return not troubles(method)


def unknown(method: Method) -> tuple[Trouble, ...]:
    """Every check that could not be made, in the order of the work: what was not looked at is not called good."""
    return tuple(_in_state(method, "not known"))


def _failed(method: Method) -> Iterator[Trouble]:
    return _in_state(method, "failed")


def _in_state(method: Method, state: str) -> Iterator[Trouble]:
    for setup in method.setups:
        yield from _of(setup.checks, state, setup.id, f"Set-up {setup.number}")
        for operation in setup.operations:
            yield from _of(operation.checks, state, operation.id, f"Operation {operation.number}")
    yield from _of(method.checks, state, "", "")


def _of(checks: Iterable[Check], state: str, anchor: str, name: str) -> Iterator[Trouble]:
    return ((anchor, name, check.words) for check in checks if check.state == state)


def _not_worked_out(method: Method) -> Iterator[Trouble]:
    if method.own_workshop:
        return
    for problem in method.problems:
        if problem.severity is Severity.ERROR:
            yield "", f"Line {problem.place.line}" if problem.place.path == method.path else "", Words(problem.what)
