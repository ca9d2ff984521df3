"""At what scale and where do the views of work in the vice stand, so that the figure is not too tall for a page?"""

from __future__ import annotations

import itertools

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.lanes import SCALES, scale_for
from methodfigures.paper.sheet import SHEET_WIDTH, TALLEST, Sheet
from methodfigures.setups.lists import list_width
from methodfigures.setups.vice.spec import ViceSetup
from methodfigures.setups.vice.stage import (
    BED,
    BETWEEN,
    CHUCKED,
    CLAMP,
    COLUMN,
    CUTTER,
    FIXED,
    JAW_PLAN,
    LANE,
    LEFT,
    MOVING,
    OVERHANG,
    PACKING,
    ViceStage,
    looked_at,
)
from methodfigures.solids.views import ViewBook


def staged(spec: ViceSetup, book: ViewBook) -> ViceStage:
    """Scale, places and lanes of a set-up: the largest scale at which it is not too tall for a page."""
    stage = looked_at(spec, book)
    limit = LARGEST if stage.two else _widest(stage)
    scales = [k for k in SCALES if k <= limit * (1 + 1e-9)] or [scale_for(limit)]
    ways = (_over_column, _before_column) if stage.two else (_facing,)
    for scale, way in itertools.product(scales, ways):
        stage.scale = scale
        right = way(stage)
        if stage.sheet.height <= TALLEST and right <= SHEET_WIDTH:
            break
    return stage


LARGEST = 5.0
"""Work is drawn five times its size at most."""


# ---------------------------------------------------------------------- two views
def _over_column(stage: ViceStage) -> float:
    """Plan, section A–A, and below the section its captions and the list; the right end of all of it."""
    wide = _plan_and_section(stage, COLUMN + 2.0, 0.0)
    stage.column, stage.column_top, stage.column_foot = stage.level + 2.0, stage.names_y - 3.0, 6.0
    return wide


def _before_column(stage: ViceStage) -> float:
    """Plan, section A–A, and right of the section its captions and the list: for tall work."""
    listed = list_width(stage.spec.rows())
    room = max(33.0, lettering.width(stage.spec.removed_text) + 12.0) + (listed + 3.0 if listed else 0.0)
    wide = _plan_and_section(stage, 6.0, room)
    stage.column = SHEET_WIDTH - room
    stage.column_foot, stage.column_top = stage.names_y + 6.0, stage.cutter_y - 1.0
    return wide


def _plan_and_section(stage: ViceStage, names_y: float, column: float) -> float:
    """Plan and section, the names of the section at `names_y`, `column` mm free beside it; the right end of all."""
    spec, k = stage.spec, stage.scale
    _, y0, _, _, y1, _ = stage.span
    _stand(stage)
    d = 0.0 if spec.plunging else spec.cutter_diameter
    (ax, _), (bx, _) = stage.path
    stage.front_x = 0.0
    left = min(stage.left, stage.x(ax - d / 2) - 3.0)
    right = max(stage.right, stage.x(bx + d / 2) + 2.0)
    right = max(right, stage.x(stage.section_x) + 11.0)
    levels = _levels(spec, 1)
    margin = 3.0 + (2.0 + 6.5 * levels if levels else 4.0)
    ends = 8.0 if spec.plunging else 15.0
    if stage.along == "width" and not spec.plunging:
        right = max(right, stage.x(bx + d / 2)) + FEED + 3.0
    wide = margin - left + right + TO_SECTION + MOVING + (y1 - y0) * k + FIXED + 7.0 + ends + column
    spare = max(0.0, SHEET_WIDTH - wide)
    stage.front_x = margin - left + 0.3 * spare
    stage.side_x = right + stage.front_x + 0.3 * spare + TO_SECTION + MOVING
    low, high = _overrun(stage)
    foot = 6.0 + MARK + (4.5 + LANE * _levels(spec, 0) if spec.few and spec.places else 0.0)
    if stage.along == "length" and not spec.plunging:
        foot += FEED
    chain = 8.0 if "x" in cut_widths(stage) else 0.0
    upper = MARK + chain + (6.0 if spec.places else 0.0)
    tall = foot + low + (y1 - y0) * k + high + upper + 1.0
    stage.names_y = names_y
    stage.floor = stage.names_y + BED + 7.0
    y_top = stage.y(stage.height) + (2.0 if spec.holding == "clamps" else 0.0)
    lane = 8.0 if "y" in cut_widths(stage) else 0.0
    stage.cutter_y = y_top + 3.0 + lane
    height = max(tall, stage.cutter_y + _shown(spec) + 2.0)
    stage.plan_y = foot + low + 0.5 * (height - tall)
    stage.plan_room = (stage.plan_y - low, stage.plan_y + (y1 - y0) * k + high)
    stage.lanes = (stage.plan_room[1] + MARK + 4.0, y_top + 5.0, stage.plan_room[1] + 0.5)
    stage.sheet = Sheet(SHEET_WIDTH, height)
    stage.level = stage.xs(stage.span[1]) - MOVING - TO_SECTION + 4.0
    return wide


MARK = 6.0
"""Height of an end of the cutting plane with its letter beside it."""
FEED = 7.0
"""Room for the feed arrow below the plan."""
TO_SECTION = 19.0
"""Room between plan and section for the clamping force."""


def _shown(spec: ViceSetup) -> float:
    """Height of the cutter that shows: a drill with its chuck, a chamfer's beside the note of its size."""
    return CHUCKED if spec.plunging or spec.verb == "chamfer" else CUTTER


def _levels(spec: ViceSetup, axis: int) -> int:
    """How many dimensions the places have along x (0) or y (1)."""
    return len({round(p[axis], 6) for p in spec.places} - {0.0}) if spec.few else 0


def _overrun(stage: ViceStage) -> tuple[float, float]:
    """Room that jaws and cutter need below and above the work in the plan."""
    spec, k = stage.spec, stage.scale
    low, high = JAW_PLAN, JAW_PLAN
    if not spec.plunging:
        ends, d = [p[1] for p in stage.path], spec.cutter_diameter * k
        low = max(low, (stage.span[1] - min(ends)) * k + d / 2 + 3)
        high = max(high, (max(ends) - stage.span[4]) * k + d / 2 + 3)
    return low, high


def _stand(stage: ViceStage) -> None:
    """How high the work stands above the bed or the table."""
    spec = stage.spec
    if spec.jawed:
        stage.under = min(max((spec.jaw_height - spec.grip) * stage.scale, 5.0), 8.0)
    elif spec.packed:
        stage.under = PACKING


def _facing(stage: ViceStage) -> float:
    """Front view with section A–A beside it; the right end of all of it."""
    _fit(stage)
    _rise(stage)
    stage.level = stage.xs(stage.span[1]) - MOVING - TO_SECTION + 4.0
    stage.column = stage.xs(stage.span[4]) + FIXED + 14.0
    return stage.column + 33.0


# ---------------------------------------------------------------------- scale
def _widest(stage: ViceStage) -> float:
    """The largest scale at which the views stand beside each other."""
    spec = stage.spec
    x0, y0, _, x1, y1, _ = stage.span
    d = spec.cutter_diameter
    over = CLAMP if spec.holding == "clamps" else OVERHANG
    room = SHEET_WIDTH - LEFT - BETWEEN - MOVING - FIXED - 13
    limits = [(room - 2 * over) / (x1 - x0 + y1 - y0), LARGEST]
    limits += [30 / spec.disc] if spec.disc else []
    return min([*limits, 40 / d] if d else limits)


def _fit(stage: ViceStage) -> None:
    spec, k = stage.spec, stage.scale
    x0, _, _, x1, _, _ = stage.span
    d = max(spec.cutter_diameter, spec.disc)
    over = CLAMP if spec.holding == "clamps" else OVERHANG
    _stand(stage)
    before = (min(stage.path[0][0] - d / 2, x0) - x0) * k if not spec.plunging else 0.0
    stage.front_x = max(LEFT + over, 4.0 - before)
    stage.side_x = max(stage.right, stage.front_x + (x1 - x0) * k + over) + TO_SECTION + MOVING


# ---------------------------------------------------------------------- heights
def _rise(stage: ViceStage) -> None:
    spec = stage.spec
    stage.names_y = 6.0
    stage.floor = stage.names_y + BED + 11.0
    y_top = stage.y(stage.height)
    if spec.holding == "clamps":
        y_top += 8.0
    closed, lift = len(cut_widths(stage)), _lift(stage)
    clear = y_top + (2.5, 9.5, 17.0)[closed] + lift
    stage.lanes = (y_top + 5.5 + lift, y_top + (12.5 if closed == 2 else 5.5) + lift, clear)
    stage.cutter_y = max(clear + (6.5 if _over_mark(stage) else 1.5), y_top + _above_work(stage))
    stage.sheet = Sheet(SHEET_WIDTH, max(stage.cutter_y + CUTTER + 2, 55.0))
    stage.column_foot = stage.names_y + 6.0
    stage.column_top = min(stage.cutter_y, stage.sheet.height - CUTTER - 2) - 1.0


def _above_work(stage: ViceStage) -> float:
    """How high the text of the height left of the work reaches above it, where a cutter comes in from there."""
    tall, words = _left_text(stage)
    outside = not dim.fits_inside(words, tall) or tall < dim.TIGHT
    return lettering.width(words) + 6.0 if outside else 0.0


def _left_text(stage: ViceStage) -> tuple[float, str]:
    """(length on the paper, words) of the upper dimension left of the work."""
    spec, k = stage.spec, stage.scale
    if spec.jawed and spec.grip > 0:
        return (stage.height - spec.grip) * k, spec.words("above", spec.number(stage.height - spec.grip))
    return stage.height * k, spec.words("height", spec.number(stage.height))


def _over_mark(stage: ViceStage) -> bool:
    """Whether the cutter or its feed stands over the upper end of the cutting plane, so that both need their height."""
    spec, k = stage.spec, stage.scale
    x, mark = stage.x(stage.path[0][0]), stage.x(stage.section_x)
    r = (spec.cutter_diameter or spec.diameter) / 2 * k
    return spec.plunging or stage.along == "width" or x + r + 19 > mark - 2 or mark - 2 < x + r


def _lift(stage: ViceStage) -> float:
    """How much higher the lanes must be so that a text left of the work clears the one above the height's dimension."""
    spec, k = stage.spec, stage.scale
    tall, above = _left_text(stage)
    first = spec.words("x0", spec.number(spec.box[0]))
    outside = not dim.fits_inside(above, tall) or tall < dim.TIGHT
    beside = spec.box[0] > 0 and not dim.fits_inside(first, spec.box[0] * k) and "x" in cut_widths(stage)
    return lettering.width(above) + 2.0 if outside and beside else 0.0


def cut_widths(stage: ViceStage) -> set[str]:
    """Across which edges the cut is closed, so that it has a width there: "x", "y"."""
    x0, y0, x1, y1, _ = stage.spec.box
    a0, b0, _, a1, b1, _ = stage.span
    if stage.spec.plunging or stage.spec.verb == "chamfer":
        return set()
    out = set()
    if x0 > a0 + 1e-6 or x1 < a1 - 1e-6:
        out.add("x")
    if y0 > b0 + 1e-6 or y1 < b1 - 1e-6:
        out.add("y")
    return out
