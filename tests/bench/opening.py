"""How does a page open on a slow tablet? What it asks of the processor until it is ready, and how much of it moves.

    python tests/bench/opening.py [SITE]        each page of a built demo, the heaviest first

A slow tablet is taken as one whose processor needs four times as long as this one. What is counted is the time for
which the page's main thread runs, not the clock on the wall: so other work on the machine changes little.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

SLOWER = 4
"""A slow tablet's time / this machine's."""
PLAIN = "keeping.html"
"""A page of words alone: what the theme asks for."""
TABLET = {"width": 820, "height": 1180}
BROWSERS = ("/usr/bin/chromium", "/usr/bin/chromium-browser")

_SHIFTS = """window.msMoved = 0; new PerformanceObserver(list => {
  for (const one of list.getEntries()) if (!one.hadRecentInput) window.msMoved += one.value;
}).observe({type: 'layout-shift', buffered: true});"""
_TO_THE_END = """async () => { for (let at = 0; at < document.body.scrollHeight; at += innerHeight) {
  window.scrollTo(0, at); await new Promise(requestAnimationFrame); await new Promise(requestAnimationFrame); } }"""


@dataclass(frozen=True)
class Opened:
    """One page: seconds until it is ready on a slow tablet, and by how much it moved while it was read to its end."""

    page: str
    ready: float
    moved: float


def opened(site: Path, pages: list[Path]) -> list[Opened]:
    """The pages, the slowest first; none where there is no browser."""
    from playwright.sync_api import sync_playwright

    found = next((path for path in BROWSERS if Path(path).exists()), None)
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=found, args=["--no-sandbox", "--disable-gpu"])
        context = browser.new_context(viewport=TABLET, offline=True)
        context.set_default_timeout(120_000)
        context.add_init_script(_SHIFTS)
        each = [_one(context, site, page) for page in pages]
        browser.close()
    return sorted(each, key=lambda one: -one.ready)


def _one(context: Any, site: Path, path: Path) -> Opened:
    page = context.new_page()
    asked = context.new_cdp_session(page)
    asked.send("Performance.enable", {"timeDomain": "threadTicks"})
    before = _busy(asked)
    page.goto(path.as_uri(), wait_until="load")
    page.evaluate("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")
    ready = _busy(asked) - before
    page.evaluate(_TO_THE_END)
    moved = page.evaluate("window.msMoved")
    page.close()
    return Opened(path.relative_to(site).as_posix(), ready * SLOWER, moved)


def _busy(asked: Any) -> float:
    """Seconds for which the main thread of the page has run."""
    return next(
        float(one["value"]) for one in asked.send("Performance.getMetrics")["metrics"] if one["name"] == "TaskDuration"
    )


def pages_of(site: Path) -> list[Path]:
    """Pages of methods and their bench sheets, the list, the comparisons, and a plain page of words."""
    methods = [page for page in site.glob("methods/*.html") if (page.parent / page.stem / "bench.html").exists()]
    sheets = [page.parent / page.stem / "bench.html" for page in methods]
    return [*methods, *sheets, site / PLAIN, site / "methods/index.html", *site.glob("methods/compare/*.html")]


if __name__ == "__main__":
    SITE = Path(sys.argv[1] if len(sys.argv) > 1 else "site").resolve()
    for one in opened(SITE, pages_of(SITE)):
        print(f"{one.page:55} ready {one.ready:5.2f} s  moved {one.moved:.3f}", flush=True)
