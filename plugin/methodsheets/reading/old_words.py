"""Which words of the method language are old, and what is written today? An old file is read as it was meant.

An old word is taken for the new one where the file is read, so that no other room knows it. It is told, with the
version since which another stands for it, and `methodsheets tidy --upgrade` writes the file anew.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from methodsheets.reading.clauses import split_clauses, split_word
from methodsheets.reading.mapping import Entry
from methodsheets.reading.problem import Place, Problems
from methodsheets.reading.text import Text

FRONT = "front matter"
"""The kind of the lines at the top, beside the kinds of block."""


@dataclass(frozen=True)
class OldWord:
    """A word that was good once."""

    kinds: tuple[str, ...]
    """Kinds of block in which it stood: 'op', 'part', 'setup', or the front matter."""
    old: str
    new: str
    since: str
    """Version from which on the new one is written."""
    why: str
    """One clause, for the message and for the page of words."""
    key: str = ""
    """Where it is no key but begins a clause: the key of the clause's line."""


OLD_WORDS: tuple[OldWord, ...] = (
    OldWord(("op", "part"), "form", "round over", "0.1", "`form` is a sort of tool, which cuts other shapes as well"),
    OldWord(("op",), "inspect", "check", "0.1", "what is measured is said by `check`, under a verb or alone"),
)


def new_key(kind: str, key: str, keys: Iterable[str]) -> OldWord | None:
    """The row of an old key or verb; None where the word is good, or the new one stands in the block as well."""
    plain = " ".join(key.lower().split())
    found = next((one for one in OLD_WORDS if not one.key and kind in one.kinds and one.old == plain), None)
    return found if found and found.new not in keys else None


def new_clause(kind: str, key: str, clause: str) -> OldWord | None:
    """The row of an old word at the beginning of a clause."""
    word = split_word(Text(clause, Place("")))[0].value
    return next((one for one in OLD_WORDS if one.key == key and kind in one.kinds and one.old == word), None)


def renewed(entries: tuple[Entry, ...], kind: str, problems: Problems) -> tuple[Entry, ...]:
    """The entries of a block with today's words for old ones, each told at its place."""
    keys = [one.key.value for one in entries]
    return tuple(_renewed(one, kind, keys, problems) for one in entries)


def _renewed(entry: Entry, kind: str, keys: list[str], problems: Problems) -> Entry:
    row = new_key(kind, entry.key.value, keys)
    if row:
        _tell(row, entry.key.place, problems)
        entry = replace(entry, key=Text(row.new, entry.key.place))
    if not entry.is_text or not any(one.key == entry.key.value for one in OLD_WORDS):
        return entry
    line = entry.text
    for clause in reversed(split_clauses(line)):
        row = new_clause(kind, entry.key.value, clause.value)
        if row:
            _tell(row, clause.place, problems)
            start = clause.place.column - line.place.column
            line = Text(line.value[:start] + row.new + line.value[start + len(row.old) :], line.place)
    return replace(entry, value=line)


def _tell(row: OldWord, place: Place, problems: Problems) -> None:
    problems.warning(
        place,
        f"an old word (got `{row.old}`)",
        f"since {row.since} it is `{row.new}`: {row.why}",
        f"write `{row.new}`; `methodsheets tidy --upgrade` does it for you",
        code="old-word",
    )
