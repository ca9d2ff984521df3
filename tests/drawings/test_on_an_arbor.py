"""Does a machinist see the cutter, the blank and the division where a disc on an arbor cuts: gears, racks, slits?"""

from __future__ import annotations

import pytest
from tests.method.bench import block, method, work_out

from methodfigures.setups.rotary.figure import draw_rotary_setup
from methodsheets.drawings.dividing import rotary_spec
from methodsheets.drawings.drawing_room import DrawingRoom
from methodsheets.drawings.solids import Drawn

LEVEL = "machine: mill", "hold: rotary table with three-jaw chuck, on {} mm, grip 15 mm, axis level, end A out"
VICE = "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm"
CASES = [
    (LEVEL, "round 40 mm x 60 mm", "gear: module 1 mm, teeth 38, over 15 mm", "1 of 38"),
    (LEVEL, "round 14 mm x 40 mm", "gear: module 1 mm, teeth 12, over 8 mm, starting 15 deg", "table reads 15°"),
    (LEVEL, "tube 40 mm x 12 mm x 30 mm", "split: one side, wide 1 mm, at 90 deg", "table reads 90°"),
    (VICE, "plate 60 mm x 40 mm x 25 mm", "rack: module 1 mm, teeth 8", ""),
    (VICE, "plate 90 mm x 12 mm x 20 mm", "rack: module 1 mm, teeth 20, from 5 mm", ""),
]


@pytest.mark.parametrize(("set_up", "stock", "line", "reads"), CASES, ids=[case[2] for case in CASES])
def test_the_cutter_stands_where_it_cuts(set_up: tuple[str, str], stock: str, line: str, reads: str) -> None:
    machine, hold = set_up
    size = stock.split()[1]
    made = work_out(method(block("setup", machine, hold.format(size)) + block("op", line), stock=stock))
    (setup,) = made.live.setups
    room = DrawingRoom(made, {})
    room.draw_operation(setup, setup.operations[-1])
    assert room.failed == []
    (figure,) = room.shared.values()
    assert figure.clashes == ()
    svg = figure.standalone()
    assert reads in svg
    assert "feed" in svg
    assert str(setup.operations[-1].tool_name) in svg


UPRIGHT = block("setup", "machine: mill", "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up")
LIFTS = "cam: base 12 mm, lift 5 mm, rise 70 deg, dwell 30 deg, follower roller, roller 10 mm, over 12 mm"


@pytest.mark.parametrize(("line", "round_it"), [(LIFTS, True), ("flat: 15 mm, over 20 mm", False)])
def test_a_cam_is_fed_round_and_a_flat_straight(line: str, round_it: bool) -> None:
    """The table turns a cam past the cutter, which stays where it meets the work; a flat has an end of its path."""
    made = work_out(method(UPRIGHT + block("op", line)))
    (setup,) = made.live.setups
    spec = rotary_spec(Drawn(), setup, setup.operations[-1])
    assert (spec.verb == "round") is round_it
    figure = draw_rotary_setup(spec)
    assert figure.clashes == ()
    assert "feed" in figure.standalone()


def test_a_keyway_in_a_bore_says_why_it_has_no_picture_of_its_set_up() -> None:
    chuck = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")
    line = "keyway: wide 5 mm, deep 2.3 mm, in bore, over 60 mm"
    made = work_out(method(chuck + block("op", "drill: 20 mm, through") + block("op", line)))
    (note,) = made.live.operations[-1].notes
    assert "slotted stroke by stroke, the spindle locked" in note.metric
