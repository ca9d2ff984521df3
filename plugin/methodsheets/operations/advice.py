"""What does the handbook add to a verb's plan: dividing tables, settings of tapers and threads, checks of holes?"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from methodsheets.formula.measure import Measure
from methodsheets.sheet.model import Check, Fact, Table
from methodsheets.trade.dividing.dividing import divide_angle
from methodsheets.trade.dividing.rotary_table import table_setting
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.trade.threads.screw_cutting import change_gears
from methodsheets.trade.threads.thread_measuring import thread_over_wires
from methodsheets.trade.threads.threads import Thread
from methodsheets.workshop.dividing import RotaryTable

from .facts import fact, judged, length_measure, measure_of, told, worked
from .places import Places, coordinates
from .say import MM, both, dia, dim, number
from .station import Station

LEAST_REAM, MOST_REAM = 0.05, 0.5
"""mm on the diameter that a reamer takes: published and usual values run from 0.1 to 0.5 mm by size."""


def dividing_tables(station: Station, places: Places) -> list[Table]:
    """Where each hole lies, and what the rotary table's handle reads for it."""
    if places.points:
        return [_from_the_corner(station, places)]
    if places.count < 1 or (places.count == 1 and not places.divided and places.radius == 0):
        return []
    columns, rows = ["No."], []
    if places.radius:
        columns += ["Angle", "x", "y"]
    else:
        columns += ["Angle"]
    dial = station.table
    if dial:
        columns.append(f"Handle of the {dial.name}")
    for i, (angle, x, y) in enumerate(coordinates(places)):
        row: list[Any] = [str(i + 1), measure_of(angle % 360.0, "deg", "angle")]
        if places.radius:
            row += [length_measure(x, "size"), length_measure(y, "size")]
        if dial:
            row.append(handle_words(dial, angle % 360.0))
        rows.append(tuple(row))
    return [Table("Positions", tuple(columns), tuple(rows[:120]))]


def _from_the_corner(station: Station, places: Places) -> Table:
    """Every place on a block, from the corner that both lengths are counted from, and what the dials read there."""
    dials = [dial for slide in ("x", "y") if (dial := station.machine.dial(slide))] if station.tool_turns else []
    dials = dials if len(dials) == 2 else []
    rows: list[tuple[Measure | str, ...]] = []
    for i, point in enumerate(places.points, 1):
        read = (dial.for_travel(place).words for place, dial in zip(point, dials, strict=False))
        rows.append((str(i), *(length_measure(place, "size") for place in point), *read))
    title = "Positions: (0, 0) is the corner at the left, towards you"
    reads = ("Dial x", "Dial y") if dials else ()
    return Table(title, ("No.", "x, to the right", "y, away from you", *reads), tuple(rows))


def handle_words(table: RotaryTable, angle: float) -> str:
    """'12 turns and 2° 30′' on the handle for an angle of the table; '6 turns and 10 of 15' on a dividing plate."""
    if not table.finest and table.holes:
        if angle < 1e-6:
            return "0 turns"
        step = divide_angle(angle, table.ratio, circles=tuple(float(count) for count in table.holes))
        return f"{step.turns} turns" + (f" and {step.holes} of {step.circle}" if step.holes else "")
    return table_setting(angle, table.ratio, table.finest or 1 / 60).words


def repeat_checks(line: int, places: Places, size: float) -> list[Check]:
    """Whether the holes of one operation run into each other."""
    spots = list(places.points) or [(x, y) for _, x, y in coordinates(places)]
    if len(spots) < 2:
        return []
    least = min(math.dist(a, b) for i, a in enumerate(spots) for b in spots[i + 1 :])
    if least >= size - 1e-9:
        return []
    words = f"the holes {dia(size)} overlap: the nearest two lie {dim(round(least, 2))} {MM} apart"
    return [judged("repeat", False, words, line)]


def reaming_checks(line: int, size: float, there: float) -> list[Check]:
    """Whether the hole leaves the reamer enough and not too much."""
    if there <= 0:
        return [judged("reaming-allowance", False, f"there is no hole to ream to {dia(size)}: drill it first", line)]
    left = size - there
    words = f"{dim(left)} on the diameter for the reamer"
    most = MOST_REAM if size > 10 else 0.3 if size > 5 else 0.25
    return [judged("reaming-allowance", LEAST_REAM - 1e-6 <= left <= most + 1e-6, words, line)]


def tapping_checks(line: int, thread: Thread, there: float, mouth: float = 0.0) -> list[Check]:
    """Whether the hole suits the thread: engagement by the ISO overlap, 50 to 90 % (common practice).

    Parameters:
        there: [mm] diameter of the hole over the whole depth of the thread; 0 where it ends before the thread does
        mouth: [mm] the same at its mouth; 0 where there is none at all
    """
    if there <= 0 and mouth > 0:
        words = f"the hole {dia(mouth)} ends before the thread {thread.name} does"
        remedy = "drill deeper than the thread, by two pitches at least, or tap less deep"
        return [judged("tapping-drill", False, words, line, remedy=remedy)]
    if there <= 0:
        words = f"there is no hole to tap {thread.name}: drill {dim(thread.tap_drill)} {MM} first"
        return [judged("tapping-drill", False, words, line, remedy=f"drill {number(thread.tap_drill)} mm")]
    if there >= thread.major:
        words = f"the hole {dia(there)} is as large as the thread {thread.name}: nothing is left to cut it in"
        return [judged("tapping-drill", False, words, line, remedy=f"drill {number(thread.tap_drill)} mm")]
    height = (thread.major - there) / 2
    share = height / (0.5 * (thread.major - thread.minor)) if thread.major > thread.minor else 0.0
    height_words = f"{100 * share:.0f} % of the thread's height (overlap on the nominal minor diameter)"
    words = f"hole {dia(there)} for {thread.name}: {height_words}"
    return [judged("tapping-drill", 0.5 <= share <= 1.02, words, line, tight=share > 0.97)]


def taper_facts(station: Station, half: float, near: float, far: float, over: float) -> list[Fact]:
    """Setting of the top slide, and set-over of the tailstock where the work is long."""
    facts = [fact("half_angle", "Set the top slide to", half, "deg", "angle", [], "", "half the included angle")]
    rate = abs(far - near) / over if over else 0.0
    if rate:
        facts.append(told("taper_rate", "Taper", f"1 in {1 / rate:.3g} on the diameter", desk=True))
    if station.held_up.centre.there:
        over_all = station.length
        facts.append(
            fact(
                "set_over",
                "Or set the tailstock over by",
                over_all * rate / 2,
                "mm",
                "size",
                [],
                "",
                "on the whole length between centres",
            )
        )
    return facts


def _over_wires(thread: Thread) -> list[Fact]:
    """What to read over three wires; nothing for a form that has no such measurement."""
    try:
        wires, working = worked(thread_over_wires, thread.name)
    except (NotInTable, OutOfRange):
        return []
    note = f"wires of {dim(wires.wire)} {MM}" + (f"; {wires.note}" if wires.note else "")
    return [fact("over_wires", "Over three wires", wires.over, "mm", "size", [working], "", note)]


def thread_facts(station: Station, thread: Thread, *, die: bool, starts: int = 1, inside: bool = False) -> list[Fact]:
    """Depth, core and, for single-point cutting, the measurement over wires and the change wheels."""
    facts = [
        fact("pitch", "Pitch", thread.pitch, "mm", "size"),
        fact("thread_depth", "Depth of thread", thread.depth, "mm", "size"),
        fact("core", "Core diameter", thread.core, "mm", "size"),
    ]  # fmt: skip
    if die:
        return facts
    if not inside:  # wires lie in the grooves of an outside thread
        facts += _over_wires(thread)
    if starts > 1:
        lead = starts * thread.pitch
        facts.append(fact("lead", "Lead", lead, "mm", "size", [], "", f"{starts} starts, one pitch apart"))
        how = f"set the top slide along the work and go on by one pitch, {dim(thread.pitch)} {MM}, for the next start"
        facts.append(
            told("next_start", "From start to start", how, (), "or turn the first wheel by its teeth over the starts")
        )
    facts += _wheels(station, replace(thread, pitch=starts * thread.pitch))
    return facts


def _wheels(station: Station, thread: Thread) -> list[Fact]:
    """The gear box's own pitch, or change wheels that come near enough; nothing where neither is known."""
    machine = station.machine
    if any(abs(pitch - thread.pitch) < 1e-6 for pitch in machine.threads):
        return [told("gear_box", "Gear box", f"pitch {dim(thread.pitch)} {MM}")]
    if not machine.leadscrew or not machine.change_wheels:
        return []
    try:
        wheels = tuple(float(teeth) for teeth in machine.change_wheels)
        train, working = worked(change_gears, thread.pitch, machine.leadscrew, wheels)
    except (NotInTable, OutOfRange):
        return []
    note = "" if abs(train.error) < 1e-6 else f"{both(train.error_per_25, 'deviation')} in {dim(25)} {MM}"
    return [told("wheels", "Change wheels", train.words, [working], note)]
