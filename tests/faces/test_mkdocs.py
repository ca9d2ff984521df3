"""Tests of `faces.mkdocs`: whole builds of a site in a temporary folder."""

import hashlib
import json
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
import samples
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Link, Navigation, Section
from mkdocs.structure.pages import Page
from sample_site import build, make_project

from methodsheets.faces.mkdocs import MethodSheetsPlugin
from methodsheets.faces.mkdocs_menu import arrange
from methodsheets.pages.host_words import host_words
from methodsheets.pages.site import Site
from methodsheets.pages.texts import MadePage

SLUG = "eccentric-two-pieces"


def sound():
    """The sample handbook without the method that has a problem."""
    book = samples.handbook()
    return replace(book, entries={key: one for key, one in book.entries.items() if key != "clamp-block"}, problems=())


def digests(folder: Path) -> dict[str, str]:
    found = {}
    for path in sorted(folder.rglob("*")):
        if path.is_file() and path.suffix != ".gz":  # the host's own sitemap carries the time
            found[path.relative_to(folder).as_posix()] = hashlib.sha256(path.read_bytes()).hexdigest()
    return found


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """The sample handbook, built once with everything; nobody changes it."""
    with pytest.MonkeyPatch.context() as patch:
        folder, warnings = build(make_project(tmp_path_factory.mktemp("whole")), sound(), patch)
    assert warnings == []
    return folder


OURS = {"methodsheets": {"reference": False}}
LEAN = ["search", "tags", OURS]
"""Without the chapter of what it can work out, whose sixty pages say nothing to these tests."""


def read(folder: Path, uri: str) -> str:
    return (folder / uri).read_text("utf-8")


def test_options_and_their_faults():
    plugin = MethodSheetsPlugin()
    errors, warnings = plugin.load_config({"methods": ["a", "b"], "on_error": "fail"})
    assert (errors, warnings) == ([], [])


@pytest.mark.parametrize(
    "wrong", [{"on_error": "explode"}, {"concurrency": "many"}, {"methods": 3}, {"units": "cubits"}]
)
def test_a_wrong_option_is_told_by_the_host(wrong):
    errors, _ = MethodSheetsPlugin().load_config(wrong)
    assert [key for key, _ in errors] == list(wrong)


def test_an_unknown_option_is_told_by_the_host():
    assert MethodSheetsPlugin().load_config({"metods": "x"})[1] != []


def test_pages_and_files_are_there(site):
    for uri in (
        "methods/index.html",
        f"methods/{SLUG}/index.html",
        f"methods/{SLUG}/bench/index.html",
        f"methods/{SLUG}/{SLUG}.json",
        f"methods/{SLUG}/{SLUG}.csv",
        f"methods/{SLUG}/{SLUG}.html",
        f"methods/{SLUG}/{SLUG}-workings.html",
        f"methods/{SLUG}/{SLUG}-workings.js",
        "methods/compare/eccentric-spindle/index.html",
        "methods/workshops/osierbank-large/index.html",
        "methods/glossary/index.html",
        "methods/health/index.html",
        "methods/reference/index.html",
        "assets/methodsheets/methodsheets.css",
        "assets/methodsheets/methodsheets.js",
    ):
        assert (site / uri).is_file(), uri


def test_drawings_and_formulas_are_in_the_page_but_not_in_the_index(site):
    page = read(site, f"methods/{SLUG}/index.html")
    assert page.count(' data-ms-drawing="') >= 3
    sheet = read(site, f"methods/{SLUG}/bench/index.html")
    assert sheet.count("<svg xmlns") >= 3
    assert "data-ms-island" not in page
    workings = read(site, f"methods/{SLUG}/{SLUG}-workings.html")
    assert "<math" in workings
    assert "data-ms-island" not in workings
    index = read(site, "search/search_index.json")
    assert "A stand-in drawing" not in index
    assert "Definition of cutting speed" not in index


def test_the_index_knows_the_method_and_not_the_sheet(site):
    places = {entry["location"].split("#")[0] for entry in json.loads(read(site, "search/search_index.json"))["docs"]}
    assert f"methods/{SLUG}/" in places
    assert f"methods/{SLUG}/bench/" not in places
    assert "methods/compare/eccentric-spindle/" not in places
    index = read(site, "search/search_index.json")
    for words in ("16 H7/s6", "4 jaw", "EN1A", "Boring bar"):
        assert words in index
    assert "Osierbank, large bench:" not in index


def test_tags_come_from_the_method(site):
    tags = json.loads(read(site, "tags.json"))["mappings"]
    assert any(SLUG in mapping["item"]["url"] and "material/en1a" in mapping["tags"] for mapping in tags)


def test_the_pencil_opens_the_method_file(site):
    for uri in (f"methods/{SLUG}/index.html", f"methods/{SLUG}/bench/index.html"):
        assert f"https://example.org/repo/edit/main/methods/{SLUG}.md" in read(site, uri)


def test_the_menu_has_methods_by_part_and_no_bench_sheets(site):
    menu = re.search(r'<nav class="md-nav md-nav--primary.*?</nav>\s*</div>', read(site, "index.html"), re.S).group(0)
    words = re.sub(r"<[^>]+>|\s+", " ", menu)
    for name in (
        "Methods",
        "All methods",
        "Eccentric spindle",
        "Workshops",
        "Words of the trade",
        "Health of the handbook",
    ):
        assert name in words
    assert "bench sheet" not in words.lower()
    assert "Compare" not in words


def test_the_methods_stand_after_single_pages_and_before_the_authors_first_section():
    """Who opens the handbook wants a method; how one is written and kept is for few."""

    def titles(*names):
        """The menu of an author whose sections are in capitals."""
        file = File("methods/index.md", "", "", use_directory_urls=False)
        Page(None, file, MkDocsConfig())
        made = {file.src_uri: MadePage(file.src_uri, "", "index", host_words("All methods"))}
        items = [Section(name, []) if name.isupper() else Link(name, "") for name in names]
        menu = arrange(Navigation(items, []), Site(sound()), made, Files([file]), "Methods", named=True, shown=True)
        return [item.title for item in menu.items]

    assert titles("home", "read", "WRITE", "KEEP") == ["home", "read", "Methods", "WRITE", "KEEP"]
    assert titles("home") == ["home", "Methods"]
    assert titles("WRITE") == ["Methods", "WRITE"]


def test_a_bench_sheet_stands_below_its_method(site):
    sheet = read(site, f"methods/{SLUG}/bench/index.html")
    assert "md-sidebar--primary" in sheet
    assert re.search(r"@bottom-left\{content:\"Eccentric spindle, two pieces · revision B", sheet)
    assert "@bottom-right{content:counter(page)" in read(site, f"methods/{SLUG}/index.html"), (
        "the page has its foot too"
    )
    assert 'href="../">' in sheet or 'href=".."' in sheet


def test_no_request_to_another_host(site):
    for page in site.rglob("*.html"):
        text = page.read_text("utf-8")
        loaded = re.findall(r'<(?:script|img|iframe|source)[^>]+src="([^"]+)"', text)
        loaded += re.findall(r'<link[^>]+rel="(?:stylesheet|preload|icon)"[^>]+href="([^"]+)"', text)
        assert not [one for one in loaded if one.startswith(("http:", "https:", "//"))], page


def test_two_builds_are_the_same_bytes(tmp_path, monkeypatch):
    config = make_project(tmp_path)
    first = digests(build(config, sound(), monkeypatch)[0])
    second = digests(build(config, sound(), monkeypatch)[0])
    differing = [uri for uri in first if first[uri] != second.get(uri) and uri != "sitemap.xml"]
    assert differing == []
    assert first.keys() == second.keys()


def test_a_problem_is_one_counted_warning_and_a_box(tmp_path, monkeypatch):
    folder, warnings = build(make_project(tmp_path, plugins=LEAN), samples.handbook(), monkeypatch)
    assert len(warnings) == 1
    assert "methods/clamp-block.md:30:7: unknown key `dept`" in warnings[0]
    assert "Does not work as written" in read(folder, "methods/clamp-block/index.html")
    assert "methods/clamp-block.md:30:7" in read(folder, "methods/health/index.html")


def test_problems_may_fail_the_build_at_its_very_end(tmp_path, monkeypatch):
    config = make_project(tmp_path, plugins=["search", {"methodsheets": {"on_error": "fail", "reference": False}}])
    with pytest.raises(Abort):
        build(config, samples.handbook(), monkeypatch)
    assert (tmp_path / "site" / "methods" / SLUG / "index.html").is_file()


def test_a_method_inside_the_docs_folder_is_its_own_page(tmp_path, monkeypatch):
    config = make_project(tmp_path, plugins=LEAN)
    page = tmp_path / "docs" / "parts" / "clamp.md"
    page.parent.mkdir()
    page.write_text(samples.SOURCE["eccentric-one-piece"], "utf-8")
    book = sound()
    entry = replace(book.entries["eccentric-one-piece"], file=page, path="docs/parts/clamp.md")
    folder, warnings = build(
        config, replace(book, entries={"clamp": replace(entry, slug="clamp")}, by_workshop={}), monkeypatch
    )
    assert [line for line in warnings if "eccentric-one-piece.md" not in line] == []
    made = read(folder, "parts/clamp/index.html")
    assert 'data-ms-op="10"' in made
    assert "<h1" in made
    assert "Go to the bench" in made
    assert "md-status" not in made
    assert (folder / "parts/clamp/bench/index.html").is_file()
    assert "edit/main/docs/parts/clamp.md" in read(folder, "parts/clamp/bench/index.html")


def test_a_page_of_the_author_s_own_is_kept(tmp_path, monkeypatch):
    config = make_project(tmp_path, plugins=LEAN)
    own = tmp_path / "docs" / "methods" / "glossary.md"
    own.parent.mkdir()
    own.write_text("# My own words\n\n## Grip { #grip }\n", "utf-8")
    folder, _ = build(config, sound(), monkeypatch)
    assert "My own words" in read(folder, "methods/glossary/index.html")


def test_with_a_nav_the_section_is_added_and_named_pages_stay(tmp_path, monkeypatch):
    nav = [{"Home": "index.md"}, {"Our list": "methods/index.md"}]
    folder, warnings = build(make_project(tmp_path, nav=nav, plugins=LEAN), sound(), monkeypatch)
    assert warnings == []
    page = read(folder, "index.html")
    assert "Our list" in page
    assert "Words of the trade" in page


@pytest.mark.parametrize("theme", ["mkdocs", "readthedocs"])
def test_with_the_host_s_own_themes(tmp_path, monkeypatch, theme):
    config = make_project(tmp_path, theme={"name": theme}, plugins=["search", OURS])
    folder, warnings = build(config, sound(), monkeypatch)
    assert warnings == []
    assert 'data-ms-op="10"' in read(folder, f"methods/{SLUG}/index.html")


@pytest.mark.parametrize(
    "plugins",
    [
        [OURS, "search", "tags"],
        ["search", OURS, "tags"],
        ["tags", "search", OURS],
        [{"search": {}}, {"offline": {}}, OURS],
        [OURS, {"offline": {}}, "search"],
    ],
)
def test_the_order_of_plugins_does_not_matter(tmp_path, monkeypatch, plugins):
    folder, warnings = build(make_project(tmp_path, plugins=plugins), sound(), monkeypatch)
    assert warnings == []
    offline = any(isinstance(plugin, dict) and "offline" in plugin for plugin in plugins)
    page = f"methods/{SLUG}.html" if offline else f"methods/{SLUG}/index.html"
    sheet = f"{SLUG}/bench.html" if offline else 'bench/"'
    assert sheet in read(folder, page)
    if offline:
        assert "unpkg" not in read(folder, page)
        assert "assets/methodsheets/iframe-worker.js" in read(folder, page)


def test_nothing_is_written_into_the_docs_folder(tmp_path, monkeypatch):
    config = make_project(tmp_path, plugins=LEAN)
    before = digests(tmp_path / "docs")
    build(config, sound(), monkeypatch)
    assert digests(tmp_path / "docs") == before


def test_the_travelling_file_has_everything_and_the_method_file(tmp_path, monkeypatch):
    from methodsheets.pages.selfcontained import source_of

    folder, _ = build(make_project(tmp_path, plugins=LEAN), sound(), monkeypatch)
    text = read(folder, f"methods/{SLUG}/{SLUG}.html")
    name, raw = source_of(text)
    assert name == f"{SLUG}.md"
    assert raw.decode() == samples.SOURCE[SLUG]
    assert "<svg" in text
    assert "data-ms-island" not in text
    assert not re.search(r'(?:src|href)="(?!#|data:|https?:)', text)


def test_watched_folders_and_one_object_while_serving(tmp_path):
    from mkdocs.config import load_config

    config = load_config(str(make_project(tmp_path, plugins=LEAN)))
    config.plugins.run_event("startup", command="serve", dirty=False)
    config = config.plugins.run_event("config", config)
    assert str(tmp_path / "methods") in config.watch
    plugin = config.plugins["methodsheets"]
    assert plugin.serving
    assert config.extra_css[0] == "assets/methodsheets/methodsheets.css"


def test_the_core_of_pages_knows_no_host():
    code = (
        "import sys, pkgutil, importlib, methodsheets.pages as pages\n"
        "for one in pkgutil.iter_modules(pages.__path__): importlib.import_module('methodsheets.pages.' + one.name)\n"
        "bad = {'mkdocs', 'markdown', 'material', 'matplotlib', 'pint', 'numpy', 'shapely', 'manifold3d'}\n"
        "bad &= set(sys.modules)\n"
        "print(sorted(bad))"
    )
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"


@pytest.mark.parametrize(
    ("policy", "kept"),
    [(True, ["navigation.top"]), (False, ["navigation.instant", "navigation.top", "navigation.instant.progress"])],
)
def test_where_a_policy_holds_every_page_is_loaded_by_itself(policy: bool, kept: list[str], tmp_path: Path) -> None:
    from mkdocs.config import load_config

    theme = {"name": "material", "features": ["navigation.instant", "navigation.top", "navigation.instant.progress"]}
    file = make_project(tmp_path, theme=theme, plugins=[{"methodsheets": {"policy": policy}}])
    config = load_config(str(file))
    config.plugins.run_event("config", config)
    assert config.theme["features"] == kept
    config.plugins.run_event("build_error", error=ValueError())
