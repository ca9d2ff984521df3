"""Every calculation is told as a handbook tells it, by one mechanism, and what is drawn of it is true."""

import re

import pytest

from methodsheets.pages import document as d
from methodsheets.pages.chapter import read_chapter
from methodsheets.pages.reference import sheet_blocks
from methodsheets.trade.form.calculation import catalogue

SHEETS = read_chapter().sheets


def paragraphs(sheet):
    (group,) = sheet_blocks(sheet)
    return [(one.kind, d.plain(one.content)) for one in group.content if isinstance(one, d.Paragraph)]


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_it_is_told_in_the_order_of_a_handbook(sheet):
    (group,) = sheet_blocks(sheet)
    heading = group.content[0]
    assert isinstance(heading, d.Heading)
    assert re.fullmatch(r"[A-Z][\w ]*", d.plain(heading.content))
    assert "_" not in d.plain(heading.content)
    told = paragraphs(sheet)
    words = [said for _, said in told]
    assert told[0] == ("lead", sheet.sentence)
    assert "Worked example" in words
    assert "When not to use it" in words
    assert words.index("Worked example") < words.index("When not to use it")
    assert told[-1][0] == "typed"
    assert f"{sheet.name}(" in told[-1][1]
    assert sheet.story
    assert "_" not in sheet.story


def test_most_have_a_picture_and_what_comes_from_a_table_says_why_it_has_none():
    drawn = {sheet.name for sheet in SHEETS if sheet.picture}
    assert all(bool(sheet.picture) is not bool(sheet.no_picture) for sheet in SHEETS)
    assert all(sheet.no_picture in [words for _, words in paragraphs(sheet)] for sheet in SHEETS if sheet.no_picture)
    assert len(drawn) >= 0.75 * len(SHEETS)
    assert not {"centre_drill", "heat_colour", "standard_taper"} & drawn


@pytest.mark.parametrize("name", ["spindle_speed", "cutting_power", "kienzle", "taper_advance"])
def test_the_marked_point_of_a_picture_lies_on_its_curve(name):
    sheet = next(one for one in SHEETS if one.name == name)
    number = r"([-\d.]+) ([-\d.]+)"
    curve = re.search(r'd="M([^"]*)" fill="none" stroke="[^"]*" stroke-width="2.4"', sheet.picture)[1]
    points = [tuple(map(float, re.fullmatch(number, one).groups())) for one in curve.split("L")]
    x, y = map(float, re.search(r'<circle cx="([\d.]+)" cy="([\d.]+)"', sheet.picture).groups())
    left, right = max(p for p in points if p[0] <= x), min(p for p in points if p[0] >= x)
    between = left[1] + (right[1] - left[1]) * ((x - left[0]) / ((right[0] - left[0]) or 1))
    assert y == pytest.approx(between, abs=1.5)


def test_a_story_holds_the_numbers_of_its_example():
    """25 m/min at 12 mm: v = pi d n, as every handbook has it."""
    sheet = next(one for one in SHEETS if one.name == "spindle_speed")
    assert sheet.story == "With cutting speed 25 m/min, diameter 12 mm: spindle speed 663.15 1/min"
    assert set(catalogue()) == {one.name for one in SHEETS}
