"""How heavy is a page? Its bytes and its elements, as a browser counts them when it opens it."""

from html.parser import HTMLParser
from pathlib import Path


class _Counter(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.elements = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements += 1


def weight(page: Path) -> tuple[int, int]:
    """Bytes of the file of a page, and the elements in it."""
    text = page.read_bytes()
    counter = _Counter()
    counter.feed(text.decode("utf-8"))
    return len(text), counter.elements
