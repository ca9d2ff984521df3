"""What does an evaluated method consist of? Plain data that pages, sheets, comparisons and exports all read.

Nothing here computes. Every record is frozen, holds only text, numbers and other records, and goes to JSON and
back unchanged (`records`), so that a method whose inputs did not change need not be worked out again.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from methodsheets.formula.measure import Measure
from methodsheets.formula.work import TableRow as TableRow
from methodsheets.formula.work import Working as Working
from methodsheets.reading.problem import Problem

from .check_kinds import CHECK_KINDS
from .limit import Limit as Limit
from .limit import Mate as Mate
from .words import NOTHING, Shown, Words

SCHEMA = 5
"""Version of the shape of these records; part of every cache key and of `show --json`."""


@dataclass(frozen=True)
class Fact:
    """One thing the sheet says about a set-up or an operation."""

    key: str
    """Stable word, e.g. 'spindle_speed'."""
    label: str
    """What the page prints before it: 'Spindle speed'."""
    value: Shown
    working: tuple[Working, ...] = ()
    overruled: Words = NOTHING
    """What the handbook would have said, where the author wrote a value of their own."""
    note: Words = NOTHING
    desk: bool = False
    """Whether it only explains, for the desk; all else is set or read by hand and stands on the bench sheet."""
    low: Measure | None = None
    high: Measure | None = None  # the ends of an estimate; None where the number follows exactly
    rests: tuple[str, ...] = ()
    """What it rests on, besides its workings, that was recalled and not read."""

    @property
    def recalled(self) -> tuple[str, ...]:
        """What the number rests on that was recalled and not read; () where all of it was read or follows exactly.

        A value the author wrote is the author's own.
        """
        if self.overruled:
            return ()
        worked = (words for working in self.working for words in working.recalled)
        return tuple(dict.fromkeys([*worked, *self.rests]))

    @property
    def rests_on(self) -> tuple[str, ...]:
        """The same of the number and of all that is said beside it."""
        said = [one.recalled for one in (self.value, self.overruled, self.note) if isinstance(one, Words)]
        return tuple(dict.fromkeys([*self.recalled, *(words for some in said for words in some)]))


@dataclass(frozen=True)
class Check:
    """One test of the geometry or of the machine: 'passed', 'failed' or 'not known'."""

    key: str
    """Stable word: 'grip', 'swing', 'spindle-bore', 'removes-metal', 'reach', 'finished-surface', 'piece' …"""
    state: str
    words: Words
    """What was tested, with numbers."""
    line: int = 0
    tight: bool = False
    """Passed, but with little to spare."""
    remedy: str = ""
    """What to do about it, where that is known better than from the check's kind (`check_kinds`)."""

    @property
    def verdict(self) -> str:
        """The state as a sheet tells it: 'passed', 'tight', 'failed' or 'not known'."""
        return "tight" if self.tight and self.state == "passed" else self.state

    @property
    def advice(self) -> tuple[str, str]:
        """(rule, remedy) for a reader whose check did not pass."""
        kind = CHECK_KINDS[self.key]
        return kind.rule, self.remedy or kind.remedy


@dataclass(frozen=True)
class Caution:
    """A usual caution, shown where it applies."""

    key: str
    words: str


@dataclass(frozen=True)
class Pass:
    """One pass of the tool: what to set and read."""

    number: str
    """'1', '2' … or 'finish'."""
    size: Measure | None
    """Diameter or depth reached by this pass."""
    depth: Measure | None
    dial: str = ""
    """What the machine's dial reads for this pass, in its own graduation, from the touch-off or the last pass."""
    dial_inch: str = ""
    speed: str = ""
    """Spindle speed of this pass, where it differs from the pass before: the work has become thinner."""
    feed: Measure | None = None
    """Feed of this pass, where it differs from the pass before."""
    minutes: float = 0.0
    """Cutting time of this pass."""
    slide: str = ""
    """Slide whose dial is read: 'cross slide', 'top slide', 'z' …"""


@dataclass(frozen=True)
class Choice:
    """The cut as it is planned, or with one thing changed: what would follow."""

    changes: str
    """'depth', 'speed', 'feed' or 'stick-out'."""
    value: Measure
    planned: bool
    passes: int = 0
    """0 where the cut has none."""
    force: Measure | None = None
    power: Measure | None = None
    bends: Measure | None = None
    """Of the work at the tool, or of the tool; None where less than half a micrometre."""
    finish: Measure | None = None
    minutes: float = 0.0
    heed: Words = NOTHING
    """What speaks against it."""
    recalled: tuple[str, ...] = ()
    """What its numbers rest on that was recalled and not read."""


def rests_on(card: Setup | Operation) -> tuple[str, ...]:
    """What the marked numbers of a set-up or an operation rest on: in its words, facts, notes, checks and choices."""
    said = [card.title, card.words, *card.notes, *(check.words for check in card.checks)]
    choices = card.choices if isinstance(card, Operation) else ()
    said += [choice.heed for choice in choices]
    found = [words for one in said for words in one.recalled]
    found += card.mass_rests if isinstance(card, Operation) else ()
    found += [words for choice in choices for words in choice.recalled]
    found += [words for fact in card.facts for words in fact.rests_on]
    return tuple(dict.fromkeys(found))


@dataclass(frozen=True)
class Operation:
    """One numbered operation of the method."""

    number: int
    """10, 20, 30 …"""
    id: str
    """Stable anchor, lower case: 'op-30-bore'."""
    verb: str
    title: Words
    words: Words
    """The operation in one sentence, worded by the model: 'Turn to Ø38 over 13'."""
    line: int
    block: int
    """Index of its block in the method file."""
    tool: str = ""
    facts: tuple[Fact, ...] = ()
    passes: tuple[Pass, ...] = ()
    limits: tuple[Limit, ...] = ()
    checks: tuple[Check, ...] = ()
    cautions: tuple[Caution, ...] = ()
    notes: tuple[Words, ...] = ()
    cutting_minutes: float = 0.0
    handling_minutes: float = 0.0
    removed_cm3: float = 0.0
    mass_after: Measure | None = None
    figures: tuple[str, ...] = ()
    """Keys of drawings that belong to this operation."""
    tables: tuple[Table, ...] = ()
    choices: tuple[Choice, ...] = ()
    """The cut a little lighter or heavier, slower or faster, finer or coarser, held shorter or longer."""
    family: str = ""
    """Kind of work that its verb is: 'turning', 'holes', 'milling' …"""
    mass_rests: tuple[str, ...] = ()
    """What its weight rests on that was recalled and not read."""

    @property
    def rests_on(self) -> tuple[str, ...]:
        """What its marked numbers rest on that was recalled and not read."""
        return rests_on(self)

    def fact(self, key: str) -> Fact | None:
        """The fact of that key, if the operation has it."""
        return next((fact for fact in self.facts if fact.key == key), None)


@dataclass(frozen=True)
class Table:
    """A small table, e.g. the coordinates of a pitch circle or what the rotary table reads."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Measure | str, ...], ...]


@dataclass(frozen=True)
class Setup:
    """One holding of the work."""

    number: int
    """1, 2, 3 …"""
    id: str
    title: Words
    line: int
    block: int
    machine: str
    """The machine's key in the workshop."""
    machine_name: str
    holding: str
    """'three-jaw chuck'."""
    words: Words
    """'Three-jaw chuck on Ø40, grip 8, end A out'."""
    facts: tuple[Fact, ...] = ()
    checks: tuple[Check, ...] = ()
    cautions: tuple[Caution, ...] = ()
    notes: tuple[Words, ...] = ()
    operations: tuple[Operation, ...] = ()
    setting_minutes: float = 0.0
    figures: tuple[str, ...] = ()

    @property
    def rests_on(self) -> tuple[str, ...]:
        """What its marked numbers rest on that was recalled and not read."""
        return rests_on(self)


@dataclass(frozen=True)
class Calculation:
    """One line of a calc block."""

    name: str
    label: str
    value: Measure | str
    fields: tuple[tuple[str, Measure | str], ...]
    """Fields of a result such as a fit: (name, value)."""
    working: Working
    line: int
    block: int


@dataclass(frozen=True)
class Quote:
    """What a `{{ name }}` in the prose stands for."""

    expression: str
    line: int
    value: Measure | str
    recalled: tuple[str, ...] = ()
    """What it rests on that was recalled and not read."""


@dataclass(frozen=True)
class Totals:
    """The method as a whole."""

    batch: int
    cutting_minutes: float
    handling_minutes: float
    setting_minutes: float
    """Once for the batch."""
    one_minutes: float
    """One part alone, set-ups included."""
    batch_minutes: float
    """All parts of the batch, set-ups once."""
    stock_mass: Measure | None = None
    finished_mass: Measure | None = None
    removed_cm3: float = 0.0
    bought: Words = NOTHING
    """What to buy or cut for the batch: 'bar Ø40 mm, 112 mm for 5'."""
    price: Measure | None = None
    machines: tuple[str, ...] = ()
    holdings: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    facts: tuple[Fact, ...] = ()
    """Centre of mass, inertia, unbalance of the finished part …"""
    tables: tuple[Table, ...] = ()
    """What balances the finished part, in one plane and in two."""
    one_spread: tuple[float, float] | None = None
    batch_spread: tuple[float, float] | None = None
    """(least, most) minutes that these may well be: all of it is estimated."""
    machine_minutes: tuple[tuple[str, float, float], ...] = ()
    """(key of the machine, minutes to set up once, minutes for each part)."""
    mass_rests: tuple[str, ...] = ()
    """What the weights, and the price with them, rest on that was recalled and not read."""


@dataclass(frozen=True)
class RunOutRow:
    """Concentricity built up between two features."""

    first: str
    second: str
    worst: Measure | None
    """None where it is not known; `why` then says why."""
    likely: Measure | None
    """Root-sum-square."""
    why: Words


@dataclass(frozen=True)
class Difference:
    """Where the finished part is not the intended part."""

    number: int
    kind: str
    """'left on' or 'missing'."""
    words: Words
    volume_mm3: float
    thickness: Measure


@dataclass(frozen=True)
class Drawing:
    """A picture of the method; the SVG itself lies in the store under `key`."""

    key: str
    """Unique in the handbook: 'eccentric-one-piece--osierbank-small--setup-1'."""
    kind: str
    """'setup', 'storyboard', 'strip', 'balance', 'fit', 'press-fit', 'proof', 'deflection' …"""
    caption: Words
    description: str = ""
    width_mm: float = 170.0
    height_mm: float = 100.0
    scheme: str = ""
    """Place it belongs to: 'setup-1', 'op-30', 'method'."""


@dataclass(frozen=True)
class Method:
    """One method worked out for one workshop."""

    slug: str
    path: str
    title: str
    part: str
    workshop: str
    workshop_name: str
    status: str
    revision: str
    date: str
    summary: str
    material: str
    stock: Words
    makes: int
    digest: str
    """Digest of everything that went in."""
    calculations: tuple[Calculation, ...] = ()
    setups: tuple[Setup, ...] = ()
    quotes: tuple[Quote, ...] = ()
    totals: Totals | None = None
    run_out: tuple[RunOutRow, ...] = ()
    differences: tuple[Difference, ...] = ()
    checks: tuple[Check, ...] = ()
    """Checks of the whole method: the finished part is the intended part, no stock skin left …"""
    problems: tuple[Problem, ...] = ()
    drawings: tuple[Drawing, ...] = ()
    tags: tuple[str, ...] = ()
    found_as: tuple[str, ...] = ()
    """Spellings people search for: 'M6x1', 'H7/s6', '3/8 in'."""
    own_workshop: bool = True
    """Whether this is the workshop that the author wrote the method for."""
    versions: tuple[tuple[str, str], ...] = field(default=())

    @property
    def operations(self) -> tuple[Operation, ...]:
        """All operations in order."""
        return tuple(operation for setup in self.setups for operation in setup.operations)

    @property
    def all_checks(self) -> tuple[Check, ...]:
        """Checks of set-ups, operations and the whole."""
        found = [check for setup in self.setups for check in setup.checks]
        found += [check for operation in self.operations for check in operation.checks]
        return (*found, *self.checks)

    @property
    def failed(self) -> tuple[Check, ...]:
        """Checks that failed."""
        return tuple(check for check in self.all_checks if check.state == "failed")

    @property
    def unknown(self) -> tuple[Check, ...]:
        """Checks that could not be made, because something was not said."""
        return tuple(check for check in self.all_checks if check.state == "not known")
