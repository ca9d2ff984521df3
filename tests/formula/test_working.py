import xml.etree.ElementTree as ElementTree
from dataclasses import fields

import pytest

from methodsheets.formula.equations import equation_mathml, read_equation
from methodsheets.formula.evaluate import evaluate
from methodsheets.formula.syntax import parse
from methodsheets.formula.work import Working
from methodsheets.formula.working import calculation_working, line_working
from methodsheets.sheet import model
from methodsheets.trade.form.calculation import catalogue

from .catalogue import CATALOGUE


@pytest.fixture
def working(scope, functions):
    def run(name, expression):
        calls = []
        value = evaluate(parse(expression), scope, functions, calls=calls)
        return line_working(name, "label", expression, value, scope, calls)

    return run


@pytest.mark.parametrize(
    ("name", "expression", "plain"),
    [
        ("a", "throw * 2 + 1 mm", "a = throw · 2 + 1 mm = 6 mm · 2 + 1 mm = 13 mm"),
        ("a", "6 mm", "a = 6 mm"),
        ("d", "3/8 in", "d = 3/8 in = 9.525 mm"),
        ("", "bore / 2", "bore / 2 = 16 mm / 2 = 8 mm"),
        ("a", "-(throw + 1 mm) ** 2", "a = −(throw + 1 mm)^2 = −(6 mm + 1 mm)^2 = −49 mm²"),
        ("a", "sqrt(throw ** 2)", "a = √(throw^2) = √((6 mm)^2) = 6 mm"),
        ("a", "bore - (throw - 1 mm)", "a = bore − (throw − 1 mm) = 16 mm − (6 mm − 1 mm) = 11 mm"),
        ("a", "bore / (throw / 2)", "a = bore / (throw / 2) = 16 mm / (6 mm / 2) = 5.33333"),
        ("a", "fit.size * 2", "a = fit.size · 2 = 16 mm · 2 = 32.000 mm"),
        ("wide", "throw > 1 mm", "wide = throw > 1 mm = 6 mm > 1 mm = true"),
        ("alpha", "12 deg 30'", "α = 12 deg 30' = 12.5°"),
        ("a", "abs(1 mm - throw)", "a = |1 mm − throw| = |1 mm − 6 mm| = 5 mm"),
        ("v", "pi * bore * 500 1/min as m/min",
         "v = π · bore · 500 1/min = π · 16 mm · 500 1/min = 25.1 m/min"),
        ("d", "solve(x, x * 2 == bore, 0 mm, 20 mm)",
         "d = solve(x, x · 2 = bore, 0 mm, 20 mm) = solve(x, x · 2 = 16 mm, 0 mm, 20 mm) = 8 mm"),
    ],
)  # fmt: skip
def test_lines_in_plain_text(working, name, expression, plain) -> None:
    assert working(name, expression).plain == plain


def test_a_call_shows_the_equation_the_numbers_and_where_they_come_from(working) -> None:
    made = working("n", "turns(25 m/min, bore)")
    (step,) = made.steps
    assert step.plain == "n = v / (π d) = 25 m/min / (π · 16 mm) = 497 1/min"
    assert (step.name, step.label, step.source, step.trust, step.validity) == (
        "turns", "Sentence.", "Source.", "exact", "Holds.",
    )  # fmt: skip


def test_numbers_that_do_not_give_the_result_are_not_shown() -> None:
    wrong = calculation_working(CATALOGUE["turns"], {"speed": 25.0, "diameter": 12.0}, 1000.0)
    assert wrong.plain == "n = v / (π d) = 1000 1/min"
    assert wrong.numbers == ""


def test_several_equations_become_steps() -> None:
    made = calculation_working(CATALOGUE["square"], {"width": 3.0}, 9.0)
    assert made.plain == "square(3 mm) = 9 mm²"
    assert [step.plain for step in made.steps] == ["a = w · 2 = 3 mm · 2 = 6 mm", "A = w^2 = (3 mm)^2 = 9 mm²"]


def test_equations_may_take_radians_under_a_sine() -> None:
    made = calculation_working(CATALOGUE["chord"], {"diameter": 42.0, "count": 6.0}, 21.0)
    assert made.plain == "c = D · sin(π / N) = 42 mm · sin(π / 6) = 21 mm"
    wrong = calculation_working(CATALOGUE["chord"], {"diameter": 42.0, "count": 6.0}, 20.0)
    assert wrong.plain == "c = D · sin(π / N) = 20 mm"


def test_an_equation_in_stated_units_is_worked_with_bare_numbers() -> None:
    made = calculation_working(CATALOGUE["tolerance_unit"], {"size": 8.0}, 0.908)
    assert made.plain == "i = 0.45 · D^(1 / 3) + 0.001 D = 0.45 · 8^(1 / 3) + 0.001 · 8 = 0.908 µm"


def test_a_default_of_nothing_is_not_put_in() -> None:
    made = calculation_working(CATALOGUE["ring"], {"outer": 4.0, "inner": 0.0}, 16.0)
    assert made.plain == "a = D^2 − d^2 = (4 mm)^2 − d^2 = 16 mm²"


def test_what_a_calculation_noted_stands_before_its_validity() -> None:
    made = calculation_working(CATALOGUE["warned"], {"size": 1.0}, CATALOGUE["warned"].function(1.0))
    assert made.validity == "Past the yield. Holds."


def test_a_result_of_many_fields_lists_them(functions) -> None:
    seat = CATALOGUE["seat"].function(16.0)
    made = calculation_working(CATALOGUE["grip"], {"seat": seat, "length": 10.0}, 320.0, "grip_1", "How it holds")
    assert (made.name, made.label) == ("grip_1", "How it holds")
    assert made.plain == "F = 2 p L = 2 p · 10 mm = 320 N"
    whole = calculation_working(CATALOGUE["side"], {"upper": 16.0}, CATALOGUE["side"].function(16.0))
    assert whole.plain == "side(16 mm); upper = 16.000 mm"


def maths(made: Working):
    for part in (made.formula, made.numbers, made.result):
        if part:
            yield part
    for step in made.steps:
        yield from maths(step)


@pytest.mark.parametrize(
    "expression",
    ["throw * 2 + 1 mm", "turns(25 m/min, bore)", "sqrt(throw ** 2) / -bore", 'seat(bore, "<&>")', "(1 mm, throw)"],
)
def test_mathml_is_well_formed_accessible_and_inert(working, expression) -> None:
    for part in maths(working("a_b", expression)):
        root = ElementTree.fromstring(part)
        assert root.tag == "{http://www.w3.org/1998/Math/MathML}math"
        assert root.get("alttext")
        tags = {element.tag.rpartition("}")[2] for element in root.iter()}
        assert tags <= {"math", "mrow", "mi", "mn", "mo", "mtext", "mspace", "mfrac", "msup", "msub", "msqrt", "mtable",
                        "mtr", "mtd"}  # fmt: skip


def test_equations_as_mathml() -> None:
    assert equation_mathml("n = v / (pi * d)") == (
        '<math xmlns="http://www.w3.org/1998/Math/MathML" displaystyle="true" alttext="n = v / (π d)"><mrow>'
        "<mi>n</mi><mo>=</mo><mfrac><mrow><mi>v</mi></mrow><mrow><mi>π</mi><mo>&#x2062;</mo><mi>d</mi></mrow></mfrac>"
        "</mrow></math>"
    )
    assert equation_mathml("a = 1\nb = 2").count("<mtr>") == 2
    ElementTree.fromstring(equation_mathml("a < b <= c"))


def test_the_record_of_the_page_has_the_same_fields() -> None:
    assert [f.name for f in fields(Working)] == [f.name for f in fields(model.Working)]
    made = Working("a", steps=(Working("b"),))
    assert model.Working(**{f.name: getattr(made, f.name) for f in fields(made)}).name == "a"


def test_every_equation_of_the_handbook_can_be_set() -> None:
    for name, record in catalogue().items():
        for line in record.equations:
            read = read_equation(line)
            assert read.node is not None, f"{name}: {line}"
            ElementTree.fromstring(equation_mathml(line))
