"""How far does slender work give way to the tool, and what shape is left?  One row for each way of holding."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.palette import JAW, PAPER, TINT, TOOL
from methodfigures.paper.shapes import Points, dashes, polygon
from methodfigures.paper.sheet import Layer, Sheet
from methodfigures.setups.standing import piece
from methodfigures.specs import Spec

ROW = 36.0
THICK = 5.0
"""Radius of the work on the paper."""


@dataclass(frozen=True)
class Held:
    """One way of holding: `holding` "chuck", "chuck and centre" or "centres"; `name` in words; `curve` = (length from
    the free or tailstock end in mm, deflection in mm under the tool when it cuts there) from end to end; `text` of the
    greatest deflection, `taper_text` of what is left on the diameter.
    """

    holding: str
    name: str
    curve: tuple[tuple[float, float], ...]
    text: str = ""
    taper_text: str = ""


@dataclass(frozen=True, eq=False)
class Deflection(Spec):
    """Shapes left by turning slender work of `length` mm.  `exaggeration` of the deflection against the length for all
    rows; 0 = for each row as large as is legible.  `exaggeration_text` says so: "deflection drawn {factor} times".
    """

    rows: tuple[Held, ...]
    length: float
    exaggeration: float = 0.0
    length_text: str = ""
    exaggeration_text: str = "deflection drawn {factor} times larger"
    title: str = "Deflection of slender work"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_deflection(spec: Deflection) -> Drawing:
    """One row for each way of holding, 170 mm wide."""
    words = spec.description or " ".join(f"{r.name}: {r.text}; {r.taper_text}." for r in spec.rows)
    return compose_deflection(spec).drawing(spec.title, words)


def compose_deflection(spec: Deflection) -> Sheet:
    """The sheet of `draw_deflection` before it becomes a drawing."""
    k = 92.0 / spec.length
    sheet = Sheet(170.0, ROW * len(spec.rows) + 13.0)
    for i, row in enumerate(spec.rows):
        most = max((abs(d) for _, d in row.curve), default=0.0) or 1e-6
        y, factor = sheet.height - 21.0 - ROW * i, spec.exaggeration or _round(6.5 / k / most)
        _row(sheet, spec, row, y, k, factor)
        sheet.text(116.0, y + 13.2, spec.exaggeration_text.format(factor=f"{factor:g}"), align="right")
    if spec.length_text:
        y = 6.0
        dim.linear(sheet, (24.0, y + 2), (24.0 + 92.0, y + 2), y, spec.length_text)
    return sheet


def _round(value: float) -> float:
    """The largest of 1, 2, 5 times a power of ten that is not larger."""
    power = 10.0 ** np.floor(np.log10(value))
    return float(power * max(f for f in (1, 2, 5) if f * power <= value * 1.0001))


def _row(sheet: Sheet, spec: Deflection, row: Held, y: float, k: float, factor: float) -> None:
    """Shape left by the cut: thicker by the deflection where the work gave way."""
    left, right = 24.0, 24.0 + spec.length * k
    s = np.array([p[0] for p in row.curve])
    d = np.array([p[1] for p in row.curve]) * k * factor
    order = np.argsort(s)
    x, grown = right - s[order] * k, d[order]
    outline = np.c_[x, y + THICK + grown]
    low = np.c_[x, y - THICK - grown]
    body = polygon(np.vstack([outline, low[::-1]]))
    straight = shapely.box(left, y - THICK, right, y + THICK)
    sheet.area(body, PAPER, 3.0)
    extra = body.difference(straight)
    sheet.removed(extra, 3.6, pitch=1.0, outline=False)
    sheet.outline(body, "wide", 5.0)
    for v in (y - THICK, y + THICK):
        sheet.lines(dashes([(left, v), (right, v)], "phantom", 0.2), 0.2, 4.6, cap="butt", ink=False)
    _holding(sheet, row, y, left, right)
    sheet.centre_line((left - 12, y), (right + (12 if row.holding != "chuck" else 3), y), 2)
    _tool(sheet, outline, low, y)
    _words(sheet, row, y, right)


def _holding(sheet: Sheet, row: Held, y: float, left: float, right: float) -> None:
    """Chuck at the left, centres where there are any."""
    if row.holding.startswith("chuck"):
        piece(sheet, shapely.box(left - 16, y - 11, left - 4, y + 11), (left - 12, 0, left, 999), TINT, z=2.0)
        for s in (1, -1):
            jaw = shapely.box(left - 4, min(y + s * THICK, y + s * 9), left + 3, max(y + s * THICK, y + s * 9))
            piece(sheet, jaw, fill=JAW, z=5.4)
    else:
        _centre(sheet, left, y, -1)
    if row.holding != "chuck":
        _centre(sheet, right, y, 1)


def _centre(sheet: Sheet, x: float, y: float, way: int) -> None:
    shape = polygon(
        [
            (x, y + 1.2),
            (x + way * 4.2, y + 3.6),
            (x + way * 12, y + 3.6),
            (x + way * 12, y - 3.6),
            (x + way * 4.2, y - 3.6),
            (x, y - 1.2),
        ]
    )
    window = (x - 9.5, 0.0, x, 999.0) if way < 0 else (x, 0.0, x + 9.5, 999.0)
    piece(sheet, shape, window, JAW, z=2.5)


def _tool(sheet: Sheet, outline: Points, low: Points, y: float) -> None:
    """The tool where the work gives way most, below, and its force upwards."""
    i = int(np.argmax(outline[:, 1]))
    x, tip = float(low[i, 0]), float(low[i, 1])
    x = min(x, float(outline[:, 0].max()) - 1.0)
    tool = polygon([(x, tip), (x + 3.6, tip - 0.5), (x + 3.6, tip - 9), (x - 0.4, tip - 9), (x - 0.4, tip - 4)])
    piece(sheet, tool, (0, y - 17.5, 999, 999), TOOL, z=Layer.TOOL)


def _words(sheet: Sheet, row: Held, y: float, right: float) -> None:
    sheet.text(3.0, y + 13.2, row.name, align="left")
    x = right + 16.0
    limit = 168.0 - x
    rows = lettering.wrap(row.text, limit) + lettering.wrap(row.taper_text, limit)
    top = y + (len(rows) - 1) * 2.0 - 0.5
    for i, words in enumerate(rows):
        sheet.text(x, top - 4.2 * i, words, align="left")
