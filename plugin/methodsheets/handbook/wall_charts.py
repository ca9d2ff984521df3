"""Which charts does a workshop pin on its wall? Speeds and feeds of its machines, its tapping drills, fits, dividing.

Everything goes by the machines and tools that are there: a speed is one the machine has, a drill one from the box.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from methodsheets.formula.display import measure
from methodsheets.formula.measure import Measure
from methodsheets.sheet.words import RECALLED
from methodsheets.trade.cutting.cutting import spindle_speed
from methodsheets.trade.cutting.cutting_data import recommended_feed, recommended_speed
from methodsheets.trade.dividing.dividing import divide
from methodsheets.trade.dividing.rotary_table import table_setting
from methodsheets.trade.fits.iso286 import limits
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.trade.form.rows import MEMORY, Taken, taking
from methodsheets.trade.threads.hole_making import clearance_drill
from methodsheets.trade.threads.tapping import full_thread
from methodsheets.trade.threads.thread_names import thread_size
from methodsheets.trade.threads.threads import thread
from methodsheets.vocabulary.tool import ToolKind
from methodsheets.workshop.machines import Machine
from methodsheets.workshop.model import Workshop

from .shop_cards import ChartCell, WallChart

MATERIALS = (
    ("free-cutting steel", "free-cutting steel"),
    ("mild steel", "mild steel"),
    ("medium carbon steel", "medium steel"),
    ("tool steel", "silver steel"),
    ("austenitic stainless", "stainless"),
    ("medium cast iron", "cast iron"),
    ("free-cutting brass", "brass"),
    ("phosphor bronze", "phosphor bronze"),
    ("aluminium alloy", "aluminium"),
)
"""Groups of materials that a workshop meets, and the short word at the head of the column."""

DIAMETERS = {
    "lathe": (3, 5, 6, 8, 10, 12, 16, 20, 25, 30, 40, 50, 60, 80, 100, 125, 150),
    "mill": (2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 40),
    "drill": (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 13),
}
INCH_DIAMETERS = {
    "lathe": (1 / 8, 3 / 16, 1 / 4, 3 / 8, 1 / 2, 5 / 8, 3 / 4, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6),
    "mill": (1 / 16, 1 / 8, 3 / 16, 1 / 4, 5 / 16, 3 / 8, 1 / 2, 5 / 8, 3 / 4, 1, 1.5),
    "drill": (1 / 32, 1 / 16, 3 / 32, 1 / 8, 3 / 16, 1 / 4, 5 / 16, 3 / 8, 7 / 16, 1 / 2),
}
"""Diameters on the charts, in mm and in inches."""
CUTS = {"lathe": "rough", "mill": "mill", "drill": "drill"}
WORK = {"lathe": "turning", "mill": "milling", "drill": "drilling"}
SIZE = {"lathe": "Diameter of the work", "mill": "Diameter of the cutter", "drill": "Diameter of the drill"}
FITS = ("H7", "H8", "f7", "g6", "h6", "h7", "js6", "k6", "m6", "n6", "p6", "r6", "s6")
"""Holes, then shafts from loose to tight."""
STEPS = (3.0, 6.0, 10.0, 18.0, 30.0, 50.0, 80.0)
"""mm: where the standard's ranges of size end, those to 50 mm undivided for these letters."""
TOO_FAST = 1.15
"""A lowest speed this much above the wanted one is marked; the methods' own check begins there too."""


def wall_charts(shop: Workshop) -> tuple[WallChart, ...]:
    """Every chart that this workshop has a use for."""
    found: list[WallChart] = []
    spindles = [one for one in shop.machines.values() if one.kind in CUTS and one.speeds.high > 0]
    found += [_speeds(one, shop.units) for one in spindles]
    found += [_turning_feeds(one) for one in spindles if one.sort.work_turns]
    if spindles:
        found.append(_drilling_feeds(spindles, shop.units))
    taps = _taps(shop)
    if taps is not None:
        found.append(taps)
    found.append(_fits(shop.units))
    found += list(_dividing(shop))
    return tuple(found)


_RECALLED_NOTE = f"{RECALLED} Rests on values from memory, not looked up: a place to start."


def _marked(words: str, taken: Sequence[Taken]) -> str:
    return f"{words} {RECALLED}" if any(row.trust == MEMORY for row in taken) else words


def _footnote(*marked: object) -> tuple[str, ...]:
    """The footnote, where something above is marked."""
    return (_RECALLED_NOTE,) if any(RECALLED in str(one) for one in marked) else ()


def _length(mm: float) -> Measure:
    return measure(mm, "length")


def _sizes(kind: str, units: str) -> list[tuple[float, ChartCell]]:
    """(mm, how it is written) of the diameters on a chart: inch workshops think in fractions."""
    if units == "inch":
        return [(d * 25.4, _fraction(d)) for d in INCH_DIAMETERS[kind]]
    return [(float(d), _length(float(d))) for d in DIAMETERS[kind]]


def _fraction(inches: float) -> str:
    whole, rest = divmod(Fraction(inches), 1)
    return " ".join([*([str(whole)] if whole else []), *([str(rest)] if rest else [])]) + "\u202fin"


# ------------------------------------------------------------------------------------------------ speeds and feeds
def _speeds(machine: Machine, units: str) -> WallChart:
    kind = machine.kind
    sizes = [one for one in _sizes(kind, units) if not machine.swing_over_bed or one[0] <= machine.swing_over_bed]
    wanted, heads = {}, []
    for group, words in MATERIALS:
        with taking() as taken:
            wanted[group] = recommended_speed(group, "hss", CUTS[kind], machine.coolant).value * machine.speed_factor
        heads.append(_marked(words, taken))
    rows = tuple((words, *(_speed(machine, spindle_speed(v, d)) for v in wanted.values())) for d, words in sizes)
    head: tuple[ChartCell, ...] = ("cutting speed", *(measure(v, "cutting_speed") for v in wanted.values()))
    return WallChart(
        key=f"speeds-{machine.key}",
        title=f"Spindle speeds for {WORK[kind]}: {machine.name}",
        lead="High-speed steel. Every number is a speed that this machine has, in turns a minute.",
        columns=(SIZE[kind], *heads),
        rows=(head, *rows),
        notes=(
            "! = the lowest speed there is, and still faster than wanted: take light cuts, or another machine.",
            "Carbide: two to four times as fast where the machine allows. Parting, threads and reaming: about half.",
            "The holder's own speed limit and anything out of balance come first: see the method.",
            *_footnote(*heads),
        ),
    )


def _speed(machine: Machine, wanted: float) -> str:
    setting = machine.speed_near(wanted)
    return f"{setting.value:.0f}" + (" !" if setting.state == "lowest" and setting.value > TOO_FAST * wanted else "")


def _turning_feeds(machine: Machine) -> WallChart:
    rows: list[tuple[ChartCell, ...]] = []
    for group, words in MATERIALS:
        row: list[ChartCell] = []
        with taking() as taken:
            for cut in ("rough", "finish", "bore", "part"):
                advice = recommended_feed(group, cut, machine=machine.duty)
                setting = machine.nearest_feed(advice.value * machine.feed_factor, across=cut == "part")
                row.append(measure(setting.value, "feed"))
        rows.append((_marked(words, taken), *row))
    return WallChart(
        key=f"feeds-{machine.key}",
        title=f"Feeds for turning: {machine.name}",
        lead="A turn of the work, tool nose 0.4 mm. Where the feed has steps, the nearest step; else by hand.",
        columns=("Material", "Roughing", "Finishing", "Boring", "Parting"),
        rows=tuple(rows),
        notes=(
            "Coarser if the machine bears it and the finish allows; a feed much finer rubs instead of cutting.",
            *_footnote(*(row[0] for row in rows)),
        ),
    )


def _drilling_feeds(machines: Sequence[Machine], units: str) -> WallChart:
    duty = max((one.duty for one in machines), key=("light", "medium", "heavy").index)
    feeds, heads = [], []
    for group, short in MATERIALS:
        with taking() as taken:
            advised = [recommended_feed(group, "drill", d, machine=duty).value for d, _ in _sizes("drill", units)]
        feeds.append([measure(feed, "feed") for feed in advised])
        heads.append(_marked(short, taken))
    rows = tuple((words, *column) for (_, words), *column in zip(_sizes("drill", units), *feeds, strict=True))
    return WallChart(
        key="feeds-drilling",
        title="Feeds for drilling",
        lead="A turn of the drill, high-speed steel.",
        columns=("Drill", *heads),
        rows=rows,
        notes=("Clear the chips when the hole is three diameters deep, then each diameter.", *_footnote(*heads)),
    )


# ------------------------------------------------------------------------------------------------ threads
def _taps(shop: Workshop) -> WallChart | None:
    names = [s.label or f"M{s.size:g}" for one in shop.tools.values() if one.kind is ToolKind.TAP for s in one.sizes]
    box = sorted((s.size, s.label) for one in shop.tools.values() if one.kind is ToolKind.DRILL for s in one.sizes)
    rows = []
    for name in dict.fromkeys(names):
        try:
            rows.append(_tap_row(name, box))
        except (NotInTable, OutOfRange):
            continue  # a tap of the owner's own naming is no reason to lose the chart
    if not rows:
        return None
    return WallChart(
        key="tapping",
        title="Tapping drills",
        lead="For the taps of this workshop. The drills are the nearest in its box.",
        columns=("Thread", "Outside", "Pitch", "Listed drill", "Drill here", "Thread left", "Clear, close", "free"),
        rows=tuple(rows),
        notes=(
            "Thread left: share of the full depth, 1.0825 pitches off the diameter being 100 % for 60° threads (ISO); "
            "by the British rule (1.2269) it reads less: 92 % is 82 %. Whitworth and BA: share of their own depth.",
            "65 to 75 % is plenty in steel and far less work for the tap than 90 %.",
            *_footnote(*(cell for row in rows for cell in row)),
        ),
    )


BINDS = 0.005
"""mm: a hole this much below the minor diameter is more than rounding, and the tap binds in it."""
NEAR = 0.5
"""Share of the full thread by which the drill in the box may be larger than the listed one."""


def _tap_row(name: str, box: Sequence[tuple[float, str]]) -> tuple[ChartCell, ...]:
    with taking() as taken:
        one, size = thread(name), thread_size(name)
    here: ChartCell = "none near"
    left: ChartCell = "–"
    fitting = [drill for drill in box if drill[0] >= one.minor - BINDS]
    near = min(fitting, key=lambda drill: abs(drill[0] - one.tap_drill), default=None)
    if near is not None and near[0] - one.tap_drill <= NEAR * (one.major - one.minor):
        here = near[1] or _length(near[0])
        left = f"{100 * (one.major - near[0]) / full_thread(size, 'iso'):.0f} %"
    close, free = (clearance_drill(name, fit).name for fit in ("close", "free"))
    pitch: ChartCell = f"{round(one.tpi):d} to the inch" if _whole(one.tpi) else _length(one.pitch)
    listed = _marked(one.tap_drill_name, taken)
    words = (one.name, _length(one.major), pitch, listed, here, left, close, free)
    return tuple(word.replace(" ", "\u00a0") if isinstance(word, str) else word for word in words)


def _whole(number: float) -> bool:
    return abs(number - round(number)) < 1e-6


# ------------------------------------------------------------------------------------------------ fits
def _fits(units: str) -> WallChart:
    rows = []
    low = 1.0
    for high in STEPS:
        middle = (low + high) / 2
        row: list[ChartCell] = [_range(low, high, units)]
        for name in FITS:
            found = limits(middle, name)
            row.append(_pair(found.upper_deviation, found.lower_deviation, units))
        rows.append(tuple(row))
        low = high
    unit = "0.0001 in" if units == "inch" else "µm"
    return WallChart(
        key="fits",
        title="Limits of holes and shafts",
        lead=f"ISO 286: how far above or below the nominal, upper / lower, in {unit}. H: holes; the others: shafts.",
        columns=("Size", *FITS),
        rows=tuple(rows),
        notes=(
            "In an H7 hole f7 runs, g6 slides, h6 locates, js6 and k6 are pushed or tapped on, m6 and n6 driven, "
            "p6 pressed, r6 and s6 pressed hard or shrunk.",
            "The nominal size decides the row; a fit's kind goes by the numbers at that size: work it out with fit().",
        ),
    )


def _range(low: float, high: float, units: str) -> str:
    ends = [f"{v / 25.4:.3f}" if units == "inch" else f"{v:g}" for v in (low, high)]
    return f"{'over ' if low > STEPS[0] - 1 else ''}{' to '.join(ends)}\u202f{'in' if units == 'inch' else 'mm'}"


def _pair(upper: float, lower: float, units: str) -> str:
    scale = 1e4 / 25.4 if units == "inch" else 1e3
    if abs(upper + lower) < 1e-9:
        return f"±{round(upper * scale, 1):g}"
    ends = ("0" if abs(v) < 1e-9 else f"{round(v * scale, 1):+g}".replace("-", "−") for v in (upper, lower))
    return "\u00a0/ ".join(ends)


# ------------------------------------------------------------------------------------------------ dividing
DIVISIONS = (*range(2, 41), 42, 44, 45, 48, 50, 52, 54, 56, 60, 64, 66, 70, 72, 75, 80, 84, 90, 96, 100, 120, 125, 127,
             144, 150, 180, 200, 250, 360)  # fmt: skip


def _dividing(shop: Workshop) -> Iterator[WallChart]:
    for table in shop.rotary_tables.values():
        circles = tuple(sorted({c for _, holes in table.plates for c in holes}))
        rows: list[tuple[ChartCell, ...]] = []
        for n in DIVISIONS:
            setting = table_setting(360 / n, table.ratio, table.finest or 1 / 60)
            row: list[ChartCell] = [str(n), setting.words]
            if circles:
                step = divide(n, table.ratio, circles=circles)
                turns = f"{step.turns} + " if step.turns else ""
                plain = f"{step.turns} turn{'' if step.turns == 1 else 's'}"
                row.append(f"{turns}{step.holes} on {step.circle}" if step.holes else plain)
                row.append("exact" if step.exact else f"{step.error_all_round * 60:+.1f}′ all round".replace("-", "−"))
            rows.append(tuple(row))
        columns: tuple[str, ...] = ("Divisions", "First division on the handle and its dial")
        if circles:
            columns += ("Turns + holes on circle", "Error")
        yield WallChart(
            key=f"dividing-{table.key}",
            title=f"Dividing on the {table.name}",
            lead=f"{table.ratio:g} turns of the handle go to one turn of the work.",
            columns=columns,
            rows=tuple(rows),
            notes=(
                "By the dial: reckon every position from the start (a method does), or the rounding adds up.",
                "By the plate: with an error all round, set each line to its nearest hole, or divide compound.",
                "Turn one way only, and lock the table for every cut.",
            ),
        )
