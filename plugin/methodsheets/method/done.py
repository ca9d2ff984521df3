"""How far has an operation come? Said, planned, cut, worked out, checked: each stage knows what the one before knew.

A stage is made once and never changed. A function takes the stage that it needs, so that nobody asks for the force of
a cut that was not made. What is looked at afterwards goes into the book that travels with it (`found`), and the last
stage closes the book.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from methodsheets.method.findings import Findings, Looked
from methodsheets.operations import say
from methodsheets.operations.plan import Plan
from methodsheets.operations.station import Station
from methodsheets.operations.words import Said
from methodsheets.operations.worked import Worked
from methodsheets.reading.method_file import Block
from methodsheets.sheet.model import Caution, Check, Choice, Fact, Limit, Table
from methodsheets.sheet.words import Words
from methodsheets.workpiece import Cut, State, TurningFrame
from methodsheets.workshop.tools import Tool

if TYPE_CHECKING:
    from methodsheets.geometry import Solid
    from methodsheets.method.piece import Piece
    from methodsheets.method.rig import Rig


@dataclass(frozen=True, eq=False, kw_only=True)
class SaidOperation:
    """What the author wrote of one operation."""

    number: int
    block: Block
    verb: str
    said: Said
    """The clauses of its verb, as they were read."""
    tool_said: str
    """The author's own words for the tool; empty where he leaves the choice to the sheet."""

    @property
    def called(self) -> bool:
        """Whether the author gave the feature a name."""
        return self.said.has("called")

    @property
    def cutter_said(self) -> float:
        """Diameter in mm of the cutter that the author asks for, 0 where he leaves it to the sheet."""
        return float(self.said.get("cutter", 0.0))


@dataclass(frozen=True, eq=False, kw_only=True)
class PlannedOperation(SaidOperation, Looked):
    """What its verb makes of the words, on the work as it stands; nothing is cut yet."""

    id: str
    title: Words
    plan: Plan
    station: Station
    piece: Piece
    before: State
    tool: Tool | None
    found: Findings

    @property
    def tool_name(self) -> str:
        """The tool as the workshop calls it, else as the verb does."""
        return self.tool.name if self.tool else self.plan.tool_words

    @property
    def tag(self) -> str:
        """What the surfaces that it cuts are marked with; no other operation of the handbook has it."""
        return self.station.operation

    @property
    def words(self) -> Words:
        """The operation in one sentence, as the verb says it."""
        return say.words(self.plan.words)

    @property
    def frame(self) -> TurningFrame:
        """Lengths from the face as it stood before the cut, for work about an axis."""
        assert self.station.holding is not None
        return self.station.holding.frame(self.before.ends)


@dataclass(frozen=True, eq=False, kw_only=True)
class CutOperation(PlannedOperation):
    """What the plan did to the metal."""

    after: State
    cut: Cut | None
    stub: tuple[Solid, ...]
    """Pieces that came off and are not kept."""

    @property
    def removed(self) -> tuple[Solid, ...]:
        """What the cut took away, by body."""
        return tuple(self.cut.removed.values()) if self.cut else ()

    @property
    def volume(self) -> float:
        """mm³ removed."""
        return self.cut.volume if self.cut else 0.0


@dataclass(frozen=True, eq=False, kw_only=True)
class WorkedOperation(CutOperation):
    """Its numbers: cutting data, limits, times, weight, and what stands round the work in true size."""

    worked: Worked
    limits: tuple[Limit, ...]
    handling: float
    """Minutes to change the tool, touch off and measure."""
    grams_after: float
    rig: Rig | None
    """Holder, tail and tool round the work, for the reach test and the figure; only in the lathe."""


@dataclass(frozen=True, eq=False, kw_only=True)
class CheckedOperation(WorkedOperation):
    """Everything that is known of it when the whole method has been looked at."""

    facts: tuple[Fact, ...]
    checks: tuple[Check, ...]
    cautions: tuple[Caution, ...]
    notes: tuple[Words, ...]
    tables: tuple[Table, ...]
    choices: tuple[Choice, ...]


def planned(
    said: SaidOperation, *, id: str, title: Words, plan: Plan, station: Station, piece: Piece, tool: Tool | None,
    line: int,
) -> PlannedOperation:  # fmt: skip
    """The stage after the words."""
    found = Findings(line, checks=[*plan.checks], tables=[*plan.tables])
    return PlannedOperation(
        **vars(said), id=id, title=title, plan=plan, station=station, piece=piece, before=piece.work.state, tool=tool,
        found=found,
    )  # fmt: skip


def cut_as_planned(
    planned: PlannedOperation, *, after: State, cut: Cut | None, stub: tuple[Solid, ...]
) -> CutOperation:
    """The stage after the plan."""
    return CutOperation(**vars(planned), after=after, cut=cut, stub=stub)


def worked_out(
    done: CutOperation, *, worked: Worked, limits: tuple[Limit, ...], handling: float, grams_after: float,
    rig: Rig | None,
) -> WorkedOperation:  # fmt: skip
    """The stage after the cut."""
    return WorkedOperation(
        **vars(done), worked=worked, limits=limits, handling=handling, grams_after=grams_after, rig=rig
    )


def checked(done: WorkedOperation, limits: tuple[Limit, ...]) -> CheckedOperation:
    """The last stage: its limits know their partners, and its book is closed."""
    found = done.found
    return CheckedOperation(
        **{**vars(done), "limits": limits},
        facts=tuple(found.facts), checks=tuple(found.checks), cautions=tuple(dict.fromkeys(found.cautions)),
        notes=tuple(found.notes), tables=tuple(found.tables), choices=tuple(found.choices),
    )  # fmt: skip
