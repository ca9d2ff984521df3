"""What goes when a piece is sawn, filed or milled out of the middle, against closed forms; and what is refused."""

from __future__ import annotations

import functools
import math
from pathlib import Path

import pytest
from tests.method.bench import block, method, work_out

from methodfigures.setups.sawing import draw_saw_gap
from methodsheets.drawings import joints
from methodsheets.drawings.solids import Drawn
from methodsheets.method.done import CheckedOperation
from methodsheets.vocabulary.process import Process

PI = math.pi
SHAFT = (Path(__file__).parents[1] / "methods" / "sieve-shaft.md").read_text(encoding="utf-8")
BENCH = block("setup", "machine: bench", "hold: bench vice, on 40 mm, grip 15 mm, end A out")
FIRST = "hold: bench vice, on 12 mm, grip 11 mm, end A out"
LINE = "saw out: from 22 mm, wide 20 mm, keep pin"


@functools.cache
def sawn(text: str) -> CheckedOperation:
    made = work_out(text)
    assert not [p for p in made.method.problems if not p.code.startswith("check-")], [
        str(p) for p in made.method.problems
    ]
    return made.live.operations[-1]


def on_bar(line: str, *more: str) -> CheckedOperation:
    return sawn(method(BENCH + block("op", f"saw out: {line}", *more)))


def on_shaft(line: str = LINE, *more: str, setup: str = "") -> CheckedOperation:
    setup = setup or f"machine: bench\n{FIRST}"
    text = SHAFT.replace(f"machine: bench\n{FIRST}", setup).replace(LINE, "\n".join((line, *more)))
    return sawn(text)


def segment(radius: float, distance: float) -> float:
    """Area of a circle beyond a chord."""
    return radius**2 * math.acos(distance / radius) - distance * math.sqrt(radius**2 - distance**2)


BAR = [
    ("from 10 mm, wide 12 mm", PI * 400 * 12, "the whole section"),
    ("from 10 mm, wide 12 mm, bottom 8 mm", segment(20, 8) * 12, "down to 8 from the axis"),
    ("from 10 mm, wide 12 mm, bottom -8 mm", (PI * 400 - segment(20, 8)) * 12, "down to 8 beyond the axis"),
    ("from 10 mm, wide 12 mm, bottom 8 mm, at 90 deg", segment(20, 8) * 12, "down to 8 from the axis"),
    ("from 10 mm, wide 12 mm, down to 18 mm", PI * (400 - 81) * 12, "down to Ø18"),
    ("from 10 mm, wide 12 mm, up to 30 mm", PI * 225 * 12, "the core Ø30"),
    ("from 10 mm, wide 12 mm, down to 18 mm, sector 90 deg", PI * (400 - 81) * 12 / 4, "over 90° of the turn"),
    ("from 10 mm, wide 12 mm, up to 30 mm, sector 270 deg, at 45 deg", PI * 225 * 12 * 0.75, "over 270° of the turn"),
]  # fmt: skip


@pytest.mark.parametrize(("line", "volume", "words"), BAR, ids=[line for line, _, _ in BAR])
def test_the_metal_that_goes(line: str, volume: float, words: str) -> None:
    one = on_bar(line)
    assert one.volume == pytest.approx(volume, rel=1e-3)
    assert words in one.words.metric
    low, high = one.removed[0].bounds
    assert (low[2], high[2]) == (pytest.approx(10.0), pytest.approx(22.0))


def test_round_a_neck_the_saw_stops_at_the_neck() -> None:
    gap = on_bar("from 10 mm, wide 12 mm, down to 18 mm").plan.gap
    assert gap is not None
    assert (gap.floor, gap.reached) == (pytest.approx(9.0), pytest.approx(gap.whole))


def test_the_side_that_is_said_is_the_side_that_goes() -> None:
    """90° is anticlockwise as one looks at face A: y of the work falls."""
    low, high = on_bar("from 10 mm, wide 12 mm, bottom 8 mm, at 90 deg").removed[0].bounds
    assert (low[1], high[1]) == (pytest.approx(-20.0, abs=0.02), pytest.approx(-8.0))


def test_the_core_goes_and_the_pin_stays() -> None:
    """A bar of 40 between two lengths, less the pin of 10 that runs through it."""
    one = on_shaft()
    assert one.volume == pytest.approx(PI * (400 - 25) * 20, rel=1e-3)
    assert one.after.bodies["pin"].solid.volume == pytest.approx(PI * 25 * 40, rel=1e-3)
    assert len(one.after.bodies["work"].solid.pieces()) == 2
    assert one.plan.gap is not None
    assert one.plan.gap.angle == pytest.approx(180.0), "the tool comes from the side where the pin is not"
    assert one.plan.gap.floor == pytest.approx(-7.0, abs=0.02)
    carried = next(check for check in one.checks if check.key == "carried-ends")
    assert carried.state == "passed"
    assert "the pin, 78.5" in carried.words.metric
    assert "Ø10, 12 off the axis" in carried.words.metric


def test_the_saw_the_file_and_the_cutter() -> None:
    """One gap; how it is made, with what, and that each takes its own time."""
    on_mill = "machine: mill\nhold: vee block, on 12 mm, grip 11 mm, end A out"
    ways = [on_shaft(), on_shaft(LINE, "tool: file"), on_shaft(setup=on_mill)]
    assert [one.plan.cut.process for one in ways] == [Process.SAW, Process.NONE, Process.MILL]
    assert [one.words.metric.split(" out ")[0] for one in ways] == ["Saw", "File", "Mill"]
    assert [one.tool is not None and one.tool.usual_name for one in ways] == ["saw blade", "file", "end mill"]
    volumes = [one.volume for one in ways]
    assert volumes == pytest.approx([volumes[0]] * 3)
    assert len({round(one.worked.minutes, 3) for one in ways}) == 3
    assert ways[2].plan.reach_depth == pytest.approx(20.0 + 7.0, abs=0.1), "from the top of the webs down to the pin"
    assert not [check for one in ways[:2] for check in one.checks if check.state == "failed"]


def test_a_bandsaw_is_quicker_than_a_hacksaw() -> None:
    by_hand = on_shaft()
    band = on_shaft(setup="machine: saw\nhold: saw vice, on 12 mm, grip 11 mm, end A out")
    assert band.worked.minutes < by_hand.worked.minutes
    assert band.plan.gap is not None
    assert band.plan.gap.kerf == pytest.approx(1.0)


REFUSED = [
    ("saw out: from 22 mm, wide 20 mm, keep bolt", "unknown-piece"),
    ("saw out: from 22 mm, wide 20 mm, keep pin and work", "nothing-to-cut"),
    ("saw out: from 60 mm, wide 20 mm, keep pin", "too-long"),
    ("saw out: from 22 mm, wide 20 mm, down to 60 mm, keep pin", "nothing-to-cut"),
    ("saw out: from 22 mm, wide 20 mm, down to 20 mm, up to 30 mm", "contradiction"),
    ("saw out: from 22 mm, wide 20 mm, sector 90 deg, keep pin", "idle-clause"),
    ("saw out: from 22 mm, wide 20 mm, down to 20 mm, sector 400 deg", "wrong-value"),
    ("saw out: wide 20 mm, keep pin", "missing-clause"),
]  # fmt: skip


@pytest.mark.parametrize(("line", "code"), REFUSED)
def test_what_cannot_be_sawn_out_is_refused(line: str, code: str) -> None:
    problems = work_out(SHAFT.replace(LINE, line)).method.problems
    assert [p.code for p in problems if not p.code.startswith("check-")] == [code], [str(p) for p in problems]
    assert problems[0].remedy


# ------------------------------------------------------------------------------------------------ pictures
DRAWN = {
    "hand saw": SHAFT,
    "file": SHAFT.replace(LINE, LINE + "\ntool: file"),
    "cutter": SHAFT.replace(
        "machine: bench\n" + FIRST, "machine: mill\nhold: vee block, on 12 mm, grip 11 mm, end A out"
    ),
    "held in front": SHAFT.replace(FIRST, FIRST.replace("grip 11 mm", "grip 11 mm, stick-out 1 mm")),
    "other end": SHAFT.replace(FIRST, FIRST.replace("end A", "end B")),
    "a neck in a bar": method(BENCH + block("op", "saw out: from 10 mm, wide 12 mm, down to 18 mm")),
    "half of a bar": method(BENCH + block("op", "saw out: from 20 mm, wide 3 mm, bottom 2 mm, at 70 deg")),
}


@pytest.mark.parametrize("name", DRAWN)
def test_it_has_a_picture_without_a_clash(name: str) -> None:
    live = work_out(DRAWN[name]).live
    setup, one = live.setups[-1], live.operations[-1]
    assert joints.can_draw_saw(setup, one)
    assert not any("No drawing" in str(note) for note in one.notes)
    figure = draw_saw_gap(joints.gap_spec(Drawn(), setup, one))
    assert figure.clashes == ()
    assert "is up, seen from end" in figure.description
