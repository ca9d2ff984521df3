"""How is the compound slide turned for a taper?"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.palette import JAW, PAPER, TINT, TOOL
from methodfigures.paper.shapes import Points, arc, polygon
from methodfigures.paper.sheet import NARROW, Layer, Sheet
from methodfigures.setups.standing import direction, piece
from methodfigures.specs import Spec


@dataclass(frozen=True, eq=False)
class CompoundSlide(Spec):
    """Taper turned with the compound slide set over by `angle` degrees (half the taper's angle): `large` and `small`
    diameters, `length` in mm.  Texts: `large_text`, `small_text`, `length_text`, `angle_text`, `slide_text`,
    `note` under the picture.
    """

    large: float
    small: float
    length: float
    angle: float
    large_text: str = ""
    small_text: str = ""
    length_text: str = ""
    angle_text: str = ""
    slide_text: str = "compound slide"
    note: str = ""
    title: str = "Taper with the compound slide"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_compound_slide(spec: CompoundSlide) -> Drawing:
    """Seen from above: chuck left, operator below; 170 mm wide."""
    words = (
        spec.description
        or f"Taper from {spec.large_text} to {spec.small_text} over {spec.length_text}; the slide is turned by "
        f"{spec.angle_text}. {spec.note}"
    )
    return compose_compound_slide(spec).drawing(spec.title, words)


def compose_compound_slide(spec: CompoundSlide) -> Sheet:
    """The sheet of `draw_compound_slide` before it becomes a drawing."""
    k = min(62.0 / spec.length, 22.0 / (spec.large / 2))
    face, r1, r0 = 112.0, spec.small / 2 * k, spec.large / 2 * k
    back = face - spec.length * k
    sheet = Sheet(170.0, 66.0 + 2 * r0 + (4 if spec.note else 0))
    y = sheet.height - r0 - 17.0
    piece(
        sheet,
        shapely.box(back - 50, y - r0 - 14, back - 12, y + r0 + 14),
        (back - 32, y - r0 - 12, back, y + r0 + 12),
        TINT,
        z=1.0,
    )
    for s in (1, -1):
        piece(
            sheet,
            shapely.box(back - 12, min(y + s * r0, y + s * (r0 + 9)), back - 2, max(y + s * r0, y + s * (r0 + 9))),
            fill=JAW,
            z=2.0,
        )
    body = polygon(
        [(back - 12, y - r0), (back, y - r0), (face, y - r1), (face, y + r1), (back, y + r0), (back - 12, y + r0)]
    )
    sheet.area(body, PAPER, 3.0)
    sheet.outline(body, "wide", 5.0)
    sheet.lines([[(back, y - r0), (back, y + r0)]], 0.5, 5.0)
    sheet.centre_line((back - 34, y), (face + 20, y), 3)
    top = y + r0 + 6.5
    dim.linear(sheet, (back, y + r0), (face, y + r1), top, spec.length_text or spec.number(spec.length))
    dim.linear(sheet, (face, y - r1), (face, y + r1), face + 8.0, spec.small_text or f"Ø{spec.number(spec.small)}", "y")
    x = back + 7.5
    r = r0 - (x - back) / k * math.tan(math.radians(spec.angle)) * k
    tall = 2 * r
    dim.linear(
        sheet,
        (x, y - r),
        (x, y + r),
        x,
        spec.large_text or f"Ø{spec.number(spec.large)}",
        "y",
        extension=False,
        outside=False,
        text_at=tall * 0.74,
    )
    _slide(sheet, spec, np.array([face - 0.45 * spec.length * k, y - (r0 + r1) / 2]), k, y)
    if spec.note:
        sheet.text(85.0, 3.0, spec.note)
    return sheet


def _slide(sheet: Sheet, spec: CompoundSlide, tip: Points, k: float, y: float) -> None:
    """Tool and compound slide turned by the angle, its direction of travel, the angle from the axis."""
    # the slope of the near flank: from the small end (right) towards the large end it moves away from the axis
    half = math.degrees(math.atan2((spec.large - spec.small) / 2, spec.length))
    q, n = direction(half), direction(half - 90.0)
    tool = np.array(
        [tip, tip + q * 2.4 + n * 2.6, tip + q * 2.4 + n * 12, tip - q * 2.4 + n * 12, tip - q * 2.4 + n * 2.6]
    )
    piece(sheet, polygon(tool), fill=TOOL, z=Layer.TOOL)
    a, b = tip + n * 12, tip + n * 26
    slide = polygon([a - q * 24, a + q * 24, b + q * 24, b - q * 24])
    piece(sheet, slide, fill=TINT, z=2.0)
    handle = polygon([a + q * 24 + n * 4.5, a + q * 30 + n * 4.5, a + q * 30 + n * 9.5, a + q * 24 + n * 9.5])
    piece(sheet, handle, fill=JAW, z=2.1)
    m = (a + b) / 2
    dim.block_arrow(sheet, m + q * 9 + n * 0.0, m - q * 5, width=1.2)
    start = m - q * 20
    zero = direction(0.0)
    sheet.centre_line(start - q * 2, start + q * 46 * 0 + q * 12, 0)
    corner = b - q * 20 + n * 4.0
    reach = 34.0
    sheet.lines([[corner, corner + zero * reach], [corner, corner + q * reach]], NARROW, Layer.DIMENSION)
    p = arc(corner, reach - 3, 0.0, half)
    sheet.lines([p], NARROW, Layer.DIMENSION)
    if half > 5.5:
        dim.head(sheet, p[0], p[0] - p[1])
        dim.head(sheet, p[-1], p[-1] - p[-2])
    else:
        dim.head(sheet, p[0], (0, 1))
        dim.head(sheet, p[-1], (0, -1))
        sheet.lines([[p[0], p[0] - (0, 5)], [p[-1], p[-1] + (0, 4)]], NARROW, Layer.DIMENSION)
    sheet.text(
        corner[0] + reach + 2.0,
        corner[1] + math.sin(math.radians(half)) * reach * 0.5,
        spec.angle_text or f"{half:.3f}°",
        align="left",
        level="middle",
    )
    dim.leader(sheet, a + q * 20 + n * 3, (a[0] + 40.0, a[1] + 3.0), spec.slide_text, dot=True)
    _ = y, k


# ---------------------------------------------------------------------- tailstock
