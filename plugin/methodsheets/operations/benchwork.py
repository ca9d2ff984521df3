"""What do the bench verbs do? Sawing and filing take metal; marking out, deburring and hardening take time and care."""

from __future__ import annotations

from dataclasses import replace

from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.support import SPELLED, Support

from .places import read_angles
from .plan import CutData, Plan, Sketch
from .say import degrees, dim, number
from .setups import steady_place
from .standing import USUAL_STEADY
from .station import Station
from .turned_work import FROM, OVER, inside_work
from .verb import ANY, TURNING, VICE, verb
from .words import Clause, Said

KERF = 1.5
"""mm: usual kerf of a hacksaw or small bandsaw, common practice."""
NOTE = Clause("", "prose", "what to do, in the author's words", changes=(Change.WORDS,))
TIME = Clause("for", "minutes", "how long it takes", changes=(Change.TIME,))


@verb(
    "saw off",
    frame=ANY,
    family="bench",
    first=Clause("", "length", "length of the piece in front of the cut", True),
    clauses=[
        Clause("wide", "length", "width of the cut", apart=True),
        Clause("keep", "text", "front or back", apart=True),
    ],
)
def saw_off(station: Station, said: Said) -> Plan:
    """Saw square across the work; the piece in front of the cut is kept unless `keep back` is said."""
    at, kerf, keep = said.length(""), said.get("wide", KERF), said.get("keep", "front")
    if keep not in ("front", "back"):
        raise MethodError(
            said.where("keep"),
            f"`keep` names a piece (got `{keep}`)",
            "front or back",
            "write `keep front`",
            code="wrong-value",
        )
    if not 0 < at < station.depth_through:
        raise MethodError(
            said.place,
            f"the cut misses the work (got {number(at)} mm of {number(station.depth_through)} mm)",
            "lengths run from the face that looks at you",
            "check the length",
            code="too-long",
        )
    area = station.area_at(at)
    return Plan(
        f"Saw off {dim(at)} long", [station.slab(at, at + kerf)], CutData(Process.SAW, 0.0, 0.0, at, area, width=kerf),
        Sketch(at, at + kerf, cut_words=number(at), size=kerf), splits=True, keeps=keep, cautions=["sawing"],
        tool_words="saw",
        handling=1.0, by_hand=max(0.5, area / station.machine.sort.minute_area),
        face_moves=at + kerf if keep == "back" else 0.0, feature="sawn face",
    )  # fmt: skip


@verb(
    "saw out",
    frame=VICE,
    family="bench",
    clauses=[
        Clause("from", "points", "(x, y) of one corner", True, apart=True),
        Clause("to", "points", "(x, y) of the other corner", True),
        Clause("deep", "length", "depth from the upper face", says="the depth", apart=True),
        Clause("through", "flag", "right through", says="the depth", apart=True),
    ],
)
def saw_out(station: Station, said: Said) -> Plan:
    """Saw and drill out a rectangle of the upper face, from a corner to a corner."""
    (x0, y0), (x1, y1) = said.get("from")[0][:2], said.get("to")[0][:2]
    if not (x0 < x1 and y0 < y1):
        raise MethodError(
            said.where("to"),
            "the corners are the wrong way round",
            "from the near left to the far right",
            "swap them",
            code="wrong-value",
        )
    deep = station.depth_through + 1 if said.get("through") or "deep" not in said else said.length("deep")
    return Plan(
        f"Saw out {dim(x1 - x0)} × {dim(y1 - y0)}", [station.box(x0, y0, x1, y1, -1.0, deep)],
        CutData(Process.SAW, 0.0, 0.0, deep, 2 * (x1 - x0 + y1 - y0) * deep),
        Sketch(0, deep, box=(x0, y0, x1, y1, deep), cut_words=number(x1 - x0)),
        splits=False, cautions=["sawing"], tool_words="saw", handling=1.0,
        by_hand=max(1.0, 2 * (x1 - x0 + y1 - y0) * min(deep, 30) / 200.0),
        feature="sawn opening",
    )  # fmt: skip


@verb(
    "split",
    frame=TURNING,
    family="bench",
    clauses=[
        Clause("at", "angle", "direction of the cut, from the 0° mark"),
        Clause("wide", "length", "width of the cut"),
        Clause("keep", "text", "both, or the side to keep: left or right of the cut", apart=True),
        Clause("one side", "flag", "only from the axis outwards"),
        Clause("off axis", "length", "distance of the cut's plane from the axis"),
    ],
)
def split(station: Station, said: Said) -> Plan:
    """Slit the work lengthwise along a plane through its axis, or `off axis` beside it."""
    angle, kerf, keep = said.get("at", 0.0), said.get("wide", 1.0), said.get("keep", "both")
    if keep not in ("both", "left", "right"):
        raise MethodError(
            said.where("keep"),
            f"`keep` says which piece (got `{keep}`)",
            "both, left or right",
            "write `keep both`",
            code="wrong-value",
        )
    off = said.get("off axis", 0.0)
    swing, inner = station.swing(), 0.0 if said.get("one side") else -station.swing() - 2
    if abs(off) + kerf / 2 >= swing:
        words = f"the cut misses the work: {number(off)} mm off the axis, the work reaches {number(swing)} mm"
        raise MethodError(
            said.where("off axis"),
            words,
            "a saw cut meets the work",
            "bring it nearer to the axis",
            code="nothing-to-cut",
        )
    return Plan(
        f"Slit lengthwise at {degrees(angle)}, {dim(kerf)} wide" + (", one side" if said.get("one side") else "")
        + (f", {dim(off)} off the axis" if off else ""),
        [station.beam(angle, inner, swing + 2, kerf, start=-1.0, end=station.length + 1.0, off=off)],
        CutData(Process.SAW, 0.0, 0.0, 2 * swing, 2 * swing * station.length, width=kerf),
        Sketch(0, station.length, angles=(angle,), size=kerf, view="across"), splits=not said.get("one side"),
        keeps=keep, cautions=["sawing"],
        tool_words="slitting saw", handling=2.0, by_hand=max(1.0, 2 * swing * station.length / 300.0), feature="slit",
    )  # fmt: skip


@verb(
    "file",
    frame=ANY,
    family="bench",
    first=NOTE,
    clauses=[
        Clause("to", "length", "distance of the filed flat from the axis"),
        Clause("at", "angles", "angle of the flat"),
        replace(OVER, apart=True),
        FROM,
        TIME,
    ],
)
def file(station: Station, said: Said) -> Plan:
    """File by hand; with `to` it makes a flat at a distance from the axis."""
    if station.frame != TURNING or "to" not in said:
        return by_hand(said, "File", 2.0, "file", in_the_lathe(station))
    distance, start = said.length("to"), said.get("from", 0.0)
    over = said.get("over", station.length - start)
    inside_work(station, said, start, start + over)
    angles, _ = read_angles(said)
    swing = station.swing(start, start + over)
    return Plan(
        f"File a flat {dim(distance)} from the axis at {', '.join(degrees(a) for a in angles)}"
        + (f": {said.get('')}" if "" in said else ""),
        [station.half_space(distance, a, start, start + over) for a in angles], CutData(),
        Sketch(start, start + over, 2 * distance, 2 * swing, radius=distance, angles=angles, view="across",
            cut_words=number(over)),
        tool_words="file", handling=0.5, by_hand=said.get("for", 5.0 * len(angles)), feature="filed flat",
    )  # fmt: skip


def in_the_lathe(station: Station) -> list[str]:
    """The caution of handwork on work that turns."""
    return ["files"] if station.machine.sort.work_turns else []


def by_hand(said: Said, word: str, minutes: float, tool: str, cautions: list[str], words: str = "") -> Plan:
    """Handwork in the author's words: no metal goes."""
    told = said.get("", "")
    sentence = words or (f"{word}: {told}" if told else word)
    return Plan(
        sentence, must_cut=False, tool_words=tool, by_hand=said.get("for", minutes), handling=0.0, cautions=cautions
    )


@verb("deburr", frame=ANY, family="bench", first=NOTE, clauses=[TIME])
def deburr(station: Station, said: Said) -> Plan:
    """Take the burrs off; no size changes."""
    return by_hand(said, "Deburr", 1.0, "file", in_the_lathe(station))


@verb(
    "mark out",
    frame=ANY,
    family="bench",
    first=NOTE,
    clauses=[TIME, Clause("lines", "lengths", "lengths from the face of scribed rings", apart=True)],
)
def mark_out(station: Station, said: Said) -> Plan:
    """Mark out with scriber and square; `lines` scribes rings at lengths from the face of turned work."""
    plan = by_hand(said, "Mark out", 3.0, "scriber", [])
    for length in said.get("lines", ()) if station.frame == TURNING else ():
        if 0 <= length <= station.length:
            plan = plan.with_more(marks=[station.ring_line(length)])
    return plan


@verb("check", "measure", frame=ANY, family="inspect", first=NOTE, clauses=[TIME])
def check(station: Station, said: Said) -> Plan:
    """Measure before going on."""
    return by_hand(said, "Check", 1.0, "micrometer", [])


@verb(
    "support",
    frame=TURNING,
    family="inspect",
    first=Clause(
        "",
        "text",
        "tailstock centre, fixed steady, travelling steady, or none",
        True,
        choices=SPELLED,
        changes=(Change.WORDS,),
    ),
    clauses=[Clause("at", "length", "distance of the fixed steady from the face", changes=(Change.WORDS,))],
)
def support(station: Station, said: Said) -> Plan:
    """Bring up the tailstock centre or a steady; it stays for the operations that follow."""
    wanted: Support = said.get("")
    if "at" in said:
        steady_place(said, wanted, "at")
    words = f"Bring up the {wanted}" if wanted.there else "Take the support away"
    if wanted.row.place_of_its_own:
        at, about = (said.get("at"), "") if "at" in said else (USUAL_STEADY * station.stick_out, "about ")
        words += f", {about}{dim(round(at, 1))} from the face" if at else ""
    plan = Plan(words, must_cut=False, handling=1.0, supports=wanted, support_at=said.get("at"))
    if wanted.row.travels:
        words += ", its fingers on the turned diameter behind the tool"
        plan = replace(plan, words=words)
        plan = plan.with_more(cautions=["travelling-steady"])
    if wanted.row.centre:
        plan = plan.with_more(
            checks=[station.centre_hole_check(said.place.line)], cautions=[] if wanted.row.turns else ["dead-centre"]
        )
    return plan


@verb("clean", "assemble", "fit", "do", frame=ANY, family="bench", first=NOTE, clauses=[TIME])
def do(station: Station, said: Said) -> Plan:
    """Anything else by hand, in the author's words."""
    plan = by_hand(said, station.verb.capitalize(), 2.0, "", [])
    if station.verb == "do" and said.get(""):
        plan = replace(plan, words=str(said.get("")))
    return plan
