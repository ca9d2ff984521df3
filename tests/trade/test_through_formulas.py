"""Can every calculation be called from a method file, with units, and give there what it gives here?"""

from __future__ import annotations

import doctest
import functools
import importlib
import inspect
import math
from typing import Any

import pytest
from tests.formula.worth import value_of

from methodsheets.formula.builtins import builtins
from methodsheets.formula.calculations import from_calculations, wrap
from methodsheets.formula.scope import Scope
from methodsheets.formula.values import Record, Value
from methodsheets.trade.form.calculation import Calculation, catalogue
from methodsheets.trade.form.sheet import Parameter

ALL = catalogue()
FUNCTIONS = builtins().with_functions(from_calculations(ALL))


def _shape_of(raw: Any) -> Calculation:
    """Return a calculation that gives results of this sort."""
    name = type(raw).__name__
    return next(entry for entry in ALL.values() if entry.function.__annotations__["return"] == name)


def _written(parameter: Parameter, value: Any, scope: Scope) -> str:
    """Write an argument as an author would."""
    if parameter.many:
        return "[" + ", ".join(_one(parameter, item, scope) for item in value) + "]"
    return _one(parameter, value, scope)


def _one(parameter: Parameter, value: Any, scope: Scope) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return f'"{value}"'
    if not parameter.is_number:
        name = f"given_{parameter.name}"
        scope.define(name, wrap(value, _shape_of(value).results, {entry: ALL[entry].results for entry in ALL}))
        return name
    unit = "" if parameter.unit == "1" else f" {parameter.unit}"
    return f"({value!r}{unit})"


def _compare(ours: Any, theirs: Value, where: str) -> None:
    if isinstance(theirs.data, Record):
        for name, value in theirs.data.fields.items():
            _compare(getattr(ours, name), value, f"{where}.{name}")
    elif isinstance(ours, tuple | list):
        assert len(ours) == len(theirs.items), where
        for mine, other in zip(ours, theirs.items, strict=True):
            _compare(mine, other, where)
    elif isinstance(ours, bool | str):
        assert theirs.data == ours, where
    else:
        assert math.isclose(theirs.magnitude, float(ours), rel_tol=1e-9, abs_tol=1e-9), f"{where}: {theirs} for {ours}"


@pytest.mark.parametrize("entry", ALL.values(), ids=ALL.keys())
def test_its_example_through_the_formula_language(entry: Calculation) -> None:
    calls: list[dict[str, Any]] = []

    @functools.wraps(entry.function)
    def recorder(*args: Any, **kwargs: Any) -> Any:
        calls.append(dict(inspect.signature(entry.function).bind(*args, **kwargs).arguments))
        return entry.function(*args, **kwargs)

    module = importlib.import_module(entry.function.__module__)
    names = {**vars(module), entry.name: recorder}
    example = doctest.DocTestParser().get_doctest(entry.example, names, entry.name, None, None)
    doctest.DocTestRunner(optionflags=doctest.NORMALIZE_WHITESPACE).run(example, out=lambda text: None)
    for arguments in calls:
        scope = Scope()
        parameters = {parameter.name: parameter for parameter in entry.parameters}
        written = ", ".join(f"{name}={_written(parameters[name], value, scope)}" for name, value in arguments.items())
        _compare(entry.function(**arguments), value_of(f"{entry.name}({written})", scope, FUNCTIONS), entry.name)
    assert calls
