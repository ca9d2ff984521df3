"""A small handbook made by hand: two methods of one part, a third of another, two workshops; for tests of pages only.

The numbers are plausible, not worked out: nothing here checks the trade.
"""

from __future__ import annotations

from pathlib import Path

from sample_broken import broken_method
from sample_measures import LARGE, NBSP, SMALL, minutes, mm
from sample_methods import method

from methodsheets.formula.measure import Measure
from methodsheets.handbook.model import (
    BreakEven,
    Comparison,
    ComparisonRow,
    Counts,
    Drift,
    Entry,
    Experience,
    Handbook,
    Needs,
    Options,
    Record,
    TimeLine,
)
from methodsheets.handbook.shop_cards import DividingCard, HoldingCard, MachineCard, ToolCard, WorkshopCard

SOURCES = Path(__file__).parent / "sources"
SOURCE = {path.stem: path.read_text(encoding="utf-8") for path in sorted(SOURCES.glob("*.md"))}


def svg(key: str) -> str:
    """A stand-in for a drawing, with ids and colours as the real ones have; set-up 2 looks different on the large bench."""
    what = key.rpartition("--")[2]
    length = "21.5" if LARGE in key and what == "setup-2" else "18.5"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 170 60" style="--ms-least:468px" '
        f'role="img" aria-labelledby="{key}-t {key}-d">'
        f'<title id="{key}-t">{key}</title><desc id="{key}-d">A stand-in drawing</desc>'
        '<path d="M10 10H60V50H10Z" fill="var(--ms-tint, #eee)" stroke="var(--ms-ink)" stroke-width="0.5"/>'
        '<path d="M60 20H150V40H60Z" fill="none" stroke="var(--ms-ink, currentColor)" stroke-width="0.5"/>'
        '<path d="M5 30H160" stroke="var(--ms-ink)" stroke-width="0.25" stroke-dasharray="8 1.5 1.5 1.5"/>'
        f'<text x="100" y="15" font-size="4" fill="var(--ms-ink, currentColor)">{what}, stick-out {length}</text></svg>'
    )


RECORDS = tuple(
    Record(f"2026-11-0{day}", "3", "eccentric-two-pieces", 40, "bore", day, 16.001 + 0.003 * day, 6.5, "", day + 1)
    for day in range(1, 6)
)
EXPERIENCE = Experience(
    "3",
    "2026-11-05",
    1,
    None,
    1.07,
    95.0,
    260.0,
    ((40, 6.1, 6.5),),
    (
        Drift(
            40,
            "bore",
            tuple((r.date, r.part_number, r.measured or 0.0) for r in RECORDS),
            16.0,
            16.018,
            0.003,
            "upper",
            0,
            0,
        ),
    ),
)


def _card(
    key: str, name: str, summary: str, speeds: tuple[float, ...], ranges: tuple[tuple[float, float], ...]
) -> WorkshopCard:
    lathe = MachineCard(
        "lathe",
        "lathe",
        "Bench lathe",
        (("Power", Measure(0.37, "kW", "power", f"0.37{NBSP}kW", f"0.50{NBSP}hp")), ("Spindle bore", mm(20))),
        speeds,
        ranges,
        "0.05 to 0.3 mm",
    )
    chuck = HoldingCard(
        "three-jaw", "three-jaw chuck", "Three-jaw chuck", (("Outside", "3 to 100 mm"), ("Run-out", mm(0.06)))
    )
    drills = ToolCard("drills", "drill", "Drills", "HSS", (), (("1", 1.0), ("2", 2.0), ("14", 14.0)))
    knife = ToolCard("knife", "knife tool", "Knife tool", "HSS", (("Nose radius", mm(0.4)),))
    table = DividingCard("rotary", "Rotary table", 90, 4.0, 1 / 60, (("A", (15, 16, 17, 18)), ("B", (21, 23, 27))))
    return WorkshopCard(
        key,
        name,
        summary,
        "inch" if key == LARGE else "metric",
        f"methods/workshops/{key}.yml",
        (lathe,),
        (chuck,),
        (knife, drills),
        (table,),
        "coins",
    )


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
        ComparisonRow(
            "Trueness", "Journal to eccentric, worst", (mm(0.09), mm(0.05)), True, 1, "three-jaw chuck twice"
        ),
        ComparisonRow(
            "Proof",
            "Checks that fail",
            ("0", "0" if workshop == SMALL else "1"),
            workshop == LARGE,
            None if workshop == SMALL else 0,
        ),
    )
    each = [t.cutting_minutes + t.handling_minutes for t in (one, two)]
    lines = tuple(
        TimeLine(slug, title, t.setting_minutes, e)
        for slug, title, t, e in zip(slugs, ("one piece", "two pieces"), (one, two), each, strict=True)
    )
    return Comparison(
        "eccentric-spindle",
        workshop,
        "Eccentric spindle",
        slugs,
        ("Eccentric spindle, one piece", "Eccentric spindle, two pieces"),
        rows,
        (
            Needs("tools", ("knife tool",), ((), ("parting blade 2 mm",))),
            Needs("ways of holding", ("three-jaw chuck",), ((), ("press",))),
        ),
        lines,
        (BreakEven(slugs[0], slugs[1], None, "One piece is quicker for any number of parts."),),
        tuple((f"{slug}--{workshop}--storyboard",) for slug in slugs),
        5,
    )


def _draw(key: str, standalone: bool) -> str:
    return svg(key).replace("var(--ms-tint, #eee)", "#eee") if standalone else svg(key)


def handbook() -> Handbook:
    """The sample handbook."""
    shops = {
        SMALL: _card(
            SMALL, "Osierbank, small bench", "A hobby lathe with belt speeds.", (130, 200, 400, 630, 1000, 1600), ()
        ),
        LARGE: _card(LARGE, "Osierbank, large bench", "A larger lathe, variable speed.", (), ((50, 2500),)),
    }
    entries = {}
    for slug in ("eccentric-two-pieces", "eccentric-one-piece", "clamp-block"):
        build = broken_method if slug == "clamp-block" else lambda key, slug=slug: method(slug, key)
        by = {key: build(key) for key in shops}
        recorded = slug == "eccentric-two-pieces"
        entries[slug] = Entry(
            slug,
            f"methods/{slug}.md",
            Path(f"methods/{slug}.md"),
            SOURCE[slug],
            SMALL,
            by,
            RECORDS if recorded else (),
            EXPERIENCE if recorded else None,
            f"methods/{slug}.md",
            by[SMALL].problems,
        )
    compared = {"eccentric-spindle": {key: _comparison(key) for key in shops}}
    problems = entries["clamp-block"].problems
    return Handbook(entries, shops, compared, problems, Counts(3, 2, 6), Options(Path()), _draw)
