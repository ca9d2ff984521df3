"""The drawing of the finished part: which views does it need, and which sizes does a drawing office put on them?"""

import itertools

from methodfigures.paper.sheet import SHEET_WIDTH
from methodfigures.part.portrait import Portrait
from methodfigures.part.spec import PartDrawing
from methodsheets.drawings.finished.block import block_views, hole_table
from methodsheets.drawings.finished.exploded import exploded
from methodsheets.drawings.finished.lying import Turned
from methodsheets.drawings.finished.made import Made, is_block_work
from methodsheets.drawings.finished.title import item_rows, limit_rows, remarks, title_block
from methodsheets.drawings.finished.turned import turned_views
from methodsheets.drawings.finished.turned_notes import framed
from methodsheets.drawings.solids import Drawn
from methodsheets.method.job import Finished

NARROW = 92.0
"""mm: width of the drawing that stands on a phone."""


def part_spec(drawn: Drawn, job: Finished, *, narrow: bool = False) -> PartDrawing | None:
    """The dimensioned drawing of what the method ends with; None where nothing was made."""
    piece = job.pieces.get(job.main)
    if piece is None or not piece.work.bodies:
        return None
    made, seen = Made.of(job, piece), drawn.seen(piece.work.state)
    views = block_views(made) if made.block_work else turned_views(made)
    return PartDrawing(
        drawn.state(piece.work.state),
        tuple(itertools.compress(piece.work.bodies, seen)),
        views.front,
        views.beside_left,
        views.beside_right,
        views.below,
        whole=(drawn.solid(piece.work.state.solid),) if len(piece.work.bodies) > 1 else (),
        uncut=frozenset(sum(seen[:i]) for i in made.uncut if seen[i]),
        pictorial=views.pictorial,
        limits=limit_rows(made),
        holes=hole_table(made) if made.block_work else (),
        items=item_rows(made),
        apart=tuple(itertools.compress(exploded(made), seen)) if len(piece.work.bodies) > 1 else (),
        remarks=remarks(made, () if made.block_work else framed(Turned(made))),
        block=title_block(made),
        width=NARROW if narrow else SHEET_WIDTH,
        projection=job.workshop.projection,
        title=f"The finished part: {job.file.front.method.value}",
        description=views.description,
    )


def portrait_spec(drawn: Drawn, job: Finished) -> Portrait | None:
    """The finished part at a glance; None where nothing was made."""
    piece = job.pieces.get(job.main)
    if piece is None or not piece.work.bodies:
        return None
    name = job.file.front.method.value
    face, up = ((0.0, -1.0, 0.0), (0.0, 0.0, 1.0)) if is_block_work(job, piece) else ((0.0, 0.0, -1.0), (1.0, 0.0, 0.0))
    return Portrait(drawn.state(piece.work.state), face, up, title=name, description=f"What {name} makes.")
