"""Examples of the drawing of a finished part, on a sheet, on a phone and in a list; and of a route on a phone."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from methodfigures.gallery.setups import BORED, cells
from methodfigures.paper.drawing import Drawing
from methodfigures.part import draw_part, draw_portrait
from methodfigures.part.portrait import Portrait
from methodfigures.part.spec import Callout, Cutting, LimitRow, Line, PartDrawing, Side, Size, View
from methodfigures.route.storyboard import Storyboard, draw_storyboard

PHONE_PART: Final = 92.0
PHONE_ROUTE: Final = 74.0
"""mm: widths of a drawing and of a route where they stand on a phone."""


def _pin() -> PartDrawing:
    """A stepped pin with a hole in its end: half section, lengths from the left end."""
    ends = ((0.0, 0.0, 1.0), (0.0, 0.0, 90.0))
    sizes = (
        Size((8.0, 0.0, 1.0), (8.0, 0.0, 31.0), "30", Side.ABOVE),
        Size((12.5, 0.0, 1.0), (12.5, 0.0, 90.0), "89", Side.ABOVE),
        Size((-8.0, 0.0, 1.0), (8.0, 0.0, 1.0), "Ø16 f7", Side.LEFT),
        Size((-12.5, 0.0, 90.0), (12.5, 0.0, 90.0), "Ø25", Side.RIGHT),
    )
    notes = (
        Callout((-3.0, 0.0, 12.0), "Ø6 × 18 deep"),
        Callout((-12.5, 0.0, 60.0), "Ra 1.6", surface=True),
    )
    front = View((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), cutting=Cutting.HALF, axis=ends[0], sizes=sizes, callouts=notes,
                 lines=(Line(*ends),))  # fmt: skip
    return PartDrawing(
        (BORED,),
        ("pin",),
        front,
        limits=(LimitRow("16 f7", "15.984", "15.966"),),
        remarks=("Sizes in millimetres.",),
        block=(("Part", "Stepped pin"), ("Material", "EN1A"), ("Mass", "246 g")),
        title="The finished part: Stepped pin",
        description="The finished part in half section, with its sizes from end A.",
    )


def part() -> tuple[str, Drawing]:
    """The drawing of a part on a sheet."""
    return "A finished part", draw_part(_pin())


def part_narrow() -> tuple[str, Drawing]:
    """The same on a phone."""
    return "A finished part on a phone", draw_part(replace(_pin(), width=PHONE_PART))


def portrait() -> tuple[str, Drawing]:
    """The same in a list of parts."""
    return "A finished part at a glance", draw_portrait(
        Portrait((BORED,), title="Stepped pin", description="A stepped pin with a hole in its end.")
    )


def storyboard_narrow() -> tuple[str, Drawing]:
    """A route on a phone, two pictures to a row."""
    return "Route of a method on a phone", draw_storyboard(Storyboard(cells(), 2, width=PHONE_ROUTE))
