"""How much work may an expression be? Counted in steps, never in seconds, so that it is the same on every machine.

A step is a node of the expression looked at, or what a calculation does in the same time: it says itself how long it
is (`trade.calculation`).
"""

from __future__ import annotations

from methodsheets.formula.errors import FormulaError
from methodsheets.reading import limits

MOST_STEPS = limits.STEPS
MOST_STEPS_OF_A_METHOD = limits.STEPS_OF_A_METHOD
MOST_LEAVES = limits.LEAVES
DEEPEST_LIST = limits.LIST_LEVELS
LINES_IN_A_STEP = 50
"""Lines of a program that take as long as one step."""


class Budget:
    """Steps that are left; what is spent here is spent in the budget above as well."""

    def __init__(self, steps: int = MOST_STEPS, above: Budget | None = None, of: str = "an expression") -> None:
        """Begin.

        Parameters:
            above: the budget of the whole that this is a part of
            of: what the steps are those of, for the message
        """
        self.most = self.left = steps
        self.above = above
        self.of = of

    @property
    def spent(self) -> int:
        """Steps taken so far."""
        return self.most - self.left

    def spend(self, steps: int = 1) -> None:
        """Take steps.

        Raises:
            FormulaError: there are no more.
        """
        self.left -= steps
        if self.left < 0:
            self.left = 0
            raise FormulaError(
                "this is too much to work out",
                f"{self.of} may take {self.most:,} steps",
                "make it simpler",
                code="too-long",
            )
        if self.above is not None:
            self.above.spend(steps)
