"""How is the end of a link filed truly round: between two hardened buttons that the file skates on?"""

from __future__ import annotations

import math

from methodsheets.geometry import Outline, Solid
from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Check
from methodsheets.vocabulary.joint import Joint
from methodsheets.workpiece import Sits
from methodsheets.workpiece.seats import rounds

from .benchwork import TIME
from .facts import fact, judged, told
from .holes import positive_size
from .mouths import Mouth, read_mouths
from .plan import CutData, Join, Made, Part, Plan, Sketch
from .say import MM, degrees, dia, dim, number
from .station import Station
from .turned_work import CALLED
from .verb import VICE, verb
from .words import Clause, Said

FILED = 50.0
"""mm³ a minute that a hand files off steel: an estimate."""
LEAST_LONG = 5.0
"""mm of button that guides the file at least (common practice)."""
LEAST_WALL = 1.5
"""mm of button round its spigot at least (common practice)."""
CLEAR, STEP = 5.0, 0.05
"""mm beyond the work to which everything is filed away; mm of step that nobody sees."""


@verb(
    "round end",
    frame=VICE,
    family="bench",
    first=Clause("", "length", "radius of the end, which is that of the buttons", True),
    clauses=[
        Clause("places", "points", "(x, y) of the hole in which the buttons sit", True),
        Clause(
            "at", "angle", "where the end looks, anticlockwise from the right; to the nearer end without it", apart=True
        ),
        CALLED,
        TIME,
    ],
)
def round_end(station: Station, said: Said) -> Plan:
    """File the end of a link round with filing buttons: two hardened rounds in its hole guide the file."""
    radius = positive_size(said)
    mouth, (x, y), deep = _place(station, said)
    angle = float(said.get("at", _nearer(station, x, y)))
    hole = _hole(station, mouth)
    outside = _outside(station, radius, (x, y), angle, deep)
    gone = (outside & station.piece.state.solid).volume
    if gone < 1e-3:
        words, rule = "no metal stands outside the buttons at that end", "a round end is filed from a longer one"
        raise MethodError(said.place, words, rule, "check radius, place and `at`", code="nothing-to-cut")
    long, spigot = max(LEAST_LONG, radius), max(0.5, deep / 2 - 0.5)
    top, under = (_button(station, mouth, radius, hole, side, long, spigot, deep=deep) for side in (1, -1))
    guide = Join(Joint.LOOSE, "button", (Part("button", top, "silver steel", 7.85e-3),), mouth.way, Sits())
    words = f"File the end round, R{dim(radius)} about ({dim(x)}, {dim(y)}), between two filing buttons"
    plan = Plan(
        words, [outside], CutData(), Sketch(0.0, deep, 2 * radius, hole, points=((x, y),), size=2 * radius),
        guide=guide, props=(under,), tool_words="file", handling=2.0, cautions=["filing"],
        by_hand=said.get("for", 5.0 + gone / FILED), feature=str(said.get("called", f"end R{number(radius)}")),
        makes=(Made("radius", radius), Made("width", 2 * radius)),
    )  # fmt: skip
    return plan.with_more(
        facts=[
            fact("button", "Two buttons, diameter", 2 * radius, "mm", "size", note=f"{dim(long)} {MM} long at least"),
            fact("button_spigot", "Spigot of each", hole, "mm", "size", note=f"close in the hole, {dim(spigot)} long"),
            told("button_made", "Made of", "silver steel, hardened and left hard: the file skates on them"),
            fact(
                "end_radius", "Radius that they give", radius, "mm", "size", note=f"the end looks to {degrees(angle)}"
            ),
        ],
        checks=_checks(station, said, radius, hole, (x, y), angle, deep),
    )


def _place(station: Station, said: Said) -> tuple[Mouth, tuple[float, float], float]:
    """The mouth of the hole, its place on the face, and the thickness of the work."""
    points = said.get("places")
    if len(points) != 1 or len(points[0]) != 2:
        words, rule = f"the buttons sit in one hole (got {len(points)})", "one place with two lengths"
        raise MethodError(said.where("places"), words, rule, "write a line for each end", code="wrong-value")
    mouth = read_mouths(station, Said(said.place, said.line, {"places": points}, said.texts)).all[0]
    return mouth, (float(points[0][0]), float(points[0][1])), station.depth_through


def _hole(station: Station, mouth: Mouth) -> float:
    """Diameter of the hole that stands at the mouth; 0 where there is none, or where it stands beside it."""
    way, spot = mouth.frame.rotation[:, 2].tolist(), mouth.frame.origin.tolist()
    found = [one.diameter for body in station.piece.bodies.values() for one in rounds(body.solid)
             if one.hole and one.axis.parallel(way) and one.axis.distance(spot) <= STEP]  # fmt: skip
    return min(found, default=0.0)


def _nearer(station: Station, x: float, y: float) -> float:
    """Degrees towards the nearer of the two ends of the longer side."""
    length, width, _ = station.block
    if length >= width:
        return 0.0 if length - x < x else 180.0
    return 90.0 if width - y < y else 270.0


def _outside(station: Station, radius: float, spot: tuple[float, float], angle: float, deep: float) -> Solid:
    """Everything on the end's side of its middle that lies outside the buttons."""
    length, width, _ = station.block
    reach = math.hypot(length, width) + CLEAR
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    corners = [(spot[0] + u * c - v * s, spot[1] + u * s + v * c)
               for u, v in ((0.0, -reach), (reach, -reach), (reach, reach), (0.0, reach))]  # fmt: skip
    half = station.prism(Outline(*corners), -CLEAR, deep + CLEAR)
    return half - station.prism(Outline.circle(spot, radius), -CLEAR - 1, deep + CLEAR + 1)


def _button(
    station: Station, mouth: Mouth, radius: float, hole: float, side: int, long: float, spigot: float, deep: float
) -> Solid:
    """One button, above (+1) or below (-1): a round with a spigot in the hole."""
    at, way = (0.0, -1.0) if side > 0 else (deep, 1.0)
    pin = max(hole / 2, 0.5)
    far, end = at + way * long, at - way * spigot
    outline = Outline((0.0, far), (radius, far), (radius, at), (pin, at), (pin, end), (0.0, end))
    return station.piece.kernel.revolve(outline, station.operation).moved(mouth.frame)


def _checks(
    station: Station, said: Said, radius: float, hole: float, spot: tuple[float, float], angle: float, deep: float
) -> list[Check]:
    line, checks = said.place.line, []
    if hole <= 0:
        words = f"no hole is there for the buttons at ({dim(spot[0])}, {dim(spot[1])})"
        return [judged("button", False, words, line, remedy="drill and ream the hole first")]
    wall = radius - hole / 2
    words = f"{dim(round(wall, 2))} {MM} of button stand round the spigot {dia(hole)}"
    checks.append(judged("button", wall >= LEAST_WALL - 1e-6, words, line, remedy="a smaller hole, or a larger radius"))
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    beside = [station.prism(Outline.circle((spot[0] - side * s * (radius + 0.5) + 0.3 * c,
                                            spot[1] + side * c * (radius + 0.5) + 0.3 * s), 0.2), 0.1, deep - 0.1)
              for side in (1.0, -1.0)]  # fmt: skip
    stands = any((one & station.piece.state.solid).volume > STEP for one in beside)
    words = "the end is wider than the buttons: a step stays beside them" if stands else "the round runs into the sides"
    remedy = f"mill the end {number(2 * radius)} mm wide first, or take larger buttons"
    checks.append(judged("button-step", not stands, words, line, remedy=remedy))
    return checks
