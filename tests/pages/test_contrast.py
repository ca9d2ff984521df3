"""Does ink stand out on every area of a drawing in the colours that the site really uses, light, dark and on paper?

WCAG 2.2: lettering 4.5 : 1 (1.4.3), lines and areas that must be told apart 3 : 1 against the ink (1.4.11).
"""

from __future__ import annotations

import itertools
import re
from importlib.resources import files

import pytest

BLOCKS = {
    "light": ("methodsheets.css", r"^body \{([^}]*)\}", "#ffffff"),
    "dark": ("methodsheets.css", r'^body\[data-md-color-scheme="slate"\] \{([^}]*)\}', "#1e2129"),
    "dark, a page on its own": ("methodsheets.css", r"\.ms-alone-body \{([^}]*)\}", ""),
    "bench sheet": ("sheet.css", r"^\.ms-sheet \{([^}]*)\}", ""),
    "printed": ("sheet.css", r"^  body, body\[data-md-color-scheme\][^{]*\{([^}]*)\}", ""),
}
"""Style sheet, its block, and the theme's own paper where the block leaves it to the theme."""
AREAS = ("paper", "tint", "jaw", "tool", "removed")


def luminance(colour: str) -> float:
    """Relative luminance after WCAG 2.2."""
    digits = colour[1:] if len(colour) == 7 else "".join(c * 2 for c in colour[1:])
    r, g, b = (int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4))
    r, g, b = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in (r, g, b))
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def ratio(a: str, b: str) -> float:
    low, high = sorted((luminance(a), luminance(b)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("scheme", BLOCKS)
def test_ink_stands_out_on_every_area(scheme: str) -> None:
    sheet, block, paper = BLOCKS[scheme]
    text = (files("methodsheets.pages") / "static" / sheet).read_text(encoding="utf-8")
    found = re.search(block, text, re.M)
    assert found, scheme
    colours = dict(re.findall(r"--ms-([a-z]+):\s*(#[0-9a-fA-F]{3,6})\b", found[1]))
    colours.setdefault("paper", paper)
    for area in AREAS:
        assert ratio(colours["ink"], colours[area]) >= 4.5, (scheme, area)
    greys = sorted(luminance(colours[area]) for area in ("paper", "tint", "tool"))
    assert all(b - a > 0.008 for a, b in itertools.pairwise(greys)), "areas differ on a photocopy"
