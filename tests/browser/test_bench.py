"""The bench sheet in a real browser: on paper, on a tablet, with ticks and measurements that stay."""

import csv
import html
import io
import os
import re
import shutil
import subprocess
import unicodedata
from pathlib import Path

import pytest
import samples
from choosing import choose, until
from pypdf import PdfReader

from methodsheets.handbook.records import parse_records
from methodsheets.pages import wording
from methodsheets.reading.problem import Problems

BENCH = "methods/eccentric-two-pieces/bench.html"
METHOD = "methods/eccentric-two-pieces.html"
TRAVELLING = "methods/eccentric-two-pieces/eccentric-two-pieces.html"
PAPER = {"A4": (210, 297), "Letter": (215.9, 279.4), "A5": (148, 210)}


def printed(page, paper, tmp_path) -> PdfReader:
    width, height = PAPER[paper]
    file = tmp_path / f"{paper}.pdf"
    page.pdf(path=str(file), width=f"{width}mm", height=f"{height}mm", prefer_css_page_size=False)
    return PdfReader(str(file))


def words(reader) -> list[str]:
    """Text of each page with all blanks made single and ligatures taken apart."""
    return [plain(page.extract_text()) for page in reader.pages]


def plain(text: str) -> str:
    return re.sub(r"\s+", " ", unicodedata.normalize("NFKC", text))


@pytest.mark.parametrize(("paper", "most"), [("A4", 4), ("Letter", 5), ("A5", 9)])
def test_paper(visit, tmp_path, paper, most):
    page = visit(BENCH)
    texts = words(printed(page, paper, tmp_path))
    assert 2 <= len(texts) <= most
    whole = " ".join(texts)
    for number in range(10, 90, 10):
        assert re.search(rf"\b{number}\b", whole)
    for said in (
        "Three-jaw chuck",
        "Spindle speed",
        "not over",
        "bore measured",
        "Remarks for next time",
        "Wear eye protection",
    ):
        assert said in whole, said
    for index, text in enumerate(texts, 1):
        assert "Eccentric spindle, two pieces · revision B · 2026-11-20" in text
        assert f"{index} / {len(texts)}" in text
    for unwanted in ("Large type", "My workshop", "Save what was measured", "Back to the method"):
        assert unwanted not in whole


@pytest.mark.parametrize("paper", PAPER)
def test_no_operation_is_broken_over_two_pages(visit, tmp_path, paper):
    texts = words(printed(visit(BENCH), paper, tmp_path))
    for operation in samples.handbook().entries["eccentric-two-pieces"].own.operations:
        estimate = wording.minutes(operation.cutting_minutes + operation.handling_minutes).metric
        start, end = plain(operation.words.metric), plain(f"Estimate {estimate}")
        assert any(start in text and end in text for text in texts), start


@pytest.mark.parametrize(
    ("uri", "part", "paper"),
    [(uri, part, paper) for uri, part in ((BENCH, ".ms-sheet"), (METHOD, ".md-content")) for paper in PAPER]
    + [(TRAVELLING, ".ms-alone-body", paper) for paper in PAPER],
)
def test_nothing_is_clipped_on_paper(visit, uri, part, paper):
    """Within the print layout no text reaches beyond its box or over the paper's edge."""
    page = visit(uri, width=round((PAPER[paper][0] - 20) / 25.4 * 96), height=1000)
    page.emulate_media(media="print")
    over = page.evaluate(
        """(part) => [...document.querySelectorAll(part + ' *')].filter(e => {
             const style = getComputedStyle(e), box = e.getBoundingClientRect();
             if (!box.width || e.closest('.ms-unseen') || e.closest('svg') || e.closest('math')) return false;
             if (box.right > innerWidth + 1.5) return true;
             return style.display !== 'inline' && e.clientWidth && e.scrollWidth > e.clientWidth + 2;
           }).map(e => e.className + ': ' + e.textContent.trim().slice(0, 60))""",
        part,
    )
    assert over == [], "\n".join(over)


def placed_words(file: Path) -> list[tuple[float, list[tuple[float, float, float, float, str]]]]:
    """Of each page its width and its words: left, top, right, bottom, text; in points."""
    told = subprocess.run(["pdftotext", "-bbox", str(file), "-"], capture_output=True, text=True, check=True).stdout
    box = re.compile(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>')
    return [
        (
            float(re.match(r'width="([\d.]+)"', part)[1]),
            [(*map(float, one[:4]), html.unescape(one[4])) for one in box.findall(part)],
        )
        for part in told.split("<page ")[1:]
    ]


def clashes(placed: list) -> list[tuple[str, str]]:
    """Pairs of words that stand on each other; what is turned or tiny is left to the tests of drawings."""
    upright = [one for one in placed if one[3] - one[1] > 4 and (len(one[4]) < 3 or one[2] - one[0] > one[3] - one[1])]
    return [
        (a[4], b[4])
        for index, a in enumerate(upright)
        for b in upright[index + 1 :]
        if min(a[2], b[2]) - max(a[0], b[0]) > 1
        and min(a[3], b[3]) - max(a[1], b[1]) > 0.45 * min(a[3] - a[1], b[3] - b[1])
    ]


@pytest.mark.skipif(
    not shutil.which("pdftotext") and os.environ.get("METHODSHEETS_BROWSER") != "required", reason="no pdftotext here"
)
@pytest.mark.parametrize("paper", PAPER)
def test_no_two_words_stand_on_each_other(visit, tmp_path, paper):
    """For either workshop; and no word reaches into the margin of the paper."""
    page = visit(BENCH)
    for workshop in (samples.SMALL, samples.LARGE):
        choose(page, workshop)
        printed(page, paper, tmp_path)
        pages = placed_words(tmp_path / f"{paper}.pdf")
        assert sum(len(placed) for _, placed in pages) > 800
        for number, (width, placed) in enumerate(pages, 1):
            assert clashes(placed) == [], (workshop, number)
            assert [one[4] for one in placed if one[0] < 20 or one[2] > width - 20] == [], (workshop, number)


def test_words_that_stand_on_each_other_are_found():
    word, near, below = (100, 100, 140, 112, "Reaches"), (138, 101, 170, 113, "Depth"), (100, 111, 140, 123, "Dial")
    assert clashes([word, near, below]) == [("Reaches", "Depth")]
    assert clashes([word, (118, 60, 122, 140, "turned")]) == []


def test_a_card_is_a_card_whatever_the_printer_is_set_to(visit, tmp_path):
    """Browsers tell the stylesheet the width of the printer's paper, not of the paper that the reader chose."""
    page = visit(BENCH, width=1000)
    page.emulate_media(media="print")
    look = "() => getComputedStyle(document.querySelector('.ms-sheet')).fontSize"
    assert page.evaluate(look) == f"{9 / 0.75:g}px"
    page.emulate_media(media="screen")
    page.locator('[data-ms-do="paper"]').select_option("a5")
    page.emulate_media(media="print")
    assert page.evaluate(look) == f"{8.5 / 0.75:.4f}px"
    page.pdf(path=str(tmp_path / "card.pdf"), prefer_css_page_size=True)
    sheets = PdfReader(str(tmp_path / "card.pdf")).pages
    assert {
        (round(float(one.mediabox.width) * 25.4 / 72), round(float(one.mediabox.height) * 25.4 / 72)) for one in sheets
    } == {(148, 210)}
    page.emulate_media(media="screen")
    page.locator('[data-ms-do="paper"]').select_option("auto")
    page.emulate_media(media="print")
    assert page.evaluate(look) == f"{9 / 0.75:g}px"


def test_many_passes_and_their_changes_are_whole_on_every_paper(visit):
    """No cell of a table of passes reaches into the next one."""
    page = visit(BENCH)
    for name, (width, _) in PAPER.items():
        page.set_viewport_size({"width": round((width - 20) / 25.4 * 96), "height": 1000})
        page.emulate_media(media="print")
        clash = page.evaluate(
            """() => [...document.querySelectorAll('.ms-sheet-passes-all tr')].filter(row => row.getClientRects().length)
              .filter(row => [...row.cells].some((cell, i) => i && cell.getBoundingClientRect().left
                < row.cells[i - 1].getBoundingClientRect().right - 1) || row.getBoundingClientRect().right
                > row.closest('.ms-scroll').getBoundingClientRect().right + 1).map(row => row.textContent)"""
        )
        assert clash == [], name


def test_spindle_speeds_can_be_read_at_arm_s_length(visit, tmp_path):
    page = visit(BENCH)
    sizes = page.evaluate(
        "[...document.querySelectorAll('.ms-big .ms-num')].map(e => parseFloat(getComputedStyle(e).fontSize) * 0.75)"
    )
    assert min(sizes) >= 24
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 476, "height": 700})
    small = page.evaluate(
        "[...document.querySelectorAll('.ms-big .ms-num')].map(e => parseFloat(getComputedStyle(e).fontSize) * 0.75)"
    )
    assert min(small) >= 24


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_sheet_is_black_on_white_in_either_scheme(visit, scheme):
    page = visit(BENCH, scheme=scheme)
    script = "e => [getComputedStyle(e).backgroundColor, getComputedStyle(e).color]"
    assert page.locator(".ms-sheet").evaluate(script) == ["rgb(255, 255, 255)", "rgb(0, 0, 0)"]


def test_ticks_and_sizes_survive_a_reload(visit):
    page = visit(BENCH)
    page.locator('[data-ms-key="done-10"]').check()
    page.locator('[data-ms-key="40-bore-2"]').fill("16.005")
    page.reload()
    assert page.locator('[data-ms-key="done-10"]').is_checked()
    assert page.locator('[data-ms-key="40-bore-2"]').input_value() == "16.005"
    other = visit("methods/eccentric-one-piece/bench.html", context=page.context)
    assert not other.locator('[data-ms-key="done-10"]').is_checked()


def test_two_tabs_do_not_fight(visit):
    first = visit(BENCH)
    second = visit(BENCH, context=first.context)
    first.locator('[data-ms-key="done-10"]').check()
    second.locator('[data-ms-key="done-20"]').check()
    until(first, "document.querySelector('[data-ms-key=done-20]').checked")
    assert first.locator('[data-ms-key="done-10"]').is_checked()
    second.reload()
    assert second.locator('[data-ms-key="done-10"]').is_checked()
    assert second.locator('[data-ms-key="done-20"]').is_checked()


def test_a_size_outside_its_limits_is_marked(visit):
    page = visit(BENCH)
    blank = page.locator('[data-ms-key="40-bore-1"]')
    for value, invalid in (
        ("16.018", "false"),
        ("16.019", "true"),
        ("15,999", "true"),
        ("16,000", "false"),
        ("", "false"),
    ):
        blank.fill(value)
        assert blank.get_attribute("aria-invalid") == invalid, value


def test_make_to_measured_is_worked_out_on_the_sheet(visit):
    page = visit(BENCH)
    page.locator('[data-ms-key="make-50-seat-1"]').fill("16.005")
    total = page.locator("[data-ms-sum='1']")
    assert total.inner_text() == "16.023 to 16.034"
    page.locator('[data-ms-key="40-bore-2"]').fill("16.010")  # measured on this sheet: taken over
    assert page.locator("[data-ms-sum='2']").inner_text() == "16.028 to 16.039"
    assert page.locator('[data-ms-key="make-50-seat-2"]').input_value() == "16.01"


def test_sizes_may_be_typed_in_inches(visit):
    page = visit(BENCH)
    page.get_by_label("inch", exact=True).check()
    page.locator('[data-ms-key="40-bore-1"]').fill("0.6302")
    assert page.locator('[data-ms-key="40-bore-1"]').get_attribute("aria-invalid") == "false"
    page.get_by_label("mm", exact=True).check()
    assert page.locator('[data-ms-key="40-bore-1"]').input_value() == "16.0071"


def test_more_parts_get_more_blanks(visit):
    page = visit(BENCH)
    page.get_by_label("Parts", exact=True).fill("8")
    page.get_by_label("Parts", exact=True).press("Tab")
    assert page.locator("[data-ms-limit=bore] input").count() == 8
    page.locator('[data-ms-key="40-bore-8"]').fill("16.001")
    page.reload()
    assert page.locator('[data-ms-key="40-bore-8"]').input_value() == "16.001"
    keys = page.evaluate("[...document.querySelectorAll('[data-ms-key]')].map(e => e.dataset.msKey)")
    sheet_keys = [key for key in keys if key.startswith(("40-bore", "make-50-seat"))]
    assert len(sheet_keys) == len(set(sheet_keys)) == 16
    page.get_by_label("Parts", exact=True).fill("3")
    page.get_by_label("Parts", exact=True).press("Tab")
    assert page.locator("[data-ms-limit=bore] input").count() == 3


def test_one_set_up_alone(visit):
    page = visit(BENCH)
    page.locator("[data-ms-do=only-setup]").select_option("2")
    parts = page.locator(".ms-sheet-part:visible")
    assert [parts.nth(index).get_attribute("data-ms-setup") for index in range(parts.count())] == ["2"]


def test_what_was_measured_is_saved_as_records(visit):
    page = visit(BENCH)
    page.locator('[data-ms-key="batch"]').fill("winter, 1")
    page.locator('[data-ms-key="40-bore-1"]').fill("16.004")
    page.locator('[data-ms-key="40-bore-3"]').fill("16.011")
    page.locator('[data-ms-key="minutes-40"]').fill("6.5")
    page.locator('[data-ms-key="note-40"]').fill('chatter, "a little"')
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Save what was measured").click()
    assert re.fullmatch(r"eccentric-two-pieces-\d{4}-\d\d-\d\d\.csv", waiting.value.suggested_filename)
    rows = list(csv.DictReader(io.StringIO(Path(waiting.value.path()).read_text("utf-8"))))
    assert [(row["operation"], row["limit"], row["part"], row["measured_mm"]) for row in rows[:2]] == [
        ("40", "bore", "1", "16.004"),
        ("40", "bore", "3", "16.011"),
    ]
    assert rows[2]["minutes"] == "6.5"
    assert rows[2]["note"] == 'chatter, "a little"'
    assert {row["batch"] for row in rows} == {"winter, 1"}
    assert {row["method"] for row in rows} == {"eccentric-two-pieces"}
    assert "saved" in page.locator(".ms-said").inner_text()
    problems = Problems()
    text = Path(waiting.value.path()).read_text("utf-8")
    records = parse_records(text, waiting.value.suggested_filename, "eccentric-two-pieces", problems)
    assert not list(problems)
    assert [(one.operation, one.limit, one.part_number, one.measured) for one in records[:2]] == [
        (40, "bore", 1, 16.004),
        (40, "bore", 3, 16.011),
    ]
    assert records[2].minutes == 6.5


def test_nothing_to_save_is_said(visit):
    page = visit(BENCH)
    page.get_by_role("button", name="Save what was measured").click()
    assert page.locator(".ms-said").inner_text() == "Nothing is written in yet."


def test_start_afresh_clears_this_sheet_only_when_confirmed(visit):
    page = visit(BENCH)
    page.locator('[data-ms-key="done-10"]').check()
    page.once("dialog", lambda dialog: dialog.dismiss())
    page.get_by_role("button", name="Start afresh").click()
    assert page.locator('[data-ms-key="done-10"]').is_checked()
    page.once("dialog", lambda dialog: dialog.accept())
    page.get_by_role("button", name="Start afresh").click()
    assert not page.locator('[data-ms-key="done-10"]').is_checked()


def test_large_type(visit):
    page = visit(BENCH, width=820, height=1180)
    button = page.get_by_role("button", name="Large type")
    button.click()
    size = page.evaluate("parseFloat(getComputedStyle(document.querySelector('.ms-big .ms-num')).fontSize) * 0.75")
    assert size >= 50
    assert button.get_attribute("aria-pressed") == "true"
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    page.reload()
    assert page.get_by_role("button", name="Large type").get_attribute("aria-pressed") == "true"


def test_the_sheet_prints_for_the_chosen_workshop(visit, tmp_path):
    page = visit(BENCH)
    choose(page, samples.LARGE)
    whole = " ".join(words(printed(page, "A4", tmp_path)))
    assert "Osierbank, large bench" in whole
    assert "Works with these changes in Osierbank, large bench" in whole
    assert "787" in whole  # 630 x 1.25 of the sample
    assert "630" not in re.sub(r"0\.630", "", whole)  # a size in inches: the large bench thinks in them


@pytest.mark.parametrize(
    ("uri", "paper", "most"),
    [
        (METHOD, "A4", 10),
        (METHOD, "Letter", 10),
        (METHOD, "A5", 15),
        (TRAVELLING, "A4", 15),
        (TRAVELLING, "Letter", 17),
        (TRAVELLING, "A5", 24),
    ],
)
def test_the_method_page_and_the_travelling_file_print_too(visit, tmp_path, uri, paper, most):
    texts = words(printed(visit(uri), paper, tmp_path))
    whole = " ".join(texts)
    assert 3 <= len(texts) <= most
    assert all(f"{index} / {len(texts)}" in text for index, text in enumerate(texts, 1))
    if uri == METHOD:
        assert all(len(text.split()) > 25 for text in texts)
    for operation in samples.handbook().entries["eccentric-two-pieces"].own.operations:
        assert plain(operation.words.metric) in whole
    for said in ("Wear eye protection", "What was measured", "Your machine's manual"):
        assert said in whole, said
    for unwanted in ("Bench sheet to print", "My workshop", "Take the method file out", "Osierbank, large bench"):
        assert unwanted not in whole, unwanted


def test_a_browser_that_keeps_nothing_still_works(visit):
    page = visit("methods/eccentric-two-pieces.html")
    page.context.add_init_script(
        "Object.defineProperty(window, 'localStorage', {get() { throw new Error('blocked'); }})"
    )
    second = visit(BENCH, context=page.context)
    second.get_by_label("inch", exact=True).check()
    assert any("in" in text for text in second.locator(".ms-q[data-inch]").all_inner_texts())
    second.locator('[data-ms-key="done-10"]').check()
    assert second.locator('[data-ms-key="done-10"]').is_checked()
