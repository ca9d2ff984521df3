"""What is an expression worth? Walks the tree; a fixed list of functions, bounded by counted steps, no program."""

from __future__ import annotations

from dataclasses import dataclass

from methodsheets.formula.arithmetic import combine, compare, convert, negate
from methodsheets.formula.budget import DEEPEST_LIST, LINES_IN_A_STEP, MOST_LEAVES, Budget
from methodsheets.formula.builtins import builtins
from methodsheets.formula.errors import FormulaError
from methodsheets.formula.functions import Called, Function, FunctionTable
from methodsheets.formula.scope import Scope
from methodsheets.formula.solve import find_root
from methodsheets.formula.sorts import agree
from methodsheets.formula.strangers import as_formula_error
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
    left_spine,
    names_in,
)
from methodsheets.formula.units import REGISTRY, dimension_words, is_unit_word, parse_unit, spell
from methodsheets.formula.values import Point, Value, field_of, to_unit
from methodsheets.reading.problem import MethodError, Place


def evaluate(
    node: Node,
    scope: Scope | None = None,
    functions: FunctionTable | None = None,
    *,
    calls: list[Called] | None = None,
    above: Budget | None = None,
) -> Value:
    """The value of an expression.

    scope: names and their values. functions: what may be called, the built-in mathematics where nothing is said.
    calls: a list that takes up every call of a calculation that was made, for the working.
    above: the steps that are left to the method that the expression stands in.
    Raises MethodError, with the place, for everything that is wrong with the expression or its values, for anything
    that goes wrong while it is worked out, and when its steps are used up.
    """
    walk = _Walk(functions or builtins(), calls if calls is not None else [], Budget(above=above))
    return walk.value(node, scope or Scope())


@dataclass
class _Walk:
    functions: FunctionTable
    calls: list[Called]
    budget: Budget

    def value(self, node: Node, scope: Scope) -> Value:
        """The value of a node; errors get the place of the innermost node that fails."""
        if isinstance(node, Binary):
            return self.chain(node, scope)
        try:
            self.budget.spend()
            return self.other(node, scope)
        except MethodError:
            raise
        except Exception as error:
            raise placed(error, node.place) from error

    def other(self, node: Node, scope: Scope) -> Value:
        match node:
            case Number():
                return self.number(node, scope)
            case Name():
                return self.name(node, scope)
            case Call():
                return self.call(node, scope)
            case Field():
                return field_of(self.value(node.owner, scope), node.field, written(node.owner))
            case Unary():
                return self.unary(node, scope)
            case Words():
                return Value(node.value)
            case Flag():
                return Value(node.value)
            case Compare():
                return self.comparison(node, scope)
            case Logic():
                return self.logic(node, scope)
            case Items():
                return self.items(node, scope)
            case Convert():
                return convert(self.value(node.operand, scope), node.unit)
        raise AssertionError(f"no such node: {node!r}")

    def number(self, node: Number, scope: Scope) -> Value:
        for word in node.words:
            if word in scope:
                raise MethodError(
                    node.place,
                    f"`{word}` in `{node.written}` is a unit, but also a name of this method",
                    "",
                    "put blanks round `/` and `*` to calculate with the name, or rename it",
                    code="ambiguous-unit",
                )
        return Value(REGISTRY.Quantity(node.value, parse_unit(node.unit)))

    def name(self, node: Name, scope: Scope) -> Value:
        if node.name not in scope:
            constant = self.functions.constants.get(node.name)
            if constant is not None:
                return constant
            if node.name in self.functions.functions:
                raise FormulaError(
                    f"`{node.name}` is a function",
                    "",
                    f"write {_signature(self.functions, node.name)}",
                    code="unknown-name",
                )
            if is_unit_word(node.name):
                raise FormulaError(
                    f"`{node.name}` is a unit without a number",
                    "a unit follows a number",
                    f"write `1 {node.name}`",
                    code="unknown-name",
                )
        return scope.value(node.name)

    def chain(self, node: Binary, scope: Scope) -> Value:
        """Long sums and products from left to right without deep recursion."""
        first, operators = left_spine(node)
        value = self.value(first, scope)
        for binary in operators:
            right = self.value(binary.right, scope)
            try:
                self.budget.spend(max(len(value.items), len(right.items)))
                value = combine(binary.op, value, right)
            except Exception as error:
                raise placed(error, binary.place) from error
        return value

    def unary(self, node: Unary, scope: Scope) -> Value:
        value = self.value(node.operand, scope)
        if node.op == "not":
            return Value(not value.flag)
        if node.op == "+":
            negate(value)
            return value
        return negate(value)

    def comparison(self, node: Compare, scope: Scope) -> Value:
        left = self.value(node.operands[0], scope)
        for op, operand in zip(node.ops, node.operands[1:], strict=True):
            right = self.value(operand, scope)
            if not compare(op, left, right):
                return Value(False)
            left = right
        return Value(True)

    def logic(self, node: Logic, scope: Scope) -> Value:
        for operand in node.operands:
            if self.value(operand, scope).flag is (node.op == "or"):
                return Value(node.op == "or")
        return Value(node.op == "and")

    def items(self, node: Items, scope: Scope) -> Value:
        values = tuple(self.value(item, scope) for item in node.items)
        if not node.is_point:
            self.budget.spend(_leaves(values) // 10)
            return Value(values)
        for value in values[1:]:
            first, other = values[0].quantity.units, value.quantity.units
            if not agree(first, other):
                raise FormulaError(
                    f"the coordinates of a point differ in sort (got {dimension_words(first)} and "
                    f"{dimension_words(other)})",
                    "a point is (x, y) with two lengths",
                    "",
                    code="wrong-dimension",
                )
        return Value(Point(values))

    def call(self, node: Call, scope: Scope) -> Value:
        function = self.functions.find(node.function)
        keywords = {name: value for name, value, _ in node.keywords}
        if function.lazy:
            return self.lazy(node, function.bind(node.arguments, keywords), scope)
        if function.variadic:
            arguments = self.variadic(function, node, scope)
        else:
            bound = function.bind(node.arguments, keywords)
            arguments = {name: self.value(argument, scope) for name, argument in bound.items()}
        value = self.apply(function, arguments, node)
        if function.calculation is not None:
            self.calls.append(Called(function, arguments, value))
        return value

    def apply(self, function: Function, arguments: dict[str, Value], node: Call) -> Value:
        """Call the function; an error that concerns one argument gets the place of that argument."""
        try:
            self.budget.spend(sum(len(argument.items) for argument in arguments.values()))
            self.budget.spend(function.lines(arguments) // LINES_IN_A_STEP)
            return function.call(arguments)
        except Exception as stranger:
            error = as_formula_error(stranger)
            given = dict(zip((p.name for p in function.parameters), node.arguments, strict=False))
            given |= {name: value for name, value, _ in node.keywords}
            place = given[error.argument].place if error.argument in given else node.place
            raise placed(error, place) from stranger

    def variadic(self, function: Function, node: Call, scope: Scope) -> dict[str, Value]:
        if node.keywords:
            raise FormulaError(
                f"`{function.name}` has no named arguments",
                f"it is written {function.signature}",
                "write the values alone",
                code="arguments",
            )
        values = tuple(self.value(argument, scope) for argument in node.arguments)
        if not any(value.items for value in values):
            raise FormulaError(
                f"`{function.name}` has nothing to work with",
                f"it is written {function.signature}",
                "write at least one value",
                code="arguments",
            )
        return {"values": Value(values)}

    def lazy(self, node: Call, bound: dict[str, Node], scope: Scope) -> Value:
        if node.function == "when":
            chosen = "then" if self.value(bound["condition"], scope).flag else "otherwise"
            return self.value(bound[chosen], scope)
        return self.solve(bound, scope)

    def solve(self, bound: dict[str, Node], scope: Scope) -> Value:
        """`solve(depth, mass(depth) == 3 g, low=1 mm, high=20 mm)`."""
        name, equation = _unknown_and_equation(bound, scope)
        low, high = self.value(bound["low"], scope), self.value(bound["high"], scope)
        unit = low.quantity.units
        top = to_unit(high, unit, "the bound `high`")
        if top <= low.magnitude:
            raise FormulaError(
                f"the bounds of `solve` are empty (got {low.words()} to {high.words()})",
                "`low` is less than `high`",
                "exchange them",
                code="solve",
            )
        quiet = _Walk(self.functions, [], self.budget)

        def at(x: float) -> Scope:
            inside = scope.inner()
            inside.define(name, Value(REGISTRY.Quantity(x, unit), low.kind))
            return inside

        root = find_root(lambda x: quiet.gap(equation, at(x)), low.magnitude, top, name, spell(unit))
        for operand in equation.operands:  # Once more at the answer, so that its calculations show in the working.
            self.value(operand, at(root))
        return Value(REGISTRY.Quantity(root, unit), low.kind)

    def gap(self, equation: Compare, scope: Scope) -> float:
        """How far the two sides of an equation are apart."""
        left, right = (self.value(operand, scope) for operand in equation.operands)
        try:
            return combine("-", left, right).magnitude
        except Exception as error:
            raise placed(error, equation.place) from error


def placed(error: Exception, place: Place) -> MethodError:
    """The MethodError of whatever went wrong at a place of an expression."""
    said = as_formula_error(error)
    return MethodError(place, said.what, said.rule, said.remedy, code=said.code)


def _leaves(values: tuple[Value, ...], depth: int = 1) -> int:
    """How many single values a list holds; FormulaError where they are too many, or lists within lists too deep."""
    count = 0
    for value in values:
        count += _leaves(value.items, depth + 1) if isinstance(value.data, tuple) else 1
        if count > MOST_LEAVES or depth > DEEPEST_LIST:
            raise FormulaError(
                "the list is too large",
                f"a list holds at most {MOST_LEAVES:,} values, and lists within it {DEEPEST_LIST} deep",
                "make it shorter",
                code="too-long",
            )
    return count


def _unknown_and_equation(bound: dict[str, Node], scope: Scope) -> tuple[str, Compare]:
    """The name and the equation of a `solve`; MethodError if they are none."""
    unknown, equation = bound["unknown"], bound["equation"]
    if not isinstance(unknown, Name) or unknown.name in scope:
        raise MethodError(
            unknown.place,
            "the unknown of `solve` is a name that has no value yet",
            "",
            "choose a new name and use it in the equation",
            code="solve",
        )
    if not isinstance(equation, Compare) or equation.ops != ("==",) or unknown.name not in names_in(equation):
        raise MethodError(
            equation.place,
            f"the second part of `solve` is not an equation for `{unknown.name}`",
            "two sides with `==` between them, and the unknown in one of them",
            f"write for instance `{unknown.name} * 2 == 30 mm`",
            code="solve",
        )
    return unknown.name, equation


def _signature(functions: FunctionTable, name: str) -> str:
    return f"`{functions.functions[name].signature}`"


def written(node: Node) -> str:
    """A name or a field as the author wrote it; for other nodes 'this'."""
    parts: list[str] = []
    current = node
    while isinstance(current, Field):
        parts.append(current.field)
        current = current.owner
    if isinstance(current, Name):
        parts.append(current.name)
        return ".".join(reversed(parts))
    return current.function + "(…)" if isinstance(current, Call) else "this"
