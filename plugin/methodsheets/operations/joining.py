"""What do the joining verbs add? Another piece, a pin, a joint: bodies that become part of the work."""

from __future__ import annotations

from dataclasses import replace

from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.change import Change

from .facts import judged
from .plan import CutData, Join, Plan, Sketch
from .say import MM, both, dia, dim, number
from .station import Station
from .verb import ANY, TURNING, verb
from .words import Clause, Said

FILM, CLOSE = 0.05, 0.02
"""mm³ that nominal shapes may share, and mm that they may stand apart, and still count as fitting exactly."""
PIECE = Clause("", "text", "name of a piece of this method, or of another method", True)
PLACE = (
    Clause("at", "length", "place of its face A, from the face that looks at you"),
    Clause("end", "text", "end of the other piece that goes in first: A or B"),
    Clause("turned", "angle", "angle of its 0° mark from ours"),
    Clause("offset", "length", "its own axis that comes to lie on ours, off its main axis"),
    Clause("offset at", "angle", "direction of that offset"),
    Clause("places", "points", "(x, y) of its axis on the face of a block"),
)
TIME = Clause("for", "minutes", "how long it takes", changes=(Change.TIME,))

HOW = {
    "press in": "pressed", "press on": "pressed", "shrink on": "shrunk", "shrink in": "shrunk",
    "silver-braze": "brazed", "braze": "brazed",
    "weld": "welded", "retain": "retained", "screw in": "screwed", "screw on": "screwed",
}  # fmt: skip
CAUTIONS = {
    "pressed": ["pressing"], "shrunk": ["hot"], "brazed": ["brazing", "hot"], "welded": ["welding", "hot"],
    "retained": ["retaining"],
    "screwed": [], "pinned": [],
}  # fmt: skip
MINUTES = {
    "pressed": 5.0,
    "shrunk": 10.0,
    "brazed": 25.0,
    "welded": 20.0,
    "retained": 6.0,
    "screwed": 2.0,
    "pinned": 3.0,
}
"""Minutes of handwork: common practice for one small joint, an estimate."""
SENTENCE = {
    "pressed": "Press",
    "shrunk": "Shrink",
    "brazed": "Silver-braze",
    "welded": "Weld",
    "retained": "Fix with retaining compound",
    "screwed": "Screw",
}


@verb(*HOW, frame=ANY, family="joining", first=PIECE, clauses=[*PLACE, TIME], tool="")
def join(station: Station, said: Said) -> Plan:
    """Join another piece to the work: press, shrink, braze, weld, retain or screw it in or on."""
    how, name = HOW[station.verb], str(said.get(""))
    body = station.other_piece(name, said)
    gap, overlap = station.seat(body.solid)
    if how == "screwed":
        overlap = 0.0  # threads are cut by convention: screw and nut share the height of the thread
    line = said.place.line
    meets = "close without overlap" if overlap < FILM else f"overlap by {both(overlap, 'volume')}"
    sits = "touches its seat" if gap < CLOSE else f"stands {dim(gap)} {MM} clear of the work"
    seated = True if gap < CLOSE else False if how in ("pressed", "shrunk") else None
    checks = [
        judged("overlap", overlap < FILM, f"the nominal sizes of {name} and the work {meets}", line),
        judged("seat", seated, f"{name} {sits}", line),
    ]
    at = said.get("at", 0.0)
    preposition = "in" if station.verb.endswith("in") else "on"
    words = f"{SENTENCE[how]} the {name} {preposition}" + (f", its face {dim(at)} from ours" if "at" in said else "")
    return Plan(
        words, must_cut=False, join=replace(body, how=how), checks=checks, cautions=list(CAUTIONS[how]), handling=1.0,
        by_hand=said.get("for", MINUTES[how]), sketch=Sketch(at, at + station.extent(body.solid),
            cut_words=number(at)), feature=name,
        tool_words={"pressed": "press", "shrunk": "hearth", "brazed": "hearth", "welded": "welder"}.get(how, ""),
    )  # fmt: skip


@verb(
    "pin",
    frame=TURNING,
    family="joining",
    first=Clause("", "length", "diameter of the pin", True),
    tool="hammer",
    clauses=[
        Clause("from face", "length", "distance of the pin from the face", True),
        Clause("at", "angle", "angle of the hole's mouth"),
        Clause("long", "length", "length of the pin", True),
        Clause("in", "length", "how far its end stands from the axis, at the mouth"),
        Clause("material", "text", "what the pin is made of"),
        Clause("called", "text", "name of the feature", changes=(Change.NAME,)),
        TIME,
    ],
)
def pin(station: Station, said: Said) -> Plan:
    """Drive a pin into a cross hole of the same size and place."""
    size, along, angle, long = said.length(""), said.length("from face"), said.get("at", 0.0), said.length("long")
    if size <= 0 or long <= 0:
        raise MethodError(
            said.place,
            "a pin has a diameter and a length",
            "both more than nothing",
            "check the sizes",
            code="wrong-value",
        )
    outer = said.get("in", station.swing(max(0.0, along - size / 2), along + size / 2))
    solid = station.across(size / 2, along, angle, outer, outer - long)[0]
    material = station.material_of(said.get("material", "silver steel"), said.where("material"))
    gap, overlap = station.seat(solid)
    driven = f"the pin is driven into {both(overlap, 'volume')} of metal: drill the hole first"
    meets = "pin and hole close without overlap" if overlap < FILM else driven
    hangs = "the pin touches its hole" if gap < CLOSE else f"the pin hangs {dim(gap)} {MM} clear"
    line = said.place.line
    checks = [judged("overlap", overlap < FILM, meets, line), judged("seat", gap < CLOSE, hangs, line)]
    name = str(said.get("called", "pin"))
    return Plan(
        f"Drive in the pin {dia(size)} × {dim(long)}, {dim(along)} from the face at {number(angle)}°",
        must_cut=False, checks=checks,
        join=Join("pinned", station.free_name(name), solid, material.name, material.density * 1e-6), handling=0.5,
        by_hand=said.get("for", MINUTES["pinned"]), cut=CutData(),
        sketch=Sketch(along - size / 2, along + size / 2, size, angles=(angle,), view="across"), feature=name,
        tool_words="hammer",
    )  # fmt: skip
