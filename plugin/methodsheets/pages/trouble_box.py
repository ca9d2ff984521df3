"""How does a page say whether a method works in a workshop: in one line, and in a box of all that is against it?"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from methodsheets.sheet.model import Method

from . import document as d
from . import wording
from .my_shop import Answer, answer, to_make_it_work
from .trouble import Trouble, troubles, unknown


def verdict(method: Method) -> str:
    """Whether the method can be done in its workshop, in one line: what stands against it, what nobody could tell."""
    found, untold = len(dict.fromkeys(troubles(method))), len(unknown(method))
    if answer(method) is Answer.CHANGES:
        return f"Works with {wording.count(found, 'change')}"
    if found:
        return f"Does not work as written: {'1 thing stands' if found == 1 else f'{found} things stand'} against it"
    if untold:
        return f"Not known: {'1 check' if untold == 1 else f'{untold} checks'} could not be made"
    tight = sum(check.tight for check in method.all_checks if check.state == "passed")
    return f"Works, {tight} with little to spare" if tight else "Works as written"


def trouble_box(method: Method, *, linked: bool = True) -> d.Blocks:
    """Which checks fail and what would mend each, which could not be made, each with its place; else nothing.

    Parameters:
        linked: whether the page has the places, so that one can go there.
    """
    boxes = []
    if found := troubles(method):
        changes = answer(method) is Answer.CHANGES
        title = "Works with these changes in" if changes else "Does not work as written in"
        mend = (lambda one: "") if method.own_workshop else (lambda one: to_make_it_work(method, one))
        kind = "warning" if changes else "failed"
        boxes.append(_box(kind, f"{title} {method.workshop_name}", found, mend, linked=linked))
    if not_made := unknown(method):
        title = f"Not known: {len(not_made)} check{'' if len(not_made) == 1 else 's'} could not be made"
        boxes.append(_box("warning", title, not_made, lambda one: "", linked=linked))
    return tuple(boxes)


def _box(kind: str, title: str, found: Iterable[Trouble], mend: Callable[[Trouble], str], *, linked: bool) -> d.Box:
    items = tuple(_item(one, mend(one), linked=linked) for one in dict.fromkeys(found))
    return d.Box(kind, title, (d.Listing(items),))


def _item(trouble: Trouble, mend: str, *, linked: bool) -> d.Inline:
    anchor, name, words = trouble
    stop = " " if words.metric.endswith(".") else ". "
    more: d.Inline = (d.Text(stop), d.Strong(d.words(mend))) if mend else ()
    if not name:
        return (*d.words(words), *more)
    if anchor and linked:
        return (d.Link(f"#{anchor}", d.words(name)), d.Text(": "), *d.words(words), *more)
    return (d.Text(f"{name}: "), *d.words(words), *more)
