"""What does facing take off: the end of the work, a shoulder, the far side of a collar, the bottom of a recess?"""

from __future__ import annotations

import math

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Check
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.process import Process

from .facts import judged
from .plan import CutData, Made, Plan, Sketch
from .say import dia, diameter, dim, number
from .station import Station
from .turned_work import CLEAR, INSIDE, inside_work
from .verb import verb
from .words import Clause, Said

BESIDE = 0.02
"""mm beside a shoulder at which the diameters of its two sides are looked at."""


@verb(
    "face",
    family="turning",
    first=Clause("", "length", "how much comes off", says="how much comes off"),
    clauses=[
        Clause("off", "length", "how much comes off", says="how much comes off"),
        Clause("to length", "length", "length between the faces afterwards", says="how much comes off"),
        Clause("down to", "length", "diameter of a pip, a hub or a centre that is left", apart=True),
        Clause("at", "length", "length of a shoulder from the face, or depth of a bottom: that is faced, not the end"),
        INSIDE,
        Clause("left hand", "flag", "left-hand tool: the far side of a collar", changes=(Change.WORDS,)),
        Clause("called", "text", "name of the feature", changes=(Change.NAME,)),
    ],
)
def face(station: Station, said: Said) -> Plan:
    """Face the end; the datum moves to the new face. With `at` a shoulder, `inside` the bottom of a recess."""
    if "at" in said:
        return _face_inside(station, said) if said.get("inside") else _face_shoulder(station, said)
    length = station.length
    off = said.get("", said.get("off"))
    if off is None:
        off = length - said.length("to length")
    if off <= 0:
        words = f"nothing to face off (got {number(off)} mm of {number(length)} mm)"
        rule, remedy = "the work must be longer than its finished length", "check the length or the stock"
        raise MethodError(said.place, words, rule, remedy, code="nothing-to-cut")
    swing, inner = station.swing(0, off), said.get("down to", 0.0) / 2
    points = [(inner, -CLEAR), (swing + CLEAR, -CLEAR), (swing + CLEAR, off), (inner, off)]
    to_length = said.get("to length")
    words = f"Face to {dim(to_length)} long" if to_length else f"Face {dim(off)} off"
    start = 2 * swing
    return Plan(
        words, [station.turned(Outline(*points))],
        _face_cut(station, start, inner, off),
        Sketch(0, off, 2 * inner, start, cut_words=number(off)), face_moves=off, tool_words="knife tool",
        feature=str(said.get("called", "face")),
        makes=(Made("length", length - off, -1.0), Made("length", off, 1.0)),
        handling=0.7, reach_depth=0.0,
    )  # fmt: skip


def _face_cut(station: Station, start: float, inner: float, off: float) -> CutData:
    """Turned in the lathe; milled where the cutter turns and the work rests, as on a rotary table."""
    if not station.tool_turns:
        travel = start / 2 - inner + 1
        return CutData(
            Process.FACE, start, start, 2 * inner, travel, width=off, across=True, slide="compound slide"
        )  # fmt: skip
    cutter = station.cutter_diameter(start)
    wide = min(start, 0.7 * cutter)
    paths = math.ceil(start / wide)
    return CutData(
        Process.MILL, cutter, 0.0, off, start + cutter + 4, width=wide, slide="z", paths=paths, tool_turns=True
    )  # fmt: skip


def _off(said: Said) -> float:
    """How much comes off a shoulder or a bottom: more than nothing."""
    off = float(said.get("", said.get("off", 0.0)))
    if off <= 0:
        words = f"how much comes off there? (got {number(off)} mm)"
        remedy = "write e.g. `face: 0.5 mm, at 12 mm`"
        raise MethodError(said.place, words, "a shoulder is faced by an amount", remedy, code="missing-clause")
    return off


def _face_shoulder(station: Station, said: Said) -> Plan:
    """A shoulder that looks at you, down to the hub in front of it; `left hand`: the far side of a collar."""
    at, off, left = said.length("at"), _off(said), bool(said.get("left hand"))
    start, end = (at - off, at) if left else (at, at + off)
    inside_work(station, said, start, end)
    beyond = (end + BESIDE, end + 2 * BESIDE) if left else (start - 2 * BESIDE, start - BESIDE)
    outside, hub = station.swing(start + BESIDE / 2, end - BESIDE / 2), station.swing(*beyond)
    inner = said.get("down to", 2 * hub) / 2
    if not hub - 1e-6 <= inner < outside - 1e-6:
        side = "behind" if left else "in front of"
        words = f"no shoulder to face there: {diameter(2 * outside)}, and {diameter(2 * hub)} {side} it"
        rule = "a shoulder is larger than what stands beside it, and is faced down to that or less far"
        remedy = "check `at`" + ("" if left else ", or say `left hand` for the far side of a collar")
        raise MethodError(said.where("at"), words, rule, remedy, code="nothing-to-cut")
    side = "far side of the collar" if left else "shoulder"
    points = [(inner, start), (outside + CLEAR, start), (outside + CLEAR, end), (inner, end)]
    return Plan(
        f"Face {dim(off)} off the {side} {dim(at)} from the face, down to {dia(2 * inner)}",
        [station.turned(Outline(*points))], _face_cut(station, 2 * outside, inner, off),
        Sketch(start, end, 2 * inner, 2 * outside, cut_words=number(off), diameter_words=diameter(2 * inner)),
        tool_words="left-hand knife tool" if left else "knife tool",
        feature=str(said.get("called", f"shoulder at {number(at)}")),
        makes=(Made("length", start if left else end, -1.0 if left else 1.0), Made("length", off, 1.0)),
        handling=1.0, reach_depth=outside - inner, left_hand=left, checks=[_way(station, start, end, inner, said)],
    )  # fmt: skip


def _way(station: Station, start: float, end: float, inner: float, said: Said) -> Check:
    """A facing tool comes in across the axis, from the side to which the shoulder looks."""
    left = bool(said.get("left hand"))
    beside = (end + BESIDE, min(end + 1.0, station.length)) if left else (max(0.0, start - 1.0), start - BESIDE)
    there = station.swing(*beside) if beside[1] > beside[0] else 0.0
    words = f"{dia(2 * there)} stands beside the shoulder, which is faced down to {dia(2 * inner)}"
    return judged("way-in", there <= inner + 1e-6, words, said.place.line)


def _face_inside(station: Station, said: Said) -> Plan:
    """The bottom of a recess, from the bore that leads there to the hole that goes on, or to the middle."""
    at, off = said.length("at"), _off(said)
    inside_work(station, said, at, at + off)
    bore = station.bore_radius(at - 2 * BESIDE)
    pip = said.get("down to", 0.0) / 2
    inner = max(station.bore_radius(min(at + off / 2, station.length)), pip)
    if bore <= inner + 1e-6:
        words = f"no bottom to face there: the recess is {diameter(2 * bore)}, the hole below {diameter(2 * inner)}"
        rule, remedy = "a bottom is as wide as the bore that leads to it", "bore the recess first, or check `at`"
        raise MethodError(said.where("at"), words, rule, remedy, code="nothing-to-cut")
    left = pip if pip > inner - 1e-6 else 0.0  # a hole that goes on is air
    points = [(left, at - BESIDE), (bore, at - BESIDE), (bore, at + off), (left, at + off)]
    return Plan(
        f"Face {dim(off)} off the bottom of the recess, {dim(at)} from the face", [station.turned(Outline(*points))],
        CutData(Process.FACE, 2 * bore, 2 * bore, 2 * inner, bore - inner + 1, width=off, across=True,
            slide="compound slide"),
        Sketch(at, at + off, 2 * bore, 2 * bore, cut_words=number(off)), tool_words="boring bar", inside=True,
        tool_size=2 * bore, feature=str(said.get("called", f"bottom at {number(at + off)}")), handling=1.5,
        makes=(Made("depth", at + off, 1.0), Made("length", off, 1.0)), reach_depth=at + off,
    )  # fmt: skip
