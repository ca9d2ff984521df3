"""What happens to the metal: cut, keep a piece, join pieces, mark?"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from ..geometry import Frame, Solid, SolidKernel, overlap
from ..geometry.solid import NOTHING
from .bodies import Body, Mark, MarkKind
from .datum import Array, End, Ends, Holding, TurningFrame
from .state import State
from .stock import Stock

LEAST_CUT = 1e-3
"""mm³: an operation that removes less removes nothing."""


@dataclass(frozen=True, eq=False)
class Cut:
    """One operation's cut: the work before and after, and what went, by body; `splits` = it was meant to part it."""

    operation: str
    before: State
    after: State
    removed: Mapping[str, Solid]
    splits: bool = False

    @property
    def volume(self) -> float:
        """mm³ removed."""
        return sum(s.volume for s in self.removed.values())

    @property
    def grams(self) -> float:
        """Mass of the swarf, g."""
        return sum(s.volume * self.before.bodies[name].density for name, s in self.removed.items())

    @property
    def removes(self) -> bool:
        """Whether it took anything worth the name."""
        return self.volume > LEAST_CUT

    @cached_property
    def pieces(self) -> dict[str, list[Solid]]:
        """The separate pieces of every body that was cut, largest first."""
        return {name: self.after.bodies[name].solid.pieces() for name in self.removed if name in self.after.bodies}

    @property
    def fell_apart(self) -> tuple[str, ...]:
        """Names of the bodies in more pieces than before though the cut was not meant to part them."""
        if self.splits:
            return ()
        before = self.before.bodies
        return tuple(
            n for n, parts in self.pieces.items() if len(parts) > 1 and len(parts) > len(before[n].solid.pieces())
        )

    @property
    def vanished(self) -> tuple[str, ...]:
        """Names of bodies that were cut away altogether."""
        return tuple(n for n in self.before.bodies if n not in self.after.bodies)


@dataclass(frozen=True, eq=False)
class Kept:
    """The work after parting or sawing: what was kept, and the pieces that came off, by body."""

    before: State
    after: State
    scrap: Mapping[str, tuple[Solid, ...]]


@dataclass(frozen=True, eq=False)
class Join:
    """Pieces put together: the work before and after, and how the nominal shapes meet.

    `overlap` mm³ by body already there (films below 2 µm do not count); `gap` mm, the nearest distance to any of them
    (`searched` mm where farther).
    Sizes are nominal: a press fit overlaps by nothing here, its interference lives in the calculation.
    """

    before: State
    after: State
    added: tuple[str, ...]
    searched: float

    @cached_property
    def overlap(self) -> Mapping[str, float]:
        """Worked out when it is asked for: two cuts of the kernel for every pair."""
        return {n: sum(overlap(b.solid, p) for p in self._new) for n, b in self.before.bodies.items()}

    @cached_property
    def gap(self) -> float:
        """Worked out when it is asked for."""
        gaps = (body.solid.gap(piece, self.searched) for body in self.before.bodies.values() for piece in self._new)
        return min(gaps, default=self.searched)

    @property
    def _new(self) -> list[Solid]:
        return [self.after.bodies[name].solid for name in self.added]


PieceChooser = Callable[[Solid], bool]


@dataclass(eq=False)
class Workpiece:
    """The work on the bench: its state now, and the few things that can happen to it. Never moves in its own frame.

    z runs from the raw end A into the metal, x is the 0° mark. Everything returns unchangeable records.
    """

    kernel: SolidKernel
    name: str
    state: State = field(default_factory=State)

    @property
    def bodies(self) -> Mapping[str, Body]:
        """Its pieces by name."""
        return self.state.bodies

    @property
    def ends(self) -> Ends:
        """Where its ends stand."""
        return self.state.ends

    @property
    def marks(self) -> tuple[Mark, ...]:
        """The lines marked on it."""
        return self.state.marks

    def start(self, stock: Stock, material: str, density: float, body: str = "work") -> State:
        """Take the stock from the rack; `density` in g/mm³."""
        self.state = State({body: Body(stock.solid, material, density)}, stock.ends)
        return self.state

    def frame(self, holding: Holding) -> TurningFrame:
        """Lengths, radii and angles of a set-up as the work stands now."""
        return holding.frame(self.ends)

    # -------------------------------------------------------------- metal goes
    def cut(
        self,
        cutter: Solid | Sequence[Solid],
        operation: str,
        *,
        splits: bool = False,
        body: str | None = None,
        spare: Collection[str] = (),
        ends: Ends | None = None,
    ) -> Cut:
        """Cut with what the tool sweeps: the one place where metal goes.

        Several cutters are one operation; `operation` is the id their surfaces carry. `body` = the only one that is
        cut, else all but those to `spare`. `ends` = where the ends stand afterwards (facing). A body that is cut away
        altogether leaves the work; KeyError where `body` is not there, ValueError where nothing would be left.
        """
        before = self.state
        swept = cutter if isinstance(cutter, Solid) else self.kernel.union(cutter)
        bodies, removed = dict(before.bodies), {}
        for name in [body] if body is not None else [name for name in bodies if name not in spare]:
            inside, outside = _split(bodies[name].solid, swept)
            if inside is None or outside is None:
                continue
            removed[name] = inside
            if outside.volume > NOTHING:
                bodies[name] = bodies[name].with_solid(outside)
            else:
                del bodies[name]
        if not bodies:
            raise ValueError("nothing of the work would be left")
        marks = tuple(m for mark in before.marks for m in mark.after(swept)) if removed else before.marks
        self.state = before.changed(bodies, ends, marks)
        return Cut(operation, before, self.state, removed, splits)

    def keep(self, chooser: PieceChooser, body: str = "work") -> Kept:
        """Keep the pieces of a body that the chooser picks; the rest is handed back.

        An end that came off moves to where the kept metal ends. ValueError where nothing is picked.
        """
        before = self.state
        pieces = before.bodies[body].solid.pieces()
        kept = [p for p in pieces if chooser(p)]
        if not kept:
            raise ValueError(f"no piece of `{body}` is kept (got {len(pieces)} pieces)")
        whole = kept[0].together(kept[1:]) if len(kept) < len(pieces) else before.bodies[body].solid
        after = before.changed({**before.bodies, body: before.bodies[body].with_solid(whole)})
        low, high = after.bounds
        ends = Ends(max(before.ends.a, float(low[2])), min(before.ends.b, float(high[2])))
        self.state = after.changed(ends=ends)
        scrap = {body: tuple(p for p in pieces if not chooser(p))}
        return Kept(before, self.state, scrap)

    def set_end(self, end: End, z: float) -> State:
        """Move the datum of an end to z of the work, mm."""
        self.state = self.state.changed(ends=self.ends.moved(end, z))
        return self.state

    # -------------------------------------------------------------- metal comes
    def join(self, name: str, other: Body | Workpiece, frame: Frame | None = None, *, search: float = 1.0) -> Join:
        """Put another piece where `frame` says: pressed in, pinned, screwed on, brazed.

        Another workpiece brings all its pieces and marks. ValueError where the name is taken.
        """
        place, before = frame or Frame.identity(), self.state
        new = {n: b.moved(place) for n, b in _named(name, other).items()}
        taken = [n for n in new if n in before.bodies]
        if taken:
            raise ValueError(f"a piece named `{taken[0]}` is already there")
        for body in new.values():
            self.kernel.table.adopt(body.solid.table)
        marks = tuple(m.moved(place) for m in other.marks) if isinstance(other, Workpiece) else ()
        self.state = before.changed({**before.bodies, **new}, marks=(*before.marks, *marks))
        return Join(before, self.state, tuple(new), search)

    # -------------------------------------------------------------- lines
    def mark(self, lines: Iterable[Array], kind: MarkKind, operation: str) -> State:
        """Mark lines (k, 3) in mm that lie a little outside the surface; no metal goes."""
        new = tuple(Mark(np.asarray(line, float), kind, operation) for line in lines)
        self.state = self.state.changed(marks=(*self.marks, *new))
        return self.state


def _named(name: str, other: Body | Workpiece) -> dict[str, Body]:
    if isinstance(other, Body):
        return {name: other}
    if len(other.bodies) == 1:
        return {name: next(iter(other.bodies.values()))}
    return {f"{name}, {n}": b for n, b in other.bodies.items()}


def _split(solid: Solid, cutter: Solid) -> tuple[Solid, Solid] | tuple[None, None]:
    """(what goes, what stays); None where no metal goes, so that the solid keeps what was worked out from it."""
    if cutter.empty:
        return None, None
    (low, high), (cut_low, cut_high) = solid.bounds, cutter.bounds
    if (cut_high < low).any() or (cut_low > high).any():
        return None, None
    inside, outside = solid.split(cutter)
    return (inside, outside) if inside.volume > NOTHING else (None, None)


def towards(end: End, z: float) -> PieceChooser:
    """Chooses the pieces that lie, by their middle, on one end's side of a cut at z of the work."""

    def choose(piece: Solid) -> bool:
        low, high = piece.bounds
        return bool(((low[2] + high[2]) / 2 < z) == (end == "A"))

    return choose


def largest(pieces: Sequence[Solid]) -> PieceChooser:
    """Chooses the largest of the pieces."""
    most = max(p.volume for p in pieces)
    return lambda piece: piece.volume >= most * (1 - 1e-9)
