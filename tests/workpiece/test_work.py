import numpy as np
import pytest

from methodsheets.geometry import Axis, Frame, SolidKernel, compare
from methodsheets.workpiece import Body, Ends, Holding, Workpiece, largest, plate, round_bar, touched_surfaces, towards

from .parts import STEEL, Bench, intended, lathe, one_piece, two_piece


@pytest.fixture
def kernel():
    return SolidKernel()


@pytest.fixture
def bar(kernel):
    work = Workpiece(kernel, "bar")
    work.start(round_bar(kernel, 20, 60), "steel", STEEL)
    return work


def test_one_piece_comes_out_as_drawn(kernel):
    work = one_piece(kernel).work
    want = intended(kernel).shifted((0, 0, work.ends.a))
    assert compare(work.state.solid, want) == []
    assert work.ends == Ends(1, 93)


def test_two_pieces_come_out_as_drawn_and_as_the_one_piece(kernel):
    bench = two_piece(kernel)
    assert bench.join.overlap == {"work": 0}
    assert bench.join.gap < 1e-6
    assert compare(bench.work.state.solid, intended(kernel).shifted((0, 0, bench.work.ends.a))) == []
    assert compare(bench.work.state.solid, one_piece(kernel).work.state.solid) == []


def test_every_cut_adds_up_and_leaves_the_states_before_it_alone(kernel):
    bench = one_piece(kernel)
    for cut in bench.cuts:
        assert cut.before.volume - cut.volume == pytest.approx(cut.after.volume, abs=1e-7)
        assert cut.removes
        assert cut.fell_apart == ()
        assert cut.grams == pytest.approx(cut.volume * STEEL)
    assert bench.cuts[0].before.ends == Ends(0, 96)
    assert bench.cuts[0].after.ends == Ends(1, 96)
    with pytest.raises(TypeError):
        bench.cuts[0].after.bodies["work"] = None


def test_a_cut_in_the_air_removes_nothing_and_keeps_the_solid(kernel, bar):
    before = bar.state
    for cutter in (
        kernel.tube(40, 12, 0, 50, "10"),
        kernel.cylinder(3, 70, 80, "10"),
        kernel.tube(40, 10, 0, 50, "10"),
    ):
        cut = bar.cut(cutter, "10")
        assert not cut.removes
        assert cut.removed == {}
        assert bar.bodies["work"].solid is before.bodies["work"].solid


def test_several_cutters_are_one_operation(kernel, bar):
    cut = bar.cut([kernel.cylinder(1, -1, 61, "holes", Axis.upright(x, 0)) for x in (-5, 0, 5)], "holes")
    assert cut.volume == pytest.approx(3 * np.pi * 60)
    assert len(cut.removed["work"].pieces()) == 3
    assert bar.cut([], "nothing").removed == {}


def test_falling_apart_is_noticed_unless_it_was_meant(kernel, bar):
    ring = kernel.tube(40, 4, 20, 22, "neck")
    assert bar.cut(ring, "neck").fell_apart == ()
    drill = kernel.cylinder(5, -1, 30, "drill")
    assert bar.cut(drill, "drill").fell_apart == ("work",)


def test_parting_keeps_the_piece_in_front_and_offers_the_stub(kernel, bar):
    frame = bar.frame(lathe("A"))
    low, high = frame.span(40, 42)
    cut = bar.cut(kernel.cylinder(30, low, high, "part"), "part", splits=True)
    assert cut.fell_apart == ()
    assert len(cut.pieces["work"]) == 2
    kept = bar.keep(towards("A", low))
    assert bar.ends == Ends(0, 40)
    assert bar.state.volume == pytest.approx(np.pi * 100 * 40)
    assert [s.volume for s in kept.scrap["work"]] == pytest.approx([np.pi * 100 * 18])
    assert kept.before.volume == pytest.approx(np.pi * 100 * 58)


def test_keeping_the_far_piece_moves_the_other_end(kernel, bar):
    bar.cut(kernel.box((-20, -20, 40), (20, 20, 42), "saw"), "saw", splits=True)
    bar.keep(towards("B", 41))
    assert bar.ends == Ends(42, 60)
    pieces = bar.bodies["work"].solid.pieces()
    assert largest(pieces)(pieces[0])
    with pytest.raises(ValueError, match="no piece of `work`"):
        bar.keep(lambda piece: False)


def test_only_the_named_body_is_cut(kernel, bar):
    ring = Body(kernel.tube(15, 10, 20, 30, "ring"), "bronze", 8.8e-3)
    bar.join("ring", ring)
    cut = bar.cut(kernel.cylinder(2, -1, 61, "hole", Axis.upright(11, 0)), "hole", body="ring")
    assert set(cut.removed) == {"ring"}
    both = bar.cut(kernel.cylinder(2, -40, 40, "pin hole", Axis.through((0, 0, 25), (0, 1, 0))), "pin hole")
    assert set(both.removed) == {"work", "ring"}
    with pytest.raises(KeyError):
        bar.cut(kernel.cylinder(2, 0, 1, "x"), "x", body="bush")


def test_a_body_cut_away_altogether_leaves_the_work(kernel, bar):
    bar.join("pin", Body(kernel.cylinder(2, 60, 65, "pin"), "steel", STEEL))
    cut = bar.cut(kernel.cylinder(20, 60, 70, "dress"), "dress")
    assert cut.vanished == ("pin",)
    assert set(bar.bodies) == {"work"}


def test_joining_reports_how_nominal_shapes_meet(kernel, bar):
    loose = Body(kernel.tube(15, 10.3, 20, 30, "ring"), "bronze", 8.8e-3)
    join = bar.join("ring", loose)
    assert join.gap == pytest.approx(0.3, abs=0.01)
    assert join.overlap["work"] == 0
    tight = bar.join("collar", Body(kernel.tube(15, 9.99, 40, 45, "c"), "steel", STEEL))
    assert tight.overlap["work"] == pytest.approx(np.pi * (100 - 9.99**2) * 5, rel=1e-3)
    assert tight.overlap["ring"] == 0
    with pytest.raises(ValueError, match="already there"):
        bar.join("ring", loose)


def test_a_joined_assembly_brings_its_pieces_marks_and_surfaces(kernel, bar):
    other = Workpiece(SolidKernel(), "rim")
    other.start(round_bar(other.kernel, 8, 10, centre=(30, 0)), "brass", 8.5e-3)
    other.join("cap", Body(other.kernel.cylinder(4, 10, 12, "cap", Axis.upright(30)), "brass", 8.5e-3))
    other.mark([np.array([[34.05, 0, 0], [34.05, 0, 5.0]])], "scribed", "line")
    bar.join("rim", other, Frame.shifted((0, 0, 60)))
    assert set(bar.bodies) == {"work", "rim, work", "rim, cap"}
    assert bar.marks[0].points[1] == pytest.approx([34.05, 0, 65])
    axes = {s.point for s in bar.bodies["rim, cap"].solid.mesh().surfaces if s.kind == "cylinder"}
    assert axes == {(30, 0, 0)}


def test_the_end_can_be_set(bar):
    bar.set_end("B", 59)
    assert bar.ends == Ends(0, 59)
    assert bar.frame(lathe("B")).z_of(1) == 58


def test_marks_go_with_the_metal_under_them(kernel, bar):
    line = np.array([[10.05, 0, 5], [10.05, 0, 35.0]])
    far = np.array([[-10.05, 0, 5], [-10.05, 0, 35.0]])
    bar.mark([line, far], "scribed", "10")
    bar.cut(kernel.cylinder(2, -20, 20, "hole", Axis.through((0, 0, 45), (1, 0, 0))), "hole")
    assert len(bar.marks) == 2
    cut = bar.cut(kernel.box((5, -5, 15), (20, 5, 20), "slot"), "slot")
    assert len(cut.before.marks) == 2
    lengths = sorted(float(np.ptp(m.points[:, 2])) for m in bar.marks)
    assert lengths == pytest.approx([10, 15, 30], abs=1.0)
    bar.cut(kernel.tube(40, 9, -1, 61, "turn"), "turn")
    assert bar.marks == ()


def test_work_that_is_not_there_says_so(kernel):
    work = Workpiece(kernel, "nothing")
    assert work.state.volume == 0
    for ask in (lambda: work.state.bounds, lambda: work.state.solid):
        with pytest.raises(ValueError, match="starts with its stock"):
            ask()


def test_six_faces_of_a_clamp_block(kernel):
    """Milled 64 x 40 x 28 down to 60 x 36 x 24 from all six sides, 2 mm each."""
    work = Workpiece(kernel, "block")
    work.start(plate(kernel, 64, 40, 28), "steel", STEEL)
    poses = [
        ("top", "front"),
        ("front", "bottom"),
        ("back", "top"),
        ("bottom", "front"),
        ("left", "front"),
        ("right", "front"),
    ]
    for up, towards_you in poses:
        pose = work.state.pose(up, towards_you)
        length, width, _ = pose.size
        cutter = kernel.box((-5, -5, -2), (length + 5, width + 5, 5), up, pose.frame)
        cut = work.cut(cutter, up)
        assert cut.volume == pytest.approx(length * width * 2)
    low, high = work.state.bounds
    assert (low, high) == (pytest.approx([2, 2, 2]), pytest.approx([62, 38, 26]))
    pose = work.state.pose("bottom", "front")
    hole = kernel.cylinder(3.4, -5, 30, "hole", pose.axis_of(8, 18))
    cut = work.cut(hole, "hole")
    assert cut.volume == pytest.approx(np.pi * 3.4**2 * 24)
    assert set(touched_surfaces(cut)) == {"top", "bottom"}
    assert cut.removed["work"].bounds[0][:2] == pytest.approx([62 - 8 - 3.4, 20 - 3.4], abs=0.01)


def test_a_state_gives_profile_and_section_in_shop_lengths(kernel):
    bench = Bench(kernel, "stepped")
    bench.work.start(round_bar(kernel, 20, 60), "steel", STEEL)
    bench.turn(lathe("B"), 12, 22)
    frame = bench.work.frame(lathe("B"))
    got = bench.work.state.profile(frame)
    assert np.round(np.column_stack([got.lengths, got.outer]), 4).tolist() == [[0, 6], [22, 6], [22, 10], [60, 10]]
    assert bench.work.state.section(frame, 10).area == pytest.approx(np.pi * 36)
    assert bench.work.state.swing(frame, 0, 22) == 6
    assert bench.work.state.swing(frame) == 10
    part = bench.work.state.profile(frame, 10, 30)
    assert part.lengths[[0, -1]] == pytest.approx([10, 30], abs=1e-4)


def test_a_tool_that_stands_in_the_work_is_found(kernel, bar):
    bar.cut(kernel.cylinder(3, 40, 61, "hole", Axis.upright(4, 0)), "hole")
    drill = kernel.cylinder(3, 40, 120, "drill", Axis.upright(4, 0))
    chuck = kernel.cylinder(15, 58, 90, "chuck", Axis.upright(4, 0))
    assert bar.state.overlap(drill) == {}
    assert bar.state.overlap(chuck)["work"] == pytest.approx(np.pi * (100 - 9) * 2, rel=1e-4)
    assert bar.state.overlap(kernel.cylinder(3, 200, 210, "far")) == {}


@pytest.mark.parametrize("facets", [48, 180])
def test_the_part_comes_out_at_other_facet_counts(facets):
    kernel = SolidKernel(facets)
    work = two_piece(kernel).work
    assert compare(work.state.solid, intended(kernel).shifted((0, 0, work.ends.a))) == []


def test_holding_is_plain_data():
    assert Holding("lathe", "collet") == Holding("lathe", "collet")
    assert len({Holding("lathe", "collet"), Holding("lathe", "collet")}) == 1
