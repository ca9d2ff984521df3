"""Does what fails while one page is made stay on that page, whether it is ours or the host's Markdown that fails?"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest
from markdown import Markdown

from methodsheets.faces.markdown import MethodSheetsExtension, Page
from methodsheets.reading.problem import Problem

TEXT = "Words before.\n\n```calc\na = 1 mm\n```\n\nWords behind.\n"


class Broken:
    """A site that knows one method and fails whenever a block of it is wanted."""

    def __init__(self) -> None:
        self.mishaps: list[Problem] = []
        self.handbook: Any = SimpleNamespace(
            entries={"bush": SimpleNamespace(path="methods/bush.md")}, svg=lambda key: ""
        )
        self.places: Any = SimpleNamespace(methods={"bush": SimpleNamespace(page="methods/bush.md")})

    def blocks_of(self, slug: str) -> Any:
        raise RecursionError("deeper than anybody thought")


@pytest.fixture
def extension() -> MethodSheetsExtension:
    made = MethodSheetsExtension()
    made.page = Page(Broken(), "bush", "other.md")  # type: ignore[arg-type]
    return made


def test_a_block_that_cannot_be_shown_leaves_the_rest(extension: MethodSheetsExtension) -> None:
    html = Markdown(extensions=[extension]).convert(TEXT)
    assert "Words before." in html
    assert "Words behind." in html
    assert "got RecursionError: deeper than anybody thought" in html
    assert "Traceback" not in html
    assert extension.page is not None
    assert [one.place.path for one in extension.page.site.mishaps] == ["methods/bush.md"]  # type: ignore[union-attr]


def test_when_markdown_itself_fails_the_page_says_so(
    extension: MethodSheetsExtension, monkeypatch: pytest.MonkeyPatch
) -> None:
    host = Markdown(extensions=[extension])

    def fail(*given: Any) -> Any:
        raise ValueError("<b>nobody</b> foresaw this")

    with monkeypatch.context() as patched:
        patched.setattr(host.parser, "parseDocument", fail)
        html = host.convert(TEXT)
    assert "ValueError: &lt;b&gt;nobody" in html
    assert "the page could not be made" in html
    assert "Words before." in host.convert(TEXT)  # and the next page is made by the same Markdown


def test_a_page_of_the_hosts_own_fails_as_it_always_did(monkeypatch: pytest.MonkeyPatch) -> None:
    extension = MethodSheetsExtension()
    extension.page = Page(None, "", "index.md")
    host = Markdown(extensions=[extension])
    monkeypatch.setattr(host.parser, "parseDocument", lambda lines: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        host.convert(TEXT)
