"""What do the thread verbs make? Threads are marks and sizes: the solid carries the major diameter, or the hole."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Check
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.trade.threads.taper_threads import is_taper
from methodsheets.trade.threads.thread_limits import thread_limits
from methodsheets.trade.threads.thread_names import left_hand, of_starts, thread_size, thread_starts
from methodsheets.trade.threads.threads import Thread
from methodsheets.trade.threads.threads import thread as thread_table
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.process import Process
from methodsheets.vocabulary.tool import Hand

from .advice import tapping_checks, thread_facts
from .facts import judged, told
from .holes import DEEP, _depth, _hole_clauses, _places
from .places import Places
from .plan import CutData, Made, Plan, Sketch
from .say import dia, diameter, dim, number, plural
from .station import Station
from .taper_inside import taper_inside, taper_tap
from .taper_pipe import taper_pipe
from .turned_work import CALLED, CLEAR, FROM, INSIDE, OVER, as_groove, inside_work
from .verb import ANY, verb
from .words import Clause, Said

AT_THE_MOUTH = 0.2
"""mm from where a thread begins, in which its hole is looked for."""
RUN_SEEN = 12.0
"""mm behind a thread that are looked at for its run-out."""
NAME = Clause("", "thread", "name of the thread: M6, M12 x 1, 1/4-20 UNC, 2 BA", True)


def _thread(said: Said) -> Thread:
    try:
        thread_starts(str(said.get("")))
        return thread_table(str(said.get("")))
    except (NotInTable, OutOfRange, ValueError) as error:
        raise MethodError(
            said.where(""),
            f"no such thread (got `{said.get('')}`): {error}",
            "names as on the tap",
            "write e.g. `M6`, `M12 x 1`, `1/4-20 UNC`, `2 BA`, `1/4 BSF`",
            code="unknown-thread",
        ) from None


LEFT = Clause("left hand", "flag", "a left-hand thread, as `LH` behind its name says too", changes=(Change.WORDS,))
RUN_IN = 1.5
"""Pitches of room that a threading tool needs to begin in (common practice)."""


@dataclass(frozen=True)
class _Hand:
    """The hand of a thread, and what follows from it."""

    hand: Hand

    @classmethod
    def of(cls, said: Said) -> _Hand:
        """As its name or the clause says."""
        left = bool(said.get("left hand")) or left_hand(str(said.get("")))
        return cls(Hand.LEFT if left else Hand.RIGHT)

    @property
    def adverb(self) -> str:
        """'left-hand ', or nothing."""
        return "left-hand " if self.hand is Hand.LEFT else ""

    def name(self, thread: Thread) -> str:
        """'M12 LH'."""
        return f"{thread.name} LH" if self.hand is Hand.LEFT else thread.name

    def designation(self, thread: Thread, starts: int) -> str:
        """'Tr20x8(P4) LH': with the lead of several starts, as the part and the tool are asked for it."""
        title = of_starts(thread_size(thread.name), starts)
        return f"{title} LH" if self.hand is Hand.LEFT else title

    def drawn(self, thread: Thread, starts: int) -> str:
        """The same as a drawing has it; a thread whose name has no room for a lead says its starts beside it."""
        said = self.designation(thread, starts)
        return f"{said}, {starts} starts" if starts > 1 and said == self.name(thread) else said

    def carried_through(self, plan: Plan) -> Plan:
        """The plan with the hand on it: its tool, its feed, its sheet."""
        if self.hand is not Hand.LEFT:
            return replace(plan, hand=self.hand)
        by_hand = plan.cut.process.row.hand_turned
        how = "turn it anticlockwise to go in" if by_hand else "feed away from the chuck, spindle forward"
        plan = replace(plan, hand=self.hand, left_hand=not by_hand)
        return plan.with_more(facts=[told("hand", "Hand", f"left-hand: {how}")])


def _tap_clauses() -> tuple[Clause, ...]:
    """Those of a hole; how deep a tap goes shows in words and numbers, as the solid keeps the drilled hole."""
    sheet = (Change.WORDS, Change.PICTURE)
    return tuple(replace(c, changes=sheet) if c.says == DEEP.says else c for c in _hole_clauses(LEFT))


@verb("tap", frame=ANY, family="threads", first=NAME, clauses=_tap_clauses())
def tap(station: Station, said: Said) -> Plan:
    """Tap a drilled hole; the hole stays at its drilled size in the solid. Rc and NPT with a taper tap."""
    if is_taper(str(said.get(""))):
        depth = _depth(station, said)
        return taper_tap(station, said, depth.start, depth.end, depth.through, _places(station, said))
    thread, depth, places = _thread(said), _depth(station, said), _places(station, said)
    left, starts = _Hand.of(said), thread_starts(str(said.get("")))
    there = 2 * station.hole_radius(places, depth.start, min(depth.end, station.depth_through))
    plan = Plan(
        f"Tap {left.adverb}{left.name(thread)} {depth.words()}{places.words()}", [],
        CutData(Process.TAP, thread.major, there, thread.major, depth.end - depth.start, holes=places.count,
            pitch=thread.pitch,
                depth_of_thread=thread.depth, slide="by hand", tool_turns=station.tool_turns),
        Sketch(depth.start, depth.end, thread.major, there, through=depth.through, radius=places.radius,
            angles=places.angles, points=places.points, divided=places.divided,
               cut_words="" if depth.through else f"{number(depth.end)} deep",
               diameter_words=left.drawn(thread, starts), size=thread.major),
        marks=station.thread_lines(places, thread.major / 2, depth.start, min(depth.end, station.depth_through)),
        must_cut=False,
        cautions=["tapping"], tool_words="tap", tool_size=thread.major,
        thread=left.designation(thread, starts),
        feature=str(said.get("called", f"thread {left.name(thread)}")), handling=1.0,
        by_hand=0.5 * places.count + 0.1 * places.count * (min(depth.end,
            station.depth_through) - depth.start) / thread.pitch / 2,
    )  # fmt: skip
    plan = left.carried_through(plan)
    mouth = 2 * station.hole_radius(places, depth.start, depth.start + AT_THE_MOUTH)
    return plan.with_more(checks=tapping_checks(said.place.line, thread, there, mouth))


@verb(
    "thread",
    family="threads",
    first=NAME,
    clauses=[
        OVER,
        FROM,
        Clause(
            "die",
            "flag",
            "with a die instead of a screw-cutting tool",
            changes=(
                Change.WORDS,
                Change.NUMBERS,
            ),
        ),
        Clause("both sides", "flag", "the die is turned round at the end, so that it cuts up to the shoulder",
               changes=(Change.WORDS,)),
        Clause("starts", "count", "starts of a multi-start thread", changes=(Change.WORDS, Change.NUMBERS)),
        LEFT,
        INSIDE,
        CALLED,
    ],
)  # fmt: skip
def thread(station: Station, said: Said) -> Plan:
    """Cut a thread with a single point tool, outside or `inside` a bore, or with a die; R and NPT on a cone."""
    if is_taper(str(said.get(""))):
        inside = said.get("inside")
        return taper_inside(station, said, said.get("over")) if inside else taper_pipe(station, said)
    thread, start, left = _thread(said), said.get("from", 0.0), _Hand.of(said)
    over = said.get("over", station.length - start)
    inside_work(station, said, start, start + over)
    if said.get("inside"):
        return _inside_thread(station, said, thread, left, start, over)
    swing = station.swing(start, start + over)
    if 2 * swing < thread.major - 0.3 * thread.pitch - 0.05:
        sizes = f"got {number(2 * swing)} mm, major diameter {number(thread.major)} mm"
        words = f"the work is {diameter(2 * swing)} there, too thin for {thread.name} ({sizes})"
        rule, remedy = "a thread is cut on its major diameter", "turn it to size first or check the place"
        raise MethodError(said.where(""), words, rule, remedy, code="larger-than-work")
    major, begin, end = thread.major / 2, start if start else -CLEAR, start + over
    ring = Outline((major, begin), (swing + CLEAR, begin), (swing + CLEAR, end), (major, end))
    cutters = [station.turned(ring)] if swing > major + 1e-6 else []
    die, close = bool(said.get("die")), bool(said.get("both sides")) if said.get("die") else False
    starts = _starts(said) if not die else thread_starts(str(said.get("")))
    plan = Plan(
        f"Cut {left.adverb}{_many(starts)}thread {left.name(thread)} over {dim(over)}"
        + (" with a die" if die else "") + (", turned round for the last threads" if close else ""), cutters,
        CutData(Process.DIE if die else Process.THREAD, thread.major, 2 * swing, thread.core, over + 4 * thread.pitch,
            pitch=starts * thread.pitch, run_out=_run_out(station, end, thread), close_up=close, holes=starts,
                depth_of_thread=thread.depth, slide="by hand" if die else "cross slide"),
        Sketch(start, start + over, thread.major, 2 * swing, cut_words=number(over),
            diameter_words=left.drawn(thread, starts), size=thread.depth),
        marks=station.outside_thread_lines(thread.core / 2, start, start + over), must_cut=False,
        cautions=["tapping" if die else "thread"], tool_words="die" if die else "threading tool",
        tool_size=thread.major, handling=3.0,
        feature=str(said.get("called", f"thread {left.name(thread)}")), by_hand=1.5 if die else 0.0,
        reach_depth=0.0 if die else swing - thread.core / 2, makes=_over_wires(thread, die=die),
        tool_angle=thread.angle, thread=left.designation(thread, starts),
    )  # fmt: skip
    plan = plan.with_more(facts=thread_facts(station, thread, die=die, starts=starts))
    plan = left.carried_through(plan)
    if left.hand is Hand.LEFT and not die:
        plan = plan.with_more(checks=[_way_out(station, thread, end, said.place.line)])
    return plan


def _many(starts: int) -> str:
    return f"{starts}-start " if starts > 1 else ""


def _starts(said: Said) -> int:
    """How many threads run side by side: as the clause says, or the lead in the name."""
    named = thread_starts(str(said.get("")))
    starts = int(said.get("starts", named))
    if named not in (1, starts):
        words, rule = f"the name says {plural(named, 'start')}, and `starts` {starts}", "they are said once"
        raise MethodError(said.where("starts"), words, rule, "take `starts` away", code="contradiction")
    if not 1 <= starts <= 12:
        words, rule = f"a thread has one to twelve starts (got {starts})", "a whole number"
        raise MethodError(said.where("starts"), words, rule, "write e.g. `starts 2`", code="wrong-value")
    return starts


def _run_out(station: Station, end: float, thread: Thread) -> float:
    """Mm behind the end of an outside thread that the tool may run on: to a shoulder, through a groove, or free."""
    length = station.length
    if end >= length - 0.1 or station.swing(end + 0.05, length) <= thread.core / 2 + 0.05:
        return math.inf
    step, at = 0.25, end
    while at < min(length, end + RUN_SEEN) and station.swing(at + 0.02, at + step) <= thread.core / 2 + 0.05:
        at += step
    return at - end


def _inside_run_out(station: Station, end: float, there: float) -> float:
    """The same for an inside thread: free where the bore goes on through the work."""
    length, at = station.length, end
    while at < min(length, end + RUN_SEEN) and 2 * station.bore_radius(min(at + 0.15, length)) >= there - 0.05:
        at += 0.25
    return math.inf if at >= length else at - end


def _over_wires(thread: Thread, *, die: bool) -> tuple[Made, ...]:
    """What the thread measures over the best wires, with the limits of its usual class; nothing where not known."""
    try:
        found = thread_limits(thread.name)
    except (NotInTable, OutOfRange):
        return ()
    name = "6g" if thread.system.startswith("M") else "2A"
    by = (found.effective_min - thread.effective, found.effective_max - thread.effective, name)
    return (Made("over wires", thread.over_best_wire, 0.0 if die else -0.5, by_standard=by),)


def _inside_thread(station: Station, said: Said, thread: Thread, left: _Hand, start: float, over: float) -> Plan:
    """An inside thread in the lathe: the solid keeps the hole that it is cut in."""
    there, starts = 2 * station.bore_radius(start + over / 2), _starts(said)
    plan = Plan(
        f"Cut {left.adverb}{_many(starts)}thread {left.name(thread)} inside over {dim(over)}", [],
        CutData(Process.THREAD, thread.major, there, thread.major, over + 4 * thread.pitch,
                pitch=starts * thread.pitch, run_out=_inside_run_out(station, start + over, there), holes=starts,
                depth_of_thread=max(0.0, thread.major - there) / 2, slide="cross slide"),
        Sketch(start, start + over, thread.major, there, cut_words=number(over),
            diameter_words=left.drawn(thread, starts), size=thread.depth),
        marks=station.thread_lines(Places(), thread.major / 2, start, start + over), must_cut=False,
        cautions=["thread"],
        tool_words="internal threading tool", tool_size=there, handling=4.0, inside=True,
        feature=str(said.get("called", f"thread {left.name(thread)}")), reach_depth=start + over,
        tool_angle=thread.angle, thread=left.designation(thread, starts),
    )  # fmt: skip
    plan = plan.with_more(
        checks=tapping_checks(said.place.line, thread, there),
        facts=thread_facts(station, thread, die=False, starts=starts, inside=True),
    )
    return left.carried_through(plan)


def _way_out(station: Station, thread: Thread, end: float, line: int) -> Check:
    """A left-hand thread is cut from its inner end outwards: the tool must have a place to begin."""
    beyond = end + RUN_IN * thread.pitch
    there = 2 * station.swing(end + 0.05, min(beyond, station.length)) if end < station.length - 0.05 else 0.0
    if there <= thread.core + 1e-6:
        return judged("way-in", True, "the tool begins in the groove at the inner end and feeds outwards", line)
    words = f"a left-hand thread begins at its inner end: {dia(there)} stands there"
    wide, to = math.ceil(2 * RUN_IN * thread.pitch) / 2, math.floor(10 * thread.core) / 10
    remedy = f"write above this operation: {as_groove(end, end + wide, to)}"
    return judged("way-in", False, f"{words}; groove it to {dia(round(thread.core, 2))} first", line, remedy=remedy)
