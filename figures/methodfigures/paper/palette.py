"""Which colour does each part of a drawing have, on light and on dark paper?

A drawing names roles, never colours.  In a page every role becomes a CSS custom property with the light value as
its fall-back, so the page's own light and dark schemes decide; a drawing saved as a file has the light values baked in.
The greys differ enough in lightness to stay apart on a photocopy.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from methodtooling.looks import INK as INK
from methodtooling.looks import JAW as JAW
from methodtooling.looks import PAPER as PAPER
from methodtooling.looks import TINT as TINT
from methodtooling.looks import TOOL as TOOL

REMOVED: Final = "removed"
"""Metal that the operation takes away; always crossed by fine hatching as well."""

ROLES: Final = (INK, PAPER, TINT, JAW, TOOL, REMOVED)

LIGHT: Final[Mapping[str, str]] = {
    INK: "#000000",
    PAPER: "#ffffff",
    TINT: "#ededed",
    JAW: "#d6d6d6",
    TOOL: "#b8b8b8",
    REMOVED: "#dcdcdc",
}
DARK: Final[Mapping[str, str]] = {
    INK: "#e9e9ea",
    PAPER: "#1d2026",
    TINT: "#2b2f37",
    JAW: "#3a3f49",
    TOOL: "#5a606d",
    REMOVED: "#3d3a35",
}
_VARIABLE = re.compile(r"var\(--ms-([a-z]+),#[0-9a-f]{6}\)")


def variable(role: str) -> str:
    """The CSS value of a role in a page, with the light colour as fall-back."""
    return f"var(--ms-{role},{LIGHT[role]})"


def baked(svg: str, colours: Mapping[str, str] = LIGHT) -> str:
    """The same drawing with fixed `colours` (role to ``#rrggbb``) instead of custom properties."""
    return _VARIABLE.sub(lambda m: colours[m.group(1)], svg)
