"""What is known while a method is being worked out, and when it has been: its pieces, set-ups, part and differences?

These records live only as long as the evaluation and its drawings; what lasts is `model.Method`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from methodsheets.method.done import CheckedOperation, WorkedOperation, checked
from methodsheets.method.intention import Intended
from methodsheets.method.open_setup import CheckedSetup, OpenSetup, closed
from methodsheets.method.piece import Piece
from methodsheets.reading.method_file import MethodFile
from methodsheets.reading.problem import Problems
from methodsheets.sheet.model import Check, Limit, Method
from methodsheets.sheet.model import Difference as ListedDifference
from methodsheets.trade.metal.materials import Material
from methodsheets.workshop.model import Workshop

if TYPE_CHECKING:
    from methodsheets.geometry import Difference, Solid, SolidKernel
    from methodsheets.method.scope import MethodReader

Point = tuple[float, float, float]


@dataclass(frozen=True)
class Asked:
    """What the method says that it makes."""

    whole: Intended | None = None
    """The finished part; None where nobody says it."""
    pieces: Mapping[str, Intended] = field(default_factory=dict)
    """The part of each piece that the `part` block names (`- piece: pin`)."""

    def each(self) -> list[tuple[str, Intended]]:
        """(name of the piece, part), the finished part with an empty name."""
        return [*([("", self.whole)] if self.whole is not None else []), *self.pieces.items()]


@dataclass(frozen=True)
class Proved:
    """What comparing the finished work with its part brought to light."""

    want: Solid | None = None
    """The intended part laid in the frame of the finished work."""
    laid: Point | None = None
    """Where its frame lies in the finished work."""
    differences: tuple[Difference, ...] = ()
    listed: tuple[ListedDifference, ...] = ()
    """The same in words, for the page."""


@dataclass(frozen=True)
class ProvedPieces:
    """What comparing pieces with their parts brought to light."""

    laid: Mapping[str, Point] = field(default_factory=dict)
    """Where the frame of each part lies in its piece, by the piece's name."""
    wrong: frozenset[str] = frozenset()
    """Names of the pieces that are not their intended part."""


@dataclass
class Log:
    """What happened on the way through a method: written line by line, read by whoever comes after."""

    facets: int = 0
    """Facets of the work after each operation, added up."""
    met: int = 0
    """Pairs of cuts of one operation that lie in one another's way, of all operations and features."""
    broken: dict[str, int] = field(default_factory=dict)
    """Line of the first operation on a piece that could not be worked out, by the piece's name."""
    unlooked: list[Check] = field(default_factory=list)
    """A check that is not known for each stage of the whole method in which the program failed."""
    recalled: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """What each name of the calc blocks rests on that was recalled and not read."""

    def count(self, facets: int) -> None:
        """The work has so many facets after one more operation."""
        self.facets += facets

    def join(self, met: int) -> None:
        """So many pairs of cuts of one more operation are joined."""
        self.met += met

    def broke(self, piece: str, line: int) -> None:
        """An operation on a piece could not be worked out."""
        self.broken.setdefault(piece, line)


@dataclass(frozen=True, eq=False)
class Job:
    """One method being worked out for one workshop."""

    file: MethodFile
    workshop: Workshop
    kernel: SolidKernel
    reader: MethodReader
    problems: Problems
    library: Library
    material: Material | None
    makes: int
    pieces: dict[str, Piece] = field(default_factory=dict)
    setups: list[OpenSetup] = field(default_factory=list)
    log: Log = field(default_factory=Log)

    @property
    def main(self) -> str:
        """Name of the piece that the method ends with; empty before the first set-up."""
        return self.setups[-1].piece.name if self.setups else ""

    def copies(self, piece: Piece) -> int:
        """How many of a piece go into each finished part: three spokes for one hub."""
        joins = [o.plan.join for o in self.operations if o.plan.join is not None]
        return max(1, sum(join.count for join in joins if join.name == piece.name and piece.name != self.main))

    @property
    def operations(self) -> list[WorkedOperation]:
        """All operations in order."""
        return [operation for setup in self.setups for operation in setup.operations]


@dataclass(frozen=True, eq=False)
class Finished:
    """One method worked out for one workshop, its solids still at hand: for drawings and for other methods."""

    file: MethodFile
    workshop: Workshop
    reader: MethodReader
    problems: Problems
    """Those of pictures come to it later."""
    makes: int
    pieces: Mapping[str, Piece]
    main: str
    setups: tuple[CheckedSetup, ...]
    asked: Asked
    proved: Proved

    @property
    def operations(self) -> list[CheckedOperation]:
        """All operations in order."""
        return [operation for setup in self.setups for operation in setup.operations]


def finished(job: Job, limits: Mapping[int, tuple[Limit, ...]], asked: Asked, proved: Proved) -> Finished:
    """The last stage of a method: every book is closed.

    Parameters:
        limits: of an operation by its number, where its measured sizes know their partners
    """
    setups = tuple(
        closed(setup, tuple(checked(done, limits.get(done.number, done.limits)) for done in setup.operations))
        for setup in job.setups
    )
    return Finished(
        file=job.file,
        workshop=job.workshop,
        reader=job.reader,
        problems=job.problems,
        makes=job.makes,
        pieces=job.pieces,
        main=job.main,
        setups=setups,
        asked=asked,
        proved=proved,
    )


@dataclass(frozen=True, eq=False)
class Evaluated:
    """A method worked out: the record that lasts, and what it was made from."""

    method: Method
    live: Finished


Library = Callable[[str], Evaluated | None]
"""Another method of the handbook, worked out for the same workshop, by its name."""
