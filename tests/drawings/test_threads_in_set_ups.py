"""Is a tapped hole drawn as a thread wherever it is tapped?  ISO 6410-1, from memory; ISO 724 for the depth of a thread."""

from __future__ import annotations

import re
from itertools import combinations

import numpy as np
import pytest
from tests.figures.svg_reader import paths
from tests.method.bench import block, method, work_out

from methodsheets.drawings.drawing_room import DrawingRoom

DEEP, MAJOR, PITCH = 10.0, 6.0, 1.0
BLOCK = "plate 60 mm x 40 mm x 25 mm"
TAPPED = {
    "on the table": (
        ("machine: mill", "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up"),
        ("drill: 5 mm, deep 16 mm, on circle 24 mm", "tap: M6, deep 10 mm, on circle 24 mm"),
        "round 40 mm x 60 mm",
    ),
    "lying": (
        ("machine: mill", "hold: vee block, on 30 mm, end A out"),
        ("cross-drill: 5 mm, from face 10 mm, deep 14 mm", "cross-tap: M6, from face 10 mm, deep 10 mm"),
        "round 30 mm x 60 mm",
    ),
    "turning with a plate": (
        ("machine: lathe", "hold: four-jaw chuck, up top, towards front"),
        ("drill: 5 mm, deep 16 mm, places (30 mm, 20 mm)", "tap: M6, deep 10 mm, places (30 mm, 20 mm)"),
        BLOCK,
    ),
    "in the vice": (
        ("machine: mill", "hold: machine vice, up top, towards front, grip 10 mm"),
        ("drill: 5 mm, deep 16 mm, places (30 mm, 20 mm)", "tap: M6, deep 10 mm, places (30 mm, 20 mm)"),
        BLOCK,
    ),
}


@pytest.mark.parametrize("where", TAPPED)
def test_its_root_is_narrow_and_its_end_wide(where: str) -> None:
    hold, lines, stock = TAPPED[where]
    live = work_out(method(block("setup", *hold) + "".join(block("op", line) for line in lines), stock=stock))
    room = DrawingRoom(live, {})
    room.draw_operation(live.live.setups[0], live.live.operations[-1])
    ((_, svg),) = room.pictures
    scale = re.search(r">([\d.]+) : ([\d.]+)<", svg)
    assert scale is not None
    k = float(scale[1]) / float(scale[2])
    core = MAJOR / 2 - 0.54 * PITCH
    across, long = 2 * max(MAJOR / 2 * k, core * k + 0.7), DEEP * k
    straight = [(float(style.get("stroke-width", 0)), np.array(line)) for style, found in paths(svg) for line in found]
    ends = [(width, line[0], line[-1] - line[0]) for width, line in straight if len(line) == 2]
    narrow = [(at, way) for width, at, way in ends if width == 0.25 and abs(np.hypot(*way) - long) < 0.03]
    apart = [_apart(a, b) for a, b in combinations(narrow, 2)]
    assert any(abs(one - across) < 0.03 for one in apart)
    assert any(width == 0.5 and abs(np.hypot(*way) - across) < 0.03 for width, _, way in ends)


def _apart(first: tuple[np.ndarray, np.ndarray], second: tuple[np.ndarray, np.ndarray]) -> float:
    """Distance of two lines that lie side by side; nothing where they do not."""
    (a, way), (b, other) = first, second
    along = way / np.hypot(*way)
    if abs(along[0] * other[1] - along[1] * other[0]) > 0.02:
        return 0.0
    middle = (b + other / 2) - (a + way / 2)
    return float(np.hypot(*middle)) if abs(middle @ along) < 0.03 else 0.0
