"""What becomes of an exception that nobody foresaw? A problem of the file in hand; everything else goes on.

There are few doors: a file is read, a method is worked out, it is drawn, a page is made. Each of them is passed by
`through`, so that what happens inside one file stays with that file.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterable
from typing import TypeVar

from methodsheets.reading.problem import Place, Problem

log = logging.getLogger("methodsheets")
"""Where the traceback goes, at level DEBUG: `mkdocs --verbose` and `methodsheets --debug` show it."""

CODE = "crash"
"""Code of the problem; what has it is tried again in the next build."""

_LONGEST = 120
_OF_THE_MACHINE = (OSError, MemoryError)

Made = TypeVar("Made")


def through(path: str, doing: str, make: Callable[[], Made], otherwise: Callable[[Problem], Made]) -> Made:
    """What `make` makes; where it raises, what `otherwise` makes of the problem.

    Parameters:
        path: the file in hand, as problems show it
        doing: what cannot be done, as a sentence: 'this method could not be worked out'
    """
    try:
        return make()
    except Exception as error:
        return otherwise(mishap(path, doing, error))


def once_each(mishaps: Iterable[Problem], told: Iterable[Problem] = ()) -> list[Problem]:
    """Each fault of a file once: what fails in a method fails on its page, in its data and in its travelling file too.

    Parameters:
        told: problems that have been told already
    """
    seen = {(one.place.path, _cause(one)) for one in told}
    found = []
    for one in mishaps:
        key = (one.place.path, _cause(one))
        if key not in seen:
            seen.add(key)
            found.append(one)
    return found


def _cause(problem: Problem) -> str:
    return problem.what.partition(" (got ")[2]


def mishap(path: str | Place, doing: str, error: BaseException) -> Problem:
    """The problem behind an exception: its kind and words, and an invitation to report it; no traceback.

    Parameters:
        path: the file in hand, or the place in it where that is known
    """
    place = path if isinstance(path, Place) else Place(path)
    log.debug("%s: %s", place, doing, exc_info=error)
    if isinstance(error, _OF_THE_MACHINE):
        rule, remedy = "the machine refused something that the program needs", "look at room, memory and rights"
    else:
        rule, remedy = "this is a fault of the program, not of the file", "please report it together with the file"
    return Problem(place, f"{doing} (got {_words(error)})", rule, remedy, code=CODE)


def _words(error: BaseException) -> str:
    """The exception's kind and its first words; of one that the machine raised, its reason without the path."""
    said = (error.strerror or "") if isinstance(error, OSError) else _said(error)
    plain = " ".join("".join(sign if sign.isprintable() else " " for sign in said[: _LONGEST * 2]).split())
    shown = plain if len(plain) <= _LONGEST else f"{plain[:_LONGEST]}…"
    return f"{type(error).__name__}: {shown}" if shown else type(error).__name__


def _said(error: BaseException) -> str:
    try:
        return str(error)
    except Exception:  # an exception whose own words fail says nothing
        return ""
