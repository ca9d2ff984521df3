"""Is every kind of milling cutter fed between the floor and the cap of its own row, by hand and by the machine?

Walked over every kind, hand and power feed, the machines of the three workshops of the demo, and metals of each class.
Rows are common practice from memory (`cutter_kinds.csv`); what is held here is that nothing leaves them.
"""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from tests.method.bench import workshop
from tests.operations.ordinary_jobs import SHOPS

from methodsheets.operations.cutters import FASTEST_HAND, by_hand, kind_of_cut, saw_width
from methodsheets.operations.cutting import feed_there_is
from methodsheets.operations.plan import CutData, Plan
from methodsheets.operations.worked import Worked
from methodsheets.trade.cutting.cutting import spindle_speed
from methodsheets.trade.cutting.cutting_data import recommended_feed, recommended_speed
from methodsheets.trade.cutting.cutting_tables import cutter_kinds, group_of, mill_feeds
from methodsheets.trade.form.errors import NotInTable
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import TOOLS, MillCut
from methodsheets.workshop.machines import HandFeed, Machine

METALS = ("EN3B", "304", "EN-GJL-250", "CZ121", "6082-T6", "delrin", "Ti6Al4V")
SIZES = (3.0, 12.0, 63.0, 160.0)


def mills() -> list[Machine]:
    return [one for shop in SHOPS for one in workshop(shop).machines.values() if one.sort.tool_turns]


def test_every_kind_has_a_row_and_every_cutter_a_kind() -> None:
    assert {str(kind) for kind in MillCut} == set(cutter_kinds())
    for row in cutter_kinds().values():
        assert 0 < row.floor < row.cap
    assert {row.cut for row in TOOLS.values() if row.cut is not None} <= set(MillCut)


@pytest.mark.parametrize("kind", list(MillCut))
def test_a_feed_keeps_within_floor_and_cap_of_its_kind(kind: MillCut) -> None:
    row, seen = cutter_kinds()[kind], 0
    strongest = mill_feeds()["steel", "hss"][1]
    for metal, size, grade, duty in itertools.product(METALS, SIZES, ("hss", "carbide"), ("light", "medium", "heavy")):
        try:
            feed = recommended_feed(metal, kind, size, grade, 0.4, duty)
        except NotInTable:
            continue
        share = mill_feeds()[group_of(metal).mill_class, grade][1] / strongest
        cap = max(row.floor, row.cap * max(1.0, share))
        assert row.floor - 1e-12 <= feed.low <= feed.value <= feed.high <= cap + 1e-12, (metal, size, grade, duty)
        seen += 1
    assert seen >= len(SIZES) * 12


@pytest.mark.parametrize("kind", list(MillCut))
@pytest.mark.parametrize("fed", ["by hand", "by the machine"])
def test_the_machine_or_the_hand_gives_no_more_than_the_kind_takes(kind: MillCut, fed: str) -> None:
    """A hand gives what is wanted up to the fastest that it turns evenly; a machine takes the step below or nearest."""
    row = cutter_kinds()[kind]
    for machine, size, teeth in itertools.product(mills(), SIZES, (1, 4, 28)):
        hand = fed == "by hand"
        if hand:
            machine = replace(machine, feeds=HandFeed())
        elif machine.feeds.per != "min":
            continue
        wanted = recommended_feed("EN3B", kind, size, "hss", 0.4, machine.duty).value
        speed = recommended_speed("EN3B", "hss", kind).value
        done = Worked(spindle=machine.speed_near(spindle_speed(speed, size)).value)
        value, note = feed_there_is(done, CutData(Process.MILL, size, tool_turns=True), machine, wanted, teeth)
        assert value <= row.cap + 1e-12, (machine.name, size, teeth)
        if hand:
            assert note == "by hand"
            assert value * teeth * done.spindle <= FASTEST_HAND + 1e-9


def test_a_hand_feed_is_what_a_hand_holds() -> None:
    assert by_hand(0.02, 4, 500.0) == 0.02
    assert by_hand(0.18, 28, 171.0) == pytest.approx(FASTEST_HAND / (28 * 171.0))


@pytest.mark.parametrize(("saw", "state"), [(1.0, "tight"), (1.5, "none"), (2.0, "failed")])
def test_a_saw_that_is_not_as_wide_as_its_slot_is_told(saw: float, state: str) -> None:
    one = next(tool for shop in SHOPS for tool in workshop(shop).tools.values() if tool.sort.cut is MillCut.SAW)
    plan = Plan("", cut=CutData(Process.MILL, 63.0, width=1.5))
    assert kind_of_cut(plan, one) is MillCut.SAW
    found = saw_width(plan, replace(one, width=saw), 1)
    assert [check.verdict for check in found] == ([] if state == "none" else [state])
