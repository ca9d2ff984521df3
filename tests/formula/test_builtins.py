import pytest


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("min(3 mm, 2 cm)", (3, "mm")), ("max([1 mm, 2 cm], 3 mm)", (2, "cm")), ("sum([1 mm, 2 mm])", (3, "mm")),
        ("mean(1, 2, 3)", (2, "1")), ("hypot(3 mm, 4 mm)", (5, "mm")), ("count([1, 2])", (2, "1")),
        ("abs(-3 mm)", (3, "mm")), ("sqrt(2 mm * 8 mm)", (4, "mm")),
        ("round(3.26 mm, 0.05 mm)", (3.25, "mm")), ("round(2.5)", (3, "1")), ("round(-2.5)", (-3, "1")),
        ("round(1 in, 1 mm)", (25, "mm")), ("ceil(0.3 / 0.1)", (3, "1")), ("ceil(3.01)", (4, "1")),
        ("floor(7.9 mm)", (7, "mm")), ("floor(17 mm, 5 mm)", (15, "mm")),
        ("sin(30 deg)", (0.5, "1")), ("cos(60 deg)", (0.5, "1")), ("tan(45 deg)", (1, "1")), ("sin(180 deg)", (0, "1")),
        ("cos(1 rad)", (0.5403023058681398, "1")), ("sin(-30 deg)", (-0.5, "1")),
        ("asin(0.5)", (30, "deg")), ("acos(0.5)", (60, "deg")), ("atan(1)", (45, "deg")),
        ("atan2(1 mm, -1 mm)", (135, "deg")), ("atan2(1 cm, 10 mm)", (45, "deg")),
        ("exp(1)", (2.718281828459045, "1")), ("ln(e)", (1, "1")), ("log10(1000)", (3, "1")),
        ("when(bore > 10 mm, 1 mm, 1 mm / 0)", (1, "mm")), ("when(bore < 10 mm, 1 / 0, 2)", (2, "1")),
    ],
)  # fmt: skip
def test_values(value, expression, expected) -> None:
    found = value(expression)
    assert found.magnitude == pytest.approx(expected[0], rel=1e-12, abs=1e-15)
    assert found.unit == expected[1]


@pytest.mark.parametrize(
    ("expression", "message"),
    [
        ("sin(2)", "1:1: the argument of `sin` is an angle (got 2, a bare number); a quantity carries its unit; "
         "write 2 deg"),
        ("tan(90 deg)", "1:1: the tangent of 90 deg has no value"),
        ("asin(1.2)", "1:1: `asin` has no value here (got 1.2); its argument lies from -1 to 1; check the formula"),
        ("atan(3 mm)", "1:1: the argument of `atan` is a bare number (got 3 mm, a length); "
         "divide it by a quantity of its own sort"),
        ("sqrt(-4)", "1:1: the root of a negative number (got -4); check the signs"),
        ("ln(0)", "1:1: `ln` has no value here (got 0); its argument is larger than nothing"),
        ("exp(1000)", "1:1: the result is too large; check what goes in"),
        ("min()", "1:1: `min` has nothing to work with; it is written min(a, b, …); write at least one value"),
        ("max([])", "1:1: `max` has nothing to work with"),
        ("min(1, x=2)", "1:1: `min` has no named arguments; it is written min(a, b, …); write the values alone"),
        ("min(1 mm, 2 N)", "1:1: these cannot be compared (got 2 N and 1 mm)"),
        ("abs(1, 2)", "1:1: `abs` takes at most 1 value (got 2); it is written abs(x); take one away"),
        ("abs()", "1:1: `abs` lacks `x`; it is written abs(x); add `x=…`"),
        ("abs(y=1)", "1:1: `abs` has no argument `y`; it is written abs(x); known: `x`"),
        ("abs(1, x=2)", "1:1: `x` is given twice to `abs`; it is written abs(x); take one away"),
        ("round(1, 0)", "1:1: a step is larger than nothing (got 0)"),
        ("round(1 mm, 1)", "1:1: the value to round is a bare number (got 1 mm, a length)"),
        ("when(3, 1, 2)", "1:1: a condition is due (got 3)"),
        ("atan2(0, 0)", "1:1: `atan2` of two noughts has no value"),
    ],
)  # fmt: skip
def test_messages(error, expression, message) -> None:
    assert error(expression).startswith(message)


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("solve(d, turns(25 m/min, d) == 663 1/min, low=1 mm, high=40 mm)", (12.002635214774, "mm")),
        ("solve(x, x * x == 4, 0, 3)", (2, "1")),
        ("solve(x, x == 3 mm, 3 mm, 9 mm)", (3, "mm")),
        ("solve(x, x == 9 mm, 3 mm, 9 mm)", (9, "mm")),
        ("solve(a, sin(a) == 0.5, 0 deg, 90 deg)", (30, "deg")),
        ("solve(x, sqrt(x) == 2, -5, 30)", (4, "1")),
        ("solve(x, exp(x) == 20, -20, 20)", (2.995732273553991, "1")),
    ],
)
def test_solve(value, expression, expected) -> None:
    found = value(expression)
    assert found.magnitude == pytest.approx(expected[0], rel=1e-9)
    assert found.unit == expected[1]


@pytest.mark.parametrize(
    ("expression", "message"),
    [
        ("solve(x, x * x == 4, -3, 3)", "1:1: more than one value of `x` fits (got -2 and 2); "
         "the bounds hold one of them; narrow the bounds"),
        ("solve(x, x * x == 40, 0, 3)", "1:1: no value of `x` fits between 0 and 3; "
         "the two sides come nearest at 3; widen the bounds or check the equation"),
        ("solve(x, 1 / (x - 1.01) == 0, 0, 3)", "1:1: the two sides jump past each other near 0.9375"),
        ("solve(throw, throw == 1 mm, 0 mm, 3 mm)", "1:7: the unknown of `solve` is a name that has no value yet"),
        ("solve(x, bore == 1 mm, 0 mm, 3 mm)", "1:15: the second part of `solve` is not an equation for `x`"),
        ("solve(x, x > 1, 0, 3)", "1:12: the second part of `solve` is not an equation for `x`"),
        ("solve(x, x == 1, 3, 0)", "1:1: the bounds of `solve` are empty (got 3 to 0); "
         "`low` is less than `high`; exchange them"),
        ("solve(x, x == 1 mm, 0, 3)", "1:12: a length cannot be subtracted from a bare number"),
        ("solve(x, sqrt(x) == 1, -3, -1)", "1:10: the root of a negative number"),
    ],
)  # fmt: skip
def test_solve_says_when_there_is_no_answer(error, expression, message) -> None:
    assert error(expression).startswith(message)
