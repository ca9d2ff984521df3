"""What does one line of a workshop file say: a size, a row of sizes, a range, a choice, words?"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from methodsheets.reading.limits import SIZES_OF_A_TOOL
from methodsheets.reading.mapping import Entry
from methodsheets.reading.problem import Place, Problems, did_you_mean
from methodsheets.reading.text import Text

from .quantity import QuantityError, in_unit

_NUMBER = re.compile(r"^\s*([-+−]?(?:\d+\s+\d+/\d+|\d+/\d+|\d+(?:\.\d*)?(?:[eE][-+]?\d+)?|\.\d+))\s*(.*?)\s*$")
_RANGE = re.compile(r"^(.*?)\s+to\s+(.*?)(?:\s+by\s+(.*))?$")

_YES = {"yes", "true", "on"}
_NO = {"no", "false", "off"}

# No shop has more sizes than this in one set; a slip such as 'by 0.0001 mm' must not fill the memory.
LARGEST = 1e9
"""No size, speed or count of a workshop is larger, in any unit."""
_MOST_SIZES = SIZES_OF_A_TOOL


@dataclass(frozen=True)
class KeyShape:
    """What a key takes: 'text', 'words', 'choice', 'flag', 'amount', 'amounts', 'mapping'."""

    takes: str
    unit: str = ""
    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class Span:
    """A row of sizes as it is written: 'low to high by step', or one size (low = high)."""

    low: float
    high: float
    step: float = 0.0

    def sizes(self) -> tuple[float, ...]:
        """Every size of it."""
        if not self.step or self.high <= self.low:
            return (self.low,) if self.high == self.low else (self.low, self.high)
        count = int((self.high - self.low) / self.step + 1e-6)
        return tuple(round(self.low + self.step * place, 6) for place in range(count + 1))


class Fields:
    """The entries of one mapping, read key by key; what nobody asked for is an unknown key."""

    def __init__(self, entries: Iterable[Entry], place: Place, problems: Problems, what: str) -> None:
        self.place = place
        self.what = what
        self.problems = problems
        self._entries = {plain_key(entry.key.value): entry for entry in entries}
        self._asked: set[str] = set()
        self.shapes: dict[str, KeyShape] = {}
        """Every key that has been asked for and what it takes; the schema for editors is made of it."""

    def _entry(self, key: str) -> Entry | None:
        self._asked.add(key)
        return self._entries.get(key)

    def has(self, key: str) -> bool:
        """Whether the key is there."""
        self._asked.add(key)
        return key in self._entries

    def names(self) -> tuple[str, ...]:
        """The keys as they are written."""
        return tuple(entry.key.value.strip() for entry in self._entries.values())

    def place_of(self, key: str) -> Place:
        """Where the key stands; the mapping's own place where it is missing."""
        entry = self._entries.get(key)
        return entry.key.place if entry else self.place

    def _one(self, key: str) -> Text | None:
        """The value of a key that holds one line of text."""
        entry = self._entry(key)
        if entry is None:
            return None
        if entry.is_text:
            return entry.text
        if entry.texts and not entry.is_mapping:
            return Text(", ".join(item.value for item in entry.texts), entry.texts[0].place)
        self.problems.error(
            entry.key.place, f"`{key}` holds keys of its own", f"`{key}` takes one line", code="workshop-value"
        )
        return None

    def _takes(self, key: str, takes: str, unit: str = "", choices: Iterable[str] = ()) -> None:
        self.shapes.setdefault(key, KeyShape(takes, unit, tuple(choices)))

    def text(self, key: str, default: str = "") -> str:
        """Words."""
        self._takes(key, "text")
        found = self._one(key)
        return found.value.strip() if found else default

    def words(self, key: str) -> tuple[str, ...]:
        """Words separated by commas."""
        self._takes(key, "words")
        return tuple(word.strip() for word in self.text(key).split(",") if word.strip())

    def meant(self, key: str, read: Callable[[str], str | None], known: Iterable[str]) -> tuple[str, ...]:
        """Words separated by commas, each as `read` understands it; an error for a word of which it makes nothing."""
        names, found = tuple(known), {word: read(word) for word in self.words(key)}
        for word in (one for one, meaning in found.items() if not meaning):
            place = self._entries[key].text.place
            rule = f"`{key}` of a {self.what} takes words that have a meaning"
            remedy = did_you_mean(word, names) or f"write e.g. `{names[0]}`"
            self.problems.error(place, f"`{word}` means nothing here", rule, remedy, code="workshop-choice")
        return tuple(meaning for meaning in found.values() if meaning)

    def choice(self, key: str, choices: Iterable[str], default: str) -> str:
        """One of a list of words."""
        known = list(choices)
        self._takes(key, "choice", choices=known)
        found = self._one(key)
        if found is None:
            return default
        word = found.value.strip()
        match = next((one for one in known if plain_key(one) == plain_key(word)), None)
        if match is None:
            self.problems.error(
                found.place,
                f"`{word}` is no {key} of a {self.what}",
                "",
                did_you_mean(word, known),
                code="workshop-choice",
            )
            return default
        return match

    def flag(self, key: str, *, default: bool = False) -> bool:
        """Yes or no."""
        self._takes(key, "flag")
        found = self._one(key)
        if found is None:
            return default
        word = found.value.strip().lower()
        if word not in _YES | _NO:
            self.problems.error(found.place, f"`{key}` is neither yes nor no (got `{word}`)", code="workshop-value")
        return word in _YES

    def amount(
        self, key: str, unit: str, default: float = 0.0, *, least: float | None = 0.0, most: float | None = None
    ) -> float:
        """One quantity in a unit, within bounds."""
        self._takes(key, "amount", unit)
        found = self._one(key)
        if found is None:
            return default
        value = self._quantity(found.value, unit, found.place, key)
        if value is None:
            return default
        if (least is not None and value < least) or (most is not None and value > most):
            bounds = f"from {least:g} to {most:g}" if most is not None and least is not None else f"at least {least:g}"
            rule = f"it is {bounds}" + ("" if unit == "1" else f" {unit}")
            what = f"`{key}` is {found.value} of a {self.what}"
            self.problems.error(found.place, what, rule, code="workshop-range")
            return default
        return value

    def unit_of(self, key: str) -> str:
        """The unit in which a quantity is written; empty where it has none."""
        match = _NUMBER.match(self.text(key))
        return match.group(2).strip() if match else ""

    def whole(self, key: str, default: int = 0) -> int:
        """A count."""
        return round(self.amount(key, "1", default))

    def wholes(self, key: str) -> tuple[int, ...]:
        """Counts separated by commas, each of them one at least."""
        found = tuple(round(value) for value in self.amounts(key, "1"))
        if any(one < 1 for one in found):
            words = f"`{key}` holds a count of {min(found)}"
            self.problems.error(self.place_of(key), words, "a count is one at least", "", code="workshop-range")
            return ()
        return found

    def spans(self, key: str, unit: str) -> tuple[Span, ...]:
        """Sizes and ranges separated by commas: '1 to 13 mm by 0.1 mm, 14 mm'.

        A number without a unit takes that of the next one that has it, as one says 'two, four and six millimetres'.
        """
        self._takes(key, "amounts", unit)
        found = self._one(key)
        if found is None:
            return ()
        parts = _with_units([part.strip() for part in found.value.split(",") if part.strip()])
        spans = [self._span(part, unit, found.place, key) for part in parts]
        return tuple(span for span in spans if span is not None)

    def amounts(self, key: str, unit: str) -> tuple[float, ...]:
        """Every size of a row of sizes, in the order written."""
        sizes: list[float] = []
        for span in self.spans(key, unit):
            row = span.sizes() if len(sizes) <= _MOST_SIZES and _count(span) <= _MOST_SIZES else ()
            if not row:
                self.problems.error(
                    self.place_of(key),
                    f"`{key}` lists more than {_MOST_SIZES} sizes",
                    "",
                    "give a coarser step",
                    code="workshop-range",
                )
                return ()
            sizes.extend(row)
        return tuple(sizes)

    def span(self, key: str, unit: str) -> Span | None:
        """One range: '2 mm to 80 mm'."""
        spans = self.spans(key, unit)
        return spans[0] if spans else None

    def _span(self, text: str, unit: str, place: Place, key: str) -> Span | None:
        match = _RANGE.match(text)
        if not match:
            value = self._quantity(text, unit, place, key)
            return None if value is None else Span(value, value)
        low, high = (self._quantity(match.group(number), unit, place, key) for number in (1, 2))
        step = self._quantity(match.group(3), unit, place, key) if match.group(3) else 0.0
        if low is None or high is None or step is None:
            return None
        if high < low or step < 0:
            self.problems.error(place, f"`{key}` runs from {text}", "a range runs upwards", code="workshop-range")
            return None
        return Span(low, high, step)

    def _quantity(self, text: str, unit: str, place: Place, key: str) -> float | None:
        """A number and its unit, in `unit`."""
        match = _NUMBER.match(text)
        if not match:
            self.problems.error(
                place,
                f"`{key}` is no number (got `{text}`)",
                "",
                f"write a number{_unit_advice(unit)}",
                code="workshop-number",
            )
            return None
        try:
            found = in_unit(number(match.group(1)), match.group(2), unit)
            if not abs(found) <= LARGEST:
                raise QuantityError(
                    f"the number is out of reach (got `{text[:40]}`)", "", "check the number and its unit"
                )
            return found
        except QuantityError as error:
            self.problems.error(place, f"`{key}`: {error.what}", error.rule, error.remedy, code="workshop-unit")
            return None

    def nested(self, key: str, what: str) -> Fields | None:
        """The mapping under a key."""
        self._takes(key, "mapping")
        entry = self._entry(key)
        if entry is None:
            return None
        return _nested(entry, self.problems, what)

    def each(self, key: str, what: str) -> Iterator[tuple[str, Fields]]:
        """Every mapping under a key: ('lathe', its fields)."""
        entry = self._entry(key)
        if entry is None:
            return
        for one in _entries_of(entry, self.problems, f"a list of {what}s by name"):
            yield one.key.value.strip(), _nested(one, self.problems, what)

    def pairs(self, key: str) -> Mapping[str, Text]:
        """A mapping of plain lines under a key, key → text."""
        self._takes(key, "mapping")
        entry = self._entry(key)
        if entry is None:
            return {}
        found = _entries_of(entry, self.problems, "lines `name: value`")
        return {one.key.value.strip(): one.text for one in found if one.is_text}

    def pair_amounts(self, key: str, unit: str) -> dict[str, float]:
        """A mapping of quantities under a key."""
        found: dict[str, float] = {}
        for name, text in self.pairs(key).items():
            value = self._quantity(text.value, unit, text.place, name)
            if value is not None:
                found[name] = value
        return found

    def done(self) -> None:
        """Report every key that nobody asked for."""
        for key, entry in self._entries.items():
            if key not in self._asked:
                self.problems.error(
                    entry.key.place,
                    f"unknown key `{entry.key.value}` of a {self.what}",
                    "",
                    did_you_mean(key, self._asked),
                    code="unknown-key",
                )


def plain_key(key: str) -> str:
    """'Spindle-bore', 'spindle_bore' and 'spindle bore' are one key."""
    return " ".join(key.lower().replace("_", " ").replace("-", " ").split())


def number(text: str) -> float:
    """A decimal number, a fraction '3/8' or a mixed number '1 1/4'."""
    plain = text.strip().replace("−", "-")
    sign = -1.0 if plain.startswith("-") else 1.0
    value = 0.0
    for part in plain.lstrip("+-").split():
        top, _, bottom = part.partition("/")
        if bottom and float(bottom) == 0:
            return float("nan")
        value += float(top) / (float(bottom) if bottom else 1.0)
    return sign * value


def _count(span: Span) -> float:
    return (span.high - span.low) / span.step if span.step else 1


def _with_units(parts: list[str]) -> list[str]:
    """Give every bare number the unit of the next one that has one."""
    unit = ""
    done: list[str] = []
    for part in reversed(parts):
        pieces = re.split(r"(\s+(?:to|by)\s+)", part)
        for place in range(len(pieces) - 1, -1, -2):
            match = _NUMBER.match(pieces[place])
            if match and match.group(2):
                unit = match.group(2)
            elif match and unit:
                pieces[place] = f"{match.group(1)} {unit}"
        done.append("".join(pieces))
    return done[::-1]


def _unit_advice(unit: str) -> str:
    return "" if unit == "1" else f" and its unit, e.g. `12 {unit}`"


def _entries_of(entry: Entry, problems: Problems, wanted: str) -> tuple[Entry, ...]:
    """The entries under a key that must hold a mapping."""
    if not entry.is_mapping:
        got = f" (got `{entry.text.value}`)" if entry.text else ""
        problems.error(
            entry.key.place,
            f"`{entry.key.value}` holds no keys of its own{got}",
            f"it takes {wanted}",
            code="workshop-value",
        )
    return entry.entries


def _nested(entry: Entry, problems: Problems, what: str) -> Fields:
    """The fields of the mapping under a key; none, with a problem, where something else stands there."""
    if not entry.is_mapping and (entry.text or not entry.is_text):
        problems.error(
            entry.key.place,
            f"`{entry.key.value}` holds no keys of its own (got `{entry.text.value}`)",
            f"a {what} takes keys of its own",
            "write them on lines of their own below it, two blanks in",
            code="workshop-value",
        )
    return Fields(entry.entries, entry.key.place, problems, what)
