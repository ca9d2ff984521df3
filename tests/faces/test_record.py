"""`methodsheets record`: nothing is lost, nothing counts twice, and a spreadsheet's own ways are understood."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Any

import pytest

from methodsheets.faces.cli import main
from methodsheets.handbook import keeping
from methodsheets.handbook.library import find_methods
from methodsheets.handbook.records import records_of

HEAD = "date,batch,method,revision,workshop,by,operation,limit,part,measured_mm,minutes,note\r\n"
LINE = "2026-11-25,7,bush,,small,,10,bore,{part},{size},,{note}\r\n"


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "methods").mkdir()
    (tmp_path / "methods" / "bush.md").write_text("---\nmethod: Bush\n---\n")
    return tmp_path


def saved(book: Path, *lines: str, name: str = "bush-2026-11-25.csv") -> str:
    (book / name).write_bytes((HEAD + "".join(lines)).encode())
    return name


def line(part: int, size: str = "7.995", note: str = "") -> str:
    return LINE.format(part=part, size=size, note=note)


def recorded(book: Path) -> list[tuple[int, float | None, str]]:
    found = find_methods([book / "methods"], [], book).methods["bush"]
    read = records_of(found, book)
    assert read.problems == ()
    return sorted((one.part_number, one.measured, one.note) for one in read.records)


def test_what_a_sheet_saved_is_put_in_once(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    name = saved(book, line(1), line(2, "7.998", "=1+1"))
    assert main(["record", name]) == 0
    assert main(["record", name]) == 0
    assert "0 records put in, 2 there already" in capsys.readouterr().out
    assert recorded(book) == [(1, 7.995, ""), (2, 7.998, "=1+1")]
    assert "'=1+1" in (book / "methods/records/bush.csv").read_text()


def test_the_file_as_it_was_is_kept(book: Path) -> None:
    main(["record", saved(book, line(1))])
    before = (book / "methods/records/bush.csv").read_bytes()
    main(["record", saved(book, line(2))])
    after = (book / "methods/records/bush.csv").read_bytes()
    assert after.startswith(before)
    assert (book / "methods/records/bush.csv.before").read_bytes() == before


def test_a_record_is_never_changed(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["record", saved(book, line(1))])
    assert main(["record", saved(book, line(1, "9.9"), line(2))]) == 1
    assert "recorded otherwise" in capsys.readouterr().err
    assert recorded(book) == [(1, 7.995, ""), (2, 7.995, "")]


@pytest.mark.parametrize(
    "there",
    [
        'date;operation;limit;part;measured;note;batch\r\n25.11.2026;10;bore;1,0;7,995;"good; so";7\r\n',
        'sep=;\ndate;operation;limit;part;measured;note;batch\n2026-11-25;10;bore;1;7,995;"good; so";7\n',
        "\ufeffday\top\tsize\tpart\tmm\tnote\tbatch\n2026-11-25\t10\tbore\t1\t7.995\tgood; so\t7\n",
    ],
)
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_a_spreadsheets_own_ways_are_understood(book: Path, there: str, encoding: str) -> None:
    (book / "methods/records").mkdir()
    (book / "methods/records/bush.csv").write_bytes(there.encode(encoding))
    assert recorded(book) == [(1, 7.995, "good; so")]
    assert main(["record", saved(book, line(2, "7.998", "fine; too"))]) == 0
    assert recorded(book) == [(1, 7.995, "good; so"), (2, 7.998, "fine; too")]


def test_a_wrong_line_puts_nothing_in(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["record", saved(book, line(1), line(2, "about 8"))]) == 1
    assert "csv:3" in capsys.readouterr().err
    assert recorded(book) == []


def test_files_that_are_not_understood_are_left_alone(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (book / "methods/records").mkdir()
    file = book / "methods/records/bush.csv"
    file.write_text("date,operation\nyesterday,10\n")
    assert main(["record", saved(book, line(1))]) == 1
    assert file.read_text() == "date,operation\nyesterday,10\n"
    assert "cannot all be read" in capsys.readouterr().err


def test_nothing_is_written_through_a_link(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (book / "methods/records").mkdir()
    (book / "elsewhere.csv").write_text("")
    (book / "methods/records/bush.csv").symlink_to(book / "elsewhere.csv")
    assert main(["record", saved(book, line(1))]) == 1
    assert (book / "elsewhere.csv").read_text() == ""
    capsys.readouterr()


@pytest.mark.skipif(sys.platform == "win32", reason="processes are forked")
def test_several_at_once_lose_nothing(book: Path) -> None:
    children = []
    for part in range(1, 9):
        name = saved(book, line(part), name=f"bush-2026-11-25 ({part}).csv")
        child = os.fork()
        if not child:
            os._exit(main(["record", name]))
        children.append(child)
    assert [os.waitpid(child, 0)[1] for child in children] == [0] * 8
    assert [part for part, _, _ in recorded(book)] == list(range(1, 9))


@pytest.mark.skipif(sys.platform == "win32", reason="processes are forked")
@pytest.mark.parametrize("moment", range(1, 7))
def test_killed_while_writing(book: Path, moment: int) -> None:
    main(["record", saved(book, line(1))])
    name, left = saved(book, line(2)), moment

    def count(event: str, given: tuple[object, ...]) -> None:
        nonlocal left
        left -= event in {"os.rename", "os.remove"} or (event == "open" and bool(int(given[2]) & 3))  # type: ignore[call-overload]
        if left == 0:
            os._exit(9)

    child = os.fork()
    if not child:
        sys.addaudithook(count)
        main(["record", name])
        os._exit(0)
    os.waitpid(child, 0)
    assert [part for part, _, _ in recorded(book)] in ([1], [1, 2])
    assert main(["record", name]) == 0
    assert [part for part, _, _ in recorded(book)] == [1, 2]


@pytest.mark.parametrize("size", [0, 50, 120, 200])
def test_a_full_disk_loses_no_record(book: Path, full_disk: Any, capsys: pytest.CaptureFixture[str], size: int) -> None:
    main(["record", saved(book, line(1))])
    before = (book / "methods/records/bush.csv").read_bytes()
    name = saved(book, line(2, note="a long note; longer than what is left of the disk " * 3))
    with full_disk(size):
        assert main(["record", name]) == 1
    assert "cannot be written" in capsys.readouterr().err
    assert (book / "methods/records/bush.csv").read_bytes() == before
    assert not list((book / "methods/records").glob("*.part"))
    assert main(["record", name]) == 0
    assert [part for part, _, _ in recorded(book)] == [1, 2]


@pytest.mark.parametrize("kind", ["a file", "a link that leads out", "a link to nothing"])
def test_there_is_no_folder_for_records(book: Path, capsys: pytest.CaptureFixture[str], kind: str) -> None:
    place, elsewhere = book / "methods" / "records", book / "elsewhere"
    elsewhere.mkdir()
    if kind == "a file":
        place.write_text("a file")
    else:
        place.symlink_to(elsewhere if kind == "a link that leads out" else "nowhere")
    assert main(["record", saved(book, line(1))]) == 1
    said = capsys.readouterr().err
    assert said.startswith("methodsheets record: ")
    assert "fault of the program" not in said
    assert list(elsewhere.iterdir()) == []


def test_another_program_is_waited_for_and_then_told(
    book: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from filelock import FileLock

    (book / "methods/records").mkdir()
    monkeypatch.setattr(keeping, "PATIENCE", 0)
    with FileLock(book / "methods/records" / keeping.LOCK):
        assert main(["record", saved(book, line(1))]) == 1
    assert "another program" in capsys.readouterr().err
    assert recorded(book) == []
