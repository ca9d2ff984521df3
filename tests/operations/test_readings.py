"""Do the dials that set a length, a depth or a place bring the tool where the operation wants it, in every workshop?

That lengths are set with the saddle where it has a dial, else with the top slide, and that a cutter touches a wall with
half its diameter, is arithmetic and common practice.
"""

from __future__ import annotations

import re

import pytest
from tests.method.bench import THREE_JAW, block, method, work_out

from methodsheets.method.done import CheckedOperation
from methodsheets.workshop.dials import Dial

SHOPS = ("osierbank-small", "osierbank-large", "osierbank-inch")
VICE = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
PLATE = "plate 60 mm x 40 mm x 30 mm"


def travel(words: str, dial: Dial) -> float:
    """mm that a reading moves the slide."""
    found = re.match(r"(?:(\d+) turns?)?(?: \+ )?(?:([\d.]+)\u202f(mm|in))?", words)
    assert found is not None
    rest = float(found[2] or 0.0) * (25.4 if found[3] == "in" else 1.0)
    return (int(found[1] or 0) * dial.per_turn + rest) / dial.factor


def last(text: str, shop: str) -> CheckedOperation:
    return work_out(text, shop).live.operations[-1]


@pytest.mark.parametrize("shop", SHOPS)
@pytest.mark.parametrize(
    ("line", "check", "low", "high"),
    [
        ("turn: to 16 mm, over 20 mm", "", 19.93, 20.07),
        ("turn: to 16 mm, over 20 mm", 'check: limits(20 mm, "h9")', 19.948, 20.0),
        ("turn: to 16 mm, over 20 mm", 'check: limits(40 mm, "h9")', 20.0, 20.062),  # what is left behind the shoulder
        ("turn: to 16 mm, over 8 mm, from 12 mm", 'check: limits(8 mm, "h11")', 19.91, 20.0),
    ],
)
def test_a_shoulder_is_set_with_the_slide_along_the_work(
    line: str, check: str, low: float, high: float, shop: str
) -> None:
    """h9 at 20 and 40: 52 and 62 µm; h11 at 8: 90 µm (ISO 286-2, tables read)."""
    done = last(method(THREE_JAW + block("op", line, *([check] if check else []))), shop)
    (fact,) = [fact for fact in done.facts if fact.key == "length_dial"]
    dial = next(d for slide in ("saddle", "top slide") if (d := done.station.machine.dial(slide)))
    assert dial.slide in fact.label
    assert low <= travel(fact.value.metric, dial) <= high


def test_a_length_beyond_the_top_slide_is_set_to_a_stop() -> None:
    text = method(THREE_JAW + block("op", "turn: to 16 mm, over 80 mm"), stock="round 40 mm x 120 mm")
    keys = {fact.key: fact for fact in last(text, "osierbank-small").facts}
    assert "80" in keys["length_stop"].value.metric


@pytest.mark.parametrize("shop", SHOPS)
def test_a_drill_in_the_tailstock_goes_so_deep(shop: str) -> None:
    """From where its point touches: 20 mm and the point of 118 degrees, 0.3 d."""
    done = last(method(THREE_JAW + block("op", "drill: 6 mm, deep 20 mm")), shop)
    (fact,) = [fact for fact in done.facts if fact.key == "tailstock_depth"]
    dial = done.station.machine.dial("tailstock")
    assert dial is not None
    assert travel(fact.value.metric, dial) == pytest.approx(20 + 0.3004 * 6, abs=0.03)


def test_a_second_drill_touches_with_its_lips() -> None:
    lines = [block("op", "drill: 6 mm, through"), block("op", "drill: 12 mm, deep 20 mm")]
    done = last(method(THREE_JAW + "".join(lines)), "osierbank-small")
    (fact,) = [fact for fact in done.facts if fact.key == "tailstock_depth"]
    assert fact.note.metric.startswith("21.8")  # 20 + 0.3 (12 - 6)


@pytest.mark.parametrize("shop", SHOPS)
@pytest.mark.parametrize(
    ("line", "check", "walls"),
    [
        ("step: side right, wide 16 mm, deep 6 mm, cutter 10 mm", "", {"x": [49.0]}),
        ("step: side front, wide 16 mm, deep 6 mm, cutter 10 mm", "", {"y": [11.0]}),
        ("step: side right, wide 16 mm, deep 6 mm, cutter 10 mm", 'check: limits(16 mm, "h11")', {"x": [49.055]}),
        ("pocket: from (10 mm, 8 mm), to (40 mm, 30 mm), deep 5 mm, cutter 8 mm", "", {"x": [14, 36], "y": [12, 26]}),
        ("slot: wide 8 mm, deep 4 mm, along width, middle 21 mm, cutter 8 mm", "", {"x": [21.0]}),
        ("slot: wide 8 mm, deep 4 mm, along width, middle 21 mm, cutter 6 mm", "", {"x": [20.0, 22.0]}),
        ("vee: wide 8 mm, middle 21 mm, along width", "", {"x": [21.0]}),
    ],
)
def test_the_cutter_stands_half_its_diameter_from_the_wall(
    line: str, check: str, walls: dict[str, list[float]], shop: str
) -> None:
    done = last(method(VICE + block("op", line, *([check] if check else [])), stock=PLATE), shop)
    (table,) = [table for table in done.tables if "cutter" in table.title]
    found: dict[str, list[float]] = {}
    for name, at, words in table.rows:
        slide = str(name)[0]
        dial = done.station.machine.dial(slide)
        assert dial is not None
        assert not isinstance(at, str)
        assert travel(str(words), dial) == pytest.approx(at.value, abs=0.02)
        found.setdefault(slide, []).append(at.value)
    assert found == {slide: pytest.approx(places, abs=1e-3) for slide, places in walls.items()}


@pytest.mark.parametrize("shop", SHOPS)
def test_holes_are_read_on_both_dials(shop: str) -> None:
    text = method(VICE + block("op", "drill: 6 mm, deep 9 mm, places (12 mm, 8 mm), (44 mm, 31.5 mm)"), stock=PLATE)
    done = last(text, shop)
    (table,) = done.tables
    for (x, y), row in zip([(12.0, 8.0), (44.0, 31.5)], table.rows, strict=True):
        for place, slide, words in ((x, "x", row[3]), (y, "y", row[4])):
            dial = done.station.machine.dial(slide)
            assert dial is not None
            assert travel(str(words), dial) == pytest.approx(place, abs=0.02)
