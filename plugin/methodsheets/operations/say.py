"""How does a sheet write a number inside a sentence?

`number`, `diameter` and `degrees` write it as drawings and messages do, in millimetres. `dim`, `dia` and `both` write
it for both systems at once: a sentence made with them is a draft, and `words` turns the draft into the `Words` of the
sheet. Between the two the inch form rides along behind private marks, so that sentences stay ordinary f-strings.
What a number rests on that was recalled and not read rides along in the same way (`resting`).
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from methodsheets.formula.kinds import INCH, write
from methodsheets.sheet.words import RECALLED, Words

_OPEN, _INCH, _CLOSE = "\ue000", "\ue001", "\ue002"
"""Private characters of Unicode: they mean nothing in anybody's text."""
_RESTS, _AND, _MARKED, _UNMARKED = "\ue003", "\ue004", "\ue005", "\ue006"
_PAIR = re.compile(f"{_OPEN}([^{_INCH}]*){_INCH}([^{_CLOSE}]*){_CLOSE}")
_REST = re.compile(f"{_RESTS}([^{_MARKED}{_UNMARKED}]*)([{_MARKED}{_UNMARKED}])")
_WRITTEN = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?) mm\b(?![²³^/])")
_FINE = 0.254
"""mm below which a size has four decimals of an inch."""


def number(value: float) -> str:
    """A length or an angle without its unit, as drawings write it: three decimals at most, no trailing zeros."""
    return _short(value, 3)


def diameter(value: float) -> str:
    """'Ø38'."""
    return f"Ø{number(value)}"


def degrees(value: float) -> str:
    """'40°'."""
    return f"{number(value)}°"


def dim(value: float) -> str:
    """A length of a draft without its unit: '13', and '0.512' in inches."""
    return _pair(number(value), _inches(value))


def dia(value: float) -> str:
    """A diameter of a draft: 'Ø38', and 'Ø1.496' in inches."""
    return _pair(diameter(value), f"Ø{_inches(value)}")


def exact(value: float) -> str:
    """A length of a draft to the micrometre, without its unit: '0.010', and '0.0004' in inches."""
    return _pair(f"{value:.3f}", f"{value / INCH:.4f}")


def both(value: float, kind: str) -> str:
    """Any quantity of a draft with its unit, rounded as its kind is: '80 N', and '18 lbf' in inches."""
    return _pair(write(value, kind), write(value, kind, "inch"))


MM = f"{_OPEN}mm{_INCH}in{_CLOSE}"
"""The unit behind the last `dim` of several, in a draft."""


def resting(said: str, on: Iterable[str]) -> str:
    """A number of a draft with what it rests on that was recalled and not read; nothing is added where all was read.

    The sheet marks such a number, and its footnote says what it rests on.
    """
    return f"{said}{_RESTS}{_AND.join(on)}{_MARKED}" if (on := tuple(on)) else said


def recalled_in(draft: str) -> tuple[str, ...]:
    """What the numbers of a draft rest on that was recalled and not read."""
    return tuple(dict.fromkeys(one for found in _REST.finditer(draft) for one in found[1].split(_AND)))


def words(draft: str) -> Words:
    """The words of the sheet, in both systems where the draft names sizes, with what their numbers rest on."""
    recalled = recalled_in(draft)
    said = _REST.sub(lambda found: RECALLED if found[2] == _MARKED else "", draft) if recalled else draft
    if _OPEN not in said:
        return Words(said, recalled=recalled)
    return Words(plain(said), _PAIR.sub(r"\2", said), recalled)


def as_written(text: str) -> Words:
    """An author's own words, which stay as they are; sizes written in mm are said in inches too."""
    return words(_WRITTEN.sub(lambda found: f"{_pair(found[1], _inches(float(found[1])))} {MM}", text))


def plain(draft: str) -> str:
    """The draft in millimetres only and without marks, for a message or a drawing."""
    return _PAIR.sub(r"\1", _REST.sub("", draft))


def draft(said: Words) -> str:
    """Words that become part of a longer sentence."""
    rests = f"{_RESTS}{_AND.join(said.recalled)}{_UNMARKED}" if said.recalled else ""
    return (_pair(said.metric, said.inch) if said.inch else said.metric) + rests


def turned(angle: float) -> float:
    """An angle from above -180 to 180 degrees, without the dust that the sums leave."""
    seen = round((angle + 180.0) % 360.0 - 180.0, 6)
    return 180.0 if seen == -180.0 else seen + 0.0


def joined(words: list[str]) -> str:
    """'a', 'a and b', 'a, b and c'."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}" if words else ""


def plural(count: int, one: str, many: str = "") -> str:
    """'1 hole', '6 holes'."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def _pair(metric: str, inch: str) -> str:
    return metric if metric == inch else f"{_OPEN}{metric}{_INCH}{inch}{_CLOSE}"


def _inches(value: float) -> str:
    """Three decimals of an inch; four for a size that is given to the micrometre or is small."""
    coarse = abs(value) >= _FINE and abs(value * 100 - round(value * 100)) < 1e-6
    return _short(value / INCH, 3 if coarse else 4)


def _short(value: float, places: int) -> str:
    text = f"{value:.{places}f}".rstrip("0").rstrip(".") if value == value else "?"
    return ("0" if text in ("-0", "") else text).replace("-", "\u2212")
