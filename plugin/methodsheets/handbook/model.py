"""What does the whole handbook hold: methods, workshops, comparisons, records, problems?

Plain data that pages and faces read. Reading it needs no units library, no solid model and no drawing library:
methods and pictures come out of the store when they are asked for, a few at a time.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from methodsheets.handbook.gallery import Example
from methodsheets.handbook.shop_cards import WallChart, WorkshopCard
from methodsheets.reading.problem import Problem
from methodsheets.sheet.model import Method
from methodsheets.sheet.words import NOTHING, Shown, Words


@dataclass(frozen=True)
class Options:
    """How a handbook is to be built.

    Parameters:
        root: paths in problems and in edit links are given from here; nothing outside it is read
        methods: folders that hold method files
        workshops: folder that holds the workshops; `methods[0] / 'workshops'` where it is None
        inside: method files found elsewhere, such as those inside `docs_dir`
        store: the store's file; None keeps nothing between builds
        fresh: work everything out anew
        workers: how many processes may work things out; 1 stays in this one, 0 takes one for each core
        only: slugs to work out; empty for all (the command line asks for one)
        workshop_keys: workshops to work out for, beside each method's own; empty for all
        own_only: work each method out for its own workshop and no other
        draw: whether pictures are wanted
        style: anything else that pictures depend on
        offered: a method file that is not taken in yet: the path that it would have, and its bytes
    """

    root: Path
    methods: tuple[Path, ...] = ()
    workshops: Path | None = None
    inside: tuple[Path, ...] = ()
    store: Path | None = None
    fresh: bool = False
    workers: int = 1
    only: tuple[str, ...] = ()
    workshop_keys: tuple[str, ...] = ()
    own_only: bool = False
    draw: bool = True
    style: str = ""
    offered: tuple[Path, bytes] | None = None


@dataclass(frozen=True)
class Record:
    """One thing that was measured, or how long one operation took, when a part was made.

    `measured` [mm] and `minutes` are None where they were not written down. `minutes` are those of the part with the
    number given, or of each part where none is given.
    """

    date: str
    batch: str
    method: str
    operation: int
    """Number of the operation, 10, 20 …; 0 for the whole method."""
    limit: str = ""
    """Name of the limit that was measured."""
    part_number: int = 0
    """Which part of the batch; 0 for all of them alike."""
    measured: float | None = None
    minutes: float | None = None
    note: str = ""
    line: int = 0
    revision: str = ""
    """Revision of the method by which the part was made; '' where the record does not say."""
    workshop: str = ""
    """Key of the workshop in which it was made; '' where the record does not say."""
    by: str = ""
    """Who made it."""


@dataclass(frozen=True)
class Drift:
    """How one measured size went over the last parts made.

    Parameters:
        operation, limit: what was measured
        values: (date, part number, mm), oldest first
        lower, upper: [mm] the limits
        per_part: [mm] how far it moves from one part to the next, by least squares
        towards: 'upper', 'lower' or '' where it goes nowhere in particular
        parts_left: how many more parts until the limit at this rate; None where it goes nowhere
        outside: how many of the values lie outside the limits
    """

    operation: int
    limit: str
    values: tuple[tuple[str, int, float], ...]
    lower: float
    upper: float
    per_part: float
    towards: str
    parts_left: int | None
    outside: int


@dataclass(frozen=True)
class Experience:
    """What the records of one method say.

    Parameters:
        last_batch, last_date: the newest batch
        parts: how many parts it had
        minutes: what all parts of the newest batch took [min]; None where not every operation was timed
        correction: measured time over estimated time, from every operation that was timed; None without any
        corrected_one, corrected_batch: [min] the estimate, corrected by that
        timed: operations that were timed: (number, estimated minutes, measured minutes)
        drifts: sizes with at least three values
    """

    last_batch: str
    last_date: str
    parts: int
    minutes: float | None
    correction: float | None
    corrected_one: float | None
    corrected_batch: float | None
    timed: tuple[tuple[int, float, float], ...]
    drifts: tuple[Drift, ...]


@dataclass(frozen=True)
class Pace:
    """What the records of a workshop say of one kind of work.

    Parameters:
        kind: the family of its verbs: 'turning', 'holes', 'milling'
        count: how many timings stand behind it
        factor: time taken over time estimated
        low, high: between which the factor lies, as far as the timings scatter; None where they are too few
    """

    kind: str
    count: int
    factor: float
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True)
class Entry:
    """One method of the handbook.

    Parameters:
        slug: its name in addresses
        path: of its file, as problems show it
        file: where the file lies
        file_text: what the author wrote
        own_workshop: key of the workshop that the author wrote it for
        by_workshop: workshop key → the method worked out for it; read from the store when asked for
        records, experience: what was measured when it was made
        src_uri: address of its page below the site, 'methods/eccentric-one-piece.md'
        problems: of its own workshop
    """

    slug: str
    path: str
    file: Path
    file_text: str
    own_workshop: str
    by_workshop: Mapping[str, Method]
    records: tuple[Record, ...] = ()
    experience: Experience | None = None
    src_uri: str = ""
    problems: tuple[Problem, ...] = ()

    @property
    def own(self) -> Method:
        """The method worked out for its author's workshop."""
        return self.by_workshop[self.own_workshop]

    @property
    def source(self) -> str:
        """What the author wrote."""
        return self.file_text


Cell = Shown
"""What stands in one field of a comparison."""


@dataclass(frozen=True)
class ComparisonRow:
    """One line of a comparison: a value for each method.

    Parameters:
        group: 'Time', 'Metal', 'Holding', 'Trueness', 'Stiffness', 'Proof', 'Cautions', 'Records'
        differs: whether the values differ; a quiet line where they do not
        better: index of the method that is better by this line; None where neither is, or where it is no matter of
            better and worse
    """

    group: str
    label: str
    values: tuple[Cell, ...]
    differs: bool
    better: int | None = None
    note: Words = NOTHING
    recalled: bool = False
    """Whether it rests on a number that rests on a value from memory."""


@dataclass(frozen=True)
class TimeLine:
    """Time against the number of parts for one method: minutes for n parts = `setting` + n · `each`."""

    slug: str
    title: str
    setting: float
    each: float
    cutting: float = 0.0
    """Minutes of `each` in which the machine cuts, those that are `recorded` left out."""
    recorded: tuple[tuple[str, float, float, float], ...] = ()
    """(kind of work, minutes of `each`, shares of them between which they lie) as far as timings say."""

    def minutes(self, parts: float) -> float:
        """[min] for so many parts."""
        return self.setting + parts * self.each


@dataclass(frozen=True)
class BreakEven:
    """From how many parts on another method is quicker.

    Parameters:
        first, second: slugs; `first` is quicker for small batches
        parts: the smallest number of parts for which `second` is quicker; None where it never is
        words: the same in a sentence
    """

    first: str
    second: str
    parts: int | None
    words: str


@dataclass(frozen=True)
class Needs:
    """What methods of one part need of one sort of thing.

    Parameters:
        sort: 'machines', 'ways of holding', 'tools'
        all_need: needed by each of them
        only: what only one needs, in the order of the methods
    """

    sort: str
    all_need: tuple[str, ...]
    only: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Comparison:
    """The methods of one part, side by side, for one workshop.

    `methods` are slugs, in the order of every row's values; `drawings` are the keys of pictures that show the
    states of each method.
    """

    part: str
    workshop: str
    title: str
    methods: tuple[str, ...]
    titles: tuple[str, ...]
    rows: tuple[ComparisonRow, ...]
    needs: tuple[Needs, ...] = ()
    time_lines: tuple[TimeLine, ...] = ()
    break_even: tuple[BreakEven, ...] = ()
    drawings: tuple[tuple[str, ...], ...] = ()
    batch: int = 1


@dataclass(frozen=True)
class Counts:
    """What a build did."""

    methods: int = 0
    workshops: int = 0
    evaluated: int = 0
    """Methods × workshops worked out."""
    from_store: int = 0
    drawn: int = 0
    drawings_from_store: int = 0
    """Pictures that need not be drawn: kept from earlier builds, or alike in another workshop."""
    seconds: float = 0.0
    damaged: int = 0
    """Entries of the store that could not be read and were made again."""

    def words(self) -> str:
        """The build in one line."""
        return (
            f"methods: {self.evaluated} worked out, {self.from_store} from the store; "
            f"figures: {self.drawn} drawn, {self.drawings_from_store} reused ({self.seconds:.1f} s)"
        )


@dataclass(frozen=True)
class Handbook:
    """Everything that pages are made of.

    Parameters:
        entries: slug → method, in the order of their titles
        workshops: key → workshop
        comparisons: part as it stands in addresses → workshop key → comparison; only parts that have several methods
        problems: everything that is wrong, in the order of file and line: of files that could not be read, of
            workshops, of records, and of each method in its author's workshop
        draw: gives the SVG of a key; '' for a key that is not known
    """

    entries: Mapping[str, Entry]
    workshops: Mapping[str, WorkshopCard]
    by_workshop: Mapping[str, Mapping[str, Comparison]]
    problems: tuple[Problem, ...]
    counts: Counts
    options: Options
    draw: Callable[[str, bool], str] = field(repr=False, default=lambda key, standalone: "")
    gallery: Callable[[], Mapping[str, Example]] = field(repr=False, default=dict)
    """One example of each kind of picture, by key; drawn when it is first asked for."""
    charts: Callable[[str], tuple[WallChart, ...]] = field(repr=False, default=lambda key: ())
    """Charts for the wall of a workshop, by its key; worked out when they are first asked for."""
    workshop_files: Mapping[str, Path] = field(repr=False, default_factory=dict)
    """The files that the workshops were read from, by key; a method takes the one of its author along."""
    paces: Callable[[str], tuple[Pace, ...]] = field(repr=False, default=lambda key: ())
    """What all records of a workshop say of its times, by its key; worked out when they are first asked for."""

    @property
    def comparisons(self) -> Mapping[str, Comparison]:
        """Part as it stands in addresses → comparison in the workshop of its first method's author."""
        return {part: next(iter(found.values())) for part, found in self.by_workshop.items()}

    def comparison(self, part: str, workshop: str) -> Comparison | None:
        """The comparison of a part's methods in one workshop."""
        return self.by_workshop.get(part, {}).get(workshop)

    def svg(self, key: str) -> str:
        """The picture of a key for use inside a page: ids of its own, colours from the page's stylesheet."""
        return self.draw(key, False)

    def standalone_svg(self, key: str) -> str:
        """The picture of a key as a file of its own: light colours, nothing from outside."""
        return self.draw(key, True)
