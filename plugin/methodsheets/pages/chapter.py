"""What does the chapter on calculations hold? Plain records, kept between builds, so that no library need be loaded."""

from __future__ import annotations

import contextlib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from methodsheets.handbook.digests import base_digest, file_digest
from methodsheets.handbook.seals import seal, unseal
from methodsheets.reading.inside import Inside, RefusedError
from methodsheets.sheet.records import RecordError, pack, unpack

from .example import Worked, answers, number_of, picture, why_no_picture, worked

if TYPE_CHECKING:
    from methodsheets.trade.form.calculation import Calculation


@dataclass(frozen=True)
class Given:
    """One thing that goes in or comes out: its name, its sign in the formula, its unit, what it may be, what it is."""

    name: str
    sign: str
    unit: str
    rule: str
    words: str


@dataclass(frozen=True)
class Equation:
    """A formula, set (`mathml`) and as typed; `mathml` is empty where it cannot be set."""

    typed: str
    mathml: str = ""


@dataclass(frozen=True)
class Sheet:
    """One calculation as the chapter shows it."""

    name: str
    """As it is typed."""
    title: str
    """As it is spoken of: its name in words."""
    subject: str
    sentence: str
    details: str
    equations: tuple[Equation, ...]
    in_stated_units: bool
    parameters: tuple[Given, ...]
    results: tuple[Given, ...]
    validity: str
    example: str
    story: str
    """The worked example in words and numbers: what goes in, what comes out; empty where it is no plain call."""
    picture: str
    """How the answer moves with what moves it most, as SVG text; empty where it comes from a table."""
    no_picture: str
    """Why there is none, in a sentence; empty where there is one."""
    source: str
    trust: str


@dataclass(frozen=True)
class Chapter:
    """All calculations, sorted by subject and name; `key` is the digest of all that they were read from."""

    key: str
    sheets: tuple[Sheet, ...]

    @property
    def subjects(self) -> tuple[str, ...]:
        """The subjects, in order."""
        return tuple(dict.fromkeys(sheet.subject for sheet in self.sheets))

    def of(self, subject: str) -> tuple[Sheet, ...]:
        """The calculations of a subject."""
        return tuple(sheet for sheet in self.sheets if sheet.subject == subject)


def read_chapter(kept: Path | None = None) -> Chapter:
    """Return the chapter, from the file `kept` if nothing changed since it was written.

    A damaged file is read anew. Where the file cannot be written the chapter is simply made each time.
    """
    beside = [file_digest(Path(__file__).with_name(f"{name}.py")) for name in ("chapter", "example", "charts")]
    key = " ".join([base_digest(), *beside])
    if kept is not None and (found := _from(kept, key)) is not None:
        return found
    made = Chapter(key, _all_sheets())
    if kept is not None:
        _keep(kept, made)
    return made


def _from(kept: Path, key: str) -> Chapter | None:
    try:
        whole = unseal(key, kept.read_bytes())
        found = unpack(Chapter, whole) if whole is not None else None
    except (OSError, RecordError):
        return None
    return found if found is not None and found.key == key else None


def _keep(kept: Path, made: Chapter) -> None:
    with contextlib.suppress(RefusedError):
        Inside(kept.parent).write(kept.name, seal(made.key, pack(made)))


@cache
def _all_sheets() -> tuple[Sheet, ...]:
    from methodsheets.trade.form.calculation import catalogue

    sheets = [_sheet(one) for one in catalogue().values()]
    return tuple(sorted(sheets, key=lambda sheet: (sheet.subject, sheet.name)))


def _sheet(one: Calculation) -> Sheet:
    parameters = []
    for given in one.parameters:
        rule = given.rule or ", ".join(given.choices)
        if given.default is not None:
            rule += ("; " if rule else "") + f"{_said(given.default)} unless said"
        elif given.optional:
            rule += ("; " if rule else "") + "may be left out"
        parameters.append(Given(given.name, given.symbol, given.unit, rule, given.text))
    results = tuple(Given(given.name, given.symbol, given.unit, given.kind, given.text) for given in one.results)
    example = worked(one)
    drawn = picture(one, example, unit_words)
    return Sheet(
        name=one.name,
        title=in_words(one.name),
        subject=one.subject.replace("_", "-"),
        sentence=one.sentence,
        details=one.details,
        equations=tuple(_equation(line) for line in one.equations),
        in_stated_units=one.equation_in_stated_units,
        parameters=tuple(parameters),
        results=results,
        validity=one.validity,
        example=one.example,
        story=_story(one, example),
        picture=drawn,
        no_picture="" if drawn else why_no_picture(one, example),
        source=one.source,
        trust=one.trust,
    )


UNIT_WORDS = {
    "1": "number", "flag": "yes or no", "text": "words", "deg": "°", "um": "µm", "degC": "°C", "delta_degC": "°C",
    "mm^2": "mm²", "mm^3": "mm³", "mm^4": "mm⁴", "cm^3": "cm³", "N*m": "N·m", "g*mm": "g·mm", "cm^3/min": "cm³/min",
    "kg*mm^2": "kg·mm²", "kg/m^3": "kg/m³", "g/cm^3": "g/cm³",
}  # fmt: skip
PLAIN_UNITS = frozenset({"1", "flag", "text"})


def unit_words(unit: str) -> str:
    """A unit as it is written on a page."""
    return UNIT_WORDS.get(unit, unit)


def in_words(name: str) -> str:
    """A name as it is spoken: 'spindle_speed' is 'Spindle speed'."""
    spoken = name.replace("_", " ").strip()
    return spoken[:1].upper() + spoken[1:]


def _story(one: Calculation, example: Worked | None) -> str:
    """'With cutting speed 25 m/min, diameter 12 mm: spindle speed 663.15 1/min'."""
    if example is None:
        return ""
    given = []
    for parameter in one.parameters:
        value = example.arguments.get(parameter.name)
        if _tells(value):
            given.append(f"{parameter.name.replace('_', ' ')} {_measured(value, parameter.unit)}")
    found = number_of(one, example.result)
    told = [(found[1], found[0])] if found else answers(one, example.result)
    index, value = next(((index, value) for index, value in told if _tells(value)), (0, None))
    result = one.results[index]
    name = (result.name if result.name and len(one.results) > 1 else one.name).replace("_", " ")
    return f"With {', '.join(given)}: {name} {_measured(value, result.unit)}" if given and _tells(value) else ""


def _tells(value: object) -> bool:
    """Whether it is a number, a word, or a list of them: what a sentence can say."""
    if isinstance(value, list | tuple):
        return bool(value) and all(map(_tells, value))
    return isinstance(value, int | float | str) and not isinstance(value, bool)


def _measured(value: object, unit: str) -> str:
    several = value if isinstance(value, list | tuple) else [value]
    numbers = ", ".join(f"{one:.5g}" if isinstance(one, float) else str(one) for one in several)
    return numbers if unit in PLAIN_UNITS else f"{numbers} {unit_words(unit)}"


def _said(default: object) -> str:
    return f"{default:g}" if isinstance(default, float) else str(default)


def _equation(line: str) -> Equation:
    from methodsheets.formula.equations import equation_mathml
    from methodsheets.formula.errors import FormulaError

    try:
        return Equation(line, equation_mathml(line))
    except FormulaError:
        return Equation(line)
