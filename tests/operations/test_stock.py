"""Stock of every kind: its volume against closed forms, its axis, its pieces, and what is wrong with it."""

from __future__ import annotations

import math

import pytest
from tests.method.bench import block, demo, method, work_out

from methodsheets.method.job import Evaluated
from methodsheets.trade.metal.materials import material

PI = math.pi
FACE = block("op", "face: 0.5 mm")


def turned(hold: str) -> str:
    return block("setup", "machine: lathe", f"hold: {hold}")


def laid(stock: str, setup: str, front: str = "") -> Evaluated:
    made = work_out(method(setup, stock=stock, front=front))
    errors = [str(p) for p in made.method.problems if not p.code.startswith("check-")]
    assert not errors, errors
    return made


LATHE = turned("three-jaw chuck, on 20 mm, grip 12 mm, end A out")
KINDS = [
    ("round 20 mm x 50 mm", PI * 100 * 50),
    ("hexagon 19 mm x 50 mm", 2 * math.sqrt(3) * 9.5**2 * 50),
    ("hex 19 mm x 50 mm", 2 * math.sqrt(3) * 9.5**2 * 50),
    ("square 20 mm x 50 mm", 400 * 50),
    ("flat 30 mm x 10 mm x 50 mm", 300 * 50),
    ("tube 20 mm x 12 mm x 50 mm", PI * (100 - 36) * 50),
    ("plate 60 mm x 40 mm x 12 mm", 60 * 40 * 12),
    ("turned, points (0 mm, 10 mm), (20 mm, 10 mm), (20 mm, 30 mm), (30 mm, 30 mm)", PI * 25 * 20 + PI * 225 * 10),
    ("round 3/4 in x 2 in", PI * (0.375 * 25.4) ** 2 * 50.8),
]


@pytest.mark.parametrize(("stock", "volume"), KINDS, ids=[stock for stock, _ in KINDS])
def test_stock_has_its_volume(stock: str, volume: float) -> None:
    work = laid(stock, LATHE).live.pieces["work"]
    assert work.start is not None
    assert work.start.volume == pytest.approx(volume, rel=1e-9)
    assert work.grams == pytest.approx(volume * material("EN1A").density * 1e-6, rel=1e-9)


def test_a_casting_is_larger_than_its_drawing_all_round() -> None:
    """A disc Ø40 by 20 with 3 mm all round is Ø46 by 26."""
    work = laid(
        "casting, points (0 mm, 40 mm), (20 mm, 40 mm), allowance 3 mm", turned("three-jaw chuck, on 46 mm, grip 12 mm")
    ).live.pieces["work"]
    assert work.start is not None
    low, high = work.start.bounds
    assert float(high[2] - low[2]) == pytest.approx(26.0)
    assert work.start.volume == pytest.approx(PI * 23**2 * 26, rel=0.01)


def test_a_bar_laid_off_its_axis_turns_off_its_axis() -> None:
    made = laid(
        "round 40 mm x 60 mm, axis offset 3 mm at 90 deg",
        turned("four-jaw chuck, on 40 mm, grip 12 mm, end A out") + FACE,
    )
    setup = made.live.setups[0]
    assert setup.held.holding is not None
    assert setup.held.holding.throw == pytest.approx(3.0)
    grams = PI * 400 * 60 * material("EN1A").density * 1e-6
    assert setup.unbalance == pytest.approx(3 * grams, rel=1e-6)


def test_a_hexagon_is_held_on_its_flats() -> None:
    made = laid("hexagon 19 mm x 50 mm", turned("three-jaw chuck, on 19 mm, grip 12 mm, end A out") + FACE)
    assert made.method.failed == ()
    assert made.live.setups[0].held.sides == 6
    setup = made.method.setups[0]
    assert "held on 6 flats, 19 across" in setup.checks[0].words.metric
    assert setup.words.metric == "Three-jaw chuck on 19 across flats, grip 12, end A out"
    assert "Ø19 " not in " ".join(check.words.metric for check in setup.checks)


def test_a_square_lies_in_the_vice_with_its_length_left_to_right() -> None:
    made = laid(
        "square 20 mm x 50 mm",
        block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm") + FACE,
    )
    setup = made.live.setups[0]
    assert setup.before.bounds[1].tolist() == pytest.approx([50.0, 20.0, 20.0])


def test_stock_from_another_method_is_its_finished_part() -> None:
    made = laid('from "guide-bush"', turned("three-jaw chuck, on 24 mm, grip 10 mm, end B out"))
    bush = work_out(demo("guide-bush"), slug="guide-bush")
    finished = bush.live.pieces[bush.live.main].work.state.volume
    start = made.live.pieces["work"].start
    assert start is not None
    assert start.volume == pytest.approx(finished, rel=1e-12)
    assert made.method.totals is not None
    assert made.method.totals.bought.metric == "1 from the method guide-bush"


def test_pieces_have_their_own_stock_and_material() -> None:
    rod = block(
        "setup",
        "piece: rod",
        "stock: round 10 mm x 40 mm",
        "material: silver steel",
        "machine: lathe",
        "hold: three-jaw chuck, on 10 mm, grip 10 mm",
    )
    made = laid(
        "round 40 mm x 20 mm",
        turned("three-jaw chuck, on 40 mm, grip 9 mm, end A out") + FACE + rod + FACE,
        "piece: disc\n",
    )
    assert [piece.material.name for piece in made.live.pieces.values()] == [
        material("EN1A").name,
        material("silver steel").name,
    ]
    assert made.live.pieces["rod"].grams == pytest.approx(
        PI * 25 * 40 * material("silver steel").density * 1e-6, rel=1e-9
    )
    assert made.method.totals is not None
    assert made.method.totals.bought.metric.count(";") == 1


WRONG = [
    ("round 40 mm", "sample.md:4:14: round stock has 2 sizes: diameter, length (got 1); in that order, x between; write e.g. `round 20 mm x 16 mm`"),
    ("round 40 mm x 18", "sample.md:4:22: `18` is a length (got 18, a bare number); a quantity carries its unit; write 18 mm"),
    ("round 40 mm x 0 mm", "sample.md:4:22: the length of the stock is 0 mm (got `0 mm`); more than 0 and at most 2,000 mm; check the number and its unit"),
    ("round 40 mm x 60 m", "sample.md:4:22: the length of the stock is 60000 mm (got `60 m`); more than 0 and at most 2,000 mm; check the number and its unit"),
    ("tube 40 mm x 42 mm x 60 mm", "sample.md:4:8: the stock makes no solid: a tube needs a wall (got outside 40, bore 42); check its sizes"),
    ("octagon 40 mm x 60 mm", "sample.md:4:8: no such stock (got `octagon 40 mm x 60 mm`); stock starts with its kind: round, hexagon, square, flat, tube, plate, turned, casting, from; known: `casting`, `flat`, `from`, `hexagon`, `plate`, `round`, `square`, `tube`, `turned`"),
    ("turned", "sample.md:4:8: a turned blank needs its outline (got `turned`); (length, diameter) pairs from end A; add `points (0 mm, 20 mm), (15 mm, 20 mm)`"),
    ("round 40 mm x 60 mm, lenght 3 mm", "sample.md:4:29: `stock` does not know `lenght 3 mm`; its clauses are axis offset, at, points, allowance, bore, kerf, bar, end allowance, price; known: `allowance`, `at`, `axis offset`, `bar`, `bore`, `end allowance`, `kerf`, `points`, `price`"),
    ('from "no-such-method"', "sample.md:4:8: no such method to take stock from (got `no-such-method`); `from` names a method of this handbook; check the name"),
]  # fmt: skip


@pytest.mark.parametrize(("stock", "message"), WRONG, ids=[stock for stock, _ in WRONG])
def test_stock_that_is_wrong(stock: str, message: str) -> None:
    problems = work_out(method(LATHE, stock=stock)).method.problems
    assert [str(p) for p in problems][:1] == [message]
