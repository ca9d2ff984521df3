"""What is measured at the bench: read or marked at once, judged against its mate, and never lost."""

import csv
import io
from pathlib import Path

import pytest
from choosing import until

from methodsheets.handbook.records import parse_records
from methodsheets.reading.problem import Problems

BENCH = "methods/eccentric-two-pieces/bench.html"
BORE, SEAT = "40-bore", "50-seat"


def blank(page, key):
    return page.locator(f'[data-ms-key="{key}"]')


def is_marked(page, key) -> bool:
    return blank(page, key).get_attribute("aria-invalid") == "true"


def saved(page) -> list[dict]:
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Save what was measured").click()
    text = Path(waiting.value.path()).read_text("utf-8")
    problems = Problems()
    parse_records(text, "saved.csv", "eccentric-two-pieces", problems)
    assert not list(problems), "the handbook reads what the sheet saves"
    return list(csv.DictReader(io.StringIO(text)))


AS_WRITTEN = [
    ("mm", "16.005", 16.005),
    ("mm", "16,005", 16.005),
    ("mm", "16.005mm", 16.005),
    ("mm", " 16.005 mm ", 16.005),
    ("mm", "0.63 in", 16.002),  # 0.63 x 25.4
    ("inch", "0.63", 16.002),
    ("inch", "16.005mm", 16.005),
    ("inch", "5/8", 15.875),  # 5/8 x 25.4
    ("inch", '1 1/2"', 38.1),
    ("inch", "630 thou", 16.002),
]


def test_a_size_is_read_as_people_write_it(visit):
    page = visit(BENCH)
    for units, written, mm in AS_WRITTEN:
        page.get_by_label(units, exact=True).check()
        blank(page, f"{BORE}-1").fill(written)
        assert float(saved(page)[0]["measured_mm"]) == pytest.approx(mm, abs=1e-6), (units, written)


def test_what_cannot_be_read_is_marked_at_once_kept_and_saved(visit):
    page = visit(BENCH)
    for written in ("16.00x", "1/0", "about 16", "16.005 kg", "16..005", "-"):
        blank(page, f"{BORE}-1").fill("")
        blank(page, f"{BORE}-1").press_sequentially(written)
        assert is_marked(page, f"{BORE}-1"), written
        assert "cannot be read" in blank(page, f"{BORE}-1").get_attribute("title"), written
        page.reload()
        assert blank(page, f"{BORE}-1").input_value() == written
        assert is_marked(page, f"{BORE}-1"), written
        (line,) = saved(page)
        assert line["measured_mm"] == ""
        assert written in line["note"]
    box = blank(page, f"{BORE}-1")
    box.fill("99")  # far outside its limits, but a size: it is marked for that and no longer for what stood there
    until(page, "document.querySelector('.ms-outside')")
    assert "ms-unread" not in box.get_attribute("class")
    assert not box.get_attribute("title")


def test_a_shaft_is_judged_against_the_bore_that_was_measured(visit):
    """Seat = bore + 0.018 to 0.029: what fits the nominal bore does not fit this one, and the other way round."""
    page = visit(BENCH)
    blank(page, f"{BORE}-1").fill("16.002")  # the seat is 16.020 to 16.031
    for size, wrong in (("16.036", True), ("16.020", False), ("16.031", False), ("16.0199", True)):
        blank(page, f"{SEAT}-1").fill(size)
        assert is_marked(page, f"{SEAT}-1") is wrong, size
    blank(page, f"{BORE}-1").fill("16.010")  # measured again: 16.028 to 16.039
    assert is_marked(page, f"{SEAT}-1")
    blank(page, f"make-{SEAT}-1").fill("16.0")  # a bore written beside the sum counts before the other
    blank(page, f"{SEAT}-1").fill("16.018")
    assert not is_marked(page, f"{SEAT}-1")
    blank(page, f"{SEAT}-2").fill("16.036")  # no bore yet: within what any good bore could ask for
    assert not is_marked(page, f"{SEAT}-2")
    blank(page, f"{SEAT}-2").fill("16.2")
    assert is_marked(page, f"{SEAT}-2")


def test_the_sheet_says_which_bore_and_which_shaft_belong_together(visit):
    assert (
        "belongs to the bore of its own number (Bore, operation 40)"
        in visit(BENCH).locator("p.ms-mates").text_content()
    )


def test_fewer_parts_shown_lose_nothing(visit):
    page = visit(BENCH)
    parts = page.get_by_label("Parts", exact=True)
    for count in ("8", "3"):
        parts.fill(count)
        parts.press("Tab")
        if count == "8":
            blank(page, f"{BORE}-7").fill("16.011")
    assert blank(page, f"{BORE}-7").count() == 0
    assert [(line["part"], line["measured_mm"]) for line in saved(page)] == [("7", "16.011")]
    parts.fill("8")
    parts.press("Tab")
    assert blank(page, f"{BORE}-7").input_value() == "16.011"


def test_a_record_says_where_which_revision_when_and_who(visit):
    page = visit(BENCH)
    blank(page, "made-by").fill("R. T.")
    blank(page, f"{BORE}-1").fill("16.004")
    (line,) = saved(page)
    assert line["by"] == "R. T."
    assert line["revision"] == "B"
    assert line["workshop"] == page.locator("input[name=ms-workshop]:checked").get_attribute("value")
    assert line["date"] == page.evaluate("new Date().toLocaleDateString('sv')")


def test_the_day_is_that_of_the_measuring_not_of_the_saving(visit):
    page = visit(BENCH)
    blank(page, f"{BORE}-1").fill("16.004")
    page.evaluate(
        """() => { for (const key of Object.keys(localStorage)) if (key.includes(':sheet:'))
          localStorage[key] = localStorage[key].replace(/"day 40-bore-1":"[^"]*"/, '"day 40-bore-1":"2026-01-31"'); }"""
    )
    page.reload()
    assert [line["date"] for line in saved(page)] == ["2026-01-31"]


OLDER = """() => { for (const key of Object.keys(localStorage)) if (key.includes(':sheet:')) {
  localStorage[key.replace(/[^:]*$/, 'another')] = localStorage[key]; delete localStorage[key]; } }"""


@pytest.mark.parametrize("taken", [True, False])
def test_a_changed_method_asks_what_becomes_of_what_was_written(visit, taken):
    page = visit(BENCH)
    assert not page.locator(".ms-older").is_visible()
    blank(page, f"{BORE}-1").fill("16.004")
    page.evaluate(OLDER)
    page.reload()
    assert blank(page, f"{BORE}-1").input_value() == ""
    assert "has changed since you last wrote on its sheet (revision B" in page.locator(".ms-older").inner_text()
    page.get_by_role("button", name="Take over what was written" if taken else "Begin afresh").click()
    assert not page.locator(".ms-older").is_visible()
    assert blank(page, f"{BORE}-1").input_value() == ("16.004" if taken else "")
    page.reload()
    assert not page.locator(".ms-older").is_visible()
    assert blank(page, f"{BORE}-1").input_value() == ("16.004" if taken else "")


def test_minutes_are_read_or_kept_as_a_note(visit):
    page = visit(BENCH)
    blank(page, "minutes-40").fill("6 min")
    blank(page, "minutes-50").fill("long")
    assert is_marked(page, "minutes-50")
    lines = {line["operation"]: line for line in saved(page)}
    assert lines["40"]["minutes"] == "6"
    assert lines["50"]["minutes"] == ""
    assert "long" in lines["50"]["note"]
