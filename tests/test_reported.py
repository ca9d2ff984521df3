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
