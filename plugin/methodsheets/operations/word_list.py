"""Which words may an author use for an operation, and what does each take? The list for people, made from the verbs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from methodsheets.vocabulary.frame import Frame

from .verb import ANY, BENCH, TURNING, VICE, Verb
from .vocabulary import ALIASES, OPERATION_KEYS, verbs
from .words import Clause

PLACES: Mapping[Frame, str] = {
    TURNING: "Turned work: in the lathe, or standing on the rotary table",
    VICE: "A block in the vice or on the table",
    BENCH: "On the bench",
    ANY: "Anywhere",
}
"""Frames in the words of the workshop, in the order of the list."""
TAKES: Mapping[str, str] = {
    "length": "a length", "lengths": "lengths", "angle": "an angle", "angles": "angles", "count": "a whole number",
    "counts": "whole numbers", "number": "a number", "text": "a word", "flag": "nothing", "points": "points",
    "thread": "a thread", "minutes": "a time", "temperature": "a temperature", "prose": "your own words",
}  # fmt: skip
"""What a clause takes."""


def word_list(only: str = "") -> str:
    """The list in Markdown: every verb with its clauses, by the place where it works; or one verb alone.

    Parameters:
        only: a verb or another word for it; all of them where empty

    Returns:
        '' where there is no such verb.
    """
    wanted = ALIASES.get(only, only)
    parts: list[str] = []
    for frame, place in PLACES.items():
        here = {names: verb for names, verb in _groups(frame).items() if not wanted or wanted in names}
        if here:
            parts.append(f"## {place}")
            parts += ["\n".join(_told(names, verb)) for names, verb in here.items()]
    if parts and not wanted:
        parts.append("\n".join(_keys()))
    return "\n\n".join(parts) + "\n" if parts else ""


def _groups(frame: Frame) -> dict[tuple[str, ...], Verb]:
    """Verbs that mean the same in a frame, together: (names) to the verb."""
    by_make: dict[object, list[Verb]] = {}
    for (_, where), one in sorted(verbs().items()):
        if where == frame:
            by_make.setdefault(one.make, []).append(one)
    return {tuple(one.name for one in same): same[0] for same in by_make.values()}


def _quoted(names: tuple[str, ...]) -> str:
    return " ".join(f"`{name}`" for name in names)


def _told(names: tuple[str, ...], verb: Verb) -> Iterator[str]:
    yield f"### {_quoted(names)}"
    yield ""
    yield verb.help
    others = sorted(other for other, name in ALIASES.items() if name in names)
    if others:
        yield f"Also: {_quoted(tuple(others))}."
    yield ""
    yield "| clause | takes | what it says |"
    yield "|---|---|---|"
    if verb.first is not None:
        yield _row("*first*", verb.first)
    yield from (_row(f"`{clause.word}`", clause) for clause in verb.clauses)


def _row(name: str, clause: Clause) -> str:
    words = clause.help.replace("|", "\\|")
    needed = " **Needed.**" if clause.required else ""
    return f"| {name} | {TAKES[clause.kind]} | {words[:1].upper()}{words[1:]}{'.' if words else ''}{needed} |"


def _keys() -> Iterator[str]:
    yield "## Beside the verb"
    yield ""
    yield "| key | what it says |"
    yield "|---|---|"
    yield from (f"| `{key}` | {words} |" for key, words in OPERATION_KEYS.items())
