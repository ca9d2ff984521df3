import pytest
from tests.formula.worth import value_of

from methodsheets.formula.builtins import builtins
from methodsheets.formula.calculations import from_calculations
from methodsheets.formula.evaluate import evaluate
from methodsheets.formula.functions import FunctionTable
from methodsheets.formula.syntax import parse
from methodsheets.trade.form.calculation import catalogue


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("turns(25 m/min, 12 mm)", (663.1455962162306, "1/min")),
        ("turns(25 m/min, diameter=1.2 cm)", (663.1455962162306, "1/min")),
        ("turns(82.02099737532808 ft/min, 12 mm)", (663.1455962162306, "1/min")),
        ("seat(bore).hole.upper", (16.018, "mm")),
        ("grip(fit, 10 mm)", (320, "N")),
        ("total([1 mm, 1 cm])", (11, "mm")),
        ("total(3 mm)", (3, "mm")),
    ],
)
def test_quantities_go_in_and_come_out(value, expression, expected) -> None:
    found = value(expression)
    assert found.magnitude == pytest.approx(expected[0], rel=1e-9)
    assert found.unit == expected[1]


def test_results_of_all_sorts(scope, functions) -> None:
    fields = value_of("fit", scope, functions).record.fields
    assert fields["name"].data == "H7/s6"
    assert fields["loose"].data is False
    assert [item.words() for item in fields["steps"].items] == ["1 mm", "2 mm"]
    assert fields["hole"].record.type == "Side"
    assert fields["hole"].record.fields["upper"].kind == "size"


@pytest.mark.parametrize(
    ("expression", "message"),
    [
        ("turns(25, bore)", "1:7: `speed` is a speed (got 25, a bare number); a quantity carries its unit; "
         "write 25 m/min"),
        ("turns(25 m/min, diameter=12)", "1:26: `diameter` is a length (got 12, a bare number); "
         "a quantity carries its unit; write 12 mm"),
        ("turns(25 m/min, 12 N)", "1:17: `diameter` is a length (got 12 N, a force); give it in mm"),
        ("turns(25 m/min)", "1:1: `turns` lacks `diameter`; it is written turns(speed, diameter); "
         "add `diameter=… mm`: of the work"),
        ("turns(-3 m/min, bore)", "1:7: `speed` of `turns` is out of range (got -3 m/min); the range is v > 0 [m/min]"),
        ('seat(bore, "H77")', "1:1: no fit called `H77` (asked by `seat`); did you mean H7?"),
        ("seat(bore, 3)", "1:12: words are due (got 3); words stand in double quotes; write for instance \"H7\""),
        ("grip(throw, 3 mm)", "1:6: `seat` is the result of a calculation of the sort Seat (got 6 mm); a fit"),
        ("grip(fit.hole, 3 mm)", "1:10: `seat` is the result of a calculation of the sort Seat (got Side); a fit"),
        ("turns(25 m/min, [1 mm])", "1:17: `diameter` is a single value (got a list); take one of the list"),
        ("turns(25 m/min, 0 mm)", "1:1: `turns` divides by zero for these values; check what goes in"),
        ('turns("x", bore)', '1:7: `speed` is a speed (got "x"); write a number in m/min'),
        ("turns(tilt, bore)", "1:7: `speed` is a speed (got 30 deg, an angle); give it in m/min"),
    ],
)  # fmt: skip
def test_messages(error, expression, message) -> None:
    assert error(expression) == message


def test_calls_are_taken_up_for_the_working(scope, functions) -> None:
    calls = []
    evaluate(parse("grip(seat(bore), 3 mm) + grip(fit, 1 mm)"), scope, functions, calls=calls)
    assert [call.function.name for call in calls] == ["seat", "grip", "grip"]
    assert calls[1].arguments["length"].words() == "3 mm"


def test_a_name_cannot_be_taken_twice() -> None:
    table = builtins()
    with pytest.raises(ValueError, match="two functions are called sqrt"):
        table.with_functions({"sqrt": table.find("sqrt")})


def test_every_calculation_of_the_handbook_becomes_a_function() -> None:
    handbook = catalogue()
    made = from_calculations(handbook)
    table: FunctionTable = builtins().with_functions(made)
    assert set(made) == set(handbook)
    speed = value_of("spindle_speed(25 m/min, 12 mm)", None, table)
    assert speed.to("1/min") == pytest.approx(663, abs=0.5)  # Worked example of the calculation's own docstring.
