"""How hot is steel hardened, tempered and annealed, and which colour tells it?"""

from __future__ import annotations

from dataclasses import dataclass

from ..form.calculation import NotInTable, calculation
from ..form.rows import take
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
        heat_treatments

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
    return HeatTreatment(name, low, high, row["quench"], least, most, soft)


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
