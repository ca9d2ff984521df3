"""What is wrong, where, and what to do about it: problems are values that are collected, never thrown."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

_UNSEEN = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")
"""Signs that a terminal obeys instead of showing them; among them those that turn the direction of reading."""


LONG, A_SLIP = 4, 0.75
"""Letters of a word that says what another one is about; how like two words are of which one is a slip."""


class Severity(StrEnum):
    """How much a problem matters to the reader of the page."""

    ERROR = "error"
    """A number or a picture is missing or may be wrong."""
    WARNING = "warning"
    """The method can be published, but its author should look at this."""


@dataclass(frozen=True, order=True)
class Place:
    """A place in a text file; line and column count from 1, front matter included."""

    path: str
    line: int = 1
    column: int = 1

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}"

    def right(self, characters: int) -> Place:
        """The place so many characters further along the same line."""
        return Place(self.path, self.line, self.column + characters)


@dataclass(frozen=True, order=True)
class Problem:
    """One thing that is wrong, as a person would tell it: what, the rule, the remedy."""

    place: Place
    what: str
    """What is wrong, with the value in it: 'grip of 20 mm is longer than the stock (got 20 mm of 18 mm)'."""
    rule: str = ""
    """The rule that was broken, one clause."""
    remedy: str = ""
    """What to do, in the imperative."""
    severity: Severity = Severity.ERROR
    code: str = "method"
    """Short stable word for the kind of problem, e.g. 'unknown-key'; tests and the guide refer to it."""

    def order(self) -> tuple[str, bool, int, int]:
        """By file; there, what is written wrong before the checks that fail because of it; each by line."""
        return self.place.path, self.code.startswith("check-"), self.place.line, self.place.column

    def __str__(self) -> str:
        words = f"{self.place}: " + "; ".join(part for part in (self.what, self.rule, self.remedy) if part)
        return _UNSEEN.sub(
            "\ufffd", words
        )  # a stranger's words must not steer the terminal, nor begin a line of their own


@dataclass
class Problems:
    """The problems found so far, in the order in which they were found."""

    found: list[Problem] = field(default_factory=list)

    def error(self, place: Place, what: str, rule: str = "", remedy: str = "", *, code: str = "method") -> None:
        """Note something that makes a published number missing or doubtful."""
        self.found.append(Problem(place, what, rule, remedy, Severity.ERROR, code))

    def warning(self, place: Place, what: str, rule: str = "", remedy: str = "", *, code: str = "method") -> None:
        """Note something that the author should look at."""
        self.found.append(Problem(place, what, rule, remedy, Severity.WARNING, code))

    def extend(self, problems: Iterable[Problem]) -> None:
        """Take over problems found elsewhere."""
        self.found.extend(problems)

    def __iter__(self) -> Iterator[Problem]:
        return iter(self.found)

    def __len__(self) -> int:
        return len(self.found)

    @property
    def errors(self) -> list[Problem]:
        """Only the errors."""
        return [problem for problem in self.found if problem.severity is Severity.ERROR]


class MethodError(Exception):
    """A problem on its way to the nearest place that collects it; never leaves a room's public functions."""

    def __init__(self, place: Place, what: str, rule: str = "", remedy: str = "", *, code: str = "method") -> None:
        self.problem = Problem(place, what, rule, remedy, Severity.ERROR, code)
        super().__init__(str(self.problem))


def nearest(word: str, known: Iterable[str], cutoff: float = 0.6) -> str:
    """The known word that is spelled most like another; empty where none is as like as `cutoff`, from 0 to 1."""
    words = sorted(set(known))
    near = difflib.get_close_matches(word.lower(), [w.lower() for w in words], n=1, cutoff=cutoff)
    return next((w for w in words if near and w.lower() == near[0]), "")


def meant_by_its_help(word: str, helps: Mapping[str, str]) -> str:
    """A remedy: the word that is spelled alike, else the one or two whose help says it: `length` is told by `over`.

    Parameters:
        helps: what each known word is for
    """
    about = [known for known, help in helps.items() if help.lower().startswith(word.lower())]
    telling = about or [known for known, help in helps.items() if word.lower() in re.findall(r"\w+", help.lower())]
    if len(word) < LONG or nearest(word, helps, A_SLIP) or not 1 <= len(telling) <= 2:
        return did_you_mean(word, helps)
    said = " or ".join(f"`{known}`, {helps[known].rstrip('.')}" for known in telling)
    return f"did you mean {said}?"


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A remedy that names the nearest known words, or lists them all where none is near."""
    words = sorted(set(known))
    match = nearest(word, words)
    if match:
        return f"did you mean `{match}`?"
    if not words:
        return ""
    if len(words) > 24:
        parts = {part for part in re.split(r"[_\W]+", word.lower()) if len(part) > 2}
        kin = [known for known in words if parts & set(re.split(r"[_\W]+", known.lower()))]
        if kin:
            return f"there are {', '.join(f'`{w}`' for w in kin[:24])}"
        return f"known are for instance {', '.join(f'`{w}`' for w in words[:24])}, …"
    return f"known: {', '.join(f'`{w}`' for w in words)}"
