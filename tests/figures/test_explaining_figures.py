"""Explaining figures with any numbers: nothing overlaps, and every word that was given is drawn."""

import random
import re

from methodfigures.explain.press_fit import PressFit, draw_press_fit

COUNT = 200


def at_random(r):
    d = r.uniform(3, 60)
    return PressFit(
        d,
        d * r.uniform(1.2, 4),
        d * r.uniform(0.3, 3),
        0.02,
        50,
        100,
        30,
        bore=r.choice([0.0, d / 2]),
        diameter_text=f"Ø{d:.4g} H7/p6",
        interference_text="interference 29 µm at most",
        pressure_text="73 N/mm²",
        inside_text="104 N/mm²",
        outside_text="31 N/mm²",
        force_text="press with 12.1 kN at most",
        rows=tuple("holds at least 96.6 N·m" for _ in range(r.randint(0, 3))),
    )


def test_press_fits_of_any_shape_do_not_overlap():
    r = random.Random(20261125)
    bad = [(spec, found) for spec in (at_random(r) for _ in range(COUNT)) if (found := draw_press_fit(spec).clashes)]
    assert bad == []


def test_the_pressing_force_is_drawn():
    drawing = draw_press_fit(at_random(random.Random(1)))
    words = re.findall(r"<text[^>]*>([^<]*)</text>", drawing.svg)
    assert "F" in words
    assert "F: press with 12.1 kN at most" in words
