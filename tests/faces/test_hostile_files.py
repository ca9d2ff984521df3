"""Hostile files, really read and worked out: methods in their folder and among the pages, a workshop, records."""

import json
import os
import re
import shutil
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import hostile
import markdown
import pytest
import yaml
from mkdocs.utils.meta import get_data
from sample_site import build, make_project

from methodsheets.faces.cli import main
from methodsheets.faces.markdown import MethodSheetsExtension
from methodsheets.faces.mkdocs_meta import told
from methodsheets.handbook import build as build_room
from methodsheets.reading.problem import Place, Problem

ROOT = Path(__file__).resolve().parents[2]
WORKSHOP = ROOT / "methods" / "workshops" / "osierbank-small.yml"
SAID = {"name", "note", "also called", "workshop", "summary"}

FRONT = {
    "method": f"Evil {hostile.MARKUP}",
    "part": f"../../../{hostile.MARKUP}",
    "summary": hostile.HOSTILE,
    "material": f"EN1A {hostile.MARKUP}",
    "stock": f"round 25 mm x 60 mm, {hostile.MARKUP}",
    "workshop": f"evil {hostile.MARKUP}",
    "author": hostile.MARKUP,
    "revision": f"A{hostile.MARKUP}",
    "tags": [hostile.MARKUP, "plain"],
    "title": f"Evil title {hostile.MARKUP}",
    "description": hostile.MARKUP,
    "robots": hostile.MARKUP,
    "template": "../../../etc/passwd",
    "icon": "no/such/icon",
    "search": "all",
    "hide": 5,
}
BODY = f"""
{hostile.PROSE}

```calc
size = 20 mm   # {hostile.MARKUP}
word = "{hostile.MARKUP.replace('"', "")}"
```

{{{{ size }}}} and {{{{ word }}}}

```setup
machine: {hostile.MARKUP}
hold: {hostile.MARKUP}
```

```setup
machine: lathe
hold: three-jaw chuck, on 25 mm, grip 15 mm, end A out
note: {hostile.MARKUP}
```

```op
turn: to size, over 30 mm
tool: {hostile.MARKUP}
note: {hostile.MARKUP}
```

```op
{hostile.MARKUP}: 3
```
"""
METHOD = f"---\n{yaml.safe_dump(FRONT, allow_unicode=True, sort_keys=False, width=10**6)}---\n{BODY}"


def hostile_workshop(given: Any) -> Any:
    if isinstance(given, dict):
        return {
            key: f"{value} {hostile.MARKUP}" if key in SAID else hostile_workshop(value) for key, value in given.items()
        }
    return [hostile_workshop(one) for one in given] if isinstance(given, list) else given


def odd_files(folder: Path) -> None:
    """What lies in a stranger's folder beside files: circles, pipes, devices, ways out; and names of one address."""
    (folder / "methods" / "records").mkdir()
    (folder / "docs" / "photos").mkdir()
    (folder / "secret.md").write_text("---\nmethod: SECRET-TITLE\n---\n")
    for place, ending in (("methods", "md"), ("methods/workshops", "yml"), ("methods/records", "csv")):
        for name, target in (("circle", f"circle.{ending}"), ("out", folder / "secret.md"), ("zero", "/dev/zero")):
            (folder / place / f"{name}.{ending}").symlink_to(target)
        if hasattr(os, "mkfifo"):
            os.mkfifo(folder / place / f"pipe.{ending}")
    records = folder / "methods" / "records"
    (records / "pipe.csv").rename(records / "evil-too.csv")
    (folder / "methods" / "round").symlink_to(folder / "methods")
    for name in (
        "Evil.md",
        "!evil.md",
        "EVIL.MD",
        "evil.markdown",
        "evil\u0301.md",
        "gallery.md",
        "gallery-method.md",
        "reference.md",
    ):
        (folder / "methods" / name).write_text(f"---\nmethod: Twin {name}\n---\n", "utf-8")


@pytest.fixture(scope="module")
def project(tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    config = make_project(folder, plugins=["search", "tags", {"methodsheets": {"reference": False}}])
    shops = folder / "methods" / "workshops"
    shutil.copy(WORKSHOP, shops)
    made = hostile_workshop(yaml.safe_load(WORKSHOP.read_text("utf-8")))
    machines = made["machines"]
    machines[f"evil {hostile.MARKUP}"] = machines.pop("lathe")
    (shops / 'Evil "><x-evil onload=evil()>.yml').write_text(yaml.safe_dump(made, sort_keys=False), "utf-8")
    for place in ("methods/evil.md", "methods/evil-too.md", "docs/own/evil-page.md"):
        (folder / place).parent.mkdir(exist_ok=True)
        (folder / place).write_text(METHOD, "utf-8")
    odd_files(folder)
    note = hostile.HOSTILE.replace('"', '""').replace("\n", " ")
    lines = f'date,batch,method,operation,limit,part,measured,minutes,note\n2026-01-02,"{note}",evil,10,"{note}",1,2.5,3,"=1+1 {note}"\n'
    (folder / "methods" / "records" / "evil.csv").write_text(lines, "utf-8")
    return config


@pytest.fixture(scope="module")
def built(project) -> tuple[Path, list[str]]:
    return build(project)


@pytest.fixture(scope="module")
def site(built) -> Path:
    return built[0]


@pytest.mark.parametrize("name", ["circle", "out", "zero", "pipe"])
def test_what_is_no_file_of_its_folder_is_told_and_the_rest_is_built(site, built, name):
    said = "\n".join(built[1])
    for place in ("methods/{}.md", "methods/workshops/{}.yml"):
        assert place.format(name) in said
    assert "methods/records/evil-too.csv" in said
    assert not [page for page in site.rglob("*.html") if "SECRET-TITLE" in page.read_text("utf-8")]


def test_names_of_one_address_are_told_and_each_has_one_page(site, built):
    said = [line for line in built[1] if "two methods have the name `evil`" in line]
    assert len(said) == 5
    assert re.search(r"<title>Evil title &quot;", (site / "methods/evil/index.html").read_text("utf-8"))
    for name in ("gallery--method", "gallery-method", "reference--method", "gallery"):
        assert (site / "methods" / name / "index.html").is_file()


def test_no_page_holds_more_than_words(site):
    pages = sorted(site.rglob("*.html"))
    names = {page.relative_to(site).as_posix() for page in pages}
    assert {"methods/evil/index.html", "methods/evil/bench/index.html", "own/evil-page/index.html"} <= names
    found = {}
    for page in pages:
        wrong = sorted(set(hostile.faults(hostile.parsed(page.read_text("utf-8")))))
        if wrong:
            found[page.relative_to(site).as_posix()] = wrong[:5]
    assert found == {}, json.dumps(found, indent=1)


def test_nothing_lies_outside_the_site(project, site):
    there = {one.name for one in project.parent.iterdir()}
    assert there <= {"docs", "methods", "mkdocs.yml", "site", ".cache", "secret.md"}
    assert (site / "methods" / "compare").is_dir()  # the two methods are of one part, whatever it is called


def test_pictures_and_search_hold_words_only(site):
    for picture in site.rglob("*.svg"):
        assert list(hostile.faults(hostile.parsed(picture.read_text("utf-8")))) == []
    for entry in json.loads((site / "search/search_index.json").read_text("utf-8"))["docs"]:
        for text in (entry["title"], entry["text"], *entry.get("tags", ())):
            assert list(hostile.faults(hostile.parsed(text))) == []


def test_the_travelling_file_of_the_command_line_holds_words_only(project, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    main(["export", str(project.parent / "methods" / "evil.md"), "-o", "evil.html"])
    said = capsys.readouterr().err
    assert "evil.md" in said
    assert "\x02" not in said
    root = hostile.parsed((tmp_path / "evil.html").read_text("utf-8"))
    assert list(hostile.faults(root)) == []


def test_prepared_pages_hold_words_only(project, tmp_path, monkeypatch, capsys):
    """In a host that runs Markdown extensions and no plugin; there a stranger's method lies in the folder of methods.

    Front matter of the site's own pages goes to such a host unread by us.
    """
    monkeypatch.chdir(project.parent)
    folder = tmp_path / "docs"
    folder.mkdir()
    shutil.copy(project.parent / "docs" / "index.md", folder)
    main(["prepare", "--into", str(folder)])
    capsys.readouterr()
    config = {
        "site_name": "Plain", "docs_dir": str(folder), "site_dir": str(tmp_path / "site"), "plugins": ["search"],
        "theme": {"name": "mkdocs", "highlightjs": False},
        "markdown_extensions": ["attr_list", "tables", "admonition", {"methodsheets": {"methods": "methods"}}],
    }  # fmt: skip
    (project.parent / "plain.yml").write_text(yaml.safe_dump(config), "utf-8")
    worked_out = []
    real = build_room.build_handbook
    monkeypatch.setattr(
        build_room, "build_handbook", lambda *given, **more: worked_out.append(1) or real(*given, **more)
    )
    site, _ = build(project.parent / "plain.yml")
    (project.parent / "plain.yml").unlink()
    assert len(worked_out) == 1  # not for every page again
    assert "none: this host gives no way" in (site / "methods/health/index.html").read_text("utf-8")
    for page in sorted((site / "methods").rglob("*.html")):
        assert list(hostile.faults(hostile.parsed(page.read_text("utf-8")))) == [], page
    # Another such host tells the extension which page it is: one that is prepared and in no folder of methods, too.
    for name in ("evil", "evil-page"):
        made = markdown.Markdown(
            extensions=["attr_list", "tables", "admonition", MethodSheetsExtension(methods="methods")]
        )
        made.preprocessors.register(_Told(f"methods/{name}.md"), "rendering_context", 0)
        text, _ = get_data((folder / "methods" / f"{name}.md").read_text("utf-8"))
        assert list(hostile.faults(hostile.parsed(made.convert(text)))) == [], name
    assert len(worked_out) == 1


class _Told(markdown.preprocessors.Preprocessor):
    """What such a host puts among the preprocessors: which page is being made."""

    def __init__(self, path: str) -> None:
        self.page = SimpleNamespace(path=path)

    def run(self, lines: list[str]) -> list[str]:
        return lines


@pytest.mark.skipif(find_spec("zensical") is None, reason="the theme's successor is not installed")
def test_pages_of_the_themes_successor_hold_words_only(project, tmp_path, monkeypatch, capsys):
    """The whole of another host, where it is there: it runs Markdown extensions and drops plugins without a word."""
    monkeypatch.chdir(project.parent)
    folder = project.parent / "successor"
    folder.mkdir()
    shutil.copy(project.parent / "docs" / "index.md", folder)
    main(["prepare", "--into", str(folder)])
    capsys.readouterr()
    config = {
        "site_name": "Plain", "docs_dir": "successor", "site_dir": "successor-site", "plugins": ["search"],
        "theme": {"name": "material", "font": False},
        "markdown_extensions": ["attr_list", "tables", "admonition", {"methodsheets": {"methods": "methods"}}],
    }  # fmt: skip
    (project.parent / "plain.yml").write_text(yaml.safe_dump(config), "utf-8")
    command = [sys.executable, "-m", "zensical", "build", "--clean", "-f", "plain.yml"]
    made = subprocess.run(command, capture_output=True, text=True, check=False)
    (project.parent / "plain.yml").unlink()
    shutil.rmtree(folder)
    (project.parent / "successor-site").rename(tmp_path / "site")
    assert made.returncode == 0, made.stdout + made.stderr
    pages = sorted((tmp_path / "site" / "methods").rglob("*.html"))
    assert len(pages) > 20
    own = re.compile(r"href=https://zensical\.org/ of a")  # the host's own name at the foot of each page
    for page in pages:
        found = hostile.faults(hostile.parsed(page.read_text("utf-8")))
        assert [one for one in found if not own.fullmatch(str(one))] == [], page


AHEAD = {
    "asks for nothing": "```methodsheet\npage: nonsense\n```\n\n# T",
    "asks for another's page": "```methodsheet\npage: summary\nname: plain\n```\n\n# T",
    "asks for the index": "```methodsheet\nindex\n```\n\n# T",
    "an open comment": "<!--\n\n# T",
    "an open fence": "````\n\n# T",
    "a fence in a quote": "> ````\n\n# T",
    "a fence in a list": "- a\n\n    ````\n\n# T",
    "an open element": "<pre>\n\n# T",
    "an open section": "<![CDATA[\n# T",
    "an open instruction": "<?\n# T",
    "a fence in an element": "<div markdown=1>\n\n```\n\n# T",
    "odd ends of lines": "\x0b```\x0c~~~\u2028```\r# T",
    "a title below": "<script>evil()</script>\n\nT\n==",
    "nothing": "",
}
"""What a stranger may write before the title, so that a host without plugins would take the page for another's."""


@pytest.mark.parametrize(
    "extensions", [["attr_list", "tables"], ["md_in_html", "pymdownx.superfences", "toc"]], ids=["few", "more"]
)
def test_no_beginning_of_a_page_hides_whose_it_is(tmp_path, monkeypatch, capsys, extensions):
    from markdown import Markdown

    monkeypatch.chdir(tmp_path)
    (tmp_path / "methods").mkdir()
    (tmp_path / "docs").mkdir()
    for number, ahead in enumerate(AHEAD.values()):
        text = f"---\nmethod: M {number}\n---\n{ahead}\n\n{hostile.PROSE}"
        (tmp_path / "methods" / f"m-{number}.md").write_text(text, "utf-8", newline="")
    main(["prepare", "--into", "docs"])
    capsys.readouterr()
    pages = sorted((tmp_path / "docs" / "methods").glob("m-*.md"))
    assert len(pages) == len(AHEAD)
    for page in pages:
        made = Markdown(
            extensions=[*extensions, "methodsheets"], extension_configs={"methodsheets": {"methods": "methods"}}
        )
        body = page.read_text("utf-8").partition("\n---\n")[2]
        assert list(hostile.faults(hostile.parsed(made.convert(body)))) == [], page


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("template", "../../etc/passwd"),
        ("template", "none.html"),
        ("icon", ["a"]),
        ("icon", "../x"),
        ("search", "all"),
        ("search", {"boost": "x"}),
        ("hide", 5),
        ("hide", [{}]),
        ("tags", [{"a": 1}]),
        ("title", ["a"]),
        ("social", 1),
    ],
)
def test_what_has_not_the_form_that_a_theme_reads_is_left_out(key, value):
    assert told({key: value}, []) == ({}, [key])


def test_what_has_is_kept(tmp_path):
    (tmp_path / ".icons" / "material").mkdir(parents=True)
    (tmp_path / ".icons" / "material" / "lathe.svg").write_text("<svg/>")
    (tmp_path / "wide.html").write_text("x")
    meta = {
        "title": "A & <b>",
        "hide": ["toc"],
        "search": {"boost": 2},
        "icon": "material/lathe",
        "template": "wide.html",
    }
    assert told(meta, [str(tmp_path)]) == ({**meta, "title": "A &amp; &lt;b&gt;"}, [])


def test_a_problem_steers_no_terminal():
    said = str(Problem(Place("a\x1b[2J.md"), "what\n is\x07 \u202ewrong"))
    assert said == "a\ufffd[2J.md:1:1: what\ufffd is\ufffd \ufffdwrong"
