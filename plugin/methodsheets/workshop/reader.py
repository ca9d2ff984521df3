"""What does a workshop file say? Reads `workshops/<key>.yml` into a `Workshop`, with a place for every problem."""

from __future__ import annotations

import hashlib
from pathlib import Path

from methodsheets.reading.mapping import read_mapping
from methodsheets.reading.problem import Place, Problems
from methodsheets.reading.slug import file_slug
from methodsheets.reading.source import read_source
from methodsheets.reading.text import Text
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.metal.materials import look_up

from .fields import Fields
from .model import Rates, Times, Workshop
from .read_holding import read_dividing, read_holding
from .read_machine import read_machine
from .read_tool import read_tool

SUFFIXES = (".yml", ".yaml")
"""A workshop is a file with one of these endings in the workshops folder."""


def workshop_files(folder: Path) -> tuple[Path, ...]:
    """The workshop files of a folder, by name; none where there is no such folder."""
    if not folder.is_dir():
        return ()
    return tuple(sorted(path for path in folder.iterdir() if path.suffix in SUFFIXES and path.is_file()))


def read_workshop(path: Path, root: Path, problems: Problems, shown: str | None = None) -> Workshop | None:
    """Read one workshop file, which must lie below `root`; None where it is no file, no text or no mapping.

    `shown` is the path that problems show; without it the path below `root`.
    """
    source = read_source(path, root, problems, shown)
    if source is None:
        return None
    return parse_workshop(source.text, source.path, problems, key=file_slug(path.stem), digest=source.digest)


def parse_workshop(text: str, path: str, problems: Problems, *, key: str = "", digest: str = "") -> Workshop | None:
    """Read a workshop from text.

    Parameters:
        path: what problems call it
        key: the workshop's key; the file's name without its ending where not given
        digest: digest of the file's bytes; of the text where not given
    """
    before = len(problems)
    entries = read_mapping(text, Place(path), problems, nested=True, what="workshop")
    if not entries:
        if len(problems) == before:
            problems.error(
                Place(path), "the workshop file is empty", "a workshop lists what is there", code="workshop-empty"
            )
        return None
    fields = Fields(entries, Place(path), problems, "workshop")
    workshop = Workshop(
        key=key or file_slug(Path(path).stem),
        name=fields.text("workshop") or key or Path(path).stem,
        summary=fields.text("summary"),
        units=fields.choice("units", ("metric", "inch"), "metric"),
        projection=fields.choice("projection", ("first", "third"), "first"),
        machines={name: read_machine(name, one) for name, one in fields.each("machines", "machine")},
        rotary_tables={name: read_dividing(name, one) for name, one in fields.each("dividing", "rotary table")},
        holdings={name: read_holding(name, one) for name, one in fields.each("holding", "way of holding")},
        tools={name: read_tool(name, one) for name, one in fields.each("tools", "tool")},
        rates=read_rates(fields.nested("rates", "list of rates")),
        times=read_times(fields.nested("times", "list of times")),
        digest=digest or hashlib.sha256(text.encode()).hexdigest(),
        path=path,
    )
    fields.done()
    _agree(workshop, fields)
    return workshop


def read_rates(fields: Fields | None) -> Rates:
    """What an hour and a kilogram cost."""
    if fields is None:
        return Rates()
    rates = Rates(
        hour=fields.amount("hour", "money"),
        currency=fields.text("currency"),
        machines=fields.pair_amounts("machines", "money"),
        materials=fields.pair_amounts("materials", "money"),
    )
    for name, text in fields.pairs("materials").items():
        _priced(name, text, fields.problems)
    fields.done()
    return rates


def _priced(name: str, text: Text, problems: Problems) -> None:
    """A price under any name of a material is its price; under a name that is none it would be no one's."""
    try:
        look_up(name)
    except NotInTable as error:
        what = f"`{name}` is no material, so that its price changes nothing"
        remedy = (
            f"did you mean {' or '.join(error.suggestions)}?" if error.suggestions else "see the table of materials"
        )
        rule = "a price stands under any name of the table of materials"
        problems.warning(text.place, what, rule, remedy, code="unknown-material")


def read_times(fields: Fields | None) -> Times:
    """What handling takes."""
    if fields is None:
        return Times()
    usual = Times()
    times = Times(
        load=fields.amount("load", "min", usual.load),
        tool_change=fields.amount("tool change", "min", usual.tool_change),
        speed_change=fields.amount("speed change", "min", usual.speed_change),
        measure=fields.amount("measure", "min", usual.measure),
        approach=fields.amount("approach", "min", usual.approach),
        setting=fields.amount("setting", "min", usual.setting),
    )
    fields.done()
    return times


def _agree(workshop: Workshop, fields: Fields) -> None:
    """Report what does not fit together: a workshop without machines, a holding on one that is not there."""
    problems, place = fields.problems, fields.place_of("holding")
    if not workshop.machines:
        problems.error(
            fields.place_of("machines"),
            "the workshop has no machine",
            "a workshop lists its machines",
            "add `machines:` with at least one",
            code="workshop-empty",
        )
    known = {*workshop.machines, *(machine.kind for machine in workshop.machines.values())}
    strange = [name for name in workshop.rates.machines if name not in workshop.machines]
    if strange:
        what = f"an hour at `{strange[0]}` has a price, and the workshop has no such machine"
        remedy = f"machines here: {', '.join(sorted(workshop.machines))}"
        problems.warning(fields.place_of("rates"), what, "", remedy, code="workshop-machine")
    for holding in workshop.holdings.values():
        strangers = [name for name in holding.machines if name not in known]
        if strangers:
            what = f"`{holding.key}` goes on `{strangers[0]}`, which the workshop does not have"
            problems.warning(place, what, "", f"machines here: {', '.join(sorted(known))}", code="workshop-machine")
        if holding.table and holding.table not in workshop.rotary_tables:
            what = f"`{holding.key}` is on the rotary table `{holding.table}`, which is not listed"
            remedy = f"known: {', '.join(workshop.rotary_tables)}"
            problems.error(place, what, "`table` names one under `dividing`", remedy, code="workshop-table")
