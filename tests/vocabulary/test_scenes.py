"""Each verb on each stage has a picture or a reason, and the reader is told the reason where the picture would be."""

from __future__ import annotations

import itertools

import pytest
from tests.method.bench import Evaluated, block, method, work_out

from methodfigures.setups.turning.spec import VERBS as TURNED
from methodsheets.drawings import draw_method
from methodsheets.drawings.plate import plate_spec
from methodsheets.drawings.solids import Drawn
from methodsheets.operations.vocabulary import verb_names
from methodsheets.vocabulary.scene import SCENES, Stage, look, why_not

PAIRS = list(itertools.product(verb_names(), Stage))


def test_the_table_is_total() -> None:
    """A new verb needs a row in `vocabulary/scene.py`."""
    assert set(SCENES) == set(verb_names())


@pytest.mark.parametrize(("verb", "stage"), PAIRS, ids=[f"{v}-{s}" for v, s in PAIRS])
def test_a_pair_has_a_picture_or_a_reason(verb: str, stage: Stage) -> None:
    assert bool(look(verb, stage)) != bool(why_not(verb, stage))


@pytest.mark.parametrize("verb", verb_names())
def test_the_lathe_s_pictures_are_those_of_the_drawing_library(verb: str) -> None:
    assert look(verb, Stage.LATHE) in {"", *TURNED}


def last(hold: str, *ops: str, machine: str = "lathe", stock: str = "round 40 mm x 60 mm") -> Evaluated:
    blocks = block("setup", f"machine: {machine}", f"hold: {hold}") + "".join(block("op", op) for op in ops)
    return work_out(method(blocks, stock=stock))


def pictures(made: Evaluated) -> set[str]:
    number = made.live.operations[-1].number
    return {drawing.kind for drawing, _ in draw_method(made) if drawing.key.count(f"op-{number}-")}


CHUCK = "three-jaw chuck, on 40 mm, grip 15 mm, end A out"
DRAWN = ["undercut: at 20 mm, wide 3 mm, deep 1 mm", "thread: M18 x 1.5, over 15 mm, inside",
         "taper: from 20 mm, to 17 mm, over 15 mm, inside", "round over: 2 mm, on 30 mm"]  # fmt: skip


@pytest.mark.parametrize("line", DRAWN)
def test_what_had_no_picture_or_a_wrong_one_is_drawn(line: str) -> None:
    made = last(CHUCK, "turn: to 30 mm, over 20 mm", "drill: 12 mm, through", "bore: to 16 mm, deep 40 mm", line)
    assert "setup" in pictures(made), [str(p) for p in made.method.problems]
    assert not any("No drawing" in str(note) for note in made.live.operations[-1].notes)


IN_THE_LATHE = ["four-jaw chuck, up top, towards front", "faceplate, up top, towards front"]


@pytest.mark.parametrize("hold", IN_THE_LATHE)
def test_a_block_that_turns_is_drawn_as_itself(hold: str) -> None:
    made = last(hold, "drill: 6 mm, through, places (15 mm, 20 mm)", stock="plate 40 mm x 40 mm x 20 mm")
    assert "setup" in pictures(made), [str(p) for p in made.method.problems]
    done = made.live.operations[-1]
    spec = plate_spec(Drawn(), made.live.setups[0], done)
    assert spec.axis == (15.0, 20.0)
    assert spec.holding == hold.split(",")[0].removesuffix(" chuck")
    assert len(spec.clamps) == 4
    told = {fact.key: fact for fact in made.live.setups[0].facts}
    # The middle lies 5 mm off the axis: 40 x 40 x 20 mm of steel weigh 251 g at 7.85 g/cm³ and are 1256 g·mm out.
    assert spec.weight is not None
    assert spec.weight[1] * spec.weight[2] == pytest.approx(1256, rel=0.01)
    assert "counterweight" in told


UNDRAWN = [
    ("four-jaw chuck, up top, towards front", "face: 1 mm", "lathe", "plate 40 mm x 40 mm x 20 mm"),
    (CHUCK, "split: at 0 deg", "lathe", "round 40 mm x 60 mm"),
    (CHUCK, "file: to 18 mm, over 10 mm", "lathe", "round 40 mm x 60 mm"),
]


@pytest.mark.parametrize(("hold", "line", "machine", "stock"), UNDRAWN, ids=[line for _, line, _, _ in UNDRAWN])
def test_where_there_is_no_picture_the_reader_is_told_why(hold: str, line: str, machine: str, stock: str) -> None:
    made = last(hold, line, machine=machine, stock=stock)
    assert made.live.operations, [str(p) for p in made.method.problems]
    assert "setup" not in pictures(made)
    notes = [note.metric for note in made.live.operations[-1].notes]
    assert any(note.startswith("No drawing of this operation: ") for note in notes), notes
