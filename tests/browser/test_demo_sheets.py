"""Every bench sheet of the demo at every size of screen and paper: nothing cut, nothing over a figure, nothing hidden."""

from pathlib import Path

import pytest
from pypdf import PdfReader

SCREENS = {
    "phone": (390, 844),
    "phone on its side": (844, 390),
    "tablet": (820, 1180),
    "tablet on its side": (1180, 820),
    "desk": (1366, 900),
}
PAPERS = {"A4": 190, "Letter": 196, "A5": 128}
"""Printed width within the margins, mm."""
LEAST_TYPE = {"A4": 7, "Letter": 7, "A5": 6}
"""No lettering of a drawing is smaller than this, pt."""
LETTERING = """() => [...document.querySelectorAll('.ms-sheet svg text')].filter(e => e.getClientRects().length)
  .map(e => [e, e.getCTM()]).filter(([e, m]) => Math.abs(m.a * m.c + m.b * m.d) < 1e-6)
  .map(([e, m]) => parseFloat(getComputedStyle(e).fontSize) * Math.hypot(m.a, m.b) * 0.75)"""

FAULTS = """() => {
  const faults = [], sheet = document.querySelector('.ms-sheet'), edge = sheet.getBoundingClientRect();
  const left = Math.max(edge.left, 0), right = Math.min(edge.right, innerWidth);
  const seen = e => !e.closest('.ms-unseen, svg, thead, .ms-other') && e.getClientRects().length;
  const name = e => `${e.tagName}.${e.className} "${e.textContent.trim().slice(0, 40)}"`;
  for (const e of sheet.querySelectorAll(':not(svg *)')) {
    if (!seen(e)) continue;
    const box = e.getBoundingClientRect(), style = getComputedStyle(e);
    if (box.right > right + 1 || box.left < left - 1) faults.push('off the sheet: ' + name(e));
    if (style.display !== 'inline' && style.overflowX !== 'auto' && e.clientWidth && e.scrollWidth > e.clientWidth + 2) faults.push('cut: ' + name(e));
  }
  const drawn = {acceptNode: node => node.nodeType === 1 ? (node.localName === 'svg' ? 2 : 3) : 1};  // lines of a figure are its own
  const texts = [], walker = document.createTreeWalker(sheet, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT, drawn);
  while (walker.nextNode()) {
    const node = walker.currentNode;
    if (!node.data.trim() || !seen(node.parentElement)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) texts.push([box, node.data.trim()]);
  }
  const over = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1.5
    && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 3;
  for (const box of sheet.querySelectorAll('input')) {
    if (!seen(box)) continue;
    const place = box.getBoundingClientRect();
    for (const [text, words] of texts) if (over(place, text)) faults.push(`a ${box.type} over "${words}"`);
  }
  return faults; }"""

READINGS = """() => [...document.querySelectorAll('[data-ms-op] td[data-label^="Dial"], .ms-sheet-limit .ms-q')]
  .filter(e => e.textContent.trim() && getComputedStyle(e).display !== 'none' && !e.closest('.ms-other'))
  .map(e => e.getBoundingClientRect()).map(b => b.width > 8 && b.height > 8 && b.left >= 0 && b.right <= innerWidth + 1)"""

LARGE = "wanted => document.documentElement.classList.toggle('ms-large', wanted)"


@pytest.fixture
def sheets(demo):
    return sorted(demo.glob("**/bench.html"))


WHOLE = """addEventListener('DOMContentLoaded', () => {
  const whole = document.createElement('style');
  whole.textContent = '.ms-sheet-part { content-visibility: visible !important; }';
  document.head.append(whole); })"""
"""What is far from the window is laid out as well: until then its places are guessed, and lie over others."""


def opened(browser, scripts=True):
    context = browser.new_context(offline=True, java_script_enabled=scripts)
    context.add_init_script(WHOLE)
    context.set_default_timeout(180_000)
    return context.new_page()


@pytest.mark.slow
def test_nothing_is_cut_or_covered_on_a_screen_or_on_paper(browser, sheets):
    """Each sheet is opened once and looked at in every size: on screens in both sizes of type, on paper in one."""
    assert len(sheets) >= 9
    page = opened(browser)
    for sheet in sheets:
        page.goto(sheet.as_uri())
        faults = [*_on_screens(page), *_on_paper(page)]
        assert faults == [], sheet.parent.name
    page.context.close()


def _on_screens(page):
    """What is wrong on a screen: (screen, whether the type is large, faults)."""
    for name, (width, height) in SCREENS.items():
        page.set_viewport_size({"width": width, "height": height})
        for large in (False, True):
            page.evaluate(LARGE, large)
            if found := page.evaluate(FAULTS):
                yield name, large, found
            readings = page.evaluate(READINGS)
            if not readings or not all(readings):
                yield name, large, f"readings {readings}"


def _on_paper(page):
    """What is wrong on paper: cut or covered, lettering too small, or another look for who reads large type."""
    page.emulate_media(media="print")
    size = (
        "() => [getComputedStyle(document.querySelector('.ms-sheet')).fontSize, document.documentElement.scrollHeight]"
    )
    for paper, printed in PAPERS.items():
        page.set_viewport_size({"width": round(printed / 25.4 * 96), "height": 1000})
        page.evaluate(LARGE, False)
        small = page.evaluate(size)
        if found := page.evaluate(FAULTS):
            yield paper, found
        if (least := min(page.evaluate(LETTERING))) < LEAST_TYPE[paper]:
            yield paper, f"lettering of {least} pt"
        page.evaluate(LARGE, True)
        if page.evaluate(size) != small:
            yield paper, "large type is printed"
    page.evaluate(LARGE, False)
    page.emulate_media(media="screen")


@pytest.mark.slow
@pytest.mark.parametrize(("method", "most"), [("guide-bush", 3), ("eccentric-two-piece", 8), ("swing-shaft-solid", 7)])
def test_a_sheet_takes_no_more_paper_than_it_needs(browser, demo, tmp_path, method, most):
    """A4; operations stand in two columns; each page says which sheet and which page of how many it is."""
    page = opened(browser)
    page.goto((demo / "methods" / method / "bench.html").as_uri())
    page.pdf(path=str(tmp_path / "sheet.pdf"), format="A4")
    pages = PdfReader(str(tmp_path / "sheet.pdf")).pages
    assert len(pages) <= most
    for number, one in enumerate(pages, 1):
        said = one.extract_text()
        assert f"{number} / {len(pages)}" in said
        assert "revision" in said
    page.context.close()


def test_what_is_cut_or_covered_is_found(browser, demo):
    """The look of it is no blind one: a narrow place and a box drawn over its neighbour are both told."""
    page = opened(browser)
    page.goto(Path(demo / "methods/guide-bush/bench.html").as_uri())
    assert page.evaluate(FAULTS) == []
    page.add_style_tag(
        content=".ms-sheet-settings dd { width: 1em; } .ms-tick input { width: 9em; margin-right: -9em; }"
    )
    found = page.evaluate(FAULTS)
    assert any(one.startswith("cut: DD") for one in found)
    assert any(one.startswith("a checkbox over") for one in found)
    page.context.close()
