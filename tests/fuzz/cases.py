"""Files and formulas that nobody would write: one case from one seed, so that a fault found once is found again."""

from __future__ import annotations

import base64
import functools
import html
import random
import re
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

from tests.formula.worth import value_of
from tests.fuzz import vocabulary

from methodsheets.drawings.drawing_room import draw_method
from methodsheets.faces.cli_give import given
from methodsheets.faces.command import CommandError
from methodsheets.formula.scope import Scope
from methodsheets.handbook.records import parse_records
from methodsheets.handbook.sayings import method_of
from methodsheets.handbook.work import PASSING
from methodsheets.method.evaluate import evaluate_method
from methodsheets.method.references import references
from methodsheets.method.scope import handbook_functions
from methodsheets.operations.manner import guide
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import MethodError, Problems
from methodsheets.reading.source import read_source, unify_lines
from methodsheets.reading.tidying import tidied
from methodsheets.vocabulary.saying import SAYINGS
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.reader import read_workshop
from methodsheets.workshop.schema import workshop_schema

ATOMS = (
    ["1", "2.5", "0", "-1", "1e30", "1e-30", "3/8", "12.5", "100", "0.001", "true", "false", "pi", "a", "b"]
    + [f"{number} {unit}" for number in ("1", "0", "-3", "1e20") for unit in
       ("mm", "in", "m", "um", "deg", "rad", "degC", "degF", "K", "1/min", "m/min", "mm/min", "N", "N*m", "MPa", "kg", "W", "min", "%", "rad/s", "deg/s", "money", "g/cm^3", "1/K")]
    + ['"H7"', '"M6"', '"EN1A"', '"lathe"', '""', "[1, 2]", "[1 mm, 2 mm]", "(1 mm, 2 mm)", "[]"]
)  # fmt: skip
SIGNS = ("+", "-", "*", "/", "**", "<", "<=", "==", "!=", "and", "or")
RECORDS = (
    "date,batch,operation,limit,part,measured,minutes,note\n2026-11-25,1,10,bore,1,7.995,3.5,good\n" * 3,
    'Date;Batch;Op;Size;Part;Measured;Minutes;Note\r\n2026-11-25;1;10;bore;1;7,995;3,5;"good; or so"\r\n' * 3,
    "\ufeffday\top\tmm\n2026-11-25\t10\t7.995 mm\n2026-11-26\t10\t0.315 in\n",
)
STRAYS = (
    "\0", "\ufeff", "\u2028", "[" * 50, "{{", "```", "---\n", ": ", "#", "9" * 40, "<!--", "<![", "\t", '"', "'", "&a *a",
    "!!x", "1e999", "1/0", "-" * 20, "ä", "\r", "../..", "mm", "through", ", to 5 mm", "0 mm", "1e9 mm", "-3 mm", "from ",
)  # fmt: skip
NUMBER = re.compile(r"\d+(?:\.\d+)?")
SIZES = (
    "0",
    "-1",
    "1e-9",
    "0.001",
    "1",
    "7",
    "30",
    "1000",
    "2000",
    "1e9",
    "99999999",
    "1/3",
    "400",
    "12.5",
    "x",
    '"H7"',
)
MOST_OPERATIONS = 6
"""Operations of a method of the tests that is mangled: more of them only take longer."""
METHODS = tuple(
    text
    for text in (
        *(file.read_text("utf-8") for file in sorted(Path("tests/methods").glob("*.md"))),
        *(method_of(saying, "osierbank-small") for saying in SAYINGS),
    )
    if text.count("```op") <= MOST_OPERATIONS
)
"""Methods that work: those of the tests, and one for every saying of the guide."""
METHOD_LINES = tuple(sorted({line for text in METHODS for line in text.split("\n") if ": " in line}))
WORKSHOPS = tuple(file.read_text("utf-8") for file in sorted(Path("methods/workshops").glob("*.yml")))
FUNCTIONS = sorted(handbook_functions(), key=lambda one: one.name)
PAGE = (
    '<!doctype html>\n<p>{}</p>\n<script type="application/octet-stream" id="method-file" data-name="{}">{}</script>\n'
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


def reworded(rng: random.Random, text: str, others: Sequence[str]) -> str:
    """A text that still has its shape, some of its numbers and lines exchanged for others."""
    for _ in range(rng.randint(1, 4)):
        if rng.random() < 0.6:
            numbers = list(NUMBER.finditer(text))
            if numbers:
                one = rng.choice(numbers)
                text = text[: one.start()] + rng.choice(SIZES) + text[one.end() :]
        else:
            lines = text.split("\n")
            lines[rng.randrange(len(lines))] = rng.choice(others)
            text = "\n".join(lines)
    return text


def outcome(written: str, scope: Scope) -> str:
    """What becomes of an expression: '' for a value, else the code of its problem."""
    try:
        value_of(written, scope, handbook_functions())
    except MethodError as error:
        return error.problem.code
    return ""


@functools.cache
def scope() -> Scope:
    """Two names that expressions may use."""
    made = Scope()
    made.define("a", value_of("3 mm"))
    made.define("b", value_of("20 degC"))
    return made


@functools.cache
def _workshop_lines() -> tuple[str, ...]:
    """A line for every key that a workshop knows, and all lines of the demo's workshops."""
    said = ("3", "30, 45 to 90", "MT2", "-1", "1e999", "{a: 1}", "[1, [2]]", "true", "x", "100 mm, 4 in", "")
    keys = sorted(set(_keys_of(workshop_schema())))
    lines = {line for text in WORKSHOPS for line in text.split("\n") if ": " in line}
    indents = sorted({line[: len(line) - len(line.lstrip())] for line in lines})
    return (*sorted(lines), *(f"{indent}{key}: {word}" for key in keys for indent in indents for word in said))


def _keys_of(schema: Any) -> Iterator[str]:
    if isinstance(schema, dict):
        yield from schema.get("properties", ())
        for inner in schema.values():
            yield from _keys_of(inner)


@functools.cache
def shop() -> Workshop:
    """The workshop that mangled methods are worked out for."""
    folder = Path("methods/workshops")
    return read_workshop(folder / "osierbank-small.yml", folder, Problems(), "small")


def an_expression(rng: random.Random, folder: Path) -> None:
    """A formula, a fifth of them mangled."""
    written = expression(rng)
    if rng.random() < 0.2:
        written = mangled(rng, written)
    said = outcome(written, scope())
    assert said != "crash", written


def a_method(rng: random.Random, folder: Path) -> None:
    """A method that was made up, reworded or mangled, read and worked out on the solid."""
    _work_out(_method_text(rng).encode("utf-8", "surrogatepass"), folder / "bush.md")


def _method_text(rng: random.Random) -> str:
    how = rng.random()
    if how < 0.4:
        return vocabulary.a_text(rng)
    text = rng.choice(METHODS)
    return reworded(rng, text, METHOD_LINES) if how < 0.75 else mangled(rng, text)


def a_picture(rng: random.Random, folder: Path) -> None:
    """A method whose words can be read, worked out and drawn."""
    text = vocabulary.a_text(rng) if rng.random() < 0.4 else reworded(rng, rng.choice(METHODS), METHOD_LINES)
    problems = Problems()
    found = parse_method(text, "bush.md", problems)
    if found is not None:
        made = evaluate_method(found, shop(), lambda slug: None, problems)
        draw_method(made, {}, None)
        wrong = [str(one) for one in made.live.problems if one.code in PASSING]
        assert not wrong, wrong


def _work_out(raw: bytes, file: Path) -> None:
    file.write_bytes(raw)
    problems = Problems()
    source = read_source(file, file.parent, problems, file.name)
    if source is None:
        assert len(problems)
        return
    found = parse_method(source.text, file.name, problems)
    assert found is not None or len(problems)
    if found is not None:
        references(found)
        made = evaluate_method(found, shop(), lambda slug: None, problems)
        wrong = [str(one) for one in made.live.problems if one.code in PASSING]
        assert not wrong, wrong


def a_tidied_file(rng: random.Random, folder: Path) -> None:
    """A mangled method, brought into the form of the guide: tidied once more it stays as it is."""
    text = rng.choice(METHODS)
    spoilt = mangled(rng, text) if rng.random() < 0.6 else reworded(rng, text, METHOD_LINES)
    manner = guide(upgrade=rng.random() < 0.5)
    once = tidied(unify_lines(spoilt), manner)
    assert tidied(once, manner) == once


def a_workshop(rng: random.Random, folder: Path) -> None:
    """A mangled workshop."""
    file = folder / "shop.yml"
    text = rng.choice(WORKSHOPS)
    spoilt = mangled(rng, text) if rng.random() < 0.5 else reworded(rng, text, _workshop_lines())
    file.write_text(spoilt, "utf-8", newline="")
    read_workshop(file, folder, Problems(), "shop.yml")


def a_file_of_records(rng: random.Random, folder: Path) -> None:
    """A mangled file of records."""
    file, problems = folder / "bush.csv", Problems()
    file.write_text(mangled(rng, rng.choice(RECORDS)), "utf-8", newline="")
    source = read_source(file, folder, problems, file.name)
    if source is not None:
        parse_records(source.text, source.path, "bush", problems)


def a_travelling_file(rng: random.Random, folder: Path) -> None:
    """A mangled page with a mangled method in it, read as `methodsheets add` reads it."""
    text, name = rng.choice(METHODS), rng.choice(("bush.md", "../bush.md", "con.md", "ä b%#.md", "/x", ""))
    inner = mangled(rng, text) if rng.random() < 0.5 else text
    packed = base64.b64encode(inner.encode("utf-8", "surrogatepass")).decode("ascii")
    page = PAGE.format("x" * rng.randint(0, 200), html.escape(name), packed)
    file = folder / "bush.html"
    file.write_text(mangled(rng, page) if rng.random() < 0.7 else page, "utf-8", errors="surrogatepass", newline="")
    try:
        _, raw = given(file)
    except CommandError:
        return
    if rng.random() < 0.1:
        _work_out(raw, folder / "taken.md")
    else:
        (folder / "taken.md").write_bytes(raw)
        source = read_source(folder / "taken.md", folder, Problems(), "taken.md")
        if source is not None:
            parse_method(source.text, "taken.md", Problems())


KINDS: dict[str, Callable[[random.Random, Path], None]] = {
    "expressions": an_expression,
    "methods": a_method,
    "pictures": a_picture,
    "tidied": a_tidied_file,
    "workshops": a_workshop,
    "records": a_file_of_records,
    "travelling": a_travelling_file,
}
"""Kind → makes one case of a seeded random and tries it; anything raised is a fault of ours."""
