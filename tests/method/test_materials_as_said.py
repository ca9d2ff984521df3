"""Materials as people call them, through the whole path: speed, feed, time, weight, price, what to heed, which drill."""

from __future__ import annotations

import pytest
from tests.method.bench import THREE_JAW, block, method, work_out

OPS = (
    "turn: to 36 mm, over 20 mm",
    "centre: 2.5 mm",
    "drill: 8.5 mm, deep 25 mm",
    "tap: M10, deep 12 mm",
    "chamfer: 1 mm",
)
SAID = {
    "aluminium 6082": (2.70, "long-swarf"), "delrin": (1.41, "plastic-heat"), "tufnol": (1.36, "laminate-dust"),
    "gunmetal": (8.8, ""), "cast iron bar": (7.2, "iron-dust"), "silver steel": (7.83, ""), "gauge plate": (7.8, ""),
    "brass bar": (8.47, ""), "phosphor bronze": (8.85, ""), "nylon": (1.14, "plastic-heat"),
    "PTFE": (2.17, "plastic-fume"), "perspex": (1.19, "brittle-plastic"), "fibreglass": (1.85, "laminate-dust"),
    "mild steel": (7.85, ""), "copper bar": (8.9, ""),
}  # fmt: skip
"""Name → density in g/cm³ (handbooks, from memory), and the caution that it brings."""


@pytest.mark.parametrize("name", SAID)
def test_it_goes_through_the_whole_path(name: str) -> None:
    density, key = SAID[name]
    made = work_out(method(THREE_JAW + "".join(block("op", line) for line in OPS), material=name))
    assert [str(problem) for problem in made.method.problems] == []
    turned, centred, drilled, tapped, _ = made.live.operations
    for done in (turned, centred, drilled):
        facts = {fact.key for fact in done.facts}
        assert {"spindle_speed", "feed"} <= facts
        assert done.worked.minutes > 0
        assert done.grams_after > 0
    assert not key or key in {caution.key for done in made.live.operations for caution in done.cautions}
    assert tapped.tool_name == "M10 tap"
    stock = 3.14159265 / 4 * 4.0**2 * 6.0
    assert made.live.pieces[made.live.main].grams == pytest.approx(stock * density, rel=0.03)
