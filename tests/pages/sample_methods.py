"""Evaluated methods made by hand; the numbers are plausible, not worked out: nothing here checks the trade."""

from __future__ import annotations

from dataclasses import replace

from sample_measures import LARGE, NBSP, SMALL, cutting_speed, grams, mm, newtons, speed, working_of_speed

from methodsheets.formula.measure import Measure
from methodsheets.sheet.model import (
    Calculation,
    Caution,
    Check,
    Drawing,
    Fact,
    Limit,
    Method,
    Operation,
    Pass,
    Quote,
    RunOutRow,
    Setup,
    Table,
    Totals,
    Working,
)
from methodsheets.sheet.words import Words

FAST = {SMALL: 1, LARGE: 1.25}


def _facts(workshop: str, n: int, v: float, d: float, feed: float, depth: float, tool: str) -> tuple[Fact, ...]:
    turned = int(n * FAST[workshop])
    return (
        Fact(
            "spindle_speed",
            "Spindle speed",
            speed(turned),
            (working_of_speed(v, d, turned),),
            note=Words("nearest step the lathe has"),
        ),
        Fact("feed", "Feed", mm(feed * FAST[workshop])),
        Fact("depth_of_cut", "Depth of cut", mm(depth)),
        Fact("cutting_speed", "Cutting speed", cutting_speed(round(v * FAST[workshop], 1))),
        Fact("from_diameter", "Starts at", Measure(d, "mm", "length", f"Ø{d:g}", f"Ø{d / 25.4:.3f}{NBSP}in")),
        Fact("power", "Power", Measure(0.1, "kW", "power", f"0.12{NBSP}kW", f"0.16{NBSP}hp")),
        Fact("tool", "Tool", Words(tool)),
    )


EYES = Caution(
    "eyes", "Wear eye protection. Stop the spindle before you clear swarf, and use a hook or a brush, never a hand."
)
PARTING = Caution(
    "parting",
    "Parting: blade at centre height and square, least overhang, slides locked, cut close to the chuck.",
)


def _passes(workshop: str, start: float, end: float, count: int) -> tuple[Pass, ...]:
    """The passes; many of them have the longest words that dials, speeds and feeds come to."""
    step = (start - end) / count
    made = []
    for index in range(1, count + 1):
        size = start - index * step
        reads = f"{step:.2f} in" if workshop == LARGE else f"{step / 2:.2f} in"
        if count > 6:
            reads = f"{index + 10} turns + {step:.2f} mm"
        speed, feed = ("1250 1/min", "") if index == 3 and count > 6 else ("", "")
        if index == count > 6:
            speed, feed = "1820 1/min", "0.08 mm"
        name = str(index) if index < count else "finish"
        made.append(Pass(name, mm(size, 3), mm(step / 2), reads, "", speed, feed))
    return tuple(made)


BORE_LIMIT = Limit("bore", mm(16, 3, "size"), mm(16.018, 3, "size"), mm(16, 3, "size"), gauge="plug gauge", fit="16 H7")
SEAT_LIMIT = Limit(
    "seat",
    mm(16, 3, "size"),
    mm(16.039, 3, "size"),
    mm(16.028, 3, "size"),
    gauge="micrometer",
    fit="16 s6",
    make_to=Words("bore measured ____ + 0.018 to 0.029", "bore measured ____ + 0.0007 to 0.0011"),
    add_low=0.018,
    add_high=0.029,
    make_to_name="bore",
)


def _operations(workshop: str, slug: str) -> tuple[tuple[Operation, ...], ...]:
    face = Operation(
        10,
        "op-10-face",
        "face",
        Words("Face the end"),
        Words("Face 0.5 off"),
        24,
        2,
        "knife tool",
        _facts(workshop, 630, 25, 40, 0.1, 0.5, "knife tool, HSS"),
        cautions=(EYES,),
        checks=(
            Check("removes-metal", "passed", Words("The cut removes 0.63 cm³.")),
            Check("reach", "passed", Words("The tool reaches 21 mm; it needs 20.5 mm."), tight=True),
        ),
        cutting_minutes=0.4,
        handling_minutes=1.2,
        removed_cm3=0.63,
        mass_after=grams(142),
    )
    turn = Operation(
        20,
        "op-20-turn",
        "turn",
        Words("Turn to Ø38 over 13", "Turn to Ø1.496 over 0.512"),
        Words("Turn to Ø38 over 13", "Turn to Ø1.496 over 0.512"),
        30,
        3,
        "knife tool",
        _facts(workshop, 200, 25, 40, 0.1, 1.0, "knife tool, HSS"),
        _passes(workshop, 40, 20, 19),
        limits=(Limit("outside", mm(38), mm(38.1), mm(37.9), "calliper"),),
        checks=(Check("swing", "passed", Words("Swing over the cross-slide is 180 mm; the work needs 40 mm.")),),
        cutting_minutes=1.3,
        handling_minutes=1.5,
        removed_cm3=1.6,
        mass_after=grams(130),
        notes=(Words("Leave the corner sharp."),),
    )
    drill = Operation(
        30,
        "op-30-drill",
        "drill",
        Words("Drill Ø14 through"),
        Words("Drill Ø14 through"),
        44,
        5,
        "drill 14 mm",
        _facts(workshop, 400, 22, 14, 0.18, 7.0, "drill Ø14, HSS"),
        cutting_minutes=0.6,
        handling_minutes=2,
        removed_cm3=2.6,
        mass_after=grams(109),
        cautions=(EYES,),
    )
    bore = Operation(
        40,
        "op-40-bore",
        "bore",
        Words("Bore Ø16 through"),
        Words("Bore to Ø16 through"),
        50,
        6,
        "boring bar",
        (
            *_facts(workshop, 400, 20, 16, 0.08, 0.25, "boring bar Ø10"),
            Fact("overruled_speed", "Cutting speed asked", cutting_speed(18), overruled=Words("25 m/min", "82 ft/min")),
        ),
        _passes(workshop, 16, 14, 3),
        (BORE_LIMIT,),
        checks=(
            Check(
                "reach",
                "passed" if workshop == SMALL else "failed",
                Words("The bar reaches 40 mm; the bore is 12 mm deep."),
            ),
        ),
        cutting_minutes=2.1,
        handling_minutes=4,
        removed_cm3=0.8,
        mass_after=grams(103),
        tables=(
            Table(
                "Dial gauge round the turn",
                ("Jaw up", "Reading"),
                (("1", mm(0)), ("2", mm(3.2)), ("3", mm(12)), ("4", mm(3.2))),
            ),
        ),
    )
    plain = Operation(
        50,
        "op-50-turn",
        "turn",
        Words("Turn the seat"),
        Words("Turn to Ø16 over 12"),
        62,
        8,
        "knife tool",
        _facts(workshop, 630, 30, 18, 0.08, 0.5, "knife tool, HSS"),
        _passes(workshop, 18, 16, 2),
        (SEAT_LIMIT,),
        cutting_minutes=1.8,
        handling_minutes=3,
        removed_cm3=0.6,
        mass_after=grams(88),
        cautions=(EYES,),
    )
    part = Operation(
        60,
        "op-60-part-off",
        "part off",
        Words("Part off"),
        Words("Part off at 62"),
        68,
        9,
        "parting blade 2 mm",
        _facts(workshop, 200, 12, 18, 0.04, 2, "parting blade 2 mm"),
        cautions=(PARTING, EYES),
        cutting_minutes=1,
        handling_minutes=1.5,
        removed_cm3=0.5,
        mass_after=grams(87),
    )
    press = Operation(
        70,
        "op-70-press",
        "press in",
        Words("Press the disc on"),
        Words("Press the disc on the seat, 12 long"),
        80,
        11,
        facts=(Fact("force", "Press force, at most", newtons(7400)), Fact("force_min", "At least", newtons(4200))),
        handling_minutes=6,
        mass_after=grams(190),
        cautions=(Caution("pressing", "Keep hands clear of the press; parts can fly. Guard the work."),),
    )
    check = Operation(
        80,
        "op-80-check",
        "check",
        Words("Check the throw"),
        Words("Check throw 6 ± 0.05"),
        86,
        12,
        limits=(Limit("throw", mm(6), mm(6.05), mm(5.95), "dial gauge between centres"),),
        handling_minutes=2,
    )
    if slug == "eccentric-one-piece":
        return (
            (face, turn),
            (replace(bore, number=30, id="op-30-bore", block=5),),
            (replace(check, number=40, id="op-40-check", block=7),),
        )
    return ((face, turn), (drill, bore), (plain, part), (press, check))


def method(slug: str, workshop: str) -> Method:
    """One evaluated method for one workshop."""
    groups = _operations(workshop, slug)
    name = {SMALL: "Osierbank, small bench", LARGE: "Osierbank, large bench"}[workshop]
    holdings = ("three-jaw chuck", "four-jaw chuck", "collet", "press")
    setups = []
    drawings = []
    for index, operations in enumerate(groups):
        key = f"{slug}--{workshop}--setup-{index + 1}"
        drawings.append(
            Drawing(
                key,
                "setup",
                Words(f"Set-up {index + 1}, to scale"),
                f"{holdings[index]}, end A out",
                scheme=f"setup-{index + 1}",
            )
        )
        setups.append(
            Setup(
                index + 1,
                f"setup-{index + 1}",
                Words(f"Set-up {index + 1}"),
                20 + 18 * index,
                ((1, 4, 6) if slug == "eccentric-one-piece" else (1, 4, 7, 10))[index],
                "press" if index == 3 else "lathe",
                "Arbor press" if index == 3 else "Lathe",
                holdings[index],
                Words(
                    f"{holdings[index].capitalize()} on Ø40, grip 8, end A out",
                    f"{holdings[index].capitalize()} on Ø1.575, grip 0.315, end A out",
                )
                if index < 3
                else Words("On the arbor press, spindle upright"),
                facts=(
                    Fact("grip", "Grip", mm(8)),
                    Fact("stick_out", "Stick-out", mm(18.5)),
                    Fact("run_out", "Run-out of the holding", mm(0.06 if workshop == SMALL else 0.03)),
                ),
                checks=(
                    Check("grip", "passed", Words("The held surface is there: Ø40 over 8 mm.")),
                    Check("spindle-bore", "not known", Words("The spindle bore is not given.")),
                ),
                cautions=(Caution("chuck-key", "Take the chuck key out before the hand leaves it."),)
                if index < 3
                else (),
                operations=operations,
                setting_minutes=12.0,
                figures=(key,),
            )
        )
    strip = f"{slug}--{workshop}--storyboard"
    drawings.append(
        Drawing(
            strip, "storyboard", Words("The route at a glance"), "States of the work after each set-up", scheme="method"
        )
    )
    one_piece = slug == "eccentric-one-piece"
    title = "Eccentric spindle, one piece" if one_piece else "Eccentric spindle, two pieces"
    cutting = sum(o.cutting_minutes for g in groups for o in g) / FAST[workshop]
    handling = sum(o.handling_minutes for g in groups for o in g)
    setting = 12.0 * len(groups)
    totals = Totals(
        5,
        cutting,
        handling,
        setting,
        cutting + handling + setting,
        5 * (cutting + handling) + setting,
        grams(178),
        grams(190),
        6.7,
        Words("bar Ø40 mm, 112 mm for 5", "bar Ø1.575 in, 4.409 in for 5"),
        None,
        ("Lathe", "Arbor press"),
        holdings[: len(groups)],
        ("knife tool", "drill Ø14", "boring bar Ø10", "parting blade 2 mm"),
        (Fact("unbalance", "Unbalance", Measure(420, "g*mm", "unbalance", f"420{NBSP}g·mm", f"0.58{NBSP}oz·in")),),
    )
    calculations = (
        Calculation("throw", "half the stroke of the file", mm(6), (), Working("throw", plain="throw = 6 mm"), 12, 0),
        Calculation(
            "seat",
            "disc on spindle",
            "16 H7/s6",
            (("hole_upper", mm(16.018, 3, "size")), ("shaft_upper", mm(16.039, 3, "size"))),
            Working(
                "seat",
                "disc on spindle",
                plain='seat = fit(bore, "H7/s6")',
                source="ISO 286-2, from memory",
                trust="table",
                steps=(Working("shaft_upper", plain="es = 39 µm"),),
            ),
            13,
            0,
        ),
        Calculation(
            "press",
            "",
            "press fit",
            (
                ("force_max", newtons(7400)),
                ("torque_min", Measure(9, "N*m", "torque", f"9.1{NBSP}N·m", f"80{NBSP}lbf·in")),
            ),
            Working(
                "press",
                plain="press = press_fit(seat, …)",
                source="thick-walled cylinder theory",
                trust="estimate ±30 %",
            ),
            14,
            0,
        ),
    )
    return Method(
        slug,
        f"methods/{slug}.md",
        title,
        "eccentric-spindle",
        workshop,
        name,
        "proven",
        "B",
        "2026-11-20",
        "The spindle that drives the file: a disc off centre on a plain shaft.",
        "EN1A",
        Words("round 40 mm x 18 mm", "round 1.575 in x 0.709 in"),
        5,
        f"digest-{slug}-{workshop}",
        calculations,
        tuple(setups),
        (Quote("press.force_max", 18, newtons(7400)), Quote("throw", 18, mm(6))),
        totals,
        (RunOutRow("journal", "eccentric", mm(0.09), mm(0.06), Words("three-jaw 0.06, turned end for end 0.03")),),
        (),
        (Check("intended-part", "passed", Words("The finished part is the intended part.")),),
        (),
        tuple(drawings),
        ("material/en1a", "machine/lathe", "operation/bore"),
        ("16 H7/s6", "Ø16", "4 jaw", "EN1A", "3/8 in", "M6x1", *(() if one_piece else ("8 H7/g6", "ER32"))),
        workshop == SMALL,
        (("methodsheets", "0.1.0"),),
    )
