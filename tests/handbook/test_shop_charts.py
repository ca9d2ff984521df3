"""Are a workshop's charts worked out only for the page that shows them, kept, and no harm to a build where they fail?"""

from __future__ import annotations

import pytest

from methodsheets.handbook import wall_charts as room
from methodsheets.handbook.build import build_handbook
from methodsheets.workshop.model import Workshop

from .conftest import Folder


def test_charts_are_made_when_asked_for_and_kept(folder: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    folder.method("bush")
    asked: list[str] = []
    make = room.wall_charts

    def counted(shop: Workshop) -> tuple[room.WallChart, ...]:
        asked.append(shop.key)
        return make(shop)

    monkeypatch.setattr(room, "wall_charts", counted)
    book = build_handbook(folder.options())
    assert asked == []
    charts = book.charts("small")
    assert charts
    assert book.charts("small") == charts
    assert build_handbook(folder.options()).charts("small") == charts  # out of the store
    assert asked == ["small"]


def test_charts_that_cannot_be_made_say_so_and_are_not_kept(folder: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    folder.method("bush")

    def broken(shop: Workshop) -> tuple[room.WallChart, ...]:
        raise ZeroDivisionError("a planted fault")

    with monkeypatch.context() as planted:
        planted.setattr(room, "wall_charts", broken)
        book = build_handbook(folder.options())
        assert book.problems == ()
        (told,) = book.charts("small")
    assert "ZeroDivisionError: a planted fault" in told.lead
    assert all(chart.key != told.key for chart in build_handbook(folder.options()).charts("small"))
