"""Do records come back from JSON as they went, and is damage seen?"""

from __future__ import annotations

import json
import math
from dataclasses import dataclass
from typing import Any, TypeVar

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.formula.measure import Measure
from methodsheets.reading.problem import Place, Problem, Severity
from methodsheets.sheet.model import (
    Fact,
    Limit,
    Method,
    Operation,
    Pass,
    Setup,
    Table,
    Totals,
    Working,
)
from methodsheets.sheet.records import RecordError, json_schema, one_of, pack, to_data, unpack
from methodsheets.sheet.words import Words


def from_data(record_type: type[T], data: object) -> T:
    """What another program makes of the JSON."""
    return msgspec.convert(data, record_type, dec_hook=one_of)


T = TypeVar("T")
WORDS = st.text(max_size=12)
INTEGERS = st.integers(-(2**63), 2**63 - 1)
NUMBERS = st.floats(allow_nan=False, allow_infinity=False)
MEASURES = st.builds(Measure, NUMBERS, WORDS, WORDS, WORDS, WORDS)
SAID = st.builds(Words, WORDS, WORDS)
CELLS = st.one_of(MEASURES, WORDS)
WORKINGS = st.recursive(
    st.builds(Working, WORDS, WORDS),
    lambda inner: st.builds(Working, WORDS, steps=st.lists(inner, max_size=2).map(tuple)),
    max_leaves=4,
)


def some(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[tuple[Any, ...]]:
    return st.lists(strategy, max_size=2).map(tuple)


FACTS = st.builds(Fact, WORDS, WORDS, st.one_of(MEASURES, SAID), some(WORKINGS), SAID, SAID)
PASSES = st.builds(Pass, WORDS, st.none() | MEASURES, st.none() | MEASURES, WORDS, feed=st.none() | MEASURES)
LIMITS = st.builds(Limit, WORDS, MEASURES, MEASURES, MEASURES, add_low=st.none() | NUMBERS)
TABLES = st.builds(Table, WORDS, some(WORDS), some(some(CELLS)))
OPERATIONS = st.builds(
    Operation, INTEGERS, WORDS, WORDS, SAID, SAID, INTEGERS, INTEGERS, WORDS, some(FACTS), some(PASSES),
    some(LIMITS), cutting_minutes=NUMBERS, mass_after=st.none() | MEASURES, tables=some(TABLES),
)  # fmt: skip
SETUPS = st.builds(
    Setup,
    INTEGERS,
    WORDS,
    SAID,
    INTEGERS,
    INTEGERS,
    WORDS,
    WORDS,
    WORDS,
    SAID,
    operations=some(OPERATIONS),
)
PROBLEMS = st.builds(Problem, st.builds(Place, WORDS, INTEGERS, INTEGERS), WORDS, severity=st.sampled_from(Severity))
METHODS = st.builds(
    Method, *[WORDS] * 11, SAID, INTEGERS, WORDS, setups=some(SETUPS), problems=some(PROBLEMS), own_workshop=st.booleans(),
    totals=st.none() | st.builds(Totals, INTEGERS, *[NUMBERS] * 5, stock_mass=st.none() | MEASURES),
    versions=some(st.tuples(WORDS, WORDS)),
)  # fmt: skip


@given(METHODS)
def test_there_and_back(method: Method) -> None:
    assert unpack(Method, pack(method)) == method
    assert from_data(Method, json.loads(json.dumps(to_data(method)))) == method


@given(METHODS)
def test_what_came_back_is_as_good_as_new(method: Method) -> None:
    again = unpack(Method, pack(method))
    assert hash(again) == hash(method)
    assert pack(again) == pack(method)
    assert type(again.problems) is tuple
    assert all(type(problem.severity) is Severity for problem in again.problems)
    with pytest.raises(AttributeError):
        again.title = "other"  # type: ignore[misc]


@pytest.mark.parametrize("value", [math.inf, -math.inf, math.nan])
def test_numbers_that_are_none_stay_valid_json(value: float) -> None:
    measure = Measure(value, "mm", "length", "", "")
    named = json.dumps(to_data(measure), allow_nan=False)
    assert json.loads(named)["value"] in ("Infinity", "-Infinity", "NaN")
    again = unpack(Measure, pack(measure))
    assert again.value == value or (math.isnan(again.value) and math.isnan(value))


@dataclass(frozen=True)
class Sample:
    """A record with one field of each sort."""

    number: float
    count: int
    flag: bool
    words: str
    option: float | None = None
    pair: tuple[str, int] = ("", 0)


GOOD = {"number": 1.5, "count": 2, "flag": True, "words": "x", "option": None, "pair": ["a", 1]}


WRONG = [{"number": "1.5"}, {"number": True}, {"count": 1.5}, {"count": True}, {"flag": 1}, {"words": None}, {"option": "x"},
         {"pair": ["a"]}, {"pair": "ab"}, {"pair": ["a", "b"]}]  # fmt: skip


@pytest.mark.parametrize("change", WRONG, ids=str)
def test_wrong_data_is_refused_with_its_place(change: dict[str, Any]) -> None:
    assert from_data(Sample, GOOD) == Sample(1.5, 2, True, "x", None, ("a", 1))
    with pytest.raises(RecordError, match=rf"no Sample: .*\$\.{next(iter(change))}"):
        unpack(Sample, msgspec.msgpack.encode({**GOOD, **change}))


def test_a_missing_field_is_refused_and_one_with_a_default_is_not() -> None:
    short = {"number": 1, "count": 1, "flag": False}
    with pytest.raises(RecordError, match="missing required field `words`"):
        unpack(Sample, msgspec.msgpack.encode(short))
    assert unpack(Sample, msgspec.msgpack.encode({**short, "words": ""})).option is None


@given(st.binary(max_size=60))
def test_no_bytes_break_it(data: bytes) -> None:
    with pytest.raises(RecordError):
        unpack(Method, data)


@given(
    st.recursive(
        st.none() | st.booleans() | INTEGERS | st.text(max_size=4),
        lambda inner: st.lists(inner, max_size=4),
        max_leaves=12,
    )
)
def test_no_other_json_breaks_it(data: Any) -> None:
    with pytest.raises(RecordError):
        unpack(Method, msgspec.msgpack.encode(data))


def test_what_cannot_be_kept_is_refused() -> None:
    for write in (to_data, pack):
        with pytest.raises(RecordError, match="a object has no place in a record"):
            write(Fact("a", "b", object()))  # type: ignore[arg-type]


def test_the_schema_describes_every_field() -> None:
    schema = json_schema(Method)
    assert schema["$ref"] == "#/$defs/Method"
    for name, described in schema["$defs"].items():
        if "enum" in described:
            continue
        assert described["type"] == "object", name
        assert set(described["required"]) == set(described["properties"])
    assert schema["$defs"]["Fact"]["properties"]["value"]["anyOf"] == [
        {"$ref": "#/$defs/Measure"},
        {"$ref": "#/$defs/Words"},
    ]
    assert schema["$defs"]["Working"]["properties"]["formula"]["description"] == "MathML of the formula."
    assert schema["$defs"]["Severity"]["enum"] == ["error", "warning"]


def test_the_schema_refuses_and_takes_what_the_reader_does() -> None:
    schema = json_schema(Sample)
    assert _fits(GOOD, schema["$defs"]["Sample"], schema)
    for name in ("number", "count", "flag", "words"):
        assert not _fits({**GOOD, name: []}, schema["$defs"]["Sample"], schema)


def _fits(data: Any, schema: dict[str, Any], whole: dict[str, Any]) -> bool:
    """As much of JSON Schema as our schemas use."""
    if "$ref" in schema:
        return _fits(data, whole["$defs"][schema["$ref"].split("/")[-1]], whole)
    if "anyOf" in schema:
        return any(_fits(data, one, whole) for one in schema["anyOf"])
    if "enum" in schema:
        return data in schema["enum"]
    kinds: dict[str, Any] = {"string": str, "boolean": bool, "null": type(None), "array": list, "object": dict}
    kind = schema["type"]
    if kind in ("number", "integer"):
        return isinstance(data, (int, float) if kind == "number" else int) and not isinstance(data, bool)
    if not isinstance(data, kinds[kind]):
        return False
    if kind == "object":
        return set(data) <= set(schema["properties"]) and all(
            _fits(v, schema["properties"][k], whole) for k, v in data.items()
        )
    if kind == "array" and "prefixItems" in schema:
        return len(data) == schema["minItems"] and all(
            _fits(v, one, whole) for v, one in zip(data, schema["prefixItems"], strict=True)
        )
    return True
