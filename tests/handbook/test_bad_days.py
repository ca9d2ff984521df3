"""Is the next build right, whatever happened to the store: damage, a full disk, another program, a sudden death?"""

from __future__ import annotations

import os
import random
import sqlite3
import sys
from pathlib import Path
from typing import Any

import pytest

from methodsheets.handbook import store as stores
from methodsheets.handbook.build import build_handbook
from methodsheets.handbook.model import Handbook
from methodsheets.handbook.seals import seal, unseal
from methodsheets.pages.chapter import read_chapter
from methodsheets.sheet.records import pack

from .conftest import Folder


def everything(book: Handbook) -> dict[str, object]:
    """All that a site is made from."""
    found: dict[str, object] = {"problems": book.problems, "comparisons": str(book.by_workshop)}
    for slug, entry in book.entries.items():
        for key, method in entry.by_workshop.items():
            found[f"{slug} {key}"] = pack(method)
            found |= {drawing.key: book.svg(drawing.key) for drawing in method.drawings}
    return found


@pytest.fixture
def built(folder: Folder) -> Folder:
    """A handbook that has been built, its store whole on the disk."""
    for number in range(6):
        folder.method(f"pin-{number}", part="pin", title=f"Pin {number}")
    build_handbook(folder.options())
    with sqlite3.connect(folder.store) as database:
        database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return folder


def right(folder: Folder) -> None:
    """This build and the next are as a fresh one."""
    wanted = everything(build_handbook(folder.options(store=None)))
    assert everything(build_handbook(folder.options())) == wanted
    assert everything(build_handbook(folder.options())) == wanted


@pytest.mark.parametrize("count", [1, 20, 100, 1000, 5000])
@pytest.mark.parametrize("seed", range(6))
def test_bytes_are_damaged_at_random(built: Folder, count: int, seed: int) -> None:
    rng = random.Random(seed)
    spoilt = bytearray(built.store.read_bytes())
    for _ in range(count):
        spoilt[rng.randrange(len(spoilt))] = rng.randrange(256)
    built.store.write_bytes(spoilt)
    right(built)


@pytest.mark.parametrize("size", [0, 1, 100, 4096, 10_000])
def test_the_file_is_cut_short(built: Folder, size: int) -> None:
    built.store.write_bytes(built.store.read_bytes()[:size])
    right(built)


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE notes SET data='a text'",
        "UPDATE notes SET data=7",
        "UPDATE notes SET data=NULL",
        "UPDATE results SET method='a text'",
        "UPDATE results SET brief=3.5",
        "UPDATE results SET brief=x'00'",
        "UPDATE results SET key=upper(key)",
        "DELETE FROM results WHERE rowid % 2",
        "UPDATE results SET method=(SELECT method FROM results LIMIT 1)",
        "UPDATE results SET brief=(SELECT brief FROM results LIMIT 1), method=(SELECT method FROM results LIMIT 1)",
        "UPDATE notes SET data=(SELECT data FROM notes LIMIT 1)",
        "ALTER TABLE notes ADD COLUMN more TEXT",
        "ALTER TABLE results RENAME COLUMN brief TO method2",
        "DROP TABLE notes",
        "PRAGMA user_version=2",
        "PRAGMA user_version=99",
    ],
)
def test_rows_are_not_what_they_were(built: Folder, statement: str) -> None:
    with sqlite3.connect(built.store) as database:
        database.execute(statement)
    right(built)


def test_a_seal_holds_for_one_name_and_all_of_the_data() -> None:
    kept = seal("a", b"data")
    assert unseal("a", kept) == b"data"
    assert unseal("b", kept) is None
    for place in range(len(kept)):
        assert unseal("a", kept[:place] + bytes([kept[place] ^ 1]) + kept[place + 1 :]) is None
    assert [unseal("a", strange) for strange in (None, 7, "text", b"", kept[:-1], kept + b"x")] == [None] * 6


def test_deep_data_is_a_miss(built: Folder) -> None:
    deep = b"[" * 100_000 + b"]" * 100_000
    with sqlite3.connect(built.store) as database:
        for (key,) in database.execute("SELECT key FROM results").fetchall():
            database.execute("UPDATE results SET brief=? WHERE key=?", (seal(f"results brief {key}", deep), key))
    right(built)


def test_the_disk_is_full(folder: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    for number in range(6):
        folder.method(f"pin-{number}", part="pin")
    real = stores._prepared

    def small(name: str) -> sqlite3.Connection:
        database = real(name)
        if name != ":memory:":
            database.execute("PRAGMA max_page_count=8")  # what sqlite says then is what it says of a full disk
        return database

    wanted = everything(build_handbook(folder.options(store=None)))
    with monkeypatch.context() as patched:
        patched.setattr(stores, "_prepared", small)
        assert everything(build_handbook(folder.options())) == wanted
    right(folder)


def test_the_store_is_locked_while_a_build_goes_on(built: Folder) -> None:
    built.method("pin-1", title="Another")
    wanted = everything(build_handbook(built.options(store=None)))
    with sqlite3.connect(built.store) as other:
        other.execute("BEGIN IMMEDIATE")
        assert everything(build_handbook(built.options())) == wanted
        other.rollback()
    right(built)


@pytest.mark.skipif(sys.platform == "win32", reason="processes are forked")
@pytest.mark.parametrize("moment", [1, 2, 5, 9, 14, 20, 26])
def test_killed_at_a_write(folder: Folder, moment: int) -> None:
    for number in range(6):
        folder.method(f"pin-{number}", part="pin")
    child = os.fork()
    if not child:
        left = moment
        real = stores.Store._write

        def until(self: stores.Store, *given: object) -> bool:
            nonlocal left
            left -= 1
            if left == 0:
                os._exit(9)
            return real(self, *given)  # type: ignore[arg-type]

        stores.Store._write = until  # type: ignore[method-assign]
        build_handbook(folder.options())
        os._exit(0)
    os.waitpid(child, 0)
    right(folder)


@pytest.mark.skipif(sys.platform == "win32", reason="processes are forked")
def test_two_builds_at_once(folder: Folder) -> None:
    for number in range(6):
        folder.method(f"pin-{number}", part="pin")
    children = []
    for _ in range(2):
        child = os.fork()
        if not child:
            build_handbook(folder.options())
            os._exit(0)
        children.append(child)
    assert [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children] == [0, 0]
    right(folder)


@pytest.mark.parametrize("size", [5_000, 40_000, 80_000])
def test_no_file_can_grow_any_more(folder: Folder, full_disk: Any, size: int) -> None:
    for number in range(6):
        folder.method(f"pin-{number}", part="pin")
    wanted = everything(build_handbook(folder.options(store=None)))
    with full_disk(size):
        assert everything(build_handbook(folder.options())) == wanted
    right(folder)
    folder.method("pin-1", title="Another")
    wanted = everything(build_handbook(folder.options(store=None)))
    with full_disk(size):
        assert everything(build_handbook(folder.options())) == wanted
    right(folder)


@pytest.mark.parametrize("taken", [".cache", ".cache/plugin", "a link", "a long name", "a folder of the system"])
def test_there_is_no_folder_for_the_store(folder: Folder, taken: str) -> None:
    folder.method("bush")
    place = folder.path / ".cache" / "plugin" / "store.sqlite"
    if taken == "a link":
        (folder.path / ".cache").symlink_to("nowhere/at/all")
    elif taken == "a long name":
        place = folder.path / ("a" * 300) / "store.sqlite"
    elif taken == "a folder of the system":
        place = Path("/proc/none/store.sqlite")
    else:
        (folder.path / taken).parent.mkdir(exist_ok=True)
        (folder.path / taken).write_text("a file")
    wanted = everything(build_handbook(folder.options(store=None)))
    for _ in range(2):
        assert everything(build_handbook(folder.options(store=place))) == wanted
        assert read_chapter(place.with_name("reference.json")).sheets


def test_a_folder_stands_where_the_store_should_be(folder: Folder) -> None:
    folder.method("bush")
    (folder.store / "inside").mkdir(parents=True)
    right(folder)


def test_the_clock_was_set_back(built: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    now = stores.time.time()
    for moment in (now - 400 * stores.DAY, now + 400 * stores.DAY, now):
        monkeypatch.setattr(stores.time, "time", lambda moment=moment: moment)
        build_handbook(built.options(), evict=True)
    right(built)


def test_a_problem_of_the_machine_is_not_kept(built: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    file = built.methods / "pin-0.md"
    text = file.read_bytes()
    real = os.open

    def refused(path: str | os.PathLike[str], *how: int) -> int:
        if Path(path).name == "pin-0.md":
            raise PermissionError(13, "Permission denied", str(path))
        return real(path, *how)

    with monkeypatch.context() as patched:
        patched.setattr(os, "open", refused)
        book = build_handbook(built.options())
        assert [one.code for one in book.problems] == ["unreadable"]
    file.write_bytes(text)
    right(built)
