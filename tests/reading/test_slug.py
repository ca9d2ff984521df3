"""Does a heading get the anchor that the page gives it, and is a thousandth equal heading as quick as the first?"""

from __future__ import annotations

import random

from markdown.extensions.toc import unique

from methodsheets.reading.markdown import scan
from methodsheets.reading.slug import heading_slug

WORDS = ("a", "a_1", "a_2", "a_5", "a_3", "", "_1", "b", "a_1_1", "a_01")


class Counted(set[str]):
    """A set that counts how often it is asked."""

    asked = 0

    def __contains__(self, item: object) -> bool:
        self.asked += 1
        return super().__contains__(item)


def test_anchors_are_those_of_the_page() -> None:
    """Checked against Python-Markdown itself, whose table of contents gives the anchors."""
    rng = random.Random(1)
    for _ in range(500):
        theirs: set[str] = set()
        ours: set[str] = set()
        counters: dict[str, int] = {}
        for _ in range(30):
            words = rng.choice(WORDS)
            assert heading_slug(words, ours, counters)[1] == unique(words, theirs)


def test_equal_headings_are_counted_on_not_anew() -> None:
    asked = {}
    for count in (500, 1000):
        taken, counters = Counted(), {}
        for _ in range(count):
            heading_slug("Turn", taken, counters)
        asked[count] = taken.asked
    assert asked[1000] <= 2 * asked[500] + 10


def test_a_count_of_thousands_of_digits_is_only_words() -> None:
    number = "9" * 5000
    assert [heading.slug[-7:] for heading in scan(f"# a_{number}\n\n# a_{number}\n").headings] == ["9999999", "99999_1"]
