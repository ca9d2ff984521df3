"""Examples of the set-up figures and of the figures of a method's route, with small built-in solids."""

from __future__ import annotations

from dataclasses import replace

from methodfigures.explain.offset_setting import OffsetSetting, draw_offset_setting
from methodfigures.paper.drawing import Drawing
from methodfigures.route.proof import Fault, Proof, draw_proof
from methodfigures.route.removed_metal import RemovedMetal, draw_removed_metal
from methodfigures.route.storyboard import Cell, Storyboard, draw_storyboard
from methodfigures.route.strip import SectionStrip, draw_section_strip
from methodfigures.setups.cross.figure import draw_cross_setup
from methodfigures.setups.cross.spec import CrossSetup
from methodfigures.setups.rotary.figure import draw_rotary_setup
from methodfigures.setups.rotary.spec import RotarySetup
from methodfigures.setups.turning.figure import draw_turning_setup
from methodfigures.setups.turning.spec import TurningSetup
from methodfigures.setups.vice.figure import draw_vice_setup
from methodfigures.setups.vice.spec import ViceSetup
from methodfigures.solids.simple_solids import block, prism, rod, round_with, tube, turned

# A stepped pin from a bar of 25, in the order of its making; end A at z = 0.
BAR = rod(25, 0, 90)
FACED = rod(25, 1, 90)
STEP = turned([(1, 0), (1, 8), (31, 8), (31, 12.5), (90, 12.5), (90, 0)])
BORED = turned([(1, 3), (1, 8), (31, 8), (31, 12.5), (90, 12.5), (90, 0), (19, 0), (17.2, 3)])
CHIPS = (rod(25, 0, 1), tube(25, 16, 1, 31), turned([(1, 0), (1, 3), (17.2, 3), (19, 0)]))


def turning() -> tuple[str, Drawing]:
    """Outside turning in the three-jaw chuck."""
    spec = TurningSetup(
        before=(FACED,),
        after=(STEP,),
        removed=(CHIPS[1],),
        verb="turn",
        holding="three-jaw",
        grip=(62.0, 89.0),
        grip_diameter=25.0,
        end_z=(1.0, 90.0),
        cut_end=30.0,
        cut_diameter=16.0,
        from_diameter=25.0,
        removed_text="cut away 8.7 cm³",
        pictorials=True,
    )
    return "Turning in the three-jaw chuck", draw_turning_setup(spec)


def boring() -> tuple[str, Drawing]:
    """Drilling in the collet, in section."""
    spec = TurningSetup(
        before=(STEP,),
        after=(BORED,),
        removed=(CHIPS[2],),
        verb="drill",
        holding="collet",
        grip=(55.0, 80.0),
        grip_diameter=25.0,
        end_z=(1.0, 90.0),
        cut_end=18.0,
        cut_diameter=6.0,
        removed_text="cut away 0.47 cm³",
    )
    return "Drilling in the collet", draw_turning_setup(spec)


def between_centres() -> tuple[str, Drawing]:
    """Turning between centres."""
    spec = TurningSetup(
        before=(rod(22, 0, 140),),
        after=(turned([(0, 0), (0, 9), (100, 9), (100, 11), (140, 11), (140, 0)]),),
        removed=(tube(22, 18, 0, 100),),
        verb="turn",
        holding="centres",
        grip=(122.0, 140.0),
        grip_diameter=22.0,
        end_z=(0.0, 140.0),
        cut_end=100.0,
        cut_diameter=18.0,
        from_diameter=22.0,
        removed_text="cut away 12.6 cm³",
    )
    return "Turning between centres", draw_turning_setup(spec)


def offset() -> tuple[str, Drawing]:
    """Setting a throw in the four-jaw chuck."""
    spec = OffsetSetting(45.0, 6.0, True, "Ø45", "throw 6", "12 = 2 × 6")
    return "Setting a throw with the dial gauge", draw_offset_setting(spec)


def _step() -> ViceSetup:
    after = prism([(0, -28), (60, -28), (60, -10), (44, -10), (44, 0), (0, 0)], 0, 36)
    return ViceSetup(
        (block((0, 0, -28), (60, 36, 0)),),
        (after,),
        (block((44, 0, -10), (60, 36, 0)),),
        "step",
        (44, 0, 60, 36, 10),
        grip=14,
        cutter_diameter=20,
        along="width",
        removed_text="cut away 5.8 cm³",
    )


def vice() -> tuple[str, Drawing]:
    """A step milled in the vice."""
    return "Milling in the vice", draw_vice_setup(_step())


def vice_third() -> tuple[str, Drawing]:
    """The same step in third angle."""
    return "Milling in the vice, third-angle projection", draw_vice_setup(replace(_step(), projection="third"))


def clamps() -> tuple[str, Drawing]:
    """The same step, clamped to the table."""
    return "Milling, clamped to the table", draw_vice_setup(replace(_step(), holding="clamps"))


def rotary() -> tuple[str, Drawing]:
    """A flat on the rotary table."""
    foot = rod(16, 30, 70)
    after = (round_with(38, 0, 12, flat=13), tube(38, 16, 12, 30), rod(16, 12, 30), foot)
    gone = prism([(13, -13.86), (19, 0), (13, 13.86)], 0, 12, right=(1, 0, 0), up=(0, 1, 0), along=(0, 0, 1))
    spec = RotarySetup(
        before=(rod(38, 0, 30), foot),
        after=(after[0], rod(38, 12, 30), foot),
        removed=(gone,),
        end_z=(0.0, 70.0),
        verb="flat",
        holding="collet",
        grip=(42.0, 66.0),
        grip_diameter=16.0,
        angles=(0.0, 180.0),
        radius=13.0,
        start=0.0,
        end=12.0,
        cutter_diameter=12.0,
        removed_text="cut away 1.3 cm³",
        table_columns=("flat", "angle", "turns"),
        table_rows=(("1", "0°", "0"), ("2", "180°", "45")),
        table_caption="worm 90 : 1",
    )
    return "A flat on the rotary table", draw_rotary_setup(spec)


def cross() -> tuple[str, Drawing]:
    """A keyway in a vee block."""
    after = (round_with(25, 0, 30, groove=(6, 9)), rod(25, 30, 90))
    gone = prism(
        [(9, -3), (12.13, -3), (12.5, 0), (12.13, 3), (9, 3)], 0, 30, right=(1, 0, 0), up=(0, 1, 0), along=(0, 0, 1)
    )
    spec = CrossSetup(
        (rod(25, 0, 90),),
        after,
        (gone,),
        (0.0, 90.0),
        "keyway",
        25.0,
        start=0.0,
        end=30.0,
        width=6.0,
        depth=3.5,
        cutter_diameter=6.0,
        removed_text="cut away 0.61 cm³",
    )
    return "A keyway, the work in a vee block", draw_cross_setup(spec)


def cells() -> tuple[Cell, ...]:
    """Three operations of one route."""
    end = (0.0, 0.0, -1.0)
    group = "1 Three-jaw chuck, end A out"
    return (
        Cell("1", "Face 1 off", group, (FACED,), (CHIPS[0],), end),
        Cell("2", "Turn Ø16 × 30", group, (STEP,), (CHIPS[1],), end),
        Cell("3", "Drill Ø6 × 18 deep", "2 Collet on Ø16", (BORED,), (CHIPS[2],), end),
    )


def storyboard() -> tuple[str, Drawing]:
    """Route of a method in pictorials."""
    return "Route of a method", draw_storyboard(Storyboard(cells(), 3))


def strip() -> tuple[str, Drawing]:
    """Route of a method in sections."""
    return "Route of a method in sections", draw_section_strip(SectionStrip(cells()))


def removed() -> tuple[str, Drawing]:
    """The part in its stock."""
    spec = RemovedMetal(
        part=(BORED,),
        stock=(BAR,),
        caption="bar 347 g, part 246 g",
        face=(0.0, 0.0, -1.0),
        after=(STEP,),
        removed=(CHIPS[1],),
        off=30.0,
        off_face=(0.0, 0.0, -1.0),
        off_caption="operation 2: 8.7 cm³",
    )
    return "Metal removed", draw_removed_metal(spec)


def proof() -> tuple[str, Drawing]:
    """Faults of a method, numbered."""
    faults = (
        Fault("left on", tube(18, 16, 1, 31), "step Ø16", "1.0 to 31.0 from A, on axis", "1602", "1.00"),
        Fault("missing", tube(25, 24, 70, 90), "bar Ø25", "70.0 to 90.0 from A, on axis", "770", "0.50"),
    )
    return "What a method leaves wrong", draw_proof(Proof((STEP,), faults))
