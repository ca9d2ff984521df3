"""Does an exception that nobody foresaw stay with its file, whichever door it comes through, and is it tried again?"""

from __future__ import annotations

import logging
from pathlib import Path
from typing import Any

import pytest

from methodsheets.handbook import build, plan
from methodsheets.handbook.build import build_handbook
from methodsheets.reading.limits import Limit
from methodsheets.reading.mishap import mishap, once_each
from methodsheets.reading.problem import Problem

from .conftest import Folder

DOORS = {
    "read": "methodsheets.reading.method_file.parse_method",
    "look through": "methodsheets.method.references.references",
    "draw": "methodsheets.drawings.drawing_room.draw_method",
    "evaluate": "methodsheets.method.evaluate.evaluate_method",
    "records": "methodsheets.handbook.build.records_of",
    "approved": "methodsheets.handbook.build._changed",
    "workshop": "methodsheets.workshop.reader.read_workshop",
    "card": "methodsheets.handbook.cards.card_of",
}
ERRORS = (RecursionError("too deep"), MemoryError(), OSError(28, "No space left", "/secret/place"), KeyError("x"))


def about(thing: Any) -> str:
    """What a call is about, whichever door it is."""
    if isinstance(thing, str | Path):
        return str(thing)
    if hasattr(thing, "method"):
        return str(thing.method.title)
    return str(getattr(thing, "text", ""))


@pytest.mark.parametrize("error", ERRORS, ids=lambda error: type(error).__name__)
@pytest.mark.parametrize("door", DOORS)
def test_what_happens_in_one_file_stays_there(
    folder: Folder, door: str, error: Exception, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder.method("bush")
    folder.method("bad", title="Bad", workshop="broken" if door in ("workshop", "card") else "small")
    if door in ("workshop", "card"):
        folder.shop("broken")
    module, _, name = DOORS[door].rpartition(".")
    real = getattr(__import__(module, fromlist=[name]), name)

    def planted(*given: Any, **more: Any) -> Any:
        told = [about(one) for one in given]
        if any("Bad" in one or "broken" in one for one in told):
            raise error
        return real(*given, **more)

    with monkeypatch.context() as patched:
        patched.setattr(DOORS[door], planted)
        if door == "card":
            patched.setattr(DOORS[door], once(error, real))
        book = build_handbook(folder.options())
        told = [one for one in book.problems if one.code == "crash"]
        assert told
        assert {one.place.path for one in told} <= {"methods/bad.md", "methods/workshops/broken.yml"}
        assert any(type(error).__name__ in one.what for one in told)
        assert not any("/secret" in str(one) or "Traceback" in str(one) for one in told)
        assert book.entries["bush"].own.setups
        assert not any(one.code == "crash" for one in book.entries["bush"].problems)
    after = build_handbook(folder.options())  # what the program failed at is not kept
    assert [one for one in after.problems if one.code == "crash"] == []


def once(error: Exception, real: Any) -> Any:
    failed: list[str] = []

    def planted(workshop: Any, problems: Any) -> Any:
        if workshop.key == "broken" and not failed:
            failed.append(workshop.key)
            raise error
        return real(workshop, problems)

    return planted


def test_what_is_made_from_a_failed_method_says_so_and_is_tried_again(folder: Folder) -> None:
    folder.method("bad", title="CRASH")
    folder.method("ring", stock="from bad")
    folder.method("cap", stock="from ring")
    book = build_handbook(folder.options(own_only=True))
    assert {one.place.path for one in book.problems if one.code == "crash"} == {
        "methods/bad.md",
        "methods/ring.md",
        "methods/cap.md",
    }
    folder.worked()
    build_handbook(folder.options(own_only=True))
    assert folder.worked() == ["bad for small", "cap for small", "ring for small"]


def test_the_traceback_is_for_whoever_asks_for_it(caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.INFO, "methodsheets"):
        mishap("a.md", "this could not be done", ValueError("x" * 5000))
    assert caplog.records == []
    with caplog.at_level(logging.DEBUG, "methodsheets"):
        told = mishap("a.md", "this could not be done", ValueError("x\n\x1b" * 5000))
    assert caplog.records[0].exc_info
    assert len(told.what) < 200
    assert told.what.isprintable()


def test_one_fault_of_a_file_is_told_once() -> None:
    def problem(doing: str, error: str, path: str = "a.md") -> Problem:
        return mishap(path, doing, ValueError(error))

    first, again, other = problem("not worked out", "x"), problem("not shown", "x"), problem("not shown", "y")
    assert once_each([first, again, other, again]) == [first, other]
    assert once_each([again, other], told=[first]) == [other]
    elsewhere = problem("not shown", "x", "b.md")
    assert once_each([elsewhere], told=[first]) == [elsewhere]


def test_more_results_than_are_worked_out(folder: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    for number in range(3):
        folder.method(f"pin-{number}")
    for room in (plan, build):
        monkeypatch.setattr(room, "RESULTS", Limit(5, "results", "", ""))
    book = build_handbook(folder.options())
    assert [len(entry.by_workshop) for entry in book.entries.values()] == [1, 1, 1]
    assert [one.code for one in book.problems] == ["too-many"]
