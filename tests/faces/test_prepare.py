"""Prepared pages in a host that runs the Markdown extension and no plugin: every link leads somewhere."""

import re
import shutil
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
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        patch.setenv("NO_MKDOCS_2_WARNING", "1")
        assert main(["start", "."]) == 0
        Path("plain.yml").write_text(PLAIN, "utf-8")
        host = [sys.executable, "-m", "mkdocs", "build", "--strict", "-q", "-f", "plain.yml"]
        assert main(["prepare", "--run", *host]) == 0  # strict: a link that leads nowhere is a failure
    return folder / "site"


SERVES = """
import pathlib, sys, time
method, page = pathlib.Path("methods/first-part.md"), pathlib.Path("docs/methods/first-part.md")
assert page.is_file()
method.write_text(method.read_text("utf-8").replace("## Face the other end", "## Face what is left"), "utf-8")
while "Face what is left" not in page.read_text("utf-8"):
    time.sleep(0.05)
sys.exit(int(sys.argv[1]))
"""


def test_while_a_host_serves_each_save_is_prepared(site, tmp_path, monkeypatch):
    """The host here saves a method and ends when its page has changed: it would never end without."""
    shutil.copytree(site.parent, tmp_path / "club", ignore=shutil.ignore_patterns("site"))
    monkeypatch.chdir(tmp_path / "club")
    assert main(["prepare", "--run", sys.executable, "-c", SERVES, "3"]) == 1  # as the host ended


def test_a_host_that_is_not_there_is_told(site, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(site.parent)
    assert main(["prepare", "--run", "no-such-host", "build"]) == 1
    assert "is the host installed?" in capsys.readouterr().err


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
