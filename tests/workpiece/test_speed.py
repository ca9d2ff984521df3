"""What one operation costs. Generous limits: they catch an algorithm that went wrong, not a busy machine."""

import time

import pytest

from methodsheets.geometry import SolidKernel
from methodsheets.workpiece import touched_surfaces

from .parts import one_piece


@pytest.mark.slow
def test_an_operation_costs_about_ten_milliseconds():
    best = min(_milliseconds() for _ in range(4))
    assert best < 60


def _milliseconds() -> float:
    start = time.process_time()
    bench = one_piece(SolidKernel())
    for cut in bench.cuts:
        assert cut.fell_apart == ()
        touched_surfaces(cut)
    return (time.process_time() - start) * 1e3 / len(bench.cuts)
