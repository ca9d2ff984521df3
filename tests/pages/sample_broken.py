"""An evaluated method with problems, made by hand."""

from __future__ import annotations

from dataclasses import replace

from sample_measures import mm
from sample_methods import method

from methodsheets.reading.problem import Place, Problem, Severity
from methodsheets.sheet.model import Check, Difference, Method
from methodsheets.sheet.words import Words


def broken_method(workshop: str) -> Method:
    """A method with problems: an error at a block, a difference to the intended part, a failed check."""
    base = method("eccentric-one-piece", workshop)
    problem = Problem(
        Place("methods/clamp-block.md", 30, 7),
        "unknown key `dept` (got `dept: 1 mm`)",
        "the keys of an operation are fixed",
        "did you mean `depth`?",
        Severity.ERROR,
        "unknown-key",
    )
    return replace(
        base,
        slug="clamp-block",
        path="methods/clamp-block.md",
        title="Clamp block",
        part="clamp-block",
        status="draft",
        problems=(problem,),
        differences=(
            Difference(1, "left on", Words("A ring is left on at Ø38", "A ring is left on at Ø1.496"), 120.0, mm(0.5)),
        ),
        checks=(Check("intended-part", "failed", Words("1 difference to the intended part")),),
        drawings=(),
        setups=base.setups[:1],
        calculations=(),
    )
