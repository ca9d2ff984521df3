"""What is wrong with a method, and what is told: front matter, stock, set-ups and the first of the operations."""

from __future__ import annotations

from tests.method.bench import THREE_JAW, block, method

H = THREE_JAW
B = "plate 60 mm x 40 mm x 25 mm"
VICE = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
FIRST = [
    (
        "unknown key in an operation",
        method(H + block("op", "turn: to 30 mm, over 10 mm", "dept: 1 mm")),
        "sample.md:15:1: unknown key `dept` in the operation; an operation is one verb and its keys; did you mean `depth`?",
    ),
    (
        "unknown key in a set-up",
        method(block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm", "tool: knife")),
        "sample.md:11:1: unknown key `tool` in the set-up; known: `caution`, `hold`, `machine`, `material`, `note`, `piece`, `stock`, `time`, `title`",
    ),
    (
        "unknown verb",
        method(H + block("op", "tern: to 30 mm, over 10 mm")),
        "sample.md:14:1: unknown key `tern` in the operation; an operation is one verb and its keys; did you mean `turn`?",
    ),
    (
        "no verb",
        method(H + block("op", "depth: 1 mm")),
        "sample.md:13:1: the operation has no verb; an operation is one verb and its keys; write e.g. `turn: to 38 mm, over 13 mm`",
    ),
    (
        "two verbs",
        method(H + block("op", "turn: to 30 mm, over 10 mm", "face: 1 mm")),
        "sample.md:15:1: two verbs in one operation: `turn` and `face`; an operation is one verb and its keys; write a block for each",
    ),
    (
        "unknown name",
        method(H + block("op", "turn: to journl, over 10 mm")),
        "sample.md:14:10: unknown name `journl`; names come from the lines of `calc` blocks above; give it in a calc block",
    ),
    (
        "unknown material",
        method(H + block("op", "face: 1 mm"), material="EN1B9"),
        "sample.md:3:11: no such material (got `EN1B9`); materials are named as in the table; did you mean EN19, EN19T, EN19A?",
    ),
    (
        "unknown machine",
        method(
            block("setup", "machine: planer", "hold: three-jaw chuck, on 40 mm, grip 15 mm") + block("op", "face: 1 mm")
        ),
        "sample.md:9:10: no such machine in Osierbank, the small shop (got `planer`); machines are listed in the workshop's file; known: `bench`, `drill`, `hearth`, `lathe`, `mill`, `press`, `saw`",
    ),
    (
        "unknown tool",
        method(H + block("op", "turn: to 30 mm, over 10 mm", "tool: laser")),
        "sample.md:15:7: this workshop has no such tool (got `laser`); tools are listed in the workshop's file; known are for instance `60 degree dovetail cutter`, `90 degree cutter`, `T-slot cutter 12.5 mm`, `bore gauge`, `boring bar`, `boring bar 10 mm`, `boring bar 6 mm`, `broach`, `broaches`, `caliper`, `centre drill`, `centre drills`, `centre punch`, `chamfering tool`, `clamp knurling tool, 1 mm diamond`, `counterbore`, `counterbores for cap screws`, `countersink`, `countersink 90 degrees`, `deburring tool`, `depth micrometer`, `dial indicator`, `die`, `dies`, …",
    ),
    (
        "unknown unit",
        method(H + block("op", "turn: to 30 mm, over 10 parsnips")),
        "sample.md:14:25: unknown unit `parsnips`; a unit follows a number; a product is written with `*`; known are for instance `GPa`, `HB`, `J`, `K`, `L`, `MPa`, `N`, `Nm`, `Nmm`, `Pa`, `W`, `arcmin`, `arcsec`, `bar`, `cc`, `cm`, `deg`, `degC`, `degF`, `degree`, `degrees`, `delta_degC`, `delta_degF`, `feet`, …",
    ),
    (
        "wrong dimension",
        method(H + block("op", "turn: to 30 kg, over 10 mm")),
        "sample.md:14:10: `30 kg` is a length (got 30 kg, a mass); give it in mm",
    ),
    (
        "bare number",
        method(H + block("op", "turn: to 30, over 10 mm")),
        "sample.md:14:10: `30` is a length (got 30, a bare number); a quantity carries its unit; write 30 mm",
    ),
    (
        "bare feed",
        method(H + block("op", "turn: to 30 mm, over 10 mm", "feed: 0.1")),
        "sample.md:15:7: `0.1` is a length (got 0.1, a bare number); a quantity carries its unit; write 0.1 mm",
    ),
    (
        "feed dim",
        method(H + block("op", "turn: to 30 mm, over 10 mm", "speed: 3 kg")),
        "sample.md:15:8: `3 kg` is a speed (got 3 kg, a mass); give it in m/min",
    ),
    (
        "missing stock",
        "---\nmethod: Sample\nmaterial: EN1A\nworkshop: osierbank-small\n---\n\n" + H + block("op", "face: 1 mm"),
        "sample.md:2:9: no stock is named; a method starts with its stock; add `stock: round 40 mm x 18 mm` to the front matter",
    ),
    (
        "missing material",
        "---\nmethod: Sample\nstock: round 40 mm x 60 mm\nworkshop: osierbank-small\n---\n\n"
        + H
        + block("op", "face: 1 mm"),
        "sample.md:2:9: no material is named; weights, speeds and forces depend on it; add `material: EN1A` to the front matter",
    ),
    (
        "diameter larger than what is there",
        method(H + block("op", "turn: to 45 mm, over 10 mm")),
        "sample.md:14:10: there is no metal to turn away: Ø45 is wanted and the work is Ø40 there (got 45 mm); turning makes the diameter smaller; check the size, the place or the stock",
    ),
    (
        "too long cut",
        method(H + block("op", "turn: to 30 mm, over 100 mm")),
        "sample.md:14:22: the cut ends 100 mm from the face (got 100 mm of 60 mm); the work is no longer than that; shorten `over` or use longer stock",
    ),
    (
        "grip longer than the stock",
        method(
            block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 80 mm") + block("op", "face: 1 mm")
        ),
        "sample.md:10:1: check `grip-length` failed: grip of 80 from −20 to 60 on work 60 long; a grip is long enough to hold and no longer than the work; change `grip` or `stick-out`",
    ),
    (
        "speed below the lowest",
        method(H + block("op", "turn: to 30 mm, over 10 mm", "speed: 40 1/min")),
        "sample.md:14:1: check `speed` failed: the machine's lowest speed is 130 1/min; wanted 40 1/min; work and machine turn at the speeds that they allow; write a lower `speed`, name a slower machine, or do it by hand",
    ),
    (
        "bar too thick for the spindle",
        method(
            block("setup", "machine: lathe", "hold: three-jaw chuck, on 30 mm, grip 20 mm, stick-out 30 mm")
            + block("op", "face: 1 mm"),
            stock="round 30 mm x 300 mm",
        ),
        "sample.md:10:1: check `spindle-bore` failed: 250 behind the jaws at Ø30; the spindle passes Ø16; a bar that is too long to stick out goes through the spindle; saw it shorter first",
    ),
    (
        "no setup",
        method(block("op", "face: 1 mm")),
        "sample.md:8:1: an operation without a set-up; work is held before it is cut; write a `setup` block above it",
    ),
    (
        "no hold",
        method(block("setup", "machine: lathe") + block("op", "face: 1 mm")),
        "sample.md:8:1: the set-up does not say how the work is held; `hold` is needed; add `hold: three-jaw chuck, on 40 mm, grip 8 mm, end A out`",
    ),
    (
        "no machine",
        method(block("setup", "hold: three-jaw chuck, on 40 mm, grip 15 mm") + block("op", "face: 1 mm")),
        "sample.md:8:1: the set-up names no machine; the first set-up must; add `machine: lathe`",
    ),
    (
        "unknown clause",
        method(H + block("op", "turn: to 30 mm, ovr 10 mm")),
        "sample.md:14:17: `turn` does not know `ovr 10 mm`; its clauses are to, over, from, corner, leave, left hand, called; did you mean `over`?",
    ),
    (
        "missing clause",
        method(H + block("op", "turn: over 10 mm")),
        "sample.md:14:7: `turn` needs `to` and a length (got `over 10 mm`); finished diameter; write it",
    ),
    (
        "unknown stock",
        method(H, stock="triangle 40 mm x 60 mm"),
        "sample.md:4:8: no such stock (got `triangle 40 mm x 60 mm`); stock starts with its kind: round, hexagon, square, flat, tube, plate, turned, casting, from; known: `casting`, `flat`, `from`, `hexagon`, `plate`, `round`, `square`, `tube`, `turned`",
    ),
    (
        "stock sizes",
        method(H, stock="round 40 mm"),
        "sample.md:4:14: round stock has 2 sizes: diameter, length (got 1); in that order, x between; write e.g. `round 20 mm x 16 mm`",
    ),
    (
        "stock neg",
        method(H, stock="round -40 mm x 60 mm"),
        "sample.md:4:14: the diameter of the stock is −40 mm (got `-40 mm`); more than 0 and at most 2,000 mm; check the number and its unit",
    ),
    (
        "tube wall",
        method(H, stock="tube 40 mm x 42 mm x 60 mm"),
        "sample.md:4:8: the stock makes no solid: a tube needs a wall (got outside 40, bore 42); check its sizes",
    ),
    (
        "stock from",
        method(H, stock='from "nothing"'),
        "sample.md:4:8: no such method to take stock from (got `nothing`); `from` names a method of this handbook; check the name",
    ),
    (
        "profile that crosses itself",
        method(
            VICE + block("op", "profile: points (5 mm, 5 mm), (50 mm, 35 mm), (50 mm, 5 mm), (5 mm, 35 mm), deep 5 mm"),
            stock=B,
        ),
        "sample.md:14:17: the outline crosses itself; an outline goes round once; check the order of the points",
    ),
    (
        "arc that does not meet",
        method(
            VICE
            + block(
                "op",
                "profile: points (5 mm, 5 mm), (50 mm, 5 mm), (50 mm, 20 mm), (50 mm, 35 mm), (5 mm, 35 mm), via (50 mm, 20 mm), deep 5 mm",
            ),
            stock=B,
        ),
        "sample.md:14:17: the arc through (50, 20) does not meet: it lies on one line with (50, 5) and (50, 35); a point behind `via` lies on the arc between its two neighbours; move it off the line, or take it out of `via`",
    ),
    (
        "round no fit",
        method(
            VICE
            + block(
                "op", "profile: points (5 mm, 5 mm, 30 mm), (50 mm, 5 mm), (50 mm, 35 mm), (5 mm, 35 mm), deep 5 mm"
            ),
            stock=B,
        ),
        "sample.md:14:17: a corner radius of 30 mm does not fit at (5, 5); the round ends within its two sides; make it smaller",
    ),
    (
        "turning verb on a block",
        method(VICE + block("op", "turn: to 20 mm, over 5 mm"), stock=B),
        "sample.md:14:7: `turn` is for work about an axis (lathe, rotary table); this set-up holds a six-face block; a verb has its meaning in its own frame; hold the work the other way (`end A out`, or `up top, towards front`), or take another verb",
    ),
]  # fmt: skip
