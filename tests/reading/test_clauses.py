import pytest

from methodsheets.reading.clauses import bracket_depth, find_word, split_clauses, split_word, strip_remark
from methodsheets.reading.text import text


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("to 38 mm, over 13 mm", ["to 38 mm", "over 13 mm"]),
        ('limits(bore, "H7"), x', ['limits(bore, "H7")', "x"]),
        ("(1 mm, 2 mm), [a, b]", ["(1 mm, 2 mm)", "[a, b]"]),
        ('"a, b", c', ['"a, b"', "c"]),
        ('at 12°30\'15", to 3/8", x', ["at 12°30'15\"", 'to 3/8"', "x"]),
        ("a,,b", ["a", "", "b"]),
        ("  ", []),
    ],
)
def test_clauses(line: str, parts: list[str]) -> None:
    assert [clause.value for clause in split_clauses(text(line))] == parts


def test_every_clause_has_its_place() -> None:
    first, second = split_clauses(text("to 38 mm,  over 13 mm", "m.md", 7, 5))
    assert (str(first.place), str(second.place)) == ("m.md:7:5", "m.md:7:16")


def test_first_word_and_rest() -> None:
    word, rest = split_word(text("over 30 mm", column=3))
    assert (word.value, rest.value, rest.place.column) == ("over", "30 mm", 8)


def test_a_word_is_found_bare_only() -> None:
    before, after = find_word(text('offset f("at") at 0 deg'), "at")
    assert (before.value, after.value, after.place.column) == ('offset f("at")', "0 deg", 19)
    assert find_word(text("flat path"), "at") is None


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("a = 1 mm   # throw", ("a = 1 mm", "throw")),
        ('a = "x # y"', ('a = "x # y"', "")),
        ("# all", ("", "all")),
        ("a#b", ("a#b", "")),
    ],
)
def test_remarks(line: str, parts: tuple[str, str]) -> None:
    assert strip_remark(line) == parts


def test_brackets_left_open() -> None:
    assert (bracket_depth("f(a, [b"), bracket_depth('f("(")'), bracket_depth("a)")) == (2, 0, -1)
