"""Turning set-ups for the tests: a small lathe in words, which keeps stock, cuts and the faces of the work."""

from __future__ import annotations

import math
import random

from figure_solids import bar, tube, turned

from methodfigures.setups.turning.spec import TurningSetup


class Work:
    """A bar whose end A looks at us at z = 0; the metal lies at z > 0.  `throw` mm between axis and bar."""

    def __init__(self, d, length, throw=0.0):
        self.d, self.length, self.face, self.throw = d, length, 0.0, throw
        self.solid = bar(d, 0, length, (-throw, 0.0))

    def cut(self, tool):
        before, after, gone = self.solid, self.solid - tool, self.solid & tool
        self.solid = after
        return {"before": (before.mesh(),), "after": (after.mesh(),), "removed": (gone.mesh(),)}

    def outside(self, d, a, b):
        """Everything outside diameter `d` between a and b from the face."""
        z0 = self.face + a - (1 if a < 1e-9 else 0)
        return tube(4 * self.d, d, z0, self.face + b)

    def hole(self, d, a, b, point=0.0):
        r = d / 2
        h = r / math.tan(math.radians(point / 2)) if point else 0.0
        z0, z1 = self.face + a - (1 if a < 1e-9 else 0), self.face + b
        if h:
            return turned([(z0, 0), (z0, r), (z1, r), (z1 + h, 0)])
        return bar(d, z0, z1)

    def spec(self, tool, **kw):
        end_z = (self.face, self.length)
        grip_axis = (-self.throw, 0.0) if self.throw else None
        return TurningSetup(**self.cut(tool), end_z=end_z, grip_axis=grip_axis, **kw)


HELD = {"three-jaw": "three-jaw", "collet": "collet", "four-jaw": "four-jaw"}


def facing():
    w = Work(45, 60)
    return w.spec(
        w.outside(0.0001, 0, 2),
        verb="face",
        holding="three-jaw",
        grip=(38, 58),
        grip_diameter=45,
        cut_end=2,
        from_diameter=45,
        dimension_texts={"length": "2, to 58 long"},
        removed_text="cut away 3.2 cm³",
    )


def with_centre(**kw):
    w = Work(20, 95)
    w.cut(turned([(-1, 0), (-1, 2.1), (0, 2.1), (2, 1), (4, 1), (4.6, 0)]))
    return w.spec(
        w.outside(16, 0, 70),
        verb="turn",
        holding="three-jaw",
        grip=(76, 95),
        grip_diameter=20,
        cut_end=70,
        cut_diameter=16,
        from_diameter=20,
        support="centre",
        removed_text="cut away 7.9 cm³",
        **kw,
    )


def tiny():
    w = Work(6, 50)
    return w.spec(
        w.outside(2.5, 0, 14),
        verb="turn",
        holding="collet",
        grip=(24, 44),
        grip_diameter=6,
        cut_end=14,
        cut_diameter=2.5,
        from_diameter=6,
        removed_text="cut away 0.33 cm³",
        tool_nose=0.4,
    )


def thrown(**kw):
    w = Work(60, 70, throw=8)
    return w.spec(
        w.outside(25, 0, 30),
        verb="turn",
        holding="four-jaw",
        grip=(48, 70),
        grip_diameter=60,
        cut_end=30,
        cut_diameter=25,
        from_diameter=76,
        packing=1.0,
        removed_text="cut away 70.1 cm³",
        **kw,
    )


def disc_bore():
    w = Work(80, 25)
    w.cut(w.hole(24, 0, 30))
    return w.spec(
        w.hole(30, 0, 30),
        verb="bore",
        holding="four-jaw",
        grip=(13, 25),
        grip_diameter=80,
        cut_end=25,
        cut_diameter=30,
        from_diameter=24,
        through=True,
        removed_text="cut away 6.1 cm³",
    )


def drilled():
    w = Work(50, 70)
    w.cut(w.outside(40, 0, 20))
    return w.spec(
        w.hole(14, 0, 36, 118),
        verb="drill",
        holding="three-jaw",
        grip=(48, 70),
        grip_diameter=50,
        cut_end=36,
        cut_diameter=14,
        removed_text="cut away 5.8 cm³",
    )


def grooved():
    w = Work(36, 80)
    w.cut(w.outside(24, 0, 40))
    w.cut(w.outside(18, 0, 18))
    return w.spec(
        w.outside(17, 32, 36),
        verb="groove",
        holding="three-jaw",
        grip=(60, 80),
        grip_diameter=36,
        cut_start=32,
        cut_end=36,
        cut_diameter=17,
        from_diameter=24,
        removed_text="cut away 0.90 cm³",
    )


def parted():
    w = Work(10, 70)
    w.cut(w.outside(6, 0, 8))
    return w.spec(
        w.outside(0.0001, 25, 27),
        verb="part off",
        holding="collet",
        grip=(34, 58),
        grip_diameter=10,
        cut_start=25,
        cut_end=27,
        from_diameter=10,
        removed_text="cut away 0.16 cm³",
    )


def slender():
    w = Work(18, 330)
    w.cut(w.outside(12, 0, 20))
    return w.spec(
        w.outside(15, 20, 270),
        verb="turn",
        holding="three-jaw",
        grip=(305, 330),
        grip_diameter=18,
        cut_start=20,
        cut_end=270,
        cut_diameter=15,
        from_diameter=18,
        support="centre",
        removed_text="cut away 19.4 cm³",
    )


def steps():
    w = Work(40, 100)
    for d, length in ((36, 70), (30, 54), (24, 40), (18, 26), (12, 14)):
        w.cut(w.outside(d, 0, length))
    c = turned([(-1, 3.5), (-1, 9), (3, 9), (1.5, 6)])
    return w.spec(
        c,
        verb="chamfer",
        holding="collet",
        grip=(78, 100),
        grip_diameter=40,
        cut_end=1.5,
        cut_diameter=12,
        from_diameter=12,
        removed_text="cut away 0.04 cm³",
    )


def between_centres():
    w = Work(22, 140)
    return w.spec(
        w.outside(18, 0, 100),
        verb="turn",
        holding="centres",
        grip=(122, 140),
        grip_diameter=22,
        cut_end=100,
        cut_diameter=18,
        from_diameter=22,
        removed_text="cut away 12.6 cm³",
    )


def on_mandrel():
    w = Work(50, 30)
    w.cut(w.hole(20, 0, 31))
    return w.spec(
        w.outside(46, 0, 30),
        verb="turn",
        holding="mandrel",
        grip=(0, 30),
        grip_diameter=20,
        cut_end=30,
        cut_diameter=46,
        from_diameter=50,
        removed_text="cut away 9.0 cm³",
    )


def on_faceplate():
    w = Work(70, 24)
    return w.spec(
        w.hole(28, 0, 25),
        verb="bore",
        holding="faceplate",
        grip=(0, 24),
        grip_diameter=70,
        cut_end=24,
        cut_diameter=28,
        through=True,
        removed_text="cut away 14.8 cm³",
    )


def threaded(**kw):
    w = Work(16, 80)
    w.cut(w.outside(10, 0, 40))
    core = turned([(-1, 4.2), (-1, 9), (20, 9), (20, 4.2)])
    del core
    return w.spec(
        tube(12, 9.98, -1, 25),
        verb="thread",
        holding="three-jaw",
        grip=(56, 80),
        grip_diameter=16,
        cut_end=25,
        cut_diameter=10,
        from_diameter=10,
        pitch=1.5,
        dimension_texts={"diameter": "M10 × 1.5"},
        **kw,
    )


def tapped():
    w = Work(30, 40)
    w.cut(w.hole(8.5, 0, 26, 118))
    return w.spec(
        tube(8.52, 8.5, -1, 20),
        verb="tap",
        holding="three-jaw",
        grip=(24, 40),
        grip_diameter=30,
        cut_end=20,
        cut_diameter=10,
        pitch=1.5,
        dimension_texts={"note": "M10"},
        tool_name="tap M10",
    )


def knurled():
    w = Work(24, 60)
    return w.spec(
        tube(30, 23.98, 6, 26),
        verb="knurl",
        holding="three-jaw",
        grip=(42, 60),
        grip_diameter=24,
        cut_start=6,
        cut_end=26,
        cut_diameter=24,
        dimension_texts={"note": "diamond knurl 1"},
    )


def tapered():
    w = Work(26, 90)
    t = turned([(-1, 7.4), (-1, 20), (50, 20), (50, 10), (0, 7.5)])
    return w.spec(
        t,
        verb="taper",
        holding="three-jaw",
        grip=(66, 90),
        grip_diameter=26,
        cut_end=50,
        cut_diameter=15,
        end_diameter=20,
        from_diameter=26,
        removed_text="cut away 14 cm³",
    )


def reamed():
    w = Work(32, 44)
    w.cut(w.hole(11.8, 0, 45))
    return w.spec(
        w.hole(12, 0, 45),
        verb="ream",
        holding="soft jaws",
        grip=(30, 44),
        grip_diameter=32,
        cut_end=44,
        cut_diameter=12,
        through=True,
        tool_name="reamer Ø12 H7",
        removed_text="cut away 0.16 cm³",
    )


def centred():
    w = Work(20, 60)
    return w.spec(
        turned([(-1, 0), (-1, 2.1), (0, 2.1), (2, 1), (4, 1), (4.6, 0)]),
        verb="centre",
        holding="three-jaw",
        grip=(30, 60),
        grip_diameter=20,
        cut_end=4.6,
        cut_diameter=4.2,
        tool_diameter=2,
        tool_name="centre drill A2",
        removed_text="cut away 0.03 cm³",
    )


def counterbored():
    w = Work(30, 40)
    w.cut(w.hole(9, 0, 41))
    return w.spec(
        w.hole(15, 0, 9),
        verb="counterbore",
        holding="three-jaw",
        grip=(24, 40),
        grip_diameter=30,
        cut_end=9,
        cut_diameter=15,
        from_diameter=9,
        removed_text="cut away 1.0 cm³",
    )


def with_steady():
    w = Work(25, 220)
    return w.spec(
        w.hole(10, 0, 40, 118),
        verb="drill",
        holding="three-jaw",
        grip=(195, 220),
        grip_diameter=25,
        cut_end=40,
        cut_diameter=10,
        support="steady",
        steady_at=60,
        removed_text="cut away 3.2 cm³",
    )


def die_cut():
    return threaded(tool_kind="die", tool_name="die M10 × 1.5")


CASES = (
    facing,
    with_centre,
    tiny,
    thrown,
    disc_bore,
    drilled,
    grooved,
    parted,
    slender,
    steps,
    between_centres,
    on_mandrel,
    on_faceplate,
    threaded,
    tapped,
    knurled,
    tapered,
    reamed,
    centred,
    counterbored,
    with_steady,
    die_cut,
)


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


def gripped_inside():
    w = Work(70, 24)
    w.cut(w.hole(40, 0, 25))
    return w.spec(
        w.outside(66, 0, 24),
        verb="turn",
        holding="three-jaw",
        grip=(8, 24),
        grip_diameter=40,
        grip_inside=True,
        cut_end=24,
        cut_diameter=66,
        from_diameter=70,
        removed_text="cut away 10.3 cm³",
    )


CASES = (*CASES, gripped_inside)
