"""A method does not vanish for a slip of the pen."""

import pytest

from methodsheets.reading.slips import slip
from methodsheets.reading.source import Source

BLOCK = "\n```op\nface: 1 mm\n```\n"
GOOD = "---\nmethod: Spacer\nstock: round 20 mm x 30 mm\n---\n"


@pytest.mark.parametrize(
    ("front", "line", "said"),
    [
        ("---\nmetod: Spacer\n---\n", 2, "`metod` is not the key `method`"),
        ("---\npart: x\nMethod: Spacer\n---\n", 3, "`Method` is not the key `method`"),
        ("---\nmethod Spacer\n---\n", 1, "no key `method`"),
        ("---\nmethod\n---\n", 2, "no colon"),
        ("\n---\nmethod: Spacer\n---\n", 1, "empty line in front"),
        (" ---\nmethod: Spacer\n---\n", 1, "first line is not `---`"),
        ("----\nmethod: Spacer\n----\n", 1, "first line is not `---`"),
        ("—\nmethod: Spacer\n—\n", 1, "first line is not `---`"),
        ("method: Spacer\n", 1, "no front matter"),
        ("", 2, "no front matter"),
        ("---\npart: spacer\n---\n", 1, "no key `method`"),
    ],
)
def test_a_slip_is_told_with_its_line(front: str, line: int, said: str) -> None:
    found = slip(Source("a.md", front + BLOCK, ""))
    assert found is not None
    assert said in found.what
    assert found.place.line == line
    assert found.remedy


@pytest.mark.parametrize(
    "text",
    [
        "# Only prose\n",
        "````markdown\n```op\nface: 1 mm\n```\n````\n",
        "> ```op\n> face: 1 mm\n> ```\n",
        "```python\nop\n```\n",
    ],
)
def test_a_page_that_only_shows_blocks_is_left_alone(text: str) -> None:
    assert slip(Source("a.md", text, "")) is None
