"""Is anything wrong with these methods, and what does each come to?"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

from methodsheets.faces.command import FAILED, NOT_KNOWN, CommandError, as_typed
from methodsheets.faces.host_config import project_of
from methodsheets.faces.progress import WORKED_OUT, bar
from methodsheets.formula.measure import Measure
from methodsheets.handbook.approved import approved_file, approved_text
from methodsheets.handbook.build import build_handbook
from methodsheets.handbook.exchange import method_data, problem_data
from methodsheets.handbook.library import Found, markdown_files
from methodsheets.handbook.model import Entry, Handbook
from methodsheets.handbook.project import Project
from methodsheets.reading.inside import Inside, real
from methodsheets.reading.problem import Place, Problem, Severity
from methodsheets.reading.slug import file_slug
from methodsheets.sheet.model import Method, Operation, Setup
from methodsheets.sheet.words import Words

ALL = "all"
PART_KEY, NO_PART, NOT_MADE = "intended-part", "no-part", "not-known"
"""A method without a `part` block is told, and is no reason for an exit status: what it is to become is left to its
author. A check of the work that could not be made is one."""
CONSEQUENCES = ("follows-failed", "intended-part")
"""Checks that are not known because something before them is wrong, where anything is: the cause is told already."""


def check(options: argparse.Namespace) -> int:
    """`methodsheets check`: every problem of the files named, or of the whole handbook."""
    problems: list[Problem] = []
    unknown: list[Problem] = []
    counted = 0
    for project, files in _by_project(options):
        handbook = evaluate(project, files, options.workshop, draw=False)
        counted += len(handbook.entries)
        problems += _problems(handbook, options.workshop)
        problems += _no_methods(handbook, files)
        unknown += _not_known(handbook, options.workshop)
    problems = sorted(dict.fromkeys(problems), key=Problem.order)
    unknown = sorted(dict.fromkeys(unknown), key=Problem.order)
    if options.json:
        print(json.dumps(problem_data(problems, unknown), ensure_ascii=False, indent=1))
    else:
        for problem in (*problems, *unknown):
            print(problem)
        print(_verdict(counted, len(problems), len(unknown)), file=sys.stderr)
    untold = any(one.code == NOT_MADE for one in unknown)
    return FAILED if problems else NOT_KNOWN if untold else 0


def _verdict(methods: int, problems: int, unknown: int) -> str:
    looked = f"{methods} method{'' if methods == 1 else 's'} worked out"
    also = f", {unknown} check{'' if unknown == 1 else 's'} not known" if unknown else ""
    return f"{looked}: {problems or 'no'} problem{'' if problems == 1 else 's'}{also}."


def _not_known(handbook: Handbook, workshop: str | None) -> list[Problem]:
    """What could not be checked, because something was not said; of other workshops too where those were asked for."""
    return [
        Problem(
            Place(method.path, check.line or 1),
            f"check `{check.key}` could not be made: {check.words}",
            *check.advice,
            Severity.WARNING,
            NO_PART if check.key == PART_KEY else NOT_MADE,
        )
        for entry in handbook.entries.values()
        for key, method in entry.by_workshop.items()
        if (key == entry.own_workshop if workshop is None else workshop in (ALL, key))
        for check in method.unknown
        if not (method.problems and check.key in CONSEQUENCES)
    ]


def _by_project(options: argparse.Namespace) -> Iterator[tuple[Project, list[Path]]]:
    """The files named, by the handbook they belong to; without names the handbook here, whole."""
    groups: dict[Project, list[Path]] = {}
    for name in options.files:
        path = Path(name)
        if not path.exists():
            raise CommandError(f"there is no file {name}")
        files = list(markdown_files(path)) if path.is_dir() else [path]
        groups.setdefault(project_of(options, path), []).extend(files)
        if path.is_dir() and not files:
            raise CommandError(f"there are no Markdown files in {name}")
    if not groups:
        yield project_of(options, Path.cwd()), []
    yield from groups.items()


def evaluate(project: Project, files: Iterable[Path], workshop: str | None, *, draw: bool) -> Handbook:
    """Work out the methods of some files (all of the handbook where there are none named).

    Parameters:
        workshop: key of a workshop, 'all', or None for each method's own
    """
    wanted = [Path(file) for file in files]
    here = Path.cwd()
    options = project.options(root=here, draw=draw, store=None)
    known = {real(file) for folder in options.methods for file in markdown_files(folder)}
    outside = tuple(real(file) for file in wanted if real(file) not in known)
    if outside:
        options = replace(options, inside=(*options.inside, *outside))
    if workshop is None:
        options = replace(options, own_only=True)
    elif workshop != ALL:
        options = replace(options, workshop_keys=(workshop,))
    options = replace(options, only=tuple(file_slug(file.stem) for file in wanted))
    return build_handbook(options, bar(WORKED_OUT))


def _problems(handbook: Handbook, workshop: str | None) -> list[Problem]:
    """Problems of the handbook; of other workshops too where those were asked for."""
    problems = list(handbook.problems)
    if workshop:
        for entry in handbook.entries.values():
            for key, method in entry.by_workshop.items():
                if workshop in (ALL, key):
                    problems += method.problems
    return problems


def _no_methods(handbook: Handbook, files: Iterable[Path]) -> list[Problem]:
    """Files that were named and are no methods."""
    found = {real(entry.file) for entry in handbook.entries.values()}
    told = {problem.place.path for problem in handbook.problems}
    problems = []
    for file in files:
        shown = Path(file).as_posix()
        is_part = "parts" in file.parts
        if real(file) not in found and shown not in told and not is_part:
            what, rule = "not a method file", "the front matter of a method file has the key `method`"
            problems.append(
                Problem(Place(shown), what, rule, "begin it with `---`, `method: its title`, `---`", code="no-method")
            )
    return problems


# approve


def approve(options: argparse.Namespace) -> int:
    """`methodsheets approve`: keep the numbers of methods, so that builds tell when they change."""
    status = 0
    for project, files in _by_project(options):
        handbook = evaluate(project, files, None, draw=False)
        told = [*_problems(handbook, None), *_no_methods(handbook, files)]
        wrong = [one for one in told if one.code not in ("changed-number", "changed-method")]
        for problem in wrong:
            print(problem, file=sys.stderr)
        status = FAILED if wrong else status
        spoilt = {one.place.path for one in wrong}
        for entry in handbook.entries.values():
            if entry.path not in spoilt:
                _keep_numbers(entry, project)
    return status


def _keep_numbers(entry: Entry, project: Project) -> None:
    """Write the numbers of one method down."""
    root = next((folder for folder in project.methods if entry.file.is_relative_to(folder)), entry.file.parent)
    found = Found(slug=entry.slug, path=entry.path, file=entry.file, root=root, digest="", text="", title="", place="")
    target = approved_file(found)
    name = target.relative_to(root).as_posix()
    print(as_typed(Inside(root).write(name, approved_text(entry.own, date.today().isoformat()).encode())))


# show


def show(options: argparse.Namespace) -> int:
    """`methodsheets show`: one method worked out."""
    file = Path(options.file)
    if not file.is_file():
        raise CommandError(f"there is no file {options.file}")
    handbook = evaluate(project_of(options, file), [file], options.workshop, draw=False)
    entry = next((one for one in handbook.entries.values() if real(one.file) == real(file)), None)
    if entry is None:
        raise CommandError("; ".join(str(one) for one in handbook.problems) or f"{options.file} is not a method file")
    keys = _wanted(entry, options.workshop)
    if options.json:
        print(json.dumps(method_data(entry, keys), ensure_ascii=False, indent=1))
    else:
        for key in keys:
            print("\n".join(_told(entry.by_workshop[key], _shown_in(handbook.workshops[key].units))))
    return FAILED if any(entry.by_workshop[key].problems for key in keys) else 0


def _wanted(entry: Entry, workshop: str | None) -> list[str]:
    if workshop == ALL:
        return list(entry.by_workshop)
    if workshop is None:
        return [entry.own_workshop]
    if workshop not in entry.by_workshop:
        raise CommandError(f"there is no workshop `{workshop}`; there are {', '.join(entry.by_workshop)}")
    return [workshop]


Shown = Callable[[Measure | Words], str]
"""Writes a number or a sentence in the units of a workshop."""


def _shown_in(units: str) -> Shown:
    return lambda said: (said.inch or said.metric) if units == "inch" else said.metric


def _told(method: Method, shown: Shown) -> Iterator[str]:
    """A method in plain text, in the units of its workshop."""
    yield f"{method.title} ({method.status}) for {method.workshop_name}"
    yield f"  {method.material}, {shown(method.stock)}; makes {method.makes}"
    for setup in method.setups:
        yield from _setup_told(setup, shown)
    for check in method.checks:
        yield f"  [{check.verdict}] {shown(check.words)}"
    totals = method.totals
    if totals is not None:
        many = f", {totals.batch} parts {totals.batch_minutes:.0f} min" if totals.batch > 1 else ""
        yield f"  one part {totals.one_minutes:.0f} min{many}"
        if totals.stock_mass and totals.finished_mass:
            yield f"  stock {shown(totals.stock_mass)}, finished {shown(totals.finished_mass)}"
    for problem in method.problems:
        yield str(problem)


def _setup_told(setup: Setup, shown: Shown) -> Iterator[str]:
    yield f"\n  Set-up {setup.number}: {shown(setup.words)} ({setup.machine_name})"
    for check in setup.checks:
        yield f"      [{check.verdict}] {shown(check.words)}"
    for operation in setup.operations:
        yield from _operation_told(operation, shown)


def _operation_told(operation: Operation, shown: Shown) -> Iterator[str]:
    tool = f", {operation.tool}" if operation.tool else ""
    yield f"    {operation.number} {shown(operation.words)}{tool}"
    facts = [f"{fact.label} {shown(fact.value)}" for fact in operation.facts]
    if facts:
        yield f"      {'; '.join(facts)}"
    for limit in operation.limits:
        sizes = f"{shown(limit.lower)} to {shown(limit.upper)}" if limit.has_limits else shown(limit.nominal)
        aim = f", aim at {shown(limit.aim)}" if limit.aim else ""
        yield f"      {limit.name}: {sizes}{aim}"
    for check in operation.checks:
        yield f"      [{check.verdict}] {shown(check.words)}"
