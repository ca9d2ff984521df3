"""Tests of `pages.mates`: which size is made to which."""

from dataclasses import replace

import pytest
import sample_methods
import samples

from methodsheets.pages.mates import content_digest, mate_of, sizes_of


def method(**changes):
    return replace(sample_methods.method("eccentric-two-pieces", samples.SMALL), **changes)


def sizes(made):
    return {size.key: size for operation in made.operations for size in sizes_of(operation)}


def changed(made, number, change):
    """The method with the limits of one operation changed."""
    setups = tuple(
        replace(
            setup,
            operations=tuple(
                replace(one, limits=tuple(change(limit) for limit in one.limits)) if one.number == number else one
                for one in setup.operations
            ),
        )
        for setup in made.setups
    )
    return replace(made, setups=setups)


@pytest.mark.parametrize("name", ["bore", "journal H7", "12345", "limits(a, b)"])
def test_a_bore_is_found_whatever_it_is_called(name):
    made = changed(method(), 40, lambda limit: replace(limit, name=name))
    assert mate_of(made, sizes(made)["50-seat"]).key == f"40-{name}"


def test_a_shaft_is_never_paired_with_a_shaft():
    made = changed(method(), 40, lambda limit: replace(limit, fit="16 h7"))
    assert mate_of(made, sizes(made)["50-seat"]) is None


def test_another_size_is_no_mate():
    other = replace(sample_methods.BORE_LIMIT.nominal, value=17.0)
    made = changed(method(), 40, lambda limit: replace(limit, nominal=other))
    assert mate_of(made, sizes(made)["50-seat"]) is None


def test_two_sizes_of_one_name_have_keys_of_their_own():
    operation = method().operations[3]
    twice = replace(operation, limits=operation.limits * 2)
    keys = [size.key for size in sizes_of(twice)]
    assert len(keys) == len(set(keys)) == 2


def test_what_a_sheet_is_about_changes_with_limits_and_passes_and_with_nothing_else():
    before = content_digest(method())
    assert content_digest(method(revision="C", date="2027-01-01", digest="x", summary="said otherwise")) == before
    wider = changed(method(), 40, lambda limit: replace(limit, upper=replace(limit.upper, value=16.03)))
    assert content_digest(wider) != before
