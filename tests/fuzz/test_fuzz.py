"""Does anything that is read raise what nobody foresaw? Short in the tests; `make fuzz` goes on for as long as it is let.

Every case comes from a seed, so that a fault found once is found again: `FUZZ_SEED=17 FUZZ_CASES=1 make fuzz`.
"""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest

from methodsheets.formula.evaluate import value_of
from methodsheets.formula.scope import Scope
from methodsheets.handbook.records import parse_records
from methodsheets.method.references import references
from methodsheets.method.scope import handbook_functions
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import MethodError, Problems
from methodsheets.workshop.reader import read_workshop

CASES = int(os.environ.get("FUZZ_CASES", "150"))
SEED = int(os.environ.get("FUZZ_SEED", "0"))

ATOMS = (
    ["1", "2.5", "0", "-1", "1e30", "1e-30", "3/8", "12.5", "100", "0.001", "true", "false", "pi", "a", "b"]
    + [f"{number} {unit}" for number in ("1", "0", "-3", "1e20") for unit in
       ("mm", "in", "m", "um", "deg", "rad", "degC", "degF", "K", "1/min", "m/min", "mm/min", "N", "N*m", "MPa", "kg", "W", "min", "%", "rad/s", "deg/s", "money", "g/cm^3", "1/K")]
    + ['"H7"', '"M6"', '"EN1A"', '"lathe"', '""', "[1, 2]", "[1 mm, 2 mm]", "(1 mm, 2 mm)", "[]"]
)  # fmt: skip
SIGNS = ("+", "-", "*", "/", "**", "<", "<=", "==", "!=", "and", "or")
RECORDS = "date,batch,operation,limit,part,measured,minutes,note\n2026-11-25,1,10,bore,1,7.995,3.5,good\n" * 3
STRAYS = (
    "\0",
    "\ufeff",
    "\u2028",
    "[" * 50,
    "{{",
    "```",
    "---\n",
    ": ",
    "#",
    "9" * 40,
    "<!--",
    "\t",
    '"',
    "'",
    "&a *a",
    "!!x",
    "1e999",
    "-" * 20,
    "ä",
    "\r",
)


def expression(rng: random.Random, depth: int = 0) -> str:
    """A formula from the grammar, its words chosen at random."""
    kind = rng.random() if depth < 4 else 0.0
    if kind < 0.35:
        return rng.choice(ATOMS)
    if kind < 0.6:
        return f"({expression(rng, depth + 1)} {rng.choice(SIGNS)} {expression(rng, depth + 1)})"
    if kind < 0.65:
        return f"{expression(rng, depth + 1)} as {rng.choice(('mm', 'deg', '1/min', 'degC', 'K', '1'))}"
    function = rng.choice(FUNCTIONS)
    wanted = sum(one.required for one in function.parameters) or 1
    count = rng.choice((wanted, wanted, wanted, wanted + 1, 1))
    return f"{function.name}({', '.join(expression(rng, depth + 1) for _ in range(min(count, 8)))})"


FUNCTIONS = sorted(handbook_functions(), key=lambda one: one.name)


def mangled(rng: random.Random, text: str) -> str:
    """A text with pieces taken out, put in, doubled or exchanged."""
    for _ in range(rng.randint(1, 6)):
        at, other = rng.randrange(len(text) + 1), rng.randrange(len(text) + 1)
        low, high = sorted((at, min(at + rng.randint(0, 40), len(text))))
        text = rng.choice(
            (
                text[:low] + text[high:],
                text[:at] + rng.choice(STRAYS) + text[at:],
                text[:high] + text[low:],
                text[:at] + text[other : other + 30] + text[at:],
            )
        )
        text = text or "x"
    return text


@pytest.mark.parametrize("number", range(SEED, SEED + CASES))
def test_expressions(number: int) -> None:
    rng = random.Random(number)
    scope = Scope()
    scope.define("a", value_of("3 mm"))
    scope.define("b", value_of("20 degC"))
    for _ in range(20):
        written = expression(rng)
        if rng.random() < 0.2:
            written = mangled(rng, written)
        assert outcome(written, scope) != "crash", written


def outcome(written: str, scope: Scope) -> str:
    """What becomes of an expression: '' for a value, else the code of its problem."""
    try:
        value_of(written, scope, handbook_functions())
    except MethodError as error:
        return error.problem.code
    return ""


@pytest.mark.parametrize("number", range(SEED, SEED + CASES))
def test_methods(number: int) -> None:
    rng = random.Random(number)
    files = sorted(Path("methods").glob("*.md"))
    text = mangled(rng, rng.choice(files).read_text("utf-8"))
    problems = Problems()
    found = parse_method(text, "methods/bush.md", problems)
    if found is not None:
        references(found)
    assert found is not None or len(problems)


@pytest.mark.parametrize("number", range(SEED, SEED + CASES))
def test_workshops(number: int, tmp_path: Path) -> None:
    rng = random.Random(number)
    files = sorted(Path("methods/workshops").glob("*.yml"))
    file = tmp_path / "shop.yml"
    file.write_text(mangled(rng, rng.choice(files).read_text("utf-8")), "utf-8", newline="")
    read_workshop(file, tmp_path, Problems(), "shop.yml")


@pytest.mark.parametrize("number", range(SEED, SEED + CASES))
def test_records(number: int) -> None:
    parse_records(mangled(random.Random(number), RECORDS), "records/bush.csv", "bush", Problems())
