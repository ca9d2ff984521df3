"""Does every parameter of every calculation move what comes out in the direction that is declared?

`moves.csv` has a line for each parameter that is a number: which numbers it takes up, takes down, leaves, or moves
either way, and then why. The walk begins at the calculation's own example and goes from half of a value to twice it, in
steps that no table has. A new parameter without a line fails, and so does a line without its parameter.
"""

from __future__ import annotations

import pytest

from .walking import ALL, GIVEN, MANY, declared, seen, walked_along

FACTORS = MANY
LISTED = declared()


def test_every_parameter_has_its_line() -> None:
    assert sorted(LISTED) == sorted(walked_along())
    assert set(GIVEN) <= set(walked_along())


@pytest.mark.parametrize("name", ALL)
def test_it_moves_as_declared(name: str) -> None:
    wrong = []
    for parameter in (one for calculation, one in walked_along() if calculation == name):
        said, found = LISTED[name, parameter], seen(name, parameter, FACTORS)
        wrong += [f"{parameter} takes {one} up" for one in {*found.up, *found.either} - {*said.up, *said.either}]
        wrong += [f"{parameter} takes {one} down" for one in {*found.down, *found.either} - {*said.down, *said.either}]
        wrong += [f"{parameter} does not move {one}" for one in {*found.same} & {*said.up, *said.down}]
    assert wrong == [], f"{name}: say so in moves.csv, with the reason, or mend it"


def test_either_way_has_a_reason() -> None:
    assert [key for key, moves in LISTED.items() if (moves.either or not moves.numbers) and not moves.why] == []
    assert [key for key, moves in LISTED.items() if len(moves.numbers) != len({*moves.numbers})] == []
