"""Which clauses does a verb know, and what did the author say in them?

A line under a verb is clauses separated by commas, each a keyword and an expression: `to journal + 0.5 mm, over 30 mm`.
The first clause may go without a keyword where the verb has an obvious one (`face: 0.5 mm`).  A short word such as
`at`, `from` or `to` may also follow inside a clause: `axis offset throw at 0 deg`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Protocol

from methodsheets.reading.clauses import split_clauses
from methodsheets.reading.method_file import Text
from methodsheets.reading.problem import MethodError, Place, did_you_mean, meant_by_its_help
from methodsheets.trade.metal.heat import colour_temperature
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.spelling import Words

from .clause_slips import no_point, size_first

KINDS = (
    "length",
    "lengths",
    "angle",
    "angles",
    "count",
    "counts",
    "number",
    "text",
    "flag",
    "points",
    "thread",
    "minutes",
    "temperature",
    "prose",
)
"""What may stand in a clause. `thread` and `text` are the author's words; lists and `prose` run on over commas."""

RUNS_ON = ("lengths", "angles", "counts", "points", "prose")
POINT = re.compile(r"\([^()]*,[^()]*\)")
"""A place: (10 mm, 8 mm)."""
NUMBERS = ("length", "lengths", "angle", "angles", "count", "counts", "number")
SIZES = ("length", "angle", "count", "number")
LISTS = ("lengths", "angles", "counts", "points")
INNER = ("at", "from", "to", "over", "with", "on", "for", "by", "deep", "wide", "long", "through", "about")
"""Short words that start a new clause inside another one."""


@dataclass(frozen=True)
class Clause:
    """One clause that a verb knows."""

    word: str
    """Keyword; empty for the unnamed first clause."""
    kind: str
    help: str = ""
    required: bool = False
    changes: tuple[Change, ...] = (Change.SOLID,)
    """What giving it changes at least; a test holds every verb to it."""
    says: str = ""
    """What it tells ('the depth'); of two clauses that tell the same, one contradicts the other."""
    or_angle: str = ""
    """The clause that is meant where the value is an angle: `at 2 mm` and `at 30 deg` in one line are two things."""
    within: tuple[float, float] | None = None
    """Degrees between which an angle stands that opens a wedge or a cone: at its ends there is none."""
    of_axis: bool = False
    """Whether it speaks of work that has an axis, in a line that holds work either about one or by its faces."""
    apart: bool = False
    """Whether the sentence of the operation leaves it out: the sheet then says it in a line of its own."""
    also: tuple[str, ...] = ()
    """Other words for it that people write."""
    choices: Words[Any] | None = None
    """The words that may stand in it, where they are few; the value is then the word's member, not its text."""


class Reader(Protocol):
    """Reads an expression in the author's scope; raises MethodError with the place."""

    def length(self, text: Text) -> float:
        """A length in mm."""
        ...

    def angle(self, text: Text) -> float:
        """An angle in degrees."""
        ...

    def is_angle(self, text: Text) -> bool:
        """Whether an expression is an angle with its unit."""
        ...

    def number(self, text: Text) -> float:
        """A pure number."""
        ...

    def points(self, text: Text) -> tuple[tuple[float, ...], ...]:
        """Points in mm."""
        ...

    def words(self, text: Text) -> str:
        """The author's words, quotes taken off."""
        ...

    def minutes(self, text: Text) -> float:
        """A time in minutes."""
        ...

    def temperature(self, text: Text) -> float:
        """A temperature in degrees Celsius."""
        ...


@dataclass(frozen=True, eq=False)
class Said:
    """What the author said in the clauses of one line, already evaluated."""

    place: Place
    line: Text
    values: dict[str, Any] = field(default_factory=dict)
    texts: dict[str, Text] = field(default_factory=dict)
    assumed: frozenset[str] = frozenset()
    """Clauses that the author left out and the sheet filled in."""
    asked: set[str] = field(default_factory=set)
    """Clauses that something asked for: what nobody asks for changes nothing."""

    def __contains__(self, word: str) -> bool:
        self.asked.add(word)
        return word in self.values

    def has(self, word: str) -> bool:
        """Whether a clause was said, asked without making use of it."""
        return word in self.values

    def get(self, word: str, default: Any = None) -> Any:
        """The value of a clause, or the default where it was not said."""
        self.asked.add(word)
        return self.values.get(word, default)

    def length(self, word: str) -> float:
        """A length or number that must have been said."""
        if word not in self.values:
            name = f"`{word}`" if word else "the size"
            raise MethodError(
                self.place,
                f"{name} is missing (got `{self.line.value}`)",
                "this line needs it",
                f"write {word + ' ' if word else ''}and a value with its unit",
                code="missing-clause",
            )
        self.asked.add(word)
        return float(self.values[word])

    def looked_no_further(self) -> None:
        """Nothing is read that hangs on what is missing: no clause is idle for that."""
        self.asked.update(self.texts)

    def all_asked(self, what: str, clauses: Iterable[Clause]) -> None:
        """Refuse the first clause that nobody asked for: it is accepted by the verb and changes nothing here."""
        helps = {clause.word: clause.help for clause in clauses}
        for word, text in self.texts.items():
            if word not in self.asked:
                name, value = f"`{word}`" if word else "the first word", f" (got `{text.value}`)" if text.value else ""
                raise MethodError(
                    text.place,
                    f"{name} changes nothing in this `{what}`{value}",
                    f"it says: {helps[word]}" if helps.get(word) else "what is written is carried out or refused",
                    "take it away, or say what it belongs to",
                    code="idle-clause",
                )

    def where(self, word: str) -> Place:
        """The place of a clause, or of the line where it was not said."""
        return self.texts[word].place if word in self.texts else self.place


def read_clauses(line: Text, first: Clause | None, clauses: Sequence[Clause], reader: Reader, what: str) -> Said:
    """Split a line into its clauses and evaluate each; MethodError names the clause that is wrong.

    `what` names the line in messages: 'turn', 'hold', 'stock'.
    """
    known = {word: clause for clause in clauses for word in (clause.word, *clause.also)}
    said = Said(line.place, line)
    for clause, text in _segments(line, first, known, what, reader):
        if clause.kind == "prose" and clause.word in said.values:
            said.values[clause.word] = f"{said.values[clause.word]}, {text.value}"
            continue
        if clause.kind in LISTS and clause.word in said.values:
            said.values[clause.word] = (*said.values[clause.word], *_value(clause, text, reader, what))
            continue
        if clause.word in said.values:
            name = clause.word or "size"
            raise MethodError(
                text.place,
                f"`{name}` is said twice in `{what}`",
                "each clause once",
                "take one away",
                code="repeated-clause",
            )
        said.values[clause.word] = _value(clause, text, reader, what)
        said.texts[clause.word] = text
    _no_contradiction(said, (first, *clauses) if first else clauses)
    for clause in (first, *clauses) if first else clauses:
        if clause.required and clause.word not in said.values:
            raise MethodError(
                line.place,
                f"`{what}` needs {_called(clause)} (got `{line.value}`)",
                clause.help or "it cannot be worked out",
                "write it",
                code="missing-clause",
            )
    return said


def _no_contradiction(said: Said, clauses: Iterable[Clause]) -> None:
    """Refuse two clauses that tell the same thing."""
    told: dict[str, Clause] = {}
    for clause in clauses:
        if not clause.says or not said.has(clause.word):
            continue
        other = told.setdefault(clause.says, clause)
        if other is not clause:
            one, two = (f"`{c.word}`" if c.word else "the first size" for c in (other, clause))
            words, rule = f"{one} and {two} are both said", f"one of them tells {clause.says}"
            raise MethodError(said.where(clause.word), words, rule, "take one away", code="contradiction")


def _alone(clause: Clause | None) -> bool:
    return clause is not None and clause.kind == "flag"


def _called(clause: Clause) -> str:
    return f"`{clause.word}` and a {clause.kind}" if clause.word else f"a {clause.kind} first"


def _segments(
    line: Text, first: Clause | None, known: dict[str, Clause], what: str, reader: Reader
) -> Iterable[tuple[Clause, Text]]:
    last: Clause | None = None
    for number, segment in enumerate(split_clauses(line)):
        for part in [segment] if first is not None and first.kind == "prose" else _inner(segment, known):
            if not part.value:
                continue
            clause, text = _keyword(part, known)
            if number == 0 and last is None and first is not None and first.required and _alone(clause):
                clause, text = first, part  # `hold: soft jaws` names what holds, and is no flag
            if clause is None and last is not None and _runs_on(last, part.value):
                clause = last
            if clause is None and number == 0 and first is not None and last is None:
                clause = first
            if clause is None:
                word = re.split(r"[\s\d]", part.value, maxsplit=1)[0]
                raise MethodError(
                    part.place,
                    f"`{what}` does not know `{part.value}`",
                    _rule(first, known),
                    _which_it_is(what, part.value, known)
                    if number == 0 and not word
                    else meant_by_its_help(word or part.value, {name: one.help for name, one in known.items() if name}),
                    code="unknown-clause",
                )
            if clause is first and (short := _short_word(part.value, known)) and first.kind in SIZES:
                raise size_first(part, what, short)
            places = [name for name, one in known.items() if one.kind == "points"]
            if POINT.match(text.value) and clause.kind in NUMBERS and places:
                raise no_point(text, clause.word or what, clause.kind, places[0])
            if clause.or_angle and text.value and reader.is_angle(text):
                clause = known[clause.or_angle]
            last = clause
            yield clause, text


def _short_word(value: str, known: Mapping[str, Clause]) -> str:
    """The short word that a line begins with, and which begins no clause of it: `at` of `at 26 mm`."""
    word = value.split(" ", 1)[0].lower()
    return word if word in INNER and word not in known and " " in value else ""


def _which_it_is(what: str, value: str, known: Mapping[str, Clause]) -> str:
    """What to write where a line begins with a bare value: the clause that the line needs, or those that there are."""
    needed = [word for word, clause in known.items() if word and clause.required]
    return f"say what it is: `{what}: {needed[0]} {value}`" if needed else did_you_mean(value, [w for w in known if w])


def _runs_on(last: Clause, text: str) -> bool:
    """Whether a segment without a known word goes on with the clause before it; `bore 10 mm` begins one of its own."""
    own_word = last.kind != "prose" and re.match(r"[A-Za-z][\w-]*( [A-Za-z][\w-]*)*\s+[\d.]", text) is not None
    return last.kind in RUNS_ON and not own_word


def _rule(first: Clause | None, known: dict[str, Clause]) -> str:
    words = ", ".join(word for word in known if word)
    return f"its clauses are {words}" if words else "it has no further clauses" if first else "it takes no clauses"


def _inner(segment: Text, known: dict[str, Clause]) -> list[Text]:
    """Cut a clause where one of the short words starts another: `offset throw at 0 deg`."""
    inner = [word for word in INNER if word in known]
    if not inner:
        return [segment]
    parts, begin = [], 0
    for match in re.finditer(rf"(?<=[\w\"')°%])\s+(?=(?:{'|'.join(inner)})(?:\s|$))", segment.value):
        if _at_top(segment.value, match.start()) and _is_expression(segment.value[begin : match.start()], known):
            parts.append(_cut(segment, begin, match.start()))
            begin = match.end()
    return [*parts, _cut(segment, begin, len(segment.value))]


def _is_expression(text: str, known: dict[str, Clause]) -> bool:
    """Whether what stands before a short word is more than the keyword it belongs to (`to through`)."""
    return text.strip() not in known or known[text.strip()].kind == "flag"


def _at_top(text: str, position: int) -> bool:
    before = text[:position]
    return (
        before.count('"') % 2 == 0 and before.count("(") == before.count(")") and before.count("[") == before.count("]")
    )


def _cut(text: Text, start: int, end: int) -> Text:
    raw = text.value[start:end]
    lead = len(raw) - len(raw.lstrip())
    return Text(raw.strip(), text.place.right(start + lead))


def _keyword(part: Text, known: dict[str, Clause]) -> tuple[Clause | None, Text]:
    for word in sorted((w for w in known if w), key=len, reverse=True):
        if re.match(rf"{re.escape(word)}(?=[\s\"(=]|$)", part.value, re.IGNORECASE):
            return known[word], _cut(part, len(word), len(part.value))
    return None, part


def _value(clause: Clause, text: Text, reader: Reader, what: str) -> Any:
    if clause.kind == "flag":
        if text.value:
            raise MethodError(
                text.place,
                f"`{clause.word}` stands alone (got `{text.value}`)",
                "it takes no value",
                f"write only {clause.word}",
                code="unknown-clause",
            )
        return True
    if not text.value:
        raise MethodError(
            text.place,
            f"`{clause.word}` has no value",
            f"it is a {clause.kind}",
            "write it behind the word",
            code="missing-clause",
        )
    read: dict[str, Callable[[], Any]] = {
        "length": lambda: reader.length(text),
        "lengths": lambda: (reader.length(text),),
        "angle": lambda: reader.angle(text),
        "angles": lambda: (reader.angle(text),),
        "count": lambda: _count(text, reader),
        "counts": lambda: (_count(text, reader),),
        "number": lambda: reader.number(text),
        "points": lambda: reader.points(text),
        "minutes": lambda: reader.minutes(text),
        "temperature": lambda: _temperature(text, reader),
    }
    return read.get(clause.kind, lambda: _word(clause, reader.words(text), text, what))()


def _word(clause: Clause, words: str, text: Text, what: str) -> Any:
    """The author's words, or the member that they mean where the clause has choices."""
    if clause.choices is None:
        return words
    meant = clause.choices.read(words)
    if meant is None:
        what = f"no such {clause.word or what} (got `{words}`)"
        rule = "known: " + ", ".join(clause.choices.known)
        raise MethodError(text.place, what, rule, clause.choices.remedy(words), code="wrong-value")
    return meant


def _temperature(text: Text, reader: Reader) -> float:
    """Degrees Celsius, or the colour that tells them: `temper dark straw`."""
    told = colour_temperature(text.value)
    return told if told is not None else reader.temperature(text)


def _count(text: Text, reader: Reader) -> int:
    value = reader.number(text)
    if value != int(value) or not 0 <= value <= 10_000:
        raise MethodError(
            text.place,
            f"a count is a whole number (got {text.value})",
            "0 to 10 000",
            "write a whole number",
            code="wrong-value",
        )
    return int(value)
