"""Cutting tools as plain polygons in true size, their cutting point at (0, 0).

Frame as in `fixtures.parts`: s runs into the metal (to the left on the sheet), r away from the operator.  Tools for
outside work stand below their point; tools that work along the axis lie in front of the face (s < 0).
"""

from __future__ import annotations

import math

import numpy as np

from methodtooling.fixtures.parts import Part, Parts, Ring, ring, symmetric
from methodtooling.looks import JAW, TINT, TOOL

LEVEL = 7.0


def _tool(points: list[tuple[float, float]] | Ring, name: str = "tool", detail: tuple[Ring, ...] = ()) -> Part:
    return Part(name, ring(points), "tool", TOOL, detail=detail, level=LEVEL, cuts=name == "tool")


def _rest(
    points: list[tuple[float, float]] | Ring, name: str = "holder", detail: tuple[Ring, ...] = (), role: str = JAW
) -> Part:
    return Part(name, ring(points), "tool", role, detail=detail, level=LEVEL - 0.1)


def knife(width: float = 10.0, length: float = 40.0, nose: float = 0.4, edge: float = 12.0, rake: float = 6.0) -> Parts:
    """Right-hand knife tool from above: cuts towards +s, side edge `edge` mm long, corner radius `nose`.

    The point at (0, 0) is the corner of the two edges' tangents, so the tool cuts to s = 0 and r = 0.
    """
    a, n = math.radians(rake), max(nose, 0.05)
    turn = np.linspace(0, math.pi / 2 + a, 8)
    arc = [(-n + n * math.cos(t), -n + n * math.sin(t)) for t in turn]
    back = 0.12 * width
    fall = (width - n) * math.tan(a)
    points = [*arc, (-width, -fall), (-width, -length), (back, -length), (back, -edge - 1.5 * back), (0.0, -edge)]
    f = 0.22 * width
    land = ring([(0.0, -edge), (-f, -edge), (-f, -n - 0.5 * f * math.tan(a))])
    return (_tool(points, detail=(land,)),)


def chamfer_tool(width: float = 10.0, length: float = 40.0, angle: float = 45.0) -> Parts:
    """Tool with a straight edge `angle` degrees to the axis; the middle of the edge is at (0, 0)."""
    h = width * 0.35
    t = math.tan(math.radians(angle))
    points = [(h, -h * t), (-h, h * t), (-width * 0.9, h * t * 0.8), (-width * 0.9, -length), (h, -length)]
    return (_tool(points),)


def round_nose(width: float = 10.0, length: float = 40.0, nose: float = 2.0) -> Parts:
    """Round-nosed tool for curves; the point at (0, 0) is the top of its nose."""
    n = min(nose, width / 2)
    arc = [(n * math.cos(t), -n + n * math.sin(t)) for t in np.linspace(math.radians(20), math.radians(160), 12)]
    w = width / 2
    deep = n + (w - n) * 2.2
    points = [(w, -deep), *arc, (-w, -deep), (-w, -length), (w, -length)]
    return (_tool(points),)


def threading_tool(width: float = 10.0, length: float = 40.0, depth: float = 2.0, angle: float = 60.0) -> Parts:
    """Pointed tool for screw threads of the flank `angle`; its point is at (0, 0), the vee is `depth` mm deep."""
    half = math.tan(math.radians(angle / 2))
    d = min(max(depth, 0.3 * width), width / (2 * half) * 0.95)
    w = width / 2
    right = [(-d * half, -d), (-w, -d - 0.3 * w), (-w, -length)]
    points = [(0.0, 0.0), *right, *[(-s, r) for s, r in right[::-1]]]
    return (_tool(points),)


def blade(width: float, reach: float, length: float = 40.0, stock: float = 8.0) -> Parts:
    """Parting or grooving blade; its edge runs from (0, 0) to (width, 0), `reach` = free length below the edge."""
    c = min(0.06 * width, 0.2)
    free = [(0.0, 0.0), (width, 0.0), (width - c, -reach), (c, -reach)]
    half = stock * 0.55
    block = [(-half, -reach), (-half, -length), (width + half, -length), (width + half, -reach)]
    return _tool(free), _rest(block)


def knurl(wheel: float = 20.0, width: float = 8.0, length: float = 40.0) -> Parts:
    """Knurling wheel seen from above, in its fork; it bears on the work at (0, 0) … (width, 0) by its rim."""
    lines = [ring([(s, 0.0), (s, -wheel)]) for s in np.linspace(0, width, 9)[1:-1]]
    rim = _tool([(0, 0), (width, 0), (width, -wheel), (0, -wheel)], detail=tuple(lines))
    t, low = 3.0, -wheel * 0.3
    fork = [
        (-t, low),
        (-t, -length),
        (width + t, -length),
        (width + t, low),
        (width, low),
        (width, -wheel * 1.15),
        (0, -wheel * 1.15),
        (0, low),
    ]
    pin = ring([(-t, -wheel / 2), (width + t, -wheel / 2)])
    return rim, _rest(fork, detail=(pin,))


def boring_bar(bore: float, length: float, diameter: float | None = None) -> Parts:
    """Boring bar along the axis for a bore of `bore` mm, its edge towards the operator.

    The point at (0, 0) lies on the bore's wall: move it to r = −bore/2.  The bar is `length` mm long.
    """
    d = diameter or 0.6 * bore
    h = max(0.02 * bore, min(0.26 * d, 0.9 * (bore - d)))
    y0, y1 = h, h + d
    points = [
        (0.0, 0.0),
        (-0.1 * h, y0),
        (-0.25 * h, y1),
        (-length, y1),
        (-length, y0),
        (-2.0 * h, y0),
        (-0.9 * h, 0.12 * h),
    ]
    flat = ring([(-2.0 * h, y0), (-2.6 * h, y0 + 0.5 * d), (-0.2 * h, y0 + 0.5 * d)])
    return (_tool(points, detail=(flat,)),)


MOST_TURNS = 60
"""Turns of a flute that are drawn; no drill that is sold has half so many, and more would lie on one another."""


def _helix(radius: float, start: float, end: float, lead: float) -> list[Ring]:
    """Flute edges of a fluted tool between s = −start and s = −end, as they show from one side; none of a hair."""
    out: list[Ring] = []
    if not end - start <= MOST_TURNS * lead:
        return out
    first = math.floor(2 * start / lead) - 2
    for i in range(first, math.ceil(2 * end / lead) + 1):
        for off in (0.0, 0.26):
            t = np.linspace(0, 1, 19)
            u, r = (i + off + t) * lead / 2, radius * np.cos(t * math.pi)
            m = (u >= start) & (u <= end)
            if m.sum() > 1:
                out.append(ring(np.c_[-u[m], r[m]]))
    return out


def twist_drill(diameter: float, flutes: float, shank: float = 0.0, point: float = 118.0) -> Parts:
    """Twist drill, its tip at (0, 0), with `flutes` mm of flute and `shank` mm of plain shank showing."""
    r = diameter / 2
    h = r / math.tan(math.radians(point / 2))
    end = max(flutes, h)
    edge = ring([(-end, r), (-end, -r)])
    points = symmetric([(0.0, 0.0), (-h, r), (-end - shank, r)])[:-1]
    lips = [q for q in _helix(r, h, end, 5.2 * diameter) if len(q) > 1]
    return (_tool(points, detail=(*lips, edge)),)


def centre_drill(pilot: float, body: float, length: float = 20.0) -> Parts:
    """Centre drill type A: pilot of `pilot` mm, 60 degree cone up to the `body` diameter in mm."""
    r0, r1 = pilot / 2, body / 2
    s0 = 0.6 * r0
    s1 = s0 + pilot
    s2 = s1 + (r1 - r0) / math.tan(math.radians(30))
    upper = [(0.0, 0.0), (-s0, r0), (-s1, r0), (-s2, r1), (-max(length, s2 + 1), r1)]
    cone = ring([(-s2, r1), (-s2, -r1)])
    return (_tool(symmetric(upper)[:-1], detail=(cone,)),)


def reamer(diameter: float, flutes: float, shank: float = 6.0) -> Parts:
    """Straight-fluted machine reamer, its lead at (0, 0)."""
    r = diameter / 2
    c = 0.15 * r
    upper = [(0.0, r - c), (-c, r), (-flutes, r), (-flutes, 0.8 * r), (-flutes - shank, 0.8 * r)]
    lines = tuple(ring([(-c, f * r), (-flutes, f * r)]) for f in (0.72, 0.25, -0.25, -0.72))
    return (_tool(symmetric(upper), detail=lines),)


def tap(diameter: float, thread: float, pitch: float, shank: float = 8.0) -> Parts:
    """Taper or plug tap, its lead at (0, 0), `thread` mm of thread of `pitch` mm shown by narrow lines."""
    r, core = diameter / 2, diameter / 2 - 0.61 * pitch
    lead = min(3 * pitch, 0.4 * thread)
    upper = [(0.0, core), (-lead, r), (-thread, r), (-thread - 0.4 * r, 0.8 * r), (-thread - shank, 0.8 * r)]
    flute = tuple(ring([(-lead * 0.3, f * r), (-thread, f * r)]) for f in (0.3, -0.3))
    ridges = np.arange(lead, thread, max(pitch, thread / 14))
    crest = tuple(ring([(-s, 0.3 * r), (-s + 0.2 * pitch, 0.97 * r)]) for s in ridges)
    below = tuple(ring([(-s, -0.97 * r), (-s + 0.2 * pitch, -0.3 * r)]) for s in ridges)
    return (_tool(symmetric(upper), detail=(*flute, *crest, *below)),)


def die(diameter: float, thread: float) -> Parts:
    """Round die in its tailstock holder, cut through the axis: it runs over a rod of `diameter` from s = 0."""
    r, outer = diameter / 2, max(1.6 * diameter, diameter + 10) / 2
    w = max(5.0, 0.5 * diameter)
    ring_upper = [(0.0, r + 0.25), (0.0, outer), (-w, outer), (-w, r), (-0.25, r)]
    case = [
        (1.0, outer),
        (1.0, outer + 4),
        (-w - 8, outer + 4),
        (-w - 8, 0.7 * outer),
        (-w - thread, 0.7 * outer),
        (-w - thread, r + 1.5),
        (-w, r + 1.5),
        (-w, outer),
    ]
    up = _tool(ring_upper)
    box = _rest(case, "die holder")
    return up, up.flipped(), box, box.flipped()


def counterbore(diameter: float, pilot: float, length: float = 20.0) -> Parts:
    """Piloted counterbore; its face is at s = 0, the pilot of `pilot` mm reaches on into the hole."""
    r, p = diameter / 2, pilot / 2
    head = -0.8 * diameter
    upper = [
        (0.9 * pilot, 0.7 * p),
        (0.8 * pilot, p),
        (0.0, p),
        (0.0, r),
        (head, r),
        (head, 0.7 * r),
        (-max(length, diameter), 0.7 * r),
    ]
    lines = tuple(ring([(0.0, f * r), (-0.8 * diameter, 0.8 * f * r)]) for f in (0.6, -0.6))
    return (_tool(symmetric(upper), detail=lines),)


def end_mill(diameter: float, flutes: float, length: float, shank: float | None = None) -> Parts:
    """End mill whose axis is the axis of the frame, end face at s = 0."""
    r, q = diameter / 2, (shank or diameter) / 2
    taper = abs(r - q)
    upper = [(0.0, r), (-flutes, r), (-flutes - taper, q), (-max(length, flutes + taper + 1), q)]
    edge = ring([(-flutes, r), (-flutes, -r)])
    return (_tool(symmetric(upper), detail=(*_helix(r, 0.0, flutes, 3.6 * diameter), edge)),)


def drill_chuck(shank: float, at: float, radius: float | None = None, length: float = 60.0) -> Parts:
    """Drill chuck on a shank of radius `shank`, its jaws' mouth at s = −`at`; `radius` of its body in mm."""
    big = radius or max(1.35 * shank, min(2.2 * shank + 5, 25.0))
    c = 0.55 * big
    upper = [(-at, max(0.55 * big, shank)), (-at - c, 0.8 * big), (-at - c, big), (-at - c - length, big)]
    lines = (ring([(-at - c, big), (-at - c, -big)]), ring([(-at - 1.8 * c, big), (-at - 1.8 * c, -big)]))
    return (_rest(symmetric(upper), "drill chuck", lines, TINT),)
