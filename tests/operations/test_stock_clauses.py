"""Every clause of a stock line with every kind of stock changes what it claims, or is refused with what to do instead."""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Callable, Mapping

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.method.job import Evaluated
from methodsheets.operations.stock import CLAUSES
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.stock import STOCKS, StockKind
from methodsheets.workpiece import mass

POINTS = "points (0 mm, 40 mm), (20 mm, 40 mm)"
SAID: Mapping[str, tuple[str, str]] = {
    "axis offset": ("", "axis offset 2 mm"),
    "at": ("axis offset 2 mm", "axis offset 2 mm at 90 deg"),
    "points": (POINTS, "points (0 mm, 40 mm), (22 mm, 40 mm)"),
    "allowance": ("", "allowance 4 mm"),
    "bore": ("", "bore 16 mm"),
    "kerf": ("", "kerf 3 mm"),
    "bar": ("", "bar 500 mm"),
    "end allowance": ("bar 500 mm", "bar 500 mm, end allowance 100 mm"),
    "price": ("price 4", "price 5"),
}
"""What is said without the clause (or with another value of it), and with it."""
PAIRS = list(itertools.product(StockKind, CLAUSES))


def line(kind: StockKind, said: str) -> str:
    row = kind.row
    sizes = " x ".join(f"{size} mm" for size in (40, 30, 70)[: len(row.sizes)])
    if kind is StockKind.TUBE:
        sizes = "40 mm x 16 mm x 70 mm"
    first = f'{kind} "guide-bush"' if row.elsewhere else f"{kind} {sizes}".strip()
    outline = POINTS if row.outline and "points" not in said else ""
    return ", ".join(part for part in (first, outline, said) if part)


@functools.cache
def laid(stock: str, upright: bool = True) -> Evaluated:
    """A set-up with that stock, and no operation."""
    lathe = block("setup", "machine: lathe", "hold: four-jaw chuck, end A out")
    vice = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
    return work_out(method(lathe if upright else vice, stock=stock, front="makes: 8\n"), "osierbank-large")


def _solid(made: Evaluated) -> object:
    start = made.live.pieces["work"].start
    assert start is not None
    return [round(start.volume, 2), *(round(float(v), 4) for each in (*start.bounds, mass(start).centre) for v in each)]


def _numbers(made: Evaluated) -> object:
    totals = made.method.totals
    return totals and (totals.bought.metric, str(totals.price))


EFFECTS: Mapping[Change, Callable[[Evaluated], object]] = {Change.SOLID: _solid, Change.NUMBERS: _numbers}


def test_every_clause_has_a_sample_and_a_kind_that_takes_it() -> None:
    assert {clause.word for clause in CLAUSES} == set(SAID) == {word for row in STOCKS.values() for word in row.clauses}
    assert all(set(clause.changes) <= set(EFFECTS) for clause in CLAUSES)


@pytest.mark.parametrize(("kind", "clause"), PAIRS, ids=[f"{kind}-{clause.word}" for kind, clause in PAIRS])
def test_a_clause_changes_what_it_claims_or_is_refused(kind: StockKind, clause) -> None:  # type: ignore[no-untyped-def]
    without, with_it = (laid(line(kind, said)) for said in SAID[clause.word])
    refused = [p for p in with_it.method.problems if not p.code.startswith("check-")]
    if clause.word not in kind.row.clauses:
        assert refused[0].code == "idle-clause", str(refused)
        assert refused[0].remedy
        assert refused[0].place.line == 4
        return
    assert not refused, [str(p) for p in refused]
    same = [str(change) for change in clause.changes if EFFECTS[change](without) == EFFECTS[change](with_it)]
    assert same == [], f"`{clause.word}` changes nothing of {same}"


IDLE = ["round 40 mm x 70 mm, at 30 deg", "round 40 mm x 70 mm, end allowance 20 mm",
        "casting 60 mm x 40 mm x 20 mm, axis offset 2 mm"]  # fmt: skip


@pytest.mark.parametrize("stock", IDLE)
def test_a_clause_without_the_one_it_belongs_to_is_refused(stock: str) -> None:
    assert laid(stock).method.problems[0].code == "idle-clause"


@pytest.mark.parametrize(
    "stock", ["square 30 mm x 70 mm, axis offset 2 mm", "flat 30 mm x 20 mm x 70 mm, axis offset 2 mm"]
)
def test_a_bar_held_as_a_block_has_no_axis_to_lie_off(stock: str) -> None:
    assert not [p for p in laid(stock).method.problems if not p.code.startswith("check-")]
    refused = laid(stock, upright=False).method.problems[0]
    assert (refused.code, refused.place.line, bool(refused.remedy)) == ("idle-clause", 4, True)


WRONG = ["round 40 mm x 70 mm, bar 60 mm", "round 40 mm x 70 mm, bar 100 mm, end allowance 40 mm",
         "round 40 mm x 70 mm, kerf -1 mm", "round 40 mm x 70 mm, price -3", f"casting, {POINTS}, allowance -1 mm", f"casting, {POINTS}, allowance 0 mm",
         f"casting, {POINTS}, bore 6 mm", f"casting, {POINTS}, bore 40 mm", f"turned, {POINTS}, bore 41 mm", f"turned, {POINTS}, bore -1 mm",
         "casting 60 mm x 40 mm x 20 mm, bore 40 mm"]  # fmt: skip


@pytest.mark.parametrize("stock", WRONG)
def test_a_value_that_cannot_be_is_refused(stock: str) -> None:
    problem = laid(stock).method.problems[0]
    assert (problem.code, problem.place.line, bool(problem.remedy)) == ("wrong-value", 4, True)


def test_an_unknown_word_behind_a_list_is_no_more_of_the_list() -> None:
    problem = laid(f"casting, {POINTS}, boer 10 mm").method.problems[0]
    assert (problem.code, "`boer 10 mm`" in problem.what) == ("unknown-clause", True)


# ------------------------------------------------------------------------------------------------ castings
def checks(made: Evaluated, key: str) -> list[tuple[str, bool]]:
    return [(check.state, check.tight) for check in made.method.all_checks if check.key == key]


def cast(hold: str, *ops: str, stock: str = f"casting, {POINTS}, allowance 2 mm", machine: str = "lathe") -> Evaluated:
    setup = block("setup", f"machine: {machine}", f"hold: {hold}")
    text = method(setup + "".join(block("op", one) for one in ops), stock=stock, material="grey cast iron")
    made = work_out(text, "osierbank-large")
    assert not [p for p in made.method.problems if not p.code.startswith("check-")], made.method.problems
    return made


CHUCK = "three-jaw chuck, on 44 mm, grip 8 mm, end A out"


def test_a_casting_bears_on_three_points_of_its_raw_skin() -> None:
    made = cast(CHUCK, "face: 2 mm")
    assert checks(made, "raw-skin") == [("passed", True)]
    told = next(fact for fact in made.method.setups[0].facts if fact.key == "bears_on")
    assert "three points" in str(told.value)
    assert any(fact.key == "raw_skin" for fact in made.method.totals.facts)  # type: ignore[union-attr]
    bar = laid("round 40 mm x 70 mm")
    assert checks(bar, "raw-skin") == []


def test_a_collet_needs_a_true_surface() -> None:
    assert ("failed", False) in checks(cast("soft jaws, on 44 mm, grip 8 mm, end A out", "face: 2 mm"), "raw-skin")


def test_the_second_side_bears_on_what_was_cut() -> None:
    turned = block("setup", "machine: lathe", f"hold: {CHUCK}") + block("op", "turn: to 40 mm, over 12 mm")
    again = block("setup", "hold: three-jaw chuck, on 40 mm, grip 10 mm, end B out")
    made = work_out(method(turned + again, stock=f"casting, {POINTS}, allowance 2 mm"), "osierbank-large")
    assert [c.tight for c in made.live.setups[1].checks if c.key == "raw-skin"] == [False]


@pytest.mark.parametrize(("cut", "state"), [("0.4 mm", ("failed", False)), ("2 mm", ("passed", False))])
def test_the_first_cut_goes_under_the_skin(cut: str, state: tuple[str, bool]) -> None:
    assert checks(cast(CHUCK, f"face: {cut}"), "skin") == [state]


def test_a_first_pass_in_the_skin_is_told() -> None:
    made = cast(CHUCK, "turn: to 40 mm, over 10 mm\ndepth: 0.5 mm")
    assert checks(made, "skin") == [("passed", True)]


def test_a_cast_block_is_larger_than_it_is_drawn_and_bears_on_its_skin() -> None:
    made = cast("machine vice, up top, towards front, grip 10 mm", "face: 2 mm", machine="mill",
                stock="casting 60 mm x 40 mm x 20 mm, allowance 2 mm")  # fmt: skip
    assert made.live.setups[0].before.bounds[1].tolist() == pytest.approx([64.0, 44.0, 24.0])
    assert checks(made, "raw-skin") == [("passed", True)]
    assert checks(made, "skin") == [("passed", False)]


CORED = f"casting, {POINTS}, bore 16 mm, allowance 2 mm"


def test_a_cored_hole_is_smaller_than_it_is_bored_and_has_its_skin() -> None:
    """A ring Ø40 by 20 with a bore of 16 and 2 mm all round: Ø44 by 24, cored Ø12, to 0.1 %."""
    made = cast(CHUCK, "bore: to 16 mm, through", stock=CORED)
    start = made.live.pieces["work"].start
    assert start is not None
    assert start.volume == pytest.approx(math.pi * (22**2 - 6**2) * 24, rel=1e-3)
    assert [state for state, _ in checks(made, "skin")] == ["passed"]
    assert "Ø12" in made.method.totals.bought.metric  # type: ignore[union-attr]
    left = next(fact for fact in made.method.totals.facts if fact.key == "raw_skin")  # type: ignore[union-attr]
    ends = 2 * math.pi * (22**2 - 8**2)
    assert left.value.value == pytest.approx(ends + 2 * math.pi * 22 * 24, rel=1e-3), "none of it is in the bore"
    blind = cast(CHUCK, "bore: to 13 mm, through", stock=CORED)
    assert checks(blind, "skin") == [("failed", False)]


def test_a_drill_follows_a_cored_hole() -> None:
    made = cast(CHUCK, "drill: 15 mm, through", stock=CORED)
    assert checks(made, "skin") == [("passed", True)]
    bored = cast(CHUCK, "bore: to 15 mm, through", "drill: 16 mm, through", stock=CORED)
    assert len(checks(bored, "skin")) == 1, "only the bar meets the skin"


def test_a_cast_block_is_cored_through_its_middle() -> None:
    made = cast("machine vice, up top, towards front, grip 10 mm", "face: 2 mm", machine="mill",
                stock="casting 60 mm x 40 mm x 20 mm, bore 20 mm, allowance 2 mm")  # fmt: skip
    start = made.live.pieces["work"].start
    assert start is not None
    assert start.volume == pytest.approx(64 * 44 * 24 - math.pi * 8**2 * 24, rel=1e-3)
    assert not start.solid.holds((32.0, 22.0, 12.0))
