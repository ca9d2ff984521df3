"""How does a picture of a page become a file of its own?"""

from __future__ import annotations

import re

_HEAD = re.compile(r'<svg width="100%" viewBox="0 0 ([\d.]+) ([\d.]+)"')
_COLOUR = re.compile(r"var\(--ms-[a-z-]+,\s*(#[0-9a-f]{3,8})\)")


def standalone(svg: str) -> str:
    """A whole SVG file of a picture that was made for a page: light colours, its size in millimetres.

    In a page every colour is one of the page's own, with the light one to fall back on; that one is taken.
    Gives '' for ''.
    """
    if not svg:
        return ""
    sized = _HEAD.sub(r'<svg width="\1mm" height="\2mm" viewBox="0 0 \1 \2"', svg, count=1)
    return '<?xml version="1.0" encoding="utf-8"?>\n' + _COLOUR.sub(r"\1", sized) + "\n"
