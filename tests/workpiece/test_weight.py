import math
from itertools import pairwise

import numpy as np
import pytest

from methodsheets.geometry import Axis, SolidKernel
from methodsheets.workpiece import Body, Workpiece, mass, round_bar, unbalance

from .parts import (
    CHAMFER,
    CORNER,
    ECCENTRIC,
    END,
    END_TO,
    FLANGE,
    FLANGE_TO,
    FLAT,
    FROM,
    HOLE,
    HOLES,
    LENGTH,
    SHAFT,
    STEEL,
    THROW,
    TO,
    disc,
    one_piece,
    two_piece,
)

GAUSS = np.polynomial.legendre.leggauss(200)


def integral(f, a, b):
    x, w = GAUSS
    return float(np.sum(w * f((b - a) / 2 * x + (a + b) / 2)) * (b - a) / 2)


def closed_form():
    """(V, V·x, Izz) of the eccentric spindle without any mesh: handbook formulas and Gauss quadrature."""
    rows = []

    def cyl(d, length, x=0.0, y=0.0, sign=1):
        v = sign * math.pi * d * d / 4 * length
        rows.append((v, v * x, v * (d * d / 8 + x * x + y * y)))

    r0, r1, h = END / 2 - CHAMFER, END / 2, CHAMFER
    rows.append(
        (
            math.pi * h / 3 * (r0 * r0 + r0 * r1 + r1 * r1),
            0,
            math.pi * h / 10 * sum(r0**i * r1 ** (4 - i) for i in range(5)),
        )
    )
    cyl(END, END_TO - CHAMFER)
    cyl(SHAFT, FROM - END_TO)
    cyl(ECCENTRIC, TO - FROM, THROW)
    cyl(SHAFT, LENGTH - FLANGE_TO)
    for r, a in HOLES:
        t = math.radians(a)
        cyl(HOLE, TO - FROM, r * math.cos(t), r * math.sin(t), -1)
    half, beta = math.acos(FLAT / (FLANGE / 2)), math.radians(40)

    def rim(q):
        c = np.cos(np.abs(q) - beta)
        return np.minimum(FLANGE / 2, np.where(c > 0, FLAT / np.maximum(c, 1e-9), FLANGE / 2))

    cuts, t = [0.0, beta + half, math.pi], FLANGE_TO - TO
    spans = list(pairwise(cuts))
    rows.append(
        (
            2 * t * sum(integral(lambda q: rim(q) ** 2 / 2, *s) for s in spans),
            2 * t * sum(integral(lambda q: rim(q) ** 3 / 3 * np.cos(q), *s) for s in spans),
            2 * t * sum(integral(lambda q: rim(q) ** 4 / 4, *s) for s in spans),
        )
    )

    def shell(q):
        ring = END / 2 + CORNER - CORNER * np.cos(q)
        return 2 * math.pi * ring * (CORNER - CORNER * np.sin(q)) * CORNER * np.sin(q)

    rows.append(
        (
            integral(shell, 0, math.pi / 2),
            0,
            integral(lambda q: shell(q) * (END / 2 + CORNER - CORNER * np.cos(q)) ** 2, 0, math.pi / 2),
        )
    )
    return [sum(r[i] for r in rows) for i in range(3)]


def test_the_spindle_weighs_what_the_closed_form_says():
    """The holes reach into the flange only inside the flats, so none of their metal is counted twice."""
    volume, moment, izz = closed_form()
    work = one_piece(SolidKernel()).work
    got = mass(work.state)
    assert got.grams == pytest.approx(volume * STEEL, rel=2e-6)
    assert got.grams * got.centre[0] == pytest.approx(moment * STEEL, rel=5e-5)
    assert got.about((0, 0, 0))[2, 2] == pytest.approx(izz * STEEL, rel=5e-6)
    wobble = unbalance(work.state)
    assert wobble.amount == pytest.approx(moment * STEEL, rel=5e-5)
    assert wobble.angle == pytest.approx(0, abs=1e-6)
    assert wobble.eccentricity == pytest.approx(moment / volume, rel=5e-5)


def test_both_methods_weigh_the_same():
    kernel = SolidKernel()
    one, two = mass(one_piece(kernel).work.state), mass(two_piece(kernel).work.state)
    assert one.grams == pytest.approx(two.grams, rel=1e-9)
    assert one.centre == pytest.approx(two.centre, abs=1e-6)
    assert one.inertia == pytest.approx(two.inertia, rel=1e-6, abs=1e-3)


def test_what_the_cuts_take_adds_up_to_the_change_of_unbalance():
    bench = disc(SolidKernel())
    start, end = mass(bench.cuts[0].before), mass(bench.work.state)
    taken = np.zeros(3)
    for cut in bench.cuts:
        before, after = mass(cut.before), mass(cut.after)
        taken += before.grams * before.centre - after.grams * after.centre
    assert start.grams * start.centre - taken == pytest.approx(end.grams * end.centre, abs=1e-6)


def test_two_metals_balance_about_their_common_centre():
    """Steel bar and brass bar of one size, 20 mm apart: centre by the lever rule."""
    kernel = SolidKernel()
    work = Workpiece(kernel, "pair")
    work.start(round_bar(kernel, 10, 30), "steel", 7.85e-3)
    work.join("brass", Body(kernel.cylinder(5, 0, 30, "b", Axis.upright(20)), "brass", 8.5e-3))
    got = mass(work.state)
    assert got.centre[0] == pytest.approx(20 * 8.5 / (7.85 + 8.5))
    assert got.grams == pytest.approx(math.pi * 25 * 30 * (7.85 + 8.5) * 1e-3)


def test_static_and_couple_unbalance():
    """Two equal weights opposite each other in two planes: no static unbalance, a couple m·r·distance."""
    kernel = SolidKernel()
    work = Workpiece(kernel, "rotor")
    work.start(round_bar(kernel, 10, 40), "steel", STEEL)
    weight = math.pi * 4 * 4 * STEEL
    work.join("w1", Body(kernel.cylinder(2, 0, 4, "w", Axis.upright(0, 20)), "steel", STEEL))
    work.join("w2", Body(kernel.cylinder(2, 36, 40, "w", Axis.upright(0, -20)), "steel", STEEL))
    got = unbalance(work.state)
    assert got.amount == pytest.approx(0, abs=1e-9)
    assert got.couple == pytest.approx(weight * 20 * 36, rel=1e-9)
    assert got.couple_angle == pytest.approx(-90)
    assert got.plane == pytest.approx(20)
    along_x = Workpiece(kernel, "rotor")
    along_x.start(round_bar(kernel, 10, 40), "steel", STEEL)
    along_x.join("w1", Body(kernel.cylinder(2, 36, 40, "w", Axis.upright(20)), "steel", STEEL))
    along_x.join("w2", Body(kernel.cylinder(2, 0, 4, "w", Axis.upright(-20)), "steel", STEEL))
    assert unbalance(along_x.state).couple_angle == pytest.approx(0)
    about = unbalance(work.state, (0, 5))
    assert about.amount == pytest.approx(5 * got.grams)
    assert about.angle == pytest.approx(-90)


def test_no_work_weighs_nothing():
    got = mass(Workpiece(SolidKernel(), "x").state)
    assert got.grams == 0
    assert unbalance(Workpiece(SolidKernel(), "x").state).eccentricity == 0
