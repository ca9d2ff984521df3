"""Is a price found under whichever of its names the workshop file gives the metal?"""

from __future__ import annotations

import pytest

from methodsheets.method.totals import rate_of
from methodsheets.trade.metal.materials import material


@pytest.mark.parametrize("written", ["EN3B", "mild steel", "en 3b", "070M20", "Bright Mild Steel"])
@pytest.mark.parametrize("asked", ["EN3B", "mild steel", "BMS"])
def test_a_price_by_any_name_of_the_metal(written: str, asked: str) -> None:
    assert rate_of({"no such metal": 1.0, "brass": 9.0, written: 3.5}, material(asked)) == 3.5


def test_no_price_is_no_price() -> None:
    assert rate_of({"brass": 9.0, "my own alloy": 2.0}, material("EN3B")) is None


def test_the_own_name_goes_before_another_name() -> None:
    assert rate_of({"mild steel": 3.0, "EN3B": 4.0}, material("EN3B")) == 4.0
