"""What does the part look like before and after the operation?  Pictorials at equal scale, removed metal in place."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from methodfigures.paper import dimensions as dim
from methodfigures.paper.sheet import FINE, Sheet
from methodfigures.solids.mesh import Floats, Mesh
from methodfigures.solids.views import Place, ViewBook, centred, draw_ghost, draw_look, extent, pictorial_basis

WIDE = 0.4
LEAST_SHOWN = 0.5
"""Paper mm² of changed metal that must be seen before the work is rolled to another side."""


UPRIGHT = ((0, 0, 1), (1, 0, 0), (0, 1, 0), (0, 0, -1), (-1, 0, 0), (0, -1, 0))
"""What may point upwards in a pictorial, the usual first."""


def pictorial_view(
    book: ViewBook,
    after: Sequence[Mesh],
    removed: Sequence[Mesh],
    face: ArrayLike,
    scale: float,
    *,
    up: ArrayLike | None = None,
    yaw: float = -35.0,
    pitch: float = 25.0,
) -> Floats:
    """View of the end or face whose outward direction is `face`, along an axis.

    With `up` the work stands as it does in its set-up and is never rolled: it is looked at from the other side of the
    face where more of the removed metal is seen from there. Without, it is rolled by quarter turns while less than
    `LEAST_SHOWN` of the removed metal would be seen at `scale`.
    """
    if up is not None:
        views = [pictorial_basis(face, up, turn, pitch) for turn in (yaw, -yaw)]
        seen = [book.ghost(after, removed, view).shown.area if removed else 0.0 for view in views]
        return views[1] if seen[0] * scale * scale < LEAST_SHOWN < seen[1] * scale * scale else views[0]
    best, shown = None, -1.0
    for upwards in UPRIGHT:
        if np.dot(upwards, face):
            continue  # that way lies the face itself
        view = pictorial_basis(face, upwards, yaw, pitch)
        if not removed:
            return view
        area = book.ghost(after, removed, view).shown.area * scale * scale
        if best is None or area > shown:
            best, shown = view, area
        if area > LEAST_SHOWN:
            break
    assert best is not None
    return best


def draw_pictorial(
    sheet: Sheet, book: ViewBook, after: Sequence[Mesh], removed: Sequence[Mesh], place: Place, *, wide: float = WIDE
) -> None:
    """The work in full lines; the metal that went tinted where it was in front, in phantom lines."""
    draw_look(sheet, book.look(after, place.basis), place, wide=wide, narrow=FINE)
    if removed:
        draw_ghost(sheet, book.ghost(after, removed, place.basis), place)


def before_after_size(before: Sequence[Mesh], after: Sequence[Mesh], face: ArrayLike) -> tuple[float, float]:
    """(scale, room in mm) for the two pictures side by side, at most 60 wide and 44 high each."""
    low, high = extent(pictorial_basis(face), [*before, *after])
    scale = float(min(60.0 / (high - low)[0], 44.0 / (high - low)[1]))
    return scale, float((high - low)[1]) * scale + 14


def add_before_after(
    sheet: Sheet,
    book: ViewBook,
    before: Sequence[Mesh],
    after: Sequence[Mesh],
    removed: Sequence[Mesh],
    face: ArrayLike,
) -> None:
    """Before and after side by side at the foot of the sheet, at equal scale, an arrow between."""
    scale, room = before_after_size(before, after, face)
    view = pictorial_view(book, after, removed, face, scale)
    middle, y = sheet.width / 2, 9 + (room - 12) / 2
    left = centred(view, scale, (middle - 42, y), [*before, *after])
    right = Place(view, scale, left.origin + np.array([84.0, 0.0]))
    draw_pictorial(sheet, book, before, (), left)
    draw_pictorial(sheet, book, after, removed, right)
    dim.block_arrow(sheet, (middle - 6, y), (middle + 6, y))
    sheet.text(middle - 42, 3.5, "before")
    sheet.text(middle + 42, 3.5, "after")
