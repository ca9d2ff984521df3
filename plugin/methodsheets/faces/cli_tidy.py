"""How is a method file brought into the form of the guide? Only its spacing, its order and its words are touched."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from methodsheets.faces.command import FAILED, CommandError, as_typed
from methodsheets.faces.host_config import project_of
from methodsheets.handbook.library import markdown_files
from methodsheets.operations.manner import guide
from methodsheets.reading.inside import Inside, RefusedError
from methodsheets.reading.limits import FILE_BYTES
from methodsheets.reading.method_file import is_method
from methodsheets.reading.mishap import through
from methodsheets.reading.problem import Place, Problem, Problems
from methodsheets.reading.source import read_source, unify_lines
from methodsheets.reading.tidying import tidied

MARK = b"\xef\xbb\xbf"


def tidy(options: argparse.Namespace) -> int:
    """`methodsheets tidy`: write the files anew, or with `--check` tell which would be."""
    problems = Problems()
    done = [file for file in _files(options) if _alone(file, problems, options)]
    for problem in problems:
        print(problem, file=sys.stderr)
    for file in done:
        print(as_typed(file))
    words = "would be written otherwise" if options.check else "written anew"
    print(f"{len(done)} file{'' if len(done) == 1 else 's'} {words}.", file=sys.stderr)
    return FAILED if len(problems) or (options.check and done) else 0


def _files(options: argparse.Namespace) -> list[Path]:
    """The method files that are named, that lie in the folders named, or those of the whole handbook."""
    named = [Path(one) for one in options.files]
    if not named:
        project = project_of(options, Path.cwd())
        named = [*(one for one in project.methods if one.is_dir()), *project.inside()]
    found: dict[Path, None] = {}
    for path in named:
        if not path.exists():
            raise CommandError(f"there is no file {path}")
        inside = markdown_files(path) if path.is_dir() else [path]
        found |= dict.fromkeys(inside)
    return list(found)


def _alone(file: Path, problems: Problems, options: argparse.Namespace) -> bool:
    """Bring one file into form; what is wrong with it, or with us over it, keeps no other from it."""

    def told(problem: Problem) -> bool:
        problems.extend([problem])
        return False

    def made() -> bool:
        try:
            return _tidy(file, problems, upgrade=options.upgrade, keep=options.check)
        except RefusedError as refused:
            return told(
                Problem(Place(as_typed(file)), refused.what, "only a file of its folder is written", refused.remedy)
            )

    return through(as_typed(file), "this file could not be brought into form", made, told)


def _tidy(file: Path, problems: Problems, *, upgrade: bool, keep: bool) -> bool:
    """Bring one file into form; gives whether it was not, and leaves a file that is no method alone.

    The ends of its lines and a mark at its beginning stay as they are. It is written whole or not at all.
    """
    source = read_source(file, file.parent, problems, as_typed(file))
    if source is None or not is_method(source.text):
        return False
    door = Inside(file.parent)
    raw = door.read(file, FILE_BYTES)
    end = "\r\n" if b"\r\n" in raw else "\n"
    text = tidied(unify_lines(source.text), guide(upgrade=upgrade))
    made = (MARK if raw.startswith(MARK) else b"") + text.replace("\n", end).encode("utf-8")
    if made == raw:
        return False
    if not keep:
        rights = file.stat().st_mode
        door.write(file.name, made, lasting=True).chmod(rights)
    return True
