"""Does every line of `How do I say …` work, is every verb there, and are the pages and pictures those of today?"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.method.bench import workshop

from methodsheets.handbook.sayings import FOLDER, GUIDE, GUIDE_FOLDER, guide_page, sayings_page, worked_out
from methodsheets.operations.vocabulary import verbs
from methodsheets.vocabulary.saying import SAYINGS, Saying

ROOT = Path(__file__).parents[2]
SITE = ROOT / "site_demo"


@pytest.mark.parametrize("saying", SAYINGS, ids=[one.key for one in SAYINGS])
def test_a_line_can_be_carried_out(saying: Saying) -> None:
    made = worked_out(saying, workshop())
    assert [str(problem) for problem in made.method.problems] == []
    done = made.live.operations[-1]
    assert done.verb == saying.verb
    assert done.worked.minutes > 0 or done.plan.by_hand > 0 or done.plan.handling > 0


def test_every_verb_has_an_entry_or_another_of_its_meaning() -> None:
    said = {saying.verb for saying in SAYINGS}
    meanings = {verb.make for (name, _), verb in verbs().items() if name in said}
    missing = {name for (name, _), verb in verbs().items() if verb.make not in meanings and name not in said}
    assert missing == set()


def test_no_two_entries_are_of_one_name() -> None:
    assert len({one.key for one in SAYINGS}) == len(SAYINGS)


def test_each_entry_has_a_picture() -> None:
    there = {path.stem for path in (SITE / FOLDER).glob("*.svg") if path.stat().st_size > 1000}
    assert there == {one.key for one in SAYINGS}
    guide = {path.stem for path in (SITE / GUIDE_FOLDER).glob("*.svg") if path.stat().st_size > 1000}
    assert guide == {name for name, _ in GUIDE.values()}


def test_the_guide_has_a_method_for_every_family_of_verbs() -> None:
    """Their verbs, read off their `op` blocks."""
    families = {verb.family for verb in verbs().values()}
    shown = set()
    for name, _ in GUIDE.values():
        lines = (ROOT / "tests" / "methods" / f"{name}.md").read_text(encoding="utf-8").split("```op\n")[1:]
        words = {block.partition(":")[0] for block in lines}
        shown |= {verb.family for (name, _), verb in verbs().items() if name in words}
    assert families == shown


def test_the_pages_are_those_of_today() -> None:
    assert (SITE / "how-do-i-say.md").read_text(encoding="utf-8") == sayings_page()
    texts = {
        name: (ROOT / "tests" / "methods" / f"{name}.md").read_text(encoding="utf-8") for name, _ in GUIDE.values()
    }
    assert (SITE / "guide.md").read_text(encoding="utf-8") == guide_page(texts)
