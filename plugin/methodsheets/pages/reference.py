"""What can the handbook work out, with which formula, and where does it come from? One page for each subject."""

from __future__ import annotations

from methodsheets.reading.slug import slugify
from methodsheets.trade.form.chapters import by_chapter, subject_title

from . import document as d
from .chapter import Chapter, Equation, Given, Sheet
from .places import Places

UNIT_WORDS = {
    "1": "number", "flag": "yes or no", "text": "words", "deg": "°", "um": "µm", "degC": "°C", "delta_degC": "°C",
    "mm^2": "mm²", "mm^3": "mm³", "mm^4": "mm⁴", "cm^3": "cm³", "N*m": "N·m", "g*mm": "g·mm", "cm^3/min": "cm³/min",
    "kg*mm^2": "kg·mm²", "kg/m^3": "kg/m³", "g/cm^3": "g/cm³",
}  # fmt: skip


def reference_blocks(chapter: Chapter, subject: str, places: Places) -> d.Blocks:
    """Return the page of a subject, or the list of all for ''.

    Raises:
        KeyError: there is no such subject.
    """
    if not subject:
        return contents(chapter, places)
    found = chapter.of(subject)
    if not found:
        raise KeyError(f"no subject `{subject}`; there are {', '.join(chapter.subjects)}")
    return (d.Group("reference", tuple(block for sheet in found for block in sheet_blocks(sheet))),)


def contents(chapter: Chapter, places: Places) -> d.Blocks:
    """The list of everything that can be called."""
    lead = (
        "Everything that a calc block can call, with its formula, its limits, a worked example and its source. "
        "Lengths, speeds and forces go in with their unit; results come back with theirs."
    )
    body: list[d.Block] = [d.Paragraph(d.words(lead))]
    for part, subjects in by_chapter(chapter.subjects).items():
        body.append(d.Heading(2, d.words(part), slugify(f"part {part}")))
        for subject in subjects:
            body += _subject(chapter, subject, places)
    return tuple(body)


def _subject(chapter: Chapter, subject: str, places: Places) -> list[d.Block]:
    target = places.page(f"reference/{subject}")
    title = subject_title(subject)
    rows = tuple(d.Row((_name(sheet, target), d.words(sheet.sentence))) for sheet in chapter.of(subject))
    columns = (d.Column("Name"), d.Column("What it answers"))
    return [
        d.Heading(3, (d.Link(target, d.words(title)),) if target else d.words(title), subject),
        d.Table(title, columns, rows, kind="contents", caption_shown=False),
    ]


def _name(sheet: Sheet, target: str) -> d.Inline:
    name = (d.Code(sheet.name),)
    return (d.Link(f"{target}#{anchor(sheet.name)}", name),) if target else name


def anchor(name: str) -> str:
    """Place of a calculation on its page."""
    return name.replace("_", "-").lower()


def sheet_blocks(sheet: Sheet) -> d.Blocks:
    """One calculation as the chapter shows it."""
    body: list[d.Block] = [
        d.Heading(2, (d.Code(sheet.name),), anchor(sheet.name)),
        d.Paragraph(d.words(sheet.sentence)),
    ]
    if sheet.details:
        body.append(d.Paragraph(d.words(sheet.details)))
    body += [d.Paragraph((_equation(line),), kind="formula") for line in sheet.equations]
    if sheet.in_stated_units:
        body.append(d.Paragraph((d.Small(d.words("Holds for numbers in the units listed.")),)))
    if sheet.parameters:
        body.append(_parameters(sheet))
    body.append(_results(sheet))
    if sheet.validity:
        body.append(_said("Holds where", sheet.validity))
    if sheet.example:
        lines = tuple((d.Code(line),) for line in example_lines(sheet.example))
        said = "Worked example, in the units listed"
        body += [d.Paragraph((d.Strong(d.words(said)),), kind="card-title"), d.Listing(lines, kind="source")]
    body += [_said("Source", sheet.source), _said("How far to believe it", sheet.trust)]
    return (d.Group("calculation", tuple(body)),)


def example_lines(example: str) -> list[str]:
    """The worked example as calls and what they give: 'spindle_speed(25, 12) → 663'."""
    found: list[str] = []
    for line in example.splitlines():
        words = line.strip()
        if words.startswith(">>> "):
            found.append(words[4:])
        elif words.startswith("... ") and found:
            found[-1] += " " + words[4:].strip()
        elif words and found:
            found[-1] += f" → {words}" if "→" not in found[-1] else f" {words}"
    return [line for line in found if not line.startswith(("import ", "from "))]


def _said(label: str, words: str) -> d.Paragraph:
    return d.Paragraph((d.Strong(d.words(f"{label}: ")), d.Text(words)))


def _equation(line: Equation) -> d.Markup | d.Code:
    return d.Markup(line.mathml) if line.mathml else d.Code(line.typed)


def _unit(given: Given) -> d.Inline:
    return d.words(UNIT_WORDS.get(given.unit, given.unit))


def _rule(given: Given) -> str:
    return given.rule.replace("<=", "≤").replace(">=", "≥")


def _parameters(sheet: Sheet) -> d.Table:
    columns = (d.Column("Goes in"), d.Column("Sign"), d.Column("Unit"), d.Column("May be"), d.Column("What it is"))
    rows = tuple(
        d.Row(((d.Code(one.name),), d.words(one.sign), _unit(one), d.words(_rule(one)), d.words(one.words)))
        for one in sheet.parameters
    )
    return d.Table(f"What goes into {sheet.name}", columns, rows, caption_shown=False)


def _results(sheet: Sheet) -> d.Table:
    columns = (d.Column("Comes out"), d.Column("Sign"), d.Column("Unit"), d.Column("What it is"))
    rows = tuple(
        d.Row(
            (
                (d.Code(one.name),) if one.name else d.words("the result"),
                d.words(one.sign),
                _unit(one),
                d.words(one.words or one.rule.replace("_", " ")),
            )
        )
        for one in sheet.results
    )
    return d.Table(f"What comes out of {sheet.name}", columns, rows, caption_shown=False)
