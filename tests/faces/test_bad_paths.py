"""Every path that any command takes, and every kind of path that is none: told at once, and nothing else is touched."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from methodsheets.faces.cli import a_path, main, parser

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="there are no pipes and devices to name")

METHOD = "---\nmethod: Pin\nmaterial: EN1A\nstock: round 20 mm x 30 mm\n---\n"
SHOP = "workshop: A shop\nmachines:\n  lathe: {kind: lathe, speeds: '100, 200, 400 1/min'}\n"
WORDS = {
    "title": "Ring",
    "expressions": "1 mm",
    "record FILE": "pin.csv",
    "sayings --workshop": "methods/workshops/my.yml",
}
"""What stands for the other arguments of a command; those that are paths have `GOOD`."""
TAKE_FOLDERS = ("check", "approve", "tidy")
GOOD = {"FILE": "methods/pin.md", "FOLDER": "methods"}


def commands() -> dict[str, argparse.ArgumentParser]:
    found = next(one for one in parser()._actions if isinstance(one, argparse._SubParsersAction))
    return dict(found.choices)


def name_of(action: argparse.Action) -> str:
    return action.option_strings[0] if action.option_strings else str(action.metavar or action.dest)


SLOTS = [
    (command, name_of(action), str(action.metavar))
    for command, made in commands().items()
    for action in made._actions
    if action.type is a_path
]
"""Every argument of every command that is a path, as the command line itself says."""


def line_for(command: str, slot: str, path: str) -> list[str]:
    """A command line in which one argument is this path and all others that are needed are good."""
    words: list[str] = []
    for action in commands()[command]._actions:
        name = name_of(action)
        if name == slot:
            words += [name, path] if action.option_strings else [path]
        elif action.required and isinstance(action, argparse._StoreAction):
            good = WORDS.get(f"{command} {name}") or WORDS.get(action.dest) or GOOD[str(action.metavar)]
            words += [name, good] if action.option_strings else [good]
    return [command, *words]


KINDS = {
    "missing": "nowhere/at-all",
    "a pipe": "pipe",
    "a device": "/dev/zero",
    "a link to a device": "zero",
    "a circle of links": "circle",
    "a link to nothing": "nothing",
    "below a file": "pin.csv/x",
    "below a pipe": "pipe/x",
    "too long": "a" * 300,
    "much too long": "a/" * 3000,
    "with NUL": "a\0b",
    "with a line end": "a\nb",
    "no UTF-8": "a\udcffb",
    "a device elsewhere": "CON",
    "nothing": "",
    "below a file elsewhere": "../outside/secret.md/none",
    "the wrong kind": {"FILE": "methods", "FOLDER": "pin.csv"},
    "a link that leads out": {"FILE": "out.md", "FOLDER": "out.md"},
}  # fmt: skip


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A handbook with all kinds of things that are no files, and a folder beside it that nobody may touch."""
    home = tmp_path / "book"
    (home / "methods" / "workshops").mkdir(parents=True)
    (home / "methods" / "pin.md").write_text(METHOD)
    (home / "methods" / "workshops" / "my.yml").write_text(SHOP)
    (home / "docs").mkdir()
    (home / "mkdocs.yml").write_text("site_name: Club\nplugins: [methodsheets]\n")
    (home / "pin.csv").write_text("date,operation,note\n2026-01-02,10,good\n")
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "secret.md").write_text("a secret")
    os.mkfifo(home / "pipe")
    (home / "zero").symlink_to("/dev/zero")
    (home / "circle").symlink_to("circle")
    (home / "nothing").symlink_to("not-there")
    (home / "out.md").symlink_to(tmp_path / "outside" / "secret.md")
    monkeypatch.chdir(home)
    return home


@pytest.fixture(autouse=True)
def _not_for_ever() -> Iterator[None]:
    """What waits for a pipe waits for ever: then this ends the test."""
    import signal

    def ended(*_: object) -> None:
        raise AssertionError("it waits, or reads without an end")

    before = signal.signal(signal.SIGALRM, ended)
    signal.alarm(120)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)


def everything(folder: Path) -> dict[str, bytes]:
    return {str(one.relative_to(folder)): one.read_bytes() for one in folder.rglob("*") if one.is_file()}


def test_the_walk_has_all_commands_that_take_a_path() -> None:
    """And a word that names a file is taken as one: that is what the walk goes by."""
    for command, made in commands().items():
        for action in made._actions:
            assert (action.metavar in ("FILE", "FOLDER")) == (action.type is a_path), (command, action)
            assert action.metavar or not {"file", "folder", "into", "output"} & {action.dest}, (command, action)
    assert {command for command, _, _ in SLOTS} >= {
        "start",
        "new",
        "check",
        "approve",
        "show",
        "add",
        "record",
        "export",
        "prepare",
    }


@pytest.mark.parametrize(("command", "slot", "metavar"), SLOTS, ids=[f"{one} {two}" for one, two, _ in SLOTS])
def test_a_path_that_is_none_is_told_and_nothing_is_touched(
    book: Path, capsys: pytest.CaptureFixture[str], command: str, slot: str, metavar: str
) -> None:
    outside = everything(book.parent / "outside")
    wrong = {}
    for kind, named in KINDS.items():
        path = named if isinstance(named, str) else named[metavar]
        try:
            status = main(line_for(command, slot, path))
        except SystemExit as ended:
            status = int(ended.code or 0)
        said = capsys.readouterr().err
        if "fault of the program" in said or "Traceback" in said:
            wrong[kind] = said
        several = kind == "the wrong kind" and slot == "FILE" and command in TAKE_FOLDERS
        if status == 0 and metavar == "FILE" and slot != "--output" and not several:
            wrong[kind] = "taken for good"
        if status and not said.strip():
            wrong[kind] = "not a word about it"
        assert everything(book.parent / "outside") == outside, kind
        assert {one.name for one in book.parent.iterdir()} == {"book", "outside"}, kind
    assert wrong == {}


@pytest.mark.parametrize("mine", ["Bush.md", "büsh.md", "bu\u0308sh.markdown", "lathe/bush.md", "BUSH.MD"])
@pytest.mark.parametrize("words", [["add", "bush.md"], ["new", "Bush"]], ids=["add", "new"])
def test_a_name_whose_address_is_taken_is_refused(
    book: Path, capsys: pytest.CaptureFixture[str], words: list[str], mine: str
) -> None:
    (book / "methods" / mine).parent.mkdir(exist_ok=True)
    (book / "methods" / mine).write_text(METHOD.replace("Pin", "Mine"), "utf-8")
    (book / "bush.md").write_text(METHOD.replace("Pin", "A friend's"), "utf-8")
    before = everything(book)
    assert main(words) == 1
    assert "is there already and is not overwritten" in capsys.readouterr().err
    assert everything(book) == before


def test_adding_leaves_nothing_in_the_temporary_folder(
    book: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Not even when it is killed: a method is tried from its bytes, before anything of it is written."""
    import tempfile

    def written(*_: object, **__: object) -> None:
        raise AssertionError("a file was written aside")

    monkeypatch.setattr(tempfile, "mkdtemp", written)
    monkeypatch.setattr(tempfile, "mkstemp", written)
    (book / "bush.md").write_text(METHOD.replace("stock", "stokc"), "utf-8")
    before = everything(book)
    assert main(["add", "bush.md"]) == 1
    assert "bush.md:4:1: unknown key `stokc`" in capsys.readouterr().err
    assert everything(book) == before
    assert main(["add", "bush.md", "--anyway"]) == 0
    assert (book / "methods" / "bush.md").read_bytes() == (book / "bush.md").read_bytes()


def test_exporting_writes_over_nothing_but_what_was_exported(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = (book / "methods" / "pin.md").read_bytes()
    for name in ("methods/pin.md", "pin.csv", "mkdocs.yml"):
        assert main(["export", "methods/pin.md", "-o", name]) == 1
        assert "no page that `export` made" in capsys.readouterr().err
    assert (book / "methods" / "pin.md").read_bytes() == before
    main(["export", "methods/pin.md"])
    main(["export", "methods/pin.md"])
    assert capsys.readouterr().out == "pin.html\npin.html\n"
