"""What may a page run and fetch? The policy that a browser holds it to, should a fault let markup through.

It stands in the page itself, so that it holds on a server and for a file opened from a memory stick alike.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from html import escape
from html.parser import HTMLParser

POLICY = "in every made page: no script but those of the site"
LEFT_OUT = "left out (`policy: false` or `trust_authors`)"
NO_POLICY = "none: this host gives no way to write one into a page; let the server send it"
"""What the page of the handbook's health says of the policy."""

_CHARSET = re.compile(r"<meta\s[^>]*charset=[^>]*>|<head(?:\s[^>]*)?>", re.I)
_DATA = re.compile(r".+/.+")
_SCRIPT_TYPES = frozenset({"text/javascript", "application/javascript"})
_OUTSIDE = re.compile(r"(?:https?:)?//", re.I)
_IN_SOURCE = re.compile(r"[\w:/.@~%!*+=&-]+")


@dataclass
class Wanted:
    """What the page around the content asks for: its own scripts by their digest, and what it fetches from outside."""

    inline: list[str] = field(default_factory=list)
    scripts: list[str] = field(default_factory=list)
    pictures: list[str] = field(default_factory=list)


class _Reader(HTMLParser):
    """Notes scripts and pictures."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found = Wanted()
        self._said: list[str] | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag == "script":
            kind = given.get("type", "").strip().lower()
            runs = not _DATA.fullmatch(kind) or kind in _SCRIPT_TYPES
            if "src" in given:
                self._outside(given["src"], self.found.scripts)
            elif runs:
                self._said = []
        elif tag == "img":
            self._outside(given.get("src", ""), self.found.pictures)
        elif tag == "link" and "icon" in given.get("rel", ""):
            self._outside(given.get("href", ""), self.found.pictures)

    def handle_data(self, data: str) -> None:
        if self._said is not None:
            self._said.append(data)

    def handle_endtag(self, tag: str) -> None:
        if tag == "script" and self._said is not None:
            self.found.inline.append(digest("".join(self._said)))
            self._said = None

    @staticmethod
    def _outside(address: str, into: list[str]) -> None:
        plain = address.strip().split("?")[0].split("#")[0]
        if _OUTSIDE.match(plain) and _IN_SOURCE.fullmatch(plain):
            into.append(plain)


def wanted_by(html: str) -> Wanted:
    """What a page asks for."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return reader.found


def digest(script: str) -> str:
    """A script as a policy names it."""
    made = hashlib.sha256(script.replace("\r\n", "\n").encode("utf-8", "surrogatepass")).digest()
    return f"'sha256-{base64.b64encode(made).decode('ascii')}'"


def policy(wanted: Wanted, *, live: bool = False) -> str:
    """The policy of a page of a site: its own files, and what the page around the content asks for.

    live: a host that serves what is being written puts its script for loading again into each page, another every
        time, which cannot be named: scripts within the page run then. A name beside that leave would cancel it.
    """
    own = "'self' file:"
    within = ["'unsafe-inline'"] if live else wanted.inline

    def listed(several: Iterable[str]) -> str:
        return " ".join(dict.fromkeys(several))

    rules = (
        f"script-src {own} {listed([*within, *wanted.scripts])}",
        f"img-src {own} data: blob: {listed(wanted.pictures)}",
        f"media-src {own} data: blob:",
        f"frame-src {own}",
        f"form-action {own}",
        "object-src 'none'",
        "base-uri 'none'",
    )
    return "; ".join(rule.strip() for rule in rules)


def lone_policy(*scripts: str, live: bool = False) -> str:
    """The policy of a page that travels alone: its scripts, its own pictures, and nothing from anywhere.

    live: the server that loads it again puts a script into it, which asks that server (see `policy`).
    """
    runs = "'unsafe-inline'; connect-src 'self'" if live else " ".join(map(digest, scripts))
    return (
        f"default-src 'none'; script-src {runs}; style-src 'unsafe-inline'; img-src data: blob:;"
        " font-src data:; form-action 'none'; base-uri 'none'"
    )


def with_policy(html: str, rules: str) -> str:
    """The page with its policy, in front of everything that could run."""
    element = f'<meta http-equiv="Content-Security-Policy" content="{escape(rules, quote=True)}">'
    first = _CHARSET.search(html)
    return html if first is None else html[: first.end()] + element + html[first.end() :]
