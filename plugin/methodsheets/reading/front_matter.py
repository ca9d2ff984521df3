"""What does the front matter say the method is?"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from methodsheets.reading.limits import MADE_AT_ONCE
from methodsheets.reading.mapping import Entry, read_mapping
from methodsheets.reading.old_words import FRONT, renewed
from methodsheets.reading.problem import Place, Problems, did_you_mean, meant_by_its_help
from methodsheets.reading.text import Text

STATUS = ("draft", "proven", "retired")
MOST_MADE = MADE_AT_ONCE
PAGE_KEYS = frozenset(
    {
        "title",
        "description",
        "hide",
        "search",
        "template",
        "icon",
        "social",
        "comments",
        "boost",
        "subtitle",
        "nav_title",
        "robots",
        "render_macros",
        "authors",
        "categories",
        "rss",
        "exclude",
        "glightbox",
        "git_revision_date_localized",
        "git_creation_date_localized",
    }
)
"""Keys that belong to the page, its theme or another plugin of the site; they are passed on unread."""
FOREIGN = "x-"
"""So begins any other key that is none of ours."""


def is_of_the_page(key: str) -> bool:
    """Whether a key of the front matter is for the page, its theme or another plugin."""
    return key in PAGE_KEYS or key.startswith(FOREIGN)


@dataclass(frozen=True)
class FrontMatter:
    """The front matter of a method file; everything is still the author's words."""

    method: Text
    """Title of the method."""
    part: Text | None = None
    """Methods of one part are compared."""
    makes: Text | None = None
    """How many are made in one go; a whole number."""
    material: Text | None = None
    stock: Text | None = None
    workshop: Text | None = None
    status: Text | None = None
    """'draft', 'proven' or 'retired'."""
    revision: Text | None = None
    date: Text | None = None
    """YYYY-MM-DD."""
    author: Text | None = None
    summary: Text | None = None
    piece: Text | None = None
    """Name of the first workpiece, where the method makes several and joins them."""
    intended: Text | None = None
    """Name of the method or part file that says what the finished part is."""
    tags: tuple[Text, ...] = ()
    page: tuple[Entry, ...] = ()
    """Entries that belong to the page, not to the method."""
    place: Place | None = None


HELP = {
    "method": "Title of the method; it makes the file a method file.",
    "part": "Name of the part; methods of one part are compared.",
    "intended": "Method or part file that says what the finished part is.",
    "makes": "How many parts are made in one go: the quantity.",
    "material": "Material of the stock, by a name from the materials table.",
    "stock": "What the work is cut from: `round 40 mm x 18 mm`.",
    "piece": "Name of the first workpiece, where the method makes several and joins them.",
    "workshop": "Name of the workshop the method is written for.",
    "status": "draft, proven or retired.",
    "revision": "Revision of the method, a letter or a number.",
    "date": "Day of that revision, YYYY-MM-DD.",
    "author": "Who wrote it.",
    "summary": "One or two sentences for the index.",
    "tags": "Words to find the method by; a list.",
}
"""The keys of the front matter with what they mean, in the order of the guide; editors and `tidy` keep to it."""


def read_front_matter(lines: list[str], place: Place, problems: Problems) -> FrontMatter | None:
    """Read the lines between the `---` lines; None (and a problem) without the key `method`.

    place: that of the first of these lines.
    """
    before = len(problems)
    read = read_mapping("\n".join(lines), place, problems, nested=True, what="front matter")
    entries = renewed(read, FRONT, problems)
    words: dict[str, Text] = {}
    tags: tuple[Text, ...] = ()
    page = []
    for entry in entries:
        key = entry.key.value
        if is_of_the_page(key):
            page.append(entry)
        elif key == "tags":
            tags = entry.texts
        elif key in HELP:
            _take_words(entry, words, problems)
        else:
            problems.error(
                entry.key.place,
                f"unknown key `{key}` in the front matter",
                "",
                meant_by_its_help(key, HELP),
                code="unknown-key",
            )
    _check_words(words, problems)
    if "method" not in words:
        if len(problems) == before:
            problems.error(
                place,
                "the front matter does not name the method",
                "the key `method` gives its title",
                "write for instance `method: Guide bush, reamed`",
                code="no-title",
            )
        return None
    return FrontMatter(**words, tags=tags, page=tuple(page), place=place)


def _take_words(entry: Entry, words: dict[str, Text], problems: Problems) -> None:
    if not isinstance(entry.value, Text):
        problems.error(
            entry.key.place,
            f"`{entry.key.value}` is a list or a mapping",
            "it is one piece of words",
            "write it on one line",
            code="wrong-value",
        )
    elif entry.value:
        words[entry.key.value] = entry.value
    else:
        problems.error(
            entry.key.place,
            f"`{entry.key.value}` has no value",
            HELP[entry.key.value],
            "write it or take the key away",
            code="wrong-value",
        )


def _check_words(words: dict[str, Text], problems: Problems) -> None:
    makes = words.get("makes")
    if makes and not (re.fullmatch(r"[0-9]{1,6}", makes.value) and 1 <= int(makes.value) <= MOST_MADE):
        problems.error(
            makes.place,
            f"`makes` is not a number of parts (got {makes.value})",
            f"a whole number from 1 to {MOST_MADE:,}",
            "write for instance `makes: 5`",
            code="wrong-value",
        )
        del words["makes"]
    status = words.get("status")
    if status and status.value not in STATUS:
        problems.error(
            status.place,
            f"unknown status (got `{status.value}`)",
            f"it is {', '.join(STATUS[:-1])} or {STATUS[-1]}",
            did_you_mean(status.value, STATUS),
            code="wrong-value",
        )
        del words["status"]
    day = words.get("date")
    if day and not _is_day(day.value):
        problems.error(
            day.place,
            f"not a day (got {day.value})",
            "a date is YYYY-MM-DD",
            "write for instance 2026-11-25",
            code="wrong-value",
        )
        del words["date"]


def _is_day(words: str) -> bool:
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", words):
        return False
    try:
        date.fromisoformat(words)
    except ValueError:
        return False
    return True
