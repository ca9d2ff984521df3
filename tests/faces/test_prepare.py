"""Prepared pages in a host that runs the Markdown extension and no plugin: every link leads somewhere."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from methodsheets.faces.cli import main
from methodsheets.pages.site import Request, Site

PLAIN = """site_name: Plain
docs_dir: docs
use_directory_urls: false
theme: {name: mkdocs}
plugins: [search]
extra_css: [assets/methodsheets/methodsheets.css]
extra_javascript: [assets/methodsheets/methodsheets.js]
markdown_extensions: [attr_list, tables, methodsheets]
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory) -> Path:
    """A handbook of one method, prepared and then built by a host that knows no plugin of ours."""
    folder = tmp_path_factory.mktemp("plain")
    before = Path.cwd()
    os.chdir(folder)
    try:
        assert main(["start", "."]) == 0
        assert main(["prepare"]) == 0
        Path("mkdocs.yml").write_text(PLAIN, "utf-8")
        said = subprocess.run(
            [sys.executable, "-m", "mkdocs", "build", "--strict"],
            capture_output=True,
            text=True,
            check=False,
            env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
        )
    finally:
        os.chdir(before)
    assert said.returncode == 0, said.stderr  # strict: a link that leads nowhere is a failure
    return folder / "site"


def test_the_method_is_worked_out_and_drawn(site):
    page = (site / "methods/first-part.html").read_text("utf-8")
    assert "<svg" in page
    assert 'data-ms-fact="spindle_speed"' in page
    assert "data-ms-island" not in page
    assert "```" not in page


@pytest.mark.parametrize(
    "page", ["index", "first-part/bench", "health", "glossary", "workshops/my-workshop", "reference/index"]
)
def test_made_pages_are_there_and_their_links_are_right(site, page):
    file = site / f"methods/{page}.html"
    text = file.read_text("utf-8")
    targets = [one for one in re.findall(r'href="([^"#]+)', text) if not re.match(r"\w+:|//", one)]
    assert targets
    missing = [one for one in targets if not (file.parent / one).resolve().exists()]
    assert missing == []


def test_files_to_take_along_are_there(site):
    for name in ("first-part.html", "first-part.json", "first-part.csv"):
        assert (site / "methods/first-part" / name).stat().st_size > 300


def test_every_made_page_is_known_by_what_it_asks_for():
    import samples

    from methodsheets.pages.texts import made_pages

    whole = Site(samples.handbook(), reference=True)
    for page in made_pages(whole):
        first = re.search(r"```methodsheet\n(.*?)```", page.text, re.S)
        assert first, page.uri
        assert whole.uri_of(Request.read(first.group(1).split("\n"))) == page.uri
    assert whole.uri_of(Request("comparison", "no-such-part")) == ""
    assert whole.uri_of(Request("nonsense")) == ""
