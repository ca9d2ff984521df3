"""How wide and how deep is the groove for a retaining ring?"""

from __future__ import annotations

from dataclasses import dataclass

from ..form.calculation import NotInTable, calculation
from ..form.rows import take
from ..form.tables import read_table


@dataclass(frozen=True)
class RingGroove:
    """A groove for a retaining ring, mm."""

    groove: float
    wide: float
    deep: float


@calculation
def ring_groove(size: float, where: str = "shaft") -> RingGroove:
    """Groove for a retaining ring on a shaft or in a bore.

    Equation:
        t = abs(D - G) / 2

    Table:
        retaining_rings

    Parameters:
        size: D [mm] (D > 0) nominal diameter of the shaft or bore
        where: [text] (one of shaft, bore) where the ring goes

    Returns:
        groove: G [mm] size diameter of the groove
        wide: [mm] size least width
        deep: t [mm] size depth

    Raises:
        NotInTable: the table has no ring of that size.

    Validity:
        Rings of the normal type. The ring's own sheet holds.

    Example:
        >>> found = ring_groove(20, "bore")
        >>> found.groove, found.wide
        (21.0, 1.1)

    Source:
        DIN 471 and DIN 472, from memory.

    Trust: table
    """
    kind = where.strip().lower()
    rows = [row for row in read_table("retaining_rings").rows if row["kind"] == kind]
    row = next((one for one in rows if abs(float(one["size"]) - size) < 0.05), None)
    if row is None:
        raise NotInTable(f"{size:g} mm", f"ring for a {kind}", [one["size"] for one in rows])
    take(row)
    groove = float(row["groove"])
    return RingGroove(groove, float(row["wide"]), abs(groove - size) / 2)
