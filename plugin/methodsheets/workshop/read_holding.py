"""What does a workshop file say of a way of holding, or of a rotary table?"""

from __future__ import annotations

from methodsheets.trade.bending.holding import CLASSES
from methodsheets.vocabulary.holding import WAYS, Way
from methodsheets.vocabulary.machine import MACHINES, SPELLED

from .dividing import RotaryTable
from .fields import Fields
from .holding import Holding, Range
from .words import kind_named


def read_holding(key: str, fields: Fields) -> Holding:
    """Read one way of holding; what is wrong goes to the fields' problems."""
    kind = Way(fields.choice("kind", WAYS, _kind_of(key, fields)))
    holding = Holding(
        key=key,
        kind=kind,
        name=fields.text("name") or kind.row.words[0],
        words=fields.words("also called"),
        machines=fields.meant("goes on", SPELLED.read, MACHINES),
        outside=_range(fields, "outside"),
        inside=_range(fields, "inside"),
        reversed_jaws=_range(fields, "outside jaws"),
        run_out=fields.amount("run out", "mm"),
        run_out_note=fields.text("run out note"),
        jaw_length=fields.amount("jaw length", "mm"),
        jaw_steps=fields.amount("jaw stands out", "mm"),
        jaw_width=fields.amount("jaw width", "mm"),
        body_diameter=fields.amount("body diameter", "mm"),
        body_length=fields.amount("body length", "mm"),
        bore=fields.amount("bore", "mm"),
        limit_speed=fields.amount("limit speed", "1/min"),
        sizes=tuple(sorted(fields.amounts("sizes", "mm"))),
        collapse=fields.amount("collapse", "mm"),
        collet_series=fields.text("series"),
        collet_class=int(fields.choice("collet class", map(str, CLASSES), "0")),
        opening=fields.amount("opening", "mm"),
        jaw_height=fields.amount("jaw height", "mm"),
        height=fields.amount("height", "mm"),
        throw=fields.amount("throw", "mm"),
        setting_minutes=fields.amount("setting", "min", 10.0),
        loading_minutes=fields.amount("loading", "min", 1.0),
        table=fields.text("table"),
        note=fields.text("note"),
    )
    if holding.collet_class and not kind.row.closes:
        fields.problems.error(
            fields.place, f"`{key}` has a collet class and is no collet", "classes are of collets",
            "say `run out: 0.02 mm` for any other way of holding", code="workshop-collet-class",
        )  # fmt: skip
    fields.done()
    return holding


def read_dividing(key: str, fields: Fields) -> RotaryTable:
    """Read one rotary table or dividing head."""
    table = RotaryTable(
        key=key,
        name=fields.text("name") or key,
        words=fields.words("also called"),
        ratio=fields.amount("ratio", "1", 0.0),
        division=fields.amount("division", "deg"),
        vernier=fields.amount("vernier", "deg"),
        plates=_plates(fields),
        diameter=fields.amount("diameter", "mm"),
        height=fields.amount("height", "mm"),
        bore=fields.amount("bore", "mm"),
        centre_taper=fields.text("centre taper"),
        locks=fields.flag("locks", default=True),
        note=fields.text("note"),
        kind=_divider_kind(key, fields),
        centre_height=fields.amount("centre height", "mm"),
    )
    if table.ratio <= 0:
        fields.problems.error(
            fields.place, f"`{key}` has no ratio", "a rotary table turns once for so many turns of its handle",
            "add `ratio: 90`; a plain turntable has `ratio: 1`", code="workshop-ratio",
        )  # fmt: skip
        table = RotaryTable(key, table.name, 1.0)
    fields.done()
    return table


DIVIDERS: dict[str, tuple[str, ...]] = {str(way): row.words for way, row in WAYS.items() if row.carries}
"""What may stand under `dividing`, with the trade's words for it."""


def _divider_kind(key: str, fields: Fields) -> Way:
    """A rotary table or a dividing head: as `kind` says, else as its name says, else a rotary table."""
    named = Way(kind_named((fields.text("name"), key), DIVIDERS) or Way.ROTARY_TABLE)
    return Way(fields.choice("kind", DIVIDERS, named))


def _plates(fields: Fields) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """Dividing plates: 'A' → 15, 16, 17 …"""
    under = fields.nested("plates", "list of plates")
    if under is None:
        return ()
    return tuple((name, under.wholes(" ".join(name.lower().split()))) for name in under.names())


def _range(fields: Fields, key: str) -> Range | None:
    """'2 mm to 80 mm'."""
    span = fields.span(key, "mm")
    return Range(span.low, span.high) if span else None


def _kind_of(key: str, fields: Fields) -> str:
    """The kind where none is written: the one that the thing's name says best."""
    if fields.has("kind"):
        return Way.FIXTURE  # what stands under `kind` decides
    found = kind_named((fields.text("name"), key), {kind: sort.words for kind, sort in WAYS.items()})
    if not found:
        remedy = f"known: {', '.join(WAYS)}"
        what, rule = f"what sort of holding is `{key}`?", "each way of holding has a `kind`"
        fields.problems.error(fields.place, what, rule, remedy, code="workshop-kind")
    return found or Way.FIXTURE
