"""Works methods out: one method for one workshop at a time, with its pictures; a crash stays with its method."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Protocol

from methodsheets.reading.mishap import CODE as CRASH
from methodsheets.reading.mishap import through
from methodsheets.reading.problem import Place, Problem, Problems
from methodsheets.sheet.model import Drawing, Method, Operation, Setup
from methodsheets.sheet.records import pack
from methodsheets.sheet.words import NOTHING

from .album import Album, pack_picture, picture_key
from .circles import before
from .digests import versions
from .library import Found, Library
from .notes import read_file
from .store import pack_method

if TYPE_CHECKING:
    from methodsheets.reading.method_file import MethodFile
    from methodsheets.workshop.model import Workshop

PASSING = frozenset({CRASH, "no-picture"})
"""Problems that are the program's or the machine's, not the author's: what has one is tried again in the next build."""


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

Draw = Callable[[Any, Album, Any], list[tuple[Drawing, str]]]
"""`drawings.draw_method(evaluated, album, views)`; it takes from both what need not be drawn or looked at again."""


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
    """False where the program or the machine failed: the next build tries again."""


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
    """What a method may take from other methods, for one workshop: `shelf("guide-bush")` is that method worked out.

    It hands out only what the method was seen to name, so that nothing can depend on a file that its key forgot.
    """

    def __init__(self, found: Mapping[str, Any]) -> None:
        self._found = found

    def __call__(self, name: str) -> Any:
        """The evaluated method of that slug; None where there is none, or where it needs the one that asks."""
        return self._found.get(name)


class Bench:
    """Works out methods in this process, and keeps those that others are made from."""

    def __init__(
        self,
        library: Library,
        workshops: Mapping[str, Workshop],
        sources: Mapping[str, tuple[str, ...]],
        *,
        evaluate: Evaluate,
        draw: Draw | None,
        album: Album,
    ) -> None:
        """Prepare.

        Parameters:
            sources: method → methods that it is made from, without circles; these are kept while the bench lives
            draw: None where no pictures are wanted
            album: the drawings that are there already
        """
        self.library = library
        self.workshops = workshops
        self.sources = sources
        self._wanted = frozenset(name for names in sources.values() for name in names)
        self._evaluate = evaluate
        self._draw = draw
        self._kept: dict[str, dict[str, Any]] = {key: {} for key in workshops}
        """Workshop → method → what was worked out, or the problem where the program failed on it."""
        self._files: dict[str, tuple[MethodFile | None, Problems]] = {}
        self.album = album

    def evaluated(self, slug: str, workshop: str) -> Any:
        """A method worked out, and before it all that it is made from.

        Returns:
            What `evaluate` gives; None where the file cannot be read; a `Problem` where the program failed on it.
        """
        kept = self._kept[workshop]
        for name in before(slug, self.sources, kept):
            self._make(name, workshop)
        return kept[slug] if slug in kept else self._make(slug, workshop)

    def _make(self, slug: str, workshop: str) -> Any:
        """Work one method out; all that it is made from is there."""
        found, kept = self.library.methods[slug], self._kept[workshop]
        given = {name: kept[name] for name in self.sources[slug]}
        shelf = Shelf({name: one for name, one in given.items() if not isinstance(one, Problem)})
        file, reading = self._read(found)

        def make() -> Any:
            return self._evaluate(file, self.workshops[workshop], shelf, reading) if file is not None else None

        made = through(found.path, "this method could not be worked out", make, lambda problem: problem)
        if slug in self._wanted:
            kept[slug] = made
        return made

    def _failed_before(self, task: Task) -> list[Problem]:
        """What to say of a method that is made from one on which the program failed."""
        kept, found = self._kept[task.workshop], self.library.methods[task.slug]
        failed = [name for name in before(task.slug, self.sources) if isinstance(kept[name], Problem)]
        what = "a method that this one is made from could not be worked out (got `{}`)"
        return [
            Problem(Place(found.path), what.format(name), "", "see what is said there", code=CRASH) for name in failed
        ]

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
        _, reading = self._read(found)
        made = self.evaluated(task.slug, task.workshop)
        said = [*extra, *reading, *self._failed_before(task)]
        drawn: list[tuple[Drawing, str]] = []
        if made is None or isinstance(made, Problem):
            method = blank_method(found, self.workshops[task.workshop])
            said += [made] if made is not None else []
        else:
            drawn = through(
                found.path,
                "its pictures could not be drawn",
                lambda: self._drawn(task.slug, made),
                lambda problem: said.append(problem) or [],  # type: ignore[func-returns-value]
            )
            method = made.method
            said += [*method.problems, *made.live.problems]  # those of pictures come after the record was made
        return self.pack(task, replace(method, problems=in_order(said)), drawn)

    def _drawn(self, slug: str, made: Any) -> list[tuple[Drawing, str]]:
        """The pictures of a method; those that several workshops share are drawn once."""
        if self._draw is None:
            return []
        self.album.begin(slug)
        return self._draw(made, self.album, self.album.views)

    def pack(self, task: Task, method: Method, drawn: list[tuple[Drawing, str]]) -> Done:
        """Finish the record: its digest, its pictures in their places, the versions it was made with."""
        lasting = bool(self.library.methods[task.slug].digest) and not PASSING & {one.code for one in method.problems}
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


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Each problem once, in the order of the file."""
    return tuple(sorted(dict.fromkeys(problems), key=Problem.order))
