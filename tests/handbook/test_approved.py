"""Is it told when a number that was approved comes out otherwise, and only then?"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from methodsheets.faces.cli import main
from methodsheets.handbook.approved import approved_text, key_numbers
from methodsheets.handbook.build import build_handbook

from .conftest import Folder


def approve(folder: Folder, slug: str = "bush") -> Path:
    method = build_handbook(folder.options(only=(slug,))).entries[slug].own
    file = folder.methods / "records" / f"{slug}.approved.json"
    file.parent.mkdir(exist_ok=True)
    file.write_text(approved_text(method, "2026-03-01"), "utf-8")
    return file


def told(folder: Folder) -> list[str]:
    return [str(one) for one in build_handbook(folder.options()).problems]


def test_numbers_that_stay_say_nothing(folder: Folder) -> None:
    folder.method("bush")
    approve(folder)
    assert told(folder) == []
    folder.method("bush", stock="round 25 mm x 50 mm")  # changes no number of the stand-in
    assert told(folder) == []


def test_a_number_that_changes_is_told_with_both_values_and_its_line(folder: Folder) -> None:
    folder.method("bush")
    file = approve(folder)
    kept = json.loads(file.read_text("utf-8"))
    assert kept["numbers"] == {"op-10.journal": "15.980 mm to 16.000 mm"}
    assert (kept["format"], kept["workshop"], kept["approved"]) == ("method-sheets/approved", "small", "2026-03-01")
    kept["numbers"]["op-10.journal"] = "15.970 mm to 16.000 mm"
    file.write_text(json.dumps(kept), "utf-8")
    assert told(folder) == [
        "methods/bush.md:17:1: limits of journal in operation 10 was 15.970 mm to 16.000 mm, now 15.980 mm to 16.000 mm; "
        "approved on 2026-03-01; look at it; if it is right, `methodsheets approve` the method again"
    ]
    assert build_handbook(folder.options()).problems[0].severity == "warning"


def test_other_operations_are_told(folder: Folder) -> None:
    folder.method("bush")
    file = approve(folder)
    kept = json.loads(file.read_text("utf-8"))
    kept["numbers"] = {"op-20.bore": "x"}
    file.write_text(json.dumps(kept), "utf-8")
    assert "(numbers: 1 gone, 1 new)" in told(folder)[0]


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[]",
        "{}",
        '{"format": "other", "numbers": {}}',
        '{"format": "method-sheets/approved", "numbers": {"a": 1}}',
    ],
)
def test_a_file_that_cannot_be_read_is_told(folder: Folder, text: str) -> None:
    folder.method("bush")
    approve(folder).write_text(text, "utf-8")
    assert told(folder) == [
        "methods/records/bush.approved.json:1:1: the file of approved numbers cannot be read; its form is "
        "`method-sheets/approved`; make it again with `methodsheets approve`"
    ]


def test_the_same_method_gives_the_same_file(folder: Folder) -> None:
    folder.method("bush")
    method = build_handbook(folder.options()).entries["bush"].own
    assert approved_text(method, "2026-03-01") == approved_text(method, "2026-03-01")
    assert [number.key for number in key_numbers(method)] == ["op-10.journal"]


def test_the_command(folder: Folder, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    folder.method("bush")
    folder.method("bad", workshop="nobody")
    monkeypatch.chdir(folder.path)
    assert main(["approve", "methods/bush.md"]) == 0
    assert capsys.readouterr().out == "methods/records/bush.approved.json\n"
    assert told(folder)[0].startswith("methods/bad.md:6:11")
    assert main(["approve", "methods/bad.md"]) == 1
    assert not (folder.methods / "records" / "bad.approved.json").exists()
