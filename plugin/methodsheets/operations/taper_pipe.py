"""How is a taper pipe thread cut on turned work: the cone that it stands on, its length, its depth?"""

from __future__ import annotations

import re

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Working
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.threads.taper_threads import TAPER, TaperThread, taper_thread
from methodsheets.vocabulary.process import Process

from .facts import fact, judged, told, worked
from .plan import CutData, Made, Plan, Sketch
from .say import MM, dim, number
from .station import Station
from .turned_work import CLEAR, inside_work
from .words import Said

SAME = 0.02
"""mm on the diameter within which the cone is there already."""
SHORT = 0.1
"""mm by which the cone may be longer or shorter than the useful thread."""


def read_taper(said: Said, *, inside: bool) -> tuple[TaperThread, Working]:
    """The thread that is named; MethodError where there is none, or where R is said inside or Rc outside."""
    name = str(said.get(""))
    try:
        found, working = worked(taper_thread, name)
    except NotInTable as error:
        rule, remedy = "taper pipe threads by ISO 7-1 and NPT", "write e.g. `R 1/2`, `Rc 1/2` or `1/2 NPT`"
        raise MethodError(said.where(""), str(error), rule, remedy, code="unknown-thread") from None
    letter = re.match(r"(?i)\s*(rc?)\s*\d", name)
    if letter and (letter.group(1).lower() == "rc") is not inside:
        words = f"{name} is an {'outside' if inside else 'inside'} thread"
        rule, remedy = "ISO 7-1: R is outside, Rc inside", f"write `{found.inside if inside else found.name}`"
        raise MethodError(said.where(""), words, rule, remedy, code="unknown-thread")
    return found, working


def taper_pipe(station: Station, said: Said) -> Plan:
    """An outside taper pipe thread from the face: the work is coned 1 in 16 and threaded, or run up with a die."""
    found, working = read_taper(said, inside=False)
    over, die = said.get("over", found.useful), bool(said.get("die"))
    inside_work(station, said, 0.0, over)
    end_size = found.small_end + over * TAPER
    swing = station.swing(0.0, over)
    if 2 * swing < end_size - 0.05:
        words = f"the work is {number(2 * swing)} mm there, too thin for {found.name} ({number(round(end_size, 2))} mm)"
        rule, remedy = "a taper thread is cut on its cone", "take larger stock or check the place"
        raise MethodError(said.where(""), words, rule, remedy, code="larger-than-work")
    near = (found.small_end - CLEAR * TAPER) / 2
    cone = Outline((near, -CLEAR), (swing + CLEAR, -CLEAR), (swing + CLEAR, over), (end_size / 2, over))
    core = found.small_end - 2 * found.depth
    coned = 2 * station.swing(0.0, 0.3) <= found.small_end + 0.3 * TAPER + SAME  # the cone was turned before
    plan = Plan(
        f"Cut taper thread {found.name} over {dim(over)}" + (" with a die" if die else ""),
        [] if coned else [station.turned(cone)],
        CutData(Process.DIE if die else Process.THREAD, end_size, 2 * swing, core, over + 4 * found.pitch,
            pitch=found.pitch, depth_of_thread=found.depth, slide="by hand" if die else "cross slide"),
        Sketch(0.0, over, end_size, 2 * swing, cut_words=number(over),
            diameter_words=found.name, size=found.depth),
        marks=station.outside_thread_lines(core / 2, 0.0, over), cautions=["tapping" if die else "thread"],
        tool_words="die" if die else "threading tool", tool_size=end_size, handling=4.0, must_cut=False,
        feature=str(said.get("called", f"thread {found.name}")), by_hand=2.0 if die else 0.0,
        reach_depth=0.0 if die else swing - core / 2, straight=False, tool_angle=found.angle, thread=found.name,
        makes=(Made("diameter", found.small_end, -0.5), Made("length", over)),
    )  # fmt: skip
    plan = plan.with_more(facts=[
        fact("half_angle", "Set the top slide to", found.half_angle, "deg", "angle", [], "", "1 in 16 on the diameter"),
        fact("pitch", "Pitch", found.pitch, "mm", "size", [working]),
        fact("thread_depth", "Depth of thread", found.depth, "mm", "size"),
        fact("small_end", "Diameter at the face", found.small_end, "mm", "size", [working]),
        told("gauge", "Gauge", f"a ring gauge or fitting runs on {dim(round(found.gauge, 1))} {MM} by hand"),
    ])  # fmt: skip
    words = f"{dim(over)} of the {dim(round(found.useful, 1))} {MM} of useful thread"
    return plan.with_more(checks=[judged("thread-end", over >= found.useful - SHORT, words, said.place.line,
                              remedy=f"thread {number(found.useful)} mm at least")])  # fmt: skip
