"""Does each command do what it says, and say what it did?"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import msgspec
import pytest

from methodsheets.handbook.exchange import method_schema
from methodsheets.sheet.model import SCHEMA, Method
from methodsheets.sheet.records import one_of

from .command_line import run

ROOT = Path(__file__).resolve().parents[2]


# start and new


def test_start_makes_a_handbook_that_has_no_problems(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert sorted(one.name for one in handbook.iterdir()) == [".gitignore", "docs", "methods", "mkdocs.yml"]
    status, out, err = run(capsys, "check")
    assert (status, out) == (0, "")
    assert err == "1 method worked out: no problems.\n"


def test_a_new_handbook_has_the_face_of_the_demo(handbook: Path) -> None:
    """One face, written once for `start` and shown by the demo."""
    for file in (ROOT / "site_demo" / "assets").iterdir():
        if (handbook / "docs" / "assets" / file.name).exists():
            assert (handbook / "docs" / "assets" / file.name).read_bytes() == file.read_bytes(), file.name
    assert (handbook / "docs" / "assets" / "handbook.css").is_file()


def test_start_overwrites_nothing(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = {file: file.read_bytes() for file in handbook.rglob("*") if file.is_file()}
    status, _, err = run(capsys, "start")
    assert status == 1
    assert "mkdocs.yml is there already and is not overwritten" in err
    assert {file: file.read_bytes() for file in handbook.rglob("*") if file.is_file()} == before


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Guide bush, reamed", "guide-bush-reamed.md"),
        ("Übermaß: Ø12 #3", "uberma-12-3.md"),
        ('The "best" way: one', "the-best-way-one.md"),
        ("- [x] & *y*", "x-y.md"),
        ("12", "12.md"),
        ("yes", "yes.md"),
    ],
)
def test_new_writes_a_method_that_builds(
    handbook: Path, capsys: pytest.CaptureFixture[str], title: str, name: str
) -> None:
    status, out, _ = run(capsys, "new", title)
    assert (status, out) == (0, f"methods/{name}\n")
    status, out, err = run(capsys, "check", f"methods/{name}")
    assert (status, out, err) == (0, "", "1 method worked out: no problems.\n")
    _, out, _ = run(capsys, "show", f"methods/{name}", "--json")
    assert json.loads(out)["workshops"]["my-workshop"]["title"] == title


def test_new_overwrites_nothing(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    run(capsys, "new", "Pin")
    file = handbook / "methods" / "pin.md"
    file.write_text("mine", "utf-8")
    status, out, err = run(capsys, "new", "Pin")
    assert (status, out) == (1, "")
    assert err == "methodsheets new: methods/pin.md is there already and is not overwritten; choose another title\n"
    assert file.read_text("utf-8") == "mine"


def test_new_in_a_folder_for_a_part_and_a_workshop(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = handbook / "methods" / "workshops" / "other.yml"
    other.write_bytes((handbook / "methods" / "workshops" / "my-workshop.yml").read_bytes())
    status, out, _ = run(
        capsys, "new", "Pin", "--folder", "methods/lathe", "--part", "Hinge pin", "--workshop", "other"
    )
    assert (status, out) == (0, "methods/lathe/pin.md\n")
    text = (handbook / "methods" / "lathe" / "pin.md").read_text("utf-8")
    assert "part: hinge-pin\n" in text
    assert "workshop: other\n" in text
    status, _, err = run(capsys, "new", "Ring", "--workshop", "nobody's")
    assert status == 1
    assert "there is no workshop `nobody's`; there are my-workshop, other" in err


def test_new_where_there_is_no_handbook_makes_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    status, out, _ = run(capsys, "new", "Pin")
    assert status == 0
    assert out.split() == [
        "mkdocs.yml",
        "docs/index.md",
        "docs/assets/handbook.css",
        "docs/assets/mark.svg",
        ".gitignore",
        "methods/workshops/my-workshop.yml",
        "methods/pin.md",
    ]
    assert run(capsys, "check") == (0, "", "1 method worked out: no problems.\n")
    assert run(capsys, "new", "Ring")[1] == "methods/ring.md\n"


def test_new_leaves_a_site_that_is_there_as_it_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "mkdocs.yml").write_text("site_name: Mine\n", "utf-8")
    status, out, err = run(capsys, "new", "Pin")
    assert status == 0
    assert out.split() == ["methods/workshops/my-workshop.yml", "methods/pin.md"]
    assert err == "mkdocs.yml is there already: add `methodsheets` to its `plugins`\n"
    assert (tmp_path / "mkdocs.yml").read_text("utf-8") == "site_name: Mine\n"
    assert run(capsys, "check", "methods/pin.md")[0] == 0


def test_the_new_site_builds_under_strict(handbook: Path) -> None:
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet"]
    ran = subprocess.run(command, cwd=handbook, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    assert (handbook / "site" / "methods" / "first-part.html").is_file()  # links to files, as a memory stick needs them
    assert "ms-part-card" in (handbook / "site" / "index.html").read_text("utf-8")  # parts in pictures are its home
    for name in ("handbook.css", "mark.svg"):  # the demo has the same face
        assert (handbook / "docs/assets" / name).read_bytes() == (ROOT / "site_demo/assets" / name).read_bytes()


# check


def test_check_lists_every_problem_and_exits_with_one(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = handbook / "methods" / "first-part.md"
    text = (
        file.read_text("utf-8").replace("turn: to journal", "trun: to journal").replace("status: draft", "status: daft")
    )
    file.write_text(text, "utf-8")
    status, out, err = run(capsys, "check", "methods/first-part.md")
    assert status == 1
    lines = out.strip().split("\n")
    assert err == f"1 method worked out: {len(lines)} problems.\n"
    assert any(line.startswith("methods/first-part.md:8:9: ") and "daft" in line for line in lines)
    assert any("unknown key `trun`" in line and "`turn`" in line for line in lines)
    for line in lines:
        path, number, column, _ = line.split(":", 3)
        assert path == "methods/first-part.md"
        assert int(number) <= text.count("\n")
        assert int(column) >= 1


def test_check_as_json(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = handbook / "methods" / "first-part.md"
    file.write_text(file.read_text("utf-8").replace("status: draft", "status: done"), "utf-8")
    status, out, _ = run(capsys, "check", "--json")
    told = json.loads(out)
    assert status == 1
    assert (told["format"], told["schema"]) == ("method-sheets/problems", SCHEMA)
    assert set(told["problems"][0]) == {"path", "line", "column", "severity", "code", "what", "rule", "remedy"}
    assert told["problems"][0]["line"] == 8
    file.write_text(file.read_text("utf-8").replace("status: done", "status: draft"), "utf-8")
    status, out, _ = run(capsys, "check", "--json")
    assert (status, json.loads(out)["problems"]) == (0, [])


def test_check_of_things_that_are_no_methods(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (handbook / "notes.md").write_text("# Notes\n", "utf-8")
    status, out, _ = run(capsys, "check", "notes.md")
    assert status == 1
    assert out.startswith("notes.md:1:1: not a method file; the front matter of a method file has the key `method`")
    status, _, err = run(capsys, "check", "nowhere.md")
    assert (status, err) == (1, "methodsheets check: there is no file nowhere.md\n")
    (handbook / "empty").mkdir()
    assert "no Markdown files in empty" in run(capsys, "check", "empty")[2]


def test_check_of_a_file_that_is_no_text(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (handbook / "methods" / "pin.md").write_bytes(b"---\nmethod: Pin\n---\n\xff\xfe")
    status, out, _ = run(capsys, "check", "methods/pin.md")
    assert status == 1
    assert out.startswith("methods/pin.md:4:1: the file is not UTF-8")


def test_check_from_another_folder_shows_paths_from_there(
    handbook: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    file = handbook / "methods" / "first-part.md"
    file.write_text(file.read_text("utf-8").replace("status: draft", "status: done"), "utf-8")
    monkeypatch.chdir(handbook / "methods")
    assert run(capsys, "check", "first-part.md")[1].startswith("first-part.md:8:9: ")


def test_check_for_all_workshops(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    small = handbook / "methods" / "workshops" / "tiny.yml"
    small.write_text("machines:\n  lathe: {speeds: 100 1/min}\n", "utf-8")
    assert run(capsys, "check")[0] == 0
    status, out, _ = run(capsys, "check", "--workshop", "all")
    assert status == 1
    assert "has no such" in out
    assert run(capsys, "check", "--workshop", "tiny")[0] == 1


# show and work


def test_show(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "show", "methods/first-part.md")
    assert status == 0
    assert "Three-jaw chuck on Ø20, grip 20, end A out" in out
    assert "Turn to Ø16 over 30" in out
    assert "the finished work is the intended part" in out


def test_show_speaks_the_units_of_the_workshop(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (shop,) = (handbook / "methods" / "workshops").glob("*.yml")
    shop.write_text("units: inch\n" + shop.read_text("utf-8").replace("units: metric\n", ""), "utf-8")
    out = run(capsys, "show", "methods/first-part.md")[1]
    assert "Turn to Ø0.63 over 1.181" in out
    assert "Ø16" not in out


def test_show_as_json_is_the_record_in_its_documented_shape(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "show", "methods/first-part.md", "--json")
    told = json.loads(out)
    assert status == 0
    assert (told["format"], told["schema"], told["own_workshop"]) == ("method-sheets/method", SCHEMA, "my-workshop")
    assert set(told) == set(method_schema()["required"])
    method = msgspec.convert(told["workshops"]["my-workshop"], Method, dec_hook=one_of)
    assert method.title == "First part"
    assert [operation.number for operation in method.operations] == [10, 20, 30, 40]
    speed = method.operations[1].fact("spindle_speed")
    assert speed is not None
    assert speed.value.value in (130, 220, 400, 640, 1000, 1600)  # type: ignore[union-attr]
    assert method.totals is not None
    assert method.totals.stock_mass is not None
    # 20 mm bar, 61 mm long, of steel at 7.85 g/cm³: from the closed form of a cylinder
    assert method.totals.stock_mass.value == pytest.approx(3.14159265 * 10**2 * 61 * 7.85e-3, rel=0.01)


def test_show_for_a_workshop_that_is_not_there(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, _, err = run(capsys, "show", "methods/first-part.md", "--workshop", "other")
    assert status == 1
    assert "there is no workshop `other`; there are my-workshop" in err


@pytest.mark.parametrize(
    ("expressions", "words"),
    [
        (["spindle_speed(25 m/min, 12 mm)"], "663"),  # a dealer's tips page: 12 mm cutter at 25 m/min
        (["3/8 in + 1 mm"], "10.525\u202fmm"),
        (["0.2 mm * 1000 1/min"], "200\u202fmm/min"),
        (["d = 12 mm", "d * 2"], "24\u202fmm"),
        (["12 deg 30' * 2"], "25"),
    ],
)
def test_work(capsys: pytest.CaptureFixture[str], expressions: list[str], words: str) -> None:
    status, out, _ = run(capsys, "work", *expressions)
    assert status == 0
    assert words in out


def test_work_shows_the_working_and_its_source(capsys: pytest.CaptureFixture[str]) -> None:
    out = run(capsys, "work", "spindle_speed(25 m/min, 12 mm)")[1].replace("\u202f", " ").replace("\u00a0", " ")
    assert "n = v / (π d) = 25 m/min / (π · 12 mm) = 663 1/min" in out
    assert "sources: " in out
    assert "trust: exact" in out


def test_work_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = run(capsys, "work", 'fit(16 mm, "H7/g6")', "1 in", "--json")
    told = json.loads(out)
    assert status == 0
    assert told["format"] == "method-sheets/value"
    fit, inch = told["values"]
    # ISO 286 for 16 H7/g6: hole 0 to +18 µm, shaft −6 to −17 µm, so 6 to 35 µm of clearance (table, from memory)
    assert fit["fields"]["clearance_max"]["value"] == pytest.approx(0.035)
    assert fit["fields"]["clearance_min"]["value"] == pytest.approx(0.006)
    assert (inch["value"], inch["unit"]) == (25.4, "mm")


def test_work_names_the_rows_it_rests_on(capsys: pytest.CaptureFixture[str]) -> None:
    told = run_json(capsys, 'recommended_speed("EN3B", "hss", "drill")')
    (row,) = told["values"][0]["rows"]
    assert row["trust"] == "read"
    assert "US Navy" in row["source"]
    told = run_json(capsys, 'thread("7/16-14 UNC").tap_drill', "turned_roughness(1.2 mm, 0.4 mm)")
    assert {"from memory"} == {row["trust"] for row in told["values"][0]["rows"]}
    assert told["values"][1]["heed"] == ["The feed is greater than the nose radius: the straight edges cut too."]


def run_json(capsys: pytest.CaptureFixture[str], *expressions: str) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(run(capsys, "work", *expressions, "--json")[1])
    return made


def test_work_that_fails_says_where_and_what_to_do(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = run(capsys, "work", "d = 12 mm", "d + 3 deg", "x * 2")
    assert status == 1
    assert "12\u202fmm" in out
    assert "expression:2:3: an angle cannot be added to a length" in err
    assert "expression:3:1: " in err
    assert json.loads(run(capsys, "work", "1 mm +", "--json")[1])["problems"][0]["line"] == 1


def test_work_says_what_the_machines_really_have(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = run(capsys, "work", "spindle_speed(25 m/min, 12 mm)", "--workshop", "my-workshop")[1]
    assert "bench lathe: 640 1/min" in out
    assert run(capsys, "work", "663 1/min", "--workshop", "none")[0] == 1


# add, export, prepare


def test_without_the_theme_a_new_handbook_has_the_hosts_own(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It says what to install; what it writes is taken by the host, and a stick opens it."""
    from mkdocs.config import load_config

    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("methodsheets.faces.cli_new.find_spec", lambda name: None)
    status, _, err = run(capsys, "start", "club")
    assert (status, 'pip install "mkdocs-methodsheets[theme]"' in err) == (0, True)
    config = load_config(str(tmp_path / "club" / "mkdocs.yml"))
    assert config.theme.name == "mkdocs"
    assert not config.use_directory_urls
    assert set(config.plugins) == {"search", "methodsheets"}
