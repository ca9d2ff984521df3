"""Does what was once reported wrong stay mended? One case a report, each a method as somebody wrote it.

The methods are our own; what is compared is geometry with geometry.
"""

from __future__ import annotations

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.sheet.model import Method


def made(blocks: str, *, stock: str = "round 40 mm x 60 mm", material: str = "EN1A", front: str = "") -> Method:
    return work_out(method(blocks, stock=stock, material=material, front=front)).method


def failed(found: Method) -> list[tuple[str, int]]:
    return [(check.key, check.line) for check in found.failed]


def setup(hold: str, machine: str = "lathe") -> str:
    return block("setup", f"machine: {machine}", f"hold: {hold}")


def op(*lines: str) -> str:
    return block("op", *lines)


# ------------------------------------------------------------------------------------------------ no grip said
SHORT = setup("three-jaw chuck, end A out")


def test_a_bar_turned_over_its_whole_length_meets_the_jaws_with_no_grip_said() -> None:
    assert ("jaws", 14) in failed(made(SHORT + op("turn: to 38 mm, over 60 mm")))


def test_a_mandrel_needs_a_hole_with_no_grip_said() -> None:
    assert failed(made(setup("mandrel, end A out") + op("turn: to 38 mm, over 20 mm")))[0] == ("grip", 10)


def test_what_was_assumed_is_shown_as_assumed() -> None:
    found = made(SHORT + op("turn: to 38 mm, over 20 mm"))
    assert not found.failed
    grip = next(fact for fact in found.setups[0].facts if fact.key == "grip")
    assert getattr(grip.value, "value", None) == 22.0
    assert "assumed: the whole jaw" in str(grip.note)


def test_work_that_only_stands_has_no_grip_to_assume() -> None:
    """Press blocks and bricks take hold of nothing: `grip 91 (assumed), the clamps lie on its shoulder` is nonsense."""
    press = block("setup", "machine: press", "hold: press blocks, end A up") + op("press on: disc, from 20 mm")
    stood = made(press).setups[0]
    assert [fact.key for fact in stood.facts if fact.key == "grip"] == []
    assert "assumed" not in stood.words.metric


@pytest.mark.parametrize("hold", ["three-jaw chuck", "four-jaw chuck", "collet chuck", "mandrel"])
def test_a_length_of_grip_without_its_size_takes_the_size_that_is_there(hold: str) -> None:
    """`grip 15 mm` and no `on`: the size is looked for at that end, and shown as assumed."""
    bored = setup("three-jaw chuck, end A out") + op("drill: 12 mm, through") if hold == "mandrel" else ""
    found = made(bored + setup(f"{hold}, grip 15 mm, end B out") + op("face: 1 mm"), stock="round 16 mm x 60 mm")
    held = found.setups[-1]
    grip = next(fact for fact in held.facts if fact.key == "grip")
    assert getattr(grip.value, "value", None) == 15.0
    assert "(assumed)" in str(grip.note)
    assert [check.state for check in held.checks if check.key == "grip"] == ["passed"]


# ------------------------------------------------------------------------------------------------ named, and not there
NAMED = {
    "slot: wide 25 mm, deep 5 mm\ntool: end mill 25 mm": "tool-size",
    "slot: wide 10 mm, deep 5 mm\ntool: end mill 12 mm": "tool-size",
    "vee: wide 12 mm, angle 60 deg\ntool: 90 degree cutter": "tool-shape",
}
TURNED = {
    "turn: to 38 mm, over 20 mm\nfeed: 2 mm": "feed",
    "turn: to 30 mm, over 20 mm\ntool: round-nose tool": "corner",
    "drill: 6 mm, deep 30 mm\ntool: knife tool": "tool-kind",
    "drill: 25 mm, deep 40 mm": "tool-size",
    "countersink: 28 mm": "tool-size",
    "thread: M10, over 15 mm\ntool: die M10": "blank",
}


@pytest.mark.parametrize("line", [*NAMED, *TURNED])
def test_a_cut_that_its_tool_cannot_make_fails(line: str) -> None:
    if line in NAMED:
        found = made(setup("machine vice, up top, towards front", "mill") + op(*line.split("\n")),
                     stock="plate 60 mm x 40 mm x 20 mm")  # fmt: skip
    else:
        drilled = op("drill: 6 mm, deep 30 mm") if line.startswith("countersink") else ""
        found = made(setup("three-jaw chuck, on 40 mm, grip 15 mm, end A out") + drilled + op(*line.split("\n")))
    assert {**NAMED, **TURNED}[line] in {key for key, _ in failed(found)}


# ------------------------------------------------------------------------------------------------ words without effect
WITHOUT_EFFECT = {
    "three-jaw chuck, on 40 mm, grip 15 mm, end A out, support banana": "wrong-value",
    "machine vice, up top, towards front, grip 10 mm, outside jaws": "idle-clause",
    "machine vice, up top, towards front, grip 10 mm, inside": "idle-clause",
    "machine vice, up top, tilted 10 deg": "unknown-clause",
}


@pytest.mark.parametrize("hold", WITHOUT_EFFECT)
def test_a_word_of_the_holding_without_effect_is_refused(hold: str) -> None:
    vice = hold.startswith("machine")
    stock = "plate 60 mm x 40 mm x 20 mm" if vice else "round 40 mm x 60 mm"
    (problem,) = made(setup(hold, "mill" if vice else "lathe") + op("face: 1 mm"), stock=stock).problems
    assert (problem.code, problem.place.line) == (WITHOUT_EFFECT[hold], 10)
    assert problem.remedy


def test_the_assumed_grip_leaves_room_for_the_cuts() -> None:
    found = made(SHORT + op("face: 1 mm") + op("turn: to 38 mm, over 45 mm"))
    assert not found.failed
    grip = next(fact for fact in found.setups[0].facts if fact.key == "grip")
    assert getattr(grip.value, "value", None) == 11.0  # 60 long, 1 faced off, 45 turned, 3 of room


@pytest.mark.parametrize("stock", ["hexagon 24 mm x 60 mm", "square 24 mm x 60 mm", "flat 30 mm x 20 mm x 60 mm"])
def test_bars_with_flats_are_gripped_on_them(stock: str) -> None:
    holder = "three-jaw" if "hex" in stock else "four-jaw"
    found = made(setup(f"{holder} chuck, end A out") + op("face: 1 mm"), stock=stock)
    assert not found.failed
    assert any(check.key == "grip" and "flats" in str(check.words) for check in found.setups[0].checks)


def test_work_in_the_vice_is_brought_up_as_far_as_the_cuts_need() -> None:
    found = made(
        setup("machine vice, up top, towards front", "mill") + op("step: side front, wide 5 mm, deep 12 mm"),
        stock="plate 60 mm x 40 mm x 20 mm",
    )
    assert not found.failed
    grip = next(fact for fact in found.setups[0].facts if fact.key == "grip")
    assert getattr(grip.value, "value", None) == 7.0


def test_what_nothing_is_known_of_is_counted() -> None:
    found = made(
        setup("three-jaw chuck, end A out") + op("face: 1 mm"),
        stock="casting, points (0 mm, 30 mm), (40 mm, 50 mm)",
    )
    assert [check.key for check in found.unknown if check.key == "grip"] == ["grip"]


# ------------------------------------------------------------------------------------------------ tight is not passed
def test_a_motor_above_its_power_fails() -> None:
    heavy = op("turn: to 36 mm, over 20 mm", "depth: 2 mm", "feed: 0.2 mm", "speed: 60 m/min")
    found = made(setup("three-jaw chuck, on 40 mm, grip 20 mm, end A out") + heavy, material="EN8")
    power = next(check for check in found.all_checks if check.key == "power")
    assert power.state == "failed"
    assert power.verdict == "failed"


# ------------------------------------------------------------------------------------------------ false alarms
@pytest.mark.parametrize(
    ("name", "spoilt"),
    [
        ("a chamfered end in the jaws", op("chamfer: 1 mm")),
        ("a cross hole in the jaws", ""),
        ("a keyway in the jaws", ""),
    ],
)
def test_a_seat_that_lacks_a_little_still_holds(name: str, spoilt: str) -> None:
    first = setup("three-jaw chuck, on 40 mm, grip 15 mm, end A out") + op("face: 1 mm") + spoilt
    if "hole" in name:
        first += setup("vee block, on 30 mm, grip 25 mm, end A out", "mill") + op("cross-drill: 4 mm, from face 10 mm")
    if "keyway" in name:
        first += setup("vee block, on 30 mm, grip 30 mm, stick-out 29 mm, end A out", "mill")
        first += op("keyway: wide 6 mm, deep 3.5 mm, over 20 mm")
    size = "30" if spoilt == "" else "40"
    first = first.replace("on 40 mm", f"on {size} mm")
    second = setup(f"three-jaw chuck, on {size} mm, grip 20 mm, end B out") + op("face: 1 mm")
    assert not made(first + second, stock=f"round {size} mm x 60 mm").failed, name


def test_wide_work_may_be_drilled_and_faced_in_front_of_the_cross_slide() -> None:
    hold = setup("three-jaw chuck, on 60 mm, grip 20 mm, end A out")
    wide = "turned, points (0 mm, 130 mm), (20 mm, 130 mm), (20 mm, 60 mm), (50 mm, 60 mm)"
    found = made(hold + op("face: 1 mm") + op("centre: 3.15 mm, to 6 mm") + op("drill: 10 mm, deep 20 mm"), stock=wide)
    assert not found.failed


def test_a_thin_disc_is_held_by_all_that_it_is_thick() -> None:
    hold = setup("three-jaw chuck, on 60 mm, grip 7 mm, end A out, soft jaws")
    assert not made(hold + op("face: 0.5 mm"), stock="round 60 mm x 9 mm").failed


def test_work_that_overhangs_the_vice_is_cut_beside_the_jaws() -> None:
    hold = setup("machine vice, up top, towards front, grip 15 mm", "mill")
    beside = op("step: side left, wide 8 mm, deep 12 mm")
    assert not made(hold + beside, stock="plate 100 mm x 40 mm x 20 mm").failed
    over = op("step: side left, wide 20 mm, deep 12 mm")
    assert failed(made(hold + over, stock="plate 100 mm x 40 mm x 20 mm")) == [("jaws", 14)]


# ------------------------------------------------------------------------------------------------ the guilty line
PART = "- round: 40 mm, over 58 mm\n- drill: 10 mm, deep 20 mm\n- groove: from 10 mm, wide 4 mm, to 36 mm"
WHOLE = "three-jaw chuck, on 40 mm, grip 20 mm, end A out"


@pytest.mark.parametrize("off", ["1.4 mm", "0.6 mm"])
def test_a_wrong_size_in_one_facing_names_that_facing_only(off: str) -> None:
    blocks = block("part", PART) + setup(WHOLE) + op(f"face: {off}") + op("drill: 10 mm, deep 20 mm")
    blocks += op("groove: from 10 mm, wide 4 mm, to 36 mm")
    blocks += setup("three-jaw chuck, on 40 mm, grip 20 mm, end B out") + op("face: 1 mm")
    found = made(blocks)
    text = method(blocks)
    lines = {check.line for check in found.failed}
    facings = {n for n, line in enumerate(text.split("\n"), 1) if line.startswith("face:")}
    assert found.failed
    assert lines <= facings, [(check.key, check.line, str(check.words)) for check in found.failed]


# ------------------------------------------------------------------------------------------------ what was told badly
def test_a_hole_that_is_too_shallow_is_not_called_missing() -> None:
    blocks = setup(WHOLE) + op("drill: 8.5 mm, deep 20 mm") + op("tap: M10, deep 30 mm")
    check = next(one for one in made(blocks).failed)
    assert "ends before the thread" in str(check.words)
    assert "deeper" in check.advice[1]


def test_a_hole_as_large_as_the_thread_is_told_without_percent() -> None:
    blocks = setup(WHOLE) + op("drill: 12 mm, deep 30 mm") + op("tap: M6, deep 20 mm")
    check = next(one for one in made(blocks).failed if one.key == "tapping-drill")
    assert "%" not in str(check.words)


@pytest.mark.parametrize(
    "line",
    [
        "chamfer: 0 mm",
        "knurl: over 10 mm, pitch 0 mm",
        "groove: from 5 mm, wide 0 mm, to 30 mm",
        "drill: 0 mm, deep 5 mm",
    ],
)
def test_a_size_of_nothing_is_refused_at_its_place(line: str) -> None:
    problems = made(setup(WHOLE) + op(line)).problems
    assert [(one.place.line, one.code) for one in problems] == [(14, "wrong-value")]


@pytest.mark.parametrize(
    "line",
    [
        "groove: from 5 mm, wide 4 mm, deep 2 mm, to 30 mm",
        "face: 1 mm, to length 55 mm",
    ],
)
def test_two_clauses_that_disagree_are_refused(line: str) -> None:
    assert [one.code for one in made(setup(WHOLE) + op(line)).problems] == ["contradiction"]


# ------------------------------------------------------------------------------------------------ presses, threads
def test_a_press_fit_beyond_the_press_and_beyond_the_hub_fails() -> None:
    fit = 'seat = fit(24 mm, "H7/u6")\npress = press_fit(seat, length=22 mm, hub=30 mm, hub_material="EN-GJL-250", shaft_material="EN1A")'
    blocks = block("calc", fit) + setup(WHOLE) + op("face: 1 mm")
    assert [check.key for check in made(blocks).failed] == ["hub"]


def test_a_thread_of_the_part_that_nobody_cuts_fails() -> None:
    part = block("part", "- round: 40 mm, over 59 mm\n- drill: 8.5 mm, deep 30 mm\n- tap: M10, deep 20 mm")
    cut = setup(WHOLE) + op("face: 1 mm") + op("drill: 8.5 mm, deep 30 mm")
    assert [check.key for check in made(part + cut).failed] == ["intended-part"]
    assert not made(part + cut + op("tap: M10, deep 20 mm")).failed


# ------------------------------------------------------------------------------------------------ joints
def pressed(turned: str, size: str = "24 mm") -> Method:
    """A ring pressed on a spigot, turned by an angle."""
    ring = block(
        "setup",
        "piece: ring",
        "stock: round 40 mm x 12 mm",
        "machine: lathe",
        "hold: three-jaw chuck, on 40 mm, grip 8 mm, end A out",
    )
    ring += op("drill: 10 mm, through") + op("drill: 20 mm, through") + op(f"bore: to {size}, through")
    shaft = block(
        "setup",
        "piece: shaft",
        "stock: round 30 mm x 60 mm",
        "machine: lathe",
        "hold: three-jaw chuck, on 30 mm, grip 20 mm, end A out",
    )
    shaft += op("turn: to 24 mm, over 15 mm")
    press = block("setup", "piece: shaft", "machine: press", "hold: press blocks, end A up") + op(
        f"press on: ring, at 3 mm, turned {turned}"
    )
    text = method(ring + shaft + press).replace("stock: round 40 mm x 60 mm\n", "")
    return work_out(text).method


@pytest.mark.parametrize("turned", ["0 deg", "1 deg", "17.3 deg", "45 deg", "100.9 deg"])
def test_a_ring_sits_on_its_shaft_at_any_angle(turned: str) -> None:
    assert not pressed(turned).failed


def test_a_ring_that_is_too_small_overlaps_at_any_angle() -> None:
    """40 µm at 24 mm is a fit (H7/u6 has up to 61 µm, ISO 286-2, from memory); a quarter of a millimetre is a clash."""
    assert [check.key for check in pressed("17.3 deg", "23.75 mm").failed] == ["overlap"]
    assert not pressed("17.3 deg", "23.96 mm").failed


def test_a_shoulder_deeper_than_the_edge_says_how_it_is_done() -> None:
    hold = setup("three-jaw chuck, on 60 mm, grip 15 mm, end A out")
    found = made(hold + op("turn: to 12 mm, over 6 mm", "depth: 0.5 mm"), stock="round 60 mm x 40 mm")
    remedy = next(check.advice[1] for check in found.failed if check.key == "reach")
    assert "`face: 6 mm, down to 12 mm`" in remedy
    assert not made(hold + op("face: 6 mm, down to 12 mm"), stock="round 60 mm x 40 mm").failed


# ------------------------------------------------------------------------------------------------ places, threads
def test_a_pitch_circle_about_a_place_of_a_block_is_drilled_all_round() -> None:
    part = block(
        "part",
        "- block: 60 mm x 40 mm x 25 mm\n- drill: 5 mm, deep 8 mm, places (40 mm, 20 mm), (20 mm, 20 mm), (30 mm, 30 mm), (30 mm, 10 mm)",
    )
    hold = setup("machine vice, up top, towards front, grip 10 mm", "mill")
    cut = op("drill: 5 mm, deep 8 mm, places (30 mm, 20 mm), on circle 20 mm, divide 4")
    found = made(part + hold + cut, stock="plate 60 mm x 40 mm x 25 mm")
    assert not found.failed
    assert not found.unknown


@pytest.mark.parametrize(("inside", "keys"), [("M12", []), ("M12 x 1", ["seat"])])
def test_two_pieces_that_are_screwed_together_have_one_thread(inside: str, keys: list[str]) -> None:
    hole = {"M12": "10.2 mm", "M12 x 1": "11 mm"}[inside]
    cap = block(
        "setup",
        "piece: cap",
        "stock: round 30 mm x 20 mm",
        "machine: lathe",
        "hold: three-jaw chuck, on 30 mm, grip 10 mm, end A out",
    )
    cap += op(f"drill: {hole}, through") + op(f"tap: {inside}, through")
    body = block(
        "setup",
        "piece: body",
        "stock: round 20 mm x 60 mm",
        "machine: lathe",
        "hold: three-jaw chuck, on 20 mm, grip 20 mm, end A out",
    )
    body += op("turn: to 12 mm, over 25 mm") + op("thread: M12, over 20 mm, die")
    fit = block("setup", "piece: body", "machine: bench", "hold: by hand, end A up") + op("screw on: cap, at 0 mm")
    text = method(cap + body + fit).replace("stock: round 40 mm x 60 mm\n", "")
    assert [check.key for check in work_out(text).method.failed] == keys


# ------------------------------------------------------------------------------------------------ sizes that are measured
@pytest.mark.parametrize(
    ("line", "check"),
    [
        ("turn: to 30 mm, over 20 mm", "32 mm with micrometer"),
        ("face: to length 58 mm", "57 mm with caliper"),
        ("drill: 8 mm, deep 20 mm", 'limits(10 mm, "H7") with plug gauge'),
    ],
)
def test_a_size_that_is_measured_is_one_that_is_cut(line: str, check: str) -> None:
    assert failed(made(setup(WHOLE) + op(line, f"check: {check}"))) == [("measured-size", 14)]
