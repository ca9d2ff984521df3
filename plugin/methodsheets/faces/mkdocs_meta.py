"""What may the front matter of a method tell the host? What has the form that a host expects, and nothing more.

A method that lies among the site's own pages hands its front matter to the host and its theme, and that of a stranger
may hold anything: markup in a title, a list where the theme reads a mapping, the name of a template that is not there.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from mkdocs.utils.meta import get_data

from methodsheets.pages.host_words import host_meta
from methodsheets.reading.front_matter import is_of_the_page

_FILE = re.compile(r"[\w-]+(?:/[\w-]+)*(?:\.[\w-]+)*")


def for_the_page(source: str) -> dict[str, Any]:
    """What the front matter of a method file says to its page, the theme and other plugins."""
    _, meta = get_data(source)
    return {key: value for key, value in meta.items() if is_of_the_page(str(key))}


def told(meta: Mapping[str, Any], theme: Iterable[str]) -> tuple[dict[str, Any], list[str]]:
    """The front matter as the host may have it, and the keys that are left out.

    Parameters:
        theme: the folders of the theme's templates.
    """
    folders = [Path(folder) for folder in theme]

    def is_there(name: Any, ending: str, below: str) -> bool:
        fits = isinstance(name, str) and bool(_FILE.fullmatch(name))
        return fits and any((folder / below / f"{name}{ending}").is_file() for folder in folders)

    forms: dict[str, Callable[[Any], bool]] = {
        **_FORMS,
        "template": lambda value: is_there(value, "", ""),
        "icon": lambda value: is_there(value, ".svg", ".icons"),
    }
    wrong = [key for key, value in meta.items() if key in forms and value is not None and not forms[key](value)]
    kept = {key: value for key, value in meta.items() if key not in wrong and value is not None}
    return host_meta(kept), wrong


def _is_text(value: Any) -> bool:
    return isinstance(value, str | int | float)


def _is_truth(value: Any) -> bool:
    return isinstance(value, bool)


def _are_words(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(one, str | int | float) for one in value)


def _is_search(value: Any) -> bool:
    """`exclude` is a truth value and `boost` a number; a theme reads nothing else."""
    known: dict[str, type | tuple[type, ...]] = {"exclude": bool, "boost": (int, float)}
    return isinstance(value, dict) and all(isinstance(said, known.get(key, ())) for key, said in value.items())


_FORMS: dict[str, Callable[[Any], bool]] = {
    "title": _is_text,
    "description": _is_text,
    "subtitle": _is_text,
    "nav_title": _is_text,
    "robots": _is_text,
    "comments": _is_truth,
    "boost": lambda value: isinstance(value, int | float),
    "hide": _are_words,
    "tags": _are_words,
    "search": _is_search,
    "social": lambda value: isinstance(value, dict),
}
