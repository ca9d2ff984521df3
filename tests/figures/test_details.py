"""Are small places of a part joined by the plain rule, and is what is looked at for it no more than the places?"""

from __future__ import annotations

import random

import numpy as np
import pytest

from methodfigures.part import details
from methodfigures.part.details import Small, _meet, _merged


def some_places(count: int, rng: random.Random, reach: float) -> list[Small]:
    """Small places over so much of a view [mm]."""
    found = []
    for _ in range(count):
        low, least = np.array([rng.uniform(0, reach), rng.uniform(0, 5)]), rng.choice([0.02, 0.1, 0.3, 1.0])
        found.append(Small(low, low + rng.choice([(0, least), (least, 0), (least, 3 * least)]), least))
    return found


def joined_plainly(places: list[Small]) -> list[Small]:
    """The rule as it is said: join the first two that meet, and begin again."""
    found = sorted(places, key=lambda one: (float(one.centre[0]), float(one.centre[1])))
    while True:
        pairs = ((i, k) for i in range(len(found)) for k in range(i + 1, len(found)) if _meet(found[i], found[k]))
        if (pair := next(pairs, None)) is None:
            return found
        i, k = pair
        found[i] = found[i].joined(found.pop(k))


def corners(places: list[Small]) -> list[tuple[float, ...]]:
    return [(*one.low, *one.high, one.least) for one in places]


def test_places_are_joined_by_the_plain_rule() -> None:
    fewer = 0
    for seed in range(40):
        rng = random.Random(seed)
        places = some_places(rng.randint(0, 14), rng, rng.choice([2.0, 6.0, 20.0]))
        assert corners(_merged(places)) == corners(joined_plainly(places)), seed
        fewer += len(places) - len(_merged(places))
    assert fewer > 50  # there was something to join


@pytest.mark.parametrize("apart", [0.12, 0.3])
def test_what_is_looked_at_goes_with_the_number_of_places(monkeypatch: pytest.MonkeyPatch, apart: float) -> None:
    """A bar with many small steps [mm apart]: to begin again after each that was joined goes with the third power."""
    looked_at = 0

    def counted(one: Small, other: Small) -> bool:
        nonlocal looked_at
        looked_at += 1
        return _meet(one, other)

    monkeypatch.setattr(details, "_meet", counted)
    for count in (60, 240, 960):
        looked_at = 0
        left = _merged([Small(np.array([x, 0.0]), np.array([x + 0.1, 0.1]), 0.1) for x in np.arange(count) * apart])
        assert len(left) < count / 20  # nearly all were joined
        assert count - len(left) <= looked_at < 3 * count, count
