"""Which clauses has a `hold` line, and what does each of them change?"""

from __future__ import annotations

from methodsheets.reading.text import Text
from methodsheets.vocabulary.attitude import SPELLED as ATTITUDES
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.support import SPELLED

from .words import Clause, Reader, Said, read_clauses

_WORDS, _NUMBERS, _CHECKS = (Change.WORDS,), (Change.NUMBERS,), (Change.CHECKS,)
_JAWS, _OFF = "which jaws", "how far the axis lies off"

HOLD = Clause("", "text", "way of holding: three-jaw chuck, collet chuck, machine vice …", True, changes=_WORDS)
CLAUSES = (
    Clause("on", "length", "diameter (or size across flats) that is gripped", changes=_WORDS, of_axis=True),
    Clause("grip", "length", "length gripped; height between the jaws of a vice", changes=(*_WORDS, *_NUMBERS)),
    Clause("stick-out", "length", "length in front of the holder", changes=_NUMBERS),
    Clause("end", "text", "A out, B out; or A up, B up on the mill", changes=_WORDS, of_axis=True),
    Clause(
        "axis",
        "text",
        "how the axis of a rotary table or dividing head stands: upright, level",
        changes=_WORDS,
        choices=ATTITUDES,
        of_axis=True,
    ),
    Clause(
        "axis offset",
        "length",
        "distance of the axis of rotation from the part's main axis",
        changes=(*_WORDS, *_NUMBERS),
        says=_OFF,
        of_axis=True,
    ),
    Clause("at", "angle", "direction of that offset from the 0° mark", changes=_NUMBERS),
    Clause("inside", "flag", "gripped in a bore: mandrel, jaws outward", changes=_WORDS, of_axis=True),
    Clause("outside jaws", "flag", "jaws reversed for a large diameter", changes=_WORDS, says=_JAWS, of_axis=True),
    Clause("soft jaws", "flag", "jaws bored to the size", changes=_WORDS, says=_JAWS, of_axis=True),
    Clause(
        "packed",
        "length",
        "packing under one jaw of a three-jaw chuck; height of the packing under a block",
        changes=_WORDS,
        says=_OFF,
    ),
    Clause(
        "support",
        "text",
        "tailstock centre, fixed steady, travelling steady",
        changes=_WORDS,
        choices=SPELLED,
        of_axis=True,
    ),
    Clause("support at", "length", "distance of the fixed steady from the face", changes=_CHECKS),
    Clause("up", "text", "face that is up: top, bottom, front, back, left, right", changes=_WORDS),
    Clause("towards", "text", "face that looks towards you", changes=_WORDS),
    Clause("run-out", "length", "run-out after setting, read on the dial gauge (TIR)", changes=_NUMBERS),
)

HOLD_CLAUSES = (HOLD, *CLAUSES)
"""All that a `hold` line may say."""


def read_hold(line: Text, reader: Reader) -> Said:
    """The clauses of a `hold` line."""
    return read_clauses(line, HOLD, CLAUSES, reader, "hold")
