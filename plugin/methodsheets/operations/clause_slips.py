"""What is told of a clause that stands where another one should?"""

from __future__ import annotations

from methodsheets.reading.method_file import Text
from methodsheets.reading.problem import MethodError


def size_first(part: Text, what: str, short: str) -> MethodError:
    """A line begins with a short word, `part off: at 26 mm`, and its size needs none."""
    return MethodError(
        part.place,
        f"`{what}` does not know `{short}` (got `{part.value}`)",
        "its size stands first, without a word",
        f"write `{what}: {part.value.removeprefix(short).strip()}`",
        code="unknown-clause",
    )


def no_point(text: Text, word: str, kind: str, places: str) -> MethodError:
    """A place stands in a clause of one number: `at (10 mm, 8 mm)`."""
    return MethodError(
        text.place,
        f"`{word}` takes no point (got `{text.value}`)",
        f"it is a {kind}",
        f"write `{places} {text.value}`",
        code="wrong-value",
    )
