"""Which markup of an author's prose may stand in a page? A safe list, kept by a sanitiser that others keep well.

What a reader of a stranger's method must not meet: scripts, styles, forms, frames, pictures fetched from elsewhere,
and names by which the page's own scripts find their places. What Markdown and its usual extensions make stays.
"""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from .written import spelt_out

_ID = re.compile(r"(?!ms-|__)[\w:.-]+|__(?:tabbed|span|codelineno)[-_]\d+(?:[-_]\d+)*")
"""Anchors; none of ours, and none that a theme's script looks for, beside those that extensions number."""

_ALIGNED = re.compile(r"text-align: ?(?:left|right|center);?")
_ELSEWHERE = re.compile(r"[a-z][a-z0-9+.-]*:|[/\\]{2}", re.I)
_UNSEEN = re.compile("[\x00-\x20]")
_THEME = frozenset({"md-button", "md-button--primary"})
"""The classes of the theme that prose may use; the others lay out the page around it."""

_EVERYWHERE = frozenset({"class", "id", "title", "lang", "dir", "role", "aria-label", "aria-hidden"})
_ATTRIBUTES = {
    "a": {"href", "target", "rel", "download"},
    "abbr": set(),
    "blockquote": {"cite"},
    "col": {"span"},
    "colgroup": {"span"},
    "del": {"datetime"},
    "details": {"open"},
    "img": {"src", "alt", "width", "height", "loading"},
    "input": {"type", "checked", "disabled", "name"},
    "ins": {"datetime"},
    "label": {"for"},
    "li": {"value"},
    "ol": {"start", "type", "reversed"},
    "path": {"d", "fill-rule"},
    "q": {"cite"},
    "svg": {"viewBox", "xmlns"},
    "td": {"colspan", "rowspan", "headers", "align", "style"},
    "th": {"colspan", "rowspan", "headers", "align", "scope", "style"},
    "time": {"datetime"},
}
_OURS = "data-ms-own"
"""Marks a place that is filled with what the program made; its value is a secret of the page."""


def safe_markup(html: str, places: frozenset[str] = frozenset()) -> str:
    """The markup of an author's prose, as far as it is safe.

    Parameters:
        html: what Markdown made of the author's text.
        places: values of `data-ms-own` that are real places; any other is taken away.
    """
    if "<" not in html:
        return html

    def keep(tag: str, name: str, value: str) -> str | None:
        if name == _OURS:
            return value if value in places else None
        checked = _CHECKED.get(name)
        return checked(tag, value) if checked else value

    cleaned: str = _cleaner()(html, keep)
    return spelt_out(cleaned)


@cache
def _cleaner() -> Any:
    import nh3

    tags = (nh3.ALLOWED_TAGS - {"map", "area"}) | {"input", "label", "svg", "path", "section"}
    attributes = {tag: set(names) for tag, names in _ATTRIBUTES.items()}
    attributes["*"] = {*_EVERYWHERE, _OURS, "data-search-exclude"}

    def clean(html: str, keep: Any) -> str:
        return nh3.clean(
            html,
            tags=tags,
            clean_content_tags={"script", "style", "template", "noscript", "iframe", "object"},
            attributes=attributes,
            attribute_filter=keep,
            link_rel=None,
            url_schemes={"http", "https", "mailto", "tel"},
        )

    return clean


def _class(tag: str, value: str) -> str | None:
    """Without classes of ours, of the page around the prose, and of the one that makes a theme fetch a drawer."""
    kept = [one for one in value.split() if one in _THEME or not one.lower().startswith(("ms-", "md-", "mermaid"))]
    return " ".join(kept) or None


def _id(tag: str, value: str) -> str | None:
    return value if _ID.fullmatch(value) else None


def _style(tag: str, value: str) -> str | None:
    return value if _ALIGNED.fullmatch(value.strip()) else None


def _source(tag: str, value: str) -> str | None:
    """A picture that lies in the handbook; a browser passes over blanks and takes backslashes for slashes."""
    return None if _ELSEWHERE.match(_UNSEEN.sub("", value)) else value


def _type(tag: str, value: str) -> str | None:
    return value if tag != "input" or value in ("checkbox", "radio") else "checkbox"


def _name(tag: str, value: str) -> str | None:
    return value if re.fullmatch(r"__tabbed_\d+", value) else None


def _target(tag: str, value: str) -> str | None:
    return value if value == "_blank" else None


_CHECKED = {
    "class": _class,
    "id": _id,
    "for": _id,
    "style": _style,
    "src": _source,
    "type": _type,
    "name": _name,
    "target": _target,
}
