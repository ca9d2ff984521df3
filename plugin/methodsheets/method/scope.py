"""What do the author's expressions mean in this method: its names, the handbook's calculations, its words?"""

from __future__ import annotations

import functools

from methodsheets.formula.budget import MOST_STEPS_OF_A_METHOD, Budget
from methodsheets.formula.builtins import builtins
from methodsheets.formula.calculations import from_calculations
from methodsheets.formula.errors import FormulaError
from methodsheets.formula.evaluate import evaluate
from methodsheets.formula.functions import Called, FunctionTable
from methodsheets.formula.scope import Scope
from methodsheets.formula.syntax import parse
from methodsheets.formula.values import Point, Value
from methodsheets.reading.problem import MethodError
from methodsheets.reading.text import Text
from methodsheets.trade.form.calculation import catalogue


@functools.cache
def handbook_functions() -> FunctionTable:
    """All that a formula may call: the built-in mathematics and every calculation of the trade; read only."""
    return builtins().with_functions(from_calculations(catalogue()))


class MethodReader:
    """Reads expressions in the scope of one method; every method raises MethodError with the place."""

    def __init__(self, functions: FunctionTable | None = None) -> None:
        self.scope = Scope()
        self.functions = functions or handbook_functions()
        self.budget = Budget(MOST_STEPS_OF_A_METHOD, of="all expressions of a method together")

    def value(self, text: Text, calls: list[Called] | None = None) -> Value:
        """What an expression is worth."""
        return evaluate(parse(text), self.scope, self.functions, calls=calls, above=self.budget)

    def _in(self, text: Text, unit: str, what: str) -> float:
        value = self.value(text)
        try:
            return value.to(unit, what)
        except FormulaError as error:
            raise MethodError(text.place, error.what, error.rule, error.remedy, code=error.code) from None

    def length(self, text: Text) -> float:
        """A length in mm."""
        return self._in(text, "mm", f"`{text.value}`")

    def angle(self, text: Text) -> float:
        """An angle in degrees; a bare number in a row of angles is degrees, as on a drawing."""
        value = self.value(text)
        if value.is_quantity and value.unit == "1":
            return value.magnitude
        return self._in(text, "deg", f"`{text.value}`")

    def is_angle(self, text: Text) -> bool:
        """Whether an expression is an angle with its unit."""
        value = self.value(text)
        if not value.is_quantity or value.unit == "1":
            return False
        try:
            value.to("deg")
        except FormulaError:
            return False
        return True

    def cutting_speed(self, text: Text) -> float:
        """A cutting speed in m/min."""
        return self._in(text, "m/min", f"`{text.value}`")

    def number(self, text: Text) -> float:
        """A pure number."""
        return self._in(text, "1", f"`{text.value}`")

    def minutes(self, text: Text) -> float:
        """A time in minutes."""
        return self._in(text, "min", f"`{text.value}`")

    def temperature(self, text: Text) -> float:
        """A temperature in degrees Celsius."""
        return self._in(text, "degC", f"`{text.value}`")

    def points(self, text: Text) -> tuple[tuple[float, ...], ...]:
        """One or several points, each in mm."""
        value = self.value(text)
        found = [value] if isinstance(value.data, Point) else list(value.items)
        try:
            if not all(isinstance(item.data, Point) for item in found):
                raise FormulaError(
                    f"points are due (got {value.words()})",
                    "a point is `(x, y)`",
                    "write e.g. `(10 mm, 8 mm)`",
                    code="wrong-type",
                )
            return tuple(tuple(part.to("mm", "a coordinate") for part in item.items) for item in found)
        except FormulaError as error:
            raise MethodError(text.place, error.what, error.rule, error.remedy, code=error.code) from None

    def words(self, text: Text) -> str:
        """The author's words; quotation marks round the whole are taken off."""
        value = text.value.strip()
        return value[1:-1] if len(value) > 1 and value[0] == value[-1] == '"' else value
