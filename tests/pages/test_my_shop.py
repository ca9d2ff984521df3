"""Does every page say one of three things of a method in a workshop, and what to buy or borrow to make it work?"""

from __future__ import annotations

from dataclasses import replace

import pytest
import samples
from test_trouble import HANDBOOK, fails, html

from methodsheets.operations.cautions import TOPICS, WORDS, topic
from methodsheets.pages import wording
from methodsheets.pages.mates import goes_with, sizes_of
from methodsheets.pages.my_shop import TO_BUY, TO_GO_ELSEWHERE, Answer, answer, to_make_it_work
from methodsheets.pages.site import Site
from methodsheets.pages.summary import summary_blocks
from methodsheets.pages.trouble import troubles
from methodsheets.pages.trouble_box import verdict
from methodsheets.sheet.check_kinds import CHECK_KINDS
from methodsheets.sheet.limit import Mate
from methodsheets.sheet.model import Caution, Check, Method
from methodsheets.sheet.words import Words


def in_another_shop(key: str) -> Method:
    """A method whose last operation fails one check in a workshop that is not its author's."""
    bad, operation = fails()
    check = Check(key, "failed", Words("no drill Ø15 here; the nearest is Ø14"))
    last = replace(operation, checks=(check,))
    setup = replace(bad.setups[0], operations=(*bad.setups[0].operations[:-1], last))
    return replace(bad, setups=(setup, *bad.setups[1:]), own_workshop=False)


def test_every_check_is_of_one_sort() -> None:
    assert set(CHECK_KINDS) >= TO_BUY | TO_GO_ELSEWHERE
    assert not TO_BUY & TO_GO_ELSEWHERE


@pytest.mark.parametrize("key", sorted(CHECK_KINDS))
def test_a_page_says_one_of_three_things_and_what_would_mend_it(key: str) -> None:
    there = in_another_shop(key)
    page = html(summary_blocks(there, Site(HANDBOOK).places))
    if key in TO_GO_ELSEWHERE:
        assert answer(there) is Answer.NOT
        assert "Does not work as written in" in page
        assert "larger machine" in page
    else:
        assert answer(there) is Answer.CHANGES
        assert verdict(there) == "Works with 1 change"
        assert "Works with these changes in" in page
        assert ("Buy or borrow" in page) == (key in TO_BUY)
    assert to_make_it_work(there, troubles(there)[0]).endswith(".")


def test_a_fault_in_the_authors_own_workshop_is_one_of_the_method() -> None:
    assert answer(replace(in_another_shop("tool-size"), own_workshop=True)) is Answer.NOT


def test_proven_belongs_to_the_workshop_in_which_it_was_made() -> None:
    bad, _ = fails()
    made = replace(bad, status="proven", own_workshop=True)
    assert wording.status(made) == wording.STATUS["proven"]
    assert wording.status(replace(made, own_workshop=False)) == wording.PROVEN_ELSEWHERE
    assert wording.status(replace(made, own_workshop=False, status="draft")) == wording.STATUS["draft"]


@pytest.mark.parametrize("key", sorted({*WORDS, "own", "something-new"}))
def test_a_caution_has_a_topic_and_no_sentence(key: str) -> None:
    said = topic(Caution(key, "A whole sentence. And one more."))
    assert "." not in said
    assert len(said.split()) <= 4
    assert said == TOPICS.get(key, said)


def test_a_plain_pair_says_which_bore_and_shaft_belong_together() -> None:
    method = next(iter(HANDBOOK.entries[samples_slug()].by_workshop.values()))
    sized = [size for operation in method.operations for size in sizes_of(operation)]
    bore, shaft = sized[0], next(one for one in sized if one.operation.number != sized[0].operation.number)

    def paired(operation):
        limits = operation.limits
        for mine, yours in ((bore, shaft), (shaft, bore)):
            mate = Mate(f"id-{yours.key}", yours.operation.number, yours.limit.name, "H7/f7")
            limits = tuple(
                replace(one, id=f"id-{mine.key}", mates=(mate,), make_to=Words("")) if one == mine.limit else one
                for one in limits
            )
        return replace(operation, limits=limits)

    setups = tuple(replace(s, operations=tuple(map(paired, s.operations))) for s in method.setups)
    told = replace(method, setups=setups)
    first = next(size for one in told.operations for size in sizes_of(one) if size.key == bore.key)
    assert f"operation {shaft.operation.number} (H7/f7)" in goes_with(told, first)


def samples_slug() -> str:
    """A method of the sample with two sizes that are measured."""
    for slug, entry in HANDBOOK.entries.items():
        if len([limit for one in entry.own.operations for limit in one.limits]) > 1:
            return slug
    raise AssertionError(samples)
