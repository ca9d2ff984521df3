"""Which workshops does the handbook know, and what does a page say of each?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from methodsheets.reading.inside import real
from methodsheets.reading.mishap import CODE as CRASH
from methodsheets.reading.mishap import through
from methodsheets.reading.problem import Place, Problem, Problems, did_you_mean
from methodsheets.reading.slug import file_slug
from methodsheets.reading.source import in_words, shown_path
from methodsheets.sheet.records import RecordError, pack, unpack

from .digests import digest_of, file_digest
from .model import Options
from .shop_cards import WallChart, WallCharts, WorkshopCard
from .store import Store

if TYPE_CHECKING:
    from methodsheets.workshop.model import Workshop

FOLDER = "workshops"
SUFFIXES = (".yml", ".yaml")

USUAL = Path(__file__).resolve().parent.parent / "workshop" / "usual.yml"
"""The workshop that is taken where a handbook has none: a small lathe and mill as many have."""


@dataclass
class Shops:
    """The workshops of a handbook: digests at once, everything else when it is asked for.

    Parameters:
        files: key → file
        digests: key → digest of the file's bytes
        problems: of the folder as such, and of every file
    """

    files: Mapping[str, Path]
    digests: Mapping[str, str]
    root: Path
    store: Store
    base: str
    problems: list[Problem]
    _read: dict[str, tuple[Workshop, Problems]] = field(default_factory=dict)
    _failed: set[str] = field(default_factory=set)
    _cards: dict[str, WorkshopCard] = field(default_factory=dict)

    def named(self, name: str) -> str:
        """The key of a workshop that an author names; '' where there is none of that name."""
        wanted = file_slug(name)
        return wanted if wanted in self.digests else ""

    def suggestion(self, name: str) -> str:
        """What to do about a workshop that is not there."""
        return did_you_mean(name, self.digests)

    def workshops(self) -> dict[str, Workshop]:
        """Every workshop, read."""
        return {key: self.workshop(key) for key in self.digests}

    def workshop(self, key: str) -> Workshop:
        """One workshop, read; its problems are those of its card."""
        return self._take(key)[0]

    def failed(self, key: str) -> bool:
        """Whether the program or the machine failed on a workshop, so that nothing made with it may be kept."""
        self.workshop(key)
        return key in self._failed or not self.digests[key]

    def _take(self, key: str) -> tuple[Workshop, Problems]:
        """A workshop with its problems; it is read once."""
        if key not in self._read:
            self._read[key] = self._reading(key)
            if any(one.code == CRASH for one in self._read[key][1]):
                self._failed.add(key)
        return self._read[key]

    def _reading(self, key: str) -> tuple[Workshop, Problems]:
        from methodsheets.workshop.model import Workshop
        from methodsheets.workshop.reader import read_workshop

        problems = Problems()
        file = self.files[key]
        shown = shown_path(file, self.root)

        def failed(problem: Problem) -> None:
            problems.extend([problem])

        read = through(
            shown,
            "this workshop could not be read",
            lambda: read_workshop(file, file.parent, problems, shown),
            failed,
        )
        return read or Workshop(key, key, digest=self.digests[key], path=shown), problems

    def cards(self) -> dict[str, WorkshopCard]:
        """What a page says of each workshop."""
        return {key: self.card(key) for key in self.digests}

    def card(self, key: str) -> WorkshopCard:
        """What a page says of one workshop; from the store where its file has not changed."""
        if key not in self._cards:
            note = digest_of("workshop", self.base, key, shown_path(self.files[key], self.root), self.digests[key])
            self._cards[key] = self._from_store(note) or self._make_card(key, note)
        return self._cards[key]

    def _from_store(self, note: str) -> WorkshopCard | None:
        kept = self.store.note(note)
        try:
            return unpack(WorkshopCard, kept) if kept is not None else None
        except RecordError:
            return None

    def _make_card(self, key: str, note: str) -> WorkshopCard:
        from methodsheets.workshop.model import Workshop

        from .cards import card_of

        workshop, problems = self._take(key)

        def failed(problem: Problem) -> WorkshopCard:
            bare = Workshop(key, key, digest=self.digests[key], path=workshop.path)
            return card_of(bare, (*problems, problem))

        card = through(
            workshop.path, "this workshop could not be shown", lambda: card_of(workshop, tuple(problems)), failed
        )
        if not any(one.code == CRASH for one in card.problems):
            self.store.keep_note(note, pack(card))
        return card

    def charts(self, key: str) -> tuple[WallChart, ...]:
        """Charts for the wall of a workshop; from the store where its file has not changed."""
        place = digest_of("charts", self.base, key, self.digests[key])
        kept = self.store.note(place)
        try:
            if kept is not None:
                return unpack(WallCharts, kept).charts
        except RecordError:
            self.store.damaged += 1
        made = self._make_charts(key)
        if made.lasting:
            self.store.keep_note(place, pack(made))
        return made.charts

    def _make_charts(self, key: str) -> WallCharts:
        from .wall_charts import wall_charts

        def failed(problem: Problem) -> WallCharts:
            told = WallChart("no-charts", "Charts", problem.what, (), (), (problem.rule, problem.remedy))
            return WallCharts((told,), lasting=False)

        workshop, words = self.workshop(key), "the charts of this workshop could not be made"
        return through(workshop.path, words, lambda: WallCharts(wall_charts(workshop)), failed)


def find_workshops(options: Options, folders: tuple[Path, ...], base: str, store: Store) -> Shops:
    """Find the workshops: in the folder named, else in `workshops/` inside the folders of methods.

    Where there is none at all, the usual one that comes with the program is taken.
    """
    problems: list[Problem] = []
    places = (options.workshops,) if options.workshops is not None else tuple(folder / FOLDER for folder in folders)
    files: dict[str, Path] = {}
    for place in places:
        if not place.is_dir():
            if options.workshops is not None:
                shown = shown_path(place, options.root)
                what = f"there is no folder of workshops (got {shown})"
                problems.append(Problem(Place(shown), what, "the option `workshops` names a folder", code="no-folder"))
            continue
        for file in sorted(place.iterdir()):
            if file.suffix.lower() in SUFFIXES and not file.name.startswith("."):
                first = files.setdefault(file_slug(in_words(file.stem)), file)
                if real(first) != real(file):
                    problems.append(_of_one_name(shown_path(file, options.root), shown_path(first, options.root)))
    if not files:
        files = {USUAL.stem: USUAL}
    missing = [key for key in options.workshop_keys if file_slug(key) not in files]
    for key in missing:
        what = f"there is no workshop `{key}`"
        problems.append(Problem(Place(key), what, "", did_you_mean(key, files), code="unknown-workshop"))
    digests = {key: file_digest(file) for key, file in files.items()}
    return Shops(files, digests, options.root, store, base, problems)


def _of_one_name(shown: str, first: str) -> Problem:
    what = f"two workshops have one name in addresses (the other is {first})"
    rule = "a workshop is known by the name of its file, in small letters without accents"
    return Problem(Place(shown), what, rule, "give one of the two files another name", code="two-of-a-name")
