"""Two methods for one part of the club's filing machine, worked straight on the rooms under test."""

from __future__ import annotations

import math

from methodsheets.geometry import Axis, Frame, Outline, Solid, SolidKernel
from methodsheets.workpiece import Cut, Holding, Workpiece, round_bar

STEEL = 7.85e-3
LENGTH, SHAFT, THROW, ECCENTRIC, FROM, TO = 92.0, 16.0, 6.0, 38.0, 46.0, 58.0
FLANGE, FLANGE_TO, FLAT, FLAT_AT = 38.0, 68.0, 8.5, (40.0, -40.0)
HOLE, HOLES = 10.0, ((17.5, 0.0), (15.5, 45.0), (15.5, -45.0))
END, END_TO, CORNER, CHAMFER = 12.0, 22.0, 0.6, 1.0


def lathe(out, axis=(0.0, 0.0), grip_axis=None):
    return Holding("lathe", "chuck", out, axis, grip_axis)


class Bench:
    """A workpiece with a counter of operations and the cuts so far."""

    def __init__(self, kernel: SolidKernel, name: str) -> None:
        self.kernel, self.work, self.cuts = kernel, Workpiece(kernel, name), []

    def turned(self, holding: Holding, outline, ends=None, **more) -> Cut:
        frame = self.work.frame(holding)
        op = f"{self.work.name} {10 * len(self.cuts) + 10}"
        cutter = self.kernel.revolve(frame.outline(outline), op, frame.axis_of())
        return self.cut(cutter, op, ends=ends, **more)

    def cut(self, cutter, op=None, **more) -> Cut:
        self.cuts.append(self.work.cut(cutter, op or f"{self.work.name} {10 * len(self.cuts) + 10}", **more))
        return self.cuts[-1]

    def face(self, holding: Holding, off: float) -> Cut:
        frame = self.work.frame(holding)
        return self.turned(holding, [(0, -2), (60, -2), (60, off), (0, off)], frame.faced(off))

    def turn(self, holding: Holding, diameter: float, end: float, start: float = -1.0) -> Cut:
        return self.turned(holding, [(diameter / 2, start), (60, start), (60, end), (diameter / 2, end)])


def balance_cuts(bench: Bench, top: float) -> None:
    """Two flats on the flange and three holes through the eccentric, end B up; `top` = depth of the flange's face."""
    frame = bench.work.frame(Holding("rotary table", "collet", "B"))
    low, high = frame.span(top, top + FLANGE_TO - TO)
    for a in FLAT_AT:
        bench.cut(bench.kernel.half_space(frame.normal(a), FLAT, "flat", start=low, end=high))
    band = frame.span(top, top + FLANGE_TO - FROM)
    bench.cut([bench.kernel.cylinder(HOLE / 2, *band, "holes", frame.axis_of(r, a)) for r, a in HOLES], "holes")


def one_piece(kernel: SolidKernel) -> Bench:
    bench = Bench(kernel, "one piece")
    bench.work.start(round_bar(kernel, 45, 96, centre=(THROW / 2, 0)), "steel", STEEL)
    a, b = lathe("A", grip_axis=(THROW / 2, 0)), lathe("B")
    bench.face(a, 1)
    bench.turn(a, SHAFT, FROM)
    step = Outline((END / 2, -1), (60, -1), (60, END_TO)).arc((END / 2 + CORNER, END_TO - CORNER), CORNER, 90, 180)
    bench.turned(a, step)
    bench.turned(a, [(END / 2 - CHAMFER - 1, -1), (END / 2 + 1, -1), (END / 2 + 1, CHAMFER + 1)])
    bench.face(b, bench.work.ends.length - LENGTH)
    bench.turn(b, SHAFT, LENGTH - FLANGE_TO)
    bench.turn(b, FLANGE, LENGTH - TO, LENGTH - FLANGE_TO)
    bench.turn(lathe("A", (THROW, 0), (0, 0)), ECCENTRIC, TO, FROM)
    balance_cuts(bench, LENGTH - FLANGE_TO)
    return bench


def disc(kernel: SolidKernel) -> Bench:
    bench = Bench(kernel, "disc")
    bench.work.start(round_bar(kernel, 55, 26, centre=(THROW, 0)), "steel", STEEL)
    bench.face(lathe("A", (THROW, 0)), 1)
    bench.turn(lathe("A", (THROW, 0)), ECCENTRIC, TO - FROM)
    b = lathe("B", grip_axis=(THROW, 0))
    bench.face(b, bench.work.ends.length - (FLANGE_TO - FROM))
    bench.turned(b, [(0, -1), (SHAFT / 2, -1), (SHAFT / 2, 40), (0, 40)])
    bench.turn(b, FLANGE, FLANGE_TO - TO)
    balance_cuts(bench, 0)
    return bench


def two_piece(kernel: SolidKernel) -> Bench:
    bench = Bench(kernel, "spindle")
    bench.work.start(round_bar(kernel, 20, 96), "steel", STEEL)
    a, b = lathe("A"), lathe("B")
    bench.face(a, 1)
    bench.turn(a, SHAFT, 70)
    step = Outline((END / 2, -1), (60, -1), (60, END_TO)).arc((END / 2 + CORNER, END_TO - CORNER), CORNER, 90, 180)
    bench.turned(a, step)
    bench.turned(a, [(END / 2 - CHAMFER - 1, -1), (END / 2 + 1, -1), (END / 2 + 1, CHAMFER + 1)])
    bench.face(b, bench.work.ends.length - LENGTH)
    bench.turn(b, SHAFT, LENGTH - 60)
    ring = disc(kernel).work
    bench.join = bench.work.join("disc", ring, Frame.shifted((0, 0, bench.work.ends.a + FROM - ring.ends.a)))
    return bench


def intended(kernel: SolidKernel) -> Solid:
    """The part as drawn, end A at z = 0."""
    half = Outline((0, 0), (END / 2 - CHAMFER, 0), (END / 2, CHAMFER))
    half = half.arc((END / 2 + CORNER, END_TO - CORNER), CORNER, 180, 90).to(
        (SHAFT / 2, END_TO), (SHAFT / 2, LENGTH), (0, LENGTH)
    )
    part = kernel.revolve(half, "part") + kernel.cylinder(ECCENTRIC / 2, FROM, TO, "part", Axis.upright(THROW))
    part = part + kernel.cylinder(FLANGE / 2, TO, FLANGE_TO, "part")
    for a in FLAT_AT:
        n = (math.cos(math.radians(a)), math.sin(math.radians(a)), 0)
        part = part - kernel.half_space(n, FLAT, "part", start=TO, end=FLANGE_TO)
    for r, a in HOLES:
        t = math.radians(a)
        hole = kernel.cylinder(HOLE / 2, FROM - 1, TO, "part", Axis.upright(r * math.cos(t), r * math.sin(t)))
        part = part - hole
    return part - kernel.cylinder(HOLE / 2, TO, FLANGE_TO, "part", Axis.upright(17.5))
