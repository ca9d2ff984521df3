"""Tool, shank and holder on their way: each wrong method touches the one thing it should, and says which part of the tool.

The geometry is our own: sizes are chosen so that the answer can be seen by subtraction.
"""

from __future__ import annotations

import pytest
from tests.method.bench import THREE_JAW, block, method, work_out

from methodsheets.sheet.model import Check

STOCK = "round 60 mm x 100 mm"
HOLD = block("setup", "machine: lathe", "hold: three-jaw chuck, on 60 mm, grip 25 mm, end A out")
TABLE = block("setup", "machine: mill", "hold: rotary table, on 60 mm, grip 25 mm, end A up")


def op(*lines: str) -> str:
    return block("op", *lines)


def failed(text: str) -> list[tuple[str, str]]:
    return [(check.key, check.words.metric) for check in work_out(text).method.failed]


def passed(text: str, key: str = "reach") -> list[Check]:
    made = work_out(text).method
    assert made.failed == (), [c.words for c in made.failed]
    return [check for check in made.operations[-1].checks if check.key == key]


WRONG = [
    (
        "the shank meets a shoulder that is deeper than the longest edge",
        HOLD + op("turn: to 12 mm, over 40 mm"),
        STOCK, "reach", "the tool touches the work",
    ),
    (
        "the block of a grooving tool meets the jaws",
        THREE_JAW + op("groove: from 42.5 mm, wide 1.5 mm, deep 5 mm", "tool: grooving tool"),
        "", "jaws", "the holder touches the jaw",
    ),
    (
        "the knife meets the tailstock centre on a thin end",
        THREE_JAW + op("centre: 1.6 mm") + op("support: tailstock centre") + op("turn: to 5 mm, over 20 mm"),
        "", "centre", "the tool touches the rotating centre",
    ),
    (
        "the boring bar does not pass the narrow mouth",
        HOLD + op("drill: 16 mm, deep 60 mm") + op("bore: to 30 mm, from 20 mm, deep 40 mm"),
        STOCK, "reach", "the tool touches the work",
    ),
    (
        "the drill chuck meets a boss beside the hole",
        HOLD + op("turn: to 40 mm, over 36 mm") + op("turn: to 24 mm, over 36 mm")
        + TABLE + op("drill: 2 mm, on radius 14 mm, at 0 deg, from 36 mm, deep 48 mm"),
        STOCK, "reach", "the drill chuck touches the work",
    ),
    (
        "the spindle nose comes down on the shaft before the flat is reached",
        HOLD + op("turn: to 36 mm, over 20 mm") + op("turn: to 36 mm, from 20 mm, over 40 mm")
        + TABLE + op("flat: 25 mm, from 60 mm, over 10 mm, at 0 deg"),
        STOCK, "reach", "the spindle nose touches the work",
    ),
    (
        "a left-hand tool meets the shoulder that it starts from",
        HOLD + op("turn: to 40 mm, from 30 mm, over 10 mm, left hand"),
        STOCK, "reach", "the tool touches the work",
    ),
    (
        "a profile falls more steeply than a round-nose tool follows",
        HOLD + op("profile: points (0 mm, 50 mm), (10 mm, 50 mm), (12 mm, 40 mm), (20 mm, 40 mm)"),
        STOCK, "way-in", "steepest fall towards the axis is 68.2°",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("name", "blocks", "stock", "key", "words"), WRONG, ids=[case[0] for case in WRONG])
def test_what_touches_is_found(name: str, blocks: str, stock: str, key: str, words: str) -> None:
    found = failed(method(blocks, stock=stock) if stock else method(blocks))
    assert [k for k, _ in found] == [key], found
    assert words in found[0][1]


def test_a_shoulder_that_the_edge_reaches_is_clear() -> None:
    (check,) = passed(method(HOLD + op("turn: to 24 mm, over 40 mm"), stock=STOCK))
    assert check.words.metric == "tool and shank clear of work, chuck body, jaw on the whole way"


def test_a_longer_blade_clears_the_jaws() -> None:
    text = method(THREE_JAW + op("groove: from 42.5 mm, wide 2 mm, deep 5 mm", "tool: parting tool 2 mm"))
    passed(text)


def test_a_centre_leaves_room_for_the_knife_on_thicker_work() -> None:
    text = method(THREE_JAW + op("centre: 1.6 mm") + op("support: tailstock centre") + op("turn: to 16 mm, over 20 mm"))
    (check,) = passed(text)
    assert "rotating centre" in check.words.metric


def test_a_rounded_corner_is_no_collision() -> None:
    passed(method(HOLD + op("turn: to 40 mm, over 30 mm, corner 2 mm"), stock=STOCK))


def test_a_left_hand_tool_works_behind_a_collar() -> None:
    behind = op("groove: from 38 mm, wide 2 mm, to 40 mm") + op("turn: to 40 mm, from 30 mm, over 10 mm, left hand")
    grooved = HOLD + op("groove: from 38 mm, wide 14 mm, to 40 mm") + behind.split("```\n\n", 1)[1]
    passed(method(grooved, stock=STOCK))


def test_the_parts_round_the_work_are_kept_for_the_figure() -> None:
    made = work_out(method(HOLD + op("turn: to 24 mm, over 40 mm"), stock=STOCK))
    rig = made.live.setups[0].operations[0].rig
    assert rig is not None
    assert {part.name for part in rig.holder} == {"chuck body", "jaw"}
    assert rig.tail == ()
    low_s, low_r, high_s, high_r = rig.tool[0].bounds
    assert (high_r, high_s) == (pytest.approx(-12.0, abs=0.01), pytest.approx(40.96))
    assert low_r < -30.0
    assert low_s < 40.0


def test_the_jaws_stand_out_as_far_as_the_workshop_says() -> None:
    """Grip 25 of 100 long work: the jaws begin at 75, and stand 22 out of the body, so the body begins behind the work."""
    made = work_out(method(HOLD + op("face: 1 mm"), stock=STOCK))
    rig = made.live.setups[0].operations[0].rig
    assert rig is not None
    jaws = [part.bounds for part in rig.holder if part.name == "jaw"]
    (body,) = [part.bounds for part in rig.holder if part.name == "chuck body"]
    assert all(jaw[0] == pytest.approx(75.0) for jaw in jaws)
    assert body[0] == pytest.approx(100.0)
    assert body[3] == pytest.approx(40.0)


def test_a_tool_in_the_tailstock_is_drawn_back_for_the_figure() -> None:
    made = work_out(method(HOLD + op("drill: 10 mm, deep 30 mm"), stock=STOCK))
    rig = made.live.setups[0].operations[0].rig
    assert rig is not None
    assert max(part.bounds[2] for part in rig.tool) == pytest.approx(30.0 + 5.0 / 1.6643, abs=1e-3)
    assert max(part.bounds[2] for part in rig.shown) == pytest.approx(-5.0, abs=1e-6)
