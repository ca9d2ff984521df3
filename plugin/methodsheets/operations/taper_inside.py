"""How is an inside taper pipe thread made: tapped in a drilled hole, or bored to its cone and cut with a tool?"""

from __future__ import annotations

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Check, Fact, Working
from methodsheets.trade.threads.taper_threads import TAPER, TaperThread
from methodsheets.vocabulary.process import Process

from .facts import fact, judged, told
from .places import Places
from .plan import CutData, Made, Plan, Sketch
from .say import MM, dia, dim, number
from .station import Station
from .taper_pipe import read_taper
from .turned_work import CLEAR, inside_work
from .words import Said

ENOUGH = 0.8
"""Share of the useful length of the outside thread that an inside one must have: ISO 7-1, from memory."""
PROUD = 0.05
"""Share of the thread's depth by which the hole may be larger than its minor diameter at the mouth."""


def taper_tap(station: Station, said: Said, start: float, end: float, through: bool, places: Places) -> Plan:
    """Tap a drilled hole with a taper tap: the hole stays at its drilled size in the solid."""
    found, working = read_taper(said, inside=True)
    if start:
        words, rule = "a taper thread begins at its face", "it is gauged from there"
        raise MethodError(said.where("from"), words, rule, "take `from` away", code="wrong-value")
    bottom = min(end, station.depth_through)
    there = 2 * station.hole_radius(places, 0.0, bottom)
    deep_words = "through" if through else f"{dim(end)} deep"
    plan = Plan(
        f"Tap {found.inside} {deep_words}{places.words()}", [],
        CutData(Process.TAP, found.gauge_major, there, found.gauge_major, end, holes=places.count, pitch=found.pitch,
            depth_of_thread=found.depth, slide="by hand", tool_turns=station.tool_turns),
        Sketch(0.0, end, found.gauge_major, there, through=through, radius=places.radius, angles=places.angles,
            points=places.points, divided=places.divided, cut_words="" if through else f"{number(end)} deep",
            diameter_words=found.inside, size=found.gauge_major),
        marks=station.thread_lines(places, found.gauge_major / 2, 0.0, bottom), must_cut=False, cautions=["tapping"],
        tool_words="tap", tool_size=found.gauge_major, thread=found.name, handling=1.0,
        feature=str(said.get("called", f"thread {found.inside}")),
        by_hand=0.5 * places.count + 0.2 * places.count * bottom / found.pitch,
    )  # fmt: skip
    return plan.with_more(
        facts=[*_facts(found, working), _drill(found, working)],
        checks=[_hole(found, there, said.place.line), _long(found, bottom, said.place.line)],
    )


def taper_inside(station: Station, said: Said, over: float | None) -> Plan:
    """Bore to the cone of the thread's crests and cut it with an inside threading tool."""
    found, working = read_taper(said, inside=True)
    over = over if over is not None else min(found.useful, station.length)
    inside_work(station, said, 0.0, over)
    mouth = found.gauge_major - 2 * found.depth
    there, bottom = 2 * station.bore_radius(over / 2), mouth - over * TAPER
    line = said.place.line
    if there <= 0 or there > mouth + PROUD * found.depth:
        words = f"the bore is {number(there)} mm, the thread's own bore {number(round(mouth, 2))} mm at its mouth"
        rule, remedy = "an inside taper thread is cut in the cone of its crests", f"bore to {number(found.drill)} mm"
        raise MethodError(said.where(""), words, rule, remedy, code="larger-than-work")
    near = (mouth + CLEAR * TAPER) / 2
    cone = Outline((0.0, -CLEAR), (near, -CLEAR), (bottom / 2, over), (0.0, over))
    plan = Plan(
        f"Cut taper thread {found.inside} inside over {dim(over)}", [station.turned(cone)],
        CutData(Process.THREAD, found.gauge_major, there, found.gauge_major, over + 4 * found.pitch, pitch=found.pitch,
            depth_of_thread=found.depth, slide="cross slide"),
        Sketch(0.0, over, found.gauge_major, there, cut_words=number(over), diameter_words=found.inside,
            size=found.depth),
        marks=station.thread_lines(Places(), found.gauge_major / 2, 0.0, over), must_cut=False, cautions=["thread"],
        tool_words="internal threading tool", tool_size=there, tool_angle=found.angle, thread=found.name, handling=4.0,
        inside=True, straight=False, feature=str(said.get("called", f"thread {found.inside}")), reach_depth=over,
        makes=(Made("diameter", mouth, 0.5), Made("length", over)),
    )  # fmt: skip
    return plan.with_more(
        facts=[
            fact(
                "half_angle",
                "Set the top slide to",
                found.half_angle,
                "deg",
                "angle",
                [],
                "",
                "1 in 16 on the diameter",
            ),
            fact("mouth", "Bore at the mouth", mouth, "mm", "size", [working]),
            *_facts(found, working),
        ],
        checks=[_long(found, over, line)],
    )


def _facts(found: TaperThread, working: Working) -> list[Fact]:
    """What the bench wants of the thread."""
    return [
        fact("pitch", "Pitch", found.pitch, "mm", "size", [working]),
        fact("thread_depth", "Depth of thread", found.depth, "mm", "size"),
        fact("gauge_length", "Gauge length", found.gauge, "mm", "size", [working]),
        told("gauge", "Gauge", f"go on until a fitting goes in {dim(round(found.gauge, 1))} {MM} by hand"),
    ]  # fmt: skip


def _drill(found: TaperThread, working: Working) -> Fact:
    note = "not reamed; a taper reamer 1 in 16 first makes the tap's work lighter and the thread full all along"
    return fact("tap_drill", "Drill for it", found.drill, "mm", "size", [working], note=note)


def _hole(found: TaperThread, there: float, line: int) -> Check:
    """The hole lies between the thread's bore where it ends and its bore at the mouth."""
    high = found.gauge_major - 2 * found.depth + PROUD * found.depth
    low = found.gauge_major - 2 * found.depth - found.useful * TAPER
    if there <= 0:
        words = f"there is no hole as deep as the thread {found.inside}"
    else:
        words = f"hole {dia(round(there, 2))} for {found.inside}; usual is {dia(found.drill)}"
    holds = low - 1e-6 <= there <= high + 1e-6
    return judged("tapping-drill", holds, words, line, remedy=f"drill {number(found.drill)} mm")


def _long(found: TaperThread, over: float, line: int) -> Check:
    least = ENOUGH * found.useful
    words = f"{dim(round(over, 2))} of thread; an outside one screws in up to {dim(round(found.useful, 1))} {MM}"
    remedy = f"thread {number(round(least, 1))} mm at least"
    return judged("thread-end", over >= least - 0.05, words, line, tight=over < found.useful - 0.05, remedy=remedy)
