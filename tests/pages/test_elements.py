"""Tests of `pages.elements` and `pages.islands`: trees become sound markup."""

import re
from pathlib import Path
from xml.etree.ElementTree import fromstring

import pytest

from methodsheets.formula.measure import Measure
from methodsheets.pages import document as d
from methodsheets.pages.elements import FOLDED, elements, to_html
from methodsheets.pages.islands import Islands
from methodsheets.sheet.words import Words

STATIC = Path(d.__file__).parent / "static"
LENGTH = Measure(12.5, "mm", "length", "12.5\u202fmm", "0.492\u202fin")
SPEED = Measure(620, "1/min", "spindle_speed", "620\u202f1/min", "620\u202f1/min")


def html(*blocks):
    return to_html(blocks, Islands())


def test_a_quantity_carries_both_systems_and_shows_the_metric_one():
    found = html(d.Paragraph((d.Quantity(LENGTH),)))
    assert found == '<p><span class="ms-q" data-inch="0.492\u202fin">12.5\u202fmm</span></p>'


def test_a_quantity_without_an_inch_form_is_not_switched():
    assert "data-inch" not in html(d.Paragraph((d.Quantity(SPEED),)))


def test_number_and_unit_apart():
    found = html(d.Paragraph((d.Quantity(LENGTH, split=True),)))
    assert '<span class="ms-num">12.5</span>\u202f<span class="ms-unit">mm</span>' in found


def test_words_are_escaped():
    assert html(d.Paragraph(d.words("<script>&"))) == "<p>&lt;script&gt;&amp;</p>"


def test_a_table_has_caption_scopes_and_as_many_cells_as_columns():
    rows = (d.Row((d.words("1"), (d.Quantity(LENGTH),))),)
    found = fromstring(
        html(d.Table("Passes", (d.Column("Pass"), d.Column("Reaches", number=True)), rows, kind="passes"))
    )
    assert found.findtext(".//caption") == "Passes"
    assert [cell.get("scope") for cell in found.iter("th")] == ["col", "col", "row"]
    assert [cell.get("data-label") for cell in found.find(".//tbody/tr")] == ["Pass", "Reaches"]
    assert found.get("tabindex") == "0"  # a table that scrolls sideways can be reached by keyboard


def test_an_unsearched_table_says_so():
    assert "data-search-exclude" in html(d.Table("x", (d.Column("a"),), (), searched=False))


@pytest.mark.parametrize("shown", [True, False])
def test_a_variant_names_its_workshops_and_only_others_are_kept_from_search(shown):
    islands = Islands()
    made = elements((d.For(("small", "tiny"), (d.Group("card", (), id="op-10"),), shown),), islands)
    text = islands.fill(to_html((d.For(("small", "tiny"), (d.Group("card", (), id="op-10"),), shown),), islands), str)
    assert 'data-ms-for="small tiny"' in text
    assert ("ms-other" in text) is not shown
    assert ("data-search-exclude" in text) is not shown
    assert ('id="op-10"' in text) is shown  # anchors of other workshops get names of their own
    assert len(made) == 1


def test_the_drawing_of_another_workshop_is_fetched_only_when_wanted():
    place = d.FigurePlace("key", Words("Set-up 1"), "a chuck", "key.svg")
    islands = Islands()
    found = islands.fill(to_html((d.For(("large",), (place,), False),), islands), str)
    assert 'loading="lazy"' in found
    assert 'alt="a chuck"' in found
    assert "data-ms-island" in html(place)


def test_drawings_and_formulas_are_put_in_last():
    islands = Islands()
    text = to_html((d.FigurePlace("k1", Words("Set-up")), d.Paragraph((d.Markup("<math><mi>n</mi></math>"),))), islands)
    assert "<svg" not in text
    assert "<math" not in text
    filled = islands.fill(text, lambda key: f"<svg>{key}</svg>")
    assert "<svg>k1</svg>" in filled
    assert "<math><mi>n</mi></math>" in filled
    assert islands.figures == ("k1",)


def test_what_opens_and_has_no_links_is_put_in_last_with_its_formulas():
    islands = Islands()
    block = d.Disclosure(d.words("Show"), (d.Paragraph((d.Markup("<math></math>"),)),))
    text = to_html((block,), islands)
    assert "details" not in text
    assert re.search(r"<details.*<math>", islands.fill(text, str), re.S)


def test_what_opens_and_has_links_stays_for_the_host_to_check():
    block = d.Disclosure(d.words("Show"), (d.Paragraph((d.Link("other.md", d.words("there")),)),))
    assert 'href="other.md"' in html(block)


def test_a_missing_drawing_is_said():
    islands = Islands()
    text = to_html((d.FigurePlace("gone", Words("x")),), islands)
    assert "gone is not there" in islands.fill(text, lambda key: "")


def test_the_same_formula_is_kept_once():
    islands = Islands()
    formula = d.Paragraph((d.Markup("<math></math>"),))
    assert len(set(re.findall(r'data-ms-island="(\w+)"', to_html((formula, formula), islands)))) == 1


def test_blanks_and_ticks_have_labels():
    (found,) = elements(
        (d.Paragraph((d.Blank("k-1", "1", attributes=(("aria-label", "bore, part 1, mm"),)), d.Tick("t", "Done"))),),
        Islands(),
    )
    boxes = list(found.iter("input"))
    assert [box.get("type") for box in boxes] == ["text", "checkbox"]
    assert all(label.tag == "label" for label in found)


def test_a_group_of_cells_in_a_grid_may_differ_by_workshop():
    pair = d.Pair(d.words("Feed"), d.words("0.1"), key="feed")
    islands = Islands()
    text = islands.fill(
        to_html((d.Pairs((d.For(("a",), (pair,), True), d.For(("b",), (pair,), False))),), islands), str
    )
    found = fromstring(text)
    assert [cell.tag for cell in found] == ["div", "div"]  # `dl` allows nothing else round a term and its value
    assert [cell.get("data-ms-for") for cell in found] == ["a", "b"]


def test_cells_say_what_their_column_was_called_where_a_style_folds_their_table():
    styles = "".join(path.read_text("utf-8") for path in STATIC.glob("*.css"))
    folding = "".join(re.findall(r"([^{}]*)\{[^}]*attr\(data-label\)", styles))
    assert set(re.findall(r"table\.ms-([a-z-]+)", folding)) == FOLDED - {"sheet-passes"}  # the bench view reads that


def test_where_drawings_are_files_they_are_fetched_when_seen_and_their_place_is_kept():
    islands = Islands(lambda key: ("1700", "600", "--ms-least:545px"))
    with_file = d.FigurePlace("k1", Words("Set-up 1"), "a chuck", "k1.svg")
    found = to_html((with_file, d.FigurePlace("k2", Words("Fit"))), islands)
    picture = re.search(r"<img [^>]*>", found).group()
    for said in (
        'src="k1.svg"',
        'alt="a chuck"',
        'loading="lazy"',
        'width="1700"',
        'height="600"',
        'style="--ms-least:545px"',
    ):
        assert said in picture
    assert islands.figures == ("k2",), "a drawing that is no file stands in the page"
