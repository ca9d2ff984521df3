"""What does each way cost for one part and for the batch: its stock, its time, and both together?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from methodsheets.sheet.model import Method

from .break_even import CLOSE, quickest, time_line
from .lines import NOT_KNOWN, NOTHING, differ, number_of, numbers
from .model import ComparisonRow, TimeLine
from .shop_cards import WorkshopCard

COST = "Cost"
IN_ALL = "Cost in all"
"""The groups of lines about stock and time each, and about both together."""


def cost_lines(
    methods: Sequence[Method], workshop: WorkshopCard, batch: int, lines: Sequence[TimeLine]
) -> Iterator[ComparisonRow]:
    """Stock, time at the workshop's rate, and both together: for one part and for the batch."""
    currency = workshop.currency
    stock = [number_of(method.totals.price) if method.totals else None for method in methods]
    if any(price is not None for price in stock):
        yield numbers(COST, "Cost of the stock", stock, "money", currency=currency, note="as the method reckons it")
    if not workshop.hour and not workshop.machine_hours:
        return
    note = "; ".join(f"{where}at {money:g} {currency} an hour".replace("  ", " ") for where, money in _rates(workshop))
    for parts in dict.fromkeys((1, batch)):
        label = f"Cost of the time, {_count(parts)}"
        row = numbers(
            COST, label, _of_time(methods, workshop, parts), "money", currency=currency, note=note, close=CLOSE
        )
        yield row if workshop.machine_hours else replace(row, better=quickest(lines, parts))
    for parts in dict.fromkeys((1, batch)):
        yield _in_all(methods, _of_time(methods, workshop, parts), stock, parts, currency)


def _rates(workshop: WorkshopCard) -> Iterator[tuple[str, float]]:
    """('' or 'lathe ', money for an hour): what every machine costs, and those that differ."""
    if workshop.hour:
        yield "", workshop.hour
    yield from ((f"{key} ", money) for key, money in workshop.machine_hours)


def _count(parts: int) -> str:
    return "one part" if parts == 1 else f"{parts} parts"


def _of_time(methods: Sequence[Method], workshop: WorkshopCard, parts: int) -> list[float | None]:
    """What the time of so many parts costs each way: by the hour, and at the machines that differ by theirs."""
    own = dict(workshop.machine_hours)
    found: list[float | None] = []
    for method in methods:
        rows = method.totals.machine_minutes if method.totals else ()
        differ_by = sum((own[key] - workshop.hour) * (once + parts * each) for key, once, each in rows if key in own)
        found.append((workshop.hour * time_line(method).minutes(parts) + differ_by) / 60)
    return found


def _in_all(
    methods: Sequence[Method], time: Sequence[float | None], stock: Sequence[float | None], parts: int, currency: str
) -> ComparisonRow:
    """Stock and time together; `not known` beside others that have one where a stock has no price."""
    label, note, both = f"Cost in all, {_count(parts)}", "the time alone: no stock has a price here", [*time]
    if any(price is not None for price in stock):
        note = "stock and time"
        both = [
            None if price is None or spent is None else spent + price * parts / method.makes
            for spent, price, method in zip(time, stock, methods, strict=True)
        ]
    row = numbers(IN_ALL, label, both, "money", currency=currency, close=CLOSE, note=note)
    cells = tuple(NOT_KNOWN if cell is NOTHING else cell for cell in row.values)
    return replace(row, values=cells, differs=differ(cells))
