"""What can the workshop divide with: rotary tables, dividing heads and their plates?"""

from __future__ import annotations

from dataclasses import dataclass

from methodsheets.vocabulary.holding import Way


@dataclass(frozen=True)
class RotaryTable:
    """A rotary table or dividing head.

    Parameters:
        ratio: turns of the handle for one turn of the table, e.g. 90
        division: [deg] one division of the handle's dial; 0 where it has none
        vernier: [deg] what the vernier splits a division to; 0 where there is none
        plates: key of plate → numbers of holes
        diameter, height, bore: [mm]; `height` is that of the table's face, its axis upright
        centre_height: [mm] of the axis above the machine's table, the axis level; 0 = not said
        centre_taper: 'MT2'
        locks: whether the table can be locked for a cut
    """

    key: str
    name: str
    ratio: float
    division: float = 0.0
    vernier: float = 0.0
    plates: tuple[tuple[str, tuple[int, ...]], ...] = ()
    diameter: float = 0.0
    height: float = 0.0
    bore: float = 0.0
    centre_taper: str = ""
    locks: bool = True
    words: tuple[str, ...] = ()
    note: str = ""
    kind: Way = Way.ROTARY_TABLE
    """Whether it is a rotary table or a dividing head."""
    centre_height: float = 0.0

    @property
    def holes(self) -> tuple[int, ...]:
        """All circles of holes of all plates, rising."""
        return tuple(sorted({count for _, plate in self.plates for count in plate}))

    @property
    def finest(self) -> float:
        """[deg] the finest that can be read on the dial."""
        return self.vernier or self.division

    def known_as(self) -> tuple[str, ...]:
        """Every word by which it may be called."""
        return (self.key, self.name, *self.words, *self.kind.row.words)
