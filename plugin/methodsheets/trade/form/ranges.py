"""Between which bounds does a parameter have to lie, and is it a count? The range of a docstring, read and held to."""

from __future__ import annotations

import functools
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass

_NUMBER = r"[-+]?(?:\d+\.?\d*(?:[eE][-+]?\d+)?|pi)"
_BOUND = rf"(?:(?:{_NUMBER})(?:\s*\*\s*[A-Za-z]\w*)?|[A-Za-z]\w*)"
_BETWEEN = re.compile(rf"^({_BOUND})\s*(<=?)\s*(\w+)\s*(<=?)\s*({_BOUND})$")
_ONE_SIDED = re.compile(rf"^(\w+)\s*(<=?|>=?)\s*({_BOUND})$")


@dataclass(frozen=True)
class Bound:
    """One end of a range: a number, or so many times another parameter, known by its symbol."""

    factor: float
    symbol: str = ""
    is_open: bool = True

    def value(self, known: Mapping[str, float]) -> float | None:
        """The bound as a number; nothing where the other parameter was not given."""
        if not self.symbol:
            return self.factor
        return self.factor * known[self.symbol] if self.symbol in known else None


@dataclass(frozen=True)
class Range:
    """What the brackets behind a parameter's unit say.

    `0 < d <= D`, `z >= 8, whole number`, `q > 0, not 1`, `one of iso, full`.
    """

    rule: str = ""
    low: Bound | None = None
    high: Bound | None = None
    whole: bool = False
    never: float | None = None
    choices: tuple[str, ...] = ()

    def holds(self, value: float, known: Mapping[str, float]) -> bool:
        """Whether a number lies in the range; `known` are the other parameters by symbol, in this one's unit."""
        low = self.low.value(known) if self.low else None
        high = self.high.value(known) if self.high else None
        if low is not None and self.low is not None and not _above(value, low, self.low.is_open):
            return False
        if high is not None and self.high is not None and not _above(high, value, self.high.is_open):
            return False
        if self.never is not None and math.isclose(value, self.never, rel_tol=1e-9):
            return False
        return not self.whole or value == round(value)

    @functools.cached_property
    def symbols(self) -> tuple[str, ...]:
        """The other parameters that bound this one."""
        return tuple(bound.symbol for bound in (self.low, self.high) if bound is not None and bound.symbol)


ANY = Range()
"""No bounds at all."""


def _above(value: float, other: float, is_open: bool) -> bool:
    """Whether a value lies above another; a hair of rounding does not put an equal one outside."""
    if math.isclose(value, other, rel_tol=1e-12):
        return not is_open
    return value > other


def read_range(rule: str) -> Range | None:
    """Read what stands in the brackets; nothing where it cannot be read."""
    if not rule:
        return ANY
    if rule.startswith("one of "):
        return Range(rule, choices=tuple(word.strip().lower() for word in rule[7:].split(",")))
    bounds, *more = (part.strip() for part in rule.split(","))
    ends = _ends(bounds)
    if ends is None:
        return None
    whole, never = False, None
    for word in more:
        if word == "whole number":
            whole = True
        elif said := re.fullmatch(rf"not ({_NUMBER})", word):
            never = _number(said[1])
        else:
            return None
    return Range(rule, *ends, whole=whole, never=never)


def _ends(words: str) -> tuple[Bound | None, Bound | None] | None:
    if between := _BETWEEN.match(words):
        return _bound(between[1], between[2]), _bound(between[5], between[4])
    if one_sided := _ONE_SIDED.match(words):
        end = _bound(one_sided[3], one_sided[2])
        return (end, None) if one_sided[2].startswith(">") else (None, end)
    return None


def _bound(words: str, sign: str) -> Bound:
    factor, times, symbol = words.partition("*")
    if times:
        return Bound(_number(factor.strip()), symbol.strip(), "=" not in sign)
    if re.fullmatch(_NUMBER, words):
        return Bound(_number(words), "", "=" not in sign)
    return Bound(1.0, words, "=" not in sign)


def _number(text: str) -> float:
    sign = -1 if text.startswith("-") else 1
    return sign * math.pi if text.lstrip("+-") == "pi" else float(text)
