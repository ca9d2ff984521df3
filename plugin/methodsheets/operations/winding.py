"""How is a coil spring wound on a mandrel, how stiff does it become, and what does it bear?"""

from __future__ import annotations

from methodsheets.reading.problem import MethodError
from methodsheets.trade.bending.springs import coil_spring
from methodsheets.trade.form.errors import OutOfRange
from methodsheets.vocabulary.change import Change

from .facts import fact, judged, told, worked
from .plan import Plan
from .say import MM, both, dia, dim
from .station import Station
from .verb import TURNING, verb
from .words import Clause, Said

SHEET = (Change.NUMBERS,)
BEARS = 0.56
"""Share of its tensile strength that the wire of a compression spring bears in shear: EN 13906-1, from memory."""


@verb("wind", frame=TURNING, family="bench", first=Clause("", "length", "diameter of the wire", True, changes=SHEET),
      clauses=[
          Clause("on", "length", "diameter of the mandrel that it is wound on", True, changes=SHEET),
          Clause("coils", "number", "coils that work", True, changes=SHEET),
          Clause("apart", "length", "pitch: from coil to coil", True, changes=SHEET),
          Clause("ends", "number", "coils at the ends that do not work, two unless said", changes=SHEET),
          Clause("material", "text", "what the wire is, music wire unless said", changes=(Change.WORDS,)),
          Clause("for", "minutes", "how long it takes", changes=(Change.TIME,)),
      ])  # fmt: skip
def wind(station: Station, said: Said) -> Plan:
    """Wind a compression spring on the work as a mandrel: its rate and the load that closes it are worked out."""
    wire, mandrel, coils, pitch = said.length(""), said.length("on"), said.length("coils"), said.length("apart")
    ends, line = said.get("ends", 2.0), said.place.line
    metal = station.material_of(said.get("material", "music wire"), said.where("material"))
    if pitch <= wire:
        words = f"the coils touch: {dim(pitch)} {MM} apart, wire {dia(wire)}"
        rule, remedy = "the coils of a compression spring stand apart", "a larger `apart`"
        raise MethodError(said.where("apart"), words, rule, remedy, code="wrong-value")
    try:
        mean = mandrel + wire
        shut = coils * (pitch - wire)
        rate = coil_spring(wire, mean, coils, 0.0, ends).rate
        spring, working = worked(coil_spring, wire, mean, coils, rate * shut, ends)
    except OutOfRange as error:
        rule, remedy = "a spring of round wire, cold wound", "check wire, mandrel and coils"
        raise MethodError(said.place, str(error), rule, remedy, code="wrong-value") from None
    plan = Plan(
        f"Wind {coils:g} coils of {metal.name} {dia(wire)} on {dia(mandrel)}, {dim(pitch)} apart", must_cut=False,
        handling=2.0, by_hand=said.get("for", 5.0 + 0.3 * coils), cautions=["spring-wire"], feature="spring",
        tool_words="mandrel",
    )  # fmt: skip
    plan = plan.with_more(facts=[
        fact("rate", "Rate", spring.rate, "N/mm", "stiffness", [working], "", "as wound on that mandrel; it grows on release"),  # noqa: E501
        fact("solid", "Length with the coils touching", spring.solid, "mm", "size", [working]),
        fact("free", "Free length", spring.solid + shut, "mm", "size"),
        fact("close_load", "Load that closes it", rate * shut, "N", "force", [working]),
        fact("wire_length", "Wire, and a hand's length to hold", spring.wire, "mm", "length", [working]),
        told("released", "Size after release", "not known", (),
             "it opens as the wire's strength and the index have it: wind three coils and measure, then choose the mandrel"),  # noqa: E501
    ])  # fmt: skip
    bears = BEARS * metal.tensile_low
    words = f"{both(spring.stress, 'stress')} in the wire when the coils touch; it bears {both(bears, 'stress')}"
    plan = plan.with_more(checks=[judged("spring-stress", spring.stress <= bears, words, line)])
    there = 2 * station.swing()
    on = (
        f"the mandrel is {dia(there)}"
        if abs(there - mandrel) < 0.02
        else f"the work has {dia(there)}; {dia(mandrel)} is said"
    )
    return plan.with_more(checks=[judged("mandrel-size", station_has(station, mandrel), on, line)])


def station_has(station: Station, size: float) -> bool:
    """Whether the work is of that diameter somewhere in front of the holder."""
    long = station.stick_out or station.length
    return any(abs(2 * station.swing(s * long / 20, s * long / 20 + 0.2) - size) < 0.02 for s in range(20))
