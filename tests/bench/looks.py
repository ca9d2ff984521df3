"""Do the pages look as they did when they were approved? Each kind of page, at three sizes, in light and in dark.

    python tests/bench/looks.py            compares the sample handbook with what was approved; says what differs
    python tests/bench/looks.py --approve  writes the pictures anew; look at every one before you commit it

A picture is grey and 200 px wide, so that it tells of blocks, weights and places, and not of how a font was drawn. It
is no part of the tests: the same page is drawn by other browsers and with other fonts a little otherwise.
"""

from __future__ import annotations

import io
import sys
import tempfile
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Browser, sync_playwright

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "pages"))
sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "browser"))

from sample_site import build, make_project
from seen_pages import KINDS

APPROVED = Path(__file__).with_name("looks")
SIZES = {"phone": (390, 844), "tablet": (820, 1180), "desk": (1366, 900)}
SCHEMES = ("light", "dark")
WIDE = 200
MEAN, FAR, SHARE = 5.0, 64, 0.03
"""A page looks otherwise where its greys differ by more than the first on the whole, or by more than the second in more
than this share of the picture."""
BROWSER = next((path for path in ("/usr/bin/chromium", "/usr/bin/chromium-browser") if Path(path).exists()), None)


def sample(folder: Path) -> Path:
    """The sample handbook as it lies on a memory stick."""
    with pytest.MonkeyPatch.context() as patch:
        site, _ = build(make_project(folder, plugins=["search", {"offline": {}}, "methodsheets"]), None, patch)
    return site


def seen(browser: Browser, page: Path) -> Image.Image:
    """All looks of a page side by side, 200 px each, light above dark."""
    rows = [[_one(browser, page, size, scheme) for size in SIZES.values()] for scheme in SCHEMES]
    high = [max(one.height for one in row) for row in rows]
    sheet = Image.new("L", (WIDE * len(SIZES), sum(high)), 128)
    for i, row in enumerate(rows):
        for j, one in enumerate(row):
            sheet.paste(one, (j * WIDE, sum(high[:i])))
    return sheet


def _one(browser: Browser, page: Path, size: tuple[int, int], scheme: str) -> Image.Image:
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]}, color_scheme=scheme, offline=True, reduced_motion="reduce"
    )
    shown = context.new_page()
    shown.goto(page.as_uri(), wait_until="load")
    shown.evaluate("document.fonts.ready")
    picture = Image.open(io.BytesIO(shown.screenshot())).convert("L")
    context.close()
    return picture.resize((WIDE, round(WIDE * size[1] / size[0])), Image.Resampling.BOX)


def differs(made: Image.Image, approved: Path) -> str:
    """In words, how a page looks otherwise than it was approved; '' where it does not."""
    if not approved.exists():
        return "was never approved"
    wanted = np.asarray(Image.open(approved).convert("L"), float)
    if wanted.shape != np.asarray(made).shape:
        return "has another size"
    off = np.abs(np.asarray(made, float) - wanted)
    far = float((off > FAR).mean())
    return f"differs by {off.mean():.1f}, far in {far:.1%}" if off.mean() > MEAN or far > SHARE else ""


def main(approve: bool) -> int:
    """Look at every kind of page; 1 where one looks otherwise."""
    faults = 0
    with tempfile.TemporaryDirectory(prefix="methodsheets-looks-") as somewhere, sync_playwright() as play:
        site = sample(Path(somewhere))
        browser = play.chromium.launch(executable_path=BROWSER, args=["--no-sandbox", "--disable-gpu"])
        for kind, uri in KINDS.items():
            made, file = seen(browser, site / uri), APPROVED / f"{kind}.png"
            if approve:
                file.parent.mkdir(exist_ok=True)
                made.quantize(16).save(file, optimize=True)
                continue
            said = differs(made, file)
            print(f"{kind:12} {said or 'as approved'}", flush=True)
            faults += bool(said)
        browser.close()
    return min(faults, 1)


if __name__ == "__main__":
    sys.exit(main("--approve" in sys.argv[1:]))
