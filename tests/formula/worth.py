"""What is a written expression worth? For tests, which write whole expressions."""

from __future__ import annotations

from methodsheets.formula.evaluate import evaluate
from methodsheets.formula.functions import FunctionTable
from methodsheets.formula.scope import Scope
from methodsheets.formula.syntax import parse
from methodsheets.formula.values import Value
from methodsheets.reading.text import Text


def value_of(expression: Text | str, scope: Scope | None = None, functions: FunctionTable | None = None) -> Value:
    """Parse and evaluate in one go."""
    return evaluate(parse(expression), scope, functions)
