"""Is the advice for ordinary jobs that of the golden file, and does no tooth of a milling cutter rub?

The golden file has been read line by line; `python -m tests.operations.ordinary_jobs` writes it anew. What changes here
changes what a reader is told to do: look at every line.
"""

from __future__ import annotations

import functools

import pytest
from tests.method.bench import block, method, work_out, workshop
from tests.operations.ordinary_jobs import GOLDEN, JOBS, SHOPS, Job, line, mill

from methodsheets.method.done import CheckedOperation
from methodsheets.operations.cutters import FASTEST_HAND, kind_of_cut, least_chip
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
        cuts_well(next(iter(one.live.operations[::-1]), None))


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
