"""What is known of a set-up while work is done in it, and when the whole method has been looked at?"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from methodsheets.method.done import CheckedOperation, WorkedOperation
from methodsheets.method.findings import Findings, Looked
from methodsheets.method.piece import Piece
from methodsheets.operations.setups import Held
from methodsheets.reading.method_file import Block
from methodsheets.sheet.model import Caution, Check, Fact
from methodsheets.sheet.words import Words
from methodsheets.vocabulary.support import HeldUp, Support
from methodsheets.workpiece import State, VicePose


@dataclass(eq=False)
class Stand:
    """How the work stands in its set-up now. Only this class changes it; the rooms tell it what they did."""

    held: Held
    held_up: HeldUp
    """Centre and steady that support the work."""
    about: tuple[float, float] | None = None
    """Place on the upper face of a block in the lathe through which the axis runs; None until it is bored."""
    unbalance: float = 0.0
    """g·mm about the set-up's axis, before the first operation."""
    operations: list[WorkedOperation] = field(default_factory=list)

    def face(self, off: float) -> VicePose:
        """The upper face of work in a vice was cut down by `off` mm: lengths start at the new one."""
        assert self.held.pose is not None
        pose = self.held.pose.faced(off)
        self.held = replace(self.held, pose=pose)
        return pose

    def bring(self, support: Support, at: float | None) -> None:
        """A centre or steady is brought up, or all are taken away."""
        self.held_up = self.held_up.brought(support, at)

    def turn_about(self, place: tuple[float, float]) -> None:
        """A block is set so that this place of its face runs true."""
        self.about = place

    def weigh(self, unbalance: float) -> None:
        """The work was found out of balance by so many g·mm."""
        self.unbalance = unbalance

    def finish(self, done: WorkedOperation) -> None:
        """One more operation was carried out."""
        self.operations.append(done)


@dataclass(frozen=True, eq=False, kw_only=True)
class SaidSetup(Looked):
    """What the author wrote of a set-up, and the work as it comes into it."""

    number: int
    id: str
    title: Words
    block: Block
    piece: Piece
    before: State
    minutes: float
    """To set it up once."""
    loading: float
    """Minutes for each part."""
    found: Findings


@dataclass(frozen=True, eq=False, kw_only=True)
class OpenSetup(SaidSetup):
    """A set-up in which work is being done."""

    now: Stand

    @property
    def held(self) -> Held:
        """How the work is held now."""
        return self.now.held

    @property
    def held_up(self) -> HeldUp:
        """Centre and steady that support the work now."""
        return self.now.held_up

    @property
    def turns_about(self) -> tuple[float, float] | None:
        """Place on the upper face of a block through which the axis runs, where that is known by now."""
        return self.now.about

    @property
    def unbalance(self) -> float:
        """g·mm about the set-up's axis, before the first operation."""
        return self.now.unbalance

    @property
    def operations(self) -> list[WorkedOperation]:
        """What was done in it, in order."""
        return self.now.operations


@dataclass(frozen=True, eq=False, kw_only=True)
class CheckedSetup(SaidSetup):
    """A set-up when the whole method has been looked at."""

    held: Held
    """How the work was held in the end: a face that was cut down lies lower."""
    held_up: HeldUp
    turns_about: tuple[float, float] | None
    unbalance: float
    operations: tuple[CheckedOperation, ...]
    facts: tuple[Fact, ...]
    checks: tuple[Check, ...]
    cautions: tuple[Caution, ...]
    notes: tuple[Words, ...]


Setup = OpenSetup | CheckedSetup
"""A set-up, while work is done in it or afterwards."""


def closed(setup: OpenSetup, operations: tuple[CheckedOperation, ...]) -> CheckedSetup:
    """The last stage of a set-up: its book is closed."""
    said = {name: value for name, value in vars(setup).items() if name != "now"}
    now, found = setup.now, setup.found
    return CheckedSetup(
        **said, held=now.held, held_up=now.held_up, turns_about=now.about, unbalance=now.unbalance,
        operations=operations, facts=tuple(found.facts), checks=tuple(found.checks),
        cautions=tuple(dict.fromkeys(found.cautions)), notes=tuple(found.notes),
    )  # fmt: skip
