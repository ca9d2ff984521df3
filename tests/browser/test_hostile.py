"""A stranger's handbook in a real browser: no dialog, no request, no word in the console; and the policy holds."""

import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path
from urllib.parse import quote

import pytest
from choosing import SHOWN, until
from sample_site import build, make_project

from methodsheets.pages.policy import policy, wanted_by, with_policy

PLUGINS = {"stick": ["search", {"offline": {}}, "methodsheets"], "served": ["search", "tags", "methodsheets"]}
FORK = "properdocs"
"""The maintained fork of MkDocs; some of the neighbours bring it. What is served is built by it where it is there."""
ALONE = Path(__file__).parent.parent / "pages" / "hostile_host.py"


@pytest.fixture(scope="module", params=PLUGINS)
def strangers_site(request, tmp_path_factory) -> Path:
    """A handbook that is hostile in every field, for a memory stick and for a server."""
    import hostile

    config = make_project(tmp_path_factory.mktemp(request.param), plugins=PLUGINS[request.param])
    if request.param == "served" and find_spec(FORK) is not None:
        subprocess.run([sys.executable, str(ALONE), FORK, str(config)], check=True, capture_output=True)
        return config.parent / "site"
    with pytest.MonkeyPatch.context() as patch:
        return build(config, hostile.handbook(), patch)[0]


@pytest.fixture
def address_of(strangers_site, serve):
    """Where a reader finds a page: on the stick itself, or at a server that knows which page a folder stands for."""
    if not (strangers_site / "methods" / "clamp-block" / "bench" / "index.html").is_file():
        yield Path.as_uri
        return
    with serve(strangers_site) as where:
        yield lambda file: f"{where}/{quote(file.relative_to(strangers_site).as_posix())}"


@pytest.fixture
def watched_page(browser):
    """A page that keeps what the console said, what was asked for and which dialogs were shown."""
    context = browser.new_context()
    page = context.new_page()
    page.said, page.asked, page.shown = [], [], []
    # At a server a browser asks for `favicon.ico` by itself, where a page names no icon.
    own = "/favicon.ico"
    page.on("console", lambda said: said.location["url"].endswith(own) or page.said.append(said.text))
    page.on("pageerror", lambda error: page.said.append(str(error)))
    # What the policy forbids is begun and stopped before it leaves the browser; that is no request.
    page.stopped = []
    page.on("requestfailed", lambda request: page.stopped.append((request.url, request.failure)))
    page.on("request", lambda request: page.asked.append(request.url))
    page.on("dialog", lambda dialog: (page.shown.append(dialog.message), dialog.dismiss()))
    yield page
    context.close()


def kinds(site: Path) -> list[Path]:
    """One page of each kind, and every page of the method with the most in it."""
    return [
        page
        for page in sorted(site.rglob("*.html"))
        if page.name != "404.html" and ("reference" not in page.parts or page.parent.name == "reference")
    ]


def test_no_page_of_a_stranger_does_anything(strangers_site, watched_page, address_of):
    page = watched_page
    for file in kinds(strangers_site):
        page.goto(address_of(file))
        if file.parts[-2] not in ("site",):  # our script runs, here or on the page to which it leads
            until(page, "'msOn' in document.documentElement.dataset")
        page.wait_for_load_state("load")
        page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    page.wait_for_timeout(300)
    assert page.shown == []
    assert [line for line in page.said if "Worker" not in line and "CORS" not in line] == []
    home = address_of(strangers_site / "index.html").removesuffix("index.html")
    outside = [url for url in page.asked if not url.startswith((home, "file:", "data:", "blob:", "about:"))]
    assert outside == []
    assert all(
        Path(url.removeprefix("file://").split("?")[0].split("#")[0]).is_relative_to(strangers_site)
        for url in page.asked
        if url.startswith("file:") and "%" not in url
    )


def test_every_control_of_a_strangers_sheet_is_harmless(strangers_site, watched_page):
    page = watched_page
    bench = next(
        file for file in sorted(strangers_site.rglob("bench*")) if file.is_file() or (file / "index.html").is_file()
    )
    page.goto((bench if bench.is_file() else bench / "index.html").as_uri())
    until(page, SHOWN)
    for box in page.locator("[data-ms-sheet] input[type=text]").all()[:12]:
        if box.is_visible():
            box.fill('"><img src=x onerror=evil()>')
    for box in page.locator("[data-ms-sheet] input[type=checkbox]").all()[:12]:
        if box.is_visible():
            box.check()
    for radio in page.locator("input[type=radio]").all():
        if radio.is_visible():
            radio.check(force=True)
    page.reload()
    page.wait_for_load_state("load")
    assert page.shown == []
    assert [line for line in page.said if "Worker" not in line and "CORS" not in line] == []
    assert page.locator("x-evil").count() == 0
    assert page.locator("img[onerror]").count() == 0


@pytest.mark.parametrize("strangers_site", ["stick"], indirect=True)
def test_search_shows_a_strangers_words_as_words(visit, strangers_site):
    page = visit("methods/eccentric-two-pieces.html", base=strangers_site.as_uri())
    page.keyboard.press("/")
    page.keyboard.type("evil")
    page.wait_for_selector(".md-search-result__item a")
    assert page.locator(".md-search-result x-evil, .md-search-result img, .md-search-result script").count() == 0
    assert page.said == []
    assert [url for url in page.asked if not url.startswith(("file:", "data:", "blob:", "about:"))] == []


INJECTED = """
<script>window.evil = 'inline'</script>
<script src="https://evil.invalid/x.js"></script>
<img src="https://evil.invalid/x.png" onerror="window.evil = 'handler'">
<img src="none.png" onerror="window.evil = 'handler'">
<a id="go" href="javascript:window.evil='address'">go</a>
<iframe src="https://evil.invalid/"></iframe>
<base href="https://evil.invalid/">
<object data="https://evil.invalid/"></object>
<script>window.theme = 'ran'; </script>
"""


def test_the_policy_holds_where_a_fault_would_let_markup_through(tmp_path, watched_page):
    """From a file, where no server can send the policy."""
    page = watched_page
    around = "<!doctype html><html><head><meta charset='utf-8'></head><body>{}<script>window.own = 'ran'</script></body></html>"
    text = with_policy(around.format(INJECTED), policy(wanted_by(around.format(""))))
    (tmp_path / "page.html").write_text(text, "utf-8")
    page.goto((tmp_path / "page.html").as_uri())
    page.wait_for_load_state("load")
    page.click("#go")
    page.wait_for_timeout(300)
    assert page.evaluate("window.own") == "ran"
    assert page.evaluate("[window.evil, window.theme].join()") == ","
    assert page.evaluate("document.baseURI") == (tmp_path / "page.html").as_uri()
    asked = [url for url in page.asked if "evil.invalid" in url]
    assert [url for url in asked if (url, "csp") not in page.stopped] == []
    assert any("Content Security Policy" in line for line in page.said)
