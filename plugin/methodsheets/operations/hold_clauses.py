"""Which clauses has a `hold` line, and what does each of them change?"""

from __future__ import annotations

from methodsheets.reading.text import Text
from methodsheets.vocabulary.attitude import SPELLED as ATTITUDES
from methodsheets.vocabulary.support import SPELLED

from .words import Clause, Reader, Said, read_clauses

HOLD = Clause("", "text", "way of holding: three-jaw chuck, collet chuck, machine vice …", True)
CLAUSES = (
    Clause("on", "length", "diameter (or size across flats) that is gripped"),
    Clause("grip", "length", "length gripped; height between the jaws of a vice"),
    Clause("stick-out", "length", "length in front of the holder"),
    Clause("end", "text", "A out, B out; or A up, B up on the mill"),
    Clause("axis", "text", "how the axis of a rotary table or dividing head stands: upright, level", choices=ATTITUDES),
    Clause("axis offset", "length", "distance of the axis of rotation from the part's main axis"),
    Clause("at", "angle", "direction of that offset from the 0° mark"),
    Clause("inside", "flag", "gripped in a bore: mandrel, jaws outward"),
    Clause("outside jaws", "flag", "jaws reversed for a large diameter"),
    Clause("soft jaws", "flag", "jaws bored to the size"),
    Clause("packed", "length", "packing under one jaw of a three-jaw chuck; height of the packing under a block"),
    Clause("support", "text", "tailstock centre, fixed steady, travelling steady", choices=SPELLED),
    Clause("support at", "length", "distance of the fixed steady from the face"),
    Clause("up", "text", "face that is up: top, bottom, front, back, left, right"),
    Clause("towards", "text", "face that looks towards you"),
    Clause("run-out", "length", "run-out after setting, read on the dial gauge (TIR)"),
)

HOLD_CLAUSES = (HOLD, *CLAUSES)
"""All that a `hold` line may say."""


def read_hold(line: Text, reader: Reader) -> Said:
    """The clauses of a `hold` line."""
    return read_clauses(line, HOLD, CLAUSES, reader, "hold")
