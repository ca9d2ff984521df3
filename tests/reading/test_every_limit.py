"""Is every limit of the table one that a file can meet, and does its message begin as the table says?

A limit without a case here fails; so the page of the limits cannot promise what the code does not do.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from tests.formula.worth import value_of
from tests.method.bench import THREE_JAW, block, method, work_out

from methodsheets.formula.scope import Scope
from methodsheets.handbook import build, plan, records
from methodsheets.handbook.build import build_handbook
from methodsheets.handbook.model import Options
from methodsheets.method import metal
from methodsheets.method import scope as reader
from methodsheets.method.references import references
from methodsheets.method.scope import handbook_functions
from methodsheets.reading import limits
from methodsheets.reading.limits import Limit, all_limits
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import MethodError, Problems
from methodsheets.reading.source import read_source
from methodsheets.trade.form import calculation
from methodsheets.workshop.reader import read_workshop

LIMITS = dict(all_limits())
HEAD = "---\nmethod: A bush\n---\n\n"
Said = Callable[[Path, pytest.MonkeyPatch], list[str]]


def read(text: str, name: str = "bush.md") -> Said:
    """What is said of a file when it is read."""

    def said(folder: Path, _: pytest.MonkeyPatch) -> list[str]:
        problems = Problems()
        (folder / name).write_text(text, "utf-8")
        source = read_source(folder / name, folder, problems, name)
        if source is not None:
            parse_method(source.text, name, problems)
        return [str(one) for one in problems]

    return said


def worked(text: str) -> Said:
    """What is said of a method when it is worked out."""
    return lambda _folder, _: [str(one) for one in work_out(text).live.problems]


def turned(*lines: str) -> Said:
    """What is said of one operation in a chuck."""
    return worked(method(THREE_JAW + block("op", *lines)))


def formula(*lines: str) -> Said:
    """What is said of the last of some calculations, each named a, b, c … in turn."""

    def said(_folder: Path, __: pytest.MonkeyPatch) -> list[str]:
        scope = Scope()
        for name, line in zip("abcdefghijklmnop", lines, strict=False):
            try:
                scope.define(name, value_of(line, scope, handbook_functions()))
            except MethodError as error:
                return [str(error.problem)]
        return []

    return said


def smaller(module: Any, name: str, said: Said, most: int = 100) -> Said:
    """The same with a limit that is met sooner, for what would take the test long."""

    def made(folder: Path, patch: pytest.MonkeyPatch) -> list[str]:
        limit: Limit = getattr(module, name)
        patch.setattr(module, name, Limit(most, limit.of, limit.why, limit.said))
        return said(folder, patch)

    return made


def shop(tools: str) -> Said:
    def said(folder: Path, _: pytest.MonkeyPatch) -> list[str]:
        problems = Problems()
        (folder / "shop.yml").write_text(f"workshop: A\nmachines:\n  lathe:\n    kind: lathe\n{tools}", "utf-8")
        read_workshop(folder / "shop.yml", folder, problems, "shop.yml")
        return [str(one) for one in problems]

    return said


def passed_over(_folder: Path, __: pytest.MonkeyPatch) -> list[str]:
    """References beyond the limit are passed over, as the table says."""
    text = "".join(block("setup", f'stock: from "m{n}"', "hold: x") for n in range(90)) + "".join(
        block("op", f"press in: p{n}") for n in range(90)
    )
    found = parse_method(HEAD + text, "bush.md", Problems())
    assert found is not None
    assert len(references(found)) == LIMITS["REFERENCES"]
    return [LIMITS["REFERENCES"].said]


def built(rooms: tuple[Any, ...], name: str) -> Said:
    """What is said of a whole handbook of two methods, one of them with two files of records, when one is the most."""

    def said(folder: Path, patch: pytest.MonkeyPatch) -> list[str]:
        limit: Limit = getattr(rooms[0], name)
        for room in rooms:
            patch.setattr(room, name, Limit(1, limit.of, limit.why, limit.said))
        (folder / "workshops").mkdir()
        (folder / "records").mkdir()
        (folder / "workshops" / "shop.yml").write_text("workshop: A\nmachines:\n  lathe:\n    kind: lathe\n", "utf-8")
        for slug in ("bush", "cap"):
            (folder / f"{slug}.md").write_text(HEAD, "utf-8")
            (folder / "records" / f"bush--{slug}.csv").write_text("date,operation,minutes\n2026-03-01,10,4\n", "utf-8")
        return [str(one) for one in build_handbook(Options(folder, (folder,), store=None, workers=1)).problems]

    return said


def many_values(folder: Path, patch: pytest.MonkeyPatch) -> list[str]:
    """The rooms of the trade know nothing of files, so their number is their own; `test_shape` holds them together."""
    patch.setattr(calculation, "MOST_ITEMS", 100)
    return formula(f"runout_chain([{', '.join(['0.01 mm'] * 101)}])")(folder, patch)


SOLVED = "solve(b, b * a == 3, low=0.1, high=90)"
SOLVED = f"solve(c, c + solve(a, a * {SOLVED} * 0 + a == 3.3, low=0.1, high=9) * 0 == 1.23, low=0, high=9)"
COLLET = block("setup", "machine: mill", "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up")
LIST = "[1, 1, 1, 1, 1, 1, 1, 1, 1, 1]"
CASES: dict[str, Said] = {
    "FILE_BYTES": read("a\n" * 200_001),
    "LINES": read("a\n" * 10_001),
    "LINE": read("a" * 4_001),
    "ENTRIES": read(HEAD + block("op", "note:", *["- a"] * 5_001)),
    "VALUE": read(HEAD + block("op", "note: |", *["  " + "word " * 400] * 5)),
    "LEVELS": read(HEAD + block("op", "note: " + "[" * 9 + "]" * 9)),
    "REFERENCES": passed_over,
    "HEADINGS": read(HEAD + "# a\n\n" * 401),
    "HEADING": read(HEAD + "# " + "a" * 300),
    "INDENT": read(HEAD + " " * 61 + "a"),
    "QUOTES": read(HEAD + ">" * 11 + "a"),
    "MARKS": read(HEAD + "[" * 401),
    "MARKS_OF_A_PAGE": read(HEAD + ("*" * 400 + "\n\n") * 80),
    "FOOTNOTES": read(HEAD + "[^a]: b\n\n" * 2_001),
    "PARAGRAPH": read(HEAD + ("word " * 100 + "\n") * 41),
    "DIGITS_IN_A_ROW": read(HEAD + "9" * 201),
    "TAGS": read(HEAD + "<b>\n\n" * 4_001),
    "OPERATIONS": read(HEAD + block("op", "a: b") * 201),
    "SETUPS": read(HEAD + block("setup", "hold: b") * 101),
    "FEATURES": read(HEAD + block("part", *["- drill: 1 mm"] * 501)),
    "CALCULATIONS": read(HEAD + block("calc", *[f"a{n} = 1" for n in range(2_001)])),
    "MADE_AT_ONCE": read(HEAD.replace("bush", "bush\nmakes: 100001")),
    "RECORD_LINES": smaller(limits, "RECORD_LINES", read("a,b\n" * 101, "bush.csv")),
    "SIZES_OF_A_TOOL": shop("tools:\n  drills:\n    kind: drill\n    sizes: 0.001 to 30 by 0.001 mm\n"),
    "EXPRESSION": formula("1 + " * 600 + "1"),
    "NESTING": formula("(" * 41 + "1" + ")" * 41),
    "DIGITS": formula("1" * 31),
    "EXPONENT": formula("1e31"),
    "POWER": formula("2 ** 101"),
    "WORDS": formula('"' + "a" * 201 + '"'),
    "NAME": formula("a" * 61),
    "ARGUMENTS": formula("[" + "1, " * 200 + "1]"),
    "FIELDS": formula("a" + ".b" * 9),
    "LEAVES": formula(LIST, "[a, a, a, a, a, a, a, a, a, a]", "[b, b, b, b, b, b, b, b, b, b]", "[c, c, c]"),
    "LIST_LEVELS": formula("[1]", "[a]", "[b]", "[c]", "[d]", "[e]", "[f]", "[g]", "[h]"),
    "CALCULATION_LINES": formula("peck_depths(1000 m, 0.001 mm)"),
    "HOLES": turned("drill: 1 mm, deep 5 mm, on circle 20 mm, divide 401"),
    "PASSES": turned("turn: to 20 mm, over 20 mm", "depth: 0.0001 mm"),
    "OVERLAPS": worked(method(COLLET + block("op", "flat: across 30 mm, over 12 mm, divide 200"))),
    "BODIES": turned("rivet: 3 mm, on circle 30 mm, divide 61"),
    "BODIES_MET": turned("rivet: 10 mm, on circle 15 mm, divide 12"),
    "STOCK": worked(method(THREE_JAW, stock="round 40 mm x 3 m")),
    "FACETS": smaller(metal, "FACETS", turned("turn: to 20 mm, over 20 mm")),
    "FACETS_JOINED": smaller(metal, "FACETS_JOINED", turned("rivet: 3 mm, on circle 30 mm, divide 2")),
    "FACETS_IN_ALL": smaller(metal, "FACETS_IN_ALL", worked(method(THREE_JAW + block("op", "face: 1 mm") * 3))),
    "RESULTS": built((plan, build), "RESULTS"),
    "RECORD_FILES": built((records,), "RECORD_FILES"),
    "STEPS": formula(SOLVED),
    "STEPS_OF_A_METHOD": smaller(
        reader, "MOST_STEPS_OF_A_METHOD", worked(method(block("calc", *[f"a{n} = {'1 + ' * 20}1" for n in range(9)])))
    ),
    "CALCULATION_ITEMS": many_values,
    "REACH": turned("turn: to 20 mm, over 11 m"),
}  # fmt: skip


def test_every_limit_has_a_case() -> None:
    assert set(CASES) == set(LIMITS)


@pytest.mark.parametrize("name", CASES)
def test_beyond_a_limit_the_message_of_the_table_is_said(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said = CASES[name](tmp_path, monkeypatch)
    assert any(LIMITS[name].said in one for one in said), (LIMITS[name].said, [one[:300] for one in said[:3]])
