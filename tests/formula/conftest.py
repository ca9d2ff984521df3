import pytest
from tests.formula.worth import value_of

from methodsheets.formula.builtins import builtins
from methodsheets.formula.calculations import from_calculations
from methodsheets.formula.scope import Scope
from methodsheets.reading.problem import MethodError

from .catalogue import CATALOGUE


@pytest.fixture(scope="session")
def functions():
    return builtins().with_functions(from_calculations(CATALOGUE))


@pytest.fixture
def scope(functions):
    made = Scope()
    for name, expression in (("throw", "6 mm"), ("bore", "16 mm"), ("ratio", "0.5"), ("tilt", "30 deg")):
        made.define(name, value_of(expression))
    made.define("fit", value_of("seat(bore)", made, functions))
    return made


@pytest.fixture
def value(scope, functions):
    """Work an expression out to its value."""
    return lambda expression: value_of(expression, scope, functions)


@pytest.fixture
def error(scope, functions):
    """The message of the error that an expression gives, without the file's name."""

    def run(expression):
        with pytest.raises(MethodError) as caught:
            value_of(expression, scope, functions)
        return str(caught.value).removeprefix("expression:")

    return run
