"""What is done with heat: hardening, tempering, annealing, case-hardening, blueing?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from methodsheets.reading.problem import MethodError
from methodsheets.sheet.model import Check, Fact, Working
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.metal.heat import (
    HARDNESS_SPREAD,
    HeatTreatment,
    colour_temperature,
    hardness_after_temper,
    heat_colour,
    heat_treatment,
    temper_for,
)
from methodsheets.trade.metal.materials import Material, material
from methodsheets.vocabulary.change import Change

from .benchwork import NOTE, TIME, by_hand
from .facts import fact, judged, looked_up, told, worked
from .plan import Plan
from .qualities import Figure, Given, Quality
from .say import MM, both, dim, number, resting
from .station import Station
from .verb import ANY, verb
from .words import Clause, Said

SHEET = (Change.NUMBERS,)
AT = Clause("at", "temperature", "temperature to heat it to, or its colour: 780 degC, cherry red", changes=SHEET)
QUENCH = Clause("quench", "text", "what it is quenched in: oil, water, brine or air", changes=SHEET)
TEMPER = Clause("temper", "temperature", "what it is tempered to at once afterwards, or the colour", changes=SHEET)
HARDNESS = Clause("hardness", "text", "hardness that it is to have: 60 HRC; HV and HB are known too", changes=SHEET)
SCALES: Mapping[str, tuple[float, float, float]] = MappingProxyType({
    "HRC": (20.0, 68.0, 2.0), "HV": (80.0, 950.0, 40.0), "HB": (80.0, 650.0, 25.0),
})  # fmt: skip
"""Scale → (least, most, how far a reading may be off and still be the same): the range in which each scale is read,
and the usual span of a drawing (from memory, after ISO 6506 to 6508)."""
HARDNESSES, CARBURISING = "hardness after tempering", "carburising heat"
"""What some numbers rest on, as a footnote names it."""
READ_IN = "HRC"
"""The scale of the table of hardness after tempering."""
SOAK = "a minute for each millimetre of thickness, once the colour is even"
NEAR = 10.0
"""K beyond the table's range that are no fault."""
BY_EYE = 25.0
"""The same where a colour tells the heat: eyes and light differ so far (from memory)."""
HARD, TEMPERED, SOFT = "hard", "tempered", "soft"
"""What is left of the steel's hardness: as it was quenched, drawn again, or none."""
DEPTH = "depth"
"""The figure of a hard skin."""
LEAST_FILM = 200.0
GLOW = (500.0, 1150.0)


def _told(key: str, label: str, at: float, rests: Sequence[Working] = ()) -> list[Fact]:
    """A temperature with the colour that tells it; `rests` on the table where the author does not say it."""
    if not (LEAST_FILM <= at <= 330.0 or GLOW[0] <= at <= GLOW[1]):
        return [
            fact(key, label, at, "degC", "temperature", rests, "", "no colour tells it: use a thermometer or an oven")
        ]
    colour, working = worked(heat_colour, at)
    where = "on bright steel" if colour.sort == "film" else "seen in shade"
    told_by = resting(colour.colour, working.recalled)
    return [fact(key, label, at, "degC", "temperature", [*rests, working], "", f"{told_by}, {where}")]


def _name(station: Station) -> str:
    """What the work's first body is made of."""
    return next(iter(station.piece.bodies.values())).material


def _known(station: Station) -> tuple[HeatTreatment | None, list[Working]]:
    """What the table says of the work's steel, with the working of the lookup; nothing where it has no such steel."""
    try:
        steel, working = worked(heat_treatment, _name(station))
    except NotInTable:
        return None, []
    return steel, [working]


def _recalled(rests: Sequence[Working]) -> tuple[str, ...]:
    return tuple(words for one in rests for words in one.recalled)


def _metal(station: Station) -> Material | None:
    return _metal_of(_name(station))


def _metal_of(name: str) -> Material | None:
    try:
        return material(name)
    except NotInTable:
        return None


def _hard(temper: float | None, pattern: str = HARD, hardness: Figure | None = None) -> Given:
    """Hard steel, tempered at so many °C, of a hardness."""
    figures = (Figure("temper", temper, NEAR),) if temper is not None else ()
    words = f"hardened steel, tempered at {both(temper, 'temperature')}" if temper is not None else "hardened steel"
    return _of_hardness(Given(Quality.HARD, words, pattern, figures), hardness)


def _of_hardness(given: Given, hardness: Figure | None) -> Given:
    """The same, of a hardness that is said."""
    if hardness is None:
        return given
    words = f"{given.words}, {number(hardness.value)} {hardness.name}"
    return replace(given, words=words, figures=(*given.figures, hardness))


def _hardness(said: Said, plan: Plan, metal: str, then: float | None = None) -> tuple[Plan, Figure | None]:
    """The plan with what is told of the hardness that is said, and the hardness; None where none is.

    Raises:
        MethodError: it is no number of a scale, or beyond what the scale reads.
    """
    if not said.has("hardness"):
        return plan, None
    text = str(said.get("hardness"))
    figure, _, scale = text.strip().partition(" ")
    least, most, near = SCALES.get(scale.strip().upper(), (0.0, 0.0, 0.0))
    value = float(figure) if figure.replace(".", "", 1).isdigit() else -1.0
    if not least <= value <= most or not most:
        rule = "a hardness is a number of a scale: " + ", ".join(
            f"{a:.0f} to {b:.0f} {s}" for s, (a, b, _) in SCALES.items()
        )
        what, remedy = f"no such hardness (got `{text}`)", "write e.g. `hardness 60 HRC`"
        raise MethodError(said.where("hardness"), what, rule, remedy, code="wrong-value")
    name = scale.strip().upper()
    wanted = told("hardness", "Hardness wanted", f"{number(value)} {name}")
    comes = _comes_to(value, name, said, then, metal)
    return plan.with_more(facts=[wanted], checks=[comes]), Figure(name, value, near)


def _then(plan: Plan, metal: str, temper: float | None) -> tuple[Plan, float | None]:
    """The plan that tells HRC after the temper, and that; None where no table has it."""
    if temper is None:
        return plan, None
    then, rests = looked_up(hardness_after_temper, metal, temper) if _metal_of(metal) is not None else (None, ())
    if then is None:
        unknown = f"not known: no table here has it for {metal}"
        return plan.with_more(facts=[told("hardness_then", "Hardness then", unknown)]), None
    note = f"± {number(HARDNESS_SPREAD)} HRC, from memory, where it was hardened right"
    about = told("hardness_then", "Hardness then", f"about {resting(f'{number(round(then))} HRC', rests)}", (), note)
    return plan.with_more(facts=[about]), then


def _comes_to(wanted: float, scale: str, said: Said, then: float | None, metal: str) -> Check:
    """Whether the heat gives the hardness that is wanted, as far as a table has it."""
    line, asked = said.place.line, f"{number(wanted)} {scale}"
    if then is None or scale != READ_IN:
        words = f"whether it comes to {asked} is not known: no table here says how hard this steel is then; "
        words += "try it on an offcut, and test it"
        return judged("heat-treatment", None, words, line)
    at, rests = looked_up(temper_for, metal, wanted)
    comes = resting(f"{number(round(then))} HRC", rests or (f"{HARDNESSES}: {metal}",))
    words = f"{asked} is wanted, and {metal} comes to about {comes}"
    remedy = f"temper at about {at:.0f} degC" if at is not None else "another steel, or another hardness"
    return judged("heat-treatment", abs(wanted - then) <= HARDNESS_SPREAD, words, line, tight=True, remedy=remedy)


def _within(what: str, at: float, table: tuple[float, float], rests: Sequence[Working], said: Said, word: str) -> Check:
    low, high = table
    span = resting(f"{low:.0f} to {both(high, 'temperature')}", _recalled(rests))
    near = BY_EYE if said.has(word) and colour_temperature(said.texts[word].value) is not None else NEAR
    words = f"{what} at {both(at, 'temperature')}; the table says {span}"
    return judged("heat-treatment", low - near <= at <= high + near, words, said.place.line)


def _cold(said: Said, word: str) -> float:
    at = float(said.get(word))
    if not 20 <= at <= 1300:
        rule, remedy = "steel is treated between 100 and 1300 degC", "write e.g. `at 780 degC`"
        raise MethodError(said.where(word), f"no heat for steel (got {at:.0f} degC)", rule, remedy, code="wrong-value")
    return at


@verb("harden", frame=ANY, family="heat", first=NOTE, clauses=[AT, QUENCH, TEMPER, HARDNESS, TIME])
def harden(station: Station, said: Said) -> Plan:
    """Harden by heating and quenching, and temper at once; temperatures and colours by the steel where none is said."""
    plan = by_hand(said, "Harden", 20.0, "hearth", ["hardening", "hot"])
    (steel, rests), line = _known(station), said.place.line
    name = _name(station)
    if steel is None:
        words = f"no heat treatment of {name} is known here: see the sheet that comes with the bar"
        plan = plan.with_more(checks=[judged("heat-treatment", None if "at" in said else False, words, line)])
    at = _cold(said, "at") if "at" in said else (steel.harden_low + steel.harden_high) / 2 if steel else None
    quench = said.get("quench", steel.quench if steel else "")
    wanted = said.get("temper")
    temper = _cold(said, "temper") if wanted else None
    if at is not None:
        plan = plan.with_more(facts=_told("harden_at", "Harden from", at, () if "at" in said else rests))
        plan = plan.with_more(facts=[told("soak", "Soak", SOAK)])
    if quench:
        plan = plan.with_more(
            facts=[
                told(
                    "quench",
                    "Quench in",
                    quench,
                    () if "quench" in said else rests,
                    "straight in, moved about until it is cold",
                )
            ]
        )
    if temper is not None:
        plan = plan.with_more(facts=_told("temper_at", "Temper at", temper))
    if steel and at is not None:
        plan = plan.with_more(
            checks=[_within("hardened", at, (steel.harden_low, steel.harden_high), rests, said, "at")]
        )
        fits = not said.has("quench") or any(word in steel.quench for word in str(quench).lower().split())
        plan = plan.with_more(
            checks=[
                judged(
                    "heat-treatment",
                    fits,
                    f"quenched in {quench}; the table says {resting(steel.quench, _recalled(rests))}",
                    line,
                )
            ]
        )
        if temper is not None:
            plan = plan.with_more(
                checks=[_within("tempered", temper, (steel.temper_low, steel.temper_high), rests, said, "temper")]
            )
    plan, then = _then(plan, name, temper)
    plan, hardness = _hardness(said, plan, name, then)
    return replace(plan, gives=(_hard(temper, hardness=hardness),))


@verb("temper", frame=ANY, family="heat", first=NOTE, clauses=[AT, HARDNESS, TIME])
def temper(station: Station, said: Said) -> Plan:
    """Temper hardened steel to a temperature, or to the colour that tells it: `temper: to dark straw`."""
    plan, (steel, rests), name = by_hand(said, "Temper", 15.0, "hearth", ["hot"]), _known(station), _name(station)
    at = _cold(said, "at") if "at" in said else colour_temperature(str(said.get("", "")))
    plan, then = _then(plan, name, at)
    plan, hardness = _hardness(said, plan, name, then)
    if at is not None or hardness is not None:
        plan = replace(plan, gives=(_hard(at, TEMPERED, hardness),))
    if at is not None:
        plan = plan.with_more(facts=_told("temper_at", "Temper at", at))
        if steel:
            judgement = _within("tempered", at, (steel.temper_low, steel.temper_high), rests, said, "at")
            plan = plan.with_more(checks=[judgement])
    elif steel:
        span = f"{steel.temper_low:.0f} to {both(steel.temper_high, 'temperature')}"
        plan = plan.with_more(
            facts=[told("temper_at", "Temper at", span, rests, "the hotter, the tougher and the softer")]
        )
    return plan


@verb("anneal", frame=ANY, family="heat", first=NOTE, clauses=[AT, TIME])
def anneal(station: Station, said: Said) -> Plan:
    """Soften by heating and cooling slowly."""
    return _cooled(station, said, "Anneal", "as slowly as can be: in the ashes or in the oven")


@verb("normalise", frame=ANY, family="heat", first=NOTE, clauses=[AT, TIME])
def normalise(station: Station, said: Said) -> Plan:
    """Even out the grain by heating and cooling in still air."""
    return _cooled(station, said, "Normalise", "in still air")


def _cooled(station: Station, said: Said, word: str, how: str) -> Plan:
    plan, (steel, rests) = by_hand(said, word, 30.0, "hearth", ["hot"]), _known(station)
    at = _cold(said, "at") if "at" in said else steel.anneal if steel else None
    if at is not None:
        plan = plan.with_more(facts=_told("anneal_at", "Heat to", at, () if "at" in said else rests))
    plan = plan.with_more(facts=[told("cool", "Cool", how)])
    return replace(plan, gives=(Given(Quality.HARD, "soft steel", SOFT),))


@verb("case-harden", frame=ANY, family="heat", first=NOTE,
      clauses=[AT, Clause("deep", "length", "depth of the hard skin", changes=SHEET), QUENCH, HARDNESS,
               TIME])  # fmt: skip
def case_harden(station: Station, said: Said) -> Plan:
    """Give mild steel a hard skin with carburising powder, and quench it."""
    plan = by_hand(said, "Case-harden", 60.0, "hearth", ["hardening", "hot"])
    at = _cold(said, "at") if "at" in said else 900.0
    plan = plan.with_more(
        facts=_told(
            "harden_at", "Carburise at", at, () if "at" in said else [Working("", label=CARBURISING, from_memory=True)]
        )
    )
    if "deep" in said:
        deep = said.length("deep")
        note = "soak longer for more; how long depends on the powder: its maker's sheet says"
        plan = plan.with_more(facts=[fact("case", "Depth of the skin", deep, "mm", "size", [], "", note)])
    plan = plan.with_more(facts=[told("quench", "Quench in", said.get("quench", "water"))])
    figures = (Figure(DEPTH, deep, 0.1 * deep),) if (deep := float(said.get("deep", 0.0))) else ()
    skin = f", {dim(deep)} {MM} deep" if deep else ""
    made = Given(Quality.CASE, f"a case-hardened skin{skin}", "", figures)
    plan, hardness = _hardness(said, plan, _name(station))
    plan = replace(plan, gives=(_of_hardness(made, hardness),))
    metal = _metal(station)
    if metal is not None:
        soft = metal.group in ("mild steel", "free-cutting steel")
        words = f"{metal.name} is a {metal.group}; a skin is given to steel that does not harden by itself"
        plan = plan.with_more(checks=[judged("heat-treatment", soft, words, said.place.line)])
    return plan


@verb("blue", frame=ANY, family="heat", first=NOTE, clauses=[TIME])
def blue(station: Station, said: Said) -> Plan:
    """Blue or blacken the surface."""
    del station
    plan = by_hand(said, "Blue", 10.0, "hearth", ["blueing", "hot"])
    return replace(plan, gives=(Given(Quality.COLOUR, "a blued surface"),))
