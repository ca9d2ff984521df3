"""Does a set-up take the work by its faces, said or assumed, or about an axis?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from methodsheets.vocabulary.holding import SPELLED as HOLDINGS
from methodsheets.vocabulary.holding import Grips, carried
from methodsheets.workpiece.datum import FaceName

from .hold_clauses import HOLD_CLAUSES
from .words import Said


def assuming(said: Said, values: Mapping[str, float | str]) -> Said:
    """The same clauses with some that the author left out."""
    assumed = said.assumed | (frozenset(values) - set(said.values))
    return replace(said, values={**values, **said.values}, assumed=assumed)


USUAL_FACE: FaceName = "top"
"""The face that is up where nobody says."""


def wants_block(said: Said) -> bool:
    """Whether the set-up speaks of faces (`up top`) and not of ends."""
    return said.has("up") or said.has("towards")


def by_its_faces(said: Said, *, only_faces: bool, lies: bool) -> Said:
    """The same clauses, with a face up assumed where none is said, of an axis neither, and the work has faces.

    Parameters:
        only_faces: whether the work is a block, which has no axis of its own
        lies: whether it is a bar with flats, which jaws of a vice and clamps take by its faces
    """
    if wants_block(said) or any(clause.of_axis and said.has(clause.word) for clause in HOLD_CLAUSES):
        return said
    carrier, base = carried(str(said.get("")))
    way = HOLDINGS.read(base) if carrier is None else None
    takes_flats = way is not None and (way.row.grips is Grips.FACES or way.row.flat_on_table)
    return assuming(said, {"up": USUAL_FACE}) if only_faces or (lies and takes_flats) else said
