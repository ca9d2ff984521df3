"""Standing set-ups for the tests: blocks in the vice, round work on the rotary table and in a vee block."""

from __future__ import annotations

import math

from figure_solids import Solid, bar, block, cross_bar, turned

from methodfigures.setups.cross.spec import CrossSetup
from methodfigures.setups.rotary.spec import RotarySetup
from methodfigures.setups.vice.spec import ViceSetup

C = 2.0


def milled(size, tool, **kw):
    """Work of `size` (length, width, height) with its upper left near corner at the origin."""
    length, width, height = size
    w = kw.pop("work", None) or block((0, 0, -height), (length, width, 0))
    after, gone = w - tool, w & tool
    return ViceSetup((w.mesh(),), (after.mesh(),), (gone.mesh(),), **kw)


def cavity(x0, y0, x1, y1, depth):
    return block((x0, y0, -depth), (x1, y1, C))


def hole(d, x, y, depth, point=0.0):
    return bar(d, -depth, C, (x, y))


def step_right(size=(60, 36, 28), wide=16, deep=10, **kw):
    length, width, _ = size
    return milled(
        size,
        cavity(length - wide, -C, length + C, width + C, deep),
        verb="step",
        along="width",
        box=(length - wide, 0, length, width, deep),
        cutter_diameter=20,
        grip=14,
        removed_text="cut away 5.8 cm³",
        **kw,
    )


def facing(**kw):
    size = (50, 28, 24)
    return milled(
        size,
        cavity(-C, -C, 52, 30, 2),
        verb="face",
        box=(0, 0, 50, 28, 2),
        cutter_diameter=40,
        grip=15,
        removed_text="cut away 2.8 cm³",
        faces=("front", "bottom", "right"),
        **kw,
    )


def slot(**kw):
    size = (70, 30, 20)
    t = cavity(15, 9, 50, 17, 6)
    return milled(size, t, verb="slot", box=(15, 9, 50, 17, 6), cutter_diameter=8, grip=10, **kw)


def holes(**kw):
    size = (54, 32, 22)
    t = hole(6.6, 42, 16, 25) + hole(6.6, 12, 16, 25)
    return milled(
        size,
        t,
        verb="drill",
        box=(8, 12, 46, 20, 22),
        places=((12, 16), (42, 16)),
        diameter=6.6,
        through=True,
        cutter_diameter=6.6,
        grip=10,
        removed_text="cut away 1.5 cm³",
        **kw,
    )


def pocket(**kw):
    size = (80, 50, 20)
    t = cavity(20, 10, 60, 40, 8)
    return milled(size, t, verb="pocket", box=(20, 10, 60, 40, 8), cutter_diameter=10, grip=8, **kw)


def vee(**kw):
    size = (50, 28, 22)
    t = _trough(15, 12, 28)
    return milled(size, t, verb="vee", along="width", box=(9, 0, 21, 28, 6), cutter_diameter=16, grip=10, **kw)


def _trough(middle, wide, width):
    s = block(
        (-wide / math.sqrt(8) * 1.0, -C, -wide / math.sqrt(8)), (wide / math.sqrt(8), width + C, wide / math.sqrt(8))
    )
    return Solid(s.shape.rotate((0, 45, 0)).translate((middle, 0, 0)), s.table)


EXAMPLES = {f.__name__: f for f in (step_right, facing, slot, holes, pocket, vee)}


# ---------------------------------------------------------------------- round work, end A at z = 0 up
def stood(work, tool, **kw):
    gone, after = work & tool, work - tool
    return RotarySetup((work.mesh(),), (after.mesh(),), (gone.mesh(),), **kw)


def flange_holes(**kw):
    w = turned([(0, 6), (0, 14), (7, 14), (7, 35), (16, 35), (17, 34), (17, 6)])
    w = w - bar(5.5, -1, 20, (24, 0))
    a = math.radians(-60)
    t = bar(5.5, -1, 20, (24 * math.cos(a), 24 * math.sin(a)))
    angles = tuple(60.0 * i for i in range(6))
    rows = tuple((str(i + 1), f"{a:g}°", f"{a / 4:g}") for i, a in enumerate(angles))
    return stood(
        w,
        t,
        end_z=(0, 17),
        verb="drill",
        holding="mandrel",
        grip=(0, 17),
        grip_diameter=12,
        angles=angles,
        at=1,
        done=2,
        radius=24,
        start=7,
        end=17,
        diameter=5.5,
        through=True,
        removed_text="cut away 0.24 cm³",
        table_columns=("hole", "angle", "turns"),
        table_rows=rows,
        table_caption="worm 90 : 1, from hole 1",
        **kw,
    )


def spindle_flat(angle=40.0, **kw):
    w = turned([(0, 0), (0, 8), (24, 8), (24, 19), (34, 19), (34, 8), (34, 8), (84, 8), (84, 6), (92, 6), (92, 0)])
    b = block((8.5, -40, 23.99), (60, 40, 34))
    a = -angle
    t = Solid(b.shape.rotate((0, 0, a)), b.table)
    return stood(
        w,
        t,
        end_z=(0, 92),
        verb="flat",
        holding="collet",
        grip=(52, 74),
        grip_diameter=16,
        angles=(angle, -angle),
        radius=8.5,
        start=24,
        end=34,
        cutter_diameter=12,
        removed_text="cut away 3.1 cm³",
        dimension_texts={"zero": "0°, throw", "note": "end face of the cutter level with the face of the eccentric"},
        **kw,
    )


def chuck_keyway(**kw):
    w = turned([(0, 0), (0, 12), (30, 12), (30, 20), (60, 20), (60, 0)])
    t = block((9, -3, -1), (30, 3, 22))
    return stood(
        w,
        t,
        end_z=(0, 60),
        verb="keyway",
        holding="three-jaw",
        grip=(40, 60),
        grip_diameter=40,
        radius=9,
        start=0,
        end=22,
        width=6,
        cutter_diameter=6,
        **kw,
    )


def rim_lines(**kw):
    w = turned([(0, 6), (0, 14), (7, 14), (7, 35), (16, 35), (17, 34), (17, 6)])
    return RotarySetup(
        (w.mesh(),),
        (w.mesh(),),
        (),
        end_z=(0, 17),
        verb="graduate",
        holding="mandrel",
        grip=(0, 17),
        grip_diameter=12,
        angles=(0.0, 6.0, 12.0),
        at=1,
        start=7,
        end=10,
        **kw,
    )


ROTARY = {f.__name__: f for f in (flange_holes, spindle_flat, chuck_keyway, rim_lines)}


# ---------------------------------------------------------------------- cuts across lying work, end A at z = 0
def lying(work, tool, **kw):
    gone, after = work & tool, work - tool
    return CrossSetup((work.mesh(),), (after.mesh(),), (gone.mesh(),), **kw)


def across(d, z, low, high, angle, out="A"):
    """Round tool across the axis at z, its mouth at `angle` from the 0° mark."""
    b = cross_bar(d, low, high, z)
    return Solid(b.shape.rotate((0, 0, -angle if out == "A" else angle)), b.table)


def cross_hole(angle=0.0, **kw):
    w = turned([(0, 0), (0, 6), (22, 6), (22, 8), (46, 8), (46, 19), (56, 19), (56, 0)])
    return lying(
        w,
        across(3, 8, -20, 20, angle),
        end_z=(0, 56),
        verb="cross-drill",
        grip_diameter=16,
        at=8,
        angle=angle,
        diameter=3,
        through=True,
        removed_text="cut away 0.08 cm³",
        **kw,
    )


def blind_hole(**kw):
    w = bar(25, 0, 120)
    return lying(
        w,
        across(6, 30, 2, 20, 90),
        end_z=(0, 120),
        verb="cross-drill",
        grip_diameter=25,
        at=30,
        angle=90,
        diameter=6,
        depth=10.5,
        holding="vice",
        **kw,
    )


def keyway(**kw):
    w = bar(20, 0, 80)
    t = block((6.5, -3, 10), (15, 3, 40))
    return lying(
        w,
        t,
        end_z=(0, 80),
        verb="keyway",
        grip_diameter=20,
        start=10,
        end=40,
        width=6,
        depth=3.5,
        cutter_diameter=6,
        **kw,
    )


CROSS = {
    "cross_hole": cross_hole,
    "cross_hole_60": lambda: cross_hole(60.0),
    "cross_hole_150": lambda: cross_hole(150.0),
    "blind_hole": blind_hole,
    "keyway": keyway,
}
