import pytest

from methodsheets.formula.syntax import parse
from methodsheets.formula.tree import (
    Binary,
    Call,
    Compare,
    Convert,
    Field,
    Flag,
    Items,
    Logic,
    Name,
    Number,
    Unary,
    Words,
)
from methodsheets.reading.problem import MethodError
from methodsheets.reading.text import text


def brief(node) -> str:
    """The tree in one line, every operation in brackets."""
    match node:
        case Number():
            return f"{node.value:g}{node.unit and ' ' + node.unit}"
        case Name():
            return node.name
        case Words():
            return f'"{node.value}"'
        case Flag():
            return str(node.value)
        case Binary():
            return f"({brief(node.left)} {node.op} {brief(node.right)})"
        case Unary():
            return f"({node.op} {brief(node.operand)})"
        case Field():
            return f"{brief(node.owner)}.{node.field}"
        case Compare() | Logic():
            ops = node.ops if isinstance(node, Compare) else [node.op] * (len(node.operands) - 1)
            rest = "".join(f" {op} {brief(x)}" for op, x in zip(ops, node.operands[1:], strict=True))
            return f"({brief(node.operands[0])}{rest})"
        case Items():
            return f"{'point' if node.is_point else 'list'}[{', '.join(map(brief, node.items))}]"
        case Convert():
            return f"({brief(node.operand)} as {node.unit})"
        case Call():
            named = [f"{name}={brief(value)}" for name, value, _ in node.keywords]
            return f"{node.function}({', '.join([*map(brief, node.arguments), *named])})"
    raise AssertionError(node)


@pytest.mark.parametrize(
    ("expression", "tree"),
    [
        # Numbers and units
        ("0.5", "0.5"), (".5 mm", "0.5 mm"), ("5.", "5"), ("1e-3 m", "0.001 m"), ("12mm", "12 mm"),
        ("3/8 in", "0.375 inch"), ('3/8"', "0.375 inch"), ("1 1/4 in", "1.25 inch"), ("1/2 h", "0.5 h"),
        ("3/8", "(3 / 8)"), ("3 / 8 mm", "(3 / 8 mm)"), ("5 %", "5 %"), ("5%", "5 %"), ("15 thou", "15 thou"),
        ("12 deg 30'", "12.5 deg"), ("12°30'", "12.5 deg"), ("12° 30' 36\"", "12.51 deg"), ("12°30′36″", "12.51 deg"),
        ("-12°30'", "(- 12.5 deg)"), ("12.5°", "12.5 deg"), ("30'", None), ("20 °C", "20 °C"),
        ("25 m/min", "25 m/min"), ("620 1/min", "620 1/min"), ("1000 /min", "1000 1/min"), ("1000/min", "1000 1/min"),
        ("12 N/mm^2", "12 N/mm^2"), ("12 N*m", "12 N*m"), ("2 mm²", "2 mm²"), ("16 W/(m*K)", "16 W/(m*K)"),
        ("12 mm*2", "(12 mm * 2)"), ("12 mm/throw", "(12 mm / throw)"), ("12 mm / m", "(12 mm / m)"),
        ("1/min(3, 4)", "(1 / min(3, 4))"), ("2 * 3/8 in", "(2 * 0.375 inch)"), ("40 tpi", "40 tpi"),
        # Order
        ("1 + 2 * 3", "(1 + (2 * 3))"), ("1 - 2 - 3", "((1 - 2) - 3)"), ("8 / 2 / 2", "((8 / 2) / 2)"),
        ("2 ** 3 ** 2", "(2 ** (3 ** 2))"), ("2^3", "(2 ** 3)"), ("-2 ** 2", "(- (2 ** 2))"),
        ("2 ** -1", "(2 ** (- 1))"),
        ("-a * b", "((- a) * b)"), ("a · b × c ÷ d − e", "((((a * b) * c) / d) - e)"),
        ("a + 1 < b * 2", "((a + 1) < (b * 2))"), ("1 mm < a <= 3 mm", "(1 mm < a <= 3 mm)"), ("a ≤ b", "(a <= b)"),
        ("not a < b", "(not (a < b))"), ("a and b or c and d", "((a and b) or (c and d))"),
        ("pi * d * n as m/min", "(((pi * d) * n) as m/min)"), ("n as 1/min", "(n as 1/min)"),
        ("a as mm < b", "((a as mm) < b)"),
        # Names, calls, lists
        ("press.torque_min", "press.torque_min"), ("seat.hole.upper", "seat.hole.upper"), ("größe", "größe"),
        ('fit(bore, "H7/s6")', 'fit(bore, "H7/s6")'), ("f(a, length=2 mm)", "f(a, length=2 mm)"), ("f(a,)", "f(a)"),
        ("f(a == b)", "f((a == b))"), ("f(x).y", "f(x).y"), ("[a, b]", "list[a, b]"), ("[]", "list[]"),
        ("(1 mm, 2 mm)", "point[1 mm, 2 mm]"), ("(a)", "a"), ("true", "True"), ("f(\n  a,\n  b)", "f(a, b)"),
    ],
)  # fmt: skip
def test_trees(expression: str, tree: str | None) -> None:
    if tree is None:
        with pytest.raises(MethodError):
            parse(expression)
    else:
        assert brief(parse(expression)) == tree


@pytest.mark.parametrize(
    ("expression", "message"),
    [
        ("", "1:1: an expression is missing; write a value"),
        ("1 +", "1:4: the expression ends too early; write the value that is missing"),
        ("2 * (3 + 4", "1:5: the bracket `(` is not closed; write `)`"),
        ("f(a", "1:2: the bracket `(` is not closed; write `)`"),
        ("a)", "1:2: unexpected `)`; take it out or open it"),
        ("a b", "1:3: unexpected `b`; a unit follows a number; a product is written with `*`; "
         "write an operator between two values"),
        ("12 bore", "1:4: unknown unit `bore`; a unit follows a number; a product is written with `*`; "),
        ("12 mn", "1:4: unknown unit `mn`; a unit follows a number; a product is written with `*`; "
         "did you mean `min`?"),
        ("12mn", "1:3: unknown unit `mn` (got 12mn); a unit follows a number; a product is written with `*`; "
         "did you mean `min`?"),
        ("0,5 mm", "1:2: unexpected `,`; a comma separates the arguments of a call; "
         "write decimals with a point: 0.5 mm"),
        ("1 2", "1:3: two numbers side by side (got 1 2); "
         "write a sign between them; decimals are written with a point"),
        ("1 1/4", "1:1: two numbers side by side (got 1 1/4); a mixed number needs a unit; "
         "write `1 1/4 in`, or a sign between"),
        ("3/0 in", "1:1: division by zero (got 3/0); correct the fraction"),
        ("a = 3", "1:3: unexpected `=`; one `=` names an argument of a call; to compare, write `==`"),
        ('"H7', "1:1: a quotation mark is not closed; write the second `\"`"),
        ("'H7'", "1:1: unexpected sign `'`; put words in double quotes, e.g. \"H7/s6\"; minutes follow degrees"),
        ('"a\x01b"', "1:3: a sign that cannot be printed (got U+0001); words in quotation marks are plain text; "
         "delete it"),
        ("Ø38", "1:1: unexpected sign `Ø`; leave it out: a diameter is written as its size"),
        ("a; b", "1:2: unexpected sign `;`; a comma separates clauses, and each calculation has a line "
         "of its own"),
        ("“H7/s6”", "1:1: unexpected sign `“`; write straight double quotes, e.g. \"H7/s6\""),
        ("a.5", "1:2: unexpected `.5`; write an operator between two values"),
        ("a. ", "1:2: a point without the name of a field; a field is `press.force_max`; "),
        ("f(a=1, a=2)", "1:8: `a` is given twice to `f`; take one away"),
        ("f(a=1, 2)", "1:8: an argument without a name follows named ones in `f`; name it, or put it in front"),
        ("()", "1:1: empty brackets; write a value inside"),
        ("(1, 2, 3, 4)", "1:1: a point with 4 coordinates; a point is (x, y) or (x, y, z); "
         "put lists in square brackets"),
        ("12 deg 75'", "1:8: too many minutes of arc (got 75); minutes run from 0 to 59; carry them over"),
        ("a as b", "1:6: `as` needs a unit; write for instance `as m/min`"),
        ("and", "1:1: unexpected `and`; it stands between two values; write a value in front of it"),
        # Bounds
        ("(" * 41 + "1" + ")" * 41, "1:41: the expression is nested too deep (got more than 40 levels); "
         "give parts of it names of their own"),
        ("-" * 60 + "1", "1:41: the expression is nested too deep (got more than 40 levels); "
         "give parts of it names of their own"),
        ("1" * 31, "1:1: the number has too many digits (got 31); a number has at most 30; round it"),
        ("1e31", "1:1: the number is out of reach (got 1e31); its exponent is at most 30; choose another unit"),
        ('"' + "x" * 201 + '"', "1:1: the words are too long (got 201 characters); "
         "words in quotation marks have at most 200; shorten them"),
        ("a" * 61, "1:1: the name is too long (got 61 characters); a name has at most 60; shorten it"),
        ("1 + " * 501, "1:1: the expression is too long (got 2,004 characters); an expression has at most 2,000; "
         "give parts of it names of their own"),
        ("[" + "1," * 201 + "]", "1:1: too many values (got more than 200); split the list"),
        ("a" + ".b" * 9, "1:18: too many fields of fields; at most 8"),
    ],
)  # fmt: skip
def test_messages(expression: str, message: str) -> None:
    with pytest.raises(MethodError) as caught:
        parse(expression)
    assert str(caught.value).removeprefix("expression:").startswith(message)


def test_errors_stand_at_their_place_in_the_file() -> None:
    with pytest.raises(MethodError) as caught:
        parse(text("throw * ( 2", "methods/bush.md", 14, 9))
    assert str(caught.value.problem.place) == "methods/bush.md:14:17"


def test_places_in_a_line_that_goes_on() -> None:
    node = parse(text("f(a,\n    b)", "m.md", 3, 5))
    assert [str(argument.place) for argument in node.arguments] == ["m.md:3:7", "m.md:4:5"]


def test_blanks_that_came_with_copied_text_are_blanks() -> None:
    assert parse("3\u00a0mm +\u202f2\u2009mm") == parse("3 mm + 2 mm")
