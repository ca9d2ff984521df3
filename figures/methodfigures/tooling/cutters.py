"""Which tool hangs from the spindle of a mill or drilling machine, and how long is it drawn?

Parts in the frame of `tools`: s into the metal, r across; the tool's end is at s = 0, its axis is the frame's axis.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from methodfigures.paper.palette import JAW, TOOL
from methodfigures.tooling import fixtures, tools
from methodfigures.tooling.fixtures import Part, Parts, ring, symmetric

CUTTER_NAMES: Final[Mapping[str, str]] = {
    "face": "end mill",
    "step": "end mill",
    "slot": "slot drill",
    "pocket": "slot drill",
    "profile": "end mill",
    "vee": "vee cutter",
    "chamfer": "chamfer cutter",
    "drill": "drill",
    "bore": "boring head",
    "ream": "reamer",
    "tap": "tap",
    "centre": "centre drill",
    "counterbore": "counterbore",
    "countersink": "countersink",
    "flat": "end mill",
    "keyway": "slot drill",
    "graduate": "scriber",
    "cross-drill": "drill",
    "cross-ream": "reamer",
}
"""What the tool of a verb is called when the set-up gives no name."""
PLUNGING: Final = frozenset(
    {"drill", "bore", "ream", "tap", "centre", "counterbore", "countersink", "cross-drill", "cross-ream"}
)
"""Verbs whose tool is fed along its own axis."""


def vee_cutter(width: float, length: float, angle: float = 90.0, shank: float | None = None) -> Parts:
    """Pointed cutter of the included `angle` in degrees, its edges `width` mm across."""
    r, q = width / 2, (shank or width) / 2
    h = r / math.tan(math.radians(angle / 2))
    upper = [(0.0, 0.0), (-h, r), (-h - 0.5 * r, r), (-h - 0.5 * r, q), (-max(length, h + r), q)]
    lines = (ring([(-h, r), (-h, -r)]), ring([(0.0, 0.0), (-h, 0.35 * r)]), ring([(0.0, 0.0), (-h, -0.35 * r)]))
    return (Part("tool", symmetric(upper)[:-1], "tool", TOOL, detail=lines, level=tools.LEVEL, cuts=True),)


def boring_head(bore: float, length: float) -> Parts:
    """Boring head with its bar; the edge stands at r = −bore / 2."""
    r = bore / 2
    w = 0.32 * bore
    bar = [(0.0, -r), (-0.25 * w, -r + 0.4 * w), (-length, -r + 0.4 * w), (-length, r - w), (-0.0, r - w), (0.0, -r)]
    body = max(1.15 * r, r + 2)
    head = [(-length, body), (-length - 4 * body, body)]
    return (
        Part("tool", ring(bar), "tool", TOOL, level=tools.LEVEL, cuts=True),
        Part("holder", symmetric(head), "tool", JAW, level=tools.LEVEL - 0.1),
    )


def scriber(length: float, width: float) -> Parts:
    """Pointed tool that scribes lines and does not turn."""
    upper = [(0.0, 0.0), (-1.6 * width, width / 2), (-length, width / 2)]
    return (Part("tool", symmetric(upper)[:-1], "tool", TOOL, level=tools.LEVEL, cuts=True),)


def cutter_parts(
    verb: str, diameter: float, k: float, *, angle: float = 0.0, pitch: float = 0.0, pilot: float = 0.0
) -> Parts:
    """The tool of a verb; what is not given is a usual size, kept legible at the scale `k` (paper mm per mm)."""
    d = max(diameter, 0.2)
    if verb in ("drill", "cross-drill"):
        return _chucked(tools.twist_drill(d, min(max(18 / k, 1.2 * d), 24 / k), 3 / k, angle or 118.0), d / 2, 20, k)
    if verb in ("ream", "cross-ream"):
        return _chucked(tools.reamer(d, 14 / k, 7 / k), 0.8 * d / 2, 19, k)
    if verb == "tap":
        return _chucked(tools.tap(d, 12 / k, pitch or 0.15 * d, 8 / k), 0.8 * d / 2, 18, k)
    if verb == "centre":
        return _chucked(tools.centre_drill(pilot or 0.4 * d, d, 14 / k), d / 2, 14, k)
    if verb == "counterbore":
        p = pilot or 0.55 * d
        return _chucked(fixtures.moved(tools.counterbore(d, p, 15 / k), -0.9 * p), 0.35 * d, 15 + 0.9 * p * k, k)
    if verb == "countersink":
        return _chucked(vee_cutter(d, 15 / k, angle or 90.0, 0.6 * d), 0.3 * d, 15, k)
    if verb == "bore":
        return boring_head(d, 17 / k)
    if verb in ("vee", "chamfer"):
        return vee_cutter(d, 60 / k, angle or 90.0, min(max(0.5 * d, 3 / k), d))
    if verb == "graduate":
        return scriber(60 / k, 4 / k)
    shank = d if d * k <= 14 else max(0.55 * d, 9 / k)
    return tools.end_mill(d, min(max(1.3 * d, 9 / k), 15 / k), 90 / k, shank)


def _chucked(tool: Parts, shank: float, at: float, k: float) -> Parts:
    """The tool in a drill chuck whose mouth is `at` paper mm above the tool's end."""
    tip = fixtures.bounds(tool)[0]
    big = max(1.3 * shank, min(max(2.2 * shank + 5, 8 / k), 13 / k))
    mouth = min(at / k, -tip - 1e-6)
    return (*tool, *tools.drill_chuck(shank, mouth, big, 60 / k))
