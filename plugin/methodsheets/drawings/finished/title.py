"""What stands at the foot of the drawing: limits in numbers, remarks, the title block?"""

from __future__ import annotations

from collections.abc import Collection

from methodfigures.part.spec import LimitRow
from methodsheets.drawings.finished.made import Made
from methodsheets.drawings.finished.words import roughness_words, true_words
from methodsheets.method.intention import RunsTrue
from methodsheets.operations.say import number
from methodsheets.sheet.model import Limit
from methodsheets.workpiece import mass

MOST_ROWS = 7
"""More limits than this are on the sheet of the method; the drawing says so."""


def limit_rows(made: Made) -> tuple[LimitRow, ...]:
    """The toleranced sizes with their numbers, in the order of the method."""
    return tuple(
        LimitRow(_name(limit), f"{limit.upper.value:.3f}", f"{limit.lower.value:.3f}")
        for limit in made.asked[:MOST_ROWS]
    )


def _name(limit: Limit) -> str:
    if limit.fit and limit.nominal.kind == "size":
        return f"{number(limit.nominal.value)} {limit.fit}"
    return limit.name


def remarks(made: Made, framed: Collection[RunsTrue]) -> tuple[str, ...]:
    """What holds for the whole drawing; `framed` = run-outs that stand in a view."""
    out = ["Sizes in millimetres."]
    out += [f"{roughness_words(asked)} where no other finish stands." for asked in made.finishes if not asked.diameter]
    out += [true_words(asked) for asked in made.trues if asked not in framed]
    if made.general:
        out.append("Sizes without limits: ISO 2768-m.")
    if len(made.asked) > MOST_ROWS:
        out.append(f"{len(made.asked) - MOST_ROWS} more limits stand in the method.")
    return tuple(out)


def item_rows(made: Made) -> tuple[tuple[str, ...], ...]:
    """The parts list of an assembly (ISO 7573): heading, then item, name and material of each body.

    Views of a block have no balloons, so that a number would lead to nothing there.
    """
    bodies = made.piece.work.bodies
    if len(bodies) < 2:
        return ()
    rows = ((str(i), name, body.material) for i, (name, body) in enumerate(bodies.items(), start=1))
    listed = (("Item", "Part", "Material"), *rows)
    return tuple(row[1:] for row in listed) if made.block_work else listed


def title_block(made: Made) -> tuple[tuple[str, str], ...]:
    """(label, words) of each cell."""
    front = made.job.file.front
    bodies = made.piece.work.bodies
    materials = list(dict.fromkeys(body.material for body in bodies.values()))
    cells = [
        ("Part", front.part.value if front.part else front.method.value),
        ("Method", front.method.value),
        ("Material", ", ".join(materials)),
        ("Mass", f"{mass(made.piece.work.state).grams:.0f} g"),
        ("Parts to make", str(made.job.makes)),
    ]
    if front.revision:
        cells.append(("Revision", front.revision.value))
    if front.date:
        cells.append(("Date", front.date.value))
    return tuple((label, words) for label, words in cells if words)
