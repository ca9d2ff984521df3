"""How is a round end turned by coordinates, step by step?"""

from __future__ import annotations

import math

from methodsheets.geometry.outline import Outline
from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Table
from methodsheets.vocabulary.change import Change
from methodsheets.vocabulary.process import Process

from .facts import length_measure, told
from .plan import CutData, Made, Plan, Sketch
from .say import MM, dia, diameter, dim, number
from .station import Station
from .turned_work import CALLED, CLEAR, inside_work
from .verb import verb
from .words import Clause, Said

STEPS = 12
"""Steps of a round end where the author names none."""
MOST_STEPS = 60


@verb("dome", family="turning", first=Clause("", "length", "radius of the sphere", True), clauses=[
    Clause("on", "length", "diameter at which it ends; the whole outside unless said", apart=True),
    Clause("steps of", "length", "length of one step, along the work", changes=(Change.NUMBERS,)),
    CALLED,
])  # fmt: skip
def dome(station: Station, said: Said) -> Plan:
    """Turn the end to part of a sphere, by coordinates: so far along, so far in; a radius of half the diameter is a ball end."""  # noqa: E501
    radius = said.length("")
    outer = said.get("on", 2 * min(radius, station.swing(0.0, 0.5))) / 2
    if not 0 < outer <= radius + 1e-9:
        words = f"a sphere of radius {number(radius)} mm has no place of {diameter(2 * outer)}"
        rule, remedy = "half the diameter is no more than the radius", "a larger radius, or a smaller `on`"
        raise MethodError(said.where("on"), words, rule, remedy, code="wrong-value")
    high = radius - math.sqrt(max(0.0, radius * radius - outer * outer))
    inside_work(station, said, 0.0, high)
    swing = station.swing(0.0, high)
    step = said.get("steps of", high / STEPS)
    count = math.ceil(high / step - 1e-9) if step > 0 else 0
    if not 0 < count <= MOST_STEPS:
        words = f"{count} steps of {number(step)} mm"
        rule = f"1 to {MOST_STEPS} steps"
        raise MethodError(said.where("steps of"), words, rule, "take longer steps", code="wrong-value")
    end = math.degrees(math.atan2(high - radius, outer))
    outline = Outline((swing + CLEAR, -CLEAR), (0.0, -CLEAR), (0.0, 0.0)).arc((0.0, radius), radius, -90.0, end)
    plan = Plan(
        f"Turn the end to a radius of {dim(radius)}, by coordinates",
        [station.turned(outline.to((swing + CLEAR, high)))],
        CutData(Process.TURN, 2 * swing, 2 * swing, 0.3 * outer, 1.2 * high + 2, slide="cross slide"),
        Sketch(0.0, high, 0.0, 2 * swing, end_diameter=2 * outer, cut_words=number(high),
            diameter_words=f"R{number(radius)}"),
        tool_words="round-nose tool", handling=3.0 + 0.3 * count, straight=False, reach_depth=0.0,
        makes=(Made("length", high), Made("diameter", 2 * outer)), feature=str(said.get("called", "domed end")),
    )  # fmt: skip
    rows = []
    for i in range(1, count + 1):
        s = min(i * step, high)
        across = 2 * math.sqrt(max(0.0, 2 * radius * s - s * s))
        rows.append(
            (str(i), length_measure(s, "size"), length_measure(across, "size"), length_measure(across / 2, "size"))
        )
    plan = plan.with_more(
        tables=[Table("Coordinates of the round end", ("No.", "From the face", "Diameter", "Radius"), tuple(rows))]
    )
    ridge = step * step / (8 * radius)
    return plan.with_more(facts=[told("steps", "Steps", f"{count}; begin at the outside and work inwards",
                           note=f"file and polish the ridges off, {dim(round(ridge, 3))} {MM} at the flattest; try it with a template R{number(radius)}, {dia(2 * outer)}")])  # noqa: E501 # fmt: skip
