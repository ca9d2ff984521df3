"""Does the advice of a failed check say what to write, so that the second try works?

Each is a first try of somebody who had nothing but the site.
"""

from __future__ import annotations

import pytest
from tests.method.bench import block, method, work_out

BAR = "round 40 mm x 60 mm"
LATHE = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")
HEAD = "hold: dividing head with three-jaw chuck, on 40 mm, grip 15 mm, end A out"
TURNED = LATHE + block("op", "turn: to 30.02 mm, over 30 mm")
HELD = block("setup", "machine: lathe", "hold: three-jaw chuck, on 30 mm, grip 15 mm, end B out")
CASES = [
    ("a size that is not quite there", TURNED + HELD + block("op", "face: 1 mm"), "grip", "write `on 30.02 mm`"),
    ("a blade that is too wide", LATHE + block("op", "groove: at 5 mm, wide 1.2 mm, to 36 mm"), "reach", "`wide 2 mm`"),
    ("a waist", LATHE + block("op", "turn: to 30 mm, from 10 mm, over 10 mm"), "way-in", "with `profile`"),
    ("a head that is not there", block("setup", "machine: mill", HEAD) + block("op", "flat: 18 mm, over 10 mm"),
     "holding", "it has a `rotary table`"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "blocks", "key", "says"), CASES, ids=[case[0] for case in CASES])
def test_the_remedy_is_what_to_write(name: str, blocks: str, key: str, says: str) -> None:
    made = work_out(method(blocks, stock=BAR)).method
    remedies = [check.advice[1] for check in made.failed if check.key == key]
    assert any(says in remedy for remedy in remedies), remedies
