"""By which words is a method found?"""

from __future__ import annotations

import re

from methodsheets.method.job import Job
from methodsheets.operations.say import number


def tags(job: Job) -> tuple[str, ...]:
    """Facets: material, machines, ways of holding, operations, status; the author's own tags last."""
    found = [f"material/{piece.material.name}" for piece in job.pieces.values()]
    found += [f"machine/{s.held.machine.kind}" for s in job.setups]
    found += [f"holding/{s.held.words}" for s in job.setups]
    found += [f"operation/{o.verb}" for o in job.operations]
    found += [text.value for text in job.file.front.tags]
    return tuple(dict.fromkeys(found))


def found_as(job: Job) -> tuple[str, ...]:
    """Spellings that people type: threads, fits, inch fractions, collets, materials under their other names."""
    text = job.file.text
    found = [m.replace(" ", "") for m in re.findall(r"\bM\d+(?:\.\d+)?(?:\s*x\s*\d+(?:\.\d+)?)?\b", text)]
    found += re.findall(r"\b[A-Z]{1,2}\d{1,2}/[a-z]{1,2}\d{1,2}\b", text)
    found += re.findall(r"\b\d+/\d+(?=\s*in\b)", text)
    for piece in job.pieces.values():
        found += [piece.material.name, *piece.material.equivalents[:4]]
        if piece.said and piece.said.sizes:
            found.append(f"{piece.said.kind} {number(piece.said.sizes[0])}")
    for setup in job.setups:
        if setup.held.holder:
            found += [setup.held.holder.collet_series, setup.held.holder.usual_name.replace("-jaw", " jaw")]
        found += [setup.held.words]
    return tuple(dict.fromkeys(word for word in found if word))
