"""The demo part of the figure tests: an eccentric spindle turned from the bar, with flats and holes."""

from __future__ import annotations

from figure_solids import bar, block, cross_bar, tube, turned

from methodfigures.route.proof import Fault, Proof
from methodfigures.route.storyboard import Cell

A, B = (0.0, 0.0, -1.0), (0.0, 0.0, 1.0)
FOUR_JAW = "1 Four-jaw chuck, bar 3 off the axis"
COLLET = "2 Collet on Ø16, end B out"
PACKED = "3 Four-jaw chuck on Ø16, packed 6 off"
TABLE = "4 Rotary table, collet on Ø16, end B up"
VEE = "5 Vee block"


def _flat(sign):
    b = block((8.5, -40, 57.99), (60, 40, 69.5))
    return type(b)(b.shape.rotate((0, 0, sign * 40 + 180)), b.table)


def cells():
    """The operations as cells: (number, words, group, face, tool)."""
    import math

    w = bar(45, 0, 96, (3.0, 0.0))
    r = 15.5
    spots = [(r * math.cos(math.radians(a)), r * math.sin(math.radians(a))) for a in (45, -45)]
    chamfer_a = turned([(0, 4), (0, 20), (2, 20), (2, 6), (1, 5)])
    chamfer_b = turned([(94, 6), (94, 20), (92, 20), (92, 8), (93, 7)])
    steps = [
        ("1", "Face 1 off", FOUR_JAW, A, bar(120, -3, 1)),
        ("2", "Centre A2", FOUR_JAW, A, turned([(0, 0), (0, 2.1), (1, 2.1), (3, 1), (5, 1), (5.6, 0)])),
        ("3", "Turn Ø16 × 46", FOUR_JAW, A, tube(140, 16, -1, 46)),
        ("4", "Turn Ø12 × 22", FOUR_JAW, A, tube(100, 12, -1, 22)),
        ("5", "Chamfer 1 × 45°", FOUR_JAW, A, chamfer_a),
        ("6", "Face to 92 long", COLLET, B, bar(140, 93, 99)),
        ("7", "Turn Ø16 × 24", COLLET, B, tube(140, 16, 69, 99)),
        ("8", "Chamfer 1 × 45°", COLLET, B, chamfer_b),
        ("9", "Turn Ø38 × 10 from 24", COLLET, B, tube(140, 38, 58, 69)),
        ("10", "Turn Ø38 × 12 from 46", PACKED, A, tube(140, 38, 45.9, 58, (6.0, 0.0))),
        ("11", "Mill a flat 8.5 from the axis at 40°", TABLE, B, _flat(1)),
        ("12", "Mill a flat 8.5 from the axis at −40°", TABLE, B, _flat(-1)),
        ("13", "Drill Ø10 on radius 17.5", TABLE, B, bar(10, 40, 68.5, (17.5, 0.0))),
        ("14", "Drill 2 × Ø10 on radius 15.5", TABLE, B, bar(10, 40, 68.5, spots[0]) + bar(10, 40, 68.5, spots[1])),
        ("15", "Cross-drill Ø3, 7 from the face at 90°", VEE, A, cross_bar(3, -30, 30, 8)),
    ]
    out = []
    for number, words, group, face, tool in steps:
        gone, w = w & tool, w - tool
        out.append(Cell(number, words, group, (w.mesh(),), (gone.mesh(),), face))
    return tuple(out), w


def proof():
    """A wanted spindle and five faults."""
    _, w = cells()
    faults = (
        Fault(
            "left on", bar(10, 46, 58, (10.9, -10.9)).mesh(), "hole −45°", "46.0 to 58.0 from A, at 315°", "942", "3.53"
        ),
        Fault(
            "left on",
            tube(38, 16, 45.4, 46, (6.0, 0)).mesh(),
            "journal Ø16, A",
            "45.4 to 46.0 from A, at 0°",
            "560",
            "0.57",
        ),
        Fault("left on", tube(16, 12, 21.6, 23).mesh(), "end Ø12", "20.6 to 22.0 from A, on axis", "70", "0.52"),
        Fault("missing", cross_bar(3, -6, 6, 9).mesh(), "operation 15", "6.6 to 8.5 from A, on axis", "28", "0.49"),
        Fault("left on", tube(16, 15, 91, 93).mesh(), "chamfer B", "91.0 to 92.0 from A, on axis", "24", "0.29"),
    )
    return Proof((w.mesh(),), faults, axes=((0.0, 0.0),))
