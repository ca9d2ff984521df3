"""Which chapters has the handbook, and in which order do their subjects stand? Each folder says it of itself."""

from __future__ import annotations

import functools
import importlib
import pkgutil
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

HANDBOOK = "methodsheets.trade"


@dataclass(frozen=True)
class Chapter:
    """One chapter: its folder, its title, and the titles of its subjects by name (`press-fits`), in order."""

    folder: str
    title: str
    subjects: Mapping[str, str]


@functools.cache
def chapters() -> tuple[Chapter, ...]:
    """The chapters in order. A folder that is a chapter says `TITLE`, `PLACE` (its rank, from 1) and `SUBJECTS`.

    A subject that its folder does not name stands last in its own chapter, under its own name. Nothing but the
    folders' own first files is loaded.
    """
    found = []
    for folder in pkgutil.iter_modules(importlib.import_module(HANDBOOK).__path__):
        said = importlib.import_module(f"{HANDBOOK}.{folder.name}")
        if hasattr(said, "TITLE"):
            named = dict(said.SUBJECTS)
            found.append((said.PLACE, Chapter(folder.name, said.TITLE, {**named, **_others(said.__path__, named)})))
    return tuple(chapter for _, chapter in sorted(found, key=lambda one: one[0]))


def by_chapter(subjects: Iterable[str]) -> dict[str, list[str]]:
    """The subjects given, by the title of the chapter in which they stand."""
    there = set(subjects)
    found = {chapter.title: [one for one in chapter.subjects if one in there] for chapter in chapters()}
    return {title: ones for title, ones in found.items() if ones}


@functools.cache
def subject_title(subject: str) -> str:
    """'press-fits' gives 'Press fits'.

    Raises:
        KeyError: no chapter has such a subject.
    """
    return next((chapter.subjects[subject] for chapter in chapters() if subject in chapter.subjects), "") or _missing(
        subject
    )


def _others(path: Iterable[str], named: Mapping[str, str]) -> dict[str, str]:
    names = (module.name.replace("_", "-") for module in pkgutil.iter_modules(path))
    return {name: name.replace("-", " ").capitalize() for name in names if name not in named}


def _missing(subject: str) -> str:
    raise KeyError(f"no subject {subject}")
