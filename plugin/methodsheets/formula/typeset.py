"""How is an expression set on a page: as MathML that needs no script, and as one line of plain text?"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from html import escape
from typing import TypeAlias

from methodsheets.formula.figures import MINUS, NARROW, figures, printed_unit, with_unit
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
)
from methodsheets.formula.values import Point, Record, Value

LOGIC, COMPARISON, SUM, PRODUCT, FRACTION, POWER, ATOM = range(1, 8)
"""How tightly a piece holds together; brackets go round a piece that holds less than its neighbour asks."""

NAMESPACE = "http://www.w3.org/1998/Math/MathML"
GREEK = {
    "alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "epsilon": "ε", "zeta": "ζ", "eta": "η", "theta": "θ",
    "iota": "ι", "kappa": "κ", "lambda": "λ", "lam": "λ", "mu": "µ", "nu": "ν", "xi": "ξ", "pi": "π", "rho": "ρ",
    "sigma": "σ", "tau": "τ", "phi": "φ", "chi": "χ", "psi": "ψ", "omega": "ω", "Delta": "Δ", "Gamma": "Γ",
    "Theta": "Θ", "Phi": "Φ", "Psi": "Ψ", "Omega": "Ω", "Sigma": "Σ", "Pi": "Π",
}  # fmt: skip
SIGNS = {"<": "<", "<=": "≤", ">": ">", ">=": "≥", "==": "=", "!=": "≠", "+": "+", "-": MINUS, "and": "and", "or": "or"}
DUST = 1e-12
INVISIBLE_TIMES = "<mo>&#x2062;</mo>"
APPLY = "<mo>&#x2061;</mo>"


@dataclass(frozen=True, slots=True)
class Piece:
    """Part of a set expression."""

    math: str
    plain: str
    math_strength: int = ATOM
    strength: int = ATOM
    """Of the plain text, where a fraction is a line `a / b`."""
    tight: bool = False
    """A single symbol: two of them side by side are a product without a dot."""


Leaf: TypeAlias = Callable[[Node], "Piece | None"]


def typeset(node: Node, leaf: Leaf | None = None) -> Piece:
    """The expression as a piece; `leaf` may put something else in the place of a name, a field or a number."""
    put_in = leaf(node) if leaf else None
    if put_in is not None:
        return put_in
    match node:
        case Number():
            return _literal(node)
        case Name():
            return symbol(node.name)
        case Binary():
            return _chain(node, leaf)
        case Call():
            return _call(node, leaf)
        case Field():
            return _field(node, leaf)
        case Words():
            return words(node.value)
        case Flag():
            return Piece(f"<mtext>{str(node.value).lower()}</mtext>", str(node.value).lower())
    return _rarer(node, leaf)


def _rarer(node: Node, leaf: Leaf | None) -> Piece:
    match node:
        case Unary():
            inner = _bracketed(typeset(node.operand, leaf), PRODUCT)
            if node.op == "not":
                return Piece(f"<mtext>not&#xa0;</mtext>{inner.math}", f"not {inner.plain}", LOGIC, LOGIC)
            sign = MINUS if node.op == "-" else "+"
            return Piece(f"<mrow><mo>{sign}</mo>{inner.math}</mrow>", f"{sign}{inner.plain}", SUM, SUM)
        case Compare():
            return _joined([typeset(operand, leaf) for operand in node.operands], node.ops, COMPARISON)
        case Logic():
            pieces = [typeset(operand, leaf) for operand in node.operands]
            return _joined(pieces, (node.op,) * (len(pieces) - 1), LOGIC)
        case Items():
            return listed([typeset(item, leaf) for item in node.items], "()" if node.is_point else "[]")
        case Convert():
            return typeset(node.operand, leaf)
    raise AssertionError(f"no such node: {node!r}")


def math(piece: Piece | Sequence[Piece]) -> str:
    """The finished `<math>` element; several pieces stand one under the other."""
    pieces = [piece] if isinstance(piece, Piece) else list(piece)
    if not pieces:
        return ""
    plain = escape("; ".join(part.plain for part in pieces), quote=True)
    if len(pieces) == 1:
        body = f"<mrow>{pieces[0].math}</mrow>"
    else:
        rows = "".join(f"<mtr><mtd><mrow>{part.math}</mrow></mtd></mtr>" for part in pieces)
        body = f'<mtable displaystyle="true">{rows}</mtable>'
    return f'<math xmlns="{NAMESPACE}" displaystyle="true" alttext="{plain}">{body}</math>'


def equation(left: Piece | None, right: Piece) -> Piece:
    """`left = right`; without a left side, `= right`."""
    if left is None:
        return Piece(f"<mo>=</mo>{right.math}", f"= {right.plain}", COMPARISON, COMPARISON)
    return Piece(f"{left.math}<mo>=</mo>{right.math}", f"{left.plain} = {right.plain}", COMPARISON, COMPARISON)


def symbol(name: str) -> Piece:
    """A name as a symbol: `v_c` gets an index, Greek names become Greek letters, `hub_length` stays in words."""
    base, _, index = name.partition("_")
    letter = GREEK.get(base, base)
    if letter == "Δ" and index:
        inner = symbol(index)
        return Piece(f"<mrow><mi>Δ</mi>{inner.math}</mrow>", f"Δ{inner.plain}", tight=True)
    if len(letter) == 2 and letter.isalpha() and index:
        return _indexed(letter, index, tight=False)
    if len(letter) > 1 and not (len(letter) <= 3 and letter[1:].isdigit()):
        shown = escape(name.replace("_", "\u00a0"))
        return Piece(f"<mi>{shown}</mi>", name.replace("_", " "))
    if not index and letter[1:]:
        letter, index = letter[0], letter[1:]
    if not index:
        return Piece(f"<mi>{escape(letter)}</mi>", letter, tight=True)
    return _indexed(letter, index, tight=True)


def _indexed(letter: str, index: str, *, tight: bool) -> Piece:
    shown = ",".join(GREEK.get(part, part) for part in index.split("_") if part)
    return Piece(
        f"<msub><mi>{escape(letter)}</mi><mtext>{escape(shown)}</mtext></msub>", f"{letter}_{shown}", tight=tight
    )


def words(text: str) -> Piece:
    """Words in quotation marks."""
    return Piece(f"<mtext>“{escape(text)}”</mtext>", f'"{text}"')


def quantity(number: str, unit: str) -> Piece:
    """A number, already in figures, with its unit word."""
    printed = printed_unit(unit)
    plain = with_unit(number, unit).replace(NARROW, " ")
    strength = SUM if number.startswith(MINUS) else FRACTION if printed or "×" in number else ATOM
    if not printed:
        return Piece(f"<mn>{escape(number)}</mn>", plain, strength, strength)
    gap = "" if printed == "°" else '<mspace width="0.2em"/>'
    return Piece(
        f"<mrow><mn>{escape(number)}</mn>{gap}<mtext>{escape(printed)}</mtext></mrow>", plain, strength, strength
    )


def value_piece(value: Value, figures_shown: int = 6) -> Piece:
    """A value as it is put into a formula: a quantity in its own unit, words, a list, the name of a result."""
    if value.is_quantity:
        number = value.magnitude if abs(value.magnitude) >= DUST else 0.0
        return quantity(figures(number, figures_shown), value.unit)
    if isinstance(value.data, bool):
        return Piece(f"<mtext>{str(value.data).lower()}</mtext>", str(value.data).lower())
    if isinstance(value.data, str):
        return words(value.data)
    if isinstance(value.data, Record):
        name = value.data.fields.get("name")
        return words(name.data) if name is not None and isinstance(name.data, str) else spoken(value.data.type)
    shown = [value_piece(item, figures_shown) for item in value.items[:12]]
    return listed(shown, "()" if isinstance(value.data, Point) else "[]")


def listed(pieces: Sequence[Piece], brackets: str) -> Piece:
    """Pieces between brackets with commas."""
    inside = "<mo>,</mo>".join(piece.math for piece in pieces)
    plain = ", ".join(piece.plain for piece in pieces)
    opening, closing = brackets[0], brackets[1]
    return Piece(f"<mrow><mo>{opening}</mo>{inside}<mo>{closing}</mo></mrow>", f"{opening}{plain}{closing}")


def spoken(name: str) -> Piece:
    """Words that are no symbol."""
    return Piece(f"<mtext>{escape(name)}</mtext>", name)


def _literal(node: Number) -> Piece:
    """A number as the author wrote it, its unit set as a unit."""
    found = re.match(r"(?:\d+ +)?\d+/\d+|[\d.]+(?:[eE][-+]?\d+)?", node.written)
    number = found[0] if found else node.written
    if node.unit == "deg" and re.search(r"['′\"″]", node.written):
        return Piece(f"<mn>{escape(node.written)}</mn>", node.written)
    if re.search(r"[eE]", number):
        number = figures(node.value, 6)
    return quantity(number, node.unit or "1")


def _chain(node: Binary, leaf: Leaf | None) -> Piece:
    first, operators = left_spine(node)
    piece = typeset(first, leaf)
    for binary in operators:
        piece = _operation(binary.op, piece, typeset(binary.right, leaf))
    return piece


def _operation(op: str, left: Piece, right: Piece) -> Piece:
    if op in "+-":
        right = _bracketed(right, SUM + 1)
        sign = SIGNS[op]
        return Piece(f"{left.math}<mo>{sign}</mo>{right.math}", f"{left.plain} {sign} {right.plain}", SUM, SUM)
    if op == "*":
        return _product(_bracketed(left, PRODUCT), _bracketed(right, PRODUCT, plain_needs=PRODUCT + 1))
    if op == "/":
        top, bottom = _plain_bracketed(left, PRODUCT), _plain_bracketed(right, PRODUCT + 1)
        plain = f"{top.plain} / {bottom.plain}"
        return Piece(f"<mfrac><mrow>{left.math}</mrow><mrow>{right.math}</mrow></mfrac>", plain, FRACTION, PRODUCT)
    base = _bracketed(left, POWER)
    return Piece(
        f"<msup><mrow>{base.math}</mrow><mrow>{right.math}</mrow></msup>",
        f"{base.plain}^{_plain_bracketed(right, ATOM).plain}",
        POWER,
        POWER,
    )


def _product(left: Piece, right: Piece) -> Piece:
    if right.tight and (left.tight or re.fullmatch(r"[\d.]+", left.plain)):
        return Piece(left.math + INVISIBLE_TIMES + right.math, f"{left.plain} {right.plain}", PRODUCT, PRODUCT, True)
    return Piece(f"{left.math}<mo>·</mo>{right.math}", f"{left.plain} · {right.plain}", PRODUCT, PRODUCT)


def _bracketed(piece: Piece, needs: int, plain_needs: int = 0) -> Piece:
    """The piece with brackets where it holds together less than `needs`."""
    inner = piece.math
    strength = piece.math_strength
    if strength < needs:
        inner, strength = f"<mrow><mo>(</mo>{inner}<mo>)</mo></mrow>", ATOM
    plain = _plain_bracketed(piece, plain_needs or needs)
    return Piece(inner, plain.plain, strength, plain.strength, piece.tight and plain.plain == piece.plain)


def _plain_bracketed(piece: Piece, needs: int) -> Piece:
    if piece.strength >= needs:
        return piece
    return Piece(piece.math, f"({piece.plain})", piece.math_strength, ATOM)


def _joined(pieces: Sequence[Piece], ops: Sequence[str], strength: int) -> Piece:
    first, *rest = [_bracketed(piece, strength + 1) for piece in pieces]
    maths, plain = first.math, first.plain
    for op, piece in zip(ops, rest, strict=True):
        sign = SIGNS[op]
        maths += f"<mtext>&#xa0;{sign}&#xa0;</mtext>" if sign.isalpha() else f"<mo>{escape(sign)}</mo>"
        maths += piece.math
        plain += f" {sign} {piece.plain}"
    return Piece(maths, plain, strength, strength)


def _field(node: Field, leaf: Leaf | None) -> Piece:
    owner = typeset(node.owner, leaf)
    name = node.field.replace("_", "\u00a0")
    return Piece(f"<mrow>{owner.math}<mo>.</mo><mi>{escape(name)}</mi></mrow>", f"{owner.plain}.{node.field}")


def _call(node: Call, leaf: Leaf | None) -> Piece:
    pieces = [typeset(argument, leaf) for argument in node.arguments]
    if node.function == "sqrt" and len(pieces) == 1:
        return Piece(f"<msqrt><mrow>{pieces[0].math}</mrow></msqrt>", f"√({pieces[0].plain})")
    if node.function == "abs" and len(pieces) == 1:
        return Piece(f"<mrow><mo>|</mo>{pieces[0].math}<mo>|</mo></mrow>", f"|{pieces[0].plain}|")
    for name, argument, _ in node.keywords:
        pieces.append(equation(spoken(name.replace("_", " ")), typeset(argument, leaf)))
    return called(node.function, pieces)


def called(name: str, pieces: Sequence[Piece]) -> Piece:
    """A function with its arguments set."""
    arguments = listed(pieces, "()")
    shown = name.replace("_", " ")
    return Piece(f"<mrow><mi>{escape(shown)}</mi>{APPLY}{arguments.math}</mrow>", f"{shown}{arguments.plain}")
