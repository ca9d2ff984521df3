"""How is an expression built up: which parts belong together, and in which order are they worked out?

From loose to tight: `or`, `and`, `not`, comparison, `as` (another unit), `+ -`, `* /`, sign, `**`, call and field.
"""

from __future__ import annotations

from methodsheets.formula.errors import FormulaError
from methodsheets.formula.tokens import Token, Tokens, did_you_mean_unit
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
    Node,
    Number,
    Unary,
    Words,
)
from methodsheets.formula.units import parse_unit
from methodsheets.reading import limits
from methodsheets.reading.problem import MethodError, Place
from methodsheets.reading.text import Text, text

DEEPEST = limits.NESTING
MOST_ITEMS = limits.ARGUMENTS
MOST_FIELDS = limits.FIELDS

OR, AND, NOT, COMPARE, AS, SUM, PRODUCT, SIGN, POWER = range(1, 10)
COMPARISONS = ("<", "<=", ">", ">=", "==", "!=")
BINDING = {
    "or": OR,
    "and": AND,
    "as": AS,
    "+": SUM,
    "-": SUM,
    "*": PRODUCT,
    "/": PRODUCT,
    "**": POWER,
    **dict.fromkeys(COMPARISONS, COMPARE),
}


def parse(expression: Text | str) -> Node:
    """The tree of a whole expression; MethodError with the place where it cannot be read."""
    words = text(expression) if isinstance(expression, str) else expression
    parser = _Parser(words)
    node = parser.expression(0)
    if parser.token.kind != "end":
        raise parser.unexpected()
    return node


class _Parser:
    def __init__(self, expression: Text) -> None:
        self.tokens = Tokens(expression)
        self.depth = 0
        self.after_bare_number = False
        self.token = self.tokens.read(0)
        if self.token.kind == "end":
            raise MethodError(expression.place, "an expression is missing", "", "write a value", code="syntax")

    def place(self, token: Token) -> Place:
        return self.tokens.text.at(token.start)

    def advance(self) -> Token:
        token = self.token
        self.after_bare_number = token.kind == "number" and not token.unit
        self.token = self.tokens.read(token.end)
        return token

    def is_sign(self, *signs: str) -> bool:
        return self.token.kind == "sign" and self.token.value in signs

    def expect(self, sign: str, opened: Token) -> None:
        if self.is_sign(sign):
            self.advance()
            return
        if self.token.kind == "end":
            raise self.tokens.fail(opened.start, f"the bracket `{opened.value}` is not closed", "", f"write `{sign}`")
        raise self.unexpected()

    def unexpected(self) -> MethodError:
        token = self.token
        if token.kind == "end":
            return self.tokens.fail(token.start, "the expression ends too early", "", "write the value that is missing")
        shown = f'"{token.value}"' if token.kind == "words" else token.value
        rule, remedy = "", "write an operator between two values"
        if shown == "=":
            rule, remedy = "one `=` names an argument of a call", "to compare, write `==`"
        elif shown == ",":
            rule, remedy = "a comma separates the arguments of a call", "write decimals with a point: 0.5 mm"
        elif shown in (")", "]"):
            remedy = "take it out or open it"
        elif token.kind == "name" and self.after_bare_number:
            return self.tokens.fail(
                token.start,
                f"unknown unit `{shown}`",
                "a unit follows a number; a product is written with `*`",
                did_you_mean_unit(shown),
                "unknown-unit",
            )
        elif token.kind == "name":
            rule = "a unit follows a number; a product is written with `*`"
        return self.tokens.fail(token.start, f"unexpected `{shown}`", rule, remedy)

    def expression(self, binding: int) -> Node:
        self.depth += 1
        if self.depth > DEEPEST:
            raise self.tokens.fail(
                self.token.start,
                f"the expression is nested too deep (got more than {DEEPEST} levels)",
                "",
                "give parts of it names of their own",
                "too-deep",
            )
        node = self.prefix()
        while True:
            strength = self.binding()
            if strength <= binding:
                break
            node = self.infix(node, strength)
        self.depth -= 1
        return node

    def binding(self) -> int:
        if self.token.kind in ("sign", "name"):
            return BINDING.get(self.token.value, 0)
        return 0

    def infix(self, left: Node, strength: int) -> Node:
        if strength == COMPARE:
            return self.comparison(left)
        if strength in (OR, AND):
            return self.logic(left, strength)
        operator = self.advance()
        if strength == AS:
            return self.conversion(left, operator)
        right = self.expression(SIGN - 1 if strength == POWER else strength)
        return Binary(operator.value, left, right, self.place(operator))

    def comparison(self, left: Node) -> Node:
        place = self.place(self.token)
        ops: list[str] = []
        operands = [left]
        while self.token.kind == "sign" and self.token.value in COMPARISONS and len(ops) < MOST_ITEMS:
            ops.append(self.advance().value)
            operands.append(self.expression(COMPARE))
        return Compare(tuple(ops), tuple(operands), place)

    def logic(self, left: Node, strength: int) -> Node:
        place, word = self.place(self.token), self.token.value
        operands = [left]
        while self.token.kind == "name" and self.token.value == word:
            self.advance()
            operands.append(self.expression(strength))
        return Logic(word, tuple(operands), place)

    def conversion(self, left: Node, operator: Token) -> Node:
        """The unit behind `as` is read like the unit of a number."""
        line = self.tokens.line
        begin = operator.end
        while line[begin : begin + 1] == " ":
            begin += 1
        unit, end, _ = self.tokens._unit(begin)
        if not unit and line[begin : begin + 2] == "1/":
            unit, end, _ = self.tokens._unit(begin + 1)
        if not unit:
            raise self.tokens.fail(begin, "`as` needs a unit", "", "write for instance `as m/min`", "unknown-unit")
        self.token = self.tokens.read(end)
        return Convert(left, unit, self.place(operator))

    def prefix(self) -> Node:
        token = self.token
        if token.kind == "number":
            self.advance()
            return self.number(token)
        if token.kind == "words":
            self.advance()
            return Words(token.value, self.place(token))
        if token.kind == "name":
            return self.word()
        if self.is_sign("-", "+"):
            self.advance()
            return Unary(token.value, self.expression(PRODUCT), self.place(token))
        if self.is_sign("(", "["):
            return self.group()
        raise self.unexpected()

    def number(self, token: Token) -> Number:
        if token.unit:
            try:
                parse_unit(token.unit)
            except FormulaError as error:
                raise self.tokens.fail(token.start, error.what, error.rule, error.remedy, error.code) from error
        following = self.token
        if following.kind == "number" and following.start > token.end - 1:
            raise self.tokens.fail(
                following.start,
                f"two numbers side by side (got {token.value} {following.value})",
                "",
                "write a sign between them; decimals are written with a point",
                "syntax",
            )
        return Number(token.number, token.unit, token.value, self.place(token), token.unit_words)

    def word(self) -> Node:
        token = self.advance()
        if token.value in ("true", "false"):
            return Flag(token.value == "true", self.place(token))
        if token.value == "not":
            return Unary("not", self.expression(NOT), self.place(token))
        if token.value in BINDING:
            raise self.tokens.fail(
                token.start,
                f"unexpected `{token.value}`",
                "it stands between two values",
                "write a value in front of it",
            )
        if self.is_sign("("):
            return self.fields(self.call(token))
        return self.fields(Name(token.value, self.place(token)))

    def fields(self, node: Node) -> Node:
        count = 0
        while self.is_sign("."):
            dot = self.advance()
            if self.token.kind != "name":
                raise self.tokens.fail(
                    dot.start,
                    "a point without the name of a field",
                    "a field is `press.force_max`",
                    "write the field, or a zero in front of the point",
                )
            count += 1
            if count > MOST_FIELDS:
                raise self.tokens.fail(dot.start, "too many fields of fields", f"at most {MOST_FIELDS}", "", "too-deep")
            token = self.advance()
            node = Field(node, token.value, self.place(token))
        return node

    def call(self, name: Token) -> Call:
        opened = self.advance()
        arguments: list[Node] = []
        keywords: list[tuple[str, Node, Place]] = []
        while not self.is_sign(")"):
            self.argument(name, arguments, keywords)
            if len(arguments) + len(keywords) > MOST_ITEMS:
                raise self.too_many(opened)
            if not self.is_sign(","):
                break
            self.advance()
        self.expect(")", opened)
        return Call(name.value, tuple(arguments), tuple(keywords), self.place(name))

    def argument(self, name: Token, arguments: list[Node], keywords: list[tuple[str, Node, Place]]) -> None:
        token = self.token
        if token.kind == "name" and self._is_keyword(token):
            self.advance()
            self.advance()
            if any(word == token.value for word, _, _ in keywords):
                raise self.tokens.fail(
                    token.start,
                    f"`{token.value}` is given twice to `{name.value}`",
                    "",
                    "take one away",
                    "repeated-argument",
                )
            keywords.append((token.value, self.expression(0), self.place(token)))
            return
        if keywords:
            raise self.tokens.fail(
                token.start,
                f"an argument without a name follows named ones in `{name.value}`",
                "",
                "name it, or put it in front",
                "repeated-argument",
            )
        arguments.append(self.expression(0))

    def _is_keyword(self, token: Token) -> bool:
        rest = self.tokens.line[token.end :].lstrip()
        return rest[:1] == "=" and rest[:2] != "=="

    def too_many(self, opened: Token) -> MethodError:
        return self.tokens.fail(
            opened.start, f"too many values (got more than {MOST_ITEMS})", "", "split the list", "too-long"
        )

    def group(self) -> Node:
        """`(a)` is a itself, `(x, y)` a point, `[a, b]` a list."""
        opened = self.advance()
        closing = ")" if opened.value == "(" else "]"
        items: list[Node] = []
        comma = False
        while not self.is_sign(closing):
            items.append(self.expression(0))
            if len(items) > MOST_ITEMS:
                raise self.too_many(opened)
            if not self.is_sign(","):
                break
            comma = True
            self.advance()
        self.expect(closing, opened)
        if closing == "]":
            return Items(tuple(items), False, self.place(opened))
        if not items:
            raise self.tokens.fail(opened.start, "empty brackets", "", "write a value inside")
        if not comma:
            return self.fields(items[0])
        if len(items) not in (2, 3):
            raise self.tokens.fail(
                opened.start,
                f"a point with {len(items)} coordinates",
                "a point is (x, y) or (x, y, z)",
                "put lists in square brackets",
            )
        return self.fields(Items(tuple(items), True, self.place(opened)))
