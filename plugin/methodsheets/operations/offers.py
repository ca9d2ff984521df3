"""What may an editor offer while a method file is written? Schemas, words and snippets, made of the vocabulary.

Words that a workshop adds, its machines and tools, are offered beside those that every handbook knows. No list here is
closed where the reader takes other words as well.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from methodsheets.reading.front_matter import HELP, STATUS
from methodsheets.reading.schema import KeyHelp, method_schema
from methodsheets.trade.metal.materials import material_names
from methodsheets.vocabulary import holding, machine, stock, support, tool
from methodsheets.vocabulary.saying import SAYINGS
from methodsheets.vocabulary.shape import PartKey, Shape
from methodsheets.vocabulary.verb_word import ALIASES

from .vocabulary import OPERATION_KEYS, SETUP_KEYS, clauses_of, verb_names, verbs


@dataclass(frozen=True)
class Names:
    """Words that the workshops of a handbook add."""

    workshops: Sequence[str] = ()
    machines: Sequence[str] = ()
    tools: Sequence[str] = ()


def offered(names: Names) -> Mapping[str, tuple[str, ...]]:
    """What may stand behind a key, by the key; of lines with clauses, what they begin with."""
    held = (*holding.SPELLED.known, *support.SPELLED.known)
    return {
        "material": material_names(),
        "stock": stock.SPELLED.known,
        "workshop": tuple(names.workshops),
        "machine": tuple(dict.fromkeys((*names.machines, *machine.SPELLED.known))),
        "hold": tuple(dict.fromkeys(held)),
        "tool": tuple(dict.fromkeys((*names.tools, *tool.SPELLED.known))),
    }


def file_schema(names: Names) -> dict[str, Any]:
    """JSON Schema of a whole method file: the front matter, and each kind of block below `$defs`."""
    known = offered(names)
    front = {key: known[key] for key in HELP if known.get(key)}
    setup, operation = (
        [KeyHelp(key, words, offers=known.get(key, ())) for key, words in keys.items()]
        for keys in (SETUP_KEYS, OPERATION_KEYS)
    )
    features = [KeyHelp(one, f"A {one} of the part.") for one in map(str, Shape)]
    features += [KeyHelp(one, "Says where or how, and cuts nothing.") for one in map(str, PartKey)]
    return method_schema(front, setup, _verbs(), operation, features, sorted(ALIASES))


def block_schema(whole: dict[str, Any], kind: str) -> dict[str, Any]:
    """The schema of one kind of block alone, out of that of the whole file."""
    return {"$schema": whole["$schema"], **whole["$defs"][kind]}


def _verbs() -> list[KeyHelp]:
    """Every verb with what it does, the words of its clauses, and lines that work."""
    helped: dict[str, KeyHelp] = {}
    for (name, _), verb in sorted(verbs().items()):
        clauses = sorted({clause.word for clause in clauses_of(name) if clause.word})
        words = f"{verb.help} Its clauses: {', '.join(clauses)}." if clauses else verb.help
        lines = tuple(one.line.partition(": ")[2] for one in SAYINGS if one.verb == name)
        helped.setdefault(name, KeyHelp(name, words, examples=tuple(dict.fromkeys(lines))))
    return list(helped.values())


def words(names: Names) -> tuple[str, ...]:
    """Every word that a method file may hold, for an editor that completes from a list."""
    found = {*HELP, *SETUP_KEYS, *OPERATION_KEYS, *verb_names(), *STATUS, *map(str, (*Shape, *PartKey))}
    found |= {clause.word for name in verb_names() for clause in clauses_of(name)}
    for some in offered(names).values():
        found.update(some)
    return tuple(sorted((one for one in found if one), key=lambda one: (one.lower(), one)))


def snippets() -> dict[str, Any]:
    """Snippets for Markdown by what one wants to do: the block that does it, its numbers as places to jump to."""
    made: dict[str, Any] = {}
    for one in SAYINGS:
        made[one.wants] = _snippet([one.verb, one.wants], ["```op", _places(one.line), "```"], one.wants)
    holds = "${1|" + ",".join(holding.SPELLED.known) + "|}, on ${2:40 mm}, grip ${3:15 mm}, end ${4|A,B|} out"
    machines = "${5|" + ",".join(machine.SPELLED.known) + "|}"
    made["a set-up"] = _snippet(["setup"], ["```setup", f"machine: {machines}", f"hold: {holds}", "```"], "a set-up")
    made["calculations"] = _snippet(["calc"], ["```calc", "${1:size} = ${2:16 mm}   # ${3:what it is}", "```"], "")
    return made


def _snippet(prefix: list[str], body: list[str], description: str) -> dict[str, Any]:
    return {"scope": "markdown", "prefix": prefix, "body": body, "description": description}


def _places(line: str) -> str:
    """A line with its sizes as numbered places."""
    counted = iter(range(1, 100))
    return re.sub(r"-?\d+(?:\.\d+)? (?:mm|deg)\b", lambda found: f"${{{next(counted)}:{found[0]}}}", line)
