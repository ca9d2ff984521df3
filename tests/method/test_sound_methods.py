"""Do sound methods stay without alarm? Twenty of our own, unlike the demo: no check fails, and nothing is unknown.

They are ordinary jobs of a small workshop, some with next to nothing said of the grip.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.method.bench import work_out

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
