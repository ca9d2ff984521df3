"""What does round work lie in: vee block with its clamp, or the jaws of a vice; table below?"""

from __future__ import annotations

import shapely

from methodfigures.paper.lanes import Note
from methodfigures.paper.palette import JAW, TINT
from methodfigures.setups.cross import head
from methodfigures.setups.cross.stage import END_X, LEFT, TABLE, CrossStage
from methodfigures.setups.standing import piece


def draw(stage: CrossStage) -> list[Note]:
    """Holder and table in both views; their names."""
    spec, sheet, y = stage.spec, stage.sheet, stage.floor
    for left, right in ((8.0, 62.0), (LEFT - 4, sheet.width - 6)):
        piece(sheet, shapely.box(left - 9, y - 2 * TABLE, right + 9, y), (left, y - TABLE, right, 999), TINT, z=1.0)
    makers = {"vee-block": _vee, "head": head.draw, "collet-block": head.draw_block}
    found = makers.get(spec.holding, _vice)(stage)
    return [*found, Note((sheet.width - 12, y - 0.55 * TABLE), spec.words("table", "table"), True)]


def _vee(stage: CrossStage) -> list[Note]:
    spec, sheet, k, r = stage.spec, stage.sheet, stage.scale, stage.radius
    top, apex = stage.y(stage.block_top), stage.y(-1.4142 * r)
    half = top - apex
    edge = half + max(0.35 * r * k, 3.5)
    slot = min(1.2, 0.2 * half)
    vee = shapely.Polygon(
        [
            (END_X - edge, stage.floor),
            (END_X + edge, stage.floor),
            (END_X + edge, top),
            (END_X + half, top),
            (END_X + slot, apex + slot),
            (END_X + slot, apex - 1.5),
            (END_X - slot, apex - 1.5),
            (END_X - slot, apex + slot),
            (END_X - half, top),
            (END_X - edge, top),
        ]
    )
    piece(sheet, vee, fill=TINT, z=1.5)
    _stirrup_end(stage, edge, top)
    a, b = stage.block
    x0, x1 = stage.x(b), stage.x(a)
    cropped = stage.x(stage.shown) if b > stage.shown - 1e-6 and stage.shown < stage.length - 1e-6 else x0
    window = (cropped, 0.0, 999.0, 999.0)
    piece(sheet, shapely.box(x0 - 5 if cropped > x0 else x0, stage.floor, x1, top), window, TINT, z=1.4)
    base = shapely.box(max(x0, cropped) + 0.0, stage.floor, x1, apex - 1.5)
    piece(sheet, base, hatch=(-45, 2.4), z=1.5)
    found = [Note(((max(x0, cropped) + x1) / 2, (stage.floor + apex) / 2), spec.words("holder", "vee block"), True)]
    _stirrup(stage, max(x0, cropped), x1)
    return found


def _stirrup(stage: CrossStage, x0: float, x1: float) -> None:
    """Clamp over the work in the elevation, as far from the cut as the block allows."""
    sheet = stage.sheet
    a, b = (stage.x(s) for s in stage.spec.span)
    spots = [x for x in (x0 + 4.5, x1 - 4.5) if x < b - 9 or x > a + 9]
    if not spots or x1 - x0 < 12:
        return
    x = max(spots, key=lambda v: min(abs(v - a), abs(v - b)))
    y = stage.y(stage.top((stage.face_x - x) / stage.scale))
    if y - stage.axis_y < 1:
        return
    piece(sheet, shapely.box(x - 2.4, stage.y(stage.block_top) - 3, x + 2.4, y + 2.0), fill=JAW, z=5.6)
    piece(sheet, shapely.box(x - 1.0, y + 2.0, x + 1.0, y + 4.4), fill=JAW, z=5.5)


def _stirrup_end(stage: CrossStage, edge: float, top: float) -> None:
    """The same clamp behind the work in the end view."""
    r = stage.radius * stage.scale
    high = stage.axis_y + max(r, stage.swing * stage.scale) + 2.0
    outer = shapely.box(END_X - edge + 0.8, top - 3, END_X + edge - 0.8, high)
    inner = shapely.box(END_X - edge + 3.2, top - 4, END_X + edge - 3.2, high - 2.2)
    a, b = (stage.x(s) for s in stage.spec.span)
    x0, x1 = max(stage.x(stage.block[1]), stage.x(stage.shown)), stage.x(stage.block[0])
    if x1 - x0 >= 12 and any(x < b - 9 or x > a + 9 for x in (x0 + 4.5, x1 - 4.5)) and edge - 3.2 > r + 0.3:
        piece(stage.sheet, outer.difference(inner), fill=JAW, z=1.3)


def _vice(stage: CrossStage) -> list[Note]:
    spec, sheet, k, r = stage.spec, stage.sheet, stage.scale, stage.radius * stage.scale
    y, top, under = stage.floor, stage.y(stage.block_top), stage.axis_y - stage.radius * k
    piece(sheet, shapely.box(END_X - r - 10, y, END_X - r, top), hatch=(-45, 2.2), z=1.6)
    piece(sheet, shapely.box(END_X + r, y, END_X + r + 11, top), hatch=(45, 2.6), z=1.6)
    wide = min(6.0, r)
    piece(sheet, shapely.box(END_X - wide / 2, y, END_X + wide / 2, under), hatch=(-45, 1.2), z=1.6)
    a, b = stage.block
    x0, x1 = stage.x(b), stage.x(a)
    edge = stage.x(stage.shown)
    cut = b > stage.shown - 1e-6 and stage.shown < stage.length - 1e-6
    window = (edge if cut else x0, 0.0, 999.0, 999.0)
    piece(sheet, shapely.box(x0 - (5 if cut else 0), y, x1, top), window, TINT, z=1.4)
    piece(sheet, shapely.box(max(x0, window[0]) + 1.5, y, x1 - 1.5, under), hatch=(-45, 1.2), z=1.5)
    return [
        Note((END_X - r - 5, y + 0.5 * (top - y)), spec.words("moving jaw", "moving jaw"), True),
        Note((END_X + r + 6, y + 0.35 * (top - y)), spec.words("holder", "fixed jaw"), True),
        Note(((max(x0, window[0]) + x1) / 2, (y + under) / 2), spec.words("parallel", "parallel"), True),
    ]
