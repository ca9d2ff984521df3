"""How is a coil spring wound on a mandrel, how stiff does it become, and what does it bear?"""

from __future__ import annotations

from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Check, Fact
from methodsheets.trade.bending.springs import coil_spring
from methodsheets.trade.form.errors import OutOfRange
from methodsheets.trade.metal.materials import Material
from methodsheets.vocabulary.change import Change

from .facts import fact, judged, told, worked
from .plan import Plan
from .say import MM, both, dia, dim, resting
from .station import Station
from .verb import TURNING, verb
from .words import Clause, Said

SHEET = (Change.NUMBERS,)
BEARS = 0.56
"""Share of its tensile strength that the wire of a compression spring bears in shear: EN 13906-1, from memory."""
PULLS = 0.45
"""The same of a tension spring: EN 13906-2, from memory."""
WIRE_BEARS = "stress that spring wire bears"
"""What that rests on, as a footnote names it."""
ON_RELEASE = "as wound on that mandrel; it grows on release"
RELEASED = (
    "it opens as the wire's strength and the index have it: wind three coils and measure, then choose the mandrel"
)
HOOKS = "hooks bent sharply break before; what draws the coils together at first is not known"
WIRE = "Wire, and a hand's length to hold"


@verb("wind", frame=TURNING, family="bench", first=Clause("", "length", "diameter of the wire", True, changes=SHEET),
      clauses=[
          Clause("on", "length", "diameter of the mandrel that it is wound on", True, changes=SHEET),
          Clause("coils", "number", "coils that work", True, changes=SHEET),
          Clause("apart", "length", "pitch, coil to coil; without it they touch: a spring that pulls", changes=SHEET),
          Clause("ends", "number", "coils at the ends that do not work, two unless said", changes=SHEET),
          Clause("material", "text", "what the wire is, music wire unless said", changes=(Change.WORDS,)),
          Clause("for", "minutes", "how long it takes", changes=(Change.TIME,)),
      ])  # fmt: skip
def wind(station: Station, said: Said) -> Plan:
    """Wind a spring on the work as a mandrel, to push or, its coils touching, to pull: rate and load are worked out."""
    wire, coils = said.length(""), said.length("coils")
    pitch = said.get("apart", wire)
    if pitch < wire or ("apart" in said and pitch == wire):
        words = f"the coils touch: {dim(pitch)} {MM} apart, wire {dia(wire)}"
        rule, remedy = (
            "the coils of a compression spring stand apart",
            "a larger `apart`; none where it is to pull",
        )
        raise MethodError(said.where("apart"), words, rule, remedy, code="wrong-value")
    metal = station.material_of(said.get("material", "music wire"), said.where("material"))
    try:
        facts, bears = (_pushes if pitch > wire else _pulls)(said, metal, pitch)
    except OutOfRange as error:
        rule, remedy = "a spring of round wire, cold wound", "check wire, mandrel and coils"
        raise MethodError(said.place, str(error), rule, remedy, code="wrong-value") from None
    mandrel, stand = said.length("on"), f"{dim(pitch)} apart" if pitch > wire else "touching"
    return Plan(
        f"Wind {coils:g} coils of {metal.name} {dia(wire)} on {dia(mandrel)}, {stand}", must_cut=False,
        handling=2.0, by_hand=said.get("for", 5.0 + 0.3 * coils), cautions=["spring-wire"], feature="spring",
        tool_words="mandrel", facts=[*facts, told("released", "Size after release", "not known", (), RELEASED)],
        checks=[*bears, _mandrel(station, said)],
    )  # fmt: skip


def _pushes(said: Said, metal: Material, pitch: float) -> tuple[list[Fact], list[Check]]:
    """What is told of a spring that pushes, and whether its wire bears to be pressed until the coils touch."""
    wire, coils, ends = said.length(""), said.length("coils"), said.get("ends", 2.0)
    mean, shut = said.length("on") + wire, coils * (pitch - wire)
    rate = coil_spring(wire, mean, coils, 0.0, end_coils=ends).rate
    spring, working = worked(coil_spring, wire, mean, coils, rate * shut, ends)
    facts = [
        fact("rate", "Rate", spring.rate, "N/mm", "stiffness", [working], "", ON_RELEASE),
        fact("solid", "Length with the coils touching", spring.solid, "mm", "size", [working]),
        fact("free", "Free length", spring.solid + shut, "mm", "size"),
        fact("close_load", "Load that closes it", rate * shut, "N", "force", [working]),
        fact("wire_length", WIRE, spring.wire, "mm", "length", [working]),
    ]
    bears = BEARS * metal.tensile_low
    limit = resting(both(bears, "stress"), [WIRE_BEARS])
    words = f"{both(spring.stress, 'stress')} in the wire when the coils touch; it bears {limit}"
    return facts, [judged("spring-stress", spring.stress <= bears, words, said.place.line)]


def _pulls(said: Said, metal: Material, _pitch: float) -> tuple[list[Fact], list[Check]]:
    """What is told of a spring that pulls: its load is nobody's to judge here, so that what its wire bears is told."""
    wire, coils, ends = said.length(""), said.length("coils"), said.get("ends", 0.0)
    mean = said.length("on") + wire
    bears = PULLS * metal.tensile_low
    for_one = coil_spring(wire, mean, coils, 1.0, end_coils=ends).stress
    spring, working = worked(coil_spring, wire, mean, coils, bears / for_one, ends)
    facts = [
        fact("rate", "Rate", spring.rate, "N/mm", "stiffness", [working], "", ON_RELEASE),
        fact("solid", "Length as it is wound", spring.solid + wire, "mm", "size", [working], "", "without its hooks"),
        fact(
            "most_load",
            "Load that its wire bears",
            bears / for_one,
            "N",
            "force",
            [working],
            "",
            f"{resting(both(bears, 'stress'), [WIRE_BEARS])}; {HOOKS}",
        ),
        fact("most_travel", "How far that draws it", spring.travel, "mm", "size", [working]),
        fact("wire_length", WIRE, spring.wire, "mm", "length", [working], "", "and two hooks"),
    ]
    return facts, []


def _mandrel(station: Station, said: Said) -> Check:
    """Whether the work has the diameter on which it is wound."""
    there, mandrel = 2 * station.swing(), said.length("on")
    same = abs(there - mandrel) < 0.02
    on = f"the mandrel is {dia(there)}" if same else f"the work has {dia(there)}; {dia(mandrel)} is said"
    return judged("mandrel-size", station_has(station, mandrel), on, said.place.line)


def station_has(station: Station, size: float) -> bool:
    """Whether the work is of that diameter somewhere in front of the holder."""
    long = station.stick_out or station.length
    return any(abs(2 * station.swing(s * long / 20, s * long / 20 + 0.2) - size) < 0.02 for s in range(20))
