"""What the long runs of the fuzzers found, once each; it stays mended."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.method.bench import work_out

from .cases import outcome, scope

HOUSING = Path("tests/methods/vice-block.md").read_text("utf-8")


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("drill: 200 mm, through, places (25 mm, 20 mm)", "nothing of the work would be left"),
        ("drill: 99999999 mm, through, places (45 mm, 20 mm)", "out of reach"),
        ("slot: wide 1e9 mm, deep 5 mm, along width", "out of reach"),
    ],
)
def test_an_operation_that_cannot_be_is_a_problem_of_its_line(line: str, said: str) -> None:
    spoilt = HOUSING.replace(
        "drill: 5 mm, deep 14 mm, places (45 mm, 20 mm)\n```\n\n```op\ntap", f"{line}\n```\n\n```op\ntap"
    )
    assert spoilt != HOUSING
    problems = [str(one) for one in work_out(spoilt).live.problems]
    assert any(said in one for one in problems), problems


@pytest.mark.parametrize(
    "written",
    ["table_positions(1e20 %)", "differential_indexing(1e30)", "compound_indexing(0.001)", "peck_depths(1e20 um, 1 m)"],
)
def test_a_calculation_that_would_never_end_is_refused(written: str) -> None:
    assert outcome(written, scope()) not in ("", "crash")
