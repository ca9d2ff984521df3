"""Standing set-ups by chance: blocks in the vice, round work on the rotary table and in a vee block."""

from __future__ import annotations

import math

from figure_solids import Solid, bar, block, turned
from standing_setups import C, _trough, across, cavity, hole, lying, milled, stood

from methodfigures.setups.rotary.spec import RotarySetup


def random_vice(rng):
    size = tuple(round(rng.uniform(*q), 1) for q in ((8, 160), (6, 80), (5, 70)))
    length, width, height = size
    grip = round(height * rng.uniform(0.2, 0.7), 1)
    deep = round(rng.uniform(0.05, 0.9) * (height - grip), 2)
    verb = rng.choice(
        ["face", "step", "slot", "pocket", "vee", "drill", "drill", "tap", "ream", "chamfer", "slot", "profile"]
    )
    kw = {
        "verb": verb,
        "grip": grip,
        "holding": rng.choice(["vice"] * 4 + ["clamps", "angle-plate", "magnet", "drill-vice"]),
        "removed_text": rng.choice(["", "cut away 12.3 cm³"]),
        "units": rng.choice(["mm", "mm", "in"]),
        "jaw_length": rng.choice([60, 100, 150]),
    }
    cutter = rng.choice([3, 6, 10, 16, 20, 50])
    if verb in ("drill", "tap", "ream"):
        return _random_holes(rng, size, deep, kw)
    if verb == "face":
        return milled(
            size,
            cavity(-C, -C, length + C, width + C, deep),
            box=(0, 0, length, width, deep),
            cutter_diameter=max(cutter, 16),
            **kw,
        )
    if verb == "chamfer":
        c = round(min(deep, 0.1 * min(size[:2])), 2)
        t = _trough(0, 2 * c, length)
        t = Solid(t.shape.rotate((0, 0, -90)), t.table)
        return milled(size, t, box=(0, 0, length, c, c), cutter_diameter=10, along="length", **kw)
    a, b = sorted(rng.uniform(0.05, 0.95) for _ in range(2))
    x0, x1 = round(a * length, 1), round(max(b, a + 0.12) * length, 1)
    a, b = sorted(rng.uniform(0.05, 0.95) for _ in range(2))
    y0, y1 = round(a * width, 1), round(max(b, a + 0.12) * width, 1)
    x1, y1 = min(x1, length), min(y1, width)
    if verb == "step":
        side = rng.choice(["left", "right", "front", "back"])
        box = {
            "left": (0, 0, x1, width),
            "right": (x0, 0, length, width),
            "front": (0, 0, length, y1),
            "back": (0, y0, length, width),
        }[side]
        kw["along"] = "width" if side in ("left", "right") else "length"
    elif verb in ("slot", "vee"):
        kw["along"] = rng.choice(["length", "width"])
        box = (0, y0, length, y1) if kw["along"] == "length" else (x0, 0, x1, width)
    else:
        box = (x0, y0, x1, y1)
    x0, y0, x1, y1 = box
    t = cavity(
        *(v - C if v == 0 else v for v in (x0, y0)),
        x1 + (C if x1 == length else 0),
        y1 + (C if y1 == width else 0),
        deep,
    )
    return milled(
        size,
        t,
        box=(*box, deep),
        cutter_diameter=min(cutter, max(2, 0.9 * min(x1 - x0, y1 - y0))) if verb != "step" else cutter,
        **kw,
    )


def _random_holes(rng, size, deep, kw):
    length, width, height = size
    d = round(rng.uniform(0.05, 0.3) * min(length, width), 1) or 1.0
    count = rng.choice([1, 1, 2, 3, 4, 6])
    places = []
    for _ in range(60):
        p = (round(rng.uniform(d, length - d), 1), round(rng.uniform(d, width - d), 1))
        if all(math.dist(p, q) > 1.4 * d for q in places):
            places.append(p)
        if len(places) == count:
            break
    through = rng.random() < 0.5
    depth = height + 1 if through else deep
    tool = hole(d, *places[0], depth)
    for p in places[1:]:
        tool = tool + hole(d, *p, depth)
    xs, ys = zip(*places, strict=False)
    box = (min(xs) - d / 2, min(ys) - d / 2, max(xs) + d / 2, max(ys) + d / 2, min(depth, height))
    if len(places) > 4:
        kw.update(
            table_columns=("no.", "x", "y"),
            table_rows=tuple((str(i + 1), f"{x:g}", f"{y:g}") for i, (x, y) in enumerate(places)),
        )
    return milled(
        size, tool, box=box, places=tuple(places), diameter=d, through=through, cutter_diameter=d, pitch=1.0, **kw
    )


def random_rotary(rng):
    r = rng.uniform(5, 60)
    length = rng.uniform(0.3, 3.0) * r + 12
    holding = rng.choice(["collet", "three-jaw", "four-jaw", "soft jaws", "mandrel", "clamps"])
    if holding == "collet":
        r = min(r, 16)
    grip = (0.6 * length, length - (rng.uniform(2, 8) if holding == "collet" else 0))
    bore = 0.3 * r if holding == "mandrel" else 0.0
    if holding == "mandrel":
        length = min(length, 2 * r)
        grip = (0.0, length)
    if holding == "clamps":
        grip = (0.0, length)
    w = turned([(0, bore), (0, r), (length, r), (length, bore)])
    n = rng.choice([1, 2, 3, 4, 6, 8, 12, 20, 36])
    start = rng.choice([0.0, 0.0, 15.0, 40.0, 90.0])
    angles = tuple(start + 360 / n * i for i in range(n))
    at = rng.randrange(n)
    a = math.radians(-angles[at])
    verb = rng.choice(["drill", "drill", "tap", "flat", "keyway", "graduate"])
    rows = (
        tuple((str(i + 1), f"{x % 360:.3g}°", f"{x / 4 % 90:.3f}") for i, x in enumerate(angles))
        if rng.random() < 0.6
        else ()
    )
    kw = {
        "end_z": (0, length),
        "verb": verb,
        "holding": holding,
        "grip": grip,
        "grip_diameter": 2 * (bore or r),
        "angles": angles,
        "at": at,
        "done": at + 1,
        "table_rows": rows,
        "table_columns": ("no.", "angle", "turns") if rows else (),
        "table_caption": "worm 90 : 1" if rows else "",
        "removed_text": rng.choice(["", "cut away 1.23 cm³"]),
        "units": rng.choice(["mm", "in"]),
        "plain_table": rng.random() < 0.15,
    }
    free = min(grip[0], length * 0.5) if grip[0] > 0 else 0.6 * length
    if verb in ("drill", "tap"):
        radius = rng.uniform(0.62, 0.8) * r
        d = rng.uniform(0.08, 0.3) * r
        through = rng.random() < 0.4
        end = length if through else free * 0.8
        t = bar(d, -1, end + (1 if through else 0), (radius * math.cos(a), radius * math.sin(a)))
        return stood(w, t, radius=radius, start=0.0, end=end, diameter=d, through=through, pitch=0.8, **kw)
    if verb == "graduate":
        return RotarySetup((w.mesh(),), (w.mesh(),), (), start=0.0, end=max(0.5, free * 0.3), **kw)
    over = free * rng.uniform(0.3, 0.9)
    begin = 0.0 if rng.random() < 0.6 else 0.2 * over
    if verb == "flat":
        dist = rng.uniform(0.5, 0.9) * r
        b = block((dist, -3 * r, begin - (1 if begin == 0 else 0)), (3 * r, 3 * r, over))
        kw.update(radius=dist, cutter_diameter=rng.choice([6, 12, 20]))
    else:
        dist, wd = rng.uniform(0.6, 0.85) * r, rng.uniform(0.1, 0.4) * r
        b = block((dist, -wd / 2, begin - (1 if begin == 0 else 0)), (3 * r, wd / 2, over))
        kw.update(radius=dist, width=wd, cutter_diameter=wd)
    return stood(w, Solid(b.shape.rotate((0, 0, math.degrees(a))), b.table), start=begin, end=over, **kw)


def random_cross(rng):
    r = rng.uniform(2.5, 40)
    length = rng.uniform(1.5, 12) * r
    w = bar(2 * r, 0, length)
    step = rng.random() < 0.4
    if step:
        w = w & turned(
            [
                (-1, 0),
                (-1, 0.7 * r),
                (0.25 * length, 0.7 * r),
                (0.25 * length, 2 * r),
                (length + 1, 2 * r),
                (length + 1, 0),
            ]
        )
    angle = rng.choice([0.0, 0.0, 30.0, 45.0, 90.0, 135.0, 180.0, -60.0, -120.0, 12.5])
    kw = {
        "end_z": (0, length),
        "grip_diameter": 2 * r,
        "angle": angle,
        "holding": rng.choice(["vee-block", "vee-block", "vice"]),
        "removed_text": rng.choice(["", "cut away 0.12 cm³"]),
        "units": rng.choice(["mm", "in"]),
    }
    top = 0.7 * r if step else r
    if rng.random() < 0.7:
        d = rng.uniform(0.08, 0.6) * 2 * r
        at = rng.uniform(d, min(length - d, 9 * r)) if not step else rng.uniform(0.05, 0.2) * length + d / 2
        top = r if step and at > 0.25 * length else top
        through = rng.random() < 0.6
        depth = top * rng.uniform(0.4, 1.2)
        t = across(d, at, -2 * r if through else top - depth, 2 * r, angle)
        return lying(
            w,
            t,
            verb=rng.choice(["cross-drill", "cross-ream"]),
            at=at,
            diameter=d,
            through=through,
            depth=0.0 if through else depth,
            **kw,
        )
    wd = rng.uniform(0.1, 0.35) * 2 * r
    a = rng.choice([0.0, 0.1 * length])
    b = a + rng.uniform(0.1, 0.14) * length + wd
    depth = 0.25 * top
    t = block((top - depth, -wd / 2, a - (1 if a == 0 else 0)), (2 * r, wd / 2, b))
    t = Solid(t.shape.rotate((0, 0, -angle)), t.table)
    return lying(w, t, verb="keyway", start=a, end=b, width=wd, depth=depth, cutter_diameter=wd, **kw)
