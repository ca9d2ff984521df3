"""Which words does a `part` block have of its own: features that add metal, and the finish of a surface?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from methodsheets.operations.qualities import Figure, Given, Quality
from methodsheets.operations.say import MM, both, dim
from methodsheets.operations.words import Clause, read_clauses
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
FINISH = PartKey.FINISH
"""Asks for a surface no rougher than so many µm Ra."""
_FINISH = (
    Clause("", "length", "mean roughness Ra: 1.6 um", True),
    (Clause("on", "length", "diameter that it is asked for on; every surface without it"),
     Clause("from", "length", "where it begins, from the end that is being told"), Clause("over", "length", "length")),
)  # fmt: skip


def read_finish(line: Text, reader: MethodReader, length: float, *, end_b: bool) -> Given:
    """A finish that the part asks for.

    Parameters:
        length: mm, of the part as it is drawn so far
        end_b: whether lengths are told from end B
    """
    said = read_clauses(line, *_FINISH, reader, FINISH)
    rough = said.length("") * 1000
    if rough <= 0:
        words, remedy = f"a finish is more than nothing (got {rough:g} µm)", "write e.g. `finish: 1.6 um, on 16 mm`"
        raise MethodError(line.place, words, "it is the mean roughness Ra", remedy, code="wrong-value")
    span = None
    if "from" in said or "over" in said:
        start = said.get("from", 0.0)
        stop = start + said.get("over", length - start)
        span = (length - stop, length - start) if end_b else (start, stop)
    on = said.get("on", 0.0)
    figures = (Figure("Ra", rough, 0.0),)
    place = f", {dim(span[0])} to {dim(span[1])} {MM} from end A" if span else ""
    words = f"a finish of {both(rough, 'roughness')}{place}"
    return Given(Quality.FINISH, words, "", figures, span, on, line=line.place.line)
