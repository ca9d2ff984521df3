"""Which parts is an expression made of? The frozen tree that the parser builds and the evaluator walks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from methodsheets.reading.problem import Place


@dataclass(frozen=True, slots=True)
class Number:
    """A number with its unit, as written: 3/8 in."""

    value: float
    unit: str
    """'' for a bare number."""
    written: str
    """The author's own spelling."""
    place: Place
    words: tuple[str, ...] = ()
    """Unit words that might also be names, where the unit is a product written without blanks."""


@dataclass(frozen=True, slots=True)
class Words:
    """Words in quotation marks."""

    value: str
    place: Place


@dataclass(frozen=True, slots=True)
class Flag:
    """`true` or `false`."""

    value: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Name:
    """A name from a calc block."""

    name: str
    place: Place


@dataclass(frozen=True, slots=True)
class Field:
    """A field of a result: press.torque_min."""

    owner: Node
    field: str
    place: Place


@dataclass(frozen=True, slots=True)
class Unary:
    """`-a`, `+a`, `not a`."""

    op: str
    operand: Node
    place: Place


@dataclass(frozen=True, slots=True)
class Binary:
    """`a + b` and its like; `place` is that of the operator."""

    op: str
    left: Node
    right: Node
    place: Place


@dataclass(frozen=True, slots=True)
class Compare:
    """`a < b <= c`: the operators stand between the operands."""

    ops: tuple[str, ...]
    operands: tuple[Node, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Logic:
    """`a and b and c`, or the same with `or`."""

    op: str
    operands: tuple[Node, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Call:
    """A function with its arguments."""

    function: str
    arguments: tuple[Node, ...]
    keywords: tuple[tuple[str, Node, Place], ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Items:
    """A list `[a, b]` or a point `(x, y)`."""

    items: tuple[Node, ...]
    is_point: bool
    place: Place


@dataclass(frozen=True, slots=True)
class Convert:
    """`a as m/min`: the same quantity in another unit."""

    operand: Node
    unit: str
    place: Place


Node: TypeAlias = Number | Words | Flag | Name | Field | Unary | Binary | Compare | Logic | Call | Items | Convert


def left_spine(node: Binary) -> tuple[Node, list[Binary]]:
    """The first operand of a chain `a + b - c`, and its operators from left to right; no recursion."""
    chain = []
    current: Node = node
    while isinstance(current, Binary):
        chain.append(current)
        current = current.left
    chain.reverse()
    return current, chain


def children(node: Node) -> tuple[Node, ...]:
    """The parts directly below a node."""
    match node:
        case Binary():
            return (node.left, node.right)
        case Unary() | Convert():
            return (node.operand,)
        case Field():
            return (node.owner,)
        case Compare() | Logic():
            return node.operands
        case Call():
            return (*node.arguments, *(value for _, value, _ in node.keywords))
        case Items():
            return node.items
    return ()


def names_in(node: Node) -> Iterator[str]:
    """The names an expression uses, in no particular order, each perhaps more than once."""
    waiting: list[Node] = [node]
    while waiting:
        current = waiting.pop()
        if isinstance(current, Name):
            yield current.name
        waiting.extend(children(current))
