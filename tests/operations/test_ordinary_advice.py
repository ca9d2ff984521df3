"""Is the advice for ordinary jobs that of the golden file, and does no tooth of a milling cutter rub?

The golden file has been read line by line; `python -m tests.operations.ordinary_jobs` writes it anew. What changes here
changes what a reader is told to do: look at every line.
"""

from __future__ import annotations

import functools

import pytest
from tests.method.bench import block, method, work_out, workshop
from tests.operations.ordinary_jobs import GOLDEN, JAW40, JOBS, SHOPS, Job, line, mill

from methodsheets.method.done import CheckedOperation
from methodsheets.operations.cutters import FASTEST_HAND, kind_of_cut, least_chip
from methodsheets.sheet.model import Method
from methodsheets.sheet.words import RECALLED
from methodsheets.vocabulary.tool import MillCut

HEAD = "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, axis level, end A out"
TURNED = "round 40 mm x 60 mm"
MORE = {
    MillCut.GEAR: Job("gear", method(block("setup", "machine: mill", HEAD)
                                     + block("op", "gear: module 1 mm, teeth 38, over 15 mm"), stock=TURNED)),
    MillCut.FORM: Job("rack", mill("rack: module 1 mm, teeth 8")),
}  # fmt: skip
"""Kinds of cutters that none of the forty jobs takes."""


@functools.cache
def golden() -> dict[str, list[str]]:
    """The lines of each job."""
    found, name = dict[str, list[str]](), ""
    for text in GOLDEN.read_text("utf-8").splitlines():
        if text.startswith(" "):
            found[name].append(text)
        else:
            name = text.partition(". ")[2]
            found[name] = []
    return found


def last(job: Job, shop: str) -> CheckedOperation | None:
    return next(iter(work_out(job.text, shop).live.operations[::-1]), None)


@pytest.mark.parametrize("job", JOBS, ids=[job.name for job in JOBS])
def test_the_advice_is_that_of_the_golden_file(job: Job) -> None:
    made = {shop: work_out(job.text, shop) for shop in SHOPS}
    told = [
        f"    {shop.removeprefix('osierbank-'):6} {line(next(iter(one.method.operations[::-1]), None))}"
        for shop, one in made.items()
    ]
    assert told == golden()[job.name]
    for one in made.values():
        marks_agree(one.method)
        cuts_well(next(iter(one.live.operations[::-1]), None))


def marks_agree(method: Method) -> None:
    """A sentence has the mark where it rests on something recalled, and nowhere else."""
    for one in method.operations:
        said = [one.words, *one.notes, *(check.words for check in one.checks), *(fact.note for fact in one.facts)]
        for words in said:
            assert (RECALLED in words.metric) == bool(words.recalled), words


HEATED = block("setup", "machine: bench", "hold: by hand") + "".join(
    block("op", line)
    for line in (
        "harden: all over",
        "temper: to dark straw, hardness 61 HRC",
        "anneal: all over",
        "harden: at 780 degC",
    )
)
PREPARED = block("setup", "machine: lathe", f"hold: {JAW40}") + "".join(
    block("op", line)
    for line in ("centre: 2 mm", "centre: 2.5 mm, to 4 mm", "turn: to 30 mm, over 20 mm", "groove: at 5 mm, ring 30 mm")
)


def test_what_a_sentence_says_from_memory_is_marked_and_what_the_author_says_is_not() -> None:
    """Each of the sentences takes its numbers from a table whose rows are from memory, or from the author's line."""
    made = work_out(method(PREPARED + HEATED, stock="round 40 mm x 60 mm", material="silver steel")).method
    marks_agree(made)
    usual, own, _, ring, harden, temper, anneal, hot = made.operations
    assert usual.words.metric.count(RECALLED) == 1
    assert RECALLED not in own.words.metric
    assert RECALLED in ring.words.metric
    assert any("etaining" in rests for rests in ring.rests_on)
    checks = [
        str(check.words) for one in (harden, temper, hot) for check in one.checks if "table says" in str(check.words)
    ]
    assert len(checks) >= 3
    assert all(RECALLED in words for words in checks)
    assert any("HRC" + RECALLED in str(check.words) for check in temper.checks)
    for one in (harden, anneal):
        fact = one.fact("harden_at") or one.fact("anneal_at")
        assert fact is not None
        assert any("silver steel" in rests for rests in fact.recalled)
    said = hot.fact("harden_at")
    assert said is not None
    assert not any("silver steel" in rests for rests in said.recalled)


@pytest.mark.parametrize("job", list(MORE.values()), ids=list(MORE))
def test_further_kinds_of_cutters_cut_well(job: Job) -> None:
    for shop in SHOPS:
        cuts_well(last(job, shop))


def cuts_well(done: CheckedOperation | None) -> None:
    """No tooth takes less than its kind needs, and no hand is asked for more than a hand can do."""
    if done is None or not done.plan.cut.process.row.milling_feed:
        return
    worked = done.worked
    assert worked.feed / worked.teeth >= least_chip(done.plan, done.tool) - 1e-9, (done.tool_name, worked.feed)
    if any(str(fact.note) == "by hand" for fact in done.facts if fact.key == "feed"):
        assert worked.feed * worked.spindle <= FASTEST_HAND + 1e-6


def test_the_jobs_take_every_kind_of_cutter_that_the_workshops_have() -> None:
    taken, there = set[MillCut](), set[MillCut]()
    for shop in SHOPS:
        there |= {tool.sort.cut for tool in workshop(shop).tools.values() if tool.sort.cut is not None}
        milled = [job for job in [*JOBS, *MORE.values()] if "machine: mill" in job.text]
        found = [done for job in milled if (done := last(job, shop)) and done.plan.cut.process.row.milling_feed]
        taken |= {kind_of_cut(done.plan, done.tool) for done in found}
    assert there <= taken
    assert {MillCut.SIDE, MillCut.SLOT} <= taken
