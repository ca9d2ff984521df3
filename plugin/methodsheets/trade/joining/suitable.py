"""Does a material take a joint: heat, press fit, glue?"""

from __future__ import annotations

from dataclasses import dataclass

from ..form.calculation import calculation
from ..form.rows import take
from ..form.tables import read_table
from ..metal.materials import material


@dataclass(frozen=True)
class Suits:
    """What the table says of a joint on a material."""

    verdict: str
    note: str


@calculation
def joint_suits(joint: str, of: str) -> Suits:
    """Whether a material takes a way of joining, and what to heed.

    Table:
        joint_materials, materials

    Parameters:
        joint: [text] pressed, shrunk, pinned, brazed, welded, soft-soldered, glued, retained, riveted, screwed
        of: [text] name of the material

    Returns:
        verdict: [text] text  yes, care or no
        note: [text] text  why; empty where nothing speaks against it

    Raises:
        NotInTable: no material has that name.

    Validity:
        What the table has no row for is taken to suit. The maker's sheet of filler, glue and plastic goes first.

    Example:
        >>> joint_suits("brazed", "acetal").verdict
        'no'

    Source:
        Common workshop practice, from memory.

    Trust: common practice

    Checked: a table of practice, one note a row; there is nothing to count.
    """
    found = material(of)
    rows = {row["of"]: row for row in read_table("joint_materials").rows if row["joint"] == joint}
    row = next((rows[word] for word in (found.name, found.group, found.form) if word in rows), None)
    if row is None:
        return Suits("yes", "")
    take(row)
    return Suits(row["verdict"], row["note"])
