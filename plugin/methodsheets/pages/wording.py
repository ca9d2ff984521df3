"""How does a page say a time, a status, a state of a check? The few words that every page shares."""

from __future__ import annotations

from collections.abc import Iterable
from typing import overload

from methodsheets.formula.kinds import write
from methodsheets.formula.measure import Measure
from methodsheets.operations.cautions import TOPICS
from methodsheets.sheet.model import Caution, Check, Fact, Method, Operation, Setup
from methodsheets.sheet.words import RECALLED, Words

from . import document as d

STATUS = {
    "draft": "Draft: not yet tried",
    "proven": "Proven: made this way",
    "retired": "Retired: kept for the record",
}

PROVEN_ELSEWHERE = "Proven in its author’s workshop, not in this one"


def status(method: Method) -> str:
    """The status of a method, in its workshop: what was made in one workshop is not proven for another."""
    if method.status == "proven" and not method.own_workshop:
        return PROVEN_ELSEWHERE
    return STATUS.get(method.status, method.status)


STATES = {"passed": "agrees", "tight": "tight", "failed": "does not agree", "not known": "not known"}

IN_MM = "Drawings are in mm."
"""What a page says once: a drawing keeps its sizes, whatever units the reader chose."""


def status_where(method: Method) -> str:
    """The status, whatever workshop the reader chose: what was made in one workshop is proven for that one alone."""
    return f"{method.status} in {method.workshop_name}" if method.status == "proven" else method.status


def recalled_mark(recalled: Iterable[str]) -> d.Inline:
    """The mark, where there is something to mark."""
    title = "rests on a value from memory, not looked up"
    return (d.Span("recalled", d.words(RECALLED), (("title", title),)),) if tuple(recalled) else ()


def recalled_note(marked: Iterable[Fact | Setup | Operation]) -> tuple[d.Paragraph, ...]:
    """The footnote for all that is marked: what was recalled, table by table; nothing where nothing is marked."""
    tables: dict[str, list[str]] = {}
    for words in dict.fromkeys(words for one in marked for words in one.rests_on):
        table, _, row = words.partition(": ")
        tables.setdefault(table, []).append(row)
    if not tables:
        return ()
    said = "; ".join(f"{table}: {', '.join(rows)}" if any(rows) else table for table, rows in tables.items())
    lead = f"{RECALLED} Rests on values from memory, not looked up: a place to start. "
    return (d.Paragraph((d.Small((d.Strong(d.words(lead)), d.Text(f"{said}."))),), kind="recalled-note"),)


def inch_note() -> d.Paragraph:
    """For a reader of inches, who sees it only then: what is not turned into inches."""
    return d.Paragraph((d.Strong(d.words("Drawings and workings are in mm.")),), kind="inch-note")


def minutes(given: float) -> Measure:
    """A time in minutes as people say it: '45 s', '3 min 20 s', '1 h 05 min'."""
    return _measure(given, "min", "time")


def time_between(given: float, ends: tuple[float, float] | None) -> d.Inline:
    """A time, and between which times it may well be."""
    found = d.value(minutes(given))
    if ends is None:
        return found
    low, high = (minutes(end).metric for end in ends)  # a time is the same in both systems
    return (*found, d.Text(f" ({low} to {high})"))


def volume(cm3: float) -> Measure:
    """A volume of metal in cm³ or cubic inches."""
    return _measure(cm3 * 1000, "mm^3", "volume")


def length(mm: float) -> Measure:
    """A length in mm, as limits print it: to the micrometre."""
    return _measure(mm, "mm", "size")


def _measure(value: float, unit: str, kind: str) -> Measure:
    return Measure(value, unit, kind, write(value, kind), write(value, kind, "inch"))


def count(number: int, one: str, many: str = "") -> str:
    """'1 operation', '8 operations'."""
    return f"{number} {one if number == 1 else many or one + 's'}"


@overload
def sentence(words: Words) -> Words: ...
@overload
def sentence(words: str) -> str: ...
def sentence(words: Words | str) -> Words | str:
    """The words with a capital first letter."""
    return words.changed(_capital) if isinstance(words, Words) else _capital(words)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def listed(names: Iterable[str]) -> str:
    """Names in a row, each once: 'a, b, c', or 'a; b, c; d' where a name has a comma itself; 'none' for nothing."""
    each = list(dict.fromkeys(name for name in names if name))
    return ("; " if any("," in name for name in each) else ", ").join(each) or "none"


def with_code(text: str) -> d.Inline:
    """Words in which `names` between backticks are shown as they are typed."""
    pieces = text.split("`")
    if len(pieces) % 2 == 0:
        return d.words(text)
    return tuple(d.Code(piece) if index % 2 else d.Text(piece) for index, piece in enumerate(pieces) if piece)


def caution_box(cautions: Iterable[Caution], again: Iterable[tuple[Caution, str]] = ()) -> tuple[d.Box, ...]:
    """The usual cautions at the place where they apply; nothing if there are none.

    Parameters:
        cautions: those to print in full.
        again: those that stand in full further up, each with the words for where.
    """
    items = [d.words(words) for words in dict.fromkeys(caution.words for caution in cautions)]
    items += [d.words(words) for words in repeated(again)]
    if not items:
        return ()
    content: d.Blocks = (d.Listing(tuple(items), kind="cautions"),) if len(items) > 1 else (d.Paragraph(items[0]),)
    return (d.Box("caution", "Caution", content),)


def repeated(again: Iterable[tuple[Caution, str]]) -> list[str]:
    """Short words for cautions that stand in full further up: 'Swarf, chuck key: as at operation 10.'"""
    places: dict[str, list[str]] = {}
    for caution, where in again:
        topic = TOPICS.get(caution.key, caution.key.replace("-", " ").capitalize())
        places.setdefault(where, []).append(topic)
    return [f"{sentence(', '.join(topics).lower())}: as at {where}." for where, topics in places.items()]


def failed_boxes(checks: Iterable[Check]) -> tuple[d.Box, ...]:
    """What the geometry or the machine says against it."""
    failed = [check for check in checks if check.state == "failed"]
    if not failed:
        return ()
    items = tuple(d.words(check.words) for check in failed)
    return (d.Box("failed", "Does not work as written", (d.Listing(items),)),)


def checks_disclosure(checks: Iterable[Check], of: str) -> tuple[d.Disclosure, ...]:
    """All checks of something (`of`) in one line that opens; what failed is also shown as a box by `failed_boxes`."""
    found = tuple(checks)
    if not found:
        return ()
    passed = sum(check.verdict == "passed" for check in found)
    tight = sum(check.verdict == "tight" for check in found)
    unknown = sum(check.state == "not known" for check in found)
    said = f"The geometry agrees: {count(passed + tight, 'check')}" if passed + tight == len(found) else (
        f"{passed + tight} of {count(len(found), 'check')} agree"
    )  # fmt: skip
    extras = [f"{tight} tight"] * bool(tight) + [f"{unknown} not known"] * bool(unknown)
    items = tuple(
        (d.Span(f"state {_word(check)}", d.words(_state(check))), d.Text(" "), *d.words(check.words)) for check in found
    )
    line, listing = d.words(", ".join([said, *extras])), d.Listing(items, kind="checks")
    return (d.Disclosure(line, (listing,), kind="checks", later=f"The checks of {of}"),)


def _state(check: Check) -> str:
    return STATES[check.verdict]


def _word(check: Check) -> str:
    return {"not known": "unknown"}.get(check.verdict, check.verdict)


def fact_pair(fact: Fact, kind: str = "", *, split: bool = False) -> d.Pair:
    """A label and a value; what the author overruled is said beside it."""
    given = fact.value
    content: d.Inline = (d.Quantity(given, split),) if isinstance(given, Measure) else d.words(given)
    content = (*content, *recalled_mark(fact.recalled))
    if fact.overruled:
        content = (*content, d.Small((d.Text(" as the author says, not "), *d.words(fact.overruled))))
    if fact.note:
        content = (*content, d.Small((d.Text(" "), *d.words(fact.note))))
    return d.Pair(d.words(fact.label), content, kind + (" overruled" if fact.overruled else ""), fact.key)
