"""What is lost where the program fails in one stage of a method? That stage alone, and the method says so."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from methodsheets.method.findings import Looked
from methodsheets.method.job import Job
from methodsheets.operations.facts import judged
from methodsheets.reading.mishap import mishap
from methodsheets.reading.problem import Place
from methodsheets.sheet.model import Check

Made = TypeVar("Made")
FAILED_HERE = "not known: the program failed here"


def stage(
    job: Job,
    doing: str,
    make: Callable[[], Made],
    otherwise: Made,
    *,
    of: Looked | None = None,
    foreseen: tuple[type[Exception], ...] = (),
) -> Made:
    """What `make` makes; where it raises, `otherwise`, a problem of the method, and a check that is not known.

    Parameters:
        doing: what cannot be done, as a sentence: 'the checks of the whole method could not be made'
        of: the set-up or operation that the stage looks at; none where it looks at the whole method
        foreseen: what is told otherwise, further out
    """
    try:
        return make()
    except foreseen:
        raise
    except Exception as error:
        line = of.line if of is not None else job.file.front.method.place.line
        job.problems.extend([mishap(Place(job.file.path, line), doing, error)])
        (of.found.checks if of is not None else job.log.unlooked).append(unlooked(doing, line))
        return otherwise


def unlooked(doing: str, line: int) -> Check:
    """The check that stands for what the program could not look at."""
    return judged("program", None, f"{FAILED_HERE}; {doing}", line)
