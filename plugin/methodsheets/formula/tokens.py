"""Which words, numbers with units, and signs does an expression consist of?

A unit follows its number, with or without a blank: `12 mm`, `12mm`, `3/8 in`, `1 1/4 in`, `5 %`, `12°30'15"`.
A compound unit written without blanks is one unit (`25 m/min`, `620 1/min`); with blanks, `/` and `*` calculate.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from methodsheets.formula.units import is_spoken, is_unit_word
from methodsheets.reading import limits
from methodsheets.reading.problem import MethodError
from methodsheets.reading.text import BLANKS, Text

LONGEST = limits.EXPRESSION
MOST_DIGITS = limits.DIGITS
LARGEST_EXPONENT = limits.EXPONENT
LONGEST_WORDS = limits.WORDS
LONGEST_NAME = limits.NAME
UNSEEN = ("Cc", "Cs", "Cn", "Zl", "Zp")
"""Categories of characters that no page can show."""

NUMBER = re.compile(r"(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+(?![\w.]))?", re.ASCII)
FRACTION = re.compile(r"(?:(?P<whole>\d+)[ ]+)?(?P<top>\d+)/(?P<bottom>\d+)(?![\d.])", re.ASCII)
NAME = re.compile(r"[^\W\d]\w*")
BLANK = re.compile(r"\s*")
SIGN = re.compile(r"\*\*|<=|>=|==|!=|[-+*/^(),\[\].<>=≤≥≠·×÷−⋅]")
UNIT_WORD = re.compile(r"°[CF](?!\w)|[°%]|[^\W\d²³⁴]+")
UNIT_POWER = re.compile(r"(?:\^|\*\*)-?\d(?![\d.])|⁻?[²³⁴]")
MINUTES = re.compile(r"[ ]?(?P<n>\d+(?:\.\d*)?)[ ]?(?:'|′|arcmin(?!\w))")
SECONDS = re.compile(r"[ ]?(?P<n>\d+(?:\.\d*)?)[ ]?(?:\"|″|''|arcsec(?!\w))")
SAME = {"^": "**", "≤": "<=", "≥": ">=", "≠": "!=", "·": "*", "⋅": "*", "×": "*", "÷": "/", "−": "-"}


@dataclass(frozen=True, slots=True)
class Token:
    """One word or sign; `kind` is 'number', 'words', 'name', 'sign' or 'end'."""

    kind: str
    value: str
    start: int
    end: int
    number: float = 0.0
    unit: str = ""
    unit_words: tuple[str, ...] = ()


class Tokens:
    """Reads an expression word by word; `parse` asks for one token after the other."""

    def __init__(self, text: Text) -> None:
        if len(text.value) > LONGEST:
            raise MethodError(
                text.place,
                f"the expression is too long (got {len(text.value):,} characters)",
                f"an expression has at most {LONGEST:,}",
                "give parts of it names of their own",
                code="too-long",
            )
        self.text = text
        self.line = text.value.translate(BLANKS)
        self.before = ""
        """The sign or word before the current one; a fraction may not follow `/`."""

    def fail(self, start: int, what: str, rule: str = "", remedy: str = "", code: str = "syntax") -> MethodError:
        """The error at an offset of the expression."""
        return MethodError(self.text.at(start), what, rule, remedy, code=code)

    def read(self, at: int) -> Token:
        """The token that begins at or behind an offset."""
        match = BLANK.match(self.line, at)
        start = match.end() if match else at
        if start >= len(self.line):
            return Token("end", "", len(self.line), len(self.line))
        token = self._token(start)
        self.before = token.value
        return token

    def _token(self, start: int) -> Token:
        character = self.line[start]
        if character.isascii() and (character.isdigit() or (character == "." and self._digit(start + 1))):
            return self._number(start)
        name = NAME.match(self.line, start) if not (character in "Øø" and self._digit(start + 1)) else None
        if name:
            if len(name[0]) > LONGEST_NAME:
                raise self.fail(
                    start,
                    f"the name is too long (got {len(name[0])} characters)",
                    f"a name has at most {LONGEST_NAME}",
                    "shorten it",
                    "too-long",
                )
            return Token("name", name[0], start, name.end())
        if character == '"':
            return self._words(start)
        sign = SIGN.match(self.line, start)
        if sign:
            return Token("sign", SAME.get(sign[0], sign[0]), start, sign.end())
        raise self._stray(start, character)

    def _stray(self, start: int, character: str) -> MethodError:
        remedies = {
            "'": 'put words in double quotes, e.g. "H7/s6"; minutes follow degrees',
            "Ø": "leave it out: a diameter is written as its size",
            "ø": "leave it out: a diameter is written as its size",
            "⌀": "leave it out: a diameter is written as its size",
            "$": "money is written `12 money`",
            "€": "money is written `12 money`",
            "£": "money is written `12 money`",
            "&": "write `and`",
            "|": "write `or`",
            "!": "write `not`",
            "%": "a percentage is written `5 %`",
            "°": "an angle is written `30°` or `30 deg`",
            "{": "write the name without braces",
            ";": "a comma separates clauses, and each calculation has a line of its own",
            "“": 'write straight double quotes, e.g. "H7/s6"',
            "”": 'write straight double quotes, e.g. "H7/s6"',
            "„": 'write straight double quotes, e.g. "H7/s6"',
            ":": "write `=`",
        }
        shown = character if character.isprintable() else f"U+{ord(character):04X}"
        return self.fail(start, f"unexpected sign `{shown}`", "", remedies.get(character, "take it out"))

    def _digit(self, at: int) -> bool:
        return at < len(self.line) and self.line[at].isascii() and self.line[at].isdigit()

    def _words(self, start: int) -> Token:
        end = self.line.find('"', start + 1)
        if end < 0:
            raise self.fail(start, "a quotation mark is not closed", "", 'write the second `"`')
        if end - start - 1 > LONGEST_WORDS:
            raise self.fail(
                start,
                f"the words are too long (got {end - start - 1} characters)",
                f"words in quotation marks have at most {LONGEST_WORDS}",
                "shorten them",
                "too-long",
            )
        inside = self.line[start + 1 : end]
        stray = next(
            (index for index, character in enumerate(inside) if unicodedata.category(character) in UNSEEN), None
        )
        if stray is not None:
            raise self.fail(
                start + 1 + stray,
                f"a sign that cannot be printed (got U+{ord(inside[stray]):04X})",
                "words in quotation marks are plain text",
                "delete it",
            )
        return Token("words", inside, start, end + 1)

    def _number(self, start: int) -> Token:
        fraction = FRACTION.match(self.line, start) if self.before != "/" else None
        if fraction:
            token = self._fraction(start, fraction)
            if token:
                return token
        match = NUMBER.match(self.line, start)
        assert match is not None
        value = self._value(start, match[0])
        unit, end, words = self._unit(match.end())
        if unit == "deg" and words == ("deg",) and "." not in match[0]:
            return self._degrees(start, value, end)
        if not unit:
            self._refuse_glued(start, match)
        return self._measured(start, end, value, unit, words)

    def _measured(self, start: int, end: int, value: float, unit: str, words: tuple[str, ...]) -> Token:
        """A number with its unit, as it stands between two columns."""
        return Token(
            kind="number",
            value=self.line[start:end],
            start=start,
            end=end,
            number=value,
            unit=unit,
            unit_words=_doubtful(unit, words),
        )

    def _value(self, start: int, digits: str) -> float:
        mantissa, _, exponent = digits.lower().partition("e")
        if len(mantissa.replace(".", "")) > MOST_DIGITS:
            raise self.fail(
                start,
                f"the number has too many digits (got {len(mantissa)})",
                f"a number has at most {MOST_DIGITS}",
                "round it",
                "too-long",
            )
        if exponent and (len(exponent) > 4 or abs(int(exponent)) > LARGEST_EXPONENT):
            raise self.fail(
                start,
                f"the number is out of reach (got {digits})",
                f"its exponent is at most {LARGEST_EXPONENT}",
                "choose another unit",
                "too-large",
            )
        return float(digits)

    def _fraction(self, start: int, match: re.Match[str]) -> Token | None:
        """`3/8 in` and `1 1/4 in`: one number if a unit follows; None if this is a division or a unit 1/min."""
        unit, end, words = self._unit(match.end())
        if not unit and self.line[match.end() : match.end() + 1] == '"':
            unit, end, words = "inch", match.end() + 1, ("in",)
        if not unit:
            if match["whole"]:
                raise self.fail(
                    start,
                    f"two numbers side by side (got {match[0]})",
                    "a mixed number needs a unit",
                    "write `1 1/4 in`, or a sign between",
                )
            return None
        bottom = self._value(start, match["bottom"])
        if not bottom:
            raise self.fail(start, f"division by zero (got {match[0]})", "", "correct the fraction", "division")
        whole = self._value(start, match["whole"]) if match["whole"] else 0.0
        value = whole + self._value(start, match["top"]) / bottom
        return self._measured(start, end, value, unit, words)

    def _refuse_glued(self, start: int, match: re.Match[str]) -> None:
        """A number may not run straight into a word that is no unit: `12mn`."""
        glued = NAME.match(self.line, match.end())
        if glued:
            raise self.fail(
                match.end(),
                f"unknown unit `{glued[0]}` (got {match[0]}{glued[0]})",
                "a unit follows a number; a product is written with `*`",
                did_you_mean_unit(glued[0]),
                "unknown-unit",
            )

    def _unit(self, at: int) -> tuple[str, int, tuple[str, ...]]:
        """The unit that begins at or one blank behind `at`: its words, where it ends, and its single words."""
        if self.line[at : at + 1] == '"':
            return "inch", at + 1, ("in",)
        start = at
        while self.line[start : start + 1] == " ":
            start += 1
        over_one = re.compile(r"1?/(?=[^\W\d])").match(self.line, start)
        words: list[str] = []
        end = at
        if over_one and not (over_one[0] == "1/" and start == at):
            begin = over_one.end()
            found = self._unit_word(begin)
            if not found or self._is_call(found):
                return "", at, ()
            words.append(self.line[begin:found].split("^")[0])
            end = self._power(found)
            unit = "1/" + self.line[begin:end]
        else:
            found = self._unit_word(start)
            if not found or self._is_call(found):
                return "", at, ()
            words.append(self.line[start:found])
            end = self._power(found)
            unit = self.line[start:end]
        more, end = self._more_units(end, words)
        return _canonical(unit + more), end, tuple(_canonical(word) for word in words)

    def _more_units(self, end: int, words: list[str]) -> tuple[str, int]:
        begin = end
        while self.line[end : end + 1] in ("*", "·", "/") and self.line[end : end + 2] != "**":
            if self.line[end + 1 : end + 2] == "(":
                return self._bracketed(begin, end, words)
            found = self._unit_word(end + 1)
            if not found or self._is_call(found):
                break
            words.append(self.line[end + 1 : found])
            end = self._power(found)
        return self.line[begin:end], end

    def _bracketed(self, begin: int, end: int, words: list[str]) -> tuple[str, int]:
        """`W/(m*K)`: brackets in a unit hold unit words only."""
        match = re.compile(r"/\((?P<in>[^\W\d]+(?:[*·][^\W\d]+)+)\)").match(self.line, end)
        inner = re.split(r"[*·]", match["in"]) if match else []
        if match is None or not all(map(is_unit_word, inner)):
            return self.line[begin:end], end
        words.extend(inner)
        return self.line[begin : match.end()], match.end()

    def _unit_word(self, at: int) -> int:
        """Where the unit word at `at` ends; 0 if there is none."""
        match = UNIT_WORD.match(self.line, at)
        if match is None or not is_unit_word(match[0]):
            return 0
        glued = self.line[match.end() : match.end() + 1]
        return 0 if glued.isdecimal() and match[0] not in ("°", "%") else match.end()

    def _is_call(self, end: int) -> bool:
        return self.line[end : end + 1] == "("

    def _power(self, end: int) -> int:
        match = UNIT_POWER.match(self.line, end)
        return match.end() if match else end

    def _degrees(self, start: int, degrees: float, end: int) -> Token:
        minutes = MINUTES.match(self.line, end)
        seconds = SECONDS.match(self.line, minutes.end() if minutes else end)
        for match, word in ((minutes, "minutes"), (seconds, "seconds")):
            if match and float(match["n"]) >= 60:
                raise self.fail(
                    match.start("n"),
                    f"too many {word} of arc (got {match['n']})",
                    f"{word} run from 0 to 59",
                    "carry them over",
                )
        value = degrees
        if minutes:
            value += float(minutes["n"]) / 60
        if seconds:
            value += float(seconds["n"]) / 3600
        end = seconds.end() if seconds else minutes.end() if minutes else end
        return Token("number", self.line[start:end], start, end, value, "deg")


def _doubtful(unit: str, words: tuple[str, ...]) -> tuple[str, ...]:
    """The words of a unit that might be meant as names: those behind a `/` or `*` in a unit that people do not say."""
    if ("/" not in unit and "*" not in unit) or is_spoken(unit):
        return ()
    return words if unit.startswith("1/") else words[1:]


def did_you_mean_unit(word: str) -> str:
    """A remedy for a word that is no unit."""
    from methodsheets.formula.units import unknown_unit

    return unknown_unit(word).remedy


def _canonical(unit: str) -> str:
    return {"°": "deg", "degree": "deg", "degrees": "deg", "in": "inch", "inches": "inch"}.get(unit, unit)
