import math

import pytest

from methodsheets.geometry import Axis, Solid, SolidKernel, compare, faults


@pytest.fixture
def kernel():
    return SolidKernel()


def wanted(kernel):
    """A spindle Ø16 x 60 with an end Ø12 x 22 and a hole Ø4 off centre."""
    part = kernel.cylinder(6, 0, 22, "part") + kernel.cylinder(8, 22, 60, "part")
    return part - kernel.cylinder(2, -1, 61, "part", Axis.upright(3, 0))


def features(kernel):
    return [
        ("end Ø12", kernel.tube(50, 6, -1, 22, "part")),
        ("journal", kernel.tube(50, 8, 22, 61, "part")),
        ("hole", kernel.cylinder(2, -1, 61, "part", Axis.upright(3, 0))),
    ]


def made(kernel, shoulder=22.0, throw=3.0, end=12.0):
    bar = kernel.cylinder(10, 0, 60, "stock")
    cuts = [
        ("10", kernel.tube(40, 8, -1, 61, "10")),
        ("20", kernel.tube(40, end / 2, -1, shoulder, "20")),
        ("30", kernel.cylinder(2, -1, 61, "30", Axis.upright(throw, 0))),
    ]
    taken = []
    for name, cutter in cuts:
        inside, bar = bar.split(cutter)
        taken.append((name, inside))
    return bar, taken


def test_the_part_as_wanted_has_no_difference(kernel):
    bar, taken = made(kernel)
    assert compare(bar, wanted(kernel)) == []
    assert faults(bar, wanted(kernel), features(kernel), taken) == []


@pytest.mark.parametrize("by", [0.006, 0.05, 0.6])
def test_a_shoulder_too_short_leaves_metal_on(kernel, by):
    bar, taken = made(kernel, shoulder=22 - by)
    found = compare(bar, wanted(kernel))
    assert [d.kind for d in found] == ["left on"]
    assert found[0].volume == pytest.approx(math.pi * (64 - 36) * by, rel=1e-3)
    assert (found[0].low[2], found[0].high[2]) == pytest.approx((22 - by, 22), abs=1e-5)
    named = faults(bar, wanted(kernel), features(kernel), taken)
    assert [(d.kind, d.name) for d in named] == [("left on", "end Ø12")]


def test_a_shoulder_too_long_misses_metal_that_its_operation_took(kernel):
    bar, taken = made(kernel, shoulder=22.4)
    named = faults(bar, wanted(kernel), features(kernel), taken)
    assert [(d.kind, d.name) for d in named] == [("missing", "20")]
    assert len(named[0].solid.mesh().drawing()[3]) == 4
    assert named[0].size[2] == pytest.approx(0.4, abs=1e-5)


def test_skins_below_the_limit_do_not_count(kernel):
    bar, _ = made(kernel, end=12.006)
    assert compare(bar, wanted(kernel)) == []
    assert [d.kind for d in compare(bar, wanted(kernel), least=0.002)] == ["left on"]
    thicker, _ = made(kernel, end=12.02)
    assert compare(thicker, wanted(kernel))[0].thickness == pytest.approx(0.01, rel=0.01)


def test_a_hole_out_of_place_is_both(kernel):
    bar, taken = made(kernel, throw=3.3)
    named = faults(bar, wanted(kernel), features(kernel), taken)
    assert {(d.kind, d.name) for d in named} == {("left on", "hole"), ("missing", "30")}


def test_connected_errors_come_apart_by_name(kernel):
    bar, taken = made(kernel, shoulder=21.4, throw=3.5, end=11.0)
    named = faults(bar, wanted(kernel), features(kernel), taken)
    assert {(d.kind, d.name) for d in named} == {
        ("left on", "end Ø12"),
        ("left on", "hole"),
        ("missing", "20"),
        ("missing", "30"),
    }
    whole = compare(bar, wanted(kernel))
    for kind in ("left on", "missing"):
        total = sum(d.volume for d in named if d.kind == kind)
        assert total == pytest.approx(sum(d.volume for d in whole if d.kind == kind), rel=1e-3)


def test_what_belongs_to_nobody_is_still_reported(kernel):
    bar, _ = made(kernel, shoulder=21)
    named = faults(bar, wanted(kernel), features(kernel)[1:], [])
    assert [(d.kind, d.name) for d in named] == [("left on", "")]


@pytest.mark.parametrize("names", [0, 1, 9])
def test_metal_that_nobody_has_touched_is_freed_of_its_skins_once(kernel, monkeypatch, names):
    """It takes the kernel as long as a cut of the whole work; once for every owner would be as many."""
    bar, _ = made(kernel, shoulder=21)
    elsewhere = [(f"{i}", kernel.cylinder(1, 70 + 5 * i, 72 + 5 * i, "x", Axis.upright(30, 0))) for i in range(names)]
    crossing = [("beside", kernel.tube(50, 9, -1, 70, "x"))] * names
    freed = list[float]()
    real = Solid.without_skins
    monkeypatch.setattr(Solid, "without_skins", lambda solid, least: freed.append(solid.volume) or real(solid, least))
    want = wanted(kernel)
    orphan, first = faults(bar, want, elsewhere + crossing, []), len(freed)
    assert [(d.kind, d.name) for d in orphan] == [("left on", "")]
    named = faults(bar, want, elsewhere + features(kernel)[:1], [], left_on=bar - want)
    assert [(d.kind, d.name) for d in named] == [("left on", "end Ø12")]
    assert first == 1
    assert len([volume for volume in freed[first:] if volume > 1]) == 1  # what goes to one owner whole neither


def test_dust_of_equal_solids_made_differently_is_no_difference():
    """Random turned and drilled parts, the same cuts in two orders: crumbs of 1e-12 mm³ must not grow into metal."""
    import numpy as np

    rng = np.random.default_rng(1)
    for _ in range(12):
        kernel = SolidKernel()
        d, length = round(rng.uniform(10, 60), 2), round(rng.uniform(30, 120), 2)
        cutters = [
            kernel.tube(90, round(rng.uniform(2, d / 2 - 0.5), 2), -1, round(rng.uniform(2, length - 5), 2), "t")
            for _ in range(2)
        ]
        for _ in range(3):
            a = rng.uniform(-3, 3)
            n = (math.cos(a), math.sin(a), 0)
            cutters.append(kernel.half_space(n, round(rng.uniform(0.3, 0.48) * d, 3), "f", start=0, end=length / 2))
            at = Axis.through((0, 0, round(rng.uniform(1, length - 1), 2)), n)
            cutters.append(kernel.cylinder(round(rng.uniform(0.3, 2), 2), -60, 60, "x", at))
        parts = []
        for order in (range(len(cutters)), rng.permutation(len(cutters))):
            part = kernel.cylinder(d / 2, 0, length, "stock")
            for i in order:
                part = part - cutters[i]
            parts.append(part)
        assert abs(parts[0].volume - parts[1].volume) < 1e-8
        assert compare(*parts) == []
