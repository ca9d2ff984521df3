"""How hot is steel hardened, tempered and annealed, and which colour tells it?"""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass

from ..form.calculation import NotInTable, calculation
from ..form.rows import Row, take
from ..form.tables import read_table
from .materials import look_up


@dataclass(frozen=True)
class HeatTreatment:
    """What a steel wants; degrees Celsius."""

    material: str
    harden_low: float
    harden_high: float
    quench: str
    temper_low: float
    temper_high: float
    anneal: float


@calculation
def heat_treatment(material: str) -> HeatTreatment:
    """Temperatures at which a steel is hardened, tempered and annealed.

    Table:
        heat_treatments, temper_hardness

    Parameters:
        material: [text] any name of the table of materials

    Returns:
        material: [text] text  the handbook's own name
        harden_low: [degC] temperature  least temperature to harden from
        harden_high: [degC] temperature  greatest
        quench: [text] text  what it is quenched in
        temper_low: [degC] temperature  least usual temper
        temper_high: [degC] temperature  greatest usual temper
        anneal: [degC] temperature  to anneal from, cooled slowly

    Raises:
        NotInTable: the table has no treatment of that material; nothing hardens that has too little carbon.

    Validity:
        Small sections. The sheet that comes with the bar holds.

    Example:
        >>> heat_treatment("silver steel").quench
        'water or brine'

    Source:
        Makers' sheets, EN ISO 4957 and EN ISO 683, from memory.

    Trust: table

    Checked: rows of makers' sheets, one a steel; the sheets do not repeat each other.
    """
    name = look_up(material).name
    rows = read_table("heat_treatments").rows
    row = next((r for r in rows if r["material"] == name), None)
    if row is None:
        raise NotInTable(material, "steel with a known heat treatment", [r["material"] for r in rows])
    take(row)
    low, high, least, most, soft = (
        float(row[c]) for c in ("harden_low", "harden_high", "temper_low", "temper_high", "anneal")
    )
    return HeatTreatment(
        material=name,
        harden_low=low,
        harden_high=high,
        quench=row["quench"],
        temper_low=least,
        temper_high=most,
        anneal=soft,
    )


HARDNESS_SPREAD = 3.0
"""HRC by which steel may come out harder or softer than the table of tempering says: bars and fires differ (memory)."""


def hardness_after_temper(material: str, at: float) -> float | None:
    """Rockwell C of a steel that was hardened and then tempered at a temperature [degC], about; ± `HARDNESS_SPREAD`.

    None for a steel, or a temperature, that the table does not have. The table says where its rows come from.
    """
    for low, high in itertools.pairwise(_curve(material)):
        if float(low["at"]) <= at <= float(high["at"]):
            take(low), take(high)
            share = (at - float(low["at"])) / (float(high["at"]) - float(low["at"]))
            return float(low["hrc"]) + share * (float(high["hrc"]) - float(low["hrc"]))
    return None


def temper_for(material: str, hrc: float) -> float | None:
    """The temperature [degC] at which a steel comes to that hardness, about; None where the table does not reach."""
    for low, high in itertools.pairwise(_curve(material)):
        hard, soft = float(low["hrc"]), float(high["hrc"])
        if soft <= hrc <= hard:
            take(low), take(high)
            return float(low["at"]) + (hard - hrc) / (hard - soft) * (float(high["at"]) - float(low["at"]))
    return None


def _curve(material: str) -> list[Row]:
    """The rows of a steel, the coolest first."""
    name = look_up(material).name
    return [row for row in read_table("temper_hardness").rows if row["material"] == name]


def colour_temperature(words: str) -> float | None:
    """The temperature [degC] of the colour that some words name, None where they name none: 'to dark straw' is 240.

    Of several that fit, the longest name is meant. The table says where its rows come from.
    """
    plain = f" {' '.join(re.findall('[a-z]+', words.lower()))} "
    rows = sorted(read_table("heat_colours").rows, key=lambda r: len(r["colour"]), reverse=True)
    return next((float(row["at"]) for row in rows if f" {row['colour']} " in plain), None)


@dataclass(frozen=True)
class HeatColour:
    """The colour of steel at a temperature."""

    colour: str
    sort: str
    use: str


@calculation
def heat_colour(temperature: float) -> HeatColour:
    """Colour of steel at a temperature: the film on bright steel to 330 degC, its glow above 500 degC.

    Table:
        heat_colours

    Parameters:
        temperature: T [degC] (200 <= T <= 1150) temperature of the steel

    Returns:
        colour: [text] text  what the eye sees, the nearest of the table
        sort: [text] text  film or glow
        use: [text] text  what is tempered to it

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Plain carbon steel, heated a few minutes, seen in shade: a colour comes lower the longer it is held. Near 400
        degC there is neither film nor glow to go by.

    Example:
        >>> heat_colour(230).colour
        'straw'

    Source:
        Workshop handbooks, from memory.

    Trust: estimate ±15 degC

    Checked: colours are words and vary with the light and the steel; the rows are held against two lists in
        `tests/validation`.
    """
    row = min(read_table("heat_colours").rows, key=lambda r: abs(float(r["at"]) - temperature))
    take(row)
    return HeatColour(row["colour"], row["sort"], row["use"])
