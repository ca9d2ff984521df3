import itertools
import math

import pytest
from tests.formula.worth import value_of

from methodsheets.formula.budget import MOST_STEPS, Budget
from methodsheets.formula.builtins import builtins
from methodsheets.formula.calculations import from_calculations
from methodsheets.formula.evaluate import evaluate
from methodsheets.formula.functions import Function, FunctionTable
from methodsheets.formula.scope import Scope
from methodsheets.formula.syntax import parse
from methodsheets.formula.values import Point, Value
from methodsheets.reading.problem import MethodError, Place
from methodsheets.trade.form.calculation import catalogue


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("throw * 2 + 1 mm", (13, "mm")),
        ("0.2 mm * 1000 /min", (200, "mm/min")),
        ("0.1 mm/rev * 620 rpm", (62, "mm/min")),
        ("25 m/min / (pi * 12 mm)", (663.1455962162306, "1/min")),
        ("pi * 12 mm * 620 1/min as m/min", (math.pi * 12 * 620 / 1000, "m/min")),
        ("3/8 in + 1 mm as mm", (10.525, "mm")),
        ("3/8 in + 1/8 in", (0.5, "in")),
        ("100 mm * 5 %", (5, "mm")),
        ("1 + 5 %", (1.05, "1")),
        ("5 % + 5 %", (10, "%")),
        ("bore / throw", (16 / 6, "1")),
        ("1 m / 25 cm", (4, "1")),
        ("10 mm * tilt", (5.235987755982989, "mm")),
        ("20 degC + 60 K", (80, "degC")),
        ("80 degC - 20 degC", (60, "K")),
        ("60 K + 20 degC", (80, "degC")),
        ("1 kN * 2 mm", (2, "N*m")),
        ("100 N / (10 mm * 2 mm)", (5, "N/mm^2")),
        ("-throw", (-6, "mm")),
        ("(3 mm) ** 2", (9, "mm^2")),
        ("(27 mm^3) ** (1/3)", (3, "mm")),
        ("2 ** -1", (0.5, "1")),
        ("50 % ** 2", (0.25, "1")),
    ],
)
def test_quantities(value, expression, expected) -> None:
    found = value(expression)
    assert found.magnitude == pytest.approx(expected[0], rel=1e-12)
    assert found.unit == expected[1]


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("throw < bore", True), ("throw == 0.6 cm", True), ("0.1 + 0.2 == 0.3", True), ("0.1 + 0.2 > 0.3", False),
        ("0.1 + 0.2 <= 0.3", True), ("1 mm < throw < 5 mm", False), ('fit.name == "H7/s6"', True),
        ("throw > 1 mm and not bore > 20 mm", True), ("throw > 10 mm or bore > 10 mm", True), ("true != false", True),
        ("throw > 1 mm or 1 / 0 > 1", True), ("throw > 10 mm and 1 / 0 > 1", False), ("90 deg == pi / 2 * 1 rad", True),
    ],
)  # fmt: skip
def test_conditions(value, expression, expected) -> None:
    assert value(expression).data is expected


def test_lists_and_points(scope, functions) -> None:
    doubled = value_of("[1 mm, throw] * 2", scope, functions)
    assert [item.words() for item in doubled.items] == ["2 mm", "12 mm"]
    moved = value_of("(1 mm, 2 mm) + (3 mm, 4 mm)", scope, functions)
    assert isinstance(moved.data, Point)
    assert [item.words() for item in moved.items] == ["4 mm", "6 mm"]
    assert value_of("(1 mm, 2 mm).y", scope, functions).words() == "2 mm"


@pytest.mark.parametrize(
    ("expression", "message"),
    [
        ("throw + 2", "1:7: a bare number cannot be added to a length (got 6 mm + 2); "
         "quantities that add agree in dimension; write 2 mm"),
        ("2 - throw", "1:3: a length cannot be subtracted from a bare number (got 2 - 6 mm); "
         "quantities that add agree in dimension; write 2 mm"),
        ("throw + 3 N", "1:7: a force cannot be added to a length (got 6 mm + 3 N); "
         "quantities that add agree in dimension; convert one, or check the formula"),
        ("tilt + 1", "1:6: a bare number cannot be added to an angle (got 30 deg + 1); "
         "quantities that add agree in dimension; write 1 deg"),
        ("throw < 3", "1:7: these cannot be compared (got 6 mm and 3); "
         "quantities that are compared agree in dimension; write 3 mm"),
        ("H7", "1:1: unknown name `H7`; names come from the lines of `calc` blocks above; "
         "give it in a calc block, or if it is a fit or a thread put it in double quotes, e.g. \"H7\""),
        ("boro", "1:1: unknown name `boro`; names come from the lines of `calc` blocks above; did you mean `bore`?"),
        ("turn(1)", "1:1: unknown function `turn`; did you mean `turns`?"),
        ("fit.siez", "1:5: `fit` has no field `siez`; did you mean `size`?"),
        ("throw.x", "1:7: `throw` has no fields (got 6 mm); only results of calculations have; write `throw` alone"),
        ("1 mm / 0", "1:6: division by zero (got 1 mm / 0); check what goes in"),
        ("0 ** -1", "1:3: division by zero (got 0 ** -1); check what goes in"),
        ("(-8) ** 0.5", "1:6: a broken power of a negative number (got -8 ** 0.5); check the signs"),
        ("2 ** throw", "1:3: an exponent is a bare number (got 6 mm); take the unit away"),
        ("2 ** 1000", "1:3: the exponent is too large (got 1000); exponents reach to 100"),
        ("10 ** 99 * 10 ** 99", "1:10: the result is too large; numbers reach to 1e+100; check the units"),
        ("1e30 ** 20", "1:6: the result is too large"),
        ("20 degC * 2", "1:9: temperatures in degC cannot be calculated with like this (got 20 degC * 2); "
         "their zero is not the zero of heat; write a difference in K, e.g. 20 degC + 60 K"),
        ("20 degC + 30 degC", "1:9: temperatures in degC cannot be calculated with like this"),
        ("throw as N", "1:7: what stands before `as` is a force (got 6 mm, a length); give it in N"),
        ("min", "1:1: `min` is a function; write `min(a, b, …)`"),
        ("mm * 3", "1:1: `mm` is a unit without a number; a unit follows a number; write `1 mm`"),
        ('"a" + 1', '1:5: `+` needs quantities (got "a")'),
        ("fit + 1 mm", "1:5: `+` needs quantities (got a result with the fields name, size, hole, steps, loose); "
         "take one of its fields, e.g. `.force_max`"),
        ("not 3", "1:1: a condition is due (got 3); a condition is true or false; "
         "write a comparison, e.g. `bore > 10 mm`"),
        ("(1 mm, 2 N)", "1:1: the coordinates of a point differ in sort (got a length and a force); "
         "a point is (x, y) with two lengths"),
        ("[1, 2] + [1, 2, 3]", "1:8: `+` needs two lists of one length (got 2 and 3 items)"),
    ],
)  # fmt: skip
def test_messages(error, expression, message) -> None:
    assert error(expression).startswith(message)


def test_a_unit_that_is_also_a_name_is_refused_in_doubt(scope, functions) -> None:
    scope.define("m", value_of("2 mm"))
    assert value_of("25 m/min", scope, functions).unit == "m/min"
    assert value_of("2 m", scope, functions).words() == "2 m"
    for expression in ("12 mm*m", "10/m"):
        with pytest.raises(MethodError, match="is a unit, but also a name of this method"):
            value_of(expression, scope, functions)
    assert value_of("10 mm / m", scope, functions).words() == "5"


def test_long_sums_need_no_deep_recursion() -> None:
    assert value_of("+".join(["1"] * 900)).words() == "900"


def test_steps_are_bounded() -> None:
    steps = Budget(10 * MOST_STEPS)
    inner = "solve(b, b * a == 3, low=0.1, high=90)"
    middle = f"solve(a, a * {inner} * 0 + a == 3.3, low=0.1, high=9)"
    with pytest.raises(MethodError, match=r"too much to work out; an expression may take 20,000 steps"):
        evaluate(parse(f"solve(c, c + {middle} * 0 == 1.23, low=0, high=9)"), above=steps)
    assert steps.spent <= MOST_STEPS


def test_the_expressions_of_a_method_share_their_steps() -> None:
    steps = Budget(100, of="all of them")
    for _ in range(5):
        evaluate(parse("1 + 2 + 3 + 4 + 5"), above=steps)
    with pytest.raises(MethodError, match="all of them may take 100 steps"):
        evaluate(parse(" + ".join("1" * 40)), above=steps)


def test_lists_of_lists_do_not_double() -> None:
    scope = Scope()
    scope.define("a", value_of("[1, 2]"))
    for before, name in itertools.pairwise("abcdef"):
        scope.define(name, evaluate(parse(f"[{', '.join(before * 3)}]"), scope))
    with pytest.raises(MethodError, match="the list is too large"):
        evaluate(parse(f"[{', '.join('f' * 5)}]"), scope)
    with pytest.raises(MethodError, match="lists within it 8 deep"):
        evaluate(parse("[" * 9 + "1" + "]" * 9))


@pytest.mark.parametrize(
    ("expression", "said"),
    [
        ("threading_infeeds(1 mm, 100000000)", "would go on too long"),
        ("index_table(1000000, 49)", "would go on too long"),
        ("peck_depths(1000 m, 0.001 mm)", "would go on too long"),
        ("thread_dial(1 mm, 3 mm, 16, 100000000)", "would go on too long"),
        ("compound_indexing(7, 100000)", "would go on too long"),
        ("differential_indexing(1000003)", "would go on too long"),
        ("bar_plan([1 mm], [100000], 3 m, 1 mm)", "would go on too long"),
        ("round(1e30 mm ** 5, 1e-30 mm ** 5)", "too large"),
    ],
)
def test_a_long_calculation_is_refused_before_it_begins(expression: str, said: str) -> None:
    table = builtins().with_functions(from_calculations(catalogue()))
    with pytest.raises(MethodError, match=said):
        value_of(expression, functions=table)


def test_an_exception_of_another_library_is_told_as_a_problem_of_the_expression() -> None:
    def fail(arguments: object) -> Value:
        raise AttributeError("nobody foresaw this")

    table = FunctionTable({"fail": Function("fail", (), fail)})
    with pytest.raises(MethodError, match="got AttributeError: nobody foresaw this") as caught:
        value_of("1 + fail()", functions=table)
    assert (caught.value.problem.code, caught.value.problem.place.column) == ("crash", 5)


def test_a_name_is_given_once_and_a_failed_one_says_so() -> None:
    scope = Scope()
    scope.define("a", value_of("1 mm"), Place("m.md", 4, 1))
    with pytest.raises(MethodError) as caught:
        scope.define("a", value_of("2 mm"), Place("m.md", 9, 1))
    assert str(caught.value) == (
        "m.md:9:1: `a` is given twice (first on line 4); a name has one value in a method; choose another name"
    )
    scope.define("b", None, Place("m.md", 5, 1))
    with pytest.raises(MethodError) as caught:
        evaluate(parse("b + 1 mm"), scope)
    assert str(caught.value) == "expression:1:1: `b` has no value: line 5 is wrong; mend that line first"
    assert caught.value.problem.code == "follow-up"


def test_an_inner_scope_sees_the_outer_one() -> None:
    outer = Scope()
    outer.define("a", value_of("1 mm"))
    inner = outer.inner()
    inner.define("b", value_of("2 mm"))
    assert inner.names() == ("a", "b")
    assert "b" not in outer


def test_no_python_is_reached(error) -> None:
    for attack in ("__import__", "().__class__", "fit.__class__", "throw.real", "exec", "open", "fit.raw"):
        assert error(attack)
    assert error('open("/etc/passwd")').startswith("1:1: unknown function `open`")


def test_kinds_follow_the_arithmetic(scope, functions) -> None:
    def kind(expression):
        return value_of(expression, scope, functions).kind

    assert kind("turns(25 m/min, bore)") == "spindle_speed"
    assert kind("turns(25 m/min, bore) * 0.9") == "spindle_speed"
    assert kind("fit.size + 0.1 mm") == "size"
    assert kind("-fit.size") == "size"
    assert kind("turns(25 m/min, bore) * throw") == ""


def test_an_ordinary_expression_takes_a_handful_of_steps() -> None:
    scope, steps = Scope(), Budget()
    scope.define("throw", value_of("6 mm"))
    evaluate(parse("throw * 2 + 1 mm"), scope, above=steps)
    assert steps.spent == 5  # three values, two signs
