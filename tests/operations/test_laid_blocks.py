"""Where does a block come to lie that is put on a block? As it lies in the hand, by its own corner, upon the face."""

from __future__ import annotations

import numpy as np
import pytest
from tests.method.bench import block, method, work_out

VICE = "hold: machine vice, up top, towards front, grip 2.5 mm"
LOW = "hold: machine vice, up top, towards front, grip 4 mm"
LAID = [
    ("slide on: strap", (10, 5, 8)),
    ("slide on: strap, places (12 mm, 3 mm)", (22, 8, 8)),
    ("slide on: strap, places (12 mm, 3 mm), end A", (22, 10, 8)),
    ("slide on: strap, turned 90 deg", (7, 10, 8)),
    ("slide on: strap, at -4.5 mm", (10, 5, 8.5)),
    ("soft-solder: strap, places (2 mm, 1 mm)", (12, 6, 8)),
    ("silver-braze: strap, places (2 mm, 1 mm)", (12, 6, 8)),
]
"""A line, and where the middle of the strap's hole lies afterwards, half way through it: the strap is 40 by 12 by 4, its
hole at (10, 5) from its corner, the base is 6 high. Turned by 90° its corner is where its end was: (12 − 5, 10).
Flipped end A up, what was y is 12 − y: 3 + 7."""


@pytest.mark.parametrize(("line", "spot"), LAID, ids=[line for line, _ in LAID])
def test_a_block_is_laid_by_its_own_corner(line: str, spot: tuple[float, float, float]) -> None:
    strap = block("setup", "piece: strap", "machine: mill", "stock: plate 40 mm x 12 mm x 4 mm", VICE)
    base = block("setup", "piece: base", "machine: mill", "stock: plate 60 mm x 40 mm x 6 mm", LOW)
    text = strap + block("op", "drill: 5 mm, through, places (10 mm, 5 mm)") + base + block("op", line)
    made = work_out(method(text, stock="plate 60 mm x 40 mm x 6 mm"))
    (strap_body,) = [body.solid for name, body in made.live.operations[-1].after.bodies.items() if name == "strap"]
    low, high = strap_body.bounds
    assert float(low[2]) == pytest.approx(spot[2] - 2)
    middle = (np.asarray(low) + np.asarray(high)) / 2
    turned = "turned" in line
    inside = np.array([[spot[0], spot[1], middle[2]]])
    assert not strap_body.contains(inside)[0], (line, low, high)
    beside = inside + (np.array([[0.0, 3.5, 0.0]]) if turned else np.array([[3.5, 0.0, 0.0]]))
    assert strap_body.contains(beside)[0]
    failed = [c.words.metric for c in made.method.failed if c.key in ("overlap", "seat")]
    assert not failed
