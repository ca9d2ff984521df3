"""A small handbook made by hand: two methods of one part, a third of another, two workshops; for tests of pages only.

The numbers are plausible, not worked out: nothing here checks the trade.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from methodsheets.formula.measure import Measure
from methodsheets.handbook.model import (
    BreakEven,
    Comparison,
    ComparisonRow,
    Counts,
    DividingCard,
    Drift,
    Entry,
    Experience,
    Handbook,
    HoldingCard,
    MachineCard,
    Needs,
    Options,
    Record,
    TimeLine,
    ToolCard,
    WorkshopCard,
)
from methodsheets.method.model import (
    Calculation,
    Caution,
    Check,
    Difference,
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
from methodsheets.reading.problem import Place, Problem, Severity

SMALL, LARGE = "osierbank-small", "osierbank-large"
NBSP = "\u202f"


def mm(value: float, digits: int = 2, kind: str = "length") -> Measure:
    """A length as both systems print it."""
    text = f"{value:.{digits}f}".rstrip("0").rstrip(".")
    inch = f"{value / 25.4:.3f}" if kind != "size" else f"{value / 25.4:.4f}"
    return Measure(value, "mm", kind, f"{text}{NBSP}mm", f"{inch}{NBSP}in")


def speed(value: int) -> Measure:
    return Measure(value, "1/min", "spindle_speed", f"{value}{NBSP}1/min", f"{value}{NBSP}1/min")


def cutting_speed(value: float) -> Measure:
    return Measure(value, "m/min", "cutting_speed", f"{value:g}{NBSP}m/min", f"{value * 3.281:.0f}{NBSP}ft/min")


def grams(value: float) -> Measure:
    return Measure(value, "g", "mass", f"{value:.0f}{NBSP}g", f"{value / 28.35:.1f}{NBSP}oz")


def minutes(value: float) -> Measure:
    return Measure(value, "min", "time", f"{value:g}{NBSP}min", f"{value:g}{NBSP}min")


def newtons(value: float) -> Measure:
    return Measure(value, "N", "force", f"{value:.0f}{NBSP}N", f"{value / 4.448:.0f}{NBSP}lbf")


def working_of_speed(v: float, d: float, n: int) -> Working:
    """The working of a spindle speed, with MathML."""
    fraction = "<mfrac><mi>v</mi><mrow><mi>π</mi><mo>⁢</mo><mi>d</mi></mrow></mfrac>"
    return Working(
        "n",
        "Spindle speed",
        f'<math alttext="n = v / (pi d)"><mi>n</mi><mo>=</mo>{fraction}</math>',
        f'<math alttext="n = {v} m/min / (pi {d} mm)"><mi>n</mi><mo>=</mo><mfrac><mrow><mn>{v}</mn><mtext> m/min</mtext></mrow>'
        f"<mrow><mi>π</mi><mo>·</mo><mn>{d}</mn><mtext> mm</mtext></mrow></mfrac></math>",
        f'<math alttext="= {n} 1/min"><mo>=</mo><mn>{n}</mn><mtext> 1/min</mtext></math>',
        f"n = v / (π d) = {v} m/min / (π · {d} mm) = {n} 1/min",
        "Definition of cutting speed",
        "exact",
        "At constant spindle speed the cutting speed falls to nothing at the centre when facing.",
    )


FAST = {SMALL: 1, LARGE: 1.25}


def _facts(workshop: str, n: int, v: float, d: float, feed: float, depth: float, tool: str) -> tuple[Fact, ...]:
    turned = int(n * FAST[workshop])
    return (
        Fact("spindle_speed", "Spindle speed", speed(turned), (working_of_speed(v, d, turned),), note="nearest step the lathe has"),
        Fact("feed", "Feed", mm(feed)),
        Fact("depth_of_cut", "Depth of cut", mm(depth)),
        Fact("cutting_speed", "Cutting speed", cutting_speed(round(v * FAST[workshop], 1))),
        Fact("from_diameter", "Starts at", Measure(d, "mm", "length", f"Ø{d:g}", f"Ø{d / 25.4:.3f}{NBSP}in")),
        Fact("power", "Power", Measure(0.1, "kW", "power", f"0.12{NBSP}kW", f"0.16{NBSP}hp")),
        Fact("tool", "Tool", tool),
    )


EYES = Caution("eyes", "Wear eye protection. Stop the spindle before you clear swarf, and use a hook or a brush, never a hand.")
PARTING = Caution(
    "parting",
    "Parting: blade at centre height and square, least overhang, slides locked, cut close to the chuck.",
)


def _passes(workshop: str, start: float, end: float, count: int) -> tuple[Pass, ...]:
    step = (start - end) / count
    made = []
    for index in range(1, count + 1):
        size = start - index * step
        reads = f"{step:.2f} in" if workshop == LARGE else f"{step / 2:.2f} in"
        made.append(Pass(str(index) if index < count else "finish", mm(size), mm(step / 2), reads))
    return tuple(made)


BORE_LIMIT = Limit(
    "bore", mm(16, 3, "size"), mm(16.018, 3, "size"), mm(16, 3, "size"), gauge="plug gauge", fit="16 H7"
)
SEAT_LIMIT = Limit(
    "seat",
    mm(16, 3, "size"),
    mm(16.039, 3, "size"),
    mm(16.028, 3, "size"),
    gauge="micrometer",
    fit="16 s6",
    make_to="bore measured ____ + 0.018 to 0.029",
    add_low=0.018,
    add_high=0.029,
    make_to_name="bore",
)


def _operations(workshop: str, slug: str) -> tuple[tuple[Operation, ...], ...]:
    face = Operation(
        10, "op-10-face", "face", "Face the end", "Face 0.5 off", 24, 2, "knife tool",
        _facts(workshop, 630, 25, 40, 0.1, 0.5, "knife tool, HSS"), cautions=(EYES,),
        checks=(Check("removes-metal", "passed", "The cut removes 0.63 cm³."), Check("reach", "passed", "The tool reaches 21 mm; it needs 20.5 mm.", tight=True)),
        cutting_minutes=0.4, handling_minutes=1.2, removed_cm3=0.63, mass_after=grams(142),
    )  # fmt: skip
    turn = Operation(
        20, "op-20-turn", "turn", "Turn to Ø38 over 13", "Turn to Ø38 over 13", 30, 3, "knife tool",
        _facts(workshop, 200, 25, 40, 0.1, 1.0, "knife tool, HSS"), _passes(workshop, 40, 38, 2),
        limits=(Limit("outside", mm(38), mm(38.1), mm(37.9), "calliper"),),
        checks=(Check("swing", "passed", "Swing over the cross-slide is 180 mm; the work needs 40 mm."),),
        cutting_minutes=1.3, handling_minutes=1.5, removed_cm3=1.6, mass_after=grams(130), notes=("Leave the corner sharp.",),
    )  # fmt: skip
    drill = Operation(
        30, "op-30-drill", "drill", "Drill Ø14 through", "Drill Ø14 through", 44, 5, "drill 14 mm",
        _facts(workshop, 400, 22, 14, 0.18, 7.0, "drill Ø14, HSS"), cutting_minutes=0.6, handling_minutes=2,
        removed_cm3=2.6, mass_after=grams(109), cautions=(EYES,),
    )  # fmt: skip
    bore = Operation(
        40, "op-40-bore", "bore", "Bore Ø16 through", "Bore to Ø16 through", 50, 6, "boring bar",
        (*_facts(workshop, 400, 20, 16, 0.08, 0.25, "boring bar Ø10"),
         Fact("overruled_speed", "Cutting speed asked", cutting_speed(18), overruled="25 m/min")),
        _passes(workshop, 16, 14, 3), (BORE_LIMIT,),
        checks=(Check("reach", "passed" if workshop == SMALL else "failed", "The bar reaches 40 mm; the bore is 12 mm deep."),),
        cutting_minutes=2.1, handling_minutes=4, removed_cm3=0.8, mass_after=grams(103),
        tables=(Table("Dial gauge round the turn", ("Jaw up", "Reading"), (("1", mm(0)), ("2", mm(3.2)), ("3", mm(12)), ("4", mm(3.2)))),),
    )  # fmt: skip
    plain = Operation(
        50, "op-50-turn", "turn", "Turn the seat", "Turn to Ø16 over 12", 62, 8, "knife tool",
        _facts(workshop, 630, 30, 18, 0.08, 0.5, "knife tool, HSS"), _passes(workshop, 18, 16, 2), (SEAT_LIMIT,),
        cutting_minutes=1.8, handling_minutes=3, removed_cm3=0.6, mass_after=grams(88), cautions=(EYES,),
    )  # fmt: skip
    part = Operation(
        60, "op-60-part-off", "part off", "Part off", "Part off at 62", 68, 9, "parting blade 2 mm",
        _facts(workshop, 200, 12, 18, 0.04, 2, "parting blade 2 mm"), cautions=(PARTING, EYES),
        cutting_minutes=1, handling_minutes=1.5, removed_cm3=0.5, mass_after=grams(87),
    )  # fmt: skip
    press = Operation(
        70, "op-70-press", "press in", "Press the disc on", "Press the disc on the seat, 12 long", 80, 11,
        facts=(Fact("force", "Press force, at most", newtons(7400)), Fact("force_min", "At least", newtons(4200))),
        handling_minutes=6, mass_after=grams(190),
        cautions=(Caution("pressing", "Keep hands clear of the press; parts can fly. Guard the work."),),
    )  # fmt: skip
    check = Operation(
        80, "op-80-check", "check", "Check the throw", "Check throw 6 ± 0.05", 86, 12,
        limits=(Limit("throw", mm(6), mm(6.05), mm(5.95), "dial gauge between centres"),), handling_minutes=2,
    )  # fmt: skip
    if slug == "eccentric-one-piece":
        return ((face, turn), (replace(bore, number=30, id="op-30-bore", block=5),), (replace(check, number=40, id="op-40-check", block=7),))
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
            Drawing(key, "setup", f"Set-up {index + 1}, to scale", f"{holdings[index]}, end A out", scheme=f"setup-{index + 1}")
        )
        setups.append(
            Setup(
                index + 1, f"setup-{index + 1}", f"Set-up {index + 1}", 20 + 18 * index, ((1, 4, 6) if slug == "eccentric-one-piece" else (1, 4, 7, 10))[index],
                "press" if index == 3 else "lathe", "Arbor press" if index == 3 else "Lathe", holdings[index],
                f"{holdings[index].capitalize()} on Ø40, grip 8, end A out" if index < 3 else "On the arbor press, spindle upright",
                facts=(
                    Fact("grip", "Grip", mm(8)),
                    Fact("stick_out", "Stick-out", mm(18.5)),
                    Fact("run_out", "Run-out of the holding", mm(0.06 if workshop == SMALL else 0.03)),
                ),
                checks=(
                    Check("grip", "passed", "The held surface is there: Ø40 over 8 mm."),
                    Check("spindle-bore", "not known", "The spindle bore is not given."),
                ),
                cautions=(Caution("chuck-key", "Take the chuck key out before the hand leaves it."),) if index < 3 else (),
                operations=operations, setting_minutes=12.0, figures=(key,),
            )
        )  # fmt: skip
    strip = f"{slug}--{workshop}--storyboard"
    drawings.append(Drawing(strip, "storyboard", "The route at a glance", "States of the work after each set-up", scheme="method"))
    one_piece = slug == "eccentric-one-piece"
    title = "Eccentric spindle, one piece" if one_piece else "Eccentric spindle, two pieces"
    cutting = sum(o.cutting_minutes for g in groups for o in g) / FAST[workshop]
    handling = sum(o.handling_minutes for g in groups for o in g)
    setting = 12.0 * len(groups)
    totals = Totals(
        5, cutting, handling, setting, cutting + handling + setting, 5 * (cutting + handling) + setting,
        grams(178), grams(190), 6.7, "bar Ø40 mm, 112 mm for 5", None, ("Lathe", "Arbor press"),
        holdings[: len(groups)], ("knife tool", "drill Ø14", "boring bar Ø10", "parting blade 2 mm"),
        (Fact("unbalance", "Unbalance", Measure(420, "g*mm", "unbalance", f"420{NBSP}g·mm", f"0.58{NBSP}oz·in")),),
    )  # fmt: skip
    calculations = (
        Calculation("throw", "half the stroke of the file", mm(6), (), Working("throw", plain="throw = 6 mm"), 12, 0),
        Calculation(
            "seat", "disc on spindle", "16 H7/s6",
            (("hole_upper", mm(16.018, 3, "size")), ("shaft_upper", mm(16.039, 3, "size"))),
            Working("seat", "disc on spindle", plain='seat = fit(bore, "H7/s6")', source="ISO 286-2, from memory", trust="table",
                    steps=(Working("shaft_upper", plain="es = 39 µm"),)), 13, 0,
        ),
        Calculation(
            "press", "", "press fit", (("force_max", newtons(7400)), ("torque_min", Measure(9, "N*m", "torque", f"9.1{NBSP}N·m", f"80{NBSP}lbf·in"))),
            Working("press", plain="press = press_fit(seat, …)", source="thick-walled cylinder theory", trust="estimate ±30 %"), 14, 0,
        ),
    )  # fmt: skip
    return Method(
        slug, f"methods/{slug}.md", title, "eccentric-spindle", workshop, name, "proven", "B", "2026-11-20",
        "The spindle that drives the file: a disc off centre on a plain shaft.", "EN1A", "round 40 mm x 18 mm", 5, f"digest-{slug}-{workshop}",
        calculations, tuple(setups), (Quote("press.force_max", 18, newtons(7400)), Quote("throw", 18, mm(6))), totals,
        (RunOutRow("journal", "eccentric", mm(0.09), mm(0.06), "three-jaw 0.06, turned end for end 0.03"),),
        (), (Check("intended-part", "passed", "The finished part is the intended part."),), (), tuple(drawings),
        ("material/en1a", "machine/lathe", "operation/bore"), ("16 H7/s6", "Ø16", "4 jaw", "EN1A"), workshop == SMALL,
        (("methodsheets", "0.1.0"),),
    )  # fmt: skip


def broken_method(workshop: str) -> Method:
    """A method with problems: an error at a block, a difference to the intended part, a failed check."""
    base = method("eccentric-one-piece", workshop)
    problem = Problem(
        Place("methods/clamp-block.md", 30, 7), "unknown key `dept` (got `dept: 1 mm`)", "the keys of an operation are fixed",
        "did you mean `depth`?", Severity.ERROR, "unknown-key",
    )  # fmt: skip
    return replace(
        base, slug="clamp-block", path="methods/clamp-block.md", title="Clamp block", part="clamp-block", status="draft",
        problems=(problem,), differences=(Difference(1, "left on", "A ring is left on at Ø38", 120.0, mm(0.5)),),
        checks=(Check("intended-part", "failed", "1 difference to the intended part"),),
        drawings=(), setups=base.setups[:1], calculations=(),
    )  # fmt: skip


SOURCE = {
    "eccentric-two-pieces": """---
method: Eccentric spindle, two pieces
part: eccentric-spindle
makes: 5
material: EN1A
stock: round 40 mm x 18 mm
workshop: osierbank-small
status: proven
---

The eccentric is a disc bored off centre and pressed on a plain spindle, see [the other way](eccentric-one-piece.md).

```calc
throw = 6 mm                       # half the stroke of the file
seat  = fit(16 mm, "H7/s6")        # disc on spindle
press = press_fit(seat, length=12 mm)
```

The disc goes on with about {{ press.force_max }}; the throw is {{ throw }}. In code `{{ throw }}` stays.

## Turn the disc

```setup
machine: lathe
hold: three-jaw chuck, on 40 mm, grip 8 mm, end A out
```

```op
face: 0.5 mm
```

```op
turn: to 38 mm, over 13 mm
```

## Bore it off centre

1. Pack one jaw:

    ```setup
    hold: four-jaw chuck, on 38 mm, grip 9 mm, end A out
    ```

2. then

    ```op
    drill: 14 mm, through
    ```

```op
bore: to 16 mm, through
speed: 18 m/min
```

## The spindle

```setup
hold: collet, on 18 mm, grip 25 mm
```

```op
turn: to 16 mm, over 12 mm
```

```op
part off: 62 mm
```

!!! note "Before pressing"

    Break the edges.

    ```setup
    machine: press
    ```

```op
press in: disc
```

```op
check: throw
```

This is how a block is written:

````markdown
```op
face: 1 mm
```
````
""",
    "eccentric-one-piece": """---
method: Eccentric spindle, one piece
part: eccentric-spindle
workshop: osierbank-small
---

From the solid.

## Turn

```calc
throw = 6 mm
```

```setup
hold: three-jaw chuck
```

```op
face: 0.5 mm
```

```op
turn: to 38 mm
```

## Offset

```setup
hold: four-jaw chuck
```

```op
bore: to 16 mm
```

```setup
hold: collet
```

```op
check: throw
```
""",
    "clamp-block": """---
method: Clamp block
part: clamp-block
workshop: osierbank-small
---

A block, begun.

```calc
a = 1 mm
```

```setup
hold: vice
```

```op
face: 0.5 mm
dept: 1 mm
```

```op
turn: to 38 mm
```
""",
}


def svg(key: str) -> str:
    """A stand-in for a drawing, with ids and colours as the real ones have."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 170 60" role="img" aria-labelledby="{key}-t {key}-d">'
        f'<title id="{key}-t">{key}</title><desc id="{key}-d">A stand-in drawing</desc>'
        '<path d="M10 10H60V50H10Z" fill="var(--ms-tint, #eee)" stroke="var(--ms-ink, currentColor)" stroke-width="0.5"/>'
        '<path d="M60 20H150V40H60Z" fill="none" stroke="var(--ms-ink, currentColor)" stroke-width="0.5"/>'
        '<path d="M5 30H160" stroke="var(--ms-ink, currentColor)" stroke-width="0.25" stroke-dasharray="8 1.5 1.5 1.5"/>'
        '<text x="100" y="15" font-size="4" fill="var(--ms-ink, currentColor)">stick-out 18.5</text></svg>'
    )


RECORDS = tuple(
    Record(f"2026-11-0{day}", "3", "eccentric-two-pieces", 40, "bore", day, 16.001 + 0.003 * day, 6.5, "", day + 1)
    for day in range(1, 6)
)
EXPERIENCE = Experience(
    "3", "2026-11-05", 1, None, 1.07, 95.0, 260.0, ((40, 6.1, 6.5),),
    (Drift(40, "bore", tuple((r.date, r.part_number, r.measured or 0.0) for r in RECORDS), 16.0, 16.018, 0.003, "upper", 0, 0),),
)  # fmt: skip


def _card(key: str, name: str, summary: str, speeds: tuple[float, ...], ranges: tuple[tuple[float, float], ...]) -> WorkshopCard:
    lathe = MachineCard(
        "lathe", "lathe", "Bench lathe", (("Power", Measure(0.37, "kW", "power", f"0.37{NBSP}kW", f"0.50{NBSP}hp")), ("Spindle bore", mm(20))),
        speeds, ranges, "0.05 to 0.3 mm",
    )  # fmt: skip
    chuck = HoldingCard("three-jaw", "three-jaw chuck", "Three-jaw chuck", (("Outside", "3 to 100 mm"), ("Run-out", mm(0.06))))
    drills = ToolCard("drills", "drill", "Drills", "HSS", (), (("1", 1.0), ("2", 2.0), ("14", 14.0)))
    knife = ToolCard("knife", "knife tool", "Knife tool", "HSS", (("Nose radius", mm(0.4)),))
    table = DividingCard("rotary", "Rotary table", 90, 4.0, 1 / 60, (("A", (15, 16, 17, 18)), ("B", (21, 23, 27))))
    return WorkshopCard(key, name, summary, "metric", f"methods/workshops/{key}.yml", (lathe,), (chuck,), (knife, drills), (table,), "coins")


def _comparison(workshop: str) -> Comparison:
    slugs = ("eccentric-one-piece", "eccentric-two-pieces")
    one, two = (method(slug, workshop).totals for slug in slugs)
    assert one is not None
    assert two is not None
    rows = (
        ComparisonRow("Holding", "Set-ups", ("3", "4"), True, 0),
        ComparisonRow("Holding", "Operations", ("4", "8"), True, 0),
        ComparisonRow("Time", "One part", (minutes(round(one.one_minutes)), minutes(round(two.one_minutes))), True, 0),
        ComparisonRow("Metal", "Metal removed", ("6.7 cm³", "6.7 cm³"), False),
        ComparisonRow("Trueness", "Journal to eccentric, worst", (mm(0.09), mm(0.05)), True, 1, "three-jaw chuck twice"),
        ComparisonRow("Proof", "Checks that fail", ("0", "0" if workshop == SMALL else "1"), workshop == LARGE, None if workshop == SMALL else 0),
    )  # fmt: skip
    each = [t.cutting_minutes + t.handling_minutes for t in (one, two)]
    lines = tuple(
        TimeLine(slug, title, t.setting_minutes, e)
        for slug, title, t, e in zip(slugs, ("one piece", "two pieces"), (one, two), each, strict=True)
    )
    return Comparison(
        "eccentric-spindle", workshop, "Eccentric spindle", slugs, ("Eccentric spindle, one piece", "Eccentric spindle, two pieces"),
        rows, (Needs("tools", ("knife tool",), ((), ("parting blade 2 mm",))), Needs("ways of holding", ("three-jaw chuck",), ((), ("press",)))),
        lines, (BreakEven(slugs[0], slugs[1], None, "One piece is quicker for any number of parts."),),
        tuple((f"{slug}--{workshop}--storyboard",) for slug in slugs), 5,
    )  # fmt: skip


def _draw(key: str, standalone: bool) -> str:
    return svg(key).replace("var(--ms-tint, #eee)", "#eee") if standalone else svg(key)


def handbook() -> Handbook:
    """The sample handbook."""
    shops = {
        SMALL: _card(SMALL, "Osierbank, small bench", "A hobby lathe with belt speeds.", (130, 200, 400, 630, 1000, 1600), ()),
        LARGE: _card(LARGE, "Osierbank, large bench", "A larger lathe, variable speed.", (), ((50, 2500),)),
    }  # fmt: skip
    entries = {}
    for slug in ("eccentric-two-pieces", "eccentric-one-piece", "clamp-block"):
        build = broken_method if slug == "clamp-block" else lambda key, slug=slug: method(slug, key)
        by = {key: build(key) for key in shops}
        recorded = slug == "eccentric-two-pieces"
        entries[slug] = Entry(
            slug, f"methods/{slug}.md", Path(f"methods/{slug}.md"), SOURCE[slug], SMALL, by, RECORDS if recorded else (),
            EXPERIENCE if recorded else None, f"methods/{slug}.md", by[SMALL].problems,
        )  # fmt: skip
    compared = {"eccentric-spindle": {key: _comparison(key) for key in shops}}
    problems = entries["clamp-block"].problems
    return Handbook(entries, shops, compared, problems, Counts(3, 2, 6), Options(Path(".")), _draw)
