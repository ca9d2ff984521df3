"""Does a handbook live beside other plugins and in other hosts? In each it must be what it is alone."""

from __future__ import annotations

import html
import importlib
import importlib.metadata
import multiprocessing
import os
import re
import runpy
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from sample_site import CONFIG, make_project
from sample_stub import METHOD, WORKSHOP

from methodsheets.pages.policy import NO_POLICY, POLICY

pytestmark = pytest.mark.slow

ALONE: list[Any] = ["search", {"methodsheets": {"reference": False}}]
LANGUAGES = [
    {"locale": "en", "default": True, "name": "English"},
    {"locale": "de", "name": "Deutsch"},
]


@dataclass(frozen=True)
class Neighbour:
    """Another plugin: its settings, and what it may change."""

    package: str
    plugins: tuple[Any, ...]
    git: bool = False
    """Whether it asks for the history of the files."""
    first: bool = False
    """Whether it stands before ours in the settings."""
    features: tuple[str, ...] = ()


def _languages(structure: str) -> Neighbour:
    return Neighbour("mkdocs-static-i18n", ({"i18n": {"docs_structure": structure, "languages": LANGUAGES}},))


NEIGHBOURS = {
    "macros": Neighbour("mkdocs-macros-plugin", ("macros",)),
    "macros first": Neighbour("mkdocs-macros-plugin", ("macros",), first=True),
    "translations by suffix": _languages("suffix"),
    "translations by folder": _languages("folder"),
    "feeds": Neighbour("mkdocs-rss-plugin", ("rss",), git=True),
    "all on one page": Neighbour("mkdocs-print-site-plugin", ("print-site",)),
    "dates from the history": Neighbour(
        "mkdocs-git-revision-date-localized-plugin", ("git-revision-date-localized",), git=True
    ),
    "menu from files": Neighbour("mkdocs-awesome-nav", ("awesome-nav",)),
    "menu from a list": Neighbour("mkdocs-literate-nav", ("literate-nav",)),
    "pages of sections": Neighbour("mkdocs-section-index", ("section-index",)),
    "smaller pages": Neighbour("mkdocs-minify-plugin", ({"minify": {"minify_html": True}},)),
    "old addresses": Neighbour("mkdocs-redirects", ({"redirects": {"redirect_maps": {"old.md": "index.md"}}},)),
    "larger pictures": Neighbour("mkdocs-glightbox", ("glightbox",)),
    "included files": Neighbour("mkdocs-include-markdown-plugin", ("include-markdown",)),
    "versions": Neighbour("mike", ("mike",)),
    "blog": Neighbour("mkdocs-material", ("blog",)),
    "tags": Neighbour("mkdocs-material", ("tags",)),
    "a closed list of tags": Neighbour("mkdocs-material", ({"tags": {"tags_allowed": ["club"]}},)),
    "instant pages": Neighbour("mkdocs-material", (), features=("navigation.instant",)),
}


def _build(
    folder: Path,
    plugins: list[Any],
    *,
    features: tuple[str, ...] = (),
    git: bool = False,
    method: str = METHOD,
    strict: bool = True,
    kept: Path | None = None,
) -> Path:
    """Build a handbook of one method, and give the folder of its site; `kept`: a store with its drawings in it."""
    theme = {**CONFIG["theme"], "features": [*CONFIG["theme"]["features"], *features]}
    config = make_project(folder, plugins=plugins, theme=theme)
    if kept:
        shutil.copytree(kept, folder / ".cache")
    shutil.copy(WORKSHOP, folder / "methods" / "workshops")
    (folder / "methods" / "stub.md").write_text(method, "utf-8")
    if any("i18n" in one and one["i18n"]["docs_structure"] == "folder" for one in plugins if isinstance(one, dict)):
        for language in ("en", "de"):
            (folder / "docs" / language).mkdir()
            shutil.copy(folder / "docs" / "index.md", folder / "docs" / language)
        (folder / "docs" / "index.md").unlink()
    if git:
        said = ["-c", "user.name=a", "-c", "user.email=a@example.org", "-c", "commit.gpgsign=false"]
        for words in (["init", "-q"], ["add", "-A"], [*said, "commit", "-qm", "first"]):
            subprocess.run(["git", *words], cwd=folder, check=True, capture_output=True)
    _run(["mkdocs", "build", *(["--strict"] if strict else []), "-f", str(config)], folder)
    return folder / "site"


READ_BEFORE = (
    "mkdocs.commands.build", "material.plugins.search.plugin", "pymdownx.superfences", "methodsheets.faces.markdown_own",
    "methodsheets.handbook.build", "methodsheets.method.evaluate", "methodsheets.pages.texts", "methodsheets.pages.assets",
)  # fmt: skip
"""What every host reads; it has no state that a build would change."""


def _run(command: list[str], folder: Path) -> None:
    """Run a host in a process of its own: a child of this one, which has read what every host reads."""
    for module in READ_BEFORE:
        importlib.import_module(module)
    said = folder / "said.txt"
    process = multiprocessing.get_context("fork").Process(target=_host, args=(command, folder, said))
    process.start()
    process.join()
    assert process.exitcode == 0, said.read_text("utf-8", errors="replace")[-3000:]


def _host(command: list[str], folder: Path, said: Path) -> None:
    """The host's command; what it says goes to a file, and how it ends is how the process ends."""
    with said.open("wb") as out:
        os.dup2(out.fileno(), 1)
        os.dup2(out.fileno(), 2)
    sys.stdout, sys.stderr = (open(number, "w", encoding="utf-8", closefd=False) for number in (1, 2))  # noqa: SIM115
    os.chdir(folder)
    os.environ |= {"NO_MKDOCS_2_WARNING": "1", "DISABLE_MKDOCS_2_WARNING": "true"}
    sys.argv = command
    try:
        runpy.run_module(command[0], run_name="__main__", alter_sys=True)
    finally:
        sys.stdout.flush()
        sys.stderr.flush()


def _pages(site: Path) -> dict[str, str]:
    """The words of every page of the handbook, without markup."""
    pages = sorted((site / "methods").rglob("index.html"))
    return {page.relative_to(site).as_posix(): _words(_article(page.read_text("utf-8"))) for page in pages}


def _article(page: str) -> str:
    found = re.search(r"<article.*?</article>", page, re.DOTALL)
    assert found
    return found[0]


def _words(article: str) -> str:
    plain = re.sub(r"<(script|style|svg)\b.*?</\1>|<aside\b.*?</aside>", " ", article, flags=re.DOTALL)
    return " ".join(html.unescape(re.sub(r"<[^>]*>", " ", plain)).split())


@pytest.fixture(scope="module")
def site_alone(tmp_path_factory) -> Path:
    """The handbook without any neighbour."""
    return _build(tmp_path_factory.mktemp("alone"), ALONE)


@pytest.fixture(scope="module")
def alone(site_alone) -> dict[str, str]:
    """Its pages."""
    return _pages(site_alone)


@pytest.mark.parametrize("name", NEIGHBOURS)
def test_the_handbook_is_the_same_beside_it(name, site_alone, alone, tmp_path):
    neighbour = NEIGHBOURS[name]
    importlib.metadata.version(neighbour.package)  # all belong to the test's own requirements: none is passed over
    plugins = [ALONE[0], *neighbour.plugins, ALONE[1]] if neighbour.first else [*ALONE, *neighbour.plugins]
    kept = site_alone.parent / ".cache"
    pages = _pages(_build(tmp_path, plugins, features=neighbour.features, git=neighbour.git, kept=kept))
    assert set(pages) == set(alone)
    for page, words in alone.items():
        # A neighbour may add words of its own, such as a date; it may take none of ours away.
        missing = [word for word in words.split() if word not in pages[page]]
        assert not missing, f"{page}: {missing[:10]}"
    assert "A stub of 20 mm" in pages["methods/stub/index.html"]


def test_what_the_front_matter_says_to_other_plugins_reaches_them_and_does_no_harm(tmp_path):
    said = "x-bench: 4\nhide: [toc]\nrender_macros: false\nstatus: draft\n"
    text = METHOD.replace("status: draft\n", said).replace("A stub of", "{{ unknown_to_all }} A stub of")
    site = _build(tmp_path, [*ALONE, "macros"], method=text, strict=False)
    page = (site / "methods" / "stub" / "index.html").read_text("utf-8")
    assert "unknown_to_all" in page  # no macro was looked for
    assert re.search(r"md-sidebar--secondary[^>]*hidden", page)


# in other hosts


def test_the_fork_of_the_host_builds_the_same_bytes(site_alone, tmp_path):
    """Only its own name is another."""
    folder = tmp_path / "fork"
    shutil.copytree(site_alone.parent, folder, ignore=shutil.ignore_patterns("site"))
    _fresh([sys.executable, "-m", "properdocs", "build", "--strict", "-q", "-f", "mkdocs.yml"], folder)
    made = {page.relative_to(folder / "site") for page in (folder / "site").rglob("*.html")}
    assert made == {page.relative_to(site_alone) for page in site_alone.rglob("*.html")}
    for page in made:
        one, other = (_nameless((site / page).read_text("utf-8")) for site in (site_alone, folder / "site"))
        assert one == other, page


def _nameless(page: str) -> str:
    """A page without what the host says of itself."""
    return re.sub(r'<meta name="generator"[^>]*>', "", page)


def _fresh(command: list[str], folder: Path) -> None:
    """Run what takes the host's place, and so needs a process in which no host has been read."""
    env = os.environ | {"NO_MKDOCS_2_WARNING": "1", "DISABLE_MKDOCS_2_WARNING": "true"}
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, env=env)
    assert done.returncode == 0, done.stdout[-1000:] + done.stderr[-3000:]


GUIDE = Path(__file__).parents[2] / "site_demo" / "keeping.md"
LATER = re.compile(r'<a class="ms-later".*?</a>', re.DOTALL)
"""What leads to a piece that waits beside the page, where a host lets it."""


@pytest.fixture(scope="module")
def successor(site_alone, tmp_path_factory) -> Path:
    """The site of the theme's successor, set up as the guide says, by one command."""
    folder = tmp_path_factory.mktemp("successor")
    shutil.copytree(site_alone.parent, folder, ignore=shutil.ignore_patterns("site"), dirs_exist_ok=True)
    settings = re.search(r"```yaml title=\"plain.yml\"\n(.*?)```", GUIDE.read_text("utf-8"), re.DOTALL)
    (folder / "plain.yml").write_text(settings[1], "utf-8")
    host = [sys.executable, "-m", "zensical", "build", "-f", "plain.yml"]
    _fresh([sys.executable, "-m", "methodsheets", "prepare", "--run", *host], folder)
    return folder / "site"


def test_the_theme_s_successor_says_and_draws_the_same(site_alone, successor):
    """Pages, words, drawings, switches, the bench view, what is found, and what is taken along."""
    asked = (
        r"<svg\b|<img\b[^>]*data-ms-drawing",
        r'name="ms-units"',
        r'name="ms-workshop"',
        r"data-ms-sheet\b",
        "At the machine",
    )
    waiting = 0
    for page in sorted((site_alone / "methods").rglob("*.html")):
        there = successor / page.relative_to(site_alone)
        text = page.read_text("utf-8")
        if "data-ms-piece" in text or not there.exists():
            waiting += 1  # what waits beside its page stands within it there
            assert page.stem.endswith("-workings"), page
            continue
        one, other = _article(LATER.sub("", text)), _article(there.read_text("utf-8"))
        words = _words(one).replace(POLICY, NO_POLICY)  # what is told otherwise, for it is otherwise
        there_too = _words(other)
        missing = [word for word in words.split() if word not in there_too and word != "¶"]
        assert missing == [], page
        for what in asked:
            assert len(re.findall(what, other)) >= min(1, len(re.findall(what, one))), (page, what)
    assert waiting == 1
    index = (successor / "search.json").read_text("utf-8")
    assert "methods/stub/" in index
    for name in (
        "assets/methodsheets/methodsheets.js",
        "assets/methodsheets/methodsheets.css",
        "methods/stub/stub.json",
    ):
        assert (successor / name).stat().st_size > 300
        assert (site_alone / name).exists()
