"""Is a number that is made of recalled ones marked like them, wherever it is shown?"""

from __future__ import annotations

from tests.method.bench import THREE_JAW, block, method, work_out

LINES = (
    'wanted = recommended_speed("EN3B", "carbide", "rough").value',
    "half = wanted / 2",
    "turns = spindle_speed(half, 20 mm)",
    "plain = cutting_speed(500 1/min, 20 mm)",
)
ROW = "Cutting speeds by group of materials, tool and kind of cut: mild steel, carbide, rough"


def test_what_is_made_of_recalled_numbers_is_recalled() -> None:
    text = method(block("calc", *LINES) + "So {{ half }}, or {{ turns / 2 }}; but {{ plain }}.\n\n" + THREE_JAW)
    made = work_out(text).method
    found = {line.name: line.working.recalled for line in made.calculations}
    assert found == {"wanted": (ROW,), "half": (ROW,), "turns": (ROW,), "plain": ()}
    assert {quote.expression.strip(): quote.recalled for quote in made.quotes} == {
        "half": (ROW,), "turns / 2": (ROW,), "plain": (),
    }  # fmt: skip


def test_a_bending_rests_on_what_its_force_rests_on() -> None:
    hold = block("setup", "machine: lathe", "hold: three-jaw chuck, on 20 mm, grip 20 mm, stick-out 70 mm, end A out")
    text = method(hold + block("op", "turn: to 16 mm, over 60 mm"), stock="round 20 mm x 100 mm")
    facts = {fact.key: fact for fact in work_out(text).method.operations[-1].facts}
    assert facts["force"].recalled
    assert set(facts["force"].recalled) <= set(facts["deflection"].recalled)
