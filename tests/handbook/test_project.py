"""Is the handbook found that a file belongs to?"""

from __future__ import annotations

from pathlib import Path

import pytest

from methodsheets.handbook.project import find_project, read_config


def write(file: Path, text: str = "") -> Path:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, "utf-8")
    return file


CONFIG = """\
site_name: Club
docs_dir: pages
theme:
  name: material
  custom_dir: !ENV [DIR, 'x']
markdown_extensions:
  - pymdownx.emoji:
      emoji_index: !!python/name:material.extensions.emoji.twemoji
plugins:
  - search
  - methodsheets:
      methods: [library, more/methods]
      workshops: shops
      cache_dir: .kept
      folder: sheets
"""


def test_the_site_decides(tmp_path: Path) -> None:
    root = tmp_path.resolve()
    write(root / "mkdocs.yml", CONFIG)
    file = write(root / "library" / "deep" / "bush.md")
    project = find_project(file)
    assert project.root == root
    assert project.methods == (root / "library", root / "more/methods")
    assert project.workshops == root / "shops"
    assert project.docs == root / "pages"
    assert project.store == root / ".kept" / "handbook.sqlite"
    assert project.folder == "sheets"
    assert project.options().methods == (root / "library",)  # the other is not there


@pytest.mark.parametrize("plugins", ["[search, methodsheets]", "{search: {}, methodsheets: {}}", "\n  - methodsheets"])
def test_ways_to_name_the_plugin(tmp_path: Path, plugins: str) -> None:
    project = read_config(write(tmp_path / "mkdocs.yml", f"plugins: {plugins}\n"))
    assert project is not None
    assert project.methods == ((tmp_path / "methods").resolve(),)
    assert project.docs == (tmp_path / "docs").resolve()


@pytest.mark.parametrize(
    "text", ["plugins: [search]\n", "plugins:\n", "", "[", "a: [1\n", "plugins: 3\n", "- 1\n", "\t\n"]
)
def test_sites_without_us_and_files_that_are_none(tmp_path: Path, text: str) -> None:
    assert read_config(write(tmp_path / "mkdocs.yml", text)) is None


def test_nothing_in_a_site_is_run(tmp_path: Path) -> None:
    mark = tmp_path / "mark"
    write(tmp_path / "mkdocs.yml", f"x: !!python/object/apply:os.mkdir ['{mark}']\nplugins: [methodsheets]\n")
    assert read_config(tmp_path / "mkdocs.yml") is not None
    assert not mark.exists()


def test_a_folder_with_workshops(tmp_path: Path) -> None:
    root = tmp_path.resolve()
    write(root / "mine" / "workshops" / "w.yml")
    file = write(root / "mine" / "sub" / "bush.md")
    assert find_project(file).methods == (root / "mine",)
    assert find_project(file).store is None


def test_a_folder_called_methods_or_one_that_holds_it(tmp_path: Path) -> None:
    root = tmp_path.resolve()
    file = write(root / "club" / "methods" / "bush.md")
    assert find_project(file).methods == (root / "club" / "methods",)
    assert find_project(root / "club").methods == (root / "club" / "methods",)


def test_a_file_by_itself(tmp_path: Path) -> None:
    file = write(tmp_path / "parts" / "spindle.md")
    assert find_project(file).methods[-1] == tmp_path.resolve()


def test_pages_inside_that_lie_in_no_folder_of_methods(tmp_path: Path) -> None:
    root = tmp_path.resolve()
    write(root / "mkdocs.yml", "plugins:\n  - methodsheets:\n      methods: docs/methods\n")
    write(root / "docs" / "methods" / "a.md")
    page = write(root / "docs" / "b.md")
    assert find_project(root).inside() == (page,)
