"""What does a method give to other programs? All of it as JSON, its operations as CSV."""

from __future__ import annotations

import csv
import io
import json
from typing import Any

from methodsheets.handbook.exchange import method_data
from methodsheets.handbook.model import Entry
from methodsheets.sheet.model import Fact, Method, Operation
from methodsheets.sheet.words import Words

COLUMNS = (
    "set-up",
    "machine",
    "held in",
    "operation",
    "verb",
    "words",
    "tool",
    "spindle speed [1/min]",
    "feed [mm]",
    "cutting [min]",
    "handling [min]",
    "removed [cm^3]",
    "mass after [g]",
    "measure",
    "not under [mm]",
    "not over [mm]",
    "aim at [mm]",
)


def data_text(entry: Entry) -> str:
    """The evaluated method for every workshop, as JSON; the shape is that of `methodsheets show --json`."""
    whole = _light(method_data(entry))
    return json.dumps(whole, ensure_ascii=False, separators=(",", ":"), sort_keys=True) + "\n"


def _light(data: Any) -> Any:
    """The same without set formulas, which the plain line of each working says again."""
    if isinstance(data, dict):
        return {
            key: "" if isinstance(held, str) and held.startswith("<math") else _light(held)
            for key, held in data.items()
        }
    return [_light(held) for held in data] if isinstance(data, list | tuple) else data


def operations_text(entry: Entry) -> str:
    """The operations in the author's workshop, one a line, in the units that the headings give."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    method: Method = entry.own
    for setup in method.setups:
        for operation in setup.operations:
            place = (setup.number, setup.machine_name, setup.holding)
            writer.writerow([plain_cell(cell) for cell in (*place, *_cells(operation))])
    return out.getvalue()


def _cells(operation: Operation) -> list[object]:
    mass = operation.mass_after
    return [
        operation.number,
        operation.verb,
        operation.words,
        operation.tool,
        _number(operation.fact("spindle_speed")),
        _number(operation.fact("feed")),
        _round(operation.cutting_minutes),
        _round(operation.handling_minutes),
        _round(operation.removed_cm3),
        _round(mass.value * (1000 if mass.unit == "kg" else 1)) if mass else "",
        *_limits(operation),
    ]


def _limits(operation: Operation) -> list[object]:
    """What is measured, its limits, and where to stop; several sizes stand behind each other."""
    measured = [limit for limit in operation.limits if limit.has_limits]
    aims = ["" if limit.aim is None else f"{limit.aim.value:.4f}" for limit in measured]
    columns = [
        [limit.name for limit in measured],
        [f"{limit.lower.value:.4f}" for limit in measured],
        [f"{limit.upper.value:.4f}" for limit in measured],
        aims,
    ]
    return ["; ".join(cells) for cells in columns]


def _number(fact: Fact | None) -> object:
    if fact is None or isinstance(fact.value, Words):
        return ""
    return _round(fact.value.value)


def _round(value: float) -> object:
    return float(f"{value:.4g}")


def plain_cell(value: object) -> object:
    """A cell that a spreadsheet takes for words: with an apostrophe where it would take them for a formula."""
    words = str(value)
    return (
        f"'{words}" if isinstance(value, str | Words) and words.startswith(("=", "+", "-", "@", "\t", "\r")) else value
    )
