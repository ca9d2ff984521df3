"""Any turning set-up that a small lathe could be asked for, by chance."""

from __future__ import annotations

import random

from figure_setups import Work
from figure_solids import turned

from methodfigures.setups.turning.spec import TurningSetup


def at_random(r: random.Random) -> TurningSetup:
    """Any turning set-up a small lathe could be asked for."""
    d = round(r.choice((3, 6, 10, 16, 25, 40, 60, 80, 110)) * r.uniform(0.9, 1.1), 1)
    stick = round(d * r.choice((0.3, 0.6, 1, 1.5, 2.5, 4, 8)) + 3, 1)
    grip = round(max(6, min(0.6 * d, 40)), 1)
    holding = r.choice(("three-jaw", "three-jaw", "collet", "four-jaw", "soft jaws", "centres", "faceplate", "mandrel"))
    if holding == "collet" and d > 40:
        holding = "three-jaw"
    throw = round(r.uniform(0.05, 0.2) * d, 1) if holding == "four-jaw" and r.random() < 0.6 else 0.0
    verbs = (
        "face",
        "turn",
        "turn",
        "shoulder",
        "groove",
        "bore",
        "drill",
        "part off",
        "chamfer",
        "thread",
        "knurl",
        "taper",
        "ream",
        "tap",
        "centre",
    )
    verb = r.choice(verbs)
    inside = verb in ("bore", "drill", "ream", "tap", "centre")
    if holding in ("centres", "mandrel") and (inside or verb in ("face", "part off")):
        verb, inside = "turn", False
    small = d - 2 * throw
    to, long = round(small * r.uniform(0.3, 0.92), 1), round(stick * r.uniform(0.15, 0.85), 1)
    support = "centre" if not inside and verb not in ("face", "part off") and stick > 2 * d and not throw else None
    total = stick + grip + round(r.uniform(0, 8), 1)
    s0, s1 = stick, stick + grip
    if holding == "faceplate":
        total, s0, s1 = stick, 0.0 if inside else round(0.9 * stick, 1), stick
        long = min(long, round(0.8 * stick, 1))
        support = None
    if holding == "mandrel":
        total, s0, s1, support = stick, 0.0, stick, None
        to = round(max(to, 0.6 * d), 1)
    w = Work(d, total, throw)
    if holding == "mandrel":
        w.cut(w.hole(round(0.4 * d, 1), 0, total + 1))
    if holding == "centres":
        total = s1
        w = Work(d, total)
    hold = {
        "holding": holding,
        "grip": (s0, s1),
        "grip_diameter": round(0.4 * d, 1) if holding == "mandrel" else d,
        "support": support,
        "removed_text": f"cut away {r.uniform(0.05, 120):.3g} cm³",
        "packing": r.choice((0.0, 1.0)) if holding == "four-jaw" else 0.0,
    }
    return _random_cut(r, w, verb, hold, d, small, to, long, stick)


def _random_cut(r, w, verb, hold, d, small, to, long, stick):
    if verb == "face":
        off = round(r.uniform(0.3, 0.1 * stick + 0.4), 1)
        return w.spec(w.outside(0.0001, 0, off), verb="face", cut_end=off, from_diameter=d, **hold)
    if verb == "shoulder":
        w.cut(w.outside(round(to * 0.7, 1), 0, round(long * 0.4, 1)))
        return w.spec(
            w.outside(to, round(long * 0.4, 1), long),
            verb="turn",
            cut_start=round(long * 0.4, 1),
            cut_end=long,
            cut_diameter=to,
            from_diameter=d,
            **hold,
        )
    if verb in ("turn", "thread", "knurl"):
        pitch = {"thread": round(0.1 * to, 2)}.get(verb, 0.0)
        texts = {"thread": {"diameter": f"M{to:g} × {pitch:g}"}, "knurl": {"note": "straight knurl 0.8"}}.get(verb, {})
        return w.spec(
            w.outside(to, 0, long),
            verb=verb,
            cut_end=long,
            cut_diameter=to,
            from_diameter=d,
            pitch=pitch,
            dimension_texts=texts,
            **hold,
        )
    if verb == "taper":
        end = round(min(1.1 * to, small), 1)
        t = turned([(-1, to / 2 - 0.02), (-1, d), (long, d), (long, end / 2), (0, to / 2)])
        return w.spec(t, verb="taper", cut_end=long, cut_diameter=to, end_diameter=end, from_diameter=d, **hold)
    if verb == "groove":
        wide = round(max(0.8, min(4, 0.1 * stick)), 1)
        return w.spec(
            w.outside(to, long, long + wide),
            verb="groove",
            cut_start=long,
            cut_end=long + wide,
            cut_diameter=to,
            from_diameter=d,
            **hold,
        )
    if verb == "part off":
        wide = round(max(0.8, min(3, 0.1 * stick)), 1)
        return w.spec(
            w.outside(0.0001, long, long + wide),
            verb="part off",
            cut_start=long,
            cut_end=long + wide,
            from_diameter=d,
            **hold,
        )
    if verb == "chamfer":
        w.cut(w.outside(to, 0, long))
        c = round(max(0.3, 0.05 * to), 1)
        tool = turned([(-1, to / 2 - c - 1), (-1, to), (c + to / 2, to), (c, to / 2)])
        return w.spec(tool, verb="chamfer", cut_end=c, cut_diameter=to, from_diameter=to, **hold)
    hole = round(small * r.uniform(0.15, 0.5), 1)
    if verb == "drill":
        return w.spec(w.hole(hole, 0, long, 118), verb="drill", cut_end=long, cut_diameter=hole, **hold)
    if verb == "centre":
        q = min(2.0, 0.1 * d)
        tool = turned([(-1, 0), (-1, 2.1 * q / 2), (0, 2.1 * q / 2), (q, q / 2), (2 * q, q / 2), (2.3 * q, 0)])
        return w.spec(tool, verb="centre", cut_end=2.3 * q, cut_diameter=2.1 * q, tool_diameter=q, **hold)
    w.cut(w.hole(round(0.8 * hole, 2), 0, w.length + 1))
    deep = r.choice((None, long))
    end = deep or w.length
    extra = {"pitch": round(0.12 * hole, 2), "dimension_texts": {"note": f"M{hole:g}"}} if verb == "tap" else {}
    return w.spec(
        w.hole(hole, 0, end + (0 if deep else 1)),
        verb=verb,
        cut_end=end,
        cut_diameter=hole,
        from_diameter=round(0.8 * hole, 2),
        through=deep is None,
        **extra,
        **hold,
    )
