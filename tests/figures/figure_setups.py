"""Turning set-ups for the tests: one of every verb and of every way of holding."""

from __future__ import annotations

from figure_solids import tube, turned
from figure_work import Work


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


CASES = (
    facing, with_centre, tiny, thrown, disc_bore, drilled, grooved, parted, slender, steps, between_centres,
    on_mandrel, on_faceplate, threaded, tapped, knurled, tapered, reamed, centred, counterbored, with_steady,
    die_cut, gripped_inside,
)  # fmt: skip
