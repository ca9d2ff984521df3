"""What do the hole verbs cut? One outline, on the axis, on a pitch circle, across the axis or on a face."""

from __future__ import annotations

import math
from dataclasses import dataclass

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.threads.hole_making import centre_drill, centre_pilots
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import ToolKind

from .advice import dividing_tables, reaming_checks, repeat_checks
from .facts import judged, looked_up
from .places import ANGLE_CLAUSES, POINT_CLAUSES, RADIUS_CLAUSES, Places, read_places, read_points
from .plan import CutData, Made, Plan, Sketch
from .say import dia, diameter, dim, number, plural, resting
from .station import Station
from .verb import ANY, VICE, verb
from .words import Clause, Said

POINT = 118.0
"""Degrees: included angle of the usual drill point."""
CLEAR = 1.0

SIZE = Clause("", "length", "diameter", True)
DEEP = Clause("deep", "length", "depth to the full diameter", says="the depth")
THROUGH = Clause("through", "flag", "right through", says="the depth")
FROM = Clause("from", "length", "depth at which it starts", apart=True)
CALLED = Clause("called", "text", "name of the feature", changes=(Change.NAME,))
AROUND = (*ANGLE_CLAUSES, *RADIUS_CLAUSES)


@dataclass(frozen=True)
class _Depth:
    start: float
    end: float
    through: bool

    def words(self) -> str:
        return "through" if self.through else f"{dim(self.end)} deep"


def _depth(station: Station, said: Said) -> _Depth:
    start = said.get("from", 0.0)
    if not said.get("through") and "deep" not in said:
        raise MethodError(
            said.place,
            "how deep? (neither `through` nor `deep`)",
            "a hole has a depth",
            "add `through` or e.g. `deep 12 mm`",
            code="missing-clause",
        )
    end = station.depth_through + CLEAR if said.get("through") else said.length("deep")
    if end <= start:
        raise MethodError(
            said.where("deep"),
            f"a hole from {number(start)} to {number(end)} mm has no depth",
            "it runs into the metal",
            "check `deep` and `from`",
            code="wrong-value",
        )
    return _Depth(start, end, bool(said.get("through")))


def _places(station: Station, said: Said) -> Places:
    return read_points(said) if station.frame == VICE else read_places(said)


def positive_size(said: Said, word: str = "") -> float:
    """A diameter that was said; MethodError where it is not above nothing."""
    size = said.length(word)
    if size <= 0:
        raise MethodError(
            said.where(word),
            f"a diameter is more than nothing (got {number(size)} mm)",
            "sizes are positive",
            "check the size",
            code="wrong-value",
        )
    return size


def _profile(radius: float, depth: _Depth, point: float = 0.0) -> Outline:
    return hole_outline(radius, depth.start, depth.end, 0.0 if depth.through else point)


def hole_outline(radius: float, start: float, end: float, point: float = 0.0) -> Outline:
    """Outline (radius, depth) of a hole to `end` mm at full diameter; `point` = included angle of its end, 0 = flat."""
    top = start if start else -CLEAR
    outline = Outline((0, top), (radius, top), (radius, end))
    if 0 < point < 180:
        return outline.to((0, end + radius / math.tan(math.radians(point / 2))))
    return outline.to((0, end))


def _sketch(places: Places, depth: _Depth, size: float, there: float = 0.0) -> Sketch:
    return Sketch(
        depth.start,
        depth.end,
        size,
        there,
        through=depth.through,
        radius=places.radius,
        angles=places.angles,
        points=places.points,
        divided=places.divided,
        cut_words="" if depth.through else f"{number(depth.end)} deep",
        diameter_words=diameter(size),
        size=size,
    )


def _hole_clauses(*more: Clause) -> tuple[Clause, ...]:
    return (DEEP, THROUGH, FROM, CALLED, *AROUND, *POINT_CLAUSES, *more)


def _how_deep(depth: _Depth) -> Made:
    """A hole's depth, which the slide that feeds the tool sets."""
    return Made("depth", depth.end)


def _travel(depth: _Depth, tip: float = 0.0) -> float:
    return depth.end - depth.start + tip + 2.0


@verb(
    "drill",
    frame=ANY,
    family="holes",
    first=SIZE,
    clauses=_hole_clauses(Clause("point", "angle", "angle of the drill's point", within=(1, 180), apart=True)),
)
def drill(station: Station, said: Said) -> Plan:
    """Drill a hole: on the axis, on a pitch circle, or at places on a face."""
    size, depth, places = positive_size(said), _depth(station, said), _places(station, said)
    point = said.get("point", POINT)
    tip = size / 2 / math.tan(math.radians(point / 2))
    there = 2 * station.hole_radius(places, depth.start, depth.end)
    count = f"{places.count} × " if places.count > 1 else ""
    plan = Plan(
        f"Drill {count}{dia(size)} {depth.words()}{places.words()}",
        station.holes(places, _profile(size / 2, depth, point)),
        CutData(Process.DRILL, size, there, size, _travel(depth, tip), holes=places.count,
            slide="tailstock" if places.on_axis else "z",
                tool_turns=station.tool_turns),
        _sketch(places, depth, size, there), cautions=["drilling"] if station.tool_turns else [], tool_words="drill",
        tool_size=size, makes=(Made("diameter", size, by=ToolKind.DRILL), _how_deep(depth)),
        feature=str(said.get("called", f"hole {diameter(size)}")), handling=0.5 + 0.3 * (places.count - 1),
        reach_depth=depth.end - depth.start + (0 if depth.through else tip), point=point,
        axes=station.hole_axes(places, depth.end),
    )  # fmt: skip
    return plan.with_more(tables=dividing_tables(station, places), checks=repeat_checks(said.place.line, places, size))


@verb(
    "bore",
    frame=ANY,
    family="holes",
    clauses=_hole_clauses(
        Clause("to", "length", "finished diameter", True),
        Clause("corner", "length", "radius left in the corner", apart=True),
        Clause("leave", "length", "metal left on the diameter for a later cut"),
    ),
)
def bore(station: Station, said: Said) -> Plan:
    """Bore to a diameter with a single point tool or a boring head."""
    size, depth, places = (
        positive_size(said, "to") - said.get("leave", 0.0),
        _depth(station, said),
        _places(station, said),
    )
    there = 2 * station.hole_radius(places, depth.start, depth.end)
    if there >= size - 1e-6:
        raise MethodError(
            said.where("to"),
            f"the hole is already {diameter(there)} and is to become {diameter(size)} (got {number(size)} mm)",
            "boring makes a hole larger",
            "check the size",
            code="smaller-than-hole",
        )
    corner = 0.0 if depth.through else said.get("corner", 0.0)
    outline = _profile(size / 2, depth)
    if corner:
        top = depth.start if depth.start else -CLEAR
        outline = (
            Outline((0, top), (size / 2, top))
            .arc((size / 2 - corner, depth.end - corner), corner, 0, 90)
            .to((0, depth.end))
        )
    return Plan(
        f"Bore to {dia(size)} {depth.words()}{places.words()}", station.holes(places, outline),
        CutData(Process.BORE, size, there, size, _travel(depth), holes=places.count, slide="cross slide",
            tool_turns=station.tool_turns),
        _sketch(places, depth, size, there), tool_words="boring head" if station.tool_turns else "boring bar",
        tool_size=there, handling=1.5,
        makes=(Made("diameter", size, 0.5, left_on="leave" in said), _how_deep(depth)),
        feature=str(said.get("called", f"bore {diameter(size)}")), reach_depth=min(depth.end, station.depth_through),
        axes=station.hole_axes(places, depth.end),
    )  # fmt: skip


@verb("ream", frame=ANY, family="holes", first=SIZE, clauses=_hole_clauses())
def ream(station: Station, said: Said) -> Plan:
    """Ream a drilled or bored hole to size."""
    size, depth, places = positive_size(said), _depth(station, said), _places(station, said)
    there = 2 * station.hole_radius(places, depth.start, depth.end)
    several = f"{plural(places.count, 'hole')} " if places.count > 1 else ""
    plan = Plan(
        f"Ream {several}{dia(size)} {depth.words()}{places.words()}",
        station.holes(places, _profile(size / 2, depth)),
        CutData(Process.REAM, size, there, size, _travel(depth), holes=places.count, slide="tailstock",
            tool_turns=station.tool_turns),
        _sketch(places, depth, size, there), tool_words="reamer", tool_size=size, handling=0.7,
        makes=(Made("diameter", size, by=ToolKind.REAMER), _how_deep(depth)),
        feature=str(said.get("called", f"hole {diameter(size)}")), reach_depth=min(depth.end, station.depth_through),
        axes=station.hole_axes(places, depth.end),
    )  # fmt: skip
    return plan.with_more(checks=reaming_checks(said.place.line, size, there))


@verb(
    "counterbore",
    frame=ANY,
    family="holes",
    first=SIZE,
    clauses=_hole_clauses(Clause("back", "flag", "from the far side: a back counterbore or spotface")),
)
def counterbore(station: Station, said: Said) -> Plan:
    """Counterbore a hole, flat at the bottom; `back` from the far side, with a cutter put in through the hole."""
    size, depth, places = positive_size(said), _depth(station, said), _places(station, said)
    if said.get("back"):
        return _back_counterbore(station, said, size, depth, places)
    there = 2 * station.hole_radius(places, depth.start, depth.end)
    return Plan(
        f"Counterbore {dia(size)} {depth.words()}{places.words()}",
        station.holes(places, _profile(size / 2, depth)),
        CutData(Process.COUNTERBORE, size, there, size, _travel(depth), holes=places.count, slide="tailstock",
            tool_turns=station.tool_turns),
        _sketch(places, depth, size, there), tool_words="counterbore", tool_size=size, handling=0.7,
        makes=(Made("diameter", size, by=ToolKind.COUNTERBORE), _how_deep(depth)),
        feature=str(said.get("called", f"counterbore {diameter(size)}")), reach_depth=depth.end,
        axes=station.hole_axes(places, depth.end),
    )  # fmt: skip


def _back_counterbore(station: Station, said: Said, size: float, depth: _Depth, places: Places) -> Plan:
    """A counterbore in the far face; `deep` is its depth from there."""
    if depth.through or depth.start:
        words = "a back counterbore has `deep`, from the far face"
        raise MethodError(
            said.place, words, "neither `through` nor `from`", "write e.g. `deep 3 mm, back`", code="wrong-value"
        )
    far = station.depth_through
    begin = far - depth.end
    there = 2 * station.hole_radius(places, 0.0, far)
    outline = Outline((0, begin), (size / 2, begin), (size / 2, far + CLEAR), (0, far + CLEAR))
    plan = Plan(
        f"Counterbore {dia(size)} {dim(depth.end)} deep from the back{places.words()}",
        station.holes(places, outline),
        CutData(Process.COUNTERBORE, size, there, size, depth.end + 2, holes=places.count, slide="tailstock",
            tool_turns=station.tool_turns),
        Sketch(begin, far, size, there, radius=places.radius, angles=places.angles, diameter_words=diameter(size),
            size=size,
               cut_words=f"{number(depth.end)} deep"),
        tool_words="counterbore", handling=1.5 * places.count, straight=False,
        makes=(Made("diameter", size, by=ToolKind.COUNTERBORE), _how_deep(depth)),
        feature=str(said.get("called", f"back counterbore {diameter(size)}")),
    )  # fmt: skip
    return plan.with_more(
        checks=[
            judged(
                "reach",
                there > 0,
                "the cutter goes in through the hole" if there else "there is no hole for the cutter to go through",
                said.place.line,
            )
        ]
    )


@verb(
    "countersink",
    frame=ANY,
    family="holes",
    first=SIZE,
    clauses=(
        FROM,
        *AROUND,
        *POINT_CLAUSES,
        Clause("angle", "angle", "included angle, 90° unless said", within=(1, 179)),
        CALLED,
    ),
)
def countersink(station: Station, said: Said) -> Plan:
    """Countersink a hole to a diameter at its mouth."""
    size, places, angle, start = (
        positive_size(said),
        _places(station, said),
        said.get("angle", 90.0),
        said.get("from", 0.0),
    )
    rise = math.tan(math.radians(angle / 2))
    tip = start + size / 2 / rise
    lift = CLEAR if not start else 0.0
    there = 2 * station.hole_radius(places, start, start + 0.5 * size / 2 / rise)
    outline = Outline((0, start - lift), (size / 2 + lift * rise, start - lift), (0, tip))
    return Plan(
        f"Countersink to {dia(size)}, {number(angle)}°{places.words()}", station.holes(places, outline),
        CutData(Process.COUNTERSINK, size, there, size, (size - there) / 2 / rise + 1, holes=places.count,
            slide="tailstock", tool_turns=station.tool_turns),
        _sketch(places, _Depth(start, start + (size - there) / 2 / rise, False), size, there),
        tool_words="countersink", tool_size=size, makes=(Made("diameter", size),), tool_angle=angle, least_tool=size,
        handling=0.5, feature=str(said.get("called", f"countersink {diameter(size)}")),
    )  # fmt: skip


@verb(
    "centre",
    frame=ANY,
    family="holes",
    first=Clause("", "length", "size of the centre drill: its pilot"),
    clauses=(*AROUND, *POINT_CLAUSES, Clause("to", "length", "diameter at the mouth")),
)
def centre(station: Station, said: Said) -> Plan:
    """Centre drill: for a tailstock centre, or to start a drill."""
    (pilot, usual_mouth, pilot_length), rests = looked_up(_centre_drill, station, said)
    mouth = said.get("to", usual_mouth)
    places = _places(station, said)
    rise = math.tan(math.radians(30))
    cone = (mouth - pilot) / 2 / rise
    deep = cone + pilot_length
    outline = Outline(
        (0, -CLEAR), (mouth / 2 + CLEAR * rise, -CLEAR), (pilot / 2, cone), (pilot / 2, deep), (0, deep + 0.3 * pilot)
    )
    pilot_words = dim(pilot) if "" in said else resting(dim(pilot), rests)
    mouth_words = dia(mouth) if said.has("to") else resting(dia(mouth), rests)
    plan = Plan(
        f"Centre drill, {pilot_words} pilot, to {mouth_words}{places.words()}", station.holes(places, outline),
        CutData(Process.CENTRE, mouth, 0.0, mouth, deep + 1.0, holes=places.count, slide="tailstock",
            tool_turns=station.tool_turns),
        Sketch(0, deep, mouth, 0, radius=places.radius, angles=places.angles, points=places.points,
            divided=places.divided, diameter_words=diameter(mouth), size=pilot,
               cut_words=f"{number(deep)} deep"),
        tool_words="centre drill", tool_size=pilot, feature="centre", handling=0.5 + 0.3 * (places.count - 1),
        makes=(Made("diameter", mouth),),
    )  # fmt: skip
    return plan.with_more(tables=dividing_tables(station, places))


def _centre_drill(station: Station, said: Said) -> tuple[float, float, float]:
    """(pilot, mouth, length of the pilot) of a standard centre drill by its pilot; the usual one where none is said."""
    size = said.get("", station.usual_centre())
    try:
        found = centre_drill(f"A{size:g}")
    except NotInTable:
        raise MethodError(
            said.where(""),
            f"no standard centre drill has a pilot of {number(size)} mm (got {number(size)} mm)",
            f"ISO form A: {', '.join(number(pilot) for pilot in centre_pilots())}",
            "take one of these",
            code="unknown-size",
        ) from None
    return found.pilot, found.mouth, found.pilot_length
