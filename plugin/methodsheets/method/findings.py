"""What was found out about a set-up or an operation, in the order in which it was found?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from methodsheets.operations.facts import fact, judged
from methodsheets.sheet.model import Caution, Check, Choice, Fact, Table, Working
from methodsheets.sheet.spread import Spread
from methodsheets.sheet.words import Words


@dataclass(frozen=True, eq=False)
class Findings:
    """The book of one set-up or operation: whoever looks at it writes down what he finds, and takes nothing back."""

    line: int
    """Line of the method file that the checks point to."""
    facts: list[Fact] = field(default_factory=list)
    checks: list[Check] = field(default_factory=list)
    cautions: list[Caution] = field(default_factory=list)
    notes: list[Words] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    choices: list[Choice] = field(default_factory=list)
    """What would follow if one thing of the cut were changed."""


class Looked:
    """Something that is looked at, and whose findings are kept."""

    found: Findings

    @property
    def line(self) -> int:
        """Line of the method file that its checks point to."""
        return self.found.line

    def judge(self, key: str, holds: bool | None, words: str, *, tight: bool = False, remedy: str = "") -> None:
        """Note a check: True passed, False failed, None not known."""
        self.found.checks.append(judged(key, holds, words, self.line, tight=tight, remedy=remedy))

    def has_judged(self, key: str) -> bool:
        """Whether that check was made."""
        return any(check.key == key for check in self.found.checks)

    def has_failed(self, *keys: str) -> bool:
        """Whether one of these checks failed."""
        return any(check.key in keys and check.state == "failed" for check in self.found.checks)

    def tell(
        self, key: str, label: str, value: float, unit: str = "mm", kind: str = "length", note: str = "",
        working: Sequence[Working | None] = (), *, desk: bool = False,
        spread: Spread | None = None, rests: Sequence[str] = (),
    ) -> None:  # fmt: skip
        """Note a number for the table, with how it is rounded and how it came about."""
        self.found.facts.append(
            fact(
                key,
                label,
                value,
                unit,
                kind,
                working=working,
                overruled="",
                note=note,
                desk=desk,
                spread=spread,
                rests=rests,
            )
        )
