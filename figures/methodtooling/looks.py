"""As what is a part of a holder or a tool shown? A look is a name: whoever draws gives it its colour and its line."""

from __future__ import annotations

from typing import Final

INK: Final = "ink"
"""Black all over."""
PAPER: Final = "paper"
"""Empty."""
TINT: Final = "tint"
"""Bodies of holders: chuck bodies, vices, tables, tailstocks."""
JAW: Final = "jaw"
"""Parts of holders that touch the work: jaws, collets, packing that is not black."""
TOOL: Final = "tool"
"""Cutting tools."""
