"""Do sound methods stay without alarm? Twenty of our own, unlike the demo: no check fails, and nothing is unknown.

They are ordinary jobs of a small workshop, some with next to nothing said of the grip.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.method.bench import work_out

from methodsheets.formula.measure import Measure
from methodsheets.sheet.model import Method

FOLDER = Path(__file__).parents[1] / "methods"
SOUND = sorted(path.stem for path in FOLDER.glob("*.md"))


def test_there_are_twenty() -> None:
    assert len(SOUND) >= 20


@pytest.mark.parametrize("name", SOUND)
def test_a_sound_method_raises_no_alarm(name: str) -> None:
    text = (FOLDER / f"{name}.md").read_text(encoding="utf-8")
    made = work_out(text, slug=name).method
    assert [f"{check.line} {check.key}: {check.words}" for check in made.failed] == []
    assert [str(problem) for problem in made.problems] == []
    # Without a `part` block nobody says what the part is meant to be; everything else is known.
    nobody_says = {"intended-part"} if "```part" not in text else set()
    assert {check.key for check in made.unknown} == nobody_says
    _estimates_say_between_what(made)


def _estimates_say_between_what(made: Method) -> None:
    """What rests on an estimate has both its ends on the sheet; a verdict on the motor says how sure it is."""
    facts = [fact for operation in made.operations for fact in operation.facts]
    for fact in facts:
        gives_numbers = [one for one in fact.working if any(sign.isdigit() for sign in one.result)]
        estimated = any(working.trust.startswith("estimate") for working in gives_numbers)
        if estimated and isinstance(fact.value, Measure):
            assert fact.low is not None, f"{fact.label} is an estimate and does not say between what"
            assert fact.high is not None
            assert fact.low.value < fact.value.value < fact.high.value
            assert fact.note.metric.startswith(f"{fact.low.metric} to {fact.high.metric}")
    for check in made.checks + tuple(check for operation in made.operations for check in operation.checks):
        if check.key == "power":
            assert any(word in check.words.metric for word in ("surely", "likely")), check.words
    assert made.totals is not None
    assert made.totals.one_spread is not None
    assert made.totals.one_spread[0] < made.totals.one_minutes < made.totals.one_spread[1]
