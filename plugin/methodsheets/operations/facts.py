"""How does a worked-out number get on the sheet: with its unit, its rounding and its working?"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from methodsheets.formula.display import measure
from methodsheets.formula.measure import Measure
from methodsheets.formula.working import calculation_working
from methodsheets.operations.sureness import between
from methodsheets.sheet.check_kinds import CHECK_KINDS
from methodsheets.sheet.model import Check, Fact, TableRow, Working
from methodsheets.sheet.spread import Spread
from methodsheets.trade.form.calculation import calculation_of
from methodsheets.trade.form.rows import take, taking
from methodsheets.trade.form.tables import find_row
from methodsheets.trade.metal.materials import Material, material_names
from methodsheets.trade.metal.materials import material as find_material

from . import say


def measure_of(value: float, unit: str, kind: str) -> Measure:
    """A measure of a number in a unit; an unknown kind is shown in its own unit."""
    return measure(float(value), kind, unit)


def length_measure(value: float, kind: str = "length") -> Measure:
    """A length in mm."""
    return measure(float(value), kind, "mm")


def fact(
    key: str,
    label: str,
    value: float,
    unit: str,
    kind: str,
    working: Sequence[Working | None] = (),
    overruled: str = "",
    note: str = "",
    *,
    desk: bool = False,
    spread: Spread | None = None,
    rests: Sequence[str] = (),
) -> Fact:
    """One line of an operation's table, with its working; `overruled` and `note` are drafts (`say`).

    It stands on the bench sheet too, unless it is only for the `desk`. An estimate says between which values it lies.
    """
    shown = measure_of(value, unit, kind)
    low, high = (measure_of(end, unit, kind) for end in spread.of(value)) if spread else (None, None)
    if spread is not None:
        note = "; ".join(part for part in (between(spread, value, kind), note) if part)
    made = tuple(w for w in working if w is not None)
    return Fact(
        key=key,
        label=label,
        value=shown,
        working=made,
        overruled=say.words(overruled),
        note=say.words(note),
        desk=desk,
        low=low,
        high=high,
        rests=tuple(rests),
    )


def told(
    key: str, label: str, draft: str, working: Sequence[Working | None] = (), note: str = "", *, desk: bool = False
) -> Fact:
    """One line of an operation's table that says something in words; see `fact`."""
    return Fact(
        key, label, say.words(draft), tuple(w for w in working if w is not None), note=say.words(note), desk=desk
    )


def judged(key: str, holds: bool | None, draft: str, line: int, *, tight: bool = False, remedy: str = "") -> Check:
    """A check with its verdict: True passed, False failed, None not known; its words are a draft (`say`).

    Parameters:
        key: one of `CHECK_KINDS`; KeyError for another
        tight: passed, but near the limit
        remedy: what to do, where that is known better than from the kind of check; a draft, said in millimetres
    """
    if key not in CHECK_KINDS:
        raise KeyError(f"no such check (got {key!r})")
    state = "not known" if holds is None else "passed" if holds else "failed"
    return Check(key, state, say.words(draft), line, tight and holds is True, say.plain(remedy))


def worked(function: Callable[..., Any], *arguments: Any, **named: Any) -> tuple[Any, Working]:
    """Call one of the handbook's calculations; gives its result and its working.

    Raises what the calculation raises (`OutOfRange`, `NotInTable`).
    """
    result = function(*arguments, **named)
    record = calculation_of(function)
    bound = dict(zip((p.name for p in record.parameters), arguments, strict=False)) | named
    return result, call_working(record, bound, result)


def looked_up(function: Callable[..., Any], *arguments: Any) -> tuple[Any, tuple[str, ...]]:
    """Call a lookup in the tables; gives its result, and the rows taken up that were recalled and not read.

    For a number that stands within a sentence, where no working is shown.
    """
    with taking() as rows:
        result = function(*arguments)
    kept = [TableRow(row.table, row.row, row.source, row.trust) for row in rows]
    return result, Working("", rows=tuple(kept)).recalled


def material_rests(material: Material, *columns: str) -> tuple[str, ...]:
    """What was recalled and not read of some values of a material, such as its `modulus`."""
    return looked_up(lambda: take(find_row("materials", name=material.name), *columns))[1]


def metal_rests(materials: Iterable[str], *columns: str) -> tuple[str, ...]:
    """The same of several materials by their names; a filler that no table names has nothing."""
    known = [find_material(name) for name in dict.fromkeys(materials) if name in material_names()]
    return tuple(dict.fromkeys(words for one in known for words in material_rests(one, *columns)))


def mass_rests(materials: Iterable[str]) -> tuple[str, ...]:
    """What was recalled and not read of the densities of some materials."""
    return metal_rests(materials, "density")


def call_working(record: Any, bound: dict[str, Any], result: Any) -> Working:
    """The working of one call: equation, numbers put in, result, source."""
    return calculation_working(record, bound, result)
