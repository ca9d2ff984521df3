"""Which ordinary jobs is the plan of a cut tried on, and what does it choose in the three workshops of the demo?

`python -m tests.operations.ordinary_jobs` writes the golden file and the table of the handbook's page anew; look at every
line that changed before it is kept. What stands as practice is what a hobby machinist would do, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.method.bench import block, method, work_out

from methodsheets.sheet.model import Operation

HERE = Path(__file__).parent
GOLDEN = HERE / "golden" / "ordinary_jobs.txt"
PAGE = Path(__file__).parents[2] / "site_demo" / "plan-of-cuts.md"
BEGIN, END = "<!-- jobs -->", "<!-- end of jobs -->"
SHOPS = ("osierbank-small", "osierbank-large", "osierbank-inch")
PLATE = "plate 90 mm x 40 mm x 30 mm"


def lathe(hold: str, *ops: str, stock: str, material: str, check: str = "") -> str:
    """A method of one set-up in the lathe; the last operation is the job."""
    return method(block("setup", "machine: lathe", f"hold: {hold}") + _ops(ops, check), stock=stock, material=material)


def mill(*ops: str, stock: str = PLATE, material: str = "EN3B", tool: str = "", check: str = "") -> str:
    """A method of one set-up in the mill's vice."""
    setup = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
    return method(setup + _ops(ops, check, tool), stock=stock, material=material)


def _ops(ops: tuple[str, ...], check: str = "", tool: str = "") -> str:
    more = ([f"tool: {tool}"] if tool else []) + ([f"check: {check}"] if check else [])
    return "".join(block("op", line) for line in ops[:-1]) + block("op", ops[-1], *more)


@dataclass(frozen=True)
class Job:
    """One job: what it is, the method that does it, and what common practice says (from memory)."""

    name: str
    text: str
    practice: str = ""


R20, R40, R80 = "round 20 mm x 120 mm", "round 40 mm x 80 mm", "round 80 mm x 60 mm"
JAW20 = "three-jaw chuck, on 20 mm, grip 15 mm, stick-out 40 mm, end A out"
JAW40 = "three-jaw chuck, on 40 mm, grip 18 mm, end A out"
JAW80 = "three-jaw chuck, on 80 mm, grip 30 mm, end A out, outside jaws"
CENTRES = "between centres, grip 12 mm, end A out"
LATHE = {"material": "EN3B", "stock": R40}

JOBS = (
    Job("Ø20 mild steel between centres to 16 over 60",
        lathe(CENTRES, "centre: 2 mm", "turn: to 16 mm, over 60 mm", material="EN3B", stock=R20),
        "HSS 300–450 1/min, carbide 600–900; 0.5–0.75 mm light, 1.5–2 mm on 1.5 kW; last 0.2 mm fine"),
    Job("Shoulder 94 to 30 × 2 wide, cast iron",
        lathe("four-jaw chuck, on 94 mm, grip 18 mm, end A out", "turn: to 30 mm, over 2 mm", material="EN-GJL-250",
              stock="round 94 mm x 40 mm"),
        "HSS 60–80 1/min; 1–2 mm a pass on a strong machine; a facing cut is quicker than 40 passes"),
    Job("Edge of a plate 2.5 × 12 × 90",
        mill("step: side front, wide 2.5 mm, deep 12 mm"),
        "10–16 mm end mill, 400–700 1/min, 2 to 4 passes, 60–100 mm/min by hand"),
    Job("Journal 20 h6 that was left 0.4 on",
        lathe(JAW40, "turn: to 20 mm, over 30 mm, leave 0.4 mm", "turn: to 20 mm, over 30 mm",
              check='limits(20 mm, "h6") with micrometer', **LATHE),
        "one pass of what is left, feed 0.05–0.1 mm, measured before"),
    Job("M10 × 1.5 to a shoulder",
        lathe(JAW40, "turn: to 10 mm, over 20 mm", "thread: M10, over 20 mm", **LATHE),
        "lowest speed, 40–70 1/min, or by hand; a run-out groove first is better"),
    Job("M10 × 1.5 into a groove 3 wide",
        lathe(JAW40, "turn: to 10 mm, over 23 mm", "groove: from 20 mm, wide 3 mm, to 7.5 mm", "thread: M10, over 20 mm",
              **LATHE),
        "100–180 1/min"),
    Job("Ø25 hole from solid", lathe(JAW40, "drill: 25 mm, deep 30 mm", **LATHE),
        "6, then 12 or so, then 25 at 250–350 1/min by hand"),
    Job("Slit 1 mm through 8 mm steel with a saw Ø63",
        mill("slot: wide 1 mm, deep 8 mm", tool="slitting saw"),
        "80–120 1/min, 0.005–0.02 mm a tooth, 25–95 mm/min, one pass"),
    Job("Face an 80 mm bar round a 30 mm spigot",
        lathe(JAW80, "turn: to 30 mm, over 10 mm", "face: 7 mm", material="EN3B", stock=R80),
        "speed from 80 mm: HSS 100–130 1/min, carbide 300–500"),
    Job("Fly-cut 90 × 40 cast iron, 1 mm",
        mill("face: 1 mm", material="EN-GJL-250", tool="fly cutter"),
        "HSS 120–200 1/min, 0.3–0.5 mm deep, 10–25 mm/min"),
    Job("Ream 12 H7 in bronze",
        lathe(JAW40, "drill: 11.8 mm, deep 40 mm", "ream: 12 mm, deep 35 mm", material="PB1", stock=R40,
              check='limits(12 mm, "H7") with plug gauge'),
        "machine reamer 200–300 1/min, hand reamer 60–130 1/min, steady feed 0.2–0.3 mm"),
    Job("Bore 20 to 24 H7, 30 deep",
        lathe(JAW40, "drill: 20 mm, deep 32 mm", "bore: to 24 mm, deep 30 mm", material="EN1A", stock=R40,
              check='limits(24 mm, "H7") with plug gauge'),
        "HSS 250–400 1/min, carbide 600–1000; 0.3–0.75 mm a pass, 0.2 mm last at 0.05 mm"),
    Job("Aluminium 40 to 30 over 25", lathe(JAW40, "turn: to 30 mm, over 25 mm", material="6082-T6", stock=R40),
        "HSS 500–800 1/min, carbide as fast as the chuck allows; 1–2 mm a pass"),
    Job("Silver steel 12 to 10 over 25",
        lathe("collet chuck, on 12 mm, grip 25 mm, end A out", "turn: to 10 mm, over 25 mm", material="silver steel",
              stock="round 12 mm x 60 mm"),
        "HSS 350–500 1/min; 0.3–0.5 mm a pass"),
    Job("Face a 40 mm bar, 1 mm", lathe(JAW40, "face: 1 mm", material="EN1A", stock=R40),
        "HSS 220–350 1/min, carbide 600–1000; one or two cuts"),
    Job("Part off Ø20 mild steel",
        lathe("three-jaw chuck, on 20 mm, grip 15 mm, stick-out 30 mm, end A out", "part off: 10 mm", material="EN3B",
              stock="round 20 mm x 60 mm"),
        "150–250 1/min, 0.03–0.05 mm, plenty of oil"),
    Job("Slot 8 × 6 in free-cutting steel", mill("slot: wide 8 mm, deep 6 mm", material="EN1A"),
        "slot drill at 800–1000 1/min, 1–1.5 mm a pass, 40–60 mm/min"),
    Job("Face 90 × 40 aluminium, 1 mm", mill("face: 1 mm", material="6082-T6"),
        "16 mm end mill at 1400–2000 1/min, 0.5–1 mm, 150–300 mm/min"),
    Job("T-slot 12.5 wide in cast iron",
        mill("slot: wide 8 mm, deep 12 mm", "t-slot: wide 8 mm, deep 12 mm, head 12.5 mm, high 6 mm",
             material="EN-GJL-250"),
        "250–400 1/min, 15–30 mm/min, chips blown out"),
    Job("Stainless 304, Ø20 to 16 over 20", lathe(JAW20, "turn: to 16 mm, over 20 mm", material="304", stock=R20),
        "HSS 150–250 1/min; 0.5 mm or more and never rubbing"),
    Job("Mild steel 40 to 20 over 40", lathe(JAW40, "turn: to 20 mm, over 40 mm", **LATHE)),
    Job("Journal 16 f7 from Ø20", lathe(JAW20, "turn: to 16 mm, over 30 mm", material="EN1A", stock=R20,
        check='limits(16 mm, "f7") with micrometer')),
    Job("Brass 20 to 12 over 30", lathe(JAW20, "turn: to 12 mm, over 30 mm", material="CZ121", stock=R20)),
    Job("Cast iron 80 to 76 over 20", lathe(JAW80, "turn: to 76 mm, over 20 mm", material="EN-GJL-250", stock=R80)),
    Job("EN8 on a faceplate, 40 to 36 over 10",
        lathe("faceplate, end A out", "turn: to 36 mm, over 10 mm", material="EN8", stock="round 40 mm x 30 mm")),
    Job("Ø60 disc in the four-jaw, faced 2 mm",
        lathe("four-jaw chuck, on 60 mm, grip 15 mm, end A out", "face: 2 mm", material="EN3B",
              stock="round 60 mm x 30 mm")),
    Job("Length 77.5 h9 faced", lathe(JAW40, "face: to length 77.5 mm", check='limits(77.5 mm, "h9") with micrometer',
        **LATHE)),
    Job("Groove 2 wide to Ø30", lathe(JAW40, "groove: from 10 mm, wide 2 mm, to 30 mm", **LATHE)),
    Job("Taper 30 to 36 over 20", lathe(JAW40, "taper: from 30 mm to 36 mm, over 20 mm", **LATHE)),
    Job("Chamfer 1 mm on Ø40", lathe(JAW40, "chamfer: 1 mm", **LATHE)),
    Job("Knurl Ø40 over 20", lathe(JAW40, "knurl: over 20 mm", **LATHE)),
    Job("Drill 6 mm 30 deep, mild steel", lathe(JAW40, "drill: 6 mm, deep 30 mm", **LATHE)),
    Job("Centre drill 3.15", lathe(JAW40, "centre: 3.15 mm", **LATHE)),
    Job("Inside thread M24 × 1.5",
        lathe(JAW40, "drill: 20 mm, through", "bore: to 22.4 mm, deep 20 mm", "thread: M24x1.5, over 18 mm, inside",
              **LATHE)),
    Job("Drill 10 mm through plate 20, aluminium",
        mill("drill: 10 mm, through, places (20 mm, 20 mm)", material="6082-T6", stock="plate 90 mm x 40 mm x 20 mm")),
    Job("Counterbore 11 for M6", mill("drill: 6.6 mm, through, places (20 mm, 20 mm)",
        "counterbore: 11 mm, deep 6.5 mm, places (20 mm, 20 mm)")),
    Job("Pocket 30 × 20 × 4", mill("pocket: from (10 mm, 10 mm), to (40 mm, 30 mm), deep 4 mm")),
    Job("Step 10 × 6 with H9 depth", mill("step: side front, wide 10 mm, deep 6 mm", check='limits(6 mm, "H9")')),
    Job("Vee 12 wide", mill("vee: wide 12 mm")),
    Job("Dovetail 20 × 6, cast iron", mill("dovetail: wide 20 mm, deep 6 mm", material="EN-GJL-250")),
)  # fmt: skip
IN_PAGE = 20
"""The first jobs stand on the page: ten of a newcomer's and ten more."""


def told(operation: Operation, key: str) -> str:
    """A fact of the operation in words, '–' where it has none."""
    fact = operation.fact(key)
    return str(fact.value).replace("\u202f", " ") if fact else "–"


def reasons(operation: Operation) -> str:
    """Why it is so: the notes of speed, feed and depth, and what the sheet remarks."""
    keys = ("spindle_speed", "feed", "depth")
    notes = [str(fact.note) for fact in operation.facts if fact.key in keys and fact.note.metric]
    return "; ".join([*notes, *(str(note) for note in operation.notes)]).replace("\u202f", " ") or "–"


def passes(operation: Operation) -> str:
    """'3 × 0.6, 0.2' of the depths of the passes."""
    depths = [one.depth.metric.replace("\u202fmm", "") for one in operation.passes if one.depth]
    runs: list[tuple[str, int]] = []
    for depth in depths:
        if runs and runs[-1][0] == depth:
            runs[-1] = (depth, runs[-1][1] + 1)
        else:
            runs.append((depth, 1))
    if len(runs) > 4:
        return f"{len(depths)} from {depths[0]} to {depths[-1]}"
    return ", ".join(f"{count} × {depth}" if count > 1 else depth for depth, count in runs) or "–"


def chosen(job: Job, shop: str) -> Operation | None:
    """The job worked out for a workshop; None where the workshop cannot do it."""
    return next(iter(work_out(job.text, shop).method.operations[::-1]), None)


def lines() -> Iterator[str]:
    """The golden file: each job in each workshop, one a line."""
    for number, job in enumerate(JOBS, 1):
        yield f"{number}. {job.name}"
        for shop in SHOPS:
            yield f"    {shop.removeprefix('osierbank-'):6} {line(chosen(job, shop))}"


def line(operation: Operation | None) -> str:
    """One job in one workshop."""
    if operation is None:
        return "not worked out here"
    speed, feed, power = (told(operation, key) for key in ("spindle_speed", "feed", "power"))
    rate = f" = {told(operation, 'feed_rate')}" if operation.fact("feed_rate") else ""
    fine = f", last {told(operation, 'finishing_feed')}" if operation.fact("finishing_feed") else ""
    return (
        f"{operation.tool} | {speed} ({told(operation, 'cutting_speed')}) | feed {feed}{rate}{fine} | "
        f"passes {passes(operation)} | {power} | {operation.cutting_minutes:.1f} min | {reasons(operation)}"
    )


def table() -> str:
    """The table of the handbook's page: the first jobs in the small and in the large workshop beside practice."""
    rows = ["| job | small shop | large shop | common practice (from memory) |", "|---|---|---|---|"]
    for job in JOBS[:IN_PAGE]:
        cells = [_cell(chosen(job, shop)) for shop in SHOPS[:2]]
        rows.append(f"| {job.name} | {' | '.join(cells)} | {job.practice} |")
    return "\n".join(rows)


def _cell(operation: Operation | None) -> str:
    if operation is None:
        return "not there"
    parts = [operation.tool, told(operation, "spindle_speed")]
    parts += [f"passes {passes(operation)} mm"] if operation.passes and operation.fact("depth") else []
    rate = told(operation, "feed_rate")
    parts.append(rate if rate != "–" else f"feed {told(operation, 'feed')}")
    return ", ".join(part for part in parts if part)


def write() -> None:
    """Write the golden file and the table of the page anew."""
    GOLDEN.parent.mkdir(exist_ok=True)
    GOLDEN.write_text("\n".join(lines()) + "\n", encoding="utf-8")
    page = PAGE.read_text(encoding="utf-8")
    before, _, rest = page.partition(BEGIN)
    after = rest.partition(END)[2]
    PAGE.write_text(f"{before}{BEGIN}\n{table()}\n\n{END}{after}", encoding="utf-8")


if __name__ == "__main__":
    write()
