"""What becomes of a joint that is put where no hole is? Every way of joining, on turned work and on a block.

It must fail a check that says where and what to do first, and its picture is drawn all the same: a reader who forgot the
hole sees the piece lie in the metal, and no fault of the program is told.
"""

from __future__ import annotations

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.drawings.drawing_room import DrawingRoom
from methodsheets.operations.joining import HOW
from methodsheets.vocabulary.securing import Securing

PLUG = block("setup", "piece: plug", "stock: round 10 mm x 22 mm", "machine: lathe",
             "hold: three-jaw chuck, on 10 mm, grip 10 mm, end A out") + block("op", "deburr: ends")  # fmt: skip
STAGES = {
    "on the axis": ("end A up", "round 40 mm x 60 mm", ""),
    "off the axis": ("end A up", "round 40 mm x 60 mm", ", on radius 10 mm, at 30 deg"),
    "across the work": ("end A up", "round 40 mm x 60 mm", ", from face 20 mm"),
    "into a block": ("up top, towards front", "plate 60 mm x 40 mm x 30 mm", ", places (20 mm, 20 mm)"),
}
LINES = {**{verb: f"{verb}: plug" for verb in HOW}, "pin": "pin: 10 mm, long 20 mm", "rivet": "rivet: 6 mm, long 40 mm"}
DEEP = {"whole": "", "a little proud": ", at -3 mm"}
"""How deep it goes: quite, or with its head proud of the metal."""


@pytest.mark.parametrize("stage", STAGES)
def test_a_joint_without_a_hole_is_found_and_drawn(stage: str) -> None:
    pose, stock, place = STAGES[stage]
    for verb, line in LINES.items():
        for name, deep in DEEP.items():
            if deep and not (verb == "press in" and stage == "on the axis"):
                continue  # once shows it
            if verb == "pin" and stage == "on the axis":
                continue  # a pin goes across the work, or stands off the axis
            main = block("setup", "piece: main", f"stock: {stock}", "machine: press", f"hold: press blocks, {pose}")
            own = PLUG if line.endswith("plug") else ""
            made = work_out(method(own + main + block("op", line + place + deep), stock=stock))
            failed = [check for check in made.method.failed if check.key in ("overlap", "rivet")]
            assert failed, (verb, name, [str(p) for p in made.live.problems])
            assert "no hole is there" in failed[0].words.metric, (verb, failed[0].words)
            assert failed[0].advice[1].startswith(("drill", "lay")), (verb, failed[0].advice)
            room = DrawingRoom(made, {})
            room.draw_operation(made.live.setups[-1], made.live.setups[-1].operations[-1])
            assert not room.failed, (verb, name, [str(p) for p in room.failed])
            assert room.pictures, (verb, name)


SECURES = {
    Securing.WELD: "throat 1 mm", Securing.SOLDER: "throat 1 mm", Securing.RETAINER: "",
    Securing.CROSS_PIN: "size 3 mm, long 30 mm, from face 10 mm", Securing.GRUB_SCREW: "size 4 mm, long 15 mm, from face 10 mm",
}  # fmt: skip
"""The clauses of each way of securing."""


@pytest.mark.parametrize("way", [*Securing])
def test_securing_where_no_hole_is_is_found_and_drawn(way: Securing) -> None:
    """The joint itself lies in solid metal; or it sits, and what is to go across it has no hole."""
    line = ", ".join(filter(None, (f"secure: plug, with {way}", SECURES[way])))
    for hole in ("face: 1 mm", "drill: 10 mm, deep 30 mm")[: 2 if way.row.across else 1]:
        main = block("setup", "piece: main", "stock: round 40 mm x 60 mm", "machine: lathe",
                     "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")  # fmt: skip
        made = work_out(method(PLUG + main + block("op", hole) + block("op", "press in: plug") + block("op", line)))
        assert not [p for p in made.method.problems if not p.code.startswith("check-")]
        told = [check for check in made.method.operations[-1].checks if check.state == "failed"]
        assert {check.key for check in told} == {"overlap" if hole.startswith("drill") else "secured"}, told
        assert all(all(check.advice) for check in told)
        room = DrawingRoom(made, {})
        room.draw_operation(made.live.setups[-1], made.live.setups[-1].operations[-1])
        assert not room.failed
