"""Every colour that a drawing names has a value in each scheme of the site."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

from methodfigures.paper.palette import ROLES

SCHEMES = {
    "light": ("methodsheets.css", r"^body \{([^}]*)\}"),
    "dark": ("methodsheets.css", r'^body\[data-md-color-scheme="slate"\] \{([^}]*)\}'),
    "dark, a page on its own": ("methodsheets.css", r"\.ms-alone-body \{([^}]*)\}"),
    "bench sheet": ("sheet.css", r"^\.ms-sheet \{([^}]*)\}"),
}


@pytest.mark.parametrize("scheme", SCHEMES)
def test_each_role_of_a_drawing_has_a_colour_in_each_scheme(scheme: str) -> None:
    sheet, block = SCHEMES[scheme]
    text = (files("methodsheets.pages") / "static" / sheet).read_text(encoding="utf-8")
    found = re.search(block, text, re.M)
    assert found, f"{sheet} has no block for {scheme}"
    given = set(re.findall(r"--ms-([a-z]+):", found.group(1)))
    inherited = {"paper"} if scheme == "dark" else set()  # the page's own background, given once for both schemes
    assert set(ROLES) - inherited <= given
