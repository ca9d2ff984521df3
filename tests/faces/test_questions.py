"""Does `start` ask for the workshop: each answer lands where it belongs, and what cannot be read is asked again?"""

from __future__ import annotations

import pytest

from methodsheets.faces.questions import QUESTIONS, SLIDE, own_workshop, value_at
from methodsheets.handbook.shops import USUAL
from methodsheets.reading.problem import Problems
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.reader import parse_workshop

TEXT = USUAL.read_text("utf-8")


def answered(*answers: str) -> tuple[Workshop, list[str], str]:
    """The workshop, what was told, and the file; whoever says no more is gone."""
    left, told = list(answers), []

    def ask(words: str) -> str:
        told.append(words)
        if not left:
            raise EOFError
        return left.pop(0)

    text = own_workshop(TEXT, ask, told.append)
    problems = Problems()
    made = parse_workshop(text, "my-workshop.yml", problems)
    assert made is not None
    assert not list(problems)
    return made, told, text


def test_every_question_has_its_place_in_the_usual_workshop_and_offers_what_stands_there() -> None:
    made, told, text = answered(*[""] * len(QUESTIONS))
    assert text == TEXT
    assert made.machines["lathe"].swing_over_bed == 180
    for question, words in zip(QUESTIONS, told, strict=True):
        assert words == f"{question.words} [{value_at(TEXT, question.path)}] "


def test_answers_become_the_workshop_and_the_rest_stays() -> None:
    made, _, text = answered("Shed: by the pond #2", "inch", "7", "20 in", "70 to 600", "3/4")
    lathe = made.machines["lathe"]
    assert (made.name, made.units) == ("Shed: by the pond #2", "inch")
    assert lathe.swing_over_bed == pytest.approx(7 * 25.4)
    assert lathe.between_centres == pytest.approx(20 * 25.4)
    assert lathe.swing_over_cross_slide == pytest.approx(7 * 25.4 * 105 / 180, abs=0.5)
    assert "measure it" in next(line for line in text.splitlines() if SLIDE[-1] in line)
    assert len(text.splitlines()) == len(TEXT.splitlines())
    assert text.split("\n  mill:")[1] == TEXT.split("\n  mill:")[1]


@pytest.mark.parametrize("wrong", ["large", "180 kg", "-5 mm", "[180", "9" * 400, '"', "180 mm mm"])
def test_what_cannot_be_read_is_told_and_asked_again(wrong: str) -> None:
    made, told, _ = answered("", "", wrong, "250 mm")
    assert made.machines["lathe"].swing_over_bed == 250
    assert sum(line.startswith(QUESTIONS[2].words) for line in told) == 2
    assert told[3].startswith("  ")
    assert len(told[3]) > 10


def test_who_leaves_keeps_what_was_said() -> None:
    assert answered("Shed")[0].name == "Shed"
