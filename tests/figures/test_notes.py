"""Is arranging the notes of a view bounded by counting, however many there are, and better than the plain stair?"""

from __future__ import annotations

import itertools
import math
import random
from typing import Any

import pytest

from methodfigures.paper.lanes import Note
from methodfigures.part import notes


@pytest.mark.parametrize("count", [1, 6, 17, 60, 200])
def test_notes_change_places_in_a_counted_number_of_looks(count: int, monkeypatch: pytest.MonkeyPatch) -> None:
    looked: list[int] = []
    real = notes._cost

    def counted(both: Any, room: notes.Room) -> tuple[int, float]:
        looked.append(2 * count * count)
        return real(both, room)

    monkeypatch.setattr(notes, "_cost", counted)
    rng, room = random.Random(3), notes.Room(0.0, 60.0, -20.0, 140.0)
    some = [Note((rng.uniform(30, 60), rng.uniform(-40, -2)), f"R{number}.771") for number in range(count)]
    standing = notes.flights(some, room)
    assert {one.note for one in standing} >= set(some) or any("\n" in one.note.words for one in standing)
    assert len(standing) == count
    once = 2 * count * count  # beside the rounds: the plain stairs, what came of each round, the two at the end
    assert sum(looked) <= 2 * notes.LOOKS + (8 + 2 * notes.TRIES) * once
    assert len(looked) > 8 or count != 17  # a few notes do change places


def test_a_stair_has_its_landings_one_above_the_other() -> None:
    some = [Note((10.0 * number, -5.0), "a hole") for number in range(40)]
    standing = notes.flights(some, notes.Room(0.0, 200.0, -50.0, 450.0))
    left = sorted(one.y for one in standing if not one.right)
    assert all(math.isclose(b - a, notes.STAIR) for a, b in itertools.pairwise(left))
