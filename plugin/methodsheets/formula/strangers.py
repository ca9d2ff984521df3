"""What does an exception from another library mean to whoever wrote the expression?

Whatever happens inside an expression is told as a problem of that expression. The exceptions that numbers and units
raise by their nature have words of their own; any other one is a fault of the program, and says so.
"""

from __future__ import annotations

import pint

from methodsheets.formula.errors import FormulaError
from methodsheets.reading.mishap import CODE, mishap


def as_formula_error(error: Exception) -> FormulaError:
    """The FormulaError that says what an exception means; one that is a FormulaError already stays itself."""
    if isinstance(error, FormulaError):
        return error
    if isinstance(error, pint.OffsetUnitCalculusError):
        return FormulaError(
            "temperatures in degC cannot be calculated with like this",
            "their zero is not the zero of heat",
            "write a difference in K, e.g. 20 degC + 60 K",
            code="temperature",
        )
    if isinstance(error, pint.PintError):
        return FormulaError(
            f"the units do not agree ({error})", "", "check the units of what goes in", code="wrong-dimension"
        )
    if isinstance(error, ZeroDivisionError):
        return FormulaError("division by zero", "", "check what goes in", code="division")
    if isinstance(error, ArithmeticError):
        return FormulaError("the result is too large, or no number", "", "check what goes in", code="too-large")
    if isinstance(error, RecursionError):
        return FormulaError("the expression is nested too deep", "", "give parts of it names", code="too-long")
    said = mishap("", "this could not be worked out", error)
    return FormulaError(said.what, said.rule, said.remedy, code=CODE)
