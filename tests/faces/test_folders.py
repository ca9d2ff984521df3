"""The command line and the site write below their folder and nowhere else."""

from pathlib import Path

import pytest
from sample_site import build, make_project

from methodsheets.faces.cli import main
from methodsheets.faces.cli_give import LIST, _write_all
from methodsheets.reading.inside import RefusedError


def everything(folder: Path) -> dict[str, bytes]:
    return {one.relative_to(folder).as_posix(): one.read_bytes() for one in folder.rglob("*") if one.is_file()}


@pytest.fixture
def docs(tmp_path: Path) -> Path:
    (tmp_path / "docs").mkdir()
    (tmp_path / "victim.md").write_text("mine")
    return tmp_path / "docs"


@pytest.mark.parametrize("name", ["../victim.md", "methods/../../victim.md", "/victim.md", "a/../../victim.md"])
def test_prepare_writes_nothing_at_all_where_one_name_leads_outside(docs: Path, name: str) -> None:
    before = everything(docs.parent)
    with pytest.raises(RefusedError):
        _write_all(docs, {"methods/a.md": "a", name: "theirs"})
    assert everything(docs.parent) == before


def test_prepare_takes_nothing_away_outside_whatever_its_list_says(docs: Path) -> None:
    (docs / LIST).write_text("../victim.md\n")
    before = everything(docs.parent)
    with pytest.raises(RefusedError):
        _write_all(docs, {"a.md": "a"})
    assert everything(docs.parent) == before


@pytest.mark.parametrize("link", ["methods", "methods/a.md"])
def test_prepare_writes_through_no_link(docs: Path, link: str) -> None:
    (docs / link).parent.mkdir(exist_ok=True)
    (docs / link).symlink_to(docs.parent if link == "methods" else docs.parent / "victim.md")
    with pytest.raises(RefusedError):
        _write_all(docs, {"methods/a.md": "theirs"})
    assert (docs.parent / "victim.md").read_text() == "mine"
    assert not (docs.parent / "a.md").exists()


@pytest.mark.parametrize("folder", ["/tmp/x", "../x", "a/../../x", "", "methods/", "con", "C:/x", "a\\b"])
def test_the_option_folder_is_a_name_below_the_site(tmp_path: Path, folder: str) -> None:
    from mkdocs.exceptions import ConfigurationError

    config = make_project(tmp_path, plugins=["search", {"methodsheets": {"folder": folder}}])
    with pytest.raises(ConfigurationError, match="option `folder`"):
        build(config)


def test_export_writes_through_no_link_and_into_no_device(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "victim.txt").write_text("mine")
    (tmp_path / "spacer.html").symlink_to("victim.txt")
    (tmp_path / "spacer.md").write_text("---\nmethod: Spacer\nstock: round 20 mm x 30 mm\n---\n")
    main(["export", "spacer.md"])
    assert "through a link" in capsys.readouterr().err
    assert (tmp_path / "victim.txt").read_text() == "mine"


def test_add_takes_only_a_name_from_a_strangers_page(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    packed = "LS0tCm1ldGhvZDogU3BhY2VyCi0tLQo="  # '---', 'method: Spacer', '---'
    before = '<script type="application/octet-stream" id="method-file" data-name="{}">' + packed + "</script>"
    for number, name in enumerate(("../../x.md", "/etc/x.md", "con.md", "..", "a\\..\\b.md")):
        page = tmp_path / f"{number}.html"
        page.write_text(before.format(name))
        main(["add", page.name, "--folder", "mine", "--anyway"])
    capsys.readouterr()
    assert {one.parent.relative_to(tmp_path).as_posix() for one in tmp_path.rglob("*.md")} <= {"mine"}
    assert list(tmp_path.parent.glob("x.md")) == []
