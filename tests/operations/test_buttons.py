"""Ends filed round between buttons: their metal against a closed form, the buttons that are told, and planted faults."""

from __future__ import annotations

import functools
import math
from pathlib import Path

import pytest
from tests.method.bench import work_out

from methodsheets.method.done import CheckedOperation
from methodsheets.method.job import Evaluated

TEXT = (Path(__file__).parents[1] / "methods" / "rod-link.md").read_text(encoding="utf-8")
LINE = "```op\nround end: 8 mm, places (52 mm, 8 mm)"


@functools.cache
def link(*changes: tuple[str, str]) -> Evaluated:
    text = TEXT
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return work_out(text, slug="rod-link")


def last(*changes: tuple[str, str]) -> CheckedOperation:
    return link(*changes).live.operations[-1]


def failed(done: CheckedOperation) -> dict[str, str]:
    return {check.key: str(check.words) for check in done.checks if check.state == "failed"}


def test_what_is_filed_off_is_a_half_square_less_a_half_round() -> None:
    for done in link().live.operations[-2:]:
        assert done.volume == pytest.approx((8 * 16 - math.pi * 8**2 / 2) * 5, rel=2e-3)
        assert failed(done) == {}


def test_the_buttons_are_told_and_stand_on_both_sides() -> None:
    """Wide as the end, with a spigot of the hole; above and below the link, and no part of it."""
    done = last()
    told = {fact.key: fact for fact in done.facts}
    assert float(told["button"].value.value) == 16
    assert float(told["button_spigot"].value.value) == 6
    assert done.plan.guide is not None
    for solid, (low, high) in ((done.plan.guide.solid, (3.0, 13.0)), (done.plan.props[0], (-8.0, 2.0))):
        assert (solid.bounds[0][2], solid.bounds[1][2]) == pytest.approx((low, high))
        spigot = math.pi / 4 * 6**2 * 2
        assert solid.volume == pytest.approx(math.pi * 8**2 * 8 + spigot, rel=2e-3)
    assert set(done.after.bodies) == {"work"}


FAULTS = [((LINE, LINE.replace("8 mm,", "7 mm,", 1)), "button-step"), ((LINE, LINE.replace("(52 mm", "(50 mm")), "button"),
          ((LINE, LINE.replace("8 mm,", "4 mm,", 1)), "button"),
          ((LINE, "```op\nround end: 6 mm, places (52 mm, 8 mm), at 90 deg"), "button-step")]  # fmt: skip


@pytest.mark.parametrize(("change", "key"), FAULTS)
def test_a_planted_fault_is_found(change: tuple[str, str], key: str) -> None:
    assert key in failed(last(change)), failed(last(change))
    assert {"intended-part", "finished-surface"} & {check.key for check in link(change).method.failed}


@pytest.mark.parametrize(
    ("line", "code"),
    [("round end: 60 mm, places (52 mm, 8 mm)", "nothing-to-cut"), ("round end: 8 mm", "missing-clause"),
     ("round end: 8 mm, places (8 mm, 8 mm), (52 mm, 8 mm)", "wrong-value"),
     ("round end: 0 mm, places (52 mm, 8 mm)", "wrong-value")],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_a_remedy(line: str, code: str) -> None:
    problem = next(p for p in link((LINE, f"```op\n{line}")).method.problems if p.code == code)
    assert problem.remedy
