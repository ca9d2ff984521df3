"""Works methods out: one method for one workshop at a time, with its pictures; a crash stays with its method."""

from __future__ import annotations

import traceback
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Protocol

from methodsheets.method.record import pack
from methodsheets.reading.problem import Place, Problem, Problems
from methodsheets.sheet.model import Drawing, Method, Operation, Setup
from methodsheets.sheet.words import NOTHING

from .album import Album, pack_picture, picture_key
from .digests import versions
from .library import Found, Library
from .notes import read_file
from .store import pack_method

if TYPE_CHECKING:
    from methodsheets.reading.method_file import MethodFile
    from methodsheets.workshop.model import Workshop


class Evaluated(Protocol):
    """What working a method out gives: the record, and the live job that its pictures are drawn from."""

    @property
    def method(self) -> Method:
        """The record."""
        ...

    @property
    def live(self) -> Any:
        """The job: solids, and `problems` that grow while it is drawn."""
        ...


Evaluate = Callable[..., Any]
"""`method.evaluate.evaluate_method(file, workshop, library, problems)`."""

Draw = Callable[[Any, Album], list[tuple[Drawing, str]]]
"""`drawings.draw_method(evaluated, album)`; it takes from the album what need not be drawn again."""


@dataclass(frozen=True)
class Task:
    """One method to be worked out for one workshop."""

    slug: str
    workshop: str
    key: str
    own: bool


@dataclass(frozen=True)
class Brief:
    """What the handbook needs of a result without unpacking it."""

    title: str
    part: str
    drawings: tuple[str, ...]
    """Keys of its pictures."""
    pictures: tuple[str, ...]
    """Where the store keeps each of them."""
    problems: tuple[Problem, ...]
    lasting: bool = True
    """False where the program crashed: the next build tries again."""


@dataclass(frozen=True)
class Done:
    """A result, ready for the store."""

    key: str
    method: bytes
    brief: Brief
    notes: dict[str, bytes]
    """Pictures and drawings for the store."""
    drawn: int = 0
    """How many drawings had to be made."""


class Shelf:
    """What a method may take from other methods, for one workshop: `shelf("guide-bush")` is that method worked out."""

    def __init__(self, bench: Bench, workshop: str, asking: str) -> None:
        self._bench = bench
        self._workshop = workshop
        self._asking = asking

    def __call__(self, name: str) -> Any:
        """The evaluated method of that slug; None where there is none, or where it needs the one that asks."""
        return self._bench.evaluated(name, self._workshop)

    def part(self, name: str) -> MethodFile | None:
        """The file of `parts/` of that name; None where there is none."""
        return self._bench.part(name)

    @property
    def names(self) -> tuple[str, ...]:
        """Every method there is, to suggest from."""
        return tuple(slug for slug in self._bench.library.methods if slug != self._asking)

    @property
    def part_names(self) -> tuple[str, ...]:
        """Every file of a part there is, to suggest from."""
        return tuple(self._bench.library.parts)


class Bench:
    """Works out methods in this process, and keeps those that others are made from."""

    def __init__(
        self,
        library: Library,
        workshops: Mapping[str, Workshop],
        wanted: frozenset[str],
        *,
        evaluate: Evaluate,
        draw: Draw | None,
        album: Album,
    ) -> None:
        """Prepare.

        Parameters:
            wanted: slugs that other methods refer to; these are kept while the bench lives
            draw: None where no pictures are wanted
            album: the drawings that are there already
        """
        self.library = library
        self.workshops = workshops
        self.wanted = wanted
        self._evaluate = evaluate
        self._draw = draw
        self._kept: dict[tuple[str, str], Any] = {}
        self._busy: set[tuple[str, str]] = set()
        self._files: dict[str, tuple[MethodFile | None, Problems]] = {}
        self.album = album

    def part(self, name: str) -> MethodFile | None:
        """A file of a part, read."""
        found = self.library.parts.get(name)
        return read_file(found)[0] if found else None

    def evaluated(self, slug: str, workshop: str) -> Any:
        """A method worked out; None where there is none, where it cannot be read, or while it is being worked out."""
        place = (slug, workshop)
        if place in self._kept:
            return self._kept[place]
        found = self.library.methods.get(slug)
        if found is None or place in self._busy:
            return None
        file, reading = self._read(found)
        if file is None:
            return None
        self._busy.add(place)
        try:
            made = self._evaluate(file, self.workshops[workshop], Shelf(self, workshop, slug), reading)
        finally:
            self._busy.discard(place)
        if slug in self.wanted:
            self._kept[place] = made
        return made

    def _read(self, found: Found) -> tuple[MethodFile | None, Problems]:
        """A file, read once for all workshops that come one after the other."""
        if found.slug not in self._files:
            self._files.clear()
            self._files[found.slug] = read_file(found)
        return self._files[found.slug]

    def do(self, task: Task, extra: tuple[Problem, ...] = ()) -> Done:
        """Work one method out and draw it. Whatever goes wrong becomes a problem of that method.

        Parameters:
            extra: problems found before: of the file as such, of the workshop it names
        """
        found = self.library.methods[task.slug]
        workshop = self.workshops[task.workshop]
        file, reading = self._read(found)
        before = (*extra, *reading)
        try:
            made = self.evaluated(task.slug, task.workshop) if file is not None else None
            method = made.method if made is not None else blank_method(found, workshop)
            drawn = self._drawn(task.slug, made)
        except Exception as error:
            return self.pack(task, crashed_method(found, workshop, error, before), [], lasting=False)
        late = made.live.problems if made is not None else ()  # those of pictures come after the record was made
        problems = dict.fromkeys((*before, *method.problems, *late))
        method = replace(method, problems=tuple(sorted(problems, key=Problem.order)))
        return self.pack(task, method, drawn, lasting=True)

    def _drawn(self, slug: str, made: Any) -> list[tuple[Drawing, str]]:
        """The pictures of a method; those that several workshops share are drawn once."""
        if self._draw is None or made is None:
            return []
        self.album.begin(slug)
        return self._draw(made, self.album)

    def pack(self, task: Task, method: Method, drawn: list[tuple[Drawing, str]], *, lasting: bool) -> Done:
        """Finish the record: its digest, its pictures in their places, the versions it was made with."""
        method = place_drawings(method, tuple(drawing for drawing, _ in drawn))
        method = replace(method, digest=task.key, own_workshop=task.own, versions=versions())
        pictures = {drawing.key: svg for drawing, svg in drawn}
        places = tuple(picture_key(svg) for svg in pictures.values())
        notes, count = self.album.take()
        notes |= {place: pack_picture(svg) for place, svg in zip(places, pictures.values(), strict=True)}
        brief = Brief(method.title, method.part, tuple(pictures), places, method.problems, lasting)
        return Done(task.key, pack_method(pack(method)), brief, notes, count)


def place_drawings(method: Method, drawings: tuple[Drawing, ...]) -> Method:
    """Give every set-up and operation the keys of its pictures, after those that it names itself."""
    if not drawings:
        return method

    def with_operation(operation: Operation) -> Operation:
        return replace(operation, figures=_merged(operation.figures, drawings, f"op-{operation.number}", operation.id))

    def with_setup(setup: Setup) -> Setup:
        return replace(
            setup,
            figures=_merged(setup.figures, drawings, f"setup-{setup.number}", setup.id),
            operations=tuple(with_operation(operation) for operation in setup.operations),
        )

    return replace(method, drawings=drawings, setups=tuple(with_setup(setup) for setup in method.setups))


def _merged(named: tuple[str, ...], drawings: tuple[Drawing, ...], *schemes: str) -> tuple[str, ...]:
    known = {drawing.key for drawing in drawings}
    own = [drawing.key for drawing in drawings if drawing.scheme in schemes]
    return tuple(dict.fromkeys((*(key for key in named if key in known), *own)))


def blank_method(found: Found, workshop: Workshop) -> Method:
    """A method with nothing in it, for a file that cannot be read: its page still stands and says why."""
    return Method(
        slug=found.slug,
        path=found.path,
        title=found.title,
        part="",
        workshop=workshop.key,
        workshop_name=workshop.name,
        status="draft",
        revision="",
        date="",
        summary="",
        material="",
        stock=NOTHING,
        makes=1,
        digest="",
    )


def crashed_method(found: Found, workshop: Workshop, error: BaseException, before: tuple[Problem, ...]) -> Method:
    """A blank method that says that the program failed on it."""
    where = traceback.extract_tb(error.__traceback__)
    last = f" in {where[-1].name}, line {where[-1].lineno}" if where else ""
    problem = Problem(
        Place(found.path),
        f"this method could not be worked out (got {type(error).__name__}: {error}{last})",
        "this is a fault of the program, not of the method",
        "please report it together with the method file",
        code="crash",
    )
    return replace(blank_method(found, workshop), problems=(*before, problem))
