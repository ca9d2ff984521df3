"""Which stylesheet and which script do the pages use? One of each, read from files of this package."""

from __future__ import annotations

import base64
import json
import re
from collections.abc import Iterable, Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from methodsheets.sheet.model import Method

from .bench import footer_words
from .switches import stylesheet

STYLE_URI = "assets/methodsheets/methodsheets.css"
SCRIPT_URI = "assets/methodsheets/methodsheets.js"
SCRIPT_PARTS = (
    "memory",
    "later",
    "units",
    "workshop",
    "sheet",
    "measured",
    "records",
    "large",
    "view",
    "paper",
    "find",
    "list",
    "ages",
    "listen",
    "begin",
)
"""The files of the script, one for each job, in the order in which they are joined."""

_SCRIPT_HEAD = """\
/* Method Sheets: one script for all pages. It only adds comfort: every page is complete without it.
   Works from the file system, needs no network, and may be loaded by a theme that exchanges pages in place. */
(function () {
"use strict";
if (window.methodSheets === true) return;
window.methodSheets = true;

"""
_SCRIPT_FOOT = "})();\n"
FROM_DISK_URI = "assets/methodsheets/iframe-worker.js"


@cache
def _text(name: str) -> str:
    return (files("methodsheets.pages") / "static" / name).read_text(encoding="utf-8")


def lone_style(workshops: Iterable[str]) -> str:
    """The stylesheet of a file that travels alone."""
    return style(workshops) + _text("alone.css")


def style(workshops: Iterable[str]) -> str:
    """The stylesheet, with the rules for the switch between these workshops."""
    return (
        font_faces()
        + _text("methodsheets.css")
        + _text("sheet.css")
        + _text("view.css")
        + card_rules(_text("card.css"))
        + stylesheet(workshops)
    )


FONTS = {"100 599": "barlow-semi-condensed-latin-500-normal", "600 900": "barlow-semi-condensed-latin-700-normal"}
"""The files of our lettering, by the weights that each stands for; their licence lies beside them."""

NEAR = (
    ("Method Sheets Near", "100 599", ("Arial", "Liberation Sans", "Roboto", "Helvetica"), 87.0),
    ("Method Sheets Near", "600 900", ("Arial Bold", "Liberation Sans Bold", "Roboto Bold", "Helvetica Bold"), 83.0),
    ("Method Sheets Wide", "100 599", ("DejaVu Sans", "Verdana"), 75.9),
    ("Method Sheets Wide", "600 900", ("DejaVu Sans Bold", "Verdana Bold"), 69.7),
)
"""Common faces drawn in, in percent, to the width of our lettering: they hold its place for the moment until it has
come, so that few lines are broken anew. DejaVu was measured on sentences of ours, Arial follows from the mean widths
that the two files tell of themselves (from memory)."""
ABOVE, BELOW = 100.0, 20.0
"""Our lettering reaches so far above and below its line, in percent of its size."""


@cache
def font_faces() -> str:
    """The lettering of pages and sheets, within the stylesheet: browsers fetch no font file from a memory stick."""
    rules = ["/* Barlow Semi Condensed, Copyright 2017 The Barlow Project Authors, SIL Open Font License 1.1. */"]
    for weight, name in FONTS.items():
        data = (files("methodsheets.pages") / "static" / "font" / f"{name}.woff2").read_bytes()
        rules.append(
            f'@font-face{{font-family:"Method Sheets";font-weight:{weight};font-display:block;'
            f'src:url(data:font/woff2;base64,{base64.b64encode(data).decode("ascii")}) format("woff2")}}'
        )
    for family, weight, names, wide in NEAR:
        sources = ",".join(f'local("{name}")' for name in names)
        rules.append(
            f'@font-face{{font-family:"{family}";font-weight:{weight};src:{sources};size-adjust:{wide}%;line-gap-override:0%;'
            f"ascent-override:{ABOVE / wide * 100:.1f}%;descent-override:{BELOW / wide * 100:.1f}%}}"
        )
    return "\n".join([*rules, ""])


def card_rules(text: str) -> str:
    """The rules of a small sheet, for narrow paper and for a reader who chose it, whatever the printer is set to.

    Parameters:
        text: one rule a line, `selector, selector { … }`.
    """
    rules = [line for line in text.splitlines() if line.endswith("}")]
    chosen = [_within(':where(:root[data-ms-paper="a5"])', rule) for rule in rules]
    return "\n".join(["@media print and (max-width: 150mm) {", *rules, "}", "@media print {", *chosen, "}", ""])


def _within(outer: str, rule: str) -> str:
    selectors, brace, body = rule.partition("{")
    return ", ".join(f"{outer} {one.strip()}" for one in selectors.split(",")) + f" {brace}{body}"


def script(units: str = "metric", workshops: Mapping[str, str] = MappingProxyType({})) -> str:
    """The script.

    Parameters:
        units: 'metric' or 'inch', what readers see until they choose.
        workshops: the units of each workshop by its key; a reader who chose a workshop but no units thinks in its own.
    """
    parts = "\n".join(_text(f"script/{name}.js") for name in SCRIPT_PARTS)
    text = f"{_SCRIPT_HEAD}{parts}{_SCRIPT_FOOT}".replace('"{{units}}"', json.dumps(units))
    return text.replace('"{{workshops}}"', json.dumps(dict(workshops), sort_keys=True))


@cache
def first_script() -> str:
    """What a page runs before anything of it is seen; it stands in the head, behind the stylesheet."""
    return _text("script/first.js")


def with_first_script(html: str) -> str:
    """A whole page with it, at the end of its head."""
    return html.replace("</head>", f"<script>{first_script()}</script></head>", 1)


def search_from_disk() -> str:
    """The script that lets the theme search a handbook opened from a disk."""
    return _text("iframe-worker.js")


def page_style(method: Method) -> str:
    """Rules that print what identifies a sheet at the foot of every page of it."""
    look = ";font:8pt 'Method Sheets',system-ui,sans-serif;color:#000"
    words = css_words(footer_words(method))
    return (
        f"@page{{@bottom-left{{content:{words}{look}}}"
        f'@bottom-right{{content:counter(page) " / " counter(pages){look}}}}}'
    )


def css_words(words: str) -> str:
    """Words within a stylesheet: in quotes, every sign that could end them spelt by its number."""
    return '"' + re.sub(r"[^\w ·.,-]", lambda found: f"\\{ord(found.group()):x} ", words) + '"'
