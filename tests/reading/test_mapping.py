import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.reading.mapping import Entry, read_items, read_mapping
from methodsheets.reading.problem import Place, Problems
from methodsheets.reading.text import Text

START = Place("m.md", 10, 5)


def read(body: str, **options) -> tuple[tuple[Entry, ...], list[str]]:
    problems = Problems()
    return read_mapping(body, START, problems, **options), [str(problem) for problem in problems]


def test_entries_keep_order_words_and_places() -> None:
    entries, problems = read("turn: to 38 mm, over 13 mm\ntool:  knife tool   # remark\ndeburr:\n")
    assert problems == []
    assert [(e.key.value, e.text.value, str(e.text.place)) for e in entries] == [
        ("turn", "to 38 mm, over 13 mm", "m.md:10:11"),
        ("tool", "knife tool", "m.md:11:12"),
        ("deburr", "", "m.md:12:12"),
    ]
    assert str(entries[1].key.place) == "m.md:11:5"


@pytest.mark.parametrize("word", ["yes", "012", "1:30", "1e3", "null", "~", "2026-11-25", "0x1F", "1_000", "off"])
def test_scalars_stay_the_authors_words(word: str) -> None:
    entries, problems = read(f"key: {word}")
    assert problems == []
    assert entries[0].text.value == word


def test_quoted_words_lose_their_quotes_and_keep_their_place() -> None:
    entries, _ = read("key: \"a: b\"\nother: 'x'")
    assert entries[0].value == Text("a: b", Place("m.md", 10, 11))
    assert entries[1].value == Text("x", Place("m.md", 11, 13))


def test_lists_in_both_spellings() -> None:
    entries, _ = read("at: [0, 60, f(1, 2)]\nto:\n  - a\n  - b")
    assert [(t.value, str(t.place)) for t in entries[0].texts] == [
        ("0", "m.md:10:10"),
        ("60", "m.md:10:13"),
        ("f(1, 2)", "m.md:10:17"),
    ]
    assert [t.value for t in entries[1].texts] == ["a", "b"]


def test_points_in_a_list_stay_whole() -> None:
    entries, _ = read('at: [(1 mm, 2 mm), (3 mm, 4 mm), "x, y"]')
    assert [t.value for t in entries[0].texts] == ["(1 mm, 2 mm)", "(3 mm, 4 mm)", "x, y"]


def test_nested_only_where_allowed() -> None:
    entries, problems = read("spindle:\n  speeds: [100, 200]\n", nested=True)
    assert problems == []
    assert [t.value for t in entries[0].entry("speeds").texts] == ["100", "200"]
    entries, problems = read("spindle:\n  speeds: [100, 200]\n")
    assert entries == ()
    assert problems == [
        "m.md:11:7: a mapping stands where words are due; values of this block are words or lists of words; "
        "write it as words on one line"
    ]


def test_lists_of_mappings() -> None:
    entries, problems = read("tools:\n  - name: a\n    size: 1\n  - name: b\n", nested=True)
    assert problems == []
    assert [[entry.key.value for entry in item] for item in entries[0].items] == [["name", "size"], ["name"]]


def test_items_of_a_block() -> None:
    problems = Problems()
    items = read_items("- turn: to 38 mm\n- bore: 16 mm\n  from: B\n", START, problems)
    assert [[entry.key.value for entry in item] for item in items] == [["turn"], ["bore", "from"]]
    assert len(read_items("turn: to 38 mm\n", START, problems)) == 1
    assert not problems.found


@pytest.mark.parametrize(
    ("body", "message"),
    [
        ("a: 1\na: 2", "m.md:11:5: the key `a` is written twice (first on line 10); a key stands once in a block; "
         "put both into one line, or take one away"),
        ("a: &x 1", "m.md:10:8: the block holds an anchor (got &x); only `key: value` lines are read; "
         "write the value out; put it in double quotes if it begins with a special sign"),
        ("a: *x", "m.md:10:8: the block holds an alias (got *x); only `key: value` lines are read; "
         "write the value out; put it in double quotes if it begins with a special sign"),
        ("a: !!python/object:os.system x", "m.md:10:8: the block holds a tag (got "
         "tag:yaml.org,2002:python/object:os.system); only `key: value` lines are read; "
         "write the value out; put it in double quotes if it begins with a special sign"),
        ("a: 1\n---\nb: 2", "m.md:11:5: the block holds a second document (got `---`); only `key: value` lines are "
         "read; write the value out; put it in double quotes if it begins with a special sign"),
        ("tool: use oil: lots", "m.md:10:18: the block cannot be read: a second colon with a blank behind it "
         "(got `tool: use oil: lots`); one `key: value` to a line; "
         "put the whole value in double quotes, or leave the sign out"),
        ("turn to 38 mm", "m.md:10:5: the block is not a list of `key: value` lines (got `turn to 38 mm`); "
         "a key, a colon, a blank, a value; write for instance `tool: knife tool`"),
        ("a: 1\n\tb: 2", "m.md:11:5: the block cannot be read: a tab in the indent (got `b: 2`); "
         "blanks indent a line; replace the tab by blanks"),
        ("a: {{ bore }}", "m.md:10:9: a key is a list or a mapping; a key is a word; "
         "write the name without `{{ }}`: values of blocks are worked out as they stand"),
        ("a: @x", "m.md:10:8: the block cannot be read: a value may not begin with `@` (got `a: @x`); "
         "put the whole value in double quotes, or leave the sign out"),
        ('a: "x', 'm.md:10:8: the block cannot be read: a quotation mark or a bracket is opened and not closed '
         '(got `a: "x`); close it'),
        ('a: "x\nb: 1\nc: 2', 'm.md:10:8: the block cannot be read: a quotation mark or a bracket is opened and not closed '
         '(got `a: "x`); close it'),
        ("- a\n- b", "m.md:10:5: the block is not a list of `key: value` lines; a key, a colon, a blank, a value; "
         "write for instance `tool: knife tool`"),
    ],
)  # fmt: skip
def test_bad_blocks_get_a_plain_message(body: str, message: str) -> None:
    entries, problems = read(body, nested="{{" in body)
    assert entries == ()
    assert problems == [message]


def test_a_bomb_of_aliases_is_refused_at_its_first_anchor() -> None:
    bomb = "a: &a [x, x]\n" + "".join(
        f"{chr(98 + n)}: &{chr(98 + n)} [*{chr(97 + n)}, *{chr(97 + n)}]\n" for n in range(20)
    )
    _, problems = read(bomb)
    assert len(problems) == 1
    assert "an anchor (got &a)" in problems[0]


@pytest.mark.parametrize("depth", [9, 500, 20_000])
def test_deep_nesting_is_refused(depth: int) -> None:
    _, problems = read("a: " + "[" * depth + "]" * depth, nested=True)
    assert len(problems) == 1


def test_strange_line_ends_do_not_shift_line_numbers() -> None:
    entries, problems = read("a: x\u2028y\nb: 2")
    assert problems == []
    assert entries[1].key.place.line == 11


@given(st.text(alphabet="ab:- \n[]{},&*!|>'\"#%@`\t1~?\u2028\x00\x1b", max_size=120), st.booleans())
def test_any_text_gives_entries_or_problems(body: str, nested: bool) -> None:
    problems = Problems()
    entries = read_mapping(body, START, problems, nested=nested)
    lines = body.count("\n") + 1
    assert all(10 <= problem.place.line <= 10 + lines for problem in problems)
    assert not (entries and problems.found)
    read_items(body, START, Problems())


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("note: Careful: hot", "Careful: hot"),
        ("caution: Don't: it flies", "Don't: it flies"),
        ('note: "Quoted: as it was"', "Quoted: as it was"),
        ("title: Bore, first: roughly", "Bore, first: roughly"),
    ],
)
def test_prose_may_hold_a_colon(line: str, said: str) -> None:
    problems = Problems()
    (entry,) = read_mapping(line, Place("a.md", 7), problems)
    assert not problems.found
    assert isinstance(entry.value, Text)
    assert entry.value.value == said
