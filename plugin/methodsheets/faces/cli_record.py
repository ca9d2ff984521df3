"""How do the records of a tablet or a spreadsheet get into the handbook? Looked at first, put in safely."""

from __future__ import annotations

import argparse
import re
import sys
from pathlib import Path

from methodsheets.faces.command import FAILED, CommandError, as_typed
from methodsheets.faces.host_config import project_of
from methodsheets.handbook.keeping import keep_records
from methodsheets.handbook.library import Found, Library, find_methods
from methodsheets.handbook.records import methods_said, parse_records
from methodsheets.reading.inside import real
from methodsheets.reading.problem import Problems
from methodsheets.reading.slug import file_slug
from methodsheets.reading.source import read_source


def record(options: argparse.Namespace) -> int:
    """`methodsheets record`: put what was measured to the records of its method."""
    status = 0
    for name in options.files:
        status = _one(Path(name), options) or status
    return status


def _one(file: Path, options: argparse.Namespace) -> int:
    if not file.is_file():
        raise CommandError(f"there is no file {file}")
    project = project_of(options, Path.cwd())
    library = find_methods([one for one in project.methods if one.is_dir()], project.inside(), project.root)
    problems = Problems()
    source = read_source(file, real(file).parent, problems, file.as_posix())
    if source is None:
        return _told(problems)
    found = _method(library, options.method, methods_said(source.text), file)
    fresh = parse_records(source.text, file.as_posix(), found.slug, problems)
    if len(problems):
        _told(problems)
        print("Nothing was put in. Mend these lines first.", file=sys.stderr)
        return FAILED
    kept = keep_records(found, fresh, file.as_posix(), project.root)
    also = f", {kept.known} there already" if kept.known else ""
    print(f"{as_typed(found.file)}: {kept.added} records put in{also}")
    return _told(kept.problems) if kept.problems else 0


def _told(problems: object) -> int:
    for problem in problems:  # type: ignore[attr-defined]
        print(problem, file=sys.stderr)
    return FAILED


def _method(library: Library, named: str | None, said: set[str], file: Path) -> Found:
    """The method that the records are of: named, said in the file, or found from the file's name."""
    wanted = {named} if named else said
    if not wanted:
        stem = file_slug(re.sub(r"[- ]*\(\d+\)$", "", file.stem))
        wanted = set(sorted((one for one in library.methods if stem.startswith(one)), key=len)[-1:])
    if len(wanted) != 1:
        got = ", ".join(f"`{one}`" for one in sorted(wanted)) or "none"
        raise CommandError(f"{file}: of which method are these records (got {got})? Name it with --method")
    found = library.methods.get(next(iter(wanted)))
    if found is None:
        raise CommandError(f"{file}: there is no method `{next(iter(wanted))}` in this handbook")
    return found
