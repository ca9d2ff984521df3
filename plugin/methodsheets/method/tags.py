"""By which words is a method found?"""

from __future__ import annotations

import re
from collections.abc import Iterator

from methodsheets.method.job import Job
from methodsheets.operations.say import number
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.trade.threads.threads import thread

NUMERALS = {"two": "2", "three": "3", "four": "4", "six": "6"}


def tags(job: Job) -> tuple[str, ...]:
    """Facets: material, machines, ways of holding, operations, status; the author's own tags last."""
    found = [f"material/{piece.material.name}" for piece in job.pieces.values()]
    found += [f"machine/{s.held.machine.kind}" for s in job.setups]
    found += [f"holding/{s.held.words}" for s in job.setups]
    found += [f"operation/{o.verb}" for o in job.operations]
    found += [text.value for text in job.file.front.tags]
    return tuple(dict.fromkeys(found))


def found_as(job: Job) -> tuple[str, ...]:
    """Spellings that people type: threads, fits, sizes, inch fractions, collets, materials under their other names."""
    text = job.file.text
    found = [*_threads(text), *re.findall(r"\b[A-Z]{1,2}\d{1,2}/[a-z]{1,2}\d{1,2}\b", text)]
    found += re.findall(r"\b\d+/\d+(?=\s*in\b)", text)
    for limit in (limit for operation in job.operations for limit in operation.limits):
        if re.fullmatch(r"[A-Za-z]{1,2}\d{1,2}", limit.fit):
            size = number(limit.nominal.value)
            found += [f"{size} {limit.fit}", f"{size}{limit.fit}"]
    for piece in job.pieces.values():
        found += [piece.material.name, *piece.material.equivalents[:4]]
        if piece.said and piece.said.sizes:
            size = number(piece.said.sizes[0])
            found += [f"{piece.said.kind} {size}", f"{size}mm"]
    for setup in job.setups:
        if setup.held.holder:
            found += _series(setup.held.holder.collet_series)
            found += _jaws(setup.held.holder.usual_name)
        found += [setup.held.words]
    return tuple(dict.fromkeys(word for word in found if word))


def _threads(text: str) -> Iterator[str]:
    """'M6' is found as 'M6x1' too, and 'M10x1' as that alone: a coarse pitch is said or left out."""
    for said in re.findall(r"\bM\d+(?:\.\d+)?(?:\s*[x×]\s*\d+(?:\.\d+)?)?\b", text):
        name = said.replace(" ", "").replace("×", "x")
        yield name
        coarse, pitch = name.partition("x")[0], _pitch(name)
        if pitch and "x" not in name:
            yield f"{name}x{number(pitch)}"
        elif pitch and pitch == _pitch(coarse):
            yield coarse


def _pitch(name: str) -> float:
    """The pitch of a thread in mm; 0 where no table has it: there may be a fine one and no coarse one."""
    try:
        return thread(name).pitch
    except (NotInTable, OutOfRange):
        return 0.0


def _series(collet_series: str) -> Iterator[str]:
    """'ER32' and 'ER 32'."""
    yield collet_series
    yield re.sub(r"(?<=[A-Za-z])(?=\d)", " ", collet_series)


def _jaws(name: str) -> Iterator[str]:
    """'four jaw chuck' and '4 jaw chuck'."""
    words = name.replace("-jaw", " jaw")
    yield words
    first, _, rest = words.partition(" ")
    if first in NUMERALS and rest.startswith("jaw"):
        yield f"{NUMERALS[first]} {rest}"
