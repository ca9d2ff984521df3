"""From which other methods is this one made? Only what the author says in so many words, never a word in passing.

Three things name another method: stock `from` it, the finished part that it says (`intended`), and a piece of it that
is joined on. What is not named here is not handed out either, so no result can depend on a file that its key forgot.
"""

from __future__ import annotations

from collections.abc import Iterator

from methodsheets.operations.vocabulary import verb_name, verbs
from methodsheets.reading.clauses import split_clauses, split_word
from methodsheets.reading.limits import REFERENCES
from methodsheets.reading.method_file import Block, MethodFile
from methodsheets.reading.text import Text

FROM = "from"
JOINING = "joining"


def references(file: MethodFile) -> tuple[str, ...]:
    """The names that the file gives to other methods, each once, in order."""
    return tuple(dict.fromkeys(name for name in _named(file) if name))[:REFERENCES]


def _named(file: MethodFile) -> Iterator[str]:
    if file.front.stock is not None:
        yield _stock(file.front.stock)
    if file.front.intended is not None:
        yield file.front.intended.value
    own, joining = _own_pieces(file), _joining_verbs()
    for block in file.blocks:
        yield from (name for name in _of_block(block, joining) if name not in own)


def _own_pieces(file: MethodFile) -> set[str]:
    """The pieces that the method makes itself."""
    named = [entry.text.value for block in file.of_kind("setup") if (entry := block.entry("piece")) is not None]
    return {*named, file.front.piece.value if file.front.piece else "work"}


def _of_block(block: Block, joining: frozenset[str]) -> Iterator[str]:
    for entry in block.entries:
        if not isinstance(entry.value, Text):
            continue
        if entry.key.value == "stock":
            yield _stock(entry.value)
        elif verb_name(entry.key.value) in joining:
            clauses = split_clauses(entry.value)
            yield _plain(clauses[0]) if clauses else ""


def _joining_verbs() -> frozenset[str]:
    """Verbs whose first word is the name of a piece."""
    return frozenset(
        name
        for (name, _), meaning in verbs().items()
        if meaning.family == JOINING and meaning.first is not None and meaning.first.kind == "text"
    )


def _stock(line: Text) -> str:
    """The method of a line `from "guide-bush"`; '' for any other stock."""
    clauses = split_clauses(line)
    kind, name = split_word(clauses[0]) if clauses else (line, line)
    return _plain(name) if kind.value.lower() == FROM else ""


def _plain(text: Text) -> str:
    words = text.value.strip()
    return words[1:-1] if len(words) > 1 and words[0] == words[-1] == '"' else words
