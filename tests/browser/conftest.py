"""A real browser, the sample handbook published twice (for a server and for a memory stick), and a small server."""

import contextlib
import functools
import http.server
import os
import sys
import threading
from pathlib import Path

import pytest

sys.path[:0] = [str(Path(__file__).parent.parent / "pages"), str(Path(__file__).parent)]

ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-quic",
    "--no-first-run",
]
CHROMIUM = next((path for path in ("/usr/bin/chromium", "/usr/bin/chromium-browser") if Path(path).exists()), "")
PATIENCE = 180_000
"""ms; how long a busy machine may take for a page before a test gives up."""
REQUIRED = os.environ.get("METHODSHEETS_BROWSER") == "required"


def pytest_collection_modifyitems(items):
    """Skip only where there is no browser and nobody insists on one."""
    for item in items:
        if Path(str(item.fspath)).parent == Path(__file__).parent:
            item.add_marker(pytest.mark.browser)
            if not CHROMIUM and not REQUIRED:
                item.add_marker(pytest.mark.skip(reason="no Chromium here"))


@pytest.fixture(scope="session")
def browser():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        opened = play.chromium.launch(executable_path=CHROMIUM or None, args=ARGUMENTS)
        yield opened
        opened.close()


def _sample(folder: Path, plugins: list) -> None:
    from sample_site import build, make_project

    with pytest.MonkeyPatch.context() as patch:
        build(make_project(folder, plugins=plugins), None, patch)


@pytest.fixture(scope="session")
def served_site(built_once) -> Path:
    return built_once("served", lambda folder: _sample(folder, ["search", "tags", "methodsheets"])) / "site"


@pytest.fixture(scope="session")
def stick(built_once) -> Path:
    """The handbook as it lies on a memory stick."""
    return built_once("stick", lambda folder: _sample(folder, ["search", {"offline": {}}, "methodsheets"])) / "site"


@contextlib.contextmanager
def serving(site: Path):
    """A small server for a folder; gives its address."""

    class Quiet(http.server.SimpleHTTPRequestHandler):
        def log_message(self, *args):
            """Say nothing."""

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_address[1]}"
    server.shutdown()


@pytest.fixture(scope="session")
def address(served_site) -> str:
    with serving(served_site) as where:
        yield where


@pytest.fixture(scope="session")
def serve():
    """Serves any folder while a test reads from it."""
    return serving


SETTLED = "new Promise(done => requestIdleCallback(() => setTimeout(done, 200)))"
"""True when a page that is loaded has done what it does by itself."""


@pytest.fixture(scope="session")
def settled() -> str:
    return SETTLED


@pytest.fixture
def visit(browser, stick):
    """Opens a page of the stick, offline, and keeps what the console said and what was asked of other hosts."""
    from choosing import SHOWN, until

    contexts = []

    def go(
        uri,
        *,
        width=1280,
        height=900,
        scheme="light",
        scripts=True,
        base=None,
        context=None,
        settled=False,
        before=None,
    ):
        if context is None:
            context = browser.new_context(
                viewport={"width": width, "height": height},
                color_scheme=scheme,
                java_script_enabled=scripts,
                offline=not base,
            )
            context.set_default_timeout(PATIENCE)
            contexts.append(context)
        page = context.new_page()
        page.said, page.asked = [], []
        page.on("console", lambda message: page.said.append(message.text))
        page.on("pageerror", lambda error: page.said.append(str(error)))
        page.on("request", lambda request: page.asked.append(request.url))
        path, _, anchor = uri.partition("#")
        where = f"{base}/{path}" if base else (stick / path).as_uri()
        if before:
            before(page)
        page.goto(where + (f"#{anchor}" if anchor else ""), wait_until="commit" if before else "load")
        if scripts:
            again = page.reload
            page.reload = lambda: (again(), until(page, SHOWN))
        if scripts and not before:
            until(page, SHOWN)
        if settled:
            page.evaluate(SETTLED)
        return page

    yield go
    for context in contexts:
        context.close()
