"""Which tool hangs from the spindle of a mill or drilling machine, and how long is it drawn?

Parts in the frame of `tools`: s into the metal, r across; the tool's end is at s = 0, its axis is the frame's axis.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from methodtooling import fixtures, tools
from methodtooling.fixtures import Part, Parts, ring, symmetric
from methodtooling.looks import JAW, TOOL

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
    "round": "end mill",
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


def t_slot_cutter(head: float, high: float, neck: float, reach: float, length: float) -> Parts:
    """T-slot cutter: its teeth `head` mm across and `high` mm tall on a neck `reach` mm long, then the shank."""
    r, n = head / 2, neck / 2
    shank = max(n * 1.25, 0.5 * r)
    upper = [(0.0, r), (-high, r), (-high, n), (-reach, n), (-reach, shank), (-length, shank)]
    teeth = tuple(ring([(0.0, x), (-high, x + 0.15 * r)]) for x in (-0.6 * r, -0.1 * r, 0.4 * r))
    return (Part("tool", symmetric(upper), "tool", TOOL, detail=teeth, level=tools.LEVEL, cuts=True),)


def dovetail_cutter(wide: float, high: float, angle: float, length: float) -> Parts:
    """Dovetail cutter: `wide` mm across at its end, flanks `angle` degrees to its end, `high` mm tall."""
    r = wide / 2
    n = max(r - high / math.tan(math.radians(angle)), 0.25 * r)
    upper = [
        (0.0, r),
        (-high, n),
        (-high - 0.3 * r, n),
        (-high - 0.3 * r, max(n, 0.55 * r)),
        (-length, max(n, 0.55 * r)),
    ]
    teeth = tuple(ring([(0.0, x * r), (-high, x * n)]) for x in (-0.6, 0.0, 0.6))
    return (Part("tool", symmetric(upper), "tool", TOOL, detail=teeth, level=tools.LEVEL, cuts=True),)


def face_mill(diameter: float, length: float, *, teeth: bool) -> Parts:
    """Body of a face mill with its `teeth`, or of a fly cutter with its one tool, on an arbor."""
    r = diameter / 2
    tall, tip = 0.35 * diameter, 0.08 * diameter
    body = symmetric([(-tip, 0.92 * r), (-tall, 0.92 * r), (-tall, 0.4 * r), (-length, 0.4 * r)])
    at = (-1.0, -0.35, 0.35, 1.0) if teeth else (-1.0,)
    bits = [
        ring([(0.0, x * r), (-1.8 * tip, x * r), (-1.8 * tip, x * r - tip * x), (0.0, x * r - tip * x)]) for x in at
    ]
    edges = tuple(Part("tool", bit, "tool", TOOL, level=tools.LEVEL + 0.05, cuts=True) for bit in bits)
    return (Part("tool", body, "tool", JAW, level=tools.LEVEL), *edges)


def rounding_cutter(diameter: float, radius: float, length: float) -> Parts:
    """Corner-rounding cutter: a quarter circle of `radius` out of each side of its end."""
    r, n = diameter / 2, max(diameter / 2 - radius, 0.1 * diameter)
    bow = [
        (-radius + radius * math.cos(a), n + radius - radius * math.sin(a))
        for a in (math.pi / 12 * i for i in range(7))
    ]
    upper = [(0.0, n), *[(s, q) for s, q in reversed(bow)], (-radius - 0.4 * r, r), (-length, r)]
    return (Part("tool", symmetric(upper), "tool", TOOL, level=tools.LEVEL, cuts=True),)


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


ARBOR: Final = 16.0
"""Diameter of a usual arbor for form cutters and slitting saws of about 50 mm, mm (from memory)."""
COLLAR: Final = 24.0


def disc_edge(diameter: float, thick: float, deep: float, arbor: tuple[float, float]) -> Parts:
    """Cutter on an arbor, seen along its plane: its tip at s = 0 narrows over `deep` mm to the form of a gap.

    `thick` of its body, mm; `arbor` = from and to of the shaft, in r; 0 `deep` is a saw with parallel sides.
    """
    half, bore, tip = thick / 2, -diameter / 2, thick / 2 if deep <= 0 else 0.28 * thick
    body = symmetric([(0.0, tip), (-deep, half), (-diameter + deep, half), (-diameter, tip)])
    low, high = arbor
    shaft = ring([(bore - ARBOR / 2, low), (bore + ARBOR / 2, low), (bore + ARBOR / 2, high), (bore - ARBOR / 2, high)])
    collars = [ring([(bore - COLLAR / 2, a), (bore + COLLAR / 2, a), (bore + COLLAR / 2, b), (bore - COLLAR / 2, b)])
               for a, b in ((-half - 6.0, -half), (half, half + 6.0))]  # fmt: skip
    behind = (Part("arbor", shaft, "tool", JAW, level=tools.LEVEL - 0.2),
              *(Part("arbor", one, "tool", JAW, level=tools.LEVEL - 0.1) for one in collars))  # fmt: skip
    return (*behind, Part("tool", body, "tool", TOOL, level=tools.LEVEL, cuts=True))


def disc_face(diameter: float, teeth: int = 12) -> Parts:
    """The same cutter seen along its arbor: a notched disc, its lowest point at s = 0."""
    r, middle = diameter / 2, -diameter / 2
    turns = [2 * math.pi * i / teeth for i in range(teeth)]
    notched = [(middle + q * math.cos(a + b), q * math.sin(a + b))
               for a in turns for q, b in ((r, 0.0), (r, 0.3), (0.84 * r, 0.34), (0.9 * r, 0.48))]  # fmt: skip
    hole = [(middle + ARBOR / 2 * math.cos(a), ARBOR / 2 * math.sin(a)) for a in (math.pi / 18 * i for i in range(36))]
    return (Part("tool", ring(notched), "tool", TOOL, level=tools.LEVEL, cuts=True),
            Part("arbor", ring(hole), "tool", JAW, level=tools.LEVEL + 0.1))  # fmt: skip


def cutter_parts(
    verb: str,
    diameter: float,
    k: float,
    *,
    angle: float = 0.0,
    pitch: float = 0.0,
    pilot: float = 0.0,
    kind: str = "",
    high: float = 0.0,
    neck: float = 0.0,
    reach: float = 0.0,
) -> Parts:
    """The tool of a verb; what is not given is a usual size, kept legible at the scale `k` (paper mm per mm).

    `kind` names a cutter of a shape of its own ("t-slot-cutter" …); `high` is the height of its teeth or its radius,
    `neck` what is above them, `reach` how deep it goes.
    """
    d = max(diameter, 0.2)
    own = _own_shape(kind, d, high, neck, reach, angle=angle, length=90 / k)
    if own:
        return own
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


def _own_shape(
    kind: str, d: float, high: float, neck: float, reach: float, angle: float, length: float
) -> Parts | None:
    """A cutter that looks like no other; None for those that the verb alone decides."""
    if kind == "t-slot-cutter":
        tall = high or 0.4 * d
        return t_slot_cutter(
            d, tall, 0.94 * neck if 0 < neck < d else 0.5 * d, max(reach, tall) + 0.15 * d, length=length
        )
    if kind == "dovetail-cutter":
        return dovetail_cutter(d, high or 0.3 * d, angle or 60.0, length)
    if kind in ("face-mill", "fly-cutter"):
        return face_mill(d, length, teeth=kind == "face-mill")
    if kind == "corner-rounding":
        return rounding_cutter(d, high or 0.2 * d, length)
    return None


def _chucked(tool: Parts, shank: float, at: float, k: float) -> Parts:
    """The tool in a drill chuck whose mouth is `at` paper mm above the tool's end."""
    tip = fixtures.bounds(tool)[0]
    big = max(1.3 * shank, min(max(2.2 * shank + 5, 8 / k), 13 / k))
    mouth = min(at / k, -tip - 1e-6)
    return (*tool, *tools.drill_chuck(shank, mouth, big, 60 / k))
