"""Does each command do what it says, and say what it did?"""

from __future__ import annotations

import argparse
import json
import os
import shlex
import subprocess
import sys
from pathlib import Path
from typing import Any

import msgspec
import pytest

from methodsheets.faces.cli import main, parser
from methodsheets.faces.cli_examples import EXAMPLES
from methodsheets.faces.command import FAILED
from methodsheets.handbook.exchange import method_schema
from methodsheets.method.evaluate import prove
from methodsheets.sheet.model import SCHEMA, Method
from methodsheets.sheet.records import one_of

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def handbook(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Path:
    """A new handbook, and the command line in it."""
    monkeypatch.chdir(tmp_path)
    assert main(["start", "club"]) == 0
    monkeypatch.chdir(tmp_path / "club")
    capsys.readouterr()
    return tmp_path / "club"


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    status = main(list(words))
    told = capsys.readouterr()
    return status, told.out, told.err


# start and new


def test_start_makes_a_handbook_that_has_no_problems(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert sorted(one.name for one in handbook.iterdir()) == [".gitignore", "docs", "methods", "mkdocs.yml"]
    status, out, err = run(capsys, "check")
    assert (status, out) == (0, "")
    assert err == "1 method worked out: no problems.\n"


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


def test_a_method_goes_out_as_one_file_and_comes_in_again(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    source = handbook / "methods" / "first-part.md"
    source.write_bytes(source.read_bytes().replace(b"\n", b"\r\n"))  # byte for byte, Windows line ends too
    status, out, _ = run(capsys, "export", "methods/first-part.md", "--output", "../part.html")
    assert (status, out) == (0, "../part.html\n")
    page = (tmp_path / "part.html").read_text("utf-8")
    assert "<svg" in page
    assert "Turn the journal" in page
    monkeypatch.chdir(tmp_path)
    main(["start", "other"])
    monkeypatch.chdir(tmp_path / "other")
    (tmp_path / "other" / "methods" / "first-part.md").unlink()
    capsys.readouterr()
    status, out, err = run(capsys, "add", "../part.html")
    assert (status, out, err) == (0, "methods/first-part.md\n", "")
    assert (tmp_path / "other" / "methods" / "first-part.md").read_bytes() == source.read_bytes()
    status, _, err = run(capsys, "add", "../part.html")
    assert status == 1
    assert "is there already and is not overwritten" in err


def test_add_for_another_workshop(handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    text = (handbook / "methods" / "first-part.md").read_text("utf-8")
    friend = tmp_path / "Friend's part.md"
    friend.write_text(text.replace("workshop: my-workshop", "workshop: theirs   # mine"), "utf-8")
    status, out, err = run(capsys, "add", str(friend))
    assert (status, out) == (1, "")
    assert "there is no workshop `theirs`" in err
    assert "--workshop my-workshop" in err
    assert "--with-workshop theirs.yml" in err
    status, out, err = run(capsys, "add", str(friend), "--workshop", "my-workshop")
    assert "In `my-workshop`: " in err
    assert (status, out) == (0, "methods/friends-part.md\n")
    taken = (handbook / "methods" / "friends-part.md").read_text("utf-8")
    assert taken == friend.read_text("utf-8").replace("workshop: theirs ", "workshop: my-workshop ")


@pytest.fixture
def friends_page(handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Path:
    """A page that travelled from a handbook whose workshop is called `theirs`; nothing of it is here any more."""
    method, shop = handbook / "methods" / "first-part.md", handbook / "methods" / "workshops" / "my-workshop.yml"
    text, theirs = method.read_text("utf-8"), shop.with_name("theirs.yml")
    theirs.write_bytes(shop.read_bytes())
    method.write_text(text.replace("workshop: my-workshop", "workshop: theirs"), "utf-8")
    assert run(capsys, "export", "methods/first-part.md", "--output", "../part.html")[0] == 0
    theirs.rename(tmp_path / "theirs.yml")
    method.unlink()
    return tmp_path / "part.html"


def test_add_takes_the_workshop_along_that_travels_in_the_page(
    handbook: Path, capsys: pytest.CaptureFixture[str], friends_page: Path, tmp_path: Path
) -> None:
    shops, page = handbook / "methods" / "workshops", str(friends_page)
    status, _, err = run(capsys, "add", page)
    assert status == 1
    assert "which travels in this page: --with-workshop." in err
    assert [one.name for one in shops.iterdir()] == ["my-workshop.yml"]
    status, out, err = run(capsys, "add", page, "--with-workshop")
    assert (status, out) == (0, "methods/first-part.md\nmethods/workshops/theirs.yml\n")
    assert "In `theirs`: " in err
    assert "In `my-workshop`: " in err
    assert (shops / "theirs.yml").read_bytes() == (tmp_path / "theirs.yml").read_bytes()


def test_add_overwrites_no_workshop_and_says_what_differs(
    handbook: Path, capsys: pytest.CaptureFixture[str], friends_page: Path, tmp_path: Path
) -> None:
    mine = handbook / "methods" / "workshops" / "theirs.yml"
    raw = (tmp_path / "theirs.yml").read_bytes().replace(b"units: metric", b"units: inch") + b"# of my own\n"
    mine.write_bytes(raw)
    status, out, err = run(capsys, "add", str(friends_page), "--with-workshop")
    assert (status, out) == (0, "methods/first-part.md\n")
    assert "methods/workshops/theirs.yml is here already and says something else; it is not overwritten" in err
    assert "  here: # of my own" in err
    assert mine.read_bytes() == raw


def test_add_with_a_workshop_s_file_beside_a_plain_method(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    mine, shops = handbook / "methods" / "first-part.md", handbook / "methods" / "workshops"
    friend, shop = tmp_path / "part-of-a-friend.md", tmp_path / "theirs.yml"
    shop.write_bytes((shops / "my-workshop.yml").read_bytes())
    good = mine.read_text("utf-8").replace("workshop: my-workshop", "workshop: theirs")
    friend.write_text(good.replace("face: 0.5 mm", "fase: 0.5 mm"), "utf-8")
    assert run(capsys, "add", str(friend), "--with-workshop", str(shop))[0] == 1
    assert not (shops / "theirs.yml").exists()  # a method that is not taken in leaves nothing
    friend.write_text(good, "utf-8")
    status, _, err = run(capsys, "add", str(friend), "--with-workshop")
    assert status == 1
    assert "no workshop travels in" in err
    status, _, err = run(capsys, "add", str(friend), "--with-workshop", str(friend))
    assert status == 1
    assert "is no file of a workshop" in err
    assert run(capsys, "add", str(friend), "--with-workshop", str(shop))[0] == 0
    assert (shops / "theirs.yml").read_bytes() == shop.read_bytes()


def test_add_checks_first_and_takes_it_anyway_only_when_told(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    bad = tmp_path / "bad.md"
    bad.write_text(
        (handbook / "methods" / "first-part.md").read_text("utf-8").replace("face: 0.5 mm", "fase: 0.5 mm"), "utf-8"
    )
    status, _, err = run(capsys, "add", str(bad))
    assert status == 1
    assert err.startswith("bad.md:")
    assert "Not taken in." in err
    assert not (handbook / "methods" / "bad.md").exists()
    assert run(capsys, "add", str(bad), "--anyway")[0] == 0
    assert (handbook / "methods" / "bad.md").read_bytes() == bad.read_bytes()


@pytest.mark.parametrize(
    ("name", "raw", "words"),
    [
        ("page.html", b"<html>nothing in it</html>", "holds no method file"),
        ("notes.md", b"# Notes\n", "is not a method file"),
        ("big.md", b"---\nmethod: x\n---\n" + b"x" * 1_100_000, "is too large"),
        ("gone.md", None, "there is no file"),
    ],
)
def test_add_refuses(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path, name: str, raw: bytes | None, words: str
) -> None:
    if raw is not None:
        (tmp_path / name).write_bytes(raw)
    status, _, err = run(capsys, "add", str(tmp_path / name))
    assert status == 1
    assert words in err
    assert [file.name for file in (handbook / "methods").glob("*.md")] == ["first-part.md"]


def test_a_page_cannot_choose_where_its_method_goes(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    main(["export", "methods/first-part.md", "-o", str(tmp_path / "p.html")])
    page = (tmp_path / "p.html").read_text("utf-8")
    (tmp_path / "p.html").write_text(page.replace('data-name="first-part.md"', 'data-name="../../../up.md"'), "utf-8")
    capsys.readouterr()
    status, out, _ = run(capsys, "add", str(tmp_path / "p.html"))
    assert (status, out) == (0, "methods/up.md\n")
    assert not (tmp_path / "up.md").exists()


def test_prepare_writes_pages_once_and_spares_pages_of_ones_own(
    handbook: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    own = handbook / "docs" / "methods" / "glossary.md"
    own.parent.mkdir()
    own.write_text("# My own words\n", "utf-8")
    status, _, err = run(capsys, "prepare")
    assert status == 1
    assert "methods/glossary.md is a page of your own and is left as it is" in err
    assert own.read_text("utf-8") == "# My own words\n"
    own.unlink()
    assert run(capsys, "prepare")[0] == 0
    page = handbook / "docs" / "methods" / "first-part.md"
    assert "First part" in page.read_text("utf-8")
    stamp = page.stat().st_mtime_ns
    status, out, _ = run(capsys, "prepare")
    assert out.startswith("0 files written")
    assert page.stat().st_mtime_ns == stamp
    (handbook / "methods" / "first-part.md").rename(handbook / "methods" / "second-part.md")
    run(capsys, "prepare")
    assert not page.exists()
    assert (handbook / "docs" / "methods" / "second-part.md").is_file()


# schema, the command line as such


@pytest.mark.parametrize("what", ["front-matter", "method-file", "workshop", "method"])
def test_schemas_are_json(capsys: pytest.CaptureFixture[str], what: str) -> None:
    status, out, _ = run(capsys, "schema", what)
    schema: dict[str, Any] = json.loads(out)
    assert status == 0
    assert {"properties", "$ref"} & set(schema)


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
