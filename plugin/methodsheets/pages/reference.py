"""What can the handbook work out, with which formula, and where does it come from? One page for each subject."""

from __future__ import annotations

from methodsheets.reading.slug import slugify
from methodsheets.trade.form.chapters import by_chapter, subject_title

from . import document as d
from .chapter import Chapter, Equation, Given, Sheet, unit_words
from .places import Places

EXACT = "The rule itself is exact: only what goes in bounds it."


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
    rows = tuple(
        d.Row((_name(sheet, target), d.words(sheet.sentence), (d.Code(sheet.name),))) for sheet in chapter.of(subject)
    )
    columns = (d.Column("Calculation"), d.Column("What it answers"), d.Column("To type"))
    return [
        d.Heading(3, (d.Link(target, d.words(title)),) if target else d.words(title), subject),
        d.Table(title, columns, rows, kind="contents", caption_shown=False),
    ]


def _name(sheet: Sheet, target: str) -> d.Inline:
    name = d.words(sheet.title)
    return (d.Link(f"{target}#{anchor(sheet.name)}", name),) if target else name


def anchor(name: str) -> str:
    """Place of a calculation on its page."""
    return name.replace("_", "-").lower()


def sheet_blocks(sheet: Sheet) -> d.Blocks:
    """One calculation as a handbook has it: what it is for, formula, picture, example, limits; its name comes last."""
    body: list[d.Block] = [
        d.Heading(2, d.words(sheet.title), anchor(sheet.name)),
        d.Paragraph(d.words(sheet.sentence), kind="lead"),
    ]
    if sheet.details:
        body.append(d.Paragraph(d.words(sheet.details)))
    body += [d.Paragraph((_equation(line),), kind="formula") for line in sheet.equations]
    if sheet.in_stated_units:
        body.append(d.Paragraph((d.Small(d.words("Holds for numbers in the units listed.")),)))
    if sheet.picture:
        body.append(d.Paragraph((d.Markup(sheet.picture),), kind="curve"))
    body += _example(sheet)
    if sheet.no_picture:
        body.append(d.Paragraph((d.Small(d.words(sheet.no_picture)),)))
    body += _when_not(sheet)
    if sheet.parameters:
        body.append(_parameters(sheet))
    body.append(_results(sheet))
    body += [_said("Source", sheet.source), _said("How far to believe it", sheet.trust)]
    typed = f"{sheet.name}({', '.join(given.name for given in sheet.parameters)})"
    body.append(d.Paragraph((d.Strong(d.words("To type in a method: ")), d.Code(typed)), kind="typed"))
    return (d.Group("calculation", tuple(body)),)


def _example(sheet: Sheet) -> d.Blocks:
    """The worked example, in words where it is one plain call, and as it is typed."""
    if not sheet.example:
        return ()
    body: list[d.Block] = [d.Paragraph((d.Strong(d.words("Worked example")),), kind="card-title")]
    if sheet.story:
        body.append(d.Paragraph(d.words(f"{sheet.story}.")))
    lines = tuple((d.Code(line),) for line in example_lines(sheet.example))
    body.append(d.Listing(lines, kind="source"))
    return tuple(body)


def _when_not(sheet: Sheet) -> d.Blocks:
    """Where it holds, and that it is not for what lies outside: the record's words and the bounds of its inputs."""
    bounds = [f"{given.name.replace('_', ' ')}: {rule}" for given in sheet.parameters if (rule := _bound(given))]
    rest, is_exact = sheet.validity.removeprefix("Exact. "), sheet.validity.startswith("Exact")
    said = [EXACT] if is_exact else []
    if rest.strip(". ") not in ("", "Exact"):
        said.append(rest if is_exact else f"Not outside this: {rest}")
    if bounds:
        said.append(f"What lies outside these bounds is refused: {'; '.join(bounds)}.")
    if not said:
        said.append("It has no bounds of its own; it is as true as what goes in.")
    head = d.Paragraph((d.Strong(d.words("When not to use it")),), kind="card-title")
    return (head, *(d.Paragraph(d.words(words)) for words in said))


def _bound(given: Given) -> str:
    """The bound of one input, without what stands there when nothing is said."""
    return _rule(given).split(";")[0] if any(sign in given.rule for sign in "<>") else ""


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
    return d.words(unit_words(given.unit))


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
