"""How does a reader choose their workshop and their units? Radio buttons that work with and without scripts."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from . import document as d


class Named(Protocol):
    """A workshop as far as a switch needs it."""

    @property
    def key(self) -> str:
        """Its key."""
        ...

    @property
    def name(self) -> str:
        """Its name."""
        ...


def switches(
    workshops: Iterable[Named],
    own: str,
    *,
    units: bool = True,
    one_author: bool = True,
    failing: Iterable[str] = (),
    changing: Iterable[str] = (),
) -> d.Group:
    """The two switches of a page.

    Parameters:
        workshops: all workshops the page is worked out for; a single one needs no switch.
        own: the one that shows until the reader chooses.
        units: whether to offer inches.
        one_author: whether `own` is the author's workshop; a page about many methods has many authors.
        failing: keys of the workshops in which the method does not work.
        changing: keys of those in which it works with changes.
    """
    shops = tuple(workshops)
    states = dict.fromkeys(changing, "works with changes") | dict.fromkeys(failing, "does not work there")
    parts: list[d.Block] = []
    if len(shops) > 1:
        choices = tuple(
            d.Choice(
                "workshop",
                shop.key,
                _named(shop, author=one_author and shop.key == own, state=states.get(shop.key, "")),
                shop.key == own,
            )
            for shop in shops
        )
        elsewhere = (d.Elsewhere(tuple((one.value, one.words) for one in choices)),) if one_author else ()
        parts.append(_set("My workshop", choices, "workshops", elsewhere))
    if units:
        choices = (d.Choice("units", "metric", "mm", True), d.Choice("units", "inch", "inch"))
        parts.append(_set("Units", choices, "units script"))
    attributes = (("data-ms-own", own), ("data-search-exclude", ""))
    return d.Group("switches", tuple(parts), attributes=attributes)


def _named(shop: Named, *, author: bool, state: str) -> str:
    said = ["author’s"] * author + [state] * bool(state)
    return f"{shop.name} ({', '.join(said)})" if said else shop.name


def _set(legend: str, choices: tuple[d.Choice, ...], kind: str, more: d.Blocks = ()) -> d.Group:
    content = (d.Paragraph(d.words(legend), kind="legend"), d.Paragraph(choices, kind="choices"), *more)
    return d.Group(f"switch {kind}", content, tag="fieldset")


def stylesheet(keys: Iterable[str]) -> str:
    """The rules that show what is for the chosen workshop and hide the rest; needs no script.

    Without a choice the author's workshop shows. A radio button chosen on the page counts; a script only keeps it.
    """
    rules = ["@supports not selector(:has(*)){:root:not([data-ms-workshop]) .ms-other{display:none}}"]
    for key in sorted(keys):
        name = key.replace("\\", "").replace('"', "")
        hidden = f'[data-ms-for]:not([data-ms-for~="{name}"]){{display:none!important}}'
        rules.append(f':root:has(input[name=ms-workshop][value="{name}"]:checked) {hidden}')
        rules.append(f':root[data-ms-workshop="{name}"] {hidden}')
    return "\n".join(rules) + "\n"
