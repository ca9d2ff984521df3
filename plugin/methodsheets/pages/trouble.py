"""Can the method be done in this workshop, and if not, what stands against it and where?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from methodsheets.reading.problem import Severity
from methodsheets.sheet.model import Check, Method
from methodsheets.sheet.words import Words

from . import document as d

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


def verdict(method: Method) -> str:
    """Whether the method can be done in its workshop, in one line: what stands against it, what nobody could tell."""
    found, untold = len(dict.fromkeys(troubles(method))), len(unknown(method))
    if found:
        return f"Does not work as written: {'1 thing stands' if found == 1 else f'{found} things stand'} against it"
    if untold:
        return f"Not known: {'1 check' if untold == 1 else f'{untold} checks'} could not be made"
    tight = sum(check.tight for check in method.all_checks if check.state == "passed")
    return f"Works, {tight} with little to spare" if tight else "Works as written"


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


def trouble_box(method: Method, *, linked: bool = True) -> d.Blocks:
    """Which checks fail, and which could not be made, each with its place; nothing if all agrees.

    Parameters:
        linked: whether the page has the places, so that one can go there.
    """
    boxes = []
    if found := troubles(method):
        boxes.append(_box("failed", f"Does not work as written in {method.workshop_name}", found, linked=linked))
    if not_made := unknown(method):
        title = f"Not known: {len(not_made)} check{'' if len(not_made) == 1 else 's'} could not be made"
        boxes.append(_box("warning", title, not_made, linked=linked))
    return tuple(boxes)


def _box(kind: str, title: str, found: Iterable[Trouble], *, linked: bool) -> d.Box:
    return d.Box(kind, title, (d.Listing(tuple(_item(one, linked=linked) for one in dict.fromkeys(found))),))


def _item(trouble: Trouble, *, linked: bool) -> d.Inline:
    anchor, name, words = trouble
    if not name:
        return d.words(words)
    if anchor and linked:
        return (d.Link(f"#{anchor}", d.words(name)), d.Text(": "), *d.words(words))
    return (d.Text(f"{name}: "), *d.words(words))
