"""How does work look that lies level on a rotary table or in a dividing head, with or without the tailstock?

The holder is drawn from the same polygons that the check of the cutter's room used; head, foot and tailstock are
symbols. Where the centre stands high, head, chuck and tailstock are broken off above the table.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

import numpy as np
import shapely

from methodfigures.paper.lanes import Note, scale_for
from methodfigures.paper.palette import JAW, TINT
from methodfigures.paper.shapes import pairs, polygons, strings
from methodfigures.paper.sheet import SHEET_WIDTH
from methodfigures.setups.standing import direction, piece, put_parts
from methodtooling.fixtures import Part, Parts, ring

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from methodfigures.setups.cross.spec import CrossSetup
    from methodfigures.setups.cross.stage import CrossStage

HEAD: Final = 24.0
"""Paper mm for the body of the chuck and the head left of it."""
CHUCK: Final = 10.0
TAIL: Final = 20.0
"""Paper mm more on the right where a tailstock stands there."""
HIGHEST: Final = 34.0
"""Paper mm of the centre above the table up to which it is drawn true."""
GAP: Final = 1.6
FOOT: Final = 3.0
"""Paper mm between the two sides of a break, and below it."""
END_ROOM: Final = 28.0
"""Paper mm to either side of the axis in the end view."""
OVER: Final = 6.0
"""Drawing order of holders over the work."""
THREE, FOUR = 3, 4


def chuck_front(spec: CrossSetup) -> float:
    """Length from the face to the body of the chuck or the collar of the mandrel, which hide what lies behind, mm."""
    behind = max(spec.holder_parts, key=lambda part: part.bounds[2], default=None)
    return max([*([behind.bounds[0]] if behind is not None else []), *spec.grip[1:]], default=0.0)


def before_the_face(spec: CrossSetup) -> bool:
    """Whether something stands where depths are dimensioned otherwise: a tailstock, or the nut of a mandrel."""
    return any(part.bounds[0] < -1.0 for part in (*spec.holder_parts, *spec.tail_parts))


def fit(stage: CrossStage, left: float, right: float, largest: float) -> float:
    """Set scale, `largest` at most, and place of the work between head and tailstock; the room for it on the paper."""
    spec = stage.spec
    right += TAIL if spec.tail_parts else 0.0
    room = SHEET_WIDTH - left - HEAD - right
    seen = max(chuck_front(spec), spec.span[1] + 1.0)
    from methodfigures.setups.cross.stage import beside

    limits = [16.5 / stage.swing, room / seen, 15 / stage.radius, largest, *beside(spec)]
    if spec.cutter_diameter:
        limits.append(24 / spec.cutter_diameter)
    if spec.block_faces:
        limits.append(18 / max(part.bounds[3] for part in spec.holder_parts))
    stage.scale = k = scale_for(min(limits))
    stage.shown = min(stage.length, seen + 2.0 / k)
    stage.face_x = SHEET_WIDTH - right - 0.3 * (room - seen * k)
    stage.block = spec.grip if len(spec.grip) == 2 else (0.0, stage.shown)
    return room


def is_broken(stage: CrossStage) -> bool:
    """Whether head and tailstock are broken off above the table."""
    return stage.axis_y - stage.floor < stage.spec.centre_height * stage.scale - 0.1


def above_table(stage: CrossStage) -> float:
    """Paper mm from the table to the axis."""
    if stage.spec.block_faces:
        return block_half(stage) + 7.0
    least = max(stage.swing * stage.scale + 5.0, 16.0)
    true = stage.spec.centre_height * stage.scale
    return true if least <= true <= HIGHEST else max(least, HIGHEST - 4.0)


def draw(stage: CrossStage) -> list[Note]:
    """Head, chuck and tailstock in both views; their names."""
    spec = stage.spec
    found = _chuck(stage)
    if spec.tail_parts:
        found.append(_tailstock(stage))
    _end_view(stage)
    return found


def block_half(stage: CrossStage) -> float:
    """Paper mm from the axis to a face of the collet block, about the size of its nut."""
    return max(part.bounds[3] for part in stage.spec.holder_parts if part.name == "nut") * stage.scale


def draw_block(stage: CrossStage) -> list[Note]:
    """A collet block on parallels between the jaws of the vice, one of its faces up."""
    from methodfigures.setups.cross.stage import END_X

    spec, sheet, y, low = stage.spec, stage.sheet, stage.axis_y, stage.floor
    half = block_half(stage)
    nut = [part for part in spec.holder_parts if part.name != "collet chuck body"]

    def paper(g: BaseGeometry) -> BaseGeometry:
        k = stage.scale
        return shapely.transform(g, lambda p: pairs(stage.face_x - p[:, 0] * k, y + p[:, 1] * k))

    put_parts(sheet, tuple(_over(part) for part in nut), paper)
    right = stage.x(max(part.bounds[2] for part in nut if part.name == "nut"))
    left = right - 22.0
    piece(sheet, shapely.box(left, y - half, right, y + half), fill=TINT, z=OVER)
    jaw = shapely.box(left - 3.0, low, right - 3.0, y + 0.15 * half)
    piece(sheet, jaw, fill=TINT, z=OVER + 1.0)
    wide = half if spec.block_faces == FOUR else half * 2.0 / np.sqrt(3.0)
    for sign, pitch in ((-1, 2.2), (1, 2.6)):
        x0, x1 = sorted((END_X + sign * wide, END_X + sign * (wide + 8.0)))
        piece(sheet, shapely.box(x0, low, x1, y + 0.15 * half), hatch=(sign * 45, pitch), z=1.6)
    piece(sheet, shapely.box(END_X - 0.5 * half, low, END_X + 0.5 * half, y - half), hatch=(-45, 1.2), z=1.6)
    turn = np.radians(45.0 if spec.block_faces == FOUR else 0.0)
    reach = half / np.cos(np.pi / spec.block_faces)
    corners = turn + 2 * np.pi * np.arange(spec.block_faces) / spec.block_faces
    outline = np.c_[END_X + reach * np.cos(corners), y + reach * np.sin(corners)]
    piece(sheet, shapely.Polygon(outline), fill=TINT, z=1.3)
    radius = max(part.bounds[3] for part in spec.holder_parts if part.name == "nut") * stage.scale
    piece(sheet, shapely.Point(END_X, y).buffer(0.95 * radius, quad_segs=48), fill=TINT, z=1.4)
    return [
        Note((left + 4.0, low + 0.3 * (y - low)), spec.words("moving jaw", "jaw of the vice"), True),
        Note((left + 9.0, y + 0.6 * half), spec.words("holder", "collet block"), True),
    ]


def _pillar(stage: CrossStage, shape: BaseGeometry, z: float) -> None:
    """Something that stands on the table; where the centre stands high it is broken off in the middle."""
    sheet, y = stage.sheet, stage.floor
    if not is_broken(stage):
        piece(sheet, shape, fill=TINT, z=z)
        return
    piece(sheet, shape, (-999, y - 1.0, 999, y + FOOT), TINT, z=z)
    piece(sheet, shape, (-999, y + FOOT + GAP, 999, 999), TINT, z=z)


def _chuck(stage: CrossStage) -> list[Note]:
    spec, sheet, k = stage.spec, stage.sheet, stage.scale
    front = chuck_front(spec)
    x = stage.x(front)
    back = x - CHUCK

    def paper(g: BaseGeometry) -> BaseGeometry:
        return shapely.transform(g, lambda p: pairs(stage.face_x - p[:, 0] * k, stage.axis_y + p[:, 1] * k))

    low = stage.floor + (FOOT + GAP if is_broken(stage) else 0.5)
    window = (-999.0, low, 999.0, stage.tool_y - 3.0)
    lifted = tuple(_over(_shortened(part, front + CHUCK / k)) for part in spec.holder_parts)
    put_parts(sheet, lifted, paper, window)
    high = stage.axis_y + 9.0
    head = shapely.union_all([
        shapely.box(back - 13.0, stage.floor, back - 1.0, high),
        shapely.box(back - 1.0, stage.axis_y - 5.0, back, stage.axis_y + 5.0),
        shapely.box(back - 14.0, stage.floor, back, stage.floor + 2.2),
    ])  # fmt: skip
    _pillar(stage, head, 1.8)
    return [
        Note((back - 7.0, stage.floor + 0.6 * (high - stage.floor)), spec.words("head", "dividing head"), True),
        Note(_on_chuck(stage, [paper(part.polygon) for part in lifted], x), spec.words("holder", "chuck"), True),
    ]


def _on_chuck(stage: CrossStage, bodies: list[BaseGeometry], front: float) -> tuple[float, float]:
    """A spot on the body of the chuck behind its front; a collet chuck is hollow there, so its lower wall is taken."""
    x, y = front - 0.6 * CHUCK, stage.axis_y - 3.0
    column = shapely.union_all(bodies).intersection(shapely.LineString([(x, stage.floor), (x, stage.axis_y)]))
    if column.is_empty or column.distance(shapely.Point(x, y)) < 1e-6:
        return x, y
    wall = max(strings(column), key=lambda line: float(np.ptp(line[:, 1])))
    return x, float(wall[:, 1].mean())


def _shortened(part: Part, most: float) -> Part:
    """The part up to a length from the face, mm: a chuck's body ends where the head begins."""
    if part.bounds[2] <= most:
        return part
    near = part.polygon.intersection(shapely.box(-9e4, -9e4, most, 9e4))
    rest = max(polygons(near), key=lambda p: p.area, default=None)
    return part if rest is None else replace(part, ring=ring(rest.exterior.coords[:-1]), detail=part.detail)


def _over(part: Part) -> Part:
    """What surrounds the work hides it; what goes through its bore is hidden by it."""
    return replace(part, level=part.level + (OVER - 3.0 if part.name != "mandrel" else 0.0))


def _tailstock(stage: CrossStage) -> Note:
    spec, sheet, k = stage.spec, stage.sheet, stage.scale
    edge = SHEET_WIDTH - 9.0

    def paper(g: BaseGeometry) -> BaseGeometry:
        return shapely.transform(g, lambda p: pairs(stage.face_x - p[:, 0] * k, stage.axis_y + p[:, 1] * k))

    put_parts(sheet, tuple(_over(part) for part in spec.tail_parts), paper, (0.0, 0.0, edge, 999.0))
    barrel = max(part.bounds[3] for part in spec.tail_parts) * k
    left = min(max(stage.face_x + 12.0, stage.face_x + 30.0 * k), edge - 13.0)
    stand = shapely.union_all([
        shapely.box(left, stage.floor, edge - 2.0, stage.axis_y + max(barrel, 2.0) + 2.5),
        shapely.box(left - 2.0, stage.floor, edge, stage.floor + 2.2),
    ])  # fmt: skip
    _pillar(stage, stand, OVER + 1.5)
    return Note((left + 4.0, stage.axis_y - 4.0), spec.words("tailstock", "tailstock"), True)


def _end_view(stage: CrossStage) -> None:
    """Behind the cut work: the chuck and its jaws, and the head."""
    from methodfigures.setups.cross.stage import END_X

    spec, k, y = stage.spec, stage.scale, stage.axis_y
    low = stage.floor + (FOOT + GAP if is_broken(stage) else 0.0)
    window = (END_X - END_ROOM, low, END_X + END_ROOM, stage.tool_y - 6.0)
    _pillar(stage, shapely.box(END_X - 13.0, stage.floor, END_X + 13.0, y + 9.0), 1.1)
    jaws = [part for part in spec.holder_parts if part.name in ("jaw", "soft jaw")]
    others = [part for part in spec.holder_parts if part not in jaws and part.bounds[3] > 0]
    for i, radius in enumerate(sorted({round(part.bounds[3], 3) for part in others}, reverse=True)):
        disc = shapely.Point(END_X, y).buffer(radius * k, quad_segs=48)
        piece(stage.sheet, disc, window, TINT, z=1.2 + 0.05 * i)
    if not jaws:
        return
    near, far = jaws[0].bounds[1], max(part.bounds[3] for part in jaws)
    near = max(0.0, min(abs(near), spec.grip_diameter / 2))
    half = max(0.16 * far, 2.0) * k
    for angle in [90.0 + i * 360.0 / _count(spec.holder_parts) for i in range(_count(spec.holder_parts))]:
        along, aside = direction(angle), direction(angle + 90.0)
        corners = [np.array([END_X, y]) + along * r * k + aside * b
                   for r, b in ((near, -half), (far, -half), (far, half), (near, half))]  # fmt: skip
        piece(stage.sheet, shapely.Polygon(corners), window, JAW, z=1.6)


def _count(parts: Parts) -> int:
    """Jaws round the work: those of a four-jaw chuck do not lie alike above and below."""
    jaws = [part for part in parts if part.name == "jaw"]
    return FOUR if len({round(abs(part.bounds[1]) + abs(part.bounds[3]), 3) for part in jaws}) > 1 else THREE
