"""Work that could not be drawn in good time is refused, by counting facets; what was before stands."""

from __future__ import annotations

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.method import metal
from methodsheets.reading.limits import FACETS, FACETS_IN_ALL, Limit

CHUCK = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")


def said(blocks: str) -> list[str]:
    return [str(one) for one in work_out(method(CHUCK + blocks, stock="round 40 mm x 60 mm")).live.problems]


def test_more_holes_than_can_be_drawn_are_not_cut() -> None:
    made = said(block("op", "drill: 0.3 mm, deep 3 mm, on circle 30 mm, divide 400"))
    assert any(f"at most {FACETS:,}" in one for one in made), made


def small(limit: Limit, most: int) -> Limit:
    return Limit(most, limit.of, limit.why, limit.said)


@pytest.mark.parametrize(("name", "limit"), [("FACETS", FACETS), ("FACETS_IN_ALL", FACETS_IN_ALL)])
def test_the_cuts_before_stand(name: str, limit: Limit, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(metal, name, small(limit, 900))
    blocks = "".join(block("op", f"turn: to {39 - i} mm, over {40 - 3 * i} mm") for i in range(6))
    made = work_out(method(CHUCK + blocks, stock="round 40 mm x 60 mm"))
    assert 0 < len(made.live.operations) < 6
    assert any("facets" in str(one) for one in made.live.problems)
