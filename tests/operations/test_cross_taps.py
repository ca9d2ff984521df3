"""What is tapped across the axis: its hole, its lead, its part, its place in the picture?

Tapping sizes are those of ISO 2306 (M4: 3.3, M6: 5), from memory; the lead of two pitches is common practice.
"""

from __future__ import annotations

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.drawings.crosswise import cross_spec
from methodsheets.drawings.solids import Drawn
from methodsheets.method.intention import Threaded

VEES = block("setup", "machine: mill", "hold: vee block, on 30 mm, end A out")
CASES = [
    ("cross-drill: 5 mm, from face 12 mm, deep 18 mm", "cross-tap: M6, from face 12 mm, deep 12 mm", ""),
    ("cross-drill: 5 mm, from face 12 mm, through", "cross-tap: M6, from face 12 mm, through", ""),
    ("cross-drill: 5 mm, from face 12 mm, through, off axis 9 mm", "cross-tap: M6, from face 12 mm, off axis 9 mm", ""),
    ("cross-drill: 5 mm, from face 12 mm, deep 13 mm", "cross-tap: M6, from face 12 mm, deep 12 mm", "thread-end"),
    ("cross-drill: 6 mm, from face 12 mm, through", "cross-tap: M6, from face 12 mm, through", "tapping-drill"),
    ("cross-drill: 5 mm, from face 24 mm, through", "cross-tap: M6, from face 12 mm, through", "tapping-drill"),
]


@pytest.mark.parametrize(("drilled", "tapped", "key"), CASES, ids=[f"{a}; {b}" for a, b, _ in CASES])
def test_a_thread_across_the_work_has_its_hole(drilled: str, tapped: str, key: str) -> None:
    made = work_out(method(VEES + block("op", drilled) + block("op", tapped), stock="round 30 mm x 60 mm"))
    assert [check.key for check in made.method.failed] == ([key] if key else [])
    one = made.live.operations[-1]
    thread = Threaded.of(one.plan, one.line)
    assert thread is not None
    assert thread.inside
    assert thread.length == (12.0 if "deep" in tapped else 0.0)


def test_its_tool_stands_over_the_hole() -> None:
    """Off the axis, the picture's tool and section go through the hole, not through the axis."""
    drilled, tapped, _ = CASES[2]
    made = work_out(method(VEES + block("op", drilled) + block("op", tapped), stock="round 30 mm x 60 mm"))
    spec = cross_spec(Drawn(), made.live.setups[0], made.live.operations[-1])
    axis, _, _ = made.live.operations[-1].plan.axes[0]
    beside = spec.face_point[:2] + spec.aside[:2] - axis.point[:2]
    along = axis.direction[:2]
    assert abs(beside[0] * along[1] - beside[1] * along[0]) < 1e-6
