"""A sentence of a sheet that names sizes, ready in millimetres and in inches."""

from __future__ import annotations

from abc import ABCMeta
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from methodsheets.formula.measure import Measure

RECALLED = "†"
"""Behind a number that rests on something recalled and not looked up; a footnote says what."""


@dataclass(frozen=True)
class Words:
    """What the sheet says in words, for readers of either system; plain data like `Measure`."""

    metric: str
    """'Turn to Ø38 over 13'."""
    inch: str = ""
    """'Turn to Ø1.496 over 0.512'; empty where the words name no size."""
    recalled: tuple[str, ...] = ()
    """What the numbers in them that are marked rest on: 'table: row', or what was taken from memory."""

    def __str__(self) -> str:
        return self.metric

    def __bool__(self) -> bool:
        return bool(self.metric)

    def in_units(self, units: str) -> str:
        """The words as somebody reads them who thinks in 'metric' or 'inch'."""
        return self.inch if units == "inch" and self.inch else self.metric

    def changed(self, change: Callable[[str], str]) -> Words:
        """The same words after a change that both systems share, such as a capital first letter."""
        return Words(change(self.metric), change(self.inch) if self.inch else "", self.recalled)

    def led_by(self, lead: str) -> Words:
        """The same words behind others that name no size: 'Operation 30: …'."""
        return self.changed(lambda said: lead + said)

    def parts(self) -> list[tuple[str, str]]:
        """The words cut where the two systems differ: (metric, inch), with an empty inch where they agree.

        Joined together, the first of each pair are `metric`.
        """
        if not self.inch or self.inch == self.metric:
            return [(self.metric, "")]
        ours, theirs = self.metric.split(" "), self.inch.split(" ")
        if len(ours) != len(theirs):
            return [(self.metric, self.inch)]
        found: list[tuple[str, str]] = []
        for index, (one, other) in enumerate(zip(ours, theirs, strict=True)):
            gap = " " if index else ""
            same = one == other
            if found and same == (not found[-1][1]):
                before, beside = found[-1]
                found[-1] = (f"{before}{gap}{one}", "" if same else f"{beside}{gap}{other}")
            elif same:
                found.append((gap + one, ""))
            else:
                if gap:
                    found = _with_gap(found)
                found.append((one, other))
        return found


if TYPE_CHECKING:
    Shown: TypeAlias = Measure | Words
    """A number or a sentence."""
else:
    # A record's reader takes it for a type of its own and asks `records.one_of` which of the two the data is.
    Shown = ABCMeta("Shown", (), {})
    Shown.register(Measure)
    Shown.register(Words)


NOTHING = Words("")
"""Nothing said."""


def joined(several: Iterable[Words], between: str) -> Words:
    """Several sayings in a row: 'push 80 N; 1 µm before the cut'."""
    each = list(several)
    metric = between.join(one.metric for one in each)
    inch = between.join(one.inch or one.metric for one in each) if any(one.inch for one in each) else ""
    return Words(metric, inch, tuple(dict.fromkeys(rests for one in each for rests in one.recalled)))


def _with_gap(found: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """A blank between words that agree and a size belongs to the words."""
    return [*found[:-1], (found[-1][0] + " ", "")]
