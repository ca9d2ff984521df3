"""How does a picture of a page become a file of its own?"""

from __future__ import annotations

import re

_HEAD = re.compile(r'<svg width="100%" viewBox="0 0 ([\d.]+) ([\d.]+)"')


def standalone(svg: str) -> str:
    """A whole SVG file of a picture that was made for a page: light colours, its size in millimetres.

    Gives '' for ''.
    """
    if not svg:
        return ""
    from methodfigures.palette import baked  # names of colours only; draws nothing

    sized = _HEAD.sub(r'<svg width="\1mm" height="\2mm" viewBox="0 0 \1 \2"', svg, count=1)
    return '<?xml version="1.0" encoding="utf-8"?>\n' + baked(sized) + "\n"
