"""How is the effective diameter of a screw thread measured over three wires?"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper.drawing import Drawing
from methodfigures.paper.palette import JAW, PAPER, TOOL
from methodfigures.paper.shapes import polygon
from methodfigures.paper.sheet import NARROW, Layer, Sheet
from methodfigures.setups.standing import piece
from methodfigures.specs import Spec

Height = Callable[[float, int], float]
"""Paper y of a radius in mm above (1) or below (-1) the axis."""


@dataclass(frozen=True, eq=False)
class ThreeWires(Spec):
    """Three wires of `wire` mm in a thread of `pitch`, outside `major`, effective `effective` and core `minor`
    diameters in mm, flank angle `angle` (60, 55, 47.5 degrees); `over` = measured size over the wires.

    Texts: `over_text`, `wire_text`, `pitch_text`, `effective_text`, `angle_text`, `thread_text` (name of the thread),
    `rows` = lines of numbers below; `spindle_text`, `anvil_text` of the micrometer.
    """

    pitch: float
    major: float
    effective: float
    minor: float
    wire: float
    over: float
    angle: float = 60.0
    over_text: str = ""
    wire_text: str = ""
    pitch_text: str = ""
    effective_text: str = ""
    angle_text: str = ""
    thread_text: str = ""
    rows: tuple[str, ...] = ()
    title: str = "Measuring over three wires"
    description: str = ""
    units: str = "mm"
    dimension_texts: Mapping[str, str] = field(default_factory=dict)


def draw_three_wires(spec: ThreeWires) -> Drawing:
    """Thread in section between the anvils of a micrometer, two wires above and one below; 170 mm wide."""
    words = (
        spec.description
        or f"{spec.thread_text}: size over three wires of {spec.wire_text} is {spec.over_text}. " + ". ".join(spec.rows)
    )
    return compose_three_wires(spec).drawing(spec.title, words)


def compose_three_wires(spec: ThreeWires) -> Sheet:
    """The sheet of `draw_three_wires` before it becomes a drawing."""
    p, turns = spec.pitch, 5
    gap = min(spec.minor, 4.0 * p)  # the core is shortened: only the flanks matter
    k = min(74.0 / (turns * p), 46.0 / (gap + spec.over - spec.minor))
    foot = 8.0 + 4.6 * len(spec.rows)
    cut = (spec.minor - gap) * k
    half = spec.over / 2 * k - cut / 2
    y = foot + half + 14.0
    sheet = Sheet(170.0, y + half + 16.0)
    x0 = 80.0 - turns * p * k / 2

    def at(r: float, side: int) -> float:
        return y + side * (r * k - cut / 2)

    _body(sheet, spec, x0, turns, k, at)
    spots = _wire_centres(spec, x0, turns, k)
    size = _wire_radius(spec)
    for x, side in spots:
        c = (x, at(size, side))
        sheet.circle(c, spec.wire / 2 * k, "wide", 6.0, fill=PAPER)
        sheet.centre_mark(c, spec.wire / 2 * k, 0.8)
    _anvils(sheet, spec, spots, at)
    _dimensions(sheet, spec, x0, turns, k, at, spots, size)
    for i, words in enumerate(spec.rows):
        sheet.text(8.0, foot - 5.0 - 4.6 * i, words, align="left")
    return sheet


def _wire_radius(spec: ThreeWires) -> float:
    """Distance of a wire's centre from the axis, mm: half of the size over the wires less the wire's radius."""
    return spec.over / 2 - spec.wire / 2


def _profile(spec: ThreeWires, x0: float, turns: int, k: float, side: int, at: Height) -> list[tuple[float, float]]:
    """Flanks between core and crest: level with the effective diameter the groove is half a pitch wide."""
    slope = math.tan(math.radians(spec.angle / 2))
    shift = 0.0 if side > 0 else spec.pitch / 2
    out = []
    re, rc, rm = spec.effective / 2, spec.major / 2, spec.minor / 2
    for i in range(-1, turns + 2):
        g = i * spec.pitch + shift  # middle of a groove
        for r, way in ((rc, -1), (rm, -1), (rm, 1), (rc, 1)):
            width = spec.pitch / 4 + (r - re) * slope
            out.append((x0 + (g + way * max(width, 0.02 * spec.pitch)) * k, at(r, side)))
    return out


def _body(sheet: Sheet, spec: ThreeWires, x0: float, turns: int, k: float, at: Height) -> None:
    upper, lower = _profile(spec, x0, turns, k, 1, at), _profile(spec, x0, turns, k, -1, at)
    body = polygon([*upper, *lower[::-1]])
    window = shapely.box(x0 - 2, -99, x0 + turns * spec.pitch * k + 2, 999)
    shown = (body if body.is_valid else body.buffer(0)).intersection(window)
    sheet.area(shown, PAPER, 2.0)
    sheet.hatch(shown, 45, 2.4, z=2.2)
    for line in (upper, lower):
        inner = shapely.LineString(line).intersection(window)
        sheet.lines([shapely.get_coordinates(g) for g in getattr(inner, "geoms", [inner])], 0.5, 5.0)
    b = shown.bounds
    for x in (b[0], b[2]):
        ends = shown.intersection(
            shapely.LineString([(x + (0.01 if x == b[0] else -0.01), -99), (x + (0.01 if x == b[0] else -0.01), 999)])
        ).bounds
        sheet.break_line((x, ends[1]), (x, ends[3]), 0.6, 5.1)
    middle = (at(0.0, 1) + at(0.0, -1)) / 2
    sheet.centre_line((b[0], middle), (b[2], middle), 4)


def _wire_centres(spec: ThreeWires, x0: float, turns: int, k: float) -> list[tuple[float, int]]:
    """(x, side) of the wires: two in neighbouring grooves above, one below between them."""
    g = turns // 2
    return [(x0 + g * spec.pitch * k, 1), (x0 + (g + 1) * spec.pitch * k, 1), (x0 + (g + 0.5) * spec.pitch * k, -1)]


def _anvils(sheet: Sheet, spec: ThreeWires, spots: list[tuple[float, int]], at: Height) -> None:
    top, low = at(spec.over / 2, 1), at(spec.over / 2, -1)
    a, b = spots[0][0] - 7.0, spots[1][0] + 7.0
    c = spots[2][0]
    piece(sheet, shapely.box(a, top, b, top + 20), (0, 0, 999, top + 8.5), JAW, z=4.0)
    piece(sheet, shapely.box(c - (b - a) / 2, low - 20, c + (b - a) / 2, low), (0, low - 8.5, 999, 999), TOOL, z=4.0)


def _dimensions(
    sheet: Sheet,
    spec: ThreeWires,
    x0: float,
    turns: int,
    k: float,
    at: Height,
    spots: list[tuple[float, int]],
    size: float,
) -> None:
    """Size over the wires, effective diameter, pitch, wire and flank angle."""
    left, right = x0 - 2, x0 + turns * spec.pitch * k + 2
    half = (spots[1][0] - spots[0][0]) / 2 + 7.0
    a, b = spots[0][0] - 7.0, spots[2][0] + half
    dim.linear(
        sheet,
        (b, at(spec.over / 2, -1)),
        (spots[1][0] + 7, at(spec.over / 2, 1)),
        right + 14.0,
        spec.over_text or spec.number(spec.over),
        "y",
    )
    dim.linear(
        sheet,
        (left, at(spec.effective / 2, -1)),
        (left, at(spec.effective / 2, 1)),
        left - 9.0,
        spec.effective_text or spec.number(spec.effective),
        "y",
    )
    _pitch(sheet, spec, x0 + (turns - 1) * spec.pitch * k, k, at)
    if spec.wire_text:
        x, side = spots[2]
        tip = np.array([x, at(size, side)]) + spec.wire / 2 * k * np.array([-0.94, -0.34])
        dim.leader(sheet, tip, (a - 8.0, at(spec.over / 2, -1) - 6.0), spec.wire_text, right=False)
    if spec.angle_text:
        _flank_angle(sheet, spec, x0 + spec.pitch * k, k, at)
    if spec.thread_text:
        sheet.text(167.0, 3.0, spec.thread_text, align="right")


def _pitch(sheet: Sheet, spec: ThreeWires, groove: float, k: float, at: Height) -> None:
    """The pitch, from flank to flank level with the effective diameter."""
    x, foot = groove - 0.25 * spec.pitch * k, at(spec.effective / 2, 1)
    y = max(at(spec.major / 2, 1) + 5.5, at(spec.over / 2, 1) + 11.5)
    words = spec.pitch_text or spec.number(spec.pitch)
    dim.linear(sheet, (x, foot), (x + spec.pitch * k, foot), y, words)


def _flank_angle(sheet: Sheet, spec: ThreeWires, groove: float, k: float, at: Height) -> None:
    """The angle of the flanks over one groove, its legs the flanks carried on."""
    half = math.radians(spec.angle / 2)
    depth = spec.pitch / 4 / math.tan(half) * k
    vertex = at(spec.effective / 2, 1) - depth
    reach = (spec.major - spec.effective) / 2 * k + depth + 7.0
    for s in (1, -1):
        way = np.array([s * math.sin(half), math.cos(half)])
        corner = np.array([groove, vertex])
        sheet.lines([[corner + way * (reach - 6.5), corner + way * (reach + 1.5)]], NARROW, Layer.DIMENSION)
    dim.angular(sheet, (groove, vertex), reach, 90 - spec.angle / 2, 90 + spec.angle / 2, spec.angle_text)
