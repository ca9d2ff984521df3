"""Does the command line keep to the ways of command lines: help, schemas, status, errors, time?"""

from __future__ import annotations

import argparse
import json
import os
import shlex
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from methodsheets.faces import cli_schema
from methodsheets.faces.cli import FORMS, main, parser
from methodsheets.faces.cli_examples import EXAMPLES
from methodsheets.faces.command import FAILED
from methodsheets.method.evaluate import prove

from .command_line import run


def test_every_form_is_printed_and_written(handbook: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Held against the vocabulary in `tests/operations/test_offers.py`."""
    assert set(FORMS) == set(cli_schema.FORMS)
    status, out, _ = run(capsys, "schema", "--into", "forms")
    written = {Path(name).name: Path(name).read_text("utf-8") for name in out.split()}
    assert (status, len(written)) == (0, len(FORMS))
    for name, text in written.items():
        made: dict[str, Any] = json.loads(text) if not name.endswith(".txt") else {}
        assert not name.endswith(".schema.json") or {"properties", "$ref", "anyOf", "pattern"} & set(made), name
    assert run(capsys, "schema", "setup")[1] == written["setup.schema.json"]
    assert '"my-workshop"' in written["front-matter.schema.json"]  # the words of this handbook are among them
    (handbook / "other").write_text("", "utf-8")
    assert run(capsys, "schema", "--into", "other")[0] == FAILED


def test_wrong_command_lines(capsys: pytest.CaptureFixture[str]) -> None:
    for words in ([], ["nonsense"], ["show"], ["work"]):
        with pytest.raises(SystemExit) as stopped:
            main(words)
        assert stopped.value.code == 2
    with pytest.raises(SystemExit) as stopped:
        main(["--version"])
    assert stopped.value.code == 0
    assert "methodsheets" in capsys.readouterr().out


def _commands() -> dict[str, argparse.ArgumentParser]:
    return next(one.choices for one in parser()._actions if isinstance(one, argparse._SubParsersAction))


def test_every_command_shows_examples_that_it_would_take() -> None:
    assert set(EXAMPLES) == set(_commands())
    for name, lines in EXAMPLES.items():
        assert lines[0] in _commands()[name].format_help()
        for line in lines:
            words = shlex.split(line.split(" > ")[0])
            assert parser().parse_args(words[1:]).command == name


@pytest.mark.parametrize("shell", ["bash", "zsh", "tcsh"])
def test_a_shell_completes_every_command_and_option(capsys: pytest.CaptureFixture[str], shell: str) -> None:
    status, out, _ = run(capsys, "completion", shell)
    assert status == 0
    options = {option for one in _commands().values() for action in one._actions for option in action.option_strings}
    for word in (*_commands(), *(option for option in options if option.startswith("--"))):
        assert word.removeprefix("--") in out


def test_the_command_line_itself_loads_nothing_heavy() -> None:
    code = "import sys; import methodsheets.faces.cli as c; c.parser(); print([m for m in sys.modules if m in {'yaml', 'pint', 'numpy', 'mkdocs'}])"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout == "[]\n"


def test_output_is_utf8_on_any_console(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "methodsheets", "work", "12 deg 30'"]
    ran = subprocess.run(command, capture_output=True, env={"PYTHONIOENCODING": "ascii", "PATH": ""}, check=True)
    assert "12.5" in ran.stdout.decode("utf-8")


def test_each_command_answers_in_about_a_second(handbook: Path) -> None:
    # What the processor does is counted, not what a busy machine lets it wait; a quiet one needs about one second.
    for words in (
        ["check", "methods/first-part.md"],
        ["show", "methods/first-part.md"],
        ["work", "1 mm + 1 in"],
        ["new", "Pin"],
    ):
        before = os.times().children_user
        subprocess.run([sys.executable, "-m", "methodsheets", *words], capture_output=True, check=True)
        assert os.times().children_user - before < 8, words


SHORTEST = """---
method: Short
material: EN1A
stock: {stock}
---

```setup
machine: lathe
hold: three-jaw chuck, end A out
```

```op
face: 1 mm
```
"""


@pytest.mark.parametrize(
    ("stock", "status", "codes"),
    [
        ("round 40 mm x 60 mm", 0, ["no-part"]),
        ("casting, points (0 mm, 30 mm), (40 mm, 50 mm)", 3, ["no-part", "not-known"]),
    ],
)
def test_check_tells_what_could_not_be_checked(
    handbook: Path, capsys: pytest.CaptureFixture[str], stock: str, status: int, codes: list[str]
) -> None:
    (handbook / "methods" / "short.md").write_text(SHORTEST.format(stock=stock), "utf-8")
    said, out, err = run(capsys, "check", "methods/short.md")
    assert said == status, out + err
    many = f"{len(codes)} check{'' if len(codes) == 1 else 's'}"
    assert err == f"1 method worked out: no problems, {many} not known.\n"
    assert out.count("could not be made") == len(codes)
    said, out, _ = run(capsys, "check", "methods/short.md", "--json")
    found = json.loads(out)
    assert (said, found["problems"]) == (status, [])
    assert sorted(one["code"] for one in found["not_known"]) == codes
    assert "[not known]" in run(capsys, "show", "methods/short.md")[1]


def test_a_fault_of_the_program_is_told_in_a_line_and_shown_on_request(
    handbook: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from methodsheets.faces import cli_work

    def fails(options: object) -> int:
        raise KeyError("a planted fault")

    monkeypatch.setattr(cli_work, "limits", fails)
    assert main(["limits"]) == 1
    said = capsys.readouterr().err
    assert "please report it" in said
    assert "--debug" in said
    assert "Traceback" not in said
    with pytest.raises(KeyError):
        main(["--debug", "limits"])


def test_check_says_where_the_program_failed_and_works_the_others_out(
    handbook: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    first = next(iter((handbook / "methods").glob("*.md")))
    (first.parent / "bad.md").write_text(first.read_text("utf-8").replace("method: ", "method: Bad ", 1), "utf-8")

    def planted(job: Any, *given: Any) -> Any:
        if job.file.front.method.value.startswith("Bad"):
            raise KeyError("nobody foresaw this")
        return prove(job, *given)

    monkeypatch.setattr("methodsheets.method.evaluate.prove", planted)
    status, said, _ = run(capsys, "check", "--json")
    told = json.loads(said)["problems"]
    assert status == FAILED
    assert {one["code"] for one in told if "bad.md" in json.dumps(one)} >= {"crash"}
    assert not [one for one in told if first.name in json.dumps(one)]
    status, said, _ = run(capsys, "show", str(first.parent / "bad.md"), "--json")
    shown = json.loads(said)
    assert status == FAILED
    assert "the program failed here" in said
    assert shown
