"""Where worked-out methods and their pictures are kept, so that what did not change need not be made again.

One sqlite file outside the pages. A row is found by the digest of everything that went into it, so an old row can
never be taken for a new one. A row that does not agree with its own digest counts as missing; a file that is no
database is thrown away. Nothing in the store is needed: without it, everything is worked out anew.
"""

from __future__ import annotations

import contextlib
import hashlib
import sqlite3
import time
import zlib
from collections.abc import Iterable
from pathlib import Path
from typing import Any

DAY = 86_400
KEEP_DAYS = 21
"""How long an entry that no build asked for is kept, so that going back and forth between versions is cheap."""

FORM = 2

_TABLES = """
CREATE TABLE IF NOT EXISTS results
    (key TEXT PRIMARY KEY, used INTEGER, sum TEXT, brief BLOB, method BLOB);
CREATE TABLE IF NOT EXISTS notes (key TEXT PRIMARY KEY, used INTEGER, sum TEXT, data BLOB);
"""


class Store:
    """Results by key, and notes (small things worked out from files) by key."""

    def __init__(self, path: Path | None = None, *, read_only: bool = False) -> None:
        """Open the store at a path, or one that lives only as long as this object where the path is None.

        Parameters:
            read_only: for a second process that must not wait for the one that writes
        """
        self.path = path
        self.damaged = 0
        self._today = int(time.time()) // DAY
        self._used: dict[str, set[str]] = {"results": set(), "notes": set()}
        self._writable = not read_only
        self._database = self._reader() if read_only else self._open()

    def _reader(self) -> sqlite3.Connection:
        """Open the file to read; where that fails, nothing is found."""
        if self.path is not None:
            with contextlib.suppress(sqlite3.DatabaseError):
                return sqlite3.connect(f"{self.path.resolve().as_uri()}?mode=ro", uri=True, timeout=1)
        return self._prepare(":memory:")

    def _open(self) -> sqlite3.Connection:
        """Open the file; one that cannot be used is replaced, and if that fails too, nothing is kept."""
        if self.path is not None:
            for _ in range(2):
                try:
                    self.path.parent.mkdir(parents=True, exist_ok=True)
                    return self._prepare(self.path.as_posix())
                except (sqlite3.DatabaseError, OSError) as error:
                    if isinstance(error, sqlite3.OperationalError) and "locked" in str(error):
                        break
                    self.damaged += 1
                    with contextlib.suppress(OSError):
                        self.path.unlink(missing_ok=True)
        return self._prepare(":memory:")

    def _prepare(self, name: str) -> sqlite3.Connection:
        database = sqlite3.connect(name, timeout=3, check_same_thread=False)
        try:
            database.execute("PRAGMA synchronous=OFF")
            database.execute("PRAGMA journal_mode=WAL")  # processes that draw may read while this one writes
            if database.execute("PRAGMA user_version").fetchone()[0] not in (0, FORM):
                database.executescript("DROP TABLE IF EXISTS results; DROP TABLE IF EXISTS notes;")
            database.executescript(_TABLES)
            database.execute(f"PRAGMA user_version={FORM}")
        except sqlite3.DatabaseError:
            database.close()
            raise
        return database

    # Results: a method for one workshop

    def brief(self, key: str) -> bytes | None:
        """What a listing needs of a result; None where the store has none, or a damaged one."""
        row = self._row("SELECT sum, brief, length(method) FROM results WHERE key=?", key)
        if row is None:
            return None
        brief = bytes(row[1])
        if row[0] != _sum(brief, row[2]):
            self._drop("results", key)
            return None
        self._used["results"].add(key)
        return brief

    def method(self, key: str) -> bytes | None:
        """The method of a result; None where it is missing or damaged."""
        row = self._row("SELECT method FROM results WHERE key=?", key)
        if row is None:
            return None
        try:
            return zlib.decompress(row[0])  # its checksum finds any damage
        except zlib.error:
            self._drop("results", key)
            return None

    def keep(self, key: str, method: bytes, brief: bytes) -> None:
        """Keep a result; `method` as `pack_method` made it."""
        self._write(
            "INSERT OR REPLACE INTO results VALUES (?,?,?,?,?)",
            (key, self._today, _sum(brief, len(method)), brief, method),
        )
        self._used["results"].add(key)

    # Notes: pictures, and small things that were worked out from files

    def in_use(self, keys: Iterable[str]) -> None:
        """Say that notes are in use though nobody reads them in this build."""
        self._used["notes"].update(keys)

    def note(self, key: str) -> bytes | None:
        """A note by key; None where it is missing or damaged."""
        row = self._row("SELECT sum, data FROM notes WHERE key=?", key)
        if row is None:
            return None
        data = bytes(row[1])
        if row[0] != _sum(data):
            self._drop("notes", key)
            return None
        self._used["notes"].add(key)
        return data

    def keep_note(self, key: str, data: bytes) -> None:
        """Keep a note."""
        self._write("INSERT OR REPLACE INTO notes VALUES (?,?,?,?)", (key, self._today, _sum(data), data))
        self._used["notes"].add(key)

    # Upkeep

    def save(self, *, evict: bool = False) -> None:
        """Write everything down; with `evict`, forget what no build has asked for in three weeks."""
        with contextlib.suppress(sqlite3.DatabaseError):
            for table, keys in self._used.items():
                self._touch(table, keys)
                if evict:
                    self._database.execute(f"DELETE FROM {table} WHERE used<?", (self._today - KEEP_DAYS,))
            self._database.commit()

    def close(self) -> None:
        """Close the file; the store cannot be used afterwards."""
        with contextlib.suppress(sqlite3.DatabaseError):
            self._database.close()

    def _touch(self, table: str, keys: Iterable[str]) -> None:
        """Note that entries are in use; once a day is enough, so that an unchanged build writes nothing."""
        rows = [(self._today, key, self._today) for key in sorted(keys)]
        self._database.executemany(f"UPDATE {table} SET used=? WHERE key=? AND used<?", rows)

    def _row(self, query: str, key: str) -> tuple[Any, ...] | None:
        try:
            row: tuple[Any, ...] | None = self._database.execute(query, (key,)).fetchone()
        except sqlite3.DatabaseError:
            self.damaged += 1
            return None
        return None if row is None or any(value is None for value in row) else row

    def _drop(self, table: str, key: str) -> None:
        """Forget a damaged entry."""
        self.damaged += 1
        self._write(f"DELETE FROM {table} WHERE key=?", (key,))

    def _write(self, statement: str, row: tuple[object, ...]) -> None:
        if not self._writable:
            return
        try:
            self._database.execute(statement, row)
        except sqlite3.DatabaseError:
            # A full disk or a file locked by another build costs the next build its time, and no more.
            self._writable = False


def pack_method(method: bytes) -> bytes:
    """A packed method as the store keeps it."""
    return zlib.compress(method, 1)


def _sum(data: bytes, *sizes: object) -> str:
    """The digest by which damage is found."""
    return hashlib.sha256(data + repr(sizes).encode()).hexdigest()
