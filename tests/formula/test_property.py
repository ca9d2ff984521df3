"""Whatever is written, a formula gives a value or a MethodError with a place, and never more steps than it may."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.formula.worth import value_of

from methodsheets.formula.budget import MOST_STEPS, Budget
from methodsheets.formula.display import shown
from methodsheets.formula.evaluate import evaluate
from methodsheets.formula.scope import Scope
from methodsheets.formula.syntax import parse
from methodsheets.formula.working import line_working
from methodsheets.reading.problem import MethodError
from methodsheets.reading.text import text

WORDS = """
1 2.5 3/8 in 12 mm 1e30 0 -1 + - * / ** ^ ( ) [ ] , . < <= == != and or not true as 5 % deg ° ' " 12°30' throw bore
fit fit.size x sqrt( min( max( sin( when( solve( round( sum( turns( seat( = low= 1/min /min m/min degC K N*m kg W/(m*K)
"H7" Ø £ é ∞ # ; : { }
"""
words = st.sampled_from([*WORDS.split(), "\\", "\t", "\n", "\u2028"])
programs = st.lists(words, max_size=30).map(" ".join)


def check(expression: str, scope, functions) -> None:
    steps = Budget(10 * MOST_STEPS)
    try:
        calls = []
        node = parse(text(expression, "m.md", 3, 5))
        value = evaluate(node, scope, functions, calls=calls, above=steps)
        shown(value)
        line_working("a", "", node, value, scope, calls)
        for item in value.items:
            if item.is_quantity:
                assert math.isfinite(item.magnitude)
    except MethodError as error:
        problem = error.problem
        assert problem.what
        assert problem.code != "crash"
        assert problem.place.path == "m.md"
        assert problem.place.line >= 3
        assert problem.place.column >= 1
    assert steps.spent <= MOST_STEPS


@pytest.fixture(scope="module")
def known(functions):
    scope = Scope()
    for name, expression in (("throw", "6 mm"), ("bore", "16 mm"), ("fit", "seat(16 mm)")):
        scope.define(name, value_of(expression, scope, functions))
    return scope


@settings(max_examples=400, deadline=None)
@given(expression=st.text(max_size=200))
def test_arbitrary_text(expression, known, functions) -> None:
    check(expression, known, functions)


@settings(max_examples=800, deadline=None)
@given(expression=programs)
def test_words_of_the_language_in_any_order(expression, known, functions) -> None:
    check(expression, known, functions)


atoms = st.sampled_from(
    ["1", "2.5", "throw", "bore", "3/8 in", "30 deg", "5 %", "20 degC", "2 kg", "fit.size", "0", "1e20"]
)
trees = st.recursive(
    atoms,
    lambda inner: st.one_of(
        st.tuples(inner, st.sampled_from(["+", "-", "*", "/", "**", "<", "=="]), inner).map(
            lambda t: f"({' '.join(t)})"
        ),
        st.tuples(st.sampled_from(["sqrt", "sin", "abs", "exp", "round", "-"]), inner).map(lambda t: f"{t[0]}({t[1]})"),
        st.lists(inner, min_size=1, max_size=4).map(lambda items: f"max({', '.join(items)})"),
        st.lists(inner, min_size=1, max_size=3).map(lambda items: f"[{', '.join(items)}]"),
    ),
    max_leaves=25,
)


@settings(max_examples=600, deadline=None)
@given(expression=trees)
def test_well_formed_expressions(expression, known, functions) -> None:
    check(expression, known, functions)


@pytest.mark.parametrize(
    "expression",
    [
        "9" * 2000, "(" * 2000, "[" * 2000, "-" * 2000, "not " * 500, "a." * 900, "1 " * 1000, "1" + "**9" * 600,
        "1" + "<2" * 900, "1" + " as mm" * 300, "f(" * 600, '"' * 2000, "1/2" * 600, "1 mm/" + "mm/" * 600,
        "mm^" * 600, "sqrt(" * 39 + "2" + ")" * 39, "max(" + "1," * 199 + "1)", "true and " * 200 + "true",
        "[" + ("[" + "1," * 19 + "1]," * 9) + "1]", "1 mm" + "*1 mm" * 390, "1e30" + "*1e30" * 300, "²" * 500,
        "1²", "1 mm²³", "١٢ mm", "1 mm^9999", "1.5e", "1e+", "0x10", "1_000", "..", "5.5.5", "1..2",
    ],
)  # fmt: skip
def test_hard_cases(expression, known, functions) -> None:
    check(expression, known, functions)
