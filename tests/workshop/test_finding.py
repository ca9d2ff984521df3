"""Does the workshop understand what an author means?"""

from __future__ import annotations

from pathlib import Path

import pytest

from methodsheets.reading.problem import Problems
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.reader import read_workshop
from methodsheets.workshop.tool_lengths import lengths_of, series
from methodsheets.workshop.tools import kinds_for
from methodsheets.workshop.words import likeness, plain_words

DEMO = Path(__file__).resolve().parents[2] / "methods" / "workshops"


@pytest.fixture(scope="module")
def small() -> Workshop:
    problems = Problems()
    found = read_workshop(DEMO / "osierbank-small.yml", DEMO, problems)
    assert found is not None
    assert not len(problems)
    return found


@pytest.mark.parametrize(
    ("words", "plain"),
    [
        ("The 3-Jaw Chuck", ("3", "jaw", "chuck")),
        ("three jaw chuck", ("3", "jaw", "chuck")),
        ("toolmaker's vise", ("toolmaker", "vice")),
        ("Live Center", ("live", "centre")),
        ("1/4 in drill", ("1/4", "drill")),
    ],
)
def test_words_are_made_alike(words: str, plain: tuple[str, ...]) -> None:
    assert plain_words(words) == plain


def test_likeness() -> None:
    assert likeness("3 jaw chuck", ["three-jaw chuck"]) == 3
    assert likeness("chuck", ["three-jaw chuck"]) == 2
    assert likeness("80 mm three-jaw chuck", ["three-jaw chuck"]) == 1
    assert likeness("vice", ["three-jaw chuck"]) == 0
    assert likeness("", ["three-jaw chuck"]) == 0


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ("three-jaw chuck", "three-jaw"),
        ("3 jaw", "three-jaw"),
        ("self-centring chuck", "three-jaw"),
        ("scroll chuck", "three-jaw"),
        ("four jaw", "four-jaw"),
        ("independent chuck", "four-jaw"),
        ("4-jaw", "four-jaw"),
        ("collet", "collets"),
        ("ER25", "collets"),
        ("between centers", "between centres"),
        ("vise", "vice"),
        ("machine vice", "vice"),
        ("bench vice", "bench-vice"),
        ("drill vice", "drill-vice"),
        ("rotary table", "rotary"),
        ("fixed steady", "steady"),
        ("by hand", "by hand"),
        ("soft jaws", "soft-jaws"),
    ],
)
def test_ways_of_holding(small: Workshop, words: str, key: str) -> None:
    found = small.holding(words)
    assert found is not None
    assert found.key == key


@pytest.mark.parametrize("words", ["five-jaw chuck", "hydraulic nest", ""])
def test_what_is_not_there_is_not_found(small: Workshop, words: str) -> None:
    assert small.holding(words) is None


def test_of_two_chucks_the_smaller_one_that_takes_the_work() -> None:
    text = """
machines: {lathe: {speeds: 100 1/min}}
holding:
  big: {kind: three-jaw, outside: 5 to 160 mm}
  little: {kind: three-jaw, outside: 2 to 60 mm}
"""
    shop = _shop(text)
    assert _key(shop.holding("three-jaw chuck", size=40)) == "little"
    assert _key(shop.holding("three-jaw chuck", size=100)) == "big"
    assert _key(shop.holding("three-jaw chuck", size=500)) == "big"  # too large for both
    assert _key(shop.holding("three-jaw chuck")) == "big"  # no size known: the first


def test_a_vice_on_the_machine_that_is_meant() -> None:
    text = """
machines: {mill: {speeds: 100 1/min}, drill: {speeds: 100 1/min}}
holding:
  a: {kind: vice, goes on: mill}
  b: {kind: vice, goes on: drill}
"""
    shop = _shop(text)
    assert _key(shop.holding("vice", machine=shop.machines["drill"])) == "b"
    assert _key(shop.holding("vice", machine=shop.machines["mill"])) == "a"


def test_machines(small: Workshop) -> None:
    for words, key in (("lathe", "lathe"), ("centre lathe", "lathe"), ("belt lathe", "lathe"), ("the mill", "mill"),
                       ("milling machine", "mill"), ("pillar drill", "drill"), ("bandsaw", "saw"), ("hearth", "hearth")):  # fmt: skip
        assert _key(small.machine(words)) == key
    assert small.machine("planer") is None


@pytest.mark.parametrize(
    ("words", "size", "name", "diameter"),
    [
        ("drill", 5.27, "5.3\u202fmm drill", 5.3),
        ("twist drill", 6.8, "6.8\u202fmm drill", 6.8),
        ("drill", 15.0, "15\u202fmm drill", 15.0),
        ("reamer", 16.0, "16\u202fmm reamer", 16.0),
        ("M6 tap", 0, "M6 tap", 6.0),
        ("tap M6", 0, "M6 tap", 6.0),
        ("end mill", 8.0, "8\u202fmm end mill", 8.0),
        ("endmill", 9.9, "10\u202fmm end mill", 10.0),
    ],
)
def test_tools_in_a_size(small: Workshop, words: str, size: float, name: str, diameter: float) -> None:
    found = small.tool(words, size)
    assert found is not None
    assert (found.name, found.diameter) == (name, diameter)


def test_the_stoutest_boring_bar_that_goes_in(small: Workshop) -> None:
    assert _key(small.tool("boring bar", 20)) == "boring large"
    assert _key(small.tool("boring bar", 13)) == "boring large"
    assert _key(small.tool("boring bar", 12)) == "boring small"
    assert _key(small.tool("boring tool", 5)) == "boring small"  # none goes in: the smallest


def test_default_tools(small: Workshop) -> None:
    lathe, mill = small.machines["lathe"], small.machines["mill"]
    for verb, key in (("turn", "knife"), ("face", "knife"), ("part off", "parting"), ("bore", "boring small"),
                      ("thread", "threading"), ("knurl", "knurl"), ("centre", "centre drills"), ("chamfer", "chamfer")):  # fmt: skip
        assert _key(small.default_tool(verb, machine=lathe)) == key, verb
    assert _key(small.default_tool("face", machine=mill)) == "fly cutter"
    assert _key(small.default_tool("slot", 6, machine=mill)) == "slot drills"
    assert small.default_tool("grind", machine=lathe) is None


def test_a_tool_may_be_kept_for_other_verbs() -> None:
    shop = _shop("""
machines: {lathe: {speeds: 100 1/min}}
tools:
  knife: {kind: knife}
  special: {kind: round-nose, for: face}
""")
    assert _key(shop.default_tool("face")) == "special"
    assert shop.default_tool("profile") is None


def test_kinds_for_a_verb_put_the_most_usual_first() -> None:
    assert kinds_for("drill")[0] == "drill"
    assert kinds_for("part off")[0] == "parting"
    assert kinds_for("bore")[:2] == ("boring-bar", "boring-head")
    assert kinds_for("no such verb") == ()


def test_sets(small: Workshop) -> None:
    drills = small.tools["drills"]
    assert len(drills.sizes) == 121
    assert drills.has(6.8)
    assert not drills.has(6.85)
    below = drills.largest_below(6.85)
    assert below is not None
    assert below.diameter == 6.8
    assert drills.largest_below(0.5) is None
    # ISO 235, jobber drills over 6.7 to 7.5 mm: 109 long, flutes 69 (from memory)
    assert (drills.nearest(6.8).overall_length, drills.nearest(6.8).cutting_length) == (109, 69)
    found = small.nearest_of("drill", 14.6)
    assert found is not None
    assert found.diameter == 15


def test_collets_close_on_what_lies_below_their_size(small: Workshop) -> None:
    collets = small.holdings["collets"]
    assert collets.collet_for(6.0) == 6
    assert collets.collet_for(6.3) == 7
    assert collets.collet_for(16.0) == 16
    assert collets.collet_for(16.5) is None
    assert collets.holds_outside(12.7) is True
    assert collets.holds_outside(20) is False


def test_what_holds_what(small: Workshop) -> None:
    chuck = small.holdings["three-jaw"]
    assert chuck.holds_outside(40)
    assert not chuck.holds_outside(90)
    assert chuck.holds_inside(30)
    assert small.holdings["vice"].holds_outside(10) is None
    assert chuck.self_centring
    assert not small.holdings["four-jaw"].self_centring


def _shop(text: str) -> Workshop:
    from methodsheets.workshop.reader import parse_workshop

    problems = Problems()
    found = parse_workshop(text, "shop.yml", problems)
    assert found is not None
    assert [str(one) for one in problems] == []
    return found


def _key(found: object) -> str:
    assert found is not None
    return str(getattr(found, "key"))  # noqa: B009


@pytest.mark.parametrize(
    ("name", "diameter", "lengths"),
    [
        ("jobber", 4.0, (75, 43)),
        ("jobber", 6.0, (93, 57)),
        ("jobber", 6.1, (101, 63)),
        ("hand reamer", 6.0, (93, 47)),
        ("machine reamer", 6.0, (93, 26)),
        ("end mill", 10.0, (72, 22)),
        ("jobber", 30.0, None),
        ("no such series", 6.0, None),
    ],
)
def test_standard_lengths(name: str, diameter: float, lengths: tuple[float, float] | None) -> None:
    assert lengths_of(name, diameter) == lengths


def test_every_series_rises_with_the_diameter() -> None:
    for name in series():
        found = [lengths_of(name, size / 10) for size in range(10, 161)]
        known = [one for one in found if one is not None]
        assert known == sorted(known), name
        assert all(overall > flutes for overall, flutes in known)
