"""What is kept of how a number came about? Plain data, which needs no formula to be read."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class TableRow:
    """One row of a table that a number rests on."""

    table: str
    row: str
    source: str
    trust: str
    """'read', 'common practice' or 'from memory'."""


@dataclass(frozen=True)
class Working:
    """One line that shows how a number came about; the MathML parts stand side by side: formula, numbers, result."""

    name: str
    label: str = ""
    formula: str = ""
    """MathML of the formula."""
    numbers: str = ""
    """MathML of the formula with the numbers put in; '' where nothing is put in."""
    result: str = ""
    """MathML of the result; '' where the formula is the result already."""
    plain: str = ""
    """The same in one line of plain text: 'n = v / (π d) = 25 m/min / (π · 12 mm) = 663 1/min'."""
    source: str = ""
    trust: str = ""
    """How far to believe it: 'exact', 'table', 'common practice', 'estimate ±30 %'."""
    validity: str = ""
    heed: tuple[str, ...] = ()
    """Where these very numbers leave the ground that the calculation was made for."""
    rows: tuple[TableRow, ...] = ()
    """The rows of tables that the number rests on."""
    from_memory: bool = False
    """Whether the rule, or a row it rests on, was recalled and not read."""
    steps: tuple[Working, ...] = ()
    by_names: tuple[str, ...] = ()
    """What was recalled and not read in the numbers that come in by their names."""

    @property
    def recalled(self) -> tuple[str, ...]:
        """What was recalled and not read in this number, its steps and what comes in by name.

        The rows by table and name, the rules.
        """
        own = [f"{row.table.partition(':')[0]}: {row.row}" for row in self.rows if row.trust == "from memory"]
        if self.from_memory and not own:
            own = [(self.label or self.name.replace("_", " ")).rstrip(".")]
        return tuple(dict.fromkeys([*own, *(words for step in self.steps for words in step.recalled), *self.by_names]))
