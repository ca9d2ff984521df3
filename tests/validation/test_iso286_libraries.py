"""Does the whole grid of ISO 286 limits agree with two published libraries, their known wrong cells apart?"""

from __future__ import annotations

import csv
from collections.abc import Iterator

import pytest

from methodsheets.trade.fits.iso286 import deviations, limits, parse_class

from .cases import DATA
from .record import record

# Wrong in the first library; the right values are proved by a toolmaker's page (f6), two tables of grades (E7), the
# second library (f6) and two data files (K6).
WRONG = {
    ("f6", "120-140"): (-43, -68),
    ("f6", "140-160"): (-43, -68),
    ("f6", "160-180"): (-43, -68),
    ("E7", "315-355"): (182, 125),
    ("E7", "355-400"): (182, 125),
    ("K6", "6-10"): (2, -7),
}


def _cells(name: str) -> Iterator[tuple[str, str, tuple[float, float]]]:
    """Yield class, heading and the upper and lower deviation of every cell."""
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(line for line in file if not line.startswith("#")):
            tolerance_class = row.pop("class")
            for heading, cell in row.items():
                upper, lower = cell.split("/")
                yield tolerance_class, heading, (float(upper), float(lower))


def _ours(size: float, tolerance_class: str) -> tuple[float, float]:
    found = limits(size, tolerance_class)
    return round(found.upper_deviation * 1000, 6), round(found.lower_deviation * 1000, 6)


@pytest.mark.copied
def test_the_first_library_agrees_but_for_its_six_wrong_cells() -> None:
    differ: dict[tuple[str, str], tuple[float, float]] = {}
    compared = 0
    for tolerance_class, band, theirs in _cells("iso286_library_a.csv"):
        over, upto = map(float, band.split("-"))
        for size in (over + 0.001, (over + upto) / 2, upto):
            ours = _ours(size, tolerance_class)
            if ours != theirs:
                differ[tolerance_class, band] = ours
        compared += 1
        if (tolerance_class, band) not in WRONG:
            record("ISO 286 grid", "published library isofits 1.0, six wrong cells apart", ours[0], theirs[0])
    assert compared == 1480
    assert differ == WRONG


@pytest.mark.copied
def test_the_second_library_agrees_in_every_cell() -> None:
    compared = 0
    for tolerance_class, size, theirs in _cells("iso286_library_b.csv"):
        ours = _ours(float(size), tolerance_class)
        record("ISO 286 grid", "published library pressfit 0.1.0", ours[0], theirs[0])
        assert ours == theirs, f"{tolerance_class} at {size}"
        compared += 1
    assert compared == 7350


@pytest.mark.parametrize("grade", range(4, 8))
def test_delta_lets_both_bases_fit_alike(grade: int) -> None:
    """P7/h6 grips as H7/p6 does: that is what delta is for (ISO 286-1)."""
    for size in (4, 8, 14, 25, 45, 70, 100, 150, 220, 280, 350, 450):
        for hole, shaft in (("P", "p"), ("R", "r"), ("S", "s"), ("X", "x")):
            _, lower = deviations(size, *parse_class(f"{hole}{grade}"))
            finer = limits(size, f"{shaft}{grade - 1}")
            assert -lower == pytest.approx(finer.upper_deviation), f"{size} {hole}{grade}"
