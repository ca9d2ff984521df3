"""Does every calculation of the handbook keep to the form, and do its equation and its example hold?"""

from __future__ import annotations

import doctest
import functools
import importlib
import inspect
from typing import Any

import pytest
from tests.trade.equation import check_equation

from methodsheets.trade.form.calculation import Calculation, catalogue
from methodsheets.trade.form.sheet import TRUSTS
from methodsheets.trade.form.tables import read_table, table_names

ALL = catalogue()
EVERY = pytest.mark.parametrize("entry", ALL.values(), ids=ALL.keys())


@EVERY
def test_every_section_is_there(entry: Calculation) -> None:
    assert entry.sentence.endswith("."), "the first line is one sentence"
    for said in (entry.raises, entry.validity, entry.example, entry.source, entry.trust):
        assert said.strip(), f"{entry.name} lacks a section; it has {entry.sheet.sections}"
    assert entry.equations or entry.tables, "an Equation or a Table section says how it is found"
    assert entry.trust.startswith(TRUSTS), f"trust {entry.trust!r} is none of {TRUSTS}"
    assert entry.results


@EVERY
def test_the_tables_named_exist(entry: Calculation) -> None:
    for name in entry.tables:
        assert name in table_names()


@EVERY
def test_parameters_are_the_signature(entry: Calculation) -> None:
    signature = inspect.signature(entry.function)
    assert [parameter.name for parameter in entry.parameters] == list(signature.parameters)
    for parameter in entry.parameters:
        has_default = signature.parameters[parameter.name].default is not inspect.Parameter.empty
        assert parameter.optional == has_default
        assert parameter.text, f"{entry.name}: say what {parameter.name} is"


@EVERY
def test_results_are_the_fields_of_the_result(entry: Calculation) -> None:
    module = importlib.import_module(entry.function.__module__)
    annotation = inspect.signature(entry.function, eval_str=True, globals=vars(module)).return_annotation
    fields = getattr(annotation, "__dataclass_fields__", None)
    if fields is None:
        assert len(entry.results) == 1
        assert entry.results[0].name == entry.name
    else:
        assert [result.name for result in entry.results] == list(fields)
        assert annotation.__dataclass_params__.frozen, "a result is frozen"


@EVERY
def test_the_example_holds_and_agrees_with_the_equation(entry: Calculation) -> None:
    calls: list[tuple[dict[str, Any], Any]] = []

    @functools.wraps(entry.function)
    def recorder(*args: Any, **kwargs: Any) -> Any:
        result = entry.function(*args, **kwargs)
        calls.append((inspect.signature(entry.function).bind(*args, **kwargs).arguments, result))
        return result

    module = importlib.import_module(entry.function.__module__)
    names = {**vars(module), entry.name: recorder}
    example = doctest.DocTestParser().get_doctest(entry.example, names, entry.name, None, None)
    report: list[str] = []
    outcome = doctest.DocTestRunner(optionflags=doctest.NORMALIZE_WHITESPACE).run(example, out=report.append)
    assert outcome.attempted, "the example has no >>> line"
    assert not outcome.failed, "".join(report)
    assert calls, "the example does not call the calculation"
    for arguments, result in calls:
        check_equation(entry, arguments, result)


@EVERY
def test_an_equation_speaks_of_a_result(entry: Calculation) -> None:
    if entry.equations:
        symbols = {result.symbol for result in entry.results}
        left_sides = {line.partition("=")[0].strip() for line in entry.equations}
        assert symbols & left_sides, f"none of {symbols} is on the left of an equation line"


@pytest.mark.parametrize("name", table_names())
def test_every_table_says_what_it_is_and_where_it_comes_from(name: str) -> None:
    table = read_table(name)
    assert table.title
    assert table.source
    assert table.rows
    assert all(column.text for column in table.columns)
