"""Examples of figures for setting, measuring and joining, with small built-in data."""

from __future__ import annotations

from methodfigures.explain.taper import CompoundSlide, draw_compound_slide
from methodfigures.explain.wires import ThreeWires, draw_three_wires
from methodfigures.paper.drawing import Drawing
from methodfigures.setups.joining import Joint, SawCut, draw_joint, draw_saw_cut
from methodfigures.setups.sawing import SawGap, draw_saw_gap
from methodfigures.solids.simple_solids import rod, tube, turned


def slide() -> tuple[str, Drawing]:
    """A taper with the compound slide."""
    spec = CompoundSlide(
        large=30.0,
        small=18.0,
        length=40.0,
        angle=8.531,
        large_text="Ø30",
        small_text="Ø18",
        length_text="40",
        angle_text="8.53°",
        note="set the slide to half the angle of the taper",
    )
    return "Taper with the compound slide", draw_compound_slide(spec)


def wires() -> tuple[str, Drawing]:
    """A metric thread over wires."""
    spec = ThreeWires(
        1.5,
        10.0,
        9.026,
        8.16,
        0.866,
        10.325,
        over_text="10.325",
        wire_text="wires Ø0.866",
        pitch_text="1.5",
        effective_text="9.026",
        angle_text="60°",
        thread_text="M10 × 1.5",
        rows=("over the wires = effective diameter + 3 × wire − 0.866 × pitch", "9.026 + 2.598 − 1.299 = 10.325"),
    )
    return "Measuring over three wires", draw_three_wires(spec)


def wires_ba() -> tuple[str, Drawing]:
    """A thread of 47.5° over wires."""
    spec = ThreeWires(
        pitch=1.0,
        major=6.0,
        effective=5.4,
        minor=4.8,
        wire=0.55,
        over=6.06,
        angle=47.5,
        over_text="6.060",
        wire_text="wires Ø0.55",
        pitch_text="1",
        effective_text="5.4",
        angle_text="47.5°",
        thread_text="0 BA",
    )
    return "Three wires in a thread of 47.5°", draw_three_wires(spec)


def joint() -> tuple[str, Drawing]:
    """A spindle pressed into a disc."""
    disc = tube(38, 16, 24, 46)
    shaft = turned([(0, 0), (0, 5), (1, 6), (22, 6), (22, 8), (67, 8), (68, 7), (68, 0)])
    spec = Joint(
        (disc,),
        (shaft,),
        "press",
        (0, 0, 1),
        axis=(0, 0, 24),
        travel=24,
        fixed_name="disc",
        moving_name="spindle",
        support_name="ring",
        force_text="12 kN",
        depth=(0, 22),
        depth_text="22",
        notes=("oil the joint and start it square",),
    )
    return "Press fit: before and after", draw_joint(spec)


def braze() -> tuple[str, Drawing]:
    """A spigot brazed into a flange."""
    plate, boss = tube(40, 12, 0, 6), rod(12, -20, 6)
    spec = Joint(
        (plate,),
        (boss,),
        "braze",
        (0, 0, 1),
        travel=16,
        seams=((-6, 0, 0), (6, 0, 0)),
        fixed_name="flange",
        moving_name="spigot",
        notes=("gap 0.05 to 0.1, flux on both faces, heat the heavier piece",),
    )
    return "Silver brazing", draw_joint(spec)


def saw() -> tuple[str, Drawing]:
    """A bar sawn to length."""
    left, kerf, right = rod(40, 0, 75), rod(40, 75, 76.5), rod(40, 76.5, 120)
    spec = SawCut(
        (rod(40, 0, 120),),
        (left, right),
        (kerf,),
        75.0,
        grip=(10, 60),
        length_text="75",
        kept_name="this piece is kept",
        removed_text="kerf 1.5",
    )
    return "Sawing to length", draw_saw_cut(spec)


def saw_gap() -> tuple[str, Drawing]:
    """A neck sawn round a bar."""
    spec = SawGap(
        (rod(40, 0, 70),),
        (turned([(0, 0), (0, 20), (18, 20), (18, 7), (34, 7), (34, 20), (70, 20), (70, 0)]),),
        (tube(40, 14, 18, 34),),
        (18.0, 34.0),
        floor=7.0,
        grip=(50.0, 70.0),
        kept_name="neck",
        holder_name="bench vice",
        removed_text="cut away 17.6 cm³",
        side_text="0° is up, seen from end A",
    )
    return "Sawing out a gap", draw_saw_gap(spec)
