"""Is this file meant to be a method, though its front matter does not say so? A slip must not make a method vanish."""

from __future__ import annotations

import difflib
import re

from methodsheets.reading.front_matter import HELP
from methodsheets.reading.markdown import scan
from methodsheets.reading.problem import Place, Problem
from methodsheets.reading.source import Source

KINDS = ("calc", "setup", "op", "part")
"""The fenced blocks of a method file."""

_FENCE = re.compile(r"^[ \t]*(?:`{3,}|~{3,})[ \t]*(?:calc|setup|op|part)[ \t]*$", re.MULTILINE)
_KEY = re.compile(r"[ \t]*([A-Za-z_]+)[ \t]*(:|$)")
_RULE = "a method file begins with `---`, its keys with `method:` among them, and `---`"


def slip(source: Source) -> Problem | None:
    """What hinders a file with blocks of ours from being a method; None where it has none, or shows them only."""
    if not _FENCE.search(source.text):
        return None
    blocks = [one for one in scan(source.text).fences if one.info in KINDS and not one.quoted]
    if not blocks:
        return None
    line, found, remedy = _reason(source.text.split("\n"))
    what = f"the file has blocks of a method (`{blocks[0].info}` on line {blocks[0].line}) and is none: {found}"
    return Problem(Place(source.path, line), what, _RULE, remedy, code="no-method")


def _reason(lines: list[str]) -> tuple[int, str, str]:
    """Line, what is wrong with it, what to do."""
    first = next((number for number, line in enumerate(lines) if line.strip()), 0)
    mark = lines[first].strip()
    if not re.fullmatch(r"-{2,}|—+|–+", mark):
        return first + 1, "it has no front matter", "write `---`, `method: its title` and `---` above everything else"
    if mark != "---" or lines[first] != lines[first].lstrip():
        return (
            first + 1,
            f"its first line is not `---` (got `{lines[first].rstrip()}`)",
            "write three hyphens, no blank",
        )
    if first:
        return 1, "there is an empty line in front of the front matter", "take away what stands above `---`"
    for number, line in enumerate(lines[1:], 2):
        if line.strip() in ("---", "..."):
            break
        key = _KEY.match(line)
        if key and key[1] not in HELP and difflib.get_close_matches(key[1].lower(), ["method"], cutoff=0.6):
            return number, f"`{key[1]}` is not the key `method`", "write `method:` and its title"
        if key and key[1] == "method":
            return number, "`method` has no colon, or stands too far to the right", "write `method:` and its title"
    return 1, "its front matter has no key `method`", "write `method:` and its title"
