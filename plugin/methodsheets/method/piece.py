"""What is one workpiece of the method, and what was it made from?"""

from __future__ import annotations

from dataclasses import dataclass, field

from methodsheets.operations.stock import StockSaid
from methodsheets.trade.metal.materials import Material
from methodsheets.workpiece import State, Stock, Workpiece


@dataclass(frozen=True, eq=False, kw_only=True)
class Piece:
    """One workpiece of the method, with what it was made from; `work` is what it has come to."""

    name: str
    work: Workpiece
    material: Material
    said: StockSaid
    stock: Stock | None
    """None where it comes from another method."""
    start: State
    grams: float
    """Mass of its stock."""
    rough: bool
    """Whether it came with a raw skin, as a casting does."""
    allowance: float
    """mm that it had over its drawn outline."""
    faces: bool = False
    """Whether it was laid as a block, by its faces."""
    gaps: list[tuple[float, float]] = field(default_factory=list)
    """(from, to) of each core that was cut out of it, z in mm of the work."""
