"""Tests of the smaller modules of pages, from problems to the file that travels."""

import base64
import csv
import io
import json
import re
from dataclasses import replace
from itertools import pairwise
from xml.etree.ElementTree import fromstring

import pytest
import sample_methods
import samples

from methodsheets.handbook.model import Drift
from methodsheets.pages import document as d
from methodsheets.pages import wording
from methodsheets.pages.chapter import Chapter, read_chapter
from methodsheets.pages.charts import drift_chart, round_steps, speed_chart, time_chart
from methodsheets.pages.data import COLUMNS, data_text, operations_text
from methodsheets.pages.elements import to_html
from methodsheets.pages.glossary import by_spelling, terms
from methodsheets.pages.index import stock_size
from methodsheets.pages.islands import Islands
from methodsheets.pages.problems import blocks_of, by_block, problem_boxes
from methodsheets.pages.records import drift_words
from methodsheets.pages.reference import example_lines
from methodsheets.pages.selfcontained import source_of, travelling_page, without_ways_out
from methodsheets.pages.site import Site
from methodsheets.pages.switches import stylesheet, switches
from methodsheets.pages.trade_words import explain_words

KINDS = ["calc", *["setup", "op", "op"] * 4]
ENTRY = samples.handbook().entries["eccentric-two-pieces"]

# Problems and their blocks


def test_blocks_are_those_that_are_worked_out():
    found = blocks_of(ENTRY.source)
    assert [block.kind for block in found] == KINDS
    assert found[0].line == 13


def test_a_longer_fence_and_a_quotation_are_only_text():
    assert blocks_of("````\n```op\nface: 1 mm\n```\n````\n\n> ```op\n> face: 1 mm\n> ```\n") == ()


def test_a_problem_shows_at_its_block():
    entry = samples.handbook().entries["clamp-block"]
    blocks = blocks_of(entry.source)
    line = next(block.line for block in blocks if block.kind == "op") + 2
    problem = replace(entry.problems[0], place=replace(entry.problems[0].place, line=line))
    assert list(by_block([problem], blocks)) == [2]
    assert list(by_block([replace(problem, place=replace(problem.place, line=2))], blocks)) == [None]


def test_a_problem_box_says_where_what_and_what_to_do():
    found = to_html(problem_boxes(samples.handbook().problems), Islands())
    for words in (
        "methods/clamp-block.md:30:7",
        "Unknown key",
        "<code>dept</code>",
        "What to do",
        "<code>depth</code>",
    ):
        assert words in found


# Words


@pytest.mark.parametrize(("text", "kinds"), [("a `b` c", ["Text", "Code", "Text"]), ("odd ` tick", ["Text"]), ("", [])])
def test_words_between_backticks_are_code(text, kinds):
    assert [type(piece).__name__ for piece in wording.with_code(text) if d.plain((piece,))] == kinds


def test_checks_are_summed_up_in_one_line():
    method = sample_methods.method("eccentric-two-pieces", samples.LARGE)
    found = to_html(wording.checks_disclosure(method.all_checks, "the part"), Islands())
    text = Islands()
    made = text.fill(to_html(wording.checks_disclosure(method.all_checks, "the part"), text), str)
    assert "data-ms-island" in found
    assert re.search(r"8 of 13 checks agree, 1 tight, 4 not known", made)


@pytest.mark.parametrize(
    ("stock", "size"),
    [
        ("round 40 mm x 18 mm", 40),
        ("round 1 1/2 in x 3 in", 76.2),
        ("bar", 0),
        ("flat 5/8 in", 15.875),
        ("tube 1.2 m", 1200),
    ],
)
def test_the_largest_size_of_the_stock(stock, size):
    assert stock_size(stock) == pytest.approx(size)


# Charts


@pytest.mark.parametrize(
    "chart",
    [
        time_chart([("one", 30, 20), ("two", 60, 10)], 10, [3.0]),
        drift_chart([16.001, 16.004, 16.02], 16.0, 16.018, "bore"),
        speed_chart([130, 400, 1600], [("25 m/min", 25)], (5, 200)),
    ],
)
def test_charts_are_sound_and_described(chart):
    root = fromstring(chart)
    assert root.get("role") == "img"
    assert root.get("aria-label")
    width, height = map(float, root.get("viewBox").split()[2:])
    for element in root.iter():
        for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", element.get("d") or ""):
            assert 0 <= float(x) <= width
            assert 0 <= float(y) <= height


def test_names_beside_lines_do_not_touch():
    chart = time_chart([("one", 30, 20), ("two", 30, 20.1), ("three", 30, 20.2)], 10)
    heights = sorted(float(y) for y in re.findall(r'y="([\d.]+)" text-anchor="start"', chart))
    assert all(b - a >= 14 for a, b in pairwise(heights))


def test_round_steps_are_round():
    assert round_steps(0, 10) == [0, 2, 4, 6, 8, 10]
    assert round_steps(0, 0.037) == [0, 0.01, 0.02, 0.03]


# Switches


def test_one_workshop_needs_no_switch():
    shops = list(samples.handbook().workshops.values())
    assert "ms-workshop" not in to_html((switches(shops[:1], samples.SMALL),), Islands())
    both = to_html((switches(shops, samples.LARGE),), Islands())
    assert re.search(r'value="osierbank-large"[^>]*checked', both)


def test_the_rules_of_the_switch_need_no_script():
    rules = stylesheet(["a", 'b"c'])
    assert ':root:has(input[name=ms-workshop][value="a"]:checked) [data-ms-for]:not([data-ms-for~="a"])' in rules
    assert '"b"c"' not in rules


# Records


def drift(**changes):
    values = tuple((f"2026-11-0{n}", n, 16 + n / 1000) for n in range(1, 6))
    base = Drift(40, "bore", values, 16.0, 16.018, 0.001, "upper", 13, 0)
    return replace(base, **changes)


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({}, "drifts towards the upper limit; at this rate 13 more parts until it"),
        ({"towards": "", "parts_left": None}, "5 sizes, no drift to speak of"),
        ({"outside": 1, "towards": ""}, "1 of 5 outside the limits; 5 sizes, no drift to speak of"),
    ],
)
def test_drift_in_words(given, words):
    assert drift_words(drift(**given)) == words


# Data


def test_the_data_hold_every_workshop_and_no_set_formulas():
    data = json.loads(data_text(ENTRY))
    assert set(data["workshops"]) == {samples.SMALL, samples.LARGE}
    assert data["own_workshop"] == samples.SMALL
    assert "<math" not in data_text(ENTRY)
    assert data["workshops"][samples.SMALL]["title"] == "Eccentric spindle, two pieces"


def test_the_operations_as_a_table():
    rows = list(csv.reader(io.StringIO(operations_text(ENTRY))))
    assert rows[0] == list(COLUMNS)
    assert [row[3] for row in rows[1:]] == ["10", "20", "30", "40", "50", "60", "70", "80"]
    assert rows[1][7:10] == ["630.0", "0.1", "0.4"]


# Words of the trade


def test_every_word_has_one_meaning_and_an_anchor():
    assert len(terms()) > 50
    assert len({term.anchor for term in terms()}) == len(terms())
    assert by_spelling()["4 jaw"].word == "four-jaw chuck"
    assert all(term.meaning.endswith(".") for term in terms())


def test_the_first_use_of_a_word_points_at_its_meaning():
    root = fromstring(
        "<div><p>The grip and the <code>grip</code> and a grip.</p><p>Feed, <a>feed</a>.</p><h2>swarf</h2></div>"
    )
    explain_words(root, "../glossary.md")
    links = [link for link in root.iter("a") if link.get("href")]
    assert [link.text for link in links] == ["grip", "Feed"]
    assert links[0].get("href") == "../glossary.md#grip"
    assert "".join(root.itertext()) == "The grip and the grip and a grip.Feed, feed.swarf"


# The reference chapter


def test_worked_examples_are_calls_and_what_they_give():
    assert example_lines(">>> round(spindle_speed(25, 12))\n663\n>>> a(1,\n...   2)\n3") == [
        "round(spindle_speed(25, 12)) → 663",
        "a(1, 2) → 3",
    ]


def test_the_chapter_is_kept_and_a_damaged_one_is_made_anew(tmp_path):
    kept = tmp_path / "deep" / "reference.json"
    first = read_chapter(kept)
    assert isinstance(first, Chapter)
    assert len(first.sheets) > 50
    assert read_chapter(kept) == first
    kept.write_bytes(b"damaged")
    assert read_chapter(kept) == first
    assert not list(tmp_path.rglob("*.tmp"))


def test_every_calculation_has_a_source_and_trust():
    for sheet in read_chapter().sheets:
        assert sheet.source, sheet.name
        assert sheet.trust, sheet.name


# The file that travels


def test_the_method_file_comes_out_byte_for_byte(tmp_path):
    raw = "---\r\nmethod: Tëst </script>\r\n---\r\n".encode() + bytes([0xEF, 0xBB, 0xBF])
    file = tmp_path / "my method.md"
    file.write_bytes(raw)
    book = samples.handbook()
    entry = replace(book.entries["clamp-block"], file=file, path="methods/my method.md")
    site = Site(replace(book, entries={"clamp-block": entry}))
    page = travelling_page(site, "clamp-block", "<h1>x</h1>")
    assert source_of(page) == ("my method.md", raw)
    assert base64.b64encode(raw).decode() in page
    assert "http://" not in page.replace("http://www.w3.org", "")


def test_no_source_where_there_is_none():
    assert source_of("<html></html>") is None


def test_links_out_of_a_travelling_page_become_words():
    content = (
        '<a href="../x/">there</a> <a href="#op-10">here</a> <a href="https://example.org">web</a>'
        '<a class="headerlink" href="#x" title="P">¶</a><a class="ms-action" href="bench/">Bench</a>'
        '<a class="ms-word" href="../glossary/#grip" title="How far.">grip</a>'
    )
    assert without_ways_out(content) == (
        'there <a href="#op-10">here</a> <a href="https://example.org">web</a>'
        '<abbr class="ms-word" title="How far.">grip</abbr>'
    )
