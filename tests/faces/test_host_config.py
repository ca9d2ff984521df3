"""The command line reads the settings of a site as the host does, and runs nothing in them."""

import argparse
from pathlib import Path

import pytest

from methodsheets.faces.cli import main
from methodsheets.faces.cli_new import STICK, THEME
from methodsheets.faces.command import CommandError
from methodsheets.faces.host_config import host_settings, project_of


def write(file: Path, text: str) -> Path:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, "utf-8")
    return file


def asked(config: Path | None = None) -> argparse.Namespace:
    return argparse.Namespace(config_file=config and str(config))


def test_what_a_site_inherits_counts(tmp_path: Path) -> None:
    write(tmp_path / "base.yml", "plugins:\n  methodsheets:\n    methods: library\n    units: inch\ndocs_dir: pages\n")
    write(
        tmp_path / "site" / "mkdocs.yml",
        "INHERIT: ../base.yml\nsite_name: x\nplugins:\n  methodsheets:\n    folder: sheets\n",
    )
    project = project_of(asked(), tmp_path / "site")
    assert project.root == (tmp_path / "site").resolve()
    assert project.methods == ((tmp_path / "site" / "library").resolve(),)
    assert (project.folder, project.units) == ("sheets", "inch")
    assert project.docs == (tmp_path / "site" / "pages").resolve()


def test_what_the_environment_says_counts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(tmp_path / "mkdocs.yml", "plugins:\n  - methodsheets:\n      methods: !ENV [MY_METHODS, plain]\n")
    assert project_of(asked(), tmp_path).methods == ((tmp_path / "plain").resolve(),)
    monkeypatch.setenv("MY_METHODS", "other")
    assert project_of(asked(), tmp_path).methods == ((tmp_path / "other").resolve(),)


def test_settings_of_another_name(tmp_path: Path) -> None:
    write(tmp_path / "mkdocs.yml", "plugins: [methodsheets]\n")
    other = write(
        tmp_path / "other.yml",
        "plugins:\n  - methodsheets:\n      methods: theirs\n      tags: off\n      reference: false\n",
    )
    project = project_of(asked(other), tmp_path)
    assert project.methods == ((tmp_path / "theirs").resolve(),)
    assert (project.tags, project.reference, project.trust_authors) == (False, False, False)


@pytest.mark.parametrize("text", ["plugins: [search]\n", "[", None])
def test_settings_that_are_named_must_be_of_use(tmp_path: Path, text: str | None) -> None:
    config = write(tmp_path / "my.yml", text) if text else tmp_path / "none.yml"
    with pytest.raises(CommandError, match=r"my\.yml|none\.yml"):
        project_of(asked(config), tmp_path)


def test_nothing_in_a_site_is_run(tmp_path: Path) -> None:
    mark = tmp_path / "mark"
    text = f"x: !!python/object/apply:os.mkdir ['{mark}']\ny: !!python/name:os.system\nplugins: [methodsheets]\n"
    assert host_settings(write(tmp_path / "mkdocs.yml", text)) == {"x": None, "y": None, "plugins": ["methodsheets"]}
    assert not mark.exists()


@pytest.mark.parametrize(
    "text", ["INHERIT: mkdocs.yml\n", "INHERIT: none.yml\nplugins: [methodsheets]\n", "INHERIT: [1]\n"]
)
def test_settings_that_inherit_from_nowhere(tmp_path: Path, text: str) -> None:
    config = write(tmp_path / "mkdocs.yml", text)
    said = ""
    try:
        found = host_settings(config)
    except CommandError as told:
        found, said = None, str(told)
    assert found is None
    assert not said or "mkdocs.yml" in said


def test_every_command_about_a_handbook_takes_the_settings(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    config = write(tmp_path / "my.yml", "plugins: [search]\n")
    method = write(tmp_path / "m.md", "---\nmethod: M\n---\n")
    for words in (
        ["check"],
        ["approve", str(method)],
        ["show", str(method)],
        ["export", str(method)],
        ["prepare"],
        ["new", "T"],
    ):
        assert main([*words, "-f", str(config)]) == 1, words
        assert "has no `methodsheets` among its `plugins`" in capsys.readouterr().err


def test_a_new_handbook_asks_no_other_host_and_works_from_a_stick() -> None:
    assert "font: false" in THEME
    assert "- offline:" in STICK
