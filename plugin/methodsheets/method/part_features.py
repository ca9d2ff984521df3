"""Which words does a `part` block have of its own: features that add metal, and what it asks of surfaces?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from methodsheets.method.intention import Round, RunsTrue
from methodsheets.operations.qualities import Figure, Given, Quality, Span
from methodsheets.operations.say import MM, both, dia, dim
from methodsheets.operations.words import Clause, Said, read_clauses
from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.shape import PartKey, Shape

if TYPE_CHECKING:
    from methodsheets.method.scope import MethodReader
    from methodsheets.reading.text import Text

ADDS: Mapping[Shape, tuple[Clause | None, tuple[Clause, ...]]] = {
    Shape.ROUND: (Clause("", "length", "diameter", True), (Clause("from", "length"),
        Clause("over", "length", "length", True), Clause("only", "flag"),
              Clause("corner", "length", "radius in the corner at its far end"), Clause("axis offset", "length"),
              Clause("at", "angle"))),
    Shape.CONE: (None, (Clause("from", "length", "diameter at its near end", True),
        Clause("to", "length", "diameter at its far end", True),
             Clause("over", "length", "length", True), Clause("starting", "length"), Clause("axis offset", "length"),
             Clause("at", "angle"))),
    Shape.HEXAGON: (Clause("", "length", "size across flats", True),
        (Clause("from", "length"), Clause("over", "length", "length", True))),
    Shape.SQUARE: (Clause("", "length", "size across flats", True),
        (Clause("from", "length"), Clause("over", "length", "length", True))),
}  # fmt: skip
"""Features that add metal to a turned part, with their clauses."""
_SPAN = (Clause("from", "length", "where it begins, from the end that is being told"),
         Clause("over", "length", "length"))  # fmt: skip
SAME = 0.02
"""mm within which two diameters are one."""
ASKS: Mapping[PartKey, tuple[Clause, tuple[Clause, ...]]] = {
    PartKey.FINISH: (Clause("", "length", "mean roughness Ra: 1.6 um", True),
        (Clause("on", "length", "diameter that it is asked for on; every surface without it"), *_SPAN)),
    PartKey.RUNS_TRUE: (Clause("", "length", "most that it may run out, as a dial gauge reads it: 0.02 mm", True),
        (Clause("on", "length", "diameter that is to run true", True),
         Clause("to", "length", "diameter that it runs true to", True), *_SPAN)),
}  # fmt: skip
"""Lines that ask something of surfaces that are there, with their clauses."""


def read_finish(line: Text, reader: MethodReader, length: float, *, end_b: bool) -> Given:
    """A finish that the part asks for.

    Parameters:
        length: mm, of the part as it is drawn so far
        end_b: whether lengths are told from end B
    """
    said = read_clauses(line, *ASKS[PartKey.FINISH], reader, PartKey.FINISH)
    rough = said.length("") * 1000
    if rough <= 0:
        words, remedy = f"a finish is more than nothing (got {rough:g} µm)", "write e.g. `finish: 1.6 um, on 16 mm`"
        raise MethodError(line.place, words, "it is the mean roughness Ra", remedy, code="wrong-value")
    span = _span(said, length, end_b=end_b)
    on = said.get("on", 0.0)
    figures = (Figure("Ra", rough, 0.0),)
    place = f", {dim(span[0])} to {dim(span[1])} {MM} from end A" if span else ""
    words = f"a finish of {both(rough, 'roughness')}{place}"
    return Given(Quality.FINISH, words, "", figures, span, on, line=line.place.line)


def read_runs_true(line: Text, reader: MethodReader, length: float, *, end_b: bool) -> RunsTrue:
    """Which surfaces are to run true to which others; parameters as for `read_finish`."""
    said = read_clauses(line, *ASKS[PartKey.RUNS_TRUE], reader, PartKey.RUNS_TRUE)
    within, on, to, span = said.length(""), said.length("on"), said.length("to"), _span(said, length, end_b=end_b)
    words, remedy = "", "write e.g. `runs true: 0.02 mm, on 30 mm, to 16 mm`"
    if within <= 0:
        words = f"a run-out is more than nothing (got {said.length(''):g} mm)"
    elif abs(on - to) < SAME and span is None:
        words = f"both are {dia(on)}: which of them runs true to the other is not said (got {on:g} mm twice)"
        remedy = "say with `from` and `over` which of them is meant; it runs true to the others of that diameter"
    if words:
        raise MethodError(line.place, words, "one round surface runs true to another", remedy, code="wrong-value")
    return RunsTrue(within, Round(on, span), Round(to), line.place.line)


def _span(said: Said, length: float, *, end_b: bool) -> Span | None:
    """From z to z as `from` and `over` say it; None where neither is said."""
    if "from" not in said and "over" not in said:
        return None
    start = said.get("from", 0.0)
    stop = start + said.get("over", length - start)
    return (length - stop, length - start) if end_b else (start, stop)
