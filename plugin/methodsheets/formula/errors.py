"""What went wrong while a value was worked out, before anybody knows the place?"""

from __future__ import annotations


class FormulaError(ValueError):
    """A value cannot be worked out; the evaluator turns this into a MethodError with the place of the expression."""

    def __init__(
        self, what: str, rule: str = "", remedy: str = "", *, code: str = "formula", argument: str = ""
    ) -> None:
        self.what = what
        self.rule = rule
        self.remedy = remedy
        self.code = code
        self.argument = argument
        """Name of the argument that is wrong, where it is one."""
        super().__init__("; ".join(part for part in (what, rule, remedy) if part))
