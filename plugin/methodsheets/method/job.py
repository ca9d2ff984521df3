"""What is known while a method is being worked out: its pieces, its set-ups, what each operation did to the metal?

These records live only as long as the evaluation and its drawings; what lasts is `model.Method`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from methodsheets.operations import say
from methodsheets.operations.cutting import Worked
from methodsheets.operations.facts import fact, judged
from methodsheets.operations.plan import Plan
from methodsheets.operations.qualities import Given
from methodsheets.operations.setups import Held
from methodsheets.operations.station import Station
from methodsheets.operations.stock import StockSaid
from methodsheets.operations.words import Said
from methodsheets.reading.method_file import Block, MethodFile
from methodsheets.reading.problem import Problems
from methodsheets.sheet.model import Caution, Check, Choice, Fact, Limit, Method, Table, Working
from methodsheets.sheet.model import Difference as ListedDifference
from methodsheets.sheet.spread import Spread
from methodsheets.sheet.words import Words
from methodsheets.trade.metal.materials import Material
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.support import ALONE, HeldUp
from methodsheets.workpiece import Cut, State, Stock, TurningFrame, Workpiece
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.tools import Tool

if TYPE_CHECKING:
    from methodsheets.geometry import Difference, Solid, SolidKernel
    from methodsheets.method.rig import Rig
    from methodsheets.method.scope import MethodReader


@dataclass
class Piece:
    """One workpiece of the method, with what it was made from."""

    name: str
    work: Workpiece
    material: Material
    said: StockSaid | None = None
    stock: Stock | None = None
    start: State | None = None
    grams: float = 0.0
    """Mass of its stock."""
    rough: bool = False
    """Whether it came with a raw skin, as a casting does."""
    allowance: float = 0.0
    """mm that it had over its drawn outline."""
    gaps: list[tuple[float, float]] = field(default_factory=list)
    """(from, to) of each core that was cut out of it, z in mm of the work."""


@dataclass
class Findings:
    """What is found out about a set-up or an operation: facts for its table, checks with their verdict."""

    line: int
    """Line of the method file that the checks point to."""
    facts: list[Fact] = field(default_factory=list, kw_only=True)
    checks: list[Check] = field(default_factory=list, kw_only=True)

    def judge(self, key: str, holds: bool | None, words: str, *, tight: bool = False, remedy: str = "") -> None:
        """Note a check: True passed, False failed, None not known."""
        self.checks.append(judged(key, holds, words, self.line, tight=tight, remedy=remedy))

    def has_judged(self, key: str) -> bool:
        """Whether that check was made."""
        return any(check.key == key for check in self.checks)

    def has_failed(self, *keys: str) -> bool:
        """Whether one of these checks failed."""
        return any(check.key in keys and check.state == "failed" for check in self.checks)

    def tell(
        self, key: str, label: str, value: float, unit: str = "mm", kind: str = "length", note: str = "",
        working: Sequence[Working | None] = (), *, desk: bool = False,
        spread: Spread | None = None,
    ) -> None:  # fmt: skip
        """Note a number for the table, with how it is rounded and how it came about."""
        self.facts.append(fact(key, label, value, unit, kind, working, "", note, desk=desk, spread=spread))


@dataclass
class DoneOperation(Findings):
    """One operation carried out: its plan, its cut, and all that was worked out from them; its line is the verb's."""

    number: int
    id: str
    title: Words
    block: Block
    verb: str
    plan: Plan
    station: Station
    piece: Piece
    before: State
    after: State
    cut: Cut | None = None
    tool: Tool | None = None
    tool_name: str = ""
    tag: str = ""
    """What the surfaces that it cut are marked with; no other operation of the handbook has it."""
    called: bool = False
    """Whether the author gave the feature a name."""
    said: Said | None = None
    """The clauses of its verb, as they were read."""
    tool_said: str = ""
    """The author's own words for the tool; empty where he leaves the choice to the sheet."""
    worked: Worked = field(default_factory=Worked)
    choices: tuple[Choice, ...] = ()
    """What would follow if one thing of the cut were changed."""
    limits: list[Limit] = field(default_factory=list)
    cautions: list[Caution] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    notes: list[Words] = field(default_factory=list)
    handling: float = 0.0
    grams_after: float = 0.0
    stub: tuple[Solid, ...] = ()
    """Pieces that came off and are not kept."""
    rig: Rig | None = None
    """Holder, tail and tool round the work in true size, for the reach test and the figure; only in the lathe."""

    @property
    def words(self) -> Words:
        """The operation in one sentence, as the verb says it."""
        return say.words(self.plan.words)

    @property
    def frame(self) -> TurningFrame:
        """Lengths from the face as it stood before the cut, for work about an axis."""
        assert self.station.holding is not None
        return self.station.holding.frame(self.before.ends)

    @property
    def angle_said(self) -> float:
        """Degrees that the author wrote behind `angle`, 0 where he wrote none."""
        return float(self.said.get("angle", 0.0)) if self.said else 0.0

    @property
    def cutter_said(self) -> float:
        """Diameter in mm of the cutter that the author asks for, 0 where he leaves it to the sheet."""
        return float(self.said.get("cutter", 0.0)) if self.said else 0.0

    @property
    def removed(self) -> tuple[Solid, ...]:
        """What the cut took away, by body."""
        return tuple(self.cut.removed.values()) if self.cut else ()

    @property
    def volume(self) -> float:
        """mm³ removed."""
        return self.cut.volume if self.cut else 0.0


@dataclass
class DoneSetup(Findings):
    """One set-up and the operations done in it; its line is that of `hold`."""

    number: int
    id: str
    title: Words
    block: Block
    held: Held
    piece: Piece
    before: State
    cautions: list[Caution] = field(default_factory=list)
    notes: list[Words] = field(default_factory=list)
    operations: list[DoneOperation] = field(default_factory=list)
    minutes: float = 0.0
    loading: float = 0.0
    turns_about: tuple[float, float] | None = None
    """Place on the upper face of a block in the lathe through which the axis runs; None until it is bored."""
    ceiling: float = 0.0
    """Highest spindle speed that the holder and the balance of the work allow, 1/min; 0 = no limit known."""
    unbalance: float = 0.0
    """g·mm about the set-up's axis, before the first operation."""
    held_up: HeldUp = ALONE
    """Centre and steady that support the work now."""


@dataclass(frozen=True)
class Threaded:
    """A thread that a part asks for, or that an operation cuts."""

    name: str
    """With its pitch and hand: 'M12 × 1 LH'."""
    inside: bool
    length: float
    """mm; 0 where it goes right through."""
    pitch: float
    line: int

    @classmethod
    def of(cls, plan: Plan, line: int) -> Threaded | None:
        """The thread that a plan cuts; None where it cuts none."""
        if not plan.cut.pitch or not plan.sketch.diameter_words:
            return None
        inside = plan.inside or plan.cut.process is Process.TAP
        length = 0.0 if plan.sketch.through else abs(plan.sketch.end - plan.sketch.start)
        if plan.sketch.view == "across" and length:
            length = next(made.size for made in plan.makes if made.what == "depth")
        return cls(plan.sketch.diameter_words, inside, length, plan.cut.pitch, line)

    @property
    def words(self) -> str:
        """'M12 inside, 16 long'."""
        return (
            self.name + (" inside" if self.inside else "") + (f", {say.dim(self.length)} long" if self.length else "")
        )

    def off(self, made: Threaded) -> float:
        """Mm by which a thread of that name is longer than this one, below 0 shorter; 0 within its run-out."""
        if not self.length or not made.length:
            return 0.0
        off = made.length - self.length
        return off if off < -0.01 or off > RUN_OUTS * self.pitch else 0.0


RUN_OUTS = 2.5
"""Pitches by which a thread may run out beyond its length: usual (ISO 3508 gives about 2.5 pitches; from memory)."""


@dataclass
class Intended:
    """The intended part as a solid in its own frame, and the space that each feature asks to be cut away."""

    solid: Solid
    features: list[tuple[str, Solid]]
    block_work: bool
    source: str
    """Slug of the method that says it; empty where it is this one."""
    lines: tuple[int, ...] = ()
    """Line of each feature in this method's `part` block."""
    threads: tuple[Threaded, ...] = ()
    """Every thread that the `part` block asks for: once for each hole."""
    asks: tuple[Given, ...] = ()
    """What it asks for that no solid shows: knurls, hardness, finish; lengths in its own frame."""
    laid: tuple[float, float, float] | None = None
    """Where its frame lies in the finished piece; None until they are compared."""
    line: int = 0
    """Line of the `part` block that names the piece; 0 where it is the finished part."""


@dataclass
class Job:
    """One method being worked out for one workshop."""

    file: MethodFile
    workshop: Workshop
    kernel: SolidKernel
    reader: MethodReader
    problems: Problems
    library: Callable[[str], Evaluated | None]
    material: Material | None = None
    makes: int = 1
    pieces: dict[str, Piece] = field(default_factory=dict)
    main: str = ""
    """Name of the piece that the method ends with."""
    setups: list[DoneSetup] = field(default_factory=list)
    facets: int = 0
    """Facets of the work after each operation, added up."""
    broken: dict[str, int] = field(default_factory=dict)
    """Line of the first operation on a piece that could not be worked out, by the piece's name."""
    intended: Intended | None = None
    parts: dict[str, Intended] = field(default_factory=dict)
    """The intended part of each piece that the `part` block names (`- piece: pin`)."""
    wrong: set[str] = field(default_factory=set)
    """Names of the pieces that are not their intended part."""
    want: Solid | None = None
    """The intended part laid in the frame of the finished work."""
    differences: list[Difference] = field(default_factory=list)
    unlooked: list[Check] = field(default_factory=list)
    """A check that is not known for each stage of the whole method in which the program failed."""
    recalled: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """What each name of the calc blocks rests on that was recalled and not read."""
    listed: list[ListedDifference] = field(default_factory=list)
    """The same in words, for the page."""

    def copies(self, piece: Piece) -> int:
        """How many of a piece go into each finished part: three spokes for one hub."""
        joins = [o.plan.join for o in self.operations if o.plan.join is not None]
        return max(1, sum(join.count for join in joins if join.name == piece.name and piece.name != self.main))

    @property
    def operations(self) -> list[DoneOperation]:
        """All operations in order."""
        return [operation for setup in self.setups for operation in setup.operations]


@dataclass
class Evaluated:
    """A method worked out: the record that lasts, and the job with its solids for drawings and other methods."""

    method: Method
    live: Job
