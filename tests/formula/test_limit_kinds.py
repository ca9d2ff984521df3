"""Are limits never printed wider than they are, in either unit, and fine enough to leave something between them?

1 in = 25.4 mm (exact). ISO 286-2 limits from our own table, which `tests/validation` holds against published rows.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.formula.kinds import limit_kind, write
from methodsheets.trade.fits.iso286 import limits

INCH = 25.4


def shown(size: float, kind: str, system: str) -> float:
    """The printed number, in mm again."""
    number = float(write(size, kind, system).split("\u202f")[0].replace("\u2212", "-"))
    return number * INCH if system == "inch" else number


def held(lower: float, upper: float, system: str) -> tuple[float, float, float]:
    width = upper - lower
    low, high = shown(lower, limit_kind("lower", width), system), shown(upper, limit_kind("upper", width), system)
    return low, shown((lower + upper) / 2, limit_kind("aim", width), system), high


@pytest.mark.parametrize("system", ["metric", "inch"])
@pytest.mark.parametrize("zone", ["H6", "H7", "H8", "h6", "h7", "h9", "f7", "g6", "p6", "s6", "H11"])
@pytest.mark.parametrize("size", [3.0, 6.35, 12.0, 16.0, 24.0, 38.0, 75.0, 120.0])
def test_no_limit_is_printed_wider_than_it_is(size: float, zone: str, system: str) -> None:
    found = limits(size, zone)
    low, aim, high = held(found.lower, found.upper, system)
    assert found.lower - 1e-9 <= low < aim < high <= found.upper + 1e-9
    assert high - low >= 0.85 * (found.upper - found.lower)


@given(st.floats(0.5, 400.0), st.floats(0.003, 2.0), st.sampled_from(["metric", "inch"]))
def test_any_limits_are_rounded_into_the_tolerance(lower: float, width: float, system: str) -> None:
    low, aim, high = held(lower, lower + width, system)
    assert lower - 1e-6 <= low < aim < high <= lower + width + 1e-6


def test_a_window_of_a_tenth_of_a_thou_is_kept() -> None:
    """16 mm make-to window 16.010 to 16.018: 0.630315 to 0.630630 in, by division."""
    assert write(16.010, limit_kind("lower", 0.008), "inch") == "0.63032\u202fin"
    assert write(16.018, limit_kind("upper", 0.008), "inch") == "0.63062\u202fin"
    assert write(16.018, limit_kind("upper", 0.008)) == "16.018\u202fmm"
