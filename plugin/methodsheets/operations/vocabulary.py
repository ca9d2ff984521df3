"""Which verbs and which keys may an author use?"""

from __future__ import annotations

import functools
from collections.abc import Mapping
from types import MappingProxyType

from methodsheets.reading.method_file import Block, Entry
from methodsheets.reading.problem import MethodError
from methodsheets.reading.text import Text
from methodsheets.vocabulary.frame import Frame
from methodsheets.vocabulary.verb_word import ALIASES, verb_name

from . import (
    benchwork,
    buttons,
    cams,
    cores,
    cross_holes,
    cross_threads,
    curves,
    dividing,
    edges,
    facing,
    fine_work,
    gearing,
    grooves,
    heating,
    holes,
    joining,
    milling,
    milling_shapes,
    riveting,
    securing,
    side_outlines,
    taking_apart,
    threads,
    turning,
    winding,
)
from .strange_key import meant_by
from .verb import ANY, TURNING, VICE, Verb, collect
from .words import Clause

OPERATION_KEYS: Mapping[str, str] = MappingProxyType(
    {
        "tool": "Tool to use, by its name in the workshop.",
        "depth": "Depth of one cut, on the radius when turning.",
        "feed": "Feed, a turn; a tooth when milling.",
        "speed": "Cutting speed (m/min) or spindle speed (1/min).",
        "check": 'What to measure: limits(16 mm, "h6") with micrometer. A list for several.',
        "note": "A remark for the sheet. A list for several.",
        "caution": "A caution of the author's own.",
        "time": "Cutting time, instead of what is worked out.",
        "handling": "Time for tool change, touching off and measuring, instead of the usual.",
        "with": "Cutting fluid, the coolant.",
        "title": "Title of the operation, instead of the heading above it.",
    }
)
"""Keys of an operation beside its verb, in the order of the guide."""

SETUP_KEYS: Mapping[str, str] = MappingProxyType(
    {
        "piece": "Name of the workpiece, where the method makes several.",
        "stock": "What that workpiece is cut from.",
        "material": "Its material, where it is another one.",
        "machine": "Machine, by its name in the workshop.",
        "hold": "How the work is held: three-jaw chuck, on 40 mm, grip 8 mm, end A out.",
        "note": "A remark for the sheet. A list for several.",
        "caution": "A caution of the author's own.",
        "time": "Time to set up, instead of the usual.",
        "title": "Title of the set-up, instead of the heading above it.",
    }
)
"""Keys of a set-up, in the order of the guide."""


FAMILIES = (
    facing,
    turning,
    curves,
    edges,
    grooves,
    holes,
    cross_holes,
    cross_threads,
    threads,
    milling,
    milling_shapes,
    dividing,
    gearing,
    benchwork,
    heating,
    fine_work,
    winding,
    cores,
    joining,
    riveting,
    taking_apart,
    securing,
    side_outlines,
    cams,
    buttons,
)
"""The rooms in which verbs stand; a new one is added here."""


@functools.cache
def verbs() -> Mapping[tuple[str, Frame], Verb]:
    """Every verb by (name, frame)."""
    return MappingProxyType(collect(FAMILIES))


@functools.cache
def family_of(name: str) -> str:
    """The family of a verb: 'turning', 'holes', 'milling' …; KeyError for a word that is none."""
    return {one: verb.family for (one, _), verb in verbs().items()}[name]


@functools.cache
def verb_names() -> tuple[str, ...]:
    """Every verb's name, sorted."""
    return tuple(sorted({name for name, _ in verbs()}))


def find_verb(block: Block) -> tuple[str, Text]:
    """The verb of an operation and its line; MethodError where there is none, two, or an unknown key."""
    found: list[tuple[str, Entry]] = []
    for entry in block.entries:
        name = verb_name(entry.key.value)
        if name:
            found.append((name, entry))
        elif entry.key.value not in OPERATION_KEYS:
            known = {**dict.fromkeys(verb_names(), ""), **OPERATION_KEYS}
            raise MethodError(
                entry.key.place,
                f"unknown key `{entry.key.value}` in the operation",
                "an operation is one verb and its keys",
                meant_by(entry.key.value, _lines(block), known),
                code="unknown-key",
            )
    if any(name not in ("check",) for name, _ in found):
        found = [(name, entry) for name, entry in found if name != "check"]
    if not found:
        raise MethodError(
            block.place,
            "the operation has no verb",
            "an operation is one verb and its keys",
            "write e.g. `turn: to 38 mm, over 13 mm`",
            code="no-verb",
        )
    if len(found) > 1:
        raise MethodError(
            found[1][1].key.place,
            f"two verbs in one operation: `{found[0][0]}` and `{found[1][0]}`",
            "an operation is one verb and its keys",
            "write a block for each",
            code="two-verbs",
        )
    name, entry = found[0]
    line = entry.value if isinstance(entry.value, Text) else Text("", entry.key.place)
    return name, line


def _lines(block: Block) -> dict[str, tuple[Clause, ...]]:
    """The verbs that stand in a block, with their clauses."""
    return {name: clauses_of(name) for entry in block.entries if (name := verb_name(entry.key.value))}


def clauses_of(name: str) -> tuple[Clause, ...]:
    """Every clause that a verb has in one frame or another."""
    return tuple(clause for (one, _), found in verbs().items() if one == name for clause in found.clauses)


def verb_in_frame(name: str, frame: Frame, line: Text) -> Verb:
    """What a verb means in a frame; MethodError where it has no meaning there."""
    found = verbs().get((name, frame)) or verbs().get((name, ANY))
    if found is None:
        there = "work about an axis (lathe, rotary table)" if frame == VICE else "a six-face block"
        here = "a six-face block" if frame == VICE else "work about an axis"
        raise MethodError(
            line.place,
            f"`{name}` is for {there}; this set-up holds {here}",
            "a verb has its meaning in its own frame",
            "hold the work the other way (`end A out`, or `up top, towards front`), or take another verb",
            code="wrong-frame",
        )
    return found


def entry_text(block: Block, key: str) -> Text | None:
    """The text of a key that stands on one line."""
    entry = block.entry(key)
    return entry.value if entry and isinstance(entry.value, Text) else None


def entry_texts(block: Block, key: str) -> tuple[Text, ...]:
    """The texts of a key that may be a list."""
    return tuple(text for entry in block.entries if entry.key.value == key for text in entry.texts)


__all__ = [
    "ALIASES",
    "OPERATION_KEYS",
    "SETUP_KEYS",
    "TURNING",
    "entry_text",
    "entry_texts",
    "find_verb",
    "verb_in_frame",
    "verb_name",
    "verb_names",
    "verbs",
]
