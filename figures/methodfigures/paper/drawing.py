"""What does a figure function hand back: the finished drawing and what the overlap test found?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from methodfigures.paper.palette import LIGHT, baked

PREFIX = "ms-id"
"""Stands in front of every id inside a drawing until `inline` gives it one of its own."""


@dataclass(frozen=True)
class Drawing:
    """A finished drawing.

    `svg` is inline SVG whose colours are CSS custom properties; sizes in mm; `title` and `description` are also
    inside the SVG for readers who cannot see it; `clashes` lists every overlap found (empty: none).
    """

    svg: str
    width_mm: float
    height_mm: float
    title: str
    description: str
    clashes: tuple[str, ...] = field(default=())

    def inline(self, prefix: str) -> str:
        """The SVG for a page, its ids beginning with `prefix` (unique on that page)."""
        return self.svg.replace(PREFIX, prefix)

    def standalone(self, colours: Mapping[str, str] = LIGHT) -> str:
        """A whole SVG file: fixed colours, size in millimetres."""
        head = f'<svg width="{self.width_mm:g}mm" height="{self.height_mm:g}mm" '
        body = self.svg.replace('<svg width="100%" ', head, 1)
        return '<?xml version="1.0" encoding="utf-8"?>\n' + baked(body, colours) + "\n"
