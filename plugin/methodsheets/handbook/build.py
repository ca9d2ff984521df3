"""Builds the handbook: finds everything, takes from the store what is there, works out the rest."""

from __future__ import annotations

import functools
import time
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

from methodsheets.reading.limits import RESULTS
from methodsheets.reading.mishap import CODE as CRASH
from methodsheets.reading.mishap import through
from methodsheets.reading.problem import Place, Problem, Severity
from methodsheets.reading.source import shown_path
from methodsheets.sheet.records import RecordError, pack, unpack

from . import workers
from .album import Album
from .among_others import among_others, place_of_key
from .approved import approved_file, changed_numbers
from .compare_all import compare_all
from .digests import base_digest
from .gallery import MARK, Example, read_gallery
from .library import Found, find_methods
from .model import Counts, Entry, Experience, Handbook, Options, Record
from .notes import FileNote, note_of
from .pace import paces
from .plan import Plan
from .records import experience_of, records_of, with_limits
from .shelf import ForWorkshops, Kept
from .shop_cards import WallChart
from .shops import find_workshops
from .standalone import standalone
from .store import Store
from .work import Bench, Brief, Done, Task, blank_method, in_order

Progress = Callable[[int, int], None]
"""Called with how many results of how many have been worked out."""


def build_handbook(options: Options, progress: Progress | None = None, *, evict: bool = False) -> Handbook:
    """Build the handbook.

    Nothing is raised for what an author did: every problem is in the handbook's `problems`.

    Parameters:
        options: where things lie, and whether the store may be used
        progress: told how far the working out has come
        evict: forget what the store has not been asked for in three weeks; for whole builds only
    """
    started = time.perf_counter()
    store = Store(options.store)
    base = base_digest(f"{options.style} draw={options.draw}")
    library = find_methods(options.methods, options.inside, options.root, options.offered)
    shops = find_workshops(options, library.folders, base, store)

    def notes(files: dict[str, Found]) -> dict[str, FileNote]:
        return {slug: note_of(found, store, base, fresh=options.fresh) for slug, found in files.items()}

    plan = Plan(options, library, shops, base, notes(library.methods))
    results = _Results(plan, store, progress)
    handbook = _put_together(plan, results, store)
    store.save(evict=evict)
    counts = results.counts(len(handbook.entries), time.perf_counter() - started)
    return replace(handbook, counts=counts)


class _Results:
    """Every result of a build: those that the store had, and those that were worked out."""

    def __init__(self, plan: Plan, store: Store, progress: Progress | None) -> None:
        self.plan = plan
        self.store = store
        self.tasks = plan.tasks()
        self.briefs: dict[str, Brief] = {} if plan.options.fresh else self._stored()
        self.from_store = len(self.briefs)
        self.kept_drawings = sum(len(brief.drawings) for brief in self.briefs.values())
        self.evaluated = self.drawn = 0
        missing = [task for task in self.tasks.values() if task.key not in self.briefs]
        if missing:
            self._work_out(missing, progress)

    def _stored(self) -> dict[str, Brief]:
        briefs: dict[str, Brief] = {}
        for task in self.tasks.values():
            kept = self.store.brief(task.key)
            if kept is None:
                continue
            try:
                brief = unpack(Brief, kept)
            except RecordError:
                self.store.damaged += 1
                continue
            if brief.lasting:
                briefs[task.key] = brief
                self.store.in_use(brief.pictures)
        return briefs

    def _work_out(self, missing: list[Task], progress: Progress | None) -> None:
        bench = self._bench()
        count = workers.how_many(self.plan.options.workers, len(missing))
        for task, done in workers.do_all(bench, missing, self.extra, count):
            self._take(task, done or self._died(bench, task))
            self.evaluated += 1
            if progress is not None:
                progress(self.evaluated, len(missing))

    def _bench(self) -> Bench:
        # The slow imports: a build that finds everything in the store never comes here.
        from methodsheets.method.evaluate import evaluate_method

        draw, figure, views = None, None, None
        options = self.plan.options
        if options.draw:
            from methodsheets.drawings import drawing_room

            draw, figure, views = drawing_room.draw_method, drawing_room.Figure, drawing_room.ViewBook  # type: ignore[attr-defined]
        return Bench(
            self.plan.library,
            self.plan.shops.workshops(),
            self.plan.sources(),
            evaluate=evaluate_method,
            draw=draw,
            album=Album(self.plan.base, figure, None if options.fresh else self.store, views),
        )

    def _take(self, task: Task, done: Done) -> None:
        self.store.keep(task.key, done.method, pack(done.brief))
        for place, note in done.notes.items():
            self.store.keep_note(place, note)
        self.briefs[task.key] = done.brief
        self.drawn += done.drawn
        self.kept_drawings += len(done.brief.drawings) - done.drawn

    def _died(self, bench: Bench, task: Task) -> Done:
        """What to publish of a method whose process died: its page, saying so."""
        found = self.plan.library.methods[task.slug]
        problem = Problem(
            Place(found.path),
            "this method could not be worked out (the process that worked on it died)",
            "this is a fault of the program, not of the file",
            "please report it together with the file",
            code=CRASH,
        )
        method = blank_method(found, bench.workshops[task.workshop])
        return bench.pack(task, replace(method, problems=in_order((*self.extra(task), problem))), [])

    def extra(self, task: Task) -> tuple[Problem, ...]:
        """What is wrong with a method before it is worked out: its file as such, the workshop that it names."""
        found = self.plan.library.methods[task.slug]
        problems = [*self.plan.library.problems_of(found.path), *self.plan.notes[task.slug].problems]
        circle = self.plan.circle(task.slug)
        if circle:
            what = f"these methods are made from each other: {', '.join(f'`{slug}`' for slug in circle)}"
            rule, remedy = "what a method is made from comes before it", "take one of the references out"
            problems.append(Problem(Place(found.path), what, rule, remedy, code="circle"))
        if self.plan.shops.failed(task.workshop):
            what = f"the workshop `{task.workshop}` could not be read"
            problems.append(Problem(Place(found.path), what, "", "see what is said there", code=CRASH))
        if task.own and self.plan.is_unknown(task.slug):
            named = self.plan.notes[task.slug].workshop
            what = f"there is no workshop `{named}`"
            rule = "the key `workshop` names a file of the folder of workshops"
            remedy = self.plan.shops.suggestion(named)
            place = place_of_key(found.path, found.text, "workshop")
            problems.append(Problem(place, what, rule, remedy, code="unknown-workshop"))
        return tuple(problems)

    def remake(self, task: Task) -> Done:
        """Work a result out again that turned out to be damaged when it was read."""
        done = self._bench().do(task, self.extra(task))
        self._take(task, done)
        self.store.save()
        return done

    def brief(self, slug: str, workshop: str) -> Brief:
        """The brief of a result."""
        return self.briefs[self.tasks[slug, workshop].key]

    def counts(self, methods: int, seconds: float) -> Counts:
        """What was done."""
        return Counts(
            methods=methods,
            workshops=len(self.plan.shops.digests),
            evaluated=self.evaluated,
            from_store=self.from_store,
            drawn=self.drawn,
            drawings_from_store=self.kept_drawings,
            seconds=seconds,
            damaged=self.store.damaged,
        )


def _put_together(plan: Plan, results: _Results, store: Store) -> Handbook:
    """Make the handbook of all results."""
    kept = Kept(store, results.tasks, results.remake, lambda task: results.briefs[task.key])
    slugs = {slug for slug, _ in results.tasks}
    titles = {slug: results.brief(slug, plan.own_workshop(slug)).title for slug in slugs}
    order = sorted(slugs, key=lambda slug: (titles[slug].lower(), slug))
    entries = {slug: _entry(plan, results, kept, slug) for slug in order}
    parts = {slug: results.brief(slug, plan.own_workshop(slug)).part for slug in entries}
    problems = list(plan.shops.problems)
    problems += [one for card in plan.shops.cards().values() for one in card.problems]
    problems += [one for entry in entries.values() for one in entry.problems]
    problems += [_too_many(plan)] if plan.too_many else []
    problems += [one for _, found in plan.library.problems if not plan.options.only for one in found]

    @functools.cache
    def gallery() -> Mapping[str, Example]:
        """Asked for while pages are made, when the rest is in the store already: so it is saved by itself."""
        found = read_gallery(store, plan.base, fresh=plan.options.fresh) if plan.options.draw else {}
        store.save()
        return found

    @functools.cache
    def charts(key: str) -> tuple[WallChart, ...]:
        found = plan.shops.charts(key)
        store.save()
        return found

    def svg(key: str) -> str:
        if key.startswith(MARK):
            example = gallery().get(key)
            return example.svg if example else ""
        return kept.svg(key)

    return Handbook(
        entries=entries,
        workshops=plan.shops.cards(),
        by_workshop=compare_all(entries, parts, results.tasks, plan.shops.cards(), store),
        problems=tuple(sorted(dict.fromkeys(problems), key=Problem.order)),
        counts=Counts(),
        options=plan.options,
        draw=lambda key, alone: standalone(svg(key)) if alone else svg(key),
        gallery=gallery,
        charts=charts,
        workshop_files=plan.shops.files,
        paces=functools.cache(lambda key: paces(entries.values(), key)),
    )


def _too_many(plan: Plan) -> Problem:
    got = f"{len(plan.library.methods):,} methods and {len(plan.shops.digests):,} workshops"
    what = f"the handbook is worked out for the authors' own workshops only (got {got})"
    folder = shown_path(plan.options.methods[0], plan.options.root) if plan.options.methods else "methods"
    return Problem(Place(folder), what, f"at most {RESULTS:,} {RESULTS.of}", "take some out", code="too-many")


def _entry(plan: Plan, results: _Results, kept: Kept, slug: str) -> Entry:
    found = plan.library.methods[slug]
    own = plan.own_workshop(slug)
    workshops = tuple(workshop for one, workshop in results.tasks if one == slug)
    by_workshop = ForWorkshops(kept, slug, workshops)
    rows, experience, told = through(
        found.path,
        "its records could not be read",
        lambda: _recorded(found, plan.options.root, by_workshop, own),
        lambda problem: ((), None, (problem,)),
    )
    changed = through(
        found.path,
        "its approved numbers could not be compared",
        lambda: _changed(by_workshop, own, found, plan),
        lambda problem: (problem,),
    )
    said = results.brief(slug, own).problems
    read = all(one.severity is not Severity.ERROR for one in said)
    return Entry(
        slug=slug,
        path=found.path,
        file=found.file,
        file_text=found.text,
        own_workshop=own,
        by_workshop=by_workshop,
        records=rows,
        experience=experience,
        src_uri=found.place,
        problems=(*said, *told, *changed, *(among_others(plan, slug) if read else ())),
    )


def _recorded(
    found: Found, root: Path, by_workshop: ForWorkshops, own: str
) -> tuple[tuple[Record, ...], Experience | None, tuple[Problem, ...]]:
    """The records of a method, what they teach, and what is wrong with them."""
    read = records_of(found, root)
    rows = with_limits(read.records, by_workshop[own]) if read.records else ()
    return rows, experience_of(by_workshop[own], rows) if rows else None, read.problems


def _changed(by_workshop: ForWorkshops, own: str, found: Found, plan: Plan) -> tuple[Problem, ...]:
    """Numbers that come out otherwise than they were approved."""
    if not approved_file(found).is_file():
        return ()
    return changed_numbers(by_workshop[own], found, plan.options.root)
