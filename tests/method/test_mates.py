"""Does a measured size know its partner, whatever the two are called?

H7/f7 at 16 mm: hole +18/0, shaft -16/-34 µm; H7/s6: +18/0, +39/+28 µm (tables of ISO 286-2, from memory).
"""

from __future__ import annotations

import pytest
from tests.method.bench import THREE_JAW, block, demo, method, work_out

from methodsheets.sheet.model import Limit, Method

FIT = block("calc", "journal = 16 mm", 'running = fit(journal, "H7/f7")', 'seat = fit(journal, "H7/s6")')
BORED = block("op", "drill: 15 mm, deep 20 mm") + block(
    "op", 'bore: to 16 mm, deep 20 mm, called "bore of the disc"', 'check: limits(16 mm, "H7") with plug gauge'
)


def limits(made: Method) -> dict[str, Limit]:
    return {limit.id: limit for operation in made.operations for limit in operation.limits}


def worked(*ops: str) -> Method:
    return work_out(method(FIT + THREE_JAW + "".join(ops), stock="round 40 mm x 80 mm")).method


def test_a_fit_pairs_the_sizes_that_have_its_limits() -> None:
    """H7/f7 at 16 mm has a clearance of 16 to 52 µm: a shaft is so much under the bore as it was measured."""
    made = worked(BORED, block("op", "turn: to 16 mm, over 10 mm", 'check: limits(journal, "f7") with micrometer'))
    hole, shaft = limits(made).values()
    (mate,) = shaft.mates
    assert (mate.limit, mate.operation, mate.fit) == (hole.id, 20, "H7/f7")
    assert (mate.add_low, mate.add_high) == (pytest.approx(-0.052), pytest.approx(-0.016))
    (back,) = hole.mates
    assert (back.limit, back.add_low, back.add_high) == (shaft.id, pytest.approx(0.016), pytest.approx(0.052))


@pytest.mark.parametrize("word", ["bore of the disc", "16 mm", "bore"])
def test_a_size_made_to_a_measured_one_finds_it(word: str) -> None:
    """By what the feature is called, by the name of the size, or because no other bore can be meant."""
    turned = block("op", "turn: to 16 mm, over 10 mm", f'check: make_to(seat, "{word}") with micrometer')
    hole, shaft = limits(worked(BORED, turned)).values()
    (mate,) = shaft.mates
    assert mate.limit == hole.id
    assert (mate.add_low, mate.add_high) == (pytest.approx(0.010), pytest.approx(0.039))


def test_two_bores_of_one_size_are_not_guessed_between() -> None:
    again = block("op", "bore: to 16 mm, deep 25 mm", 'check: limits(16 mm, "H7")')
    shaft = block("op", "turn: to 16 mm, over 10 mm", 'check: limits(16 mm, "f7")')
    made = worked(BORED, again, shaft)
    assert not list(limits(made).values())[-1].mates


def test_every_size_has_a_name_of_its_own_and_every_pair_agrees() -> None:
    seen = 0
    for slug in ("eccentric-two-piece", "guide-bush", "feed-screw-and-nut", "handwheel-flange"):
        made = work_out(demo(slug), "osierbank-small", slug).method
        known = limits(made)
        assert len(known) == sum(len(operation.limits) for operation in made.operations)
        for limit in known.values():
            for mate in limit.mates:
                seen += 1
                back = [one for one in known[mate.limit].mates if one.limit == limit.id]
                assert [(one.add_low, one.add_high) for one in back] == [(-mate.add_high, -mate.add_low)]
    assert seen >= 2  # the bore of the disc and the seat of the spindle
