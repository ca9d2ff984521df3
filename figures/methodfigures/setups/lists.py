"""How does a small table with rules stand on a sheet: the places of holes, readings of a dial?"""

from __future__ import annotations

from methodfigures.paper import text as lettering
from methodfigures.paper.sheet import FINE, NARROW, Sheet


def _columns(rows: list[tuple[str, ...]]) -> list[float]:
    """Width that each column asks for."""
    return [max(lettering.width(r[i]) for r in rows if i < len(r)) + 4 for i in range(max(map(len, rows)))]


def list_width(rows: list[tuple[str, ...]]) -> float:
    """Width that a list asks for."""
    return sum(_columns(rows)) if rows else 0.0


def draw_list(
    sheet: Sheet,
    rows: list[tuple[str, ...]],
    low: float,
    high: float,
    top: float,
    *,
    heading: bool = True,
    step: float = 5.0,
) -> None:
    """A small table with rules, its upper edge at `top`; columns as wide as their words ask for."""
    widest = _columns(rows)
    full = min(high - low, sum(widest))
    share = [w * full / sum(widest) for w in widest]
    left = (low + high - full) / 2
    for i, row in enumerate(rows):
        x = left
        for text, w in zip(row, share, strict=False):
            sheet.text(x + w / 2, top - i * step - (step + lettering.HEIGHT) / 2, text)
            x += w
    for i in range(len(rows) + 1):
        bold = i in (0, len(rows)) or (i == 1 and heading)
        sheet.lines([[(left, top - i * step), (left + full, top - i * step)]], NARROW if bold else FINE, 2.0)
