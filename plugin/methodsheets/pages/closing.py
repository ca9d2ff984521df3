"""What stands at the end of a method's page? Whether the part comes out as intended, its weight, what was measured."""

from __future__ import annotations

from methodsheets.handbook.model import Entry, Pace
from methodsheets.operations.cautions import DEFER
from methodsheets.sheet.model import Method, RunOutRow

from . import document as d
from . import wording
from .author import drawn_for
from .operation import small_table
from .pace import pace_block
from .places import Places
from .records import record_blocks
from .setup import figure
from .summary import OPENING, ROUTE_ON_A_PHONE, ROUTES, data_links


def closing_blocks(entry: Entry, method: Method, places: Places, paces: tuple[Pace, ...] = ()) -> d.Blocks:
    """Return the end of a method's page for one workshop."""
    body: list[d.Block] = [d.Heading(2, d.words("The finished part"), "the-finished-part")]
    body += differences_block(method)
    body += wording.checks_disclosure(method.all_checks, "the finished part")
    if method.totals and method.totals.facts:
        body.append(d.Pairs(tuple(wording.fact_pair(fact) for fact in method.totals.facts), kind="facts"))
        body += wording.recalled_note(method.totals.facts)
    body += [small_table(table) for table in method.totals.tables] if method.totals else []
    body += run_out_table(method.run_out)
    shown = {key for setup in method.setups for key in setup.figures}
    shown |= {key for operation in method.operations for key in operation.figures}
    shown |= {drawing.key for drawing in drawn_for(method, (line.name for line in method.calculations))}
    first = [drawing.key for drawing in method.drawings if drawing.kind in ROUTES][:1]
    first += [drawing.key for drawing in method.drawings if drawing.kind == ROUTE_ON_A_PHONE]
    first += [drawing.key for drawing in method.drawings if drawing.kind in OPENING]
    body += [
        figure(drawing, places, "wide")
        for drawing in method.drawings
        if drawing.key not in shown and drawing.key not in first
    ]
    body += record_blocks(entry, method)
    body += pace_block(method, paces)
    body += provenance(method)
    body.append(data_links(method, places))
    return (d.Group("closing", tuple(body)),)


def differences_block(method: Method) -> d.Blocks:
    """Where the part that comes out is not the intended part."""
    if not method.differences:
        return ()
    columns = (
        d.Column("No."),
        d.Column("What"),
        d.Column("Where"),
        d.Column("Thickness", number=True),
        d.Column("Volume", number=True),
    )
    rows = tuple(
        d.Row(
            (
                d.words(str(one.number)),
                d.words(one.kind),
                d.words(one.words),
                d.value(one.thickness),
                d.value(wording.volume(one.volume_mm3 / 1000)),
            )
        )
        for one in method.differences
    )
    said = d.Paragraph(d.words("The part that comes out of this method is not the intended part."))
    table = d.Table("Differences to the intended part", columns, rows, kind="differences")
    return (d.Box("failed", "Not the intended part", (said, table)),)


def run_out_table(rows: tuple[RunOutRow, ...]) -> d.Blocks:
    """How far features can run out to each other after all set-ups."""
    if not rows:
        return ()
    columns = (
        d.Column("Feature"),
        d.Column("Runs out to"),
        d.Column("At worst", number=True),
        d.Column("Likely", number=True),
        d.Column("Made up of"),
    )
    unknown = d.words("not known")
    made = tuple(
        d.Row(
            (
                d.words(row.first),
                d.words(row.second),
                d.value(row.worst) if row.worst else unknown,
                d.value(row.likely) if row.likely else unknown,
                d.words(row.why),
            )
        )
        for row in rows
    )
    return (d.Table("Run-out built up over the set-ups", columns, made, kind="run-out"),)


def spellings(found_as: tuple[str, ...]) -> list[str]:
    """The spellings of a method, and the halves of those like 'H7/s6', for which people search too."""
    found = list(found_as)
    for spelling in found_as:
        for word in spelling.split():
            halves = word.split("/")
            if len(halves) == 2 and all(any(letter.isalpha() for letter in half) for half in halves):
                found += halves
    return list(dict.fromkeys(found))


def provenance(method: Method) -> d.Blocks:
    """What it was worked out from and with, and the spellings under which a search finds it."""
    found: list[d.Block] = []
    if method.found_as:
        said = (d.Strong(d.words("Also found as: ")), d.Text(" · ".join(spellings(method.found_as))))
        found.append(d.Paragraph(said, kind="found-as"))
    versions = ", ".join(f"{name} {version}" for name, version in method.versions)
    words = f"Worked out for {method.workshop_name}"
    words += f" with {versions}" if versions else ""
    words += f"; input {method.digest[:12]}. {wording.IN_MM} {DEFER} Checks say that the geometry agrees, no more."
    found.append(d.Paragraph((d.Small(d.words(words)),), kind="provenance"))
    return tuple(found)
