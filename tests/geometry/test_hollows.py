"""Is a closed hollow found, and its size?"""

from __future__ import annotations

import math

import pytest

from methodsheets.geometry import SolidKernel


def test_a_shut_hole_is_a_hollow_and_an_open_one_is_none() -> None:
    kernel = SolidKernel(96)
    bar = kernel.cylinder(10, 0, 40, "bar")
    bored = bar - kernel.cylinder(4, 10, 60, "bore")
    assert bored.hollows() == []
    plug = kernel.cylinder(4, 30, 40, "plug")
    assert (bored + plug).hollows() == [pytest.approx(math.pi * 16 * 20, rel=1e-6)]
