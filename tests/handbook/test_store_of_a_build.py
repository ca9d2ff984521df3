"""Does the store spare work, and does what is wrong with it cost only time?"""

from __future__ import annotations

import sqlite3
import subprocess
import sys

import pytest

from methodsheets.handbook.build import build_handbook
from methodsheets.handbook.digests import program_digest

from .conftest import Folder


@pytest.mark.parametrize(
    ("table", "column", "which"),
    [
        ("results", "brief", ""),
        ("results", "method", ""),
        ("notes", "data", "svg:"),
        ("notes", "data", "figure:"),
        ("notes", "data", ""),
    ],
)
def test_a_damaged_entry_is_a_miss(folder: Folder, table: str, column: str, which: str) -> None:
    folder.method("bush")
    folder.method("bush-two", part="bush")
    whole = build_handbook(folder.options())
    with sqlite3.connect(folder.store) as database:
        rows = database.execute(f"SELECT key, {column} FROM {table} WHERE key LIKE ?", (f"{which}%",)).fetchall()
        assert rows
        for key, kept in rows:
            spoilt = "x" if isinstance(kept, str) else bytes(byte ^ 0x5A for byte in kept)
            database.execute(f"UPDATE {table} SET {column}=? WHERE key=?", (spoilt, key))
    if which == "figure:":  # read only when something is drawn
        folder.method("bush", title="Bush\nmakes: 3")
        whole = build_handbook(folder.options(store=None))
    book = build_handbook(folder.options())
    for slug in ("bush", "bush-two"):
        for key in ("small", "large"):
            method = book.entries[slug].by_workshop[key]
            assert method == whole.entries[slug].by_workshop[key]
            assert book.svg(method.drawings[0].key) == whole.svg(method.drawings[0].key) != ""
    assert book.problems == ()
    assert list(book.comparisons) == ["bush"]


def test_only_pictures_that_look_otherwise_are_drawn_again(folder: Folder) -> None:
    folder.method("bush")
    assert build_handbook(folder.options()).counts.drawn == 2
    folder.method("bush", stock="round 25 mm x 50 mm")
    again = build_handbook(folder.options()).counts
    assert (again.evaluated, again.drawn, again.drawings_from_store) == (2, 0, 2)
    folder.shop("small", "90, 250")
    again = build_handbook(folder.options()).counts
    assert (again.evaluated, again.drawn, again.drawings_from_store) == (1, 1, 1)
    assert build_handbook(folder.options(fresh=True)).counts.drawn == 2


@pytest.mark.skipif(sys.platform == "win32", reason="processes are forked")
def test_processes_take_pictures_from_the_store(folder: Folder) -> None:
    for number in range(14):
        folder.method(f"pin-{number:02}")
    assert build_handbook(folder.options(workers=2)).counts.drawn == 28
    for number in range(14):
        folder.method(f"pin-{number:02}", stock="round 25 mm x 50 mm")
    again = build_handbook(folder.options(workers=2)).counts
    assert (again.evaluated, again.drawn, again.drawings_from_store) == (28, 0, 28)


def test_a_store_that_is_no_database_is_replaced(folder: Folder) -> None:
    folder.method("bush")
    folder.store.parent.mkdir(parents=True)
    folder.store.write_bytes(b"not a database at all, but long enough to look like something" * 40)
    assert build_handbook(folder.options()).counts.evaluated == 2
    assert build_handbook(folder.options()).counts.from_store == 2


def test_a_store_that_cannot_be_written_costs_only_time(folder: Folder) -> None:
    folder.method("bush")
    blocked = folder.path / "file"
    blocked.write_text("")
    for _ in range(2):
        book = build_handbook(folder.options(store=blocked / "store.sqlite"))
        assert book.counts.evaluated == 2
        assert book.entries["bush"].own.setups


def test_a_store_in_use_by_another_build(folder: Folder) -> None:
    folder.method("bush")
    build_handbook(folder.options())
    with sqlite3.connect(folder.store) as other:
        other.execute("BEGIN EXCLUSIVE")
        book = build_handbook(folder.options())
        assert book.entries["bush"].own.setups
        other.rollback()
    assert build_handbook(folder.options()).counts.from_store == 2


def test_old_entries_are_forgotten_when_asked(folder: Folder) -> None:
    folder.method("bush")
    build_handbook(folder.options())
    folder.method("bush", title="New")
    build_handbook(folder.options())
    with sqlite3.connect(folder.store) as database:
        assert database.execute("SELECT count(*) FROM results").fetchone()[0] == 4
        database.execute("UPDATE results SET used=used-30")
    build_handbook(folder.options())  # not asked to forget
    with sqlite3.connect(folder.store) as database:
        assert database.execute("SELECT count(*) FROM results").fetchone()[0] == 4
        database.execute("UPDATE results SET used=used-30")
    build_handbook(folder.options(), evict=True)
    with sqlite3.connect(folder.store) as database:
        assert database.execute("SELECT count(*) FROM results").fetchone()[0] == 2


def test_a_build_from_the_store_loads_no_heavy_library(folder: Folder) -> None:
    folder.method("bush")
    folder.method("bush-two", part="bush")
    script = """
import sys
from pathlib import Path
from methodsheets.handbook import digests
from methodsheets.handbook.build import build_handbook
from methodsheets.handbook.model import Options
digests.program_digest = lambda: {program!r}
book = build_handbook(Options(Path({root!r}), (Path({root!r}) / "methods",), store=Path({store!r})))
for entry in book.entries.values():
    for method in entry.by_workshop.values():
        [book.svg(one.key) + book.standalone_svg(one.key) for one in method.drawings]
assert len(book.comparisons) == 1
heavy = ("pint", "numpy", "shapely", "matplotlib", "manifold3d")
print(book.counts.evaluated, *(one for one in heavy if one in sys.modules))
"""
    filled = script.format(root=str(folder.path), store=str(folder.store), program=program_digest())
    # The results were made with the stand-in, which the other process does not have; it must not need it.
    build_handbook(folder.options())
    ran = subprocess.run([sys.executable, "-c", filled], capture_output=True, text=True, check=True)
    assert ran.stdout.split() == ["0"]
