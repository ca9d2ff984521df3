"""Does a class that a script gives mean one thing? One name for two things lets the rules of either spoil the other."""

import re
from pathlib import Path

from methodsheets.pages import document

PAGES = Path(document.__file__).parent
SHARED = {"ms-other"}
"""Classes that a script gives to what the pages have too, on purpose."""


def given_by_scripts() -> set[str]:
    scripts = (path.read_text("utf-8") for path in sorted((PAGES / "static" / "script").glob("*.js")))
    said = (names for text in scripts for names in re.findall(r'className = "([^"]+)"', text))
    return {name for names in said for name in names.split() if name.startswith("ms-")}


def kinds_of_pages() -> set[str]:
    made = (path.read_text("utf-8") for path in sorted(PAGES.glob("*.py")))
    said = (kinds for text in made for kinds in re.findall(r'(?:kind=|Group\(|Span\()"([a-z -]+)"', text))
    return {f"ms-{kind}" for kinds in said for kind in kinds.split()}


def test_scripts_and_pages_do_not_share_a_name() -> None:
    assert len(given_by_scripts()) > 3
    assert len(kinds_of_pages()) > 30
    assert given_by_scripts() & kinds_of_pages() - SHARED == set()
