"""How does an equation line of the handbook look on a page?"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from methodsheets.formula.syntax import parse
from methodsheets.formula.tree import Node
from methodsheets.formula.typeset import Piece, equation, math, symbol, typeset
from methodsheets.reading.problem import MethodError


@dataclass(frozen=True)
class Equation:
    """One line `symbol = expression`; `symbol` is '' for a bare expression, `node` None for one that is only words."""

    symbol: str
    node: Node | None
    set: Piece


@lru_cache(maxsize=2048)
def read_equation(text: str) -> Equation:
    """Read an equation line; one that is no formula (a condition in words, say) is set as words."""
    left, sign, right = text.partition("=")
    name = left.strip()
    if not sign or right.startswith("=") or not name.isidentifier():
        name, right = "", text
    try:
        node = parse(right.strip())
    except MethodError:
        from html import escape

        return Equation("", None, Piece(f"<mtext>{escape(text)}</mtext>", text))
    piece = typeset(node)
    return Equation(name, node, equation(symbol(name), piece) if name else piece)


def equation_mathml(text: str) -> str:
    """An equation, or several on lines of their own, as MathML: `n = v / (pi * d)`."""
    return math([read_equation(line.strip()).set for line in text.splitlines() if line.strip()])
