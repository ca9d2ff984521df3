"""What do the thread verbs make? Threads are marks and sizes: the solid carries the major diameter, or the hole."""

from __future__ import annotations

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.trade.threads.thread_limits import thread_limits
from methodsheets.trade.threads.threads import Thread
from methodsheets.trade.threads.threads import thread as thread_table
from methodsheets.vocabulary.process import Process

from .advice import tapping_checks, thread_facts
from .holes import _depth, _hole_clauses, _places
from .places import Places
from .plan import CutData, Made, Plan, Sketch
from .say import diameter, dim, number
from .station import Station
from .turned_work import CALLED, CLEAR, FROM, INSIDE, LEFT_HAND, OVER, inside_work
from .verb import ANY, verb
from .words import Clause, Said

AT_THE_MOUTH = 0.2
"""mm from where a thread begins, in which its hole is looked for."""
NAME = Clause("", "thread", "name of the thread: M6, M12 x 1, 1/4-20 UNC, 2 BA", True)


def _thread(said: Said) -> Thread:
    try:
        return thread_table(str(said.get("")))
    except (NotInTable, OutOfRange, ValueError) as error:
        raise MethodError(
            said.where(""),
            f"no such thread (got `{said.get('')}`): {error}",
            "names as on the tap",
            "write e.g. `M6`, `M12 x 1`, `1/4-20 UNC`, `2 BA`, `1/4 BSF`",
            code="unknown-thread",
        ) from None


@verb("tap", frame=ANY, family="threads", first=NAME, tool="tap", clauses=_hole_clauses())
def tap(station: Station, said: Said) -> Plan:
    """Tap a drilled hole; the hole stays at its drilled size in the solid."""
    thread, depth, places = _thread(said), _depth(station, said), _places(station, said)
    there = 2 * station.hole_radius(places, depth.start, min(depth.end, station.depth_through))
    plan = Plan(
        f"Tap {thread.name} {depth.words()}{places.words()}", [],
        CutData(Process.TAP, thread.major, there, thread.major, depth.end - depth.start, holes=places.count,
            pitch=thread.pitch,
                depth_of_thread=thread.depth, slide="by hand", tool_turns=station.tool_turns),
        Sketch(depth.start, depth.end, thread.major, there, through=depth.through, radius=places.radius,
            angles=places.angles, points=places.points, divided=places.divided,
               cut_words="" if depth.through else f"{number(depth.end)} deep", diameter_words=thread.name,
               size=thread.major),
        marks=station.thread_lines(places, thread.major / 2, depth.start, min(depth.end, station.depth_through)),
        must_cut=False,
        cautions=["tapping"], tool_words="tap", tool_size=thread.major, feature=f"thread {thread.name}", handling=1.0,
        by_hand=0.5 * places.count + 0.1 * places.count * (min(depth.end,
            station.depth_through) - depth.start) / thread.pitch / 2,
    )  # fmt: skip
    mouth = 2 * station.hole_radius(places, depth.start, depth.start + AT_THE_MOUTH)
    plan.checks += tapping_checks(said.place.line, thread, there, mouth)
    return plan


@verb(
    "thread",
    family="threads",
    first=NAME,
    tool="threading",
    clauses=[
        OVER,
        FROM,
        Clause("die", "flag", "with a die instead of a screw-cutting tool"),
        LEFT_HAND,
        INSIDE,
        CALLED,
    ],
)
def thread(station: Station, said: Said) -> Plan:
    """Cut a thread with a single point tool, outside or `inside` a bore, or with a die."""
    thread, start = _thread(said), said.get("from", 0.0)
    over = said.get("over", station.length - start)
    inside_work(station, said, start, start + over)
    if said.get("inside"):
        return _inside_thread(station, said, thread, start, over)
    swing = station.swing(start, start + over)
    if 2 * swing < thread.major - 0.3 * thread.pitch - 0.05:
        sizes = f"got {number(2 * swing)} mm, major diameter {number(thread.major)} mm"
        words = f"the work is {diameter(2 * swing)} there, too thin for {thread.name} ({sizes})"
        rule, remedy = "a thread is cut on its major diameter", "turn it to size first or check the place"
        raise MethodError(said.where(""), words, rule, remedy, code="larger-than-work")
    major, begin, end = thread.major / 2, start if start else -CLEAR, start + over
    ring = Outline((major, begin), (swing + CLEAR, begin), (swing + CLEAR, end), (major, end))
    cutters = [station.turned(ring)] if swing > major + 1e-6 else []
    die = bool(said.get("die"))
    plan = Plan(
        f"Cut thread {thread.name} over {dim(over)}" + (" with a die" if die else ""), cutters,
        CutData(Process.DIE if die else Process.THREAD, thread.major, 2 * swing, thread.core, over + 4 * thread.pitch,
            pitch=thread.pitch,
                depth_of_thread=thread.depth, slide="by hand" if die else "cross slide"),
        Sketch(start, start + over, thread.major, 2 * swing, cut_words=number(over), diameter_words=thread.name,
            size=thread.depth),
        marks=station.outside_thread_lines(thread.core / 2, start, start + over), must_cut=False,
        cautions=["tapping" if die else "thread"], tool_words="die" if die else "threading tool",
        tool_size=thread.major, handling=3.0,
        feature=str(said.get("called", f"thread {thread.name}")), by_hand=1.5 if die else 0.0,
        reach_depth=0.0 if die else swing - thread.core / 2, makes=_over_wires(thread, die=die),
    )  # fmt: skip
    plan.facts += thread_facts(station, thread, die=die)
    return plan


def _over_wires(thread: Thread, *, die: bool) -> tuple[Made, ...]:
    """What the thread measures over the best wires, with the limits of its usual class; nothing where not known."""
    try:
        found = thread_limits(thread.name)
    except (NotInTable, OutOfRange):
        return ()
    name = "6g" if thread.system.startswith("M") else "2A"
    by = (found.effective_min - thread.effective, found.effective_max - thread.effective, name)
    return (Made("over wires", thread.over_best_wire, 0.0 if die else -0.5, by_standard=by),)


def _inside_thread(station: Station, said: Said, thread: Thread, start: float, over: float) -> Plan:
    """An inside thread in the lathe: the solid keeps the hole that it is cut in."""
    there = 2 * station.bore_radius(start + over / 2)
    plan = Plan(
        f"Cut thread {thread.name} inside over {dim(over)}", [],
        CutData(Process.THREAD, thread.major, there, thread.major, over + 4 * thread.pitch, pitch=thread.pitch,
                depth_of_thread=max(0.0, thread.major - there) / 2, slide="cross slide"),
        Sketch(start, start + over, thread.major, there, cut_words=number(over), diameter_words=thread.name,
            size=thread.depth),
        marks=station.thread_lines(Places(), thread.major / 2, start, start + over), must_cut=False,
        cautions=["thread"],
        tool_words="internal threading tool", tool_size=there, handling=4.0, inside=True,
        feature=str(said.get("called", f"thread {thread.name}")), reach_depth=start + over,
    )  # fmt: skip
    plan.checks += tapping_checks(said.place.line, thread, there)
    plan.facts += thread_facts(station, thread, die=False)
    return plan
