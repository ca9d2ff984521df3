"""What is one line of a docstring worth, an equation or a condition, for given numbers?"""

from __future__ import annotations

import ast
import functools
import math
import operator
from collections.abc import Callable, Mapping
from typing import Any

_FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "sqrt": math.sqrt,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "asin": math.asin,
    "acos": math.acos,
    "atan": math.atan,
    "atan2": math.atan2,
    "exp": math.exp,
    "log": math.log,
    "abs": abs,
    "min": min,
    "max": max,
    "ceil": math.ceil,
    "floor": math.floor,
    "round": round,
}
_OPERATORS: Mapping[type[ast.AST], Callable[..., float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
    ast.USub: operator.neg,
    ast.UAdd: operator.pos,
}
_COMPARISONS: Mapping[type[ast.AST], Callable[[float, float], bool]] = {
    ast.Lt: operator.lt,
    ast.LtE: operator.le,
    ast.Gt: operator.gt,
    ast.GtE: operator.ge,
}


def worth(expression: str, known: Mapping[str, float]) -> float:
    """The value of an expression.

    Raises:
        KeyError: a symbol is not known.
        SyntaxError: something stands in it that is no arithmetic.
    """
    return _value(_tree(expression), known)


def holds(condition: str, known: Mapping[str, float]) -> bool:
    """Whether a condition such as `f > 0.5 * r` holds; KeyError where a symbol is not known."""
    tree = _tree(condition)
    if not isinstance(tree, ast.Compare):
        raise SyntaxError(f"no condition: {condition}")
    sides = [_value(side, known) for side in (tree.left, *tree.comparators)]
    return all(_COMPARISONS[type(op)](left, right) for op, left, right in zip(tree.ops, sides, sides[1:], strict=False))


def names_of(expression: str) -> frozenset[str]:
    """The symbols in an expression or a condition."""
    return frozenset(node.id for node in ast.walk(_tree(expression)) if isinstance(node, ast.Name)) - _FUNCTIONS.keys()


@functools.lru_cache(maxsize=2048)
def _tree(expression: str) -> ast.expr:
    return ast.parse(expression.strip().replace("^", "**"), mode="eval").body


def _value(node: ast.expr, known: Mapping[str, float]) -> Any:
    """Work out one expression; a symbol that is not known is a KeyError."""
    match node:
        case ast.Constant(value=int() | float() as value):
            return float(value)
        case ast.Name(id=name):
            return known[name]
        case ast.BinOp(left=left, op=op, right=right):
            return _OPERATORS[type(op)](_value(left, known), _value(right, known))
        case ast.UnaryOp(op=op, operand=operand):
            return _OPERATORS[type(op)](_value(operand, known))
        case ast.Call(func=ast.Name(id=name), args=args) if name in _FUNCTIONS:
            return _FUNCTIONS[name](*(_value(argument, known) for argument in args))
    raise SyntaxError(f"an equation may not hold {ast.unparse(node)}")
