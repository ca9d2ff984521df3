"""What does the chapter on calculations hold? Plain records, kept between builds, so that no library need be loaded."""

from __future__ import annotations

import os
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from methodsheets.handbook.digests import base_digest, file_digest
from methodsheets.handbook.seals import seal, unseal
from methodsheets.sheet.records import RecordError, pack, unpack

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
    subject: str
    sentence: str
    details: str
    equations: tuple[Equation, ...]
    in_stated_units: bool
    parameters: tuple[Given, ...]
    results: tuple[Given, ...]
    validity: str
    example: str
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
    key = f"{base_digest()} {file_digest(Path(__file__))}"
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
    draft = kept.with_suffix(f".{os.getpid()}.tmp")
    try:
        kept.parent.mkdir(parents=True, exist_ok=True)
        draft.write_bytes(seal(made.key, pack(made)))
        draft.replace(kept)
    except OSError:
        draft.unlink(missing_ok=True)


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
    return Sheet(
        one.name,
        one.subject.replace("_", "-"),
        one.sentence,
        one.details,
        tuple(_equation(line) for line in one.equations),
        one.equation_in_stated_units,
        tuple(parameters),
        results,
        one.validity,
        one.example,
        one.source,
        one.trust,
    )


def _said(default: object) -> str:
    return f"{default:g}" if isinstance(default, float) else str(default)


def _equation(line: str) -> Equation:
    from methodsheets.formula.equations import equation_mathml
    from methodsheets.formula.errors import FormulaError

    try:
        return Equation(line, equation_mathml(line))
    except FormulaError:
        return Equation(line)
