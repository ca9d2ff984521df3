from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.reading.method_file import is_method, parse_method, read_method
from methodsheets.reading.problem import Problems

FRONT = "---\nmethod: Guide bush, reamed\n---\n\n"


def parse(text: str, path: str = "methods/bush.md"):
    problems = Problems()
    return parse_method(text, path, problems), [str(problem) for problem in problems]


def body(text: str):
    return parse(FRONT + text)


def test_blocks_in_their_order_with_places_and_kinds() -> None:
    method, problems = body(
        "```calc\na = 1 mm\n```\n\n```setup\nhold: vice\n```\n\n- x\n\n    ```op\n    face: a\n    ```\n"
    )
    assert problems == []
    assert [(b.kind, b.index, str(b.place), b.end_line, b.indent) for b in method.blocks] == [
        ("calc", 0, "methods/bush.md:5:1", 7, 0),
        ("setup", 1, "methods/bush.md:9:1", 11, 0),
        ("op", 2, "methods/bush.md:15:5", 17, 4),
    ]
    assert str(method.blocks[2].entry("face").text.place) == "methods/bush.md:16:11"
    assert method.blocks[2].source == "face: a"
    assert method.slug == "bush"


def test_calc_lines() -> None:
    method, problems = body(
        '```calc\n# all in mm\nthrow = 6 mm    # half the stroke\n\nseat=fit(bore, "H7 # s6")\n```\n'
    )
    assert problems == []
    lines = method.blocks[0].lines
    assert [(line.name.value, line.expression.value, line.label) for line in lines] == [
        ("throw", "6 mm", "half the stroke"),
        ("seat", 'fit(bore, "H7 # s6")', ""),
    ]
    assert str(lines[0].expression.place) == "methods/bush.md:7:9"


def test_a_calc_line_goes_on_while_brackets_are_open() -> None:
    method, problems = body("```calc\npress = press_fit(seat,\n    length=12 mm,\n    hub=3 mm)  # label\nb = 2\n```\n")
    assert problems == []
    first, second = method.blocks[0].lines
    assert (first.label, second.name.value) == ("label", "b")
    assert str(first.expression.at(first.expression.value.index("hub"))) == "methods/bush.md:8:5"


def test_an_open_bracket_does_not_swallow_the_next_line() -> None:
    method, _ = body("```calc\na = (1 mm\nb = 2 mm\n```\n")
    assert [line.name.value for line in method.blocks[0].lines] == ["a", "b"]


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("6 mm", "not a calculation (got `6 mm`); a line is `name = expression  # label`; give the result a name"),
        ("2x = 3", "not a name (got `2x`); a name is letters, digits and _; choose another name, e.g. `hub_length`"),
        ("pi = 3", "not a name (got `pi`); the language needs this word itself; "
         "choose another name, e.g. `hub_length`"),
        ("a =", "`a` has no expression; a line is `name = expression  # label`; write its value behind the `=`"),
    ],
)  # fmt: skip
def test_bad_calc_lines(line: str, message: str) -> None:
    method, problems = body(f"```calc\n{line}\nb = 1\n```\n")
    assert problems == [f"methods/bush.md:6:1: {message}"]
    assert [found.name.value for found in method.blocks[0].lines] == ["b"]


def test_a_colon_in_place_of_the_sign_of_equality_is_told_once_and_the_line_is_read() -> None:
    method, problems = body("```calc\nthrow: 6 mm\nb = throw\n```\n")
    assert problems == [
        "methods/bush.md:6:1: not a calculation (got `throw: 6 mm`); a line is `name = expression  # label`; "
        "write `=` in place of `:`"
    ]
    assert [(line.name.value, line.expression.value) for line in method.blocks[0].lines] == [
        ("throw", "6 mm"),
        ("b", "throw"),
    ]


def test_a_block_that_runs_into_the_next_one_is_said_to_be_open() -> None:
    method, problems = body("```part\n- round: 8 mm, over 9 mm\n\n```setup\nmachine: lathe\n```\n")
    assert problems == [
        "methods/bush.md:5:1: the part block is not closed: another block begins in line 8; it ends with a line of "
        "the same marks, indented alike; add a line ``` where it ends; what stands behind it comes back then"
    ]
    assert method.blocks[0].entries[0].text.value == "8 mm, over 9 mm"


def test_blanks_that_came_with_copied_text_are_blanks() -> None:
    method, problems = body("```op\nturn:\u00a0to 8\u00a0mm,\u202fover 9\u2009mm\n```\n")
    assert problems == []
    assert method.blocks[0].entry("turn").text.value == "to 8 mm, over 9 mm"


def test_a_heading_is_fresh_once() -> None:
    method, _ = body(
        "# Bush\n\n```setup\nhold: a\n```\n\n## Turn\n\n```setup\nhold: b\n```\n\n```op\nface: a\n```\n\n"
        "### Bore\n\n```calc\na = 1\n```\n\n```op\nbore: b\n```\n"
    )
    assert [(b.kind, b.heading.text if b.heading else None, b.heading_is_fresh) for b in method.blocks] == [
        ("setup", None, False),
        ("setup", "Turn", True),
        ("op", "Turn", False),
        ("calc", "Bore", True),
        ("op", "Bore", True),
    ]


def test_headings_of_level_one_title_where_there_are_several() -> None:
    method, _ = body("# Turn\n\n```op\nface: a\n```\n\n# Bore\n\n```op\nbore: b\n```\n")
    assert [b.heading.text for b in method.blocks] == ["Turn", "Bore"]


def test_placeholders() -> None:
    method, problems = body("About {{ press.force_max }} and `{{ not }}` here.\n")
    assert problems == []
    (placeholder,) = method.placeholders
    assert placeholder.expression.value == "press.force_max"
    assert str(placeholder.expression.place) == "methods/bush.md:5:10"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("words\n", "methods/bush.md:1:1: the file has no front matter; a method file begins with `---`, its keys, "
         "and `---`; write `method:` and its title between two lines `---`"),
        ("---\nmethod: x\n", "methods/bush.md:1:1: the front matter is not closed; it ends with a line `---`; "
         "add that line"),
        ("---\ntitle: x\n---\n", "methods/bush.md:2:1: the front matter does not name the method; the key `method` "
         "gives its title; write for instance `method: Guide bush, reamed`"),
    ],
)  # fmt: skip
def test_files_that_are_no_method(text: str, message: str) -> None:
    method, problems = parse(text)
    assert method is None
    assert problems == [message]
    assert not is_method(text) or "not closed" in message


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (FRONT, True),
        ("\ufeff---\r\npart: x\r\nmethod: y\r\n---\r\n", True),
        ("---\ntitle: x\n---\n\nmethod: y\n", False),
        ("---\nnote: the method: x\n---\n", False),
        ("method: x\n", False),
        ("", False),
    ],
)
def test_cheap_test_for_a_method(text: str, expected: bool) -> None:
    assert is_method(text) is expected


def test_all_problems_are_found_in_one_run() -> None:
    method, problems = parse(
        "---\nmethod: x\nmakes: five\nstatus: done\ndate: 25.11.2026\nmatrial: EN1A\nsummary:\nhide: [toc]\n---\n"
        "```setups\nhold: a\n```\n\n```op extra\nface: 1\n```\n\n```op\n```\n\n{{ x }\n\n```op\nface: 1\n"
    )
    assert problems == [
        "methods/bush.md:6:1: unknown key `matrial` in the front matter; did you mean `material`?",
        "methods/bush.md:7:1: `summary` has no value; One or two sentences for the index.; "
        "write it or take the key away",
        "methods/bush.md:3:8: `makes` is not a number of parts (got five); a whole number from 1 to 100,000; "
        "write for instance `makes: 5`",
        "methods/bush.md:4:9: unknown status (got `done`); it is draft, proven or retired; "
        "known: `draft`, `proven`, `retired`",
        "methods/bush.md:5:7: not a day (got 25.11.2026); a date is YYYY-MM-DD; write for instance 2026-11-25",
        "methods/bush.md:10:1: a block of an unknown kind (got `setups`); blocks are calc, setup, op, part; "
        "did you mean `setup`?",
        "methods/bush.md:14:1: words behind the kind of a block (got `extra`); only the kind stands there; "
        "write ```op alone",
        "methods/bush.md:18:1: the op block is empty; fill it or take it away",
        "methods/bush.md:23:1: the op block is not closed; it ends with a line of the same marks, indented alike; "
        "add a line ``` behind line 25",
        "methods/bush.md:21:1: `{{` without a name and `}}`; a placeholder is `{{ name }}`; "
        "write the name and close it, or write \\{{ for the braces themselves",
    ]
    assert [entry.key.value for entry in method.front.page] == ["hide"]


def test_limits_of_operations_and_lines() -> None:
    block = "```op\nface: 1 mm\n```\n\n"
    method, problems = body(block * 201)
    assert len(method.of_kind("op")) == 200
    assert problems == [
        "methods/bush.md:805:1: the method has too many operations (got 201); at most 200 operations of a method; "
        "split it into two methods"
    ]
    assert body(block * 200)[1] == []
    method, problems = body("```calc\n" + "".join(f"a{n} = 1\n" for n in range(2001)) + "```\n")
    assert [problem.split(";")[0] for problem in problems] == [
        "methods/bush.md:5:1: the method has too many calculations (got 2,001)"
    ]


def test_windows_line_ends_change_no_place(tmp_path: Path) -> None:
    text = FRONT + "```op\nface: 1 mm\n```\n"
    (tmp_path / "a.md").write_bytes(text.encode())
    (tmp_path / "b.md").write_bytes(text.replace("\n", "\r\n").encode())
    problems = Problems()
    a, b = (read_method(tmp_path / name, tmp_path, problems, "same.md") for name in ("a.md", "b.md"))
    assert a.blocks == b.blocks
    assert not problems.found


def test_an_unclosed_block_of_another_kind_is_an_error() -> None:
    _, problems = body("```python\nx = 1\n\n```op\nface: 1\n")
    assert problems == [
        "methods/bush.md:5:1: a fenced block is not closed; everything behind it is taken as code; "
        "close it with a line of the same marks"
    ]


@pytest.mark.parametrize(
    ("name", "slug"), [("Eccentric Spindle.md", "eccentric-spindle"), ("a_b--c.md", "a-b-c"), ("Ø.md", "name-47af2fb1")]
)
def test_slugs_are_safe_in_addresses(name: str, slug: str) -> None:
    assert parse(FRONT, f"methods/{name}")[0].slug == slug


@given(st.text(alphabet="`~ \n-:=#{}()[]\"'ax1,@&*!|>calopse\t", max_size=300))
def test_any_body_gives_a_method_and_problems_only(text: str) -> None:
    method, problems = body(text)
    assert method is not None
    assert all(problem.startswith("methods/bush.md:") for problem in problems)
