"""Along a parameter of a calculation: from its own example, what comes out at several places?"""

from __future__ import annotations

import csv
import functools
import itertools
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from methodsheets.trade.form.calculation import Calculation, Parameter, catalogue

from .examples import examples

ALL = catalogue()
FILE = Path(__file__).with_name("moves.csv")
COLUMNS = ("calculation", "parameter", "up", "down", "same", "either", "why")
NOUGHT = 0.01
"""Step from a parameter that stands at nothing in the example."""
STILL = 1e-12
"""Share of a number below which it has not moved."""

GIVEN: dict[tuple[str, str], float] = {
    ("deepest_milling_cut", "torque_limit"): 5.0,
    ("deepest_milling_cut", "force_limit"): 300.0,
    ("deepest_turning_cut", "torque_limit"): 10.0,
    ("deepest_turning_cut", "force_limit"): 400.0,
    ("end_mill_bends", "shank"): 12.0,
    ("parting_load", "specific_force"): 2000.0,
    ("milling_load", "specific_force"): 1800.0,
    ("press_fit", "hub_yield"): 300.0,
    ("press_fit", "shaft_yield"): 300.0,
    ("shrink_fit", "clearance"): 0.02,
    ("shrink_fit", "hub_yield"): 300.0,
    ("shrink_fit", "shaft_yield"): 300.0,
    ("shrink_fit", "shaft_modulus"): 200000.0,
    ("shrink_fit", "shaft_poisson"): 0.29,
    ("shrink_fit", "shaft_expansion"): 11.7e-6,
    ("thread_over_wires", "effective"): 9.0,
    ("tightening_torque", "head"): 10.0,
    ("turned_shape", "cut_start"): 20.0,
    ("turned_shape", "cut_end"): 100.0,
    ("two_plane_balance", "far_radius"): 20.0,
    ("work_bends", "at"): 20.0,
}
"""Where a walk begins along what the examples leave out, in the parameter's own unit."""
BESIDE: dict[str, dict[str, Any]] = {
    "deepest_turning_cut": {"diameter": 30.0},
    "price_by_length": {"cut_price": 1.0},
    "shrink_fit": {"shaft_modulus": 206000.0, "shaft_poisson": 0.29, "shaft_expansion": 11.7e-6, "shaft_yield": 300.0},
}
"""What must be said with them."""


@dataclass(frozen=True)
class Moves:
    """Which numbers of a calculation a parameter takes up, takes down, leaves, or moves either way."""

    up: tuple[str, ...] = ()
    down: tuple[str, ...] = ()
    same: tuple[str, ...] = ()
    either: tuple[str, ...] = ()
    why: str = ""

    @property
    def numbers(self) -> list[str]:
        """Every number that is named."""
        return [*self.up, *self.down, *self.same, *self.either]


@functools.cache
def declared() -> dict[tuple[str, str], Moves]:
    """The table, by calculation and parameter."""
    with FILE.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    twice = [key for key, count in Counter((row["calculation"], row["parameter"]) for row in rows).items() if count > 1]
    assert not twice, f"said twice in moves.csv: {twice}"
    return {
        (row["calculation"], row["parameter"]): Moves(*(tuple(row[way].split()) for way in COLUMNS[2:6]), row["why"])
        for row in rows
    }


def walked_along() -> list[tuple[str, str]]:
    """Every parameter that is a number, of every calculation."""
    return [(n, p.name) for n, entry in ALL.items() for p in entry.parameters if p.is_number and not p.many]


def numbers_of(entry: Calculation, found: Any) -> dict[str, float]:
    """What came out, by name; a list counts by its sum."""
    out: dict[str, float] = {}
    for result in entry.results:
        value = getattr(found, result.name, found)
        if isinstance(value, tuple | list) and result.many and all(isinstance(one, int | float) for one in value):
            out[result.name] = float(sum(value))
        elif isinstance(value, int | float) and not isinstance(value, bool):
            out[result.name] = float(value)
    return out


def steps(name: str, parameter: str, factors: Sequence[float]) -> Iterator[tuple[dict[str, float], dict[str, float]]]:
    """(before, after) of neighbouring places along a parameter, from each example; what is refused is passed over."""
    entry = ALL[name]
    which = next(p for p in entry.parameters if p.name == parameter)
    for example in examples()[name]:
        start = _start(name, which, example)
        if start is None:
            continue
        places = []
        for place, factor in enumerate(factors):
            value = start * factor if start else (factor - factors[0]) * NOUGHT
            value = round(start) + place - len(factors) // 2 if which.range.whole else value
            try:
                places.append(
                    numbers_of(entry, entry.function(**{**BESIDE.get(name, {}), **example, parameter: value}))
                )
            except (ValueError, LookupError, ArithmeticError, TypeError):
                continue
        yield from itertools.pairwise(places)


def _start(name: str, which: Parameter, example: dict[str, Any]) -> float | None:
    value = example.get(which.name, GIVEN.get((name, which.name), which.default))
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def seen(name: str, parameter: str, factors: Sequence[float]) -> Moves:
    """How a parameter moves what comes out, as it is found by walking."""
    ways: dict[str, set[int]] = {}
    for before, after in steps(name, parameter, factors):
        for result in before.keys() & after.keys():
            change = after[result] - before[result]
            moved = abs(change) > STILL * max(1.0, abs(before[result]))
            ways.setdefault(result, set()).add((change > 0) - (change < 0) if moved else 0)

    def of(test: Any) -> tuple[str, ...]:
        return tuple(sorted(result for result, signs in ways.items() if test(signs)))

    return Moves(
        of(lambda s: 1 in s and -1 not in s), of(lambda s: -1 in s and 1 not in s), of(lambda s: s == {0}),
        of(lambda s: {1, -1} <= s),
    )  # fmt: skip


MANY = tuple(sorted({0.5, 0.75, 1.0, 1.25, 1.5, 2.0, *(0.52 * 1.0613**place for place in range(23))}))
"""Places at which a walk stops, as shares of where it begins."""


def missing() -> Iterator[str]:
    """The lines that the table lacks, as the walk finds them: to be read, and given their reasons, before they are kept."""
    for name, parameter in walked_along():
        if (name, parameter) not in declared():
            found = seen(name, parameter, MANY)
            ways = (" ".join(way) for way in (found.up, found.down, found.same, found.either))
            yield ",".join((name, parameter, *ways, "WHY?" if found.either or not found.numbers else ""))


if __name__ == "__main__":
    print("\n".join(missing()))
