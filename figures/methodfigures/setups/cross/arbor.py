"""What does a form cutter or a slitting saw on an upright arbor look like beside work that lies level?

The spindle stands upright, so the disc lies level and cuts at the height of the axis, from the side. In the elevation
it stands behind the work; in the end view it is seen along its plane.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.palette import JAW, TOOL
from methodfigures.paper.shapes import pairs
from methodfigures.setups.cross.stage import BESIDE, END_X
from methodfigures.setups.cross.stage import TOOL as HIGH
from methodfigures.setups.standing import piece, put_parts
from methodtooling.cutters import ARBOR, COLLAR, disc_edge

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from methodfigures.setups.cross.stage import CrossStage

BEHIND = 2.0
"""Drawing order: behind the work."""
NUT = 7.0
"""mm that the arbor and its nut reach below the disc."""


def draw(stage: CrossStage, name: str) -> None:
    """The cutter in both views, its feed, its name, the depth that it goes in."""
    spec, sheet, k = stage.spec, stage.sheet, stage.scale
    thick = max(1.35 * spec.width + (1.0 if spec.depth and spec.width > 1.2 else 0.0), 1.0 / k)
    high = stage.tool_y + HIGH
    _end_view(stage, thick, high)
    x = stage.x((spec.start + spec.end) / 2)
    half, low = ARBOR / 2 * k, stage.axis_y - (thick / 2 + NUT) * k
    window = (0.0, 0.0, 999.0, high)
    disc = shapely.box(x - spec.cutter_diameter / 2 * k, stage.axis_y - thick / 2 * k,
                       x + spec.cutter_diameter / 2 * k, stage.axis_y + thick / 2 * k)  # fmt: skip
    piece(sheet, shapely.box(x - half, low, x + half, high + 9.0), window, JAW, z=BEHIND)
    collar = COLLAR / 2 * k
    piece(sheet, shapely.box(x - collar, low + 1.0 * k, x + collar, stage.axis_y + (thick / 2 + 6.0) * k), window, JAW,
          z=BEHIND + 0.2)  # fmt: skip
    piece(sheet, disc, window, TOOL, z=BEHIND + 0.4)
    sheet.centre_line((x, stage.y(stage.top((spec.start + spec.end) / 2)) + 1.0), (x, high), 1.5)
    y = stage.tool_y + 3.0
    dim.block_arrow(sheet, (x - half - 3, y), (x - half - 16, y))
    sheet.text(x - half - 9, y + 3.2, spec.words("feed", "feed"))
    y = stage.tool_y + 0.7 * HIGH
    right = x + half + 5 + lettering.width(name) < sheet.width - 2
    sign = 1 if right else -1
    dim.leader(sheet, (x + 0.4 * half * sign, y - 3), (x + sign * (half + 4), y), name, dot=True, right=right)


def _end_view(stage: CrossStage, thick: float, high: float) -> None:
    """The disc edge-on at the right of the axis, its tip at the bottom of the cut."""
    spec, k, y = stage.spec, stage.scale, stage.axis_y
    tip = END_X + spec.floor * k
    deep = spec.depth if spec.width > 1.2 else 0.0
    parts = disc_edge(spec.cutter_diameter, thick, deep, (-thick / 2 - NUT, (high - y) / k + 9.0))

    def paper(shape: BaseGeometry) -> BaseGeometry:
        return shapely.transform(shape, lambda p: pairs(tip - p[:, 0] * k, y + p[:, 1] * k))

    put_parts(stage.sheet, parts, paper, (0.0, 0.0, END_X + BESIDE + 0.5, high))
    middle = tip + spec.cutter_diameter / 2 * k
    stage.sheet.centre_line((middle, y - (thick / 2 + NUT) * k), (middle, high), 1.5)
