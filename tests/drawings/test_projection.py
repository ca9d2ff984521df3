"""A workshop says once in which angle its drawings arrange their views; every standing set-up then does so."""

from __future__ import annotations

import dataclasses

import pytest
from tests.method.bench import demo, workshop

from methodfigures.paper.drawing import Drawing as Figure
from methodsheets.drawings import draw_method
from methodsheets.method.evaluate import evaluate_method
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import Problems


@pytest.mark.parametrize(("projection", "words"), [("first", "First-angle"), ("third", "Third-angle")])
def test_set_ups_are_arranged_as_the_workshop_says(projection: str, words: str) -> None:
    problems = Problems()
    shop = dataclasses.replace(workshop("osierbank-small"), projection=projection)
    file = parse_method(demo("clamp-block"), "clamp-block.md", problems)
    assert file is not None
    figures: dict[str, Figure] = {}
    pictures = draw_method(evaluate_method(file, shop, lambda name: None, problems), figures)
    standing = [drawing for drawing, _ in pictures if "-angle projection" in drawing.description]
    assert standing
    assert all(f"{words} projection." in drawing.description for drawing in standing)
    assert [figure.clashes for figure in figures.values() if figure.clashes] == []
