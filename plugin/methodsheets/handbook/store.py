"""Where worked-out methods and their pictures are kept, so that what did not change need not be made again.

One sqlite file outside the pages. A row is found by the digest of everything that went into it, so an old row can
never be taken for a new one, and everything in it is sealed for its own key. A row whose seal is broken counts as
missing; a file that is no database, or turns out damaged, is thrown away once. What cannot be written is remembered
as long as the program runs. Nothing in the store is needed: without it, everything is worked out anew.
"""

from __future__ import annotations

import contextlib
import sqlite3
import time
import zlib
from collections.abc import Iterable
from pathlib import Path

from methodsheets.reading.inside import real

from .seals import seal, unseal

DAY = 86_400
KEEP_DAYS = 21
"""How long an entry that no build asked for is kept, so that going back and forth between versions is cheap."""

FORM = 3
PARTS = {"results": ("brief", "method"), "notes": ("data",)}
"""The tables, and what a row of each holds beside its key and the day it was last used."""

FAULTS = (sqlite3.Error, ValueError)
"""What sqlite raises over a damaged file; its own message may be damaged too, and then no text."""

BESIDE = ("", "-wal", "-shm", "-journal")
"""What a database is called, and the files that it may have beside it."""


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
        self._used: dict[str, set[str]] = {table: set() for table in PARTS}
        self._remembered: dict[tuple[str, str], tuple[bytes, ...]] = {}
        """(table, key) → the parts of a row that could not be written."""
        self._writable = not read_only
        self._thrown_away = read_only
        self._database = self._reader() if read_only else self._open()

    def _reader(self) -> sqlite3.Connection:
        """Open the file to read; where that fails, nothing is found."""
        if self.path is not None:
            with contextlib.suppress(*FAULTS):
                return sqlite3.connect(f"{real(self.path).as_uri()}?mode=ro", uri=True, timeout=1)
        return _prepared(":memory:")

    def _open(self) -> sqlite3.Connection:
        """Open the file; one that cannot be used is replaced, and if that fails too, nothing is kept."""
        if self.path is not None:
            for _ in range(2):
                try:
                    self.path.parent.mkdir(parents=True, exist_ok=True)
                    return _prepared(self.path.as_posix())
                except (*FAULTS, OSError) as error:
                    if _is_busy(error):
                        break
                    self.damaged += 1
                    self._throw_away()
        return _prepared(":memory:")

    def _throw_away(self) -> None:
        """Remove the file, so that the next build does not stumble over it."""
        self._thrown_away = True
        if self.path is not None:
            for ending in BESIDE:
                with contextlib.suppress(OSError):
                    self.path.with_name(self.path.name + ending).unlink(missing_ok=True)

    def _failed(self, error: Exception) -> None:
        """Go on without a file that turned out damaged, or with what it has where it can only not be written."""
        self._writable = False
        if isinstance(error, sqlite3.OperationalError) and "no such" not in str(error):
            return  # locked, read-only or full: what is in it is good
        self.damaged += 1
        with contextlib.suppress(*FAULTS):
            self._database.close()
        if not self._thrown_away:
            self._throw_away()
            self._database = self._open()
            self._writable = True
        else:
            self._database = _prepared(":memory:")

    # Results: a method for one workshop

    def brief(self, key: str) -> bytes | None:
        """What a listing needs of a result; None where the store has none, or a damaged one."""
        return self._part("results", key, "brief")

    def method(self, key: str) -> bytes | None:
        """The method of a result; None where it is missing or damaged."""
        packed = self._part("results", key, "method")
        try:
            return None if packed is None else zlib.decompress(packed)
        except zlib.error:
            self._drop("results", key)
            return None

    def keep(self, key: str, method: bytes, brief: bytes) -> None:
        """Keep a result; `method` as `pack_method` made it."""
        self._keep("results", key, brief, method)

    # Notes: pictures, and small things that were worked out from files

    def in_use(self, keys: Iterable[str]) -> None:
        """Say that notes are in use though nobody reads them in this build."""
        self._used["notes"].update(keys)

    def note(self, key: str) -> bytes | None:
        """A note by key; None where it is missing or damaged."""
        return self._part("notes", key, "data")

    def keep_note(self, key: str, data: bytes) -> None:
        """Keep a note."""
        self._keep("notes", key, data)

    # Upkeep

    def save(self, *, evict: bool = False) -> None:
        """Write everything down; with `evict`, forget what no build has asked for in three weeks."""
        try:
            if self._remembered and self.path is not None:
                self._write_remembered()
            for table, keys in self._used.items():
                self._touch(table, keys)
                if evict:
                    self._database.execute(f"DELETE FROM {table} WHERE used<?", (self._today - KEEP_DAYS,))
            self._database.commit()
        except FAULTS as error:
            with contextlib.suppress(*FAULTS):
                self._database.rollback()
            self._failed(error)

    def close(self) -> None:
        """Close the file; the store cannot be used afterwards."""
        with contextlib.suppress(*FAULTS):
            self._database.close()

    def _touch(self, table: str, keys: Iterable[str]) -> None:
        """Note that entries are in use; once a day is enough, so that an unchanged build writes nothing."""
        rows = [(self._today, key, self._today) for key in sorted(keys)]
        self._database.executemany(f"UPDATE {table} SET used=? WHERE key=? AND used<?", rows)

    def _write_remembered(self) -> None:
        for (table, key), parts in self._remembered.items():
            self._database.execute(_insert(table), (key, self._today, *parts))
        self._writable = True

    def _part(self, table: str, key: str, part: str) -> bytes | None:
        """One part of a row, its seal taken off."""
        names = PARTS[table]
        found = self._remembered.get((table, key))
        kept: object = found[names.index(part)] if found else self._read(table, key, part)
        if kept is None:
            return None
        data = unseal(f"{table} {part} {key}", kept)
        if data is None:
            self._drop(table, key)
            return None
        self._used[table].add(key)
        return data

    def _read(self, table: str, key: str, part: str) -> object:
        try:
            row = self._database.execute(f"SELECT {part} FROM {table} WHERE key=?", (key,)).fetchone()
        except FAULTS as error:
            self._failed(error)
            return None
        return row[0] if row else None

    def _keep(self, table: str, key: str, *parts: bytes) -> None:
        sealed = tuple(seal(f"{table} {name} {key}", data) for name, data in zip(PARTS[table], parts, strict=True))
        self._remembered.pop((table, key), None)
        if not self._write(_insert(table), (key, self._today, *sealed)):
            self._remembered[table, key] = sealed
        self._used[table].add(key)

    def _drop(self, table: str, key: str) -> None:
        """Forget a damaged entry."""
        self.damaged += 1
        self._remembered.pop((table, key), None)
        self._write(f"DELETE FROM {table} WHERE key=?", (key,))

    def _write(self, statement: str, row: tuple[object, ...]) -> bool:
        """Write; whether it could be. A full disk, or a file locked by another build, costs the next build its time."""
        if not self._writable:
            return False
        try:
            self._database.execute(statement, row)
        except FAULTS as error:
            self._failed(error)
            return False
        return True


def _insert(table: str) -> str:
    return f"INSERT OR REPLACE INTO {table} VALUES ({','.join('?' * (2 + len(PARTS[table])))})"


def _prepared(name: str) -> sqlite3.Connection:
    """A database with our tables; one of another form, or whose tables have other columns, is emptied."""
    database = sqlite3.connect(name, timeout=3, check_same_thread=False)
    try:
        database.execute("PRAGMA synchronous=OFF")
        database.execute("PRAGMA journal_mode=WAL")  # processes that draw may read while this one writes
        database.execute("PRAGMA cell_size_check=ON")
        for table, parts in PARTS.items():
            columns = [row[1] for row in database.execute(f"PRAGMA table_info({table})")]
            form = database.execute("PRAGMA user_version").fetchone()[0]
            if columns and (columns != ["key", "used", *parts] or form != FORM):
                database.execute(f"DROP TABLE {table}")
            shape = ", ".join(f"{part} BLOB" for part in parts)
            database.execute(f"CREATE TABLE IF NOT EXISTS {table} (key TEXT PRIMARY KEY, used INTEGER, {shape})")
        database.execute(f"PRAGMA user_version={FORM}")
        database.commit()
    except FAULTS:
        database.close()
        raise
    return database


def _is_busy(error: Exception) -> bool:
    return isinstance(error, sqlite3.OperationalError) and "locked" in str(error)


def pack_method(method: bytes) -> bytes:
    """A packed method as the store keeps it."""
    return zlib.compress(method, 1)
