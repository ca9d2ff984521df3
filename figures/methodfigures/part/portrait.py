"""How is a finished part shown at a glance, in a list of many? One small pictorial without words, shaded."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from methodfigures.paper.drawing import Drawing
from methodfigures.paper.sheet import Layer, Sheet
from methodfigures.part.spec import Vector
from methodfigures.solids.mesh import Mesh
from methodfigures.solids.shading import shade_lines
from methodfigures.solids.views import ViewBook, centred, draw_look, extent, pictorial_basis
from methodfigures.specs import Spec

WIDTH: Final = 60.0
HEIGHT: Final = 44.0
"""mm of paper, the same for every part, so that the cards of a list stand in rows."""
EDGE: Final = 2.5
LARGEST: Final = 3.0
"""A small part is not drawn larger than this many times its size: a nut looks smaller than a flywheel."""


@dataclass(frozen=True, eq=False)
class Portrait(Spec):
    """The `solids` of a part; `face` = outward direction of the side that looks at you, `up` = what points upwards."""

    solids: tuple[Mesh, ...]
    face: Vector = (0.0, 0.0, -1.0)
    up: Vector = (1.0, 0.0, 0.0)
    title: str = ""
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_portrait(spec: Portrait, book: ViewBook | None = None) -> Drawing:
    """The pictorial in the middle of its small sheet."""
    return compose_portrait(spec, book or ViewBook()).drawing(spec.title, spec.description or spec.title)


def compose_portrait(spec: Portrait, book: ViewBook) -> Sheet:
    """The sheet of `draw_portrait` before it becomes a drawing."""
    sheet = Sheet(WIDTH, HEIGHT)
    view = pictorial_basis(spec.face, spec.up)
    low, high = extent(view, spec.solids)
    wide, tall = (float(v) for v in high - low)
    scale = min((WIDTH - 2 * EDGE) / wide, (HEIGHT - 2 * EDGE) / tall, LARGEST)
    place = centred(view, scale, (WIDTH / 2, HEIGHT / 2), spec.solids)
    look = book.look(spec.solids, view)
    draw_look(sheet, look, place, wide=0.3, narrow=0.13)
    sheet.lines(place.lines(shade_lines(book, spec.solids, view)), 0.1, Layer.EDGE, ink=False)
    sheet.outline(place.shape(look.silhouette), "wide", Layer.EDGE + 0.3, width=0.45, ink=False)
    return sheet
