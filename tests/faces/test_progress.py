"""Is a long build shown to who sits at a terminal, and to nobody else?"""

from __future__ import annotations

import io
import logging

import pytest

from methodsheets.faces.progress import WORKED_OUT, Bar, bar


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_a_terminal_sees_how_far_it_has_come_and_keeps_nothing() -> None:
    seen = Terminal()
    shown = Bar(WORKED_OUT, seen, after=0)
    for done in range(1, 4):
        shown(done, 3)
    assert WORKED_OUT in seen.getvalue()
    assert "3/3" in seen.getvalue() or "0/3" in seen.getvalue()
    assert seen.getvalue().endswith("\r")


def test_a_short_build_a_pipe_and_a_quiet_host_see_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    seen = Terminal()
    shown = bar(WORKED_OUT, seen)
    assert shown
    shown(1, 1)
    assert seen.getvalue() == ""
    assert bar(WORKED_OUT, io.StringIO()) is None
    monkeypatch.setattr(logging.getLogger("mkdocs"), "level", logging.ERROR)
    logging.getLogger("mkdocs").manager._clear_cache()
    assert bar(WORKED_OUT, Terminal()) is None
