"""How does a page say a time, a status, a state of a check? The few words that every page shares."""

from __future__ import annotations

from collections.abc import Iterable

from methodsheets.formula.measure import Measure
from methodsheets.method.model import Caution, Check, Fact

from . import document as d

NARROW = "\u202f"
"""Narrow no-break space between a number and its unit."""

DEFER = "Your machine's manual, local rules and licensed practice come first."

STATUS = {
    "draft": "Draft: not yet tried",
    "proven": "Proven: made this way",
    "retired": "Retired: kept for the record",
}

STATES = {"passed": "agrees", "failed": "does not agree", "not known": "not known"}


def minutes(given: float) -> Measure:
    """A time in minutes as people say it: '45 s', '3 min 20 s', '1 h 05 min'."""
    seconds = round(given * 60)
    if seconds < 60:
        text = f"{seconds}{NARROW}s"
    elif seconds < 600:
        rest = round(seconds % 60 / 5) * 5
        whole = seconds // 60 + rest // 60
        rest %= 60
        text = f"{whole}{NARROW}min" + (f" {rest:02d}{NARROW}s" if rest else "")
    elif seconds < 3570:
        text = f"{round(seconds / 60)}{NARROW}min"
    else:
        whole = round(seconds / 60)
        text = f"{whole // 60}{NARROW}h {whole % 60:02d}{NARROW}min"
    return Measure(given, "min", "time", text, text)


def volume(cm3: float) -> Measure:
    """A volume of metal in cm³ or cubic inches."""
    inches = cm3 / 16.387064
    return Measure(
        cm3, "cm^3", "volume", f"{_digits(cm3)}{NARROW}cm³", f"{_digits(inches, 3 if inches < 1 else 2)}{NARROW}in³"
    )


def _digits(value: float, below_ten: int = 1) -> str:
    if value and abs(value) < 10 ** -below_ten / 2:
        return f"{value:.{below_ten + 2}g}"
    return f"{value:.{below_ten}f}" if abs(value) < 100 else f"{value:.0f}"


def length(mm: float, digits: int = 3) -> Measure:
    """A length in mm, as limits print it."""
    return Measure(
        mm, "mm", "size", f"{mm:.{digits}f}{NARROW}mm".replace("-", "−"), f"{mm / 25.4:.4f}{NARROW}in".replace("-", "−")
    )


def count(number: int, one: str, many: str = "") -> str:
    """'1 operation', '8 operations'."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def sentence(words: str) -> str:
    """The words with a capital first letter."""
    return words[:1].upper() + words[1:]


def listed(names: Iterable[str]) -> str:
    """Names in a row, each once: 'a, b, c'; 'none' for nothing."""
    return ", ".join(dict.fromkeys(name for name in names if name)) or "none"


def caution_box(cautions: Iterable[Caution]) -> tuple[d.Box, ...]:
    """The usual cautions at the place where they apply; nothing if there are none."""
    unique = dict.fromkeys(caution.words for caution in cautions)
    if not unique:
        return ()
    items = tuple(d.words(words) for words in unique)
    content: d.Blocks = (d.Listing(items, kind="cautions"),) if len(items) > 1 else (d.Paragraph(items[0]),)
    return (d.Box("caution", "Caution", content),)


def failed_boxes(checks: Iterable[Check]) -> tuple[d.Box, ...]:
    """What the geometry or the machine says against it."""
    failed = [check for check in checks if check.state == "failed"]
    if not failed:
        return ()
    items = tuple(d.words(check.words) for check in failed)
    return (d.Box("failed", "Does not work as written", (d.Listing(items),)),)


def checks_disclosure(checks: Iterable[Check]) -> tuple[d.Disclosure, ...]:
    """All checks in one line that opens; what failed is also shown as a box by `failed_boxes`."""
    found = tuple(checks)
    if not found:
        return ()
    passed = sum(check.state == "passed" for check in found)
    tight = sum(check.tight for check in found)
    unknown = sum(check.state == "not known" for check in found)
    said = f"The geometry agrees: {count(passed, 'check')}" if passed == len(found) - unknown else (
        f"{passed} of {count(len(found), 'check')} agree"
    )  # fmt: skip
    extras = [f"{tight} tight"] * bool(tight) + [f"{unknown} not known"] * bool(unknown)
    items = tuple((d.Span(f"state {_word(check)}", d.words(_state(check))), d.Text(f" {check.words}")) for check in found)
    return (d.Disclosure(d.words(", ".join([said, *extras])), (d.Listing(items, kind="checks"),), kind="checks"),)


def _state(check: Check) -> str:
    return "tight" if check.tight and check.state == "passed" else STATES.get(check.state, check.state)


def _word(check: Check) -> str:
    return {"passed": "tight" if check.tight else "passed", "failed": "failed"}.get(check.state, "unknown")


def fact_pair(fact: Fact, kind: str = "") -> d.Pair:
    """A label and a value; what the author overruled is said beside it."""
    content = d.value(fact.value)
    if fact.overruled:
        content = (*content, d.Small(d.words(f" as the author says, not {fact.overruled}")))
    if fact.note:
        content = (*content, d.Small(d.words(f" {fact.note}")))
    return d.Pair(d.words(fact.label), content, kind + (" overruled" if fact.overruled else ""), fact.key)
