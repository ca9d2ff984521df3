import markdown as python_markdown
import pytest
from hypothesis import given
from hypothesis import strategies as st

from methodsheets.reading.markdown import scan


def infos(text: str) -> list[str]:
    return [fence.info for fence in scan(text).fences if not fence.quoted]


def test_front_matter_counts_in_the_line_numbers() -> None:
    found = scan("---\nmethod: x\n---\n\n# Title\n\n```op\nface: 1 mm\n```\n")
    assert found.front == (2, 2)
    assert [(h.level, h.text, h.line) for h in found.headings] == [(1, "Title", 5)]
    assert [(f.info, f.line, f.column, f.end_line, f.body) for f in found.fences] == [("op", 7, 1, 9, ("face: 1 mm",))]


@pytest.mark.parametrize(
    "opening",
    ["- item\n\n    ", "1. item\n\n    ", "!!! note\n\n    ", '=== "One"\n\n    ', "??? tip\n    ", "- item\n    "],
)
def test_fences_in_lists_admonitions_and_tabs_count(opening: str) -> None:
    text = f"{opening}```op\n    face: 1 mm\n    ```\n"
    (fence,) = scan(text).fences
    assert (fence.info, fence.indent, fence.column, fence.closed) == ("op", 4, 5, True)
    assert fence.body == ("    face: 1 mm",)


def test_a_fence_two_containers_deep_counts() -> None:
    assert infos("- a\n\n    - b\n\n        ```op\n        x: 1\n        ```\n") == ["op"]


def test_a_block_quoted_by_a_longer_fence_is_text() -> None:
    assert infos("````markdown\n```op\nx: 1\n```\n````\n\n```calc\na = 1\n```\n") == ["markdown", "calc"]


def test_a_block_quoted_by_the_other_mark_is_text() -> None:
    assert infos("~~~\n```op\n```\n~~~\n```op\n```\n") == ["", "op"]


def test_a_block_in_indented_code_is_text() -> None:
    assert infos("words\n\n    ```op\n    x: 1\n    ```\n\nwords\n") == []


def test_a_block_in_an_html_comment_is_switched_off() -> None:
    assert infos("<!--\n```op\nx: 1\n```\n-->\n\n```op\ny: 1\n```\n") == ["op"]


def test_a_block_in_a_quotation_is_quoted() -> None:
    (fence,) = scan("> ```op\n> x: 1\n> ```\n\nwords\n").fences
    assert fence.quoted


def test_a_closing_fence_may_be_longer_but_not_shorter() -> None:
    (fence,) = scan("````op\n```\n`````\n").fences
    assert fence.body == ("```",)


def test_a_fence_that_its_list_leaves_is_open() -> None:
    (fence,) = scan("- a\n\n    ```op\n    x: 1\nwords\n").fences
    assert not fence.closed
    assert fence.end_line == 4


def test_backticks_in_the_info_make_no_fence() -> None:
    assert infos("``` a`b\nwords\n") == []


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("## Turn the *disc* #\n", (2, "Turn the disc", "turn-the-disc")),
        ("Bore it\n=======\n", (1, "Bore it", "bore-it")),
        ("Bore it\n---\n", (2, "Bore it", "bore-it")),
        ("## Face {#first}\n", (2, "Face", "first")),
        ("## See [the bush](bush.md)\n", (2, "See the bush", "see-the-bush")),
        ("##Tight\n", (2, "Tight", "tight")),
        ("## Use `M6`\n", (2, "Use M6", "use-m6")),
    ],
)
def test_headings(text: str, expected: tuple[int, str, str]) -> None:
    (heading,) = scan(text).headings
    assert (heading.level, heading.text, heading.slug) == expected


def test_a_rule_and_a_hash_in_code_are_no_headings() -> None:
    assert scan("- a\n---\n\nwords\n\n---\n\n```sh\n# no\n```\n\n    # no\n").headings == ()


def test_anchors_are_those_of_python_markdown() -> None:
    text = "# Turn Ø38\n\n## Turn\n\n## Turn\n\n## Fräsen & bohren\n\n## H7/g6\n\n## 3/8 in\n"
    engine = python_markdown.Markdown(extensions=["toc", "attr_list"])
    engine.convert(text)
    tokens = engine.toc_tokens
    expected = [tokens[0]["id"], *(child["id"] for child in tokens[0]["children"])]
    assert [heading.slug for heading in scan(text).headings] == expected


def marks(text: str) -> list[tuple[str, int, int]]:
    return [(mark.expression, mark.line, mark.column) for mark in scan(text).marks if mark.closed]


def test_placeholders_in_prose_headings_and_lists() -> None:
    assert marks("a {{ bore }} and {{throw}}\n\n## To {{ x }}\n\n- so {{ y }}\n") == [
        ("bore", 1, 6),
        ("throw", 1, 20),
        ("x", 3, 10),
        ("y", 5, 9),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "`{{ x }}`\n",
        "``a ` {{ x }}``\n",
        "`one\n{{ x }} two`\n",
        "```\n{{ x }}\n```\n",
        "words\n\n    {{ x }}\n",
        "<!-- {{ x }} -->\n",
        "a <!-- {{ x }} --> b\n",
        "\\{{ x }}\n",
    ],
)
def test_placeholders_in_code_and_comments_are_text(text: str) -> None:
    assert marks(text) == []


def test_a_placeholder_behind_a_lone_backtick_counts() -> None:
    assert marks("a ` and {{ x }}\n\nb `\n") == [("x", 1, 12)]


def test_an_open_placeholder_is_reported() -> None:
    assert [(mark.closed, mark.start) for mark in scan("a {{ x }\n").marks] == [(False, 3)]


@given(st.text(alphabet="`~# \n\t-=:>{}x!?*1.<", max_size=300))
def test_any_text_is_scanned_and_every_place_lies_in_it(text: str) -> None:
    lines = text.split("\n")
    found = scan(text)
    for fence in found.fences:
        assert 1 <= fence.line <= fence.end_line <= len(lines)
        assert lines[fence.line - 1][fence.column - 1] in "`~"
    for mark in found.marks:
        if mark.closed:
            assert lines[mark.line - 1][mark.column - 1 :].startswith(mark.expression)


def test_a_megabyte_of_backticks_is_scanned_in_time() -> None:
    import time

    start = time.perf_counter()
    scan("`" * 7 + ("{{ `" * 100_000))
    scan(" ".join("`" * (n % 50 + 1) for n in range(20_000)) + "{{ x }}")
    scan("<!-- " * 50_000 + "{{ x }}")
    assert time.perf_counter() - start < 5


PAGES = [
    "```op\nx\n```\n",
    "words\n```op\nx\n```\nwords\n",
    "~~~~op\n```\nx\n~~~~\n",
    "- a\n\n    ```op\n    x\n    ```\n",
    "- a\n    ```op\n    x\n    ```\n- b\n\n    words\n\n    ```op\n    y\n    ```\n",
    "1. a\n\n    - b\n\n        ```op\n        x\n        ```\n",
    "!!! note\n\n    ```op\n    x\n    ```\n",
    '=== "A"\n\n    ```op\n    x\n    ```\n\n=== "B"\n\n    ```op\n    y\n    ```\n',
    "??? tip\n\n    - a\n\n        ```op\n        x\n        ```\n",
    "words\n\n    ```op\n    x\n    ```\n",
    "- a\n\n        ```op\n        x\n        ```\n",
    "- a\n\nwords\n\n    ```op\n    x\n    ```\n",
    "````\n```op\nx\n```\n````\n",
    "a `` ```op `` b\n",
    "[^1]: note\n\n    ```op\n    x\n    ```\n\nwords[^1]\n",
]


@pytest.mark.parametrize("text", PAGES)
def test_blocks_are_those_that_the_published_page_would_fence(text: str) -> None:
    """Oracle: the fence extension of the theme, with a counter in the place of a highlighter."""
    pytest.importorskip("pymdownx")
    seen = []

    def count(source, *_args, **_named):
        seen.append(source)
        return "<pre></pre>"

    engine = python_markdown.Markdown(
        extensions=["admonition", "footnotes", "pymdownx.details", "pymdownx.tabbed", "pymdownx.superfences"],
        extension_configs={
            "pymdownx.superfences": {"custom_fences": [{"name": "op", "class": "op", "format": count}]},
            "pymdownx.tabbed": {"alternate_style": True},
        },
    )
    html = engine.convert(text)
    published = html.count("<pre></pre>") if seen else 0
    assert len([info for info in infos(text) if info == "op"]) == published
