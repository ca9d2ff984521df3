"""What is to be told of a method only because there are others: a title that two have, a workshop left open?"""

from __future__ import annotations

from collections.abc import Iterator

from methodsheets.reading.problem import Place, Problem, Severity
from methodsheets.reading.slug import file_slug

from .plan import Plan, in_mind


def among_others(plan: Plan, slug: str) -> Iterator[Problem]:
    """Warnings about a method that hold as long as the other methods and workshops are there."""
    found = plan.library.methods[slug]
    twin = plan.library.methods[plan.first_titled[in_mind(found.title)]]
    if twin.slug != slug:
        yield Problem(
            place_of_key(found.path, found.text, "method"),
            f"two methods have the title `{found.title}` (the other is {twin.path})",
            "readers tell methods by their titles",
            "say in one of them what is different",
            Severity.WARNING,
            "two-of-a-title",
        )
    yield from _of_one_part(plan, slug)
    if not plan.notes[slug].workshop and len(plan.shops.digests) > 1:
        own = plan.own_workshop(slug)
        yield Problem(
            Place(found.path),
            f"the method does not say for which workshop it is written; `{own}` is taken",
            "of several workshops one is the author's own",
            f"write `workshop: {own}`, or another, at the head of the file",
            Severity.WARNING,
            "no-workshop",
        )


def _of_one_part(plan: Plan, slug: str) -> Iterator[Problem]:
    """Parts whose names are two, but one in addresses: their methods are compared as if it were one part."""
    part, found = plan.notes[slug].part, plan.library.methods[slug]
    first = plan.first_of_part[file_slug(part)] if part else slug
    other = plan.notes[first].part
    if other != part:
        yield Problem(
            place_of_key(found.path, found.text, "part"),
            f"the part `{part}` has the address of `{other}` (in {plan.library.methods[first].path})",
            "a part is known by its name in small letters without accents, and methods of one part are compared",
            "write its name alike in both, or give one of the parts another name",
            Severity.WARNING,
            "two-of-a-part",
        )


def place_of_key(path: str, text: str, wanted: str) -> Place:
    """The place of a key's value in the front matter; the beginning of the file where the key is not there."""
    for number, line in enumerate(text.split("\n"), 1):
        key, colon, value = line.partition(":")
        if colon and key.strip("\"' ") == wanted:
            return Place(path, number, len(key) + 2 + len(value) - len(value.lstrip()))
    return Place(path)
