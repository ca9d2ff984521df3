"""What a sheet says when every number of a table that was recalled is a little another: is each text that changes marked?

`python -m tests.method.shaken` shakes the tables one by one under every method of the demo and of the tests, and prints
what changed without a mark. It takes some minutes; the tests shake all tables at once under a few methods.
"""

from __future__ import annotations

import csv
import dataclasses
import io
import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from unittest import mock

from tests.method.bench import ROOT, _evaluated

from methodsheets.formula.measure import Measure
from methodsheets.formula.work import Working
from methodsheets.operations.loads import SET
from methodsheets.sheet.model import Calculation, Check, Choice, Fact, Method, Operation, Quote, Totals
from methodsheets.sheet.words import Words
from methodsheets.trade.form import tables
from methodsheets.trade.form.rows import MEMORY

SHARE = 0.03
"""By how much a number is changed: enough to be seen, too little to change what is done."""
LEFT_OUT = ("centre_drills", "threads", "iso965_grade6")
"""Tables whose numbers are names: the pilot of a drill, the size and pitch of a thread. Another one is another thing."""
NAMES = tuple(name for name in tables.table_names() if name not in LEFT_OUT)
"""All other tables."""
ROOMS = ("trade", "operations", "method", "workshop")
"""Rooms that keep what they read from the tables."""
MEASURED = ("removes-metal",)
"""Checks that tell what was measured on the solid: its sizes are marked where they are said."""
NUMBER = re.compile(r"-?\d+(\.\d+)?")


def shake(name: str) -> str:
    """The text of a table with every recalled number that is no name of its row changed."""
    path = tables.FOLDER / f"{name}.csv"
    head = [line for line in path.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    table = tables.read_table(name)
    names = {one.strip() for line in head if line.startswith("# names:") for one in line[8:].split(",")}
    out = io.StringIO()
    written = csv.writer(out, lineterminator="\n")
    written.writerow([column.name for column in table.columns])
    for row in table.rows:
        changes = {c for c in row if c not in names and row.origin(c).trust == MEMORY}
        written.writerow([changed(cell) if column in changes else cell for column, cell in row.items()])
    return "\n".join(head) + "\n" + out.getvalue()


def changed(cell: str) -> str:
    """A number a little larger, with as many decimals; anything else as it is."""
    if ".." in cell:
        return "..".join(map(changed, cell.split("..")))
    if not NUMBER.fullmatch(cell):
        return cell
    places = len(cell.partition(".")[2])
    value = float(cell)
    return f"{value + max(abs(value) * SHARE, 10.0**-places):.{places}f}"


@contextmanager
def shaking(*names: str) -> Iterator[None]:
    """Every calculation reads the shaken tables within."""
    texts = {name: shake(name) for name in names}
    with TemporaryDirectory() as folder:
        for path in tables.FOLDER.glob("*.csv"):
            (Path(folder) / path.name).write_text(texts.get(path.stem) or path.read_text("utf-8"), encoding="utf-8")
        with mock.patch.object(tables, "FOLDER", Path(folder)):
            forget()
            yield
    forget()


def forget() -> None:
    """What was read from tables before is read again."""
    for name, module in [*sys.modules.items()]:
        if name.startswith("methodsheets.") and name.split(".")[1] in ROOMS:
            for thing in [*vars(module).values()]:
                clear = getattr(thing, "cache_clear", None)
                if clear is not None:
                    clear()


def unmarked(method: Method) -> dict[str, str]:
    """Every text and number that a sheet shows without a mark, with the place where it stands."""
    return {f"{place}: {text}": text for place, text in _said(method, "")}


def _said(one: object, place: str) -> Iterator[tuple[str, str]]:
    if isinstance(one, Words):
        if one and not one.recalled:
            yield place, one.metric
    elif isinstance(one, Measure):
        yield place, f"{one}"
    elif isinstance(one, Fact):
        yield from _fact(one, f"{place}.{one.key}")
    elif isinstance(one, Quote):
        yield from (() if one.recalled else _said(one.value, f"{place} {{{{ {one.expression} }}}}"))
    elif (
        (isinstance(one, Calculation) and one.working.recalled)
        or isinstance(one, Working)
        or (isinstance(one, Choice) and one.recalled)
    ):
        return
    elif isinstance(one, Operation) and one.passes and any(fact.recalled for fact in one.facts if fact.key in SET):
        yield from _said(dataclasses.replace(one, passes=()), place)  # the passes are those of the marked depth
    elif isinstance(one, (Operation, Totals)) and one.mass_rests:
        own = {"mass_after": None} if isinstance(one, Operation) else {"stock_mass": None, "finished_mass": None,
            "price": None, "tables": ()}  # fmt: skip
        yield from _said(dataclasses.replace(one, mass_rests=(), **own), place)
    elif isinstance(one, Check) and one.key in MEASURED:
        return
    elif dataclasses.is_dataclass(one):
        for field in dataclasses.fields(one):
            yield from _said(getattr(one, field.name), f"{place}.{field.name}")
    elif isinstance(one, (tuple, list)):
        for part in one:
            yield from _said(part, place)


def _fact(fact: Fact, place: str) -> Iterator[tuple[str, str]]:
    if not fact.recalled and not (isinstance(fact.value, Words) and fact.value.recalled):
        yield from _said((fact.value, fact.low, fact.high, fact.note), place)
    yield from _said(fact.overruled, f"{place}.overruled")


def changes(text: str, workshop: str, slug: str, *names: str, seen: list[Method] | None = None) -> list[str]:
    """What a method says without a mark only when these tables are shaken; `seen` gets it before and after."""
    before = _evaluated(text, workshop, slug, {}).method
    with shaking(*names):
        after = _evaluated(text, workshop, slug, {}).method
    if seen is not None:
        seen += [before, after]
    return sorted(set(unmarked(after)) - set(unmarked(before)))


def main() -> None:
    """Print what changed without a mark, table by table."""
    paths = [*sorted(ROOT.glob("*.md")), *sorted((ROOT.parent / "tests" / "methods").glob("*.md"))]
    wanted = sys.argv[1:]
    for path in (one for one in paths if not wanted or one.stem in wanted):
        text = path.read_text(encoding="utf-8")
        shop = re.search(r"^workshop: (.+)$", text, re.M)
        for name in NAMES:
            try:
                found = changes(text, shop[1] if shop else "osierbank-small", path.stem, name)
            except Exception as error:
                found = [f"{error!r}"]
            for line in found:
                print(f"{name} | {path.stem} | {line}")


if __name__ == "__main__":
    main()
