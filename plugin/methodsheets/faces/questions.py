"""What is in your workshop? Six questions at a terminal turn the usual workshop into the reader's own.

An answer is taken when the workshop with it can be read; what is wrong is said in the words of the workshop's reader,
and the question is asked again. Enter keeps what is in brackets.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from methodsheets.faces.yaml_words import in_yaml
from methodsheets.reading.problem import Problems
from methodsheets.workshop.reader import parse_workshop

Ask = Callable[[str], str]
Tell = Callable[[str], None]
LATHE = ("machines", "lathe")


@dataclass(frozen=True)
class Question:
    """One thing that is asked, and where in the workshop file the answer stands."""

    words: str
    path: tuple[str, ...]
    metric: str = ""
    """What a bare number is in."""
    inch: str = ""
    also: Callable[[str, str], str] | None = None
    """Brings what depends on it after it: the file before and after the answer, and the file that it gives."""


SLIDE = (*LATHE, "swing over cross slide")
"""Follows the swing over the bed; it is to be measured."""


def _with_slide(before: str, after: str) -> str:
    """What turns over the cross slide, in the proportion of the usual lathe."""
    problems = Problems()
    usual, own = (parse_workshop(text, "my-workshop.yml", problems) for text in (before, after))
    if usual is None or own is None or list(problems):
        return after
    was, now = usual.machines["lathe"], own.machines["lathe"]
    share = was.swing_over_cross_slide / was.swing_over_bed
    guess = f"{now.swing_over_bed * share:.0f} mm"
    return with_value(after, SLIDE, guess, note="guessed from the swing over the bed: measure it")


QUESTIONS = (
    Question("What is your workshop called?", ("workshop",)),
    Question("Do you think in metric or inch?", ("units",)),
    Question("How large a disc turns over the bed of your lathe?", (*LATHE, "swing over bed"), "mm", "in", _with_slide),
    Question("How long a bar goes between its centres?", (*LATHE, "between centres"), "mm", "in"),
    Question("Which speeds has its spindle, in 1/min?", (*LATHE, "speeds"), "1/min", "1/min"),
    Question("How strong is its motor?", (*LATHE, "power"), "kW", "hp"),
)


def own_workshop(usual: str, ask: Ask, tell: Tell) -> str:
    """The text of a workshop file with the answers in it.

    Parameters:
        usual: the file of the usual workshop
        ask: shows its words and gives the line that is typed; EOFError ends the questions
        tell: shows a line
    """
    text = usual
    try:
        for question in QUESTIONS:
            text = _asked(text, question, ask, tell)
    except EOFError:
        tell("")
    return text


def _asked(text: str, question: Question, ask: Ask, tell: Tell) -> str:
    while True:
        held = value_at(text, question.path)
        answer = " ".join(ask(f"{question.words} [{held}] ").split())
        if not answer:
            return text
        unit = question.inch if value_at(text, ("units",)) == "inch" else question.metric
        if unit and re.fullmatch(r"[\d., /]+( to [\d., ]+)?", answer):
            answer = f"{answer} {unit}"
        changed = with_value(text, question.path, answer)
        if question.also:
            changed = question.also(text, changed)
        problems = Problems()
        parse_workshop(changed, "my-workshop.yml", problems)
        found = next(iter(problems), None)
        if found is None:
            return changed
        tell("  " + "; ".join(part for part in (found.what, found.rule, found.remedy) if part))


def value_at(text: str, path: tuple[str, ...]) -> str:
    """What stands at a key of the file, as it is written.

    Raises:
        KeyError: there is no such key.
    """
    lines = text.splitlines()
    said = lines[_line_of(lines, path)].partition(":")[2]
    return _bare(said.partition("  #")[0].strip())


def with_value(text: str, path: tuple[str, ...], value: str, note: str = "") -> str:
    """The file with another value at a key; every other line, and every comment, stays."""
    lines = text.splitlines()
    number = _line_of(lines, path)
    key = lines[number].partition(":")[0]
    lines[number] = f"{key}: {in_yaml(value)}" + (f"  # {note}" if note else "")
    return "\n".join(lines) + "\n"


def _line_of(lines: list[str], path: tuple[str, ...]) -> int:
    number = -1
    for depth, key in enumerate(path):
        indent = "  " * depth
        number = next(
            (at for at in range(number + 1, len(lines)) if lines[at].startswith(f"{indent}{key}:")), len(lines)
        )
        if number == len(lines):
            raise KeyError(".".join(path))
    return number


def _bare(written: str) -> str:
    if written[:1] == '"' == written[-1:] and len(written) > 1:
        return written[1:-1].replace('\\"', '"').replace("\\\\", "\\")
    return written
