"""What is this metal or plastic like: how strong, stiff and heavy, and what is it called elsewhere?"""

from __future__ import annotations

import functools
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..form.calculation import NotInTable, calculation
from ..form.rows import Row, take
from ..form.tables import find_row, number, read_table

_SYSTEM = re.compile(r"^(aisi|sae|astm|uns|din|iso|bs|en|w\.?\s*nr\.?|grade)[\s:\-]+(?=\S)", re.IGNORECASE)
"""The system a name belongs to, where people write it in front: "AISI 1020", "W.Nr 1.0715"."""


_FORM_WORDS = (
    "bar, bars, rod, rods, sheet, plate, flat, flats, round, rounds, square, hex, hexagon, hexagonal, block, tube, "
    "tubing, stock, strip, casting, billet, section, offcut, bright, drawn, extruded, black, white, natural, clear"
)
_FORMS = frozenset(_FORM_WORDS.split(", "))
"""Words for the shape or colour in which a material is bought: they do not say which it is."""
_SPELLED: Mapping[str, str] = {
    "aluminum": "aluminium",
    "alu": "aluminium",
    "ali": "aluminium",
    "stainless": "stainless steel",
}


@dataclass(frozen=True)
class Material:
    """One material of the table: a likely value of each property with the lowest and highest published.

    An unknown number is `None`. Densities are in kg/m^3, stresses and moduli in MPa, expansion in 1/K.
    """

    name: str
    form: str
    group: str
    density: float
    density_low: float
    density_high: float
    modulus: float
    modulus_low: float
    modulus_high: float
    poisson: float
    poisson_low: float
    poisson_high: float
    expansion: float
    expansion_low: float
    expansion_high: float
    yield_strength: float
    yield_low: float
    yield_high: float
    tensile_strength: float
    tensile_low: float
    tensile_high: float
    hardness: float | None
    hardness_low: float | None
    hardness_high: float | None
    specific_force: float | None
    specific_force_low: float | None
    specific_force_high: float | None
    chip_exponent: float | None
    equivalents: tuple[str, ...]
    sources: tuple[str, ...]
    note: str


@calculation
def material(name: str) -> Material:
    """What the table says of a material.

    Names are read without regard to capitals, spaces and hyphens: "EN1A", "en 1a", "11SMn30", "1.0715" are one.

    Table:
        materials

    Parameters:
        name: [text] any name in use: BS and EN number, ISO short name, material number, AISI, trade name

    Returns:
        name: [text] text  the handbook's own name
        form: [text] text  steel, cast iron, brass and so on
        group: [text] text  cutting-speed group
        density: rho [kg/m^3] density  likely value
        density_low: [kg/m^3] density  lowest published
        density_high: [kg/m^3] density  highest published
        modulus: E [MPa] modulus  modulus of elasticity
        modulus_low: [MPa] modulus  lowest published
        modulus_high: [MPa] modulus  highest published
        poisson: nu [1] ratio  Poisson's ratio
        poisson_low: [1] ratio  lowest published
        poisson_high: [1] ratio  highest published
        expansion: alpha [1/K] expansion  linear expansion near 20 degC
        expansion_low: [1/K] expansion  lowest published
        expansion_high: [1/K] expansion  highest published
        yield_strength: R_e [MPa] stress  yield or 0.2 % proof stress; tensile strength of a plastic
        yield_low: [MPa] stress  lowest published: use this where something hangs on it
        yield_high: [MPa] stress  highest published
        tensile_strength: R_m [MPa] stress  tensile strength
        tensile_low: [MPa] stress  lowest published
        tensile_high: [MPa] stress  highest published
        hardness: [HB] hardness  Brinell hardness as sold
        hardness_low: [HB] hardness  lowest published
        hardness_high: [HB] hardness  highest published
        specific_force: k_c11 [MPa] pressure  specific cutting force at a chip 1 mm thick
        specific_force_low: [MPa] pressure  lowest published
        specific_force_high: [MPa] pressure  highest published
        chip_exponent: m_c [1] ratio  how the specific force falls with chip thickness
        equivalents: [text, ...] text  the same or a near material in other naming systems
        sources: [text, ...] text  where each value comes from
        note: [text] text  what to know

    Raises:
        NotInTable: no material has that name; the nearest names are suggested.

    Validity:
        Metals as usually sold, near 20 degC. Steels of two countries are near, not equal. Yield varies up to twofold
        with condition and thickness.

    Example:
        >>> found = material("11smn30")
        >>> found.name, found.density, found.modulus
        ('EN1A', 7860.0, 206000.0)

    Source:
        The head of the table names the pages that were read; every other value is from memory.

    Trust: table
    """
    return look_up(name, "density", "modulus", "poisson", "expansion", "yield", "tensile")


def look_up(name: str, *columns: str) -> Material:
    """Return a material of which these columns of the table are wanted; none where only its group is.

    Raises:
        NotInTable: no material has that name; the nearest names are suggested.
    """
    found = _as_people_say(name)
    if found is None:
        raise NotInTable(name, "material", _spoken_names())
    if columns:
        take(find_row("materials", name=found.name), *columns)
    return found


def _as_people_say(name: str) -> Material | None:
    """Return the material that a name means: as written, without its system, its form of bar, or its family.

    "delrin rod" is Delrin; "brass CZ121" is CZ121, as that is a brass; "brass EN8" is nothing.
    """
    known = _by_name()
    bare = _SYSTEM.sub("", name.strip())
    for key in (_plain(name), _plain(bare)):
        if key in known:
            return known[key]
    every = bare.casefold().replace(",", " ").split()
    if not every:
        return None
    without = [word for word in every if word not in _FORMS]
    last, first = every[:-1] if every[-1] in _FORMS else [], every[1:] if every[0] in _FORMS else []
    for left in (without, last, first):
        found = known.get(_plain(" ".join(left))) if left else None
        if found is not None:
            return found
    return _of_family(without) or _of_family(every)


def _of_family(words: list[str]) -> Material | None:
    """Return the material of a grade and its family, in either order; nothing where the two do not agree."""
    known = _by_name()
    splits = [(" ".join(words[:cut]), " ".join(words[cut:])) for cut in range(1, len(words))]
    pairs = [pair for one, other in splits for pair in ((other, one), (one, other))]
    for strictly in (True, False):
        for grade, family in pairs:
            found = known.get(_plain(grade))
            if found is not None and _is_a(found, family, strictly=strictly):
                return found
    return None


def _is_a(found: Material, family: str, *, strictly: bool) -> bool:
    """Whether a material belongs to a family as people name it: "steel", "mild steel", "aluminium", "plastic".

    Strictly by the words of its form and group; else by what the name of the family stands for too.
    """
    if any(letter.isdigit() for letter in family):
        return False  # a grade, and no family
    plain = _plain(_SPELLED.get(family, family))
    of = (found.form, found.group, *(found.form.split()), *(found.group.split()))
    if strictly:
        return plain in {_plain(word) for word in of}
    by_that_name = _by_name().get(plain)
    return by_that_name is not None and by_that_name.form == found.form


@calculation
def tensile_from_hardness(hardness: float) -> float:
    """Tensile strength of steel from its Brinell hardness.

    Equation (units as listed):
        R_m = 3.38 * H

    Parameters:
        hardness: H [HB] (80 <= hardness <= 450) Brinell hardness

    Returns:
        R_m [MPa] stress

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Carbon and low-alloy steels, not austenitic, not case-hardened; within 10 %.

    Example:
        200 HB: 676 MPa; the standard's table has 675.
        >>> round(tensile_from_hardness(200))
        676

    Source:
        From memory: conversion table of ISO 18265.

    Trust: estimate, within 10 %
    """
    return 3.38 * hardness


def material_names() -> tuple[str, ...]:
    """Return the handbook's own name of every material, in the order of the table."""
    return tuple(row["name"] for row in read_table("materials").rows)


def _plain(name: str) -> str:
    """Bring a name to the form it is compared in."""
    return re.sub(r"[\s\-_/.]+", "", name).casefold()


@functools.cache
def _by_name() -> Mapping[str, Material]:
    """Return every material by each of its names. The handbook's own names win over equivalents."""
    table = read_table("materials")
    materials = tuple(_material(row) for row in table.rows)
    known: dict[str, Material] = {}
    for entry in materials:
        for equivalent in entry.equivalents:
            known.setdefault(_plain(equivalent), entry)
    known.update({_plain(entry.name): entry for entry in materials})
    return known


@functools.cache
def _spoken_names() -> tuple[str, ...]:
    """Return every name of every material as the table spells it."""
    spoken: dict[str, None] = {}
    for entry in _by_name().values():
        spoken.update(dict.fromkeys((entry.name, *entry.equivalents)))
    return tuple(spoken)


_Triple = tuple[float, float, float]


def _range(cell: str) -> _Triple | None:
    """Read `low..typical..high` or one value."""
    if not cell:
        return None
    parts = [float(part) for part in cell.split("..")]
    low, typical, high = parts if len(parts) == 3 else parts * 3
    if not low <= typical <= high:
        raise ValueError(f"materials: {cell} is not in order")
    return low, typical, high


def _needed(row: Mapping[str, str], column: str) -> _Triple:
    found = _range(row[column])
    if found is None:
        raise ValueError(f"materials: {row['name']} lacks {column}")
    return found


def _scaled(triple: _Triple, factor: float) -> _Triple:
    """Scale a triple and drop the dust of the binary fraction."""
    low, typical, high = (float(f"{value * factor:.12g}") for value in triple)
    return low, typical, high


def _material(row: Row) -> Material:
    spreads: dict[str, Any] = {
        **_spread("density", "density", _needed(row, "density")),
        **_spread("modulus", "modulus", _scaled(_needed(row, "modulus"), 1000)),
        **_spread("poisson", "poisson", _needed(row, "poisson")),
        **_spread("expansion", "expansion", _scaled(_needed(row, "expansion"), 1e-6)),
        **_spread("yield_strength", "yield", _needed(row, "yield")),
        **_spread("tensile_strength", "tensile", _needed(row, "tensile")),
        **_spread("hardness", "hardness", _range(row["hardness"])),
        **_spread("specific_force", "specific_force", _range(row["force"])),
    }
    return Material(
        name=row["name"],
        form=row["form"],
        group=row["group"],
        **spreads,
        chip_exponent=number(row["exponent"]),
        equivalents=_equivalents(row),
        sources=_sources(row),
        note=row["note"],
    )


def _spread(field: str, stem: str, triple: _Triple | None) -> dict[str, float | None]:
    """Return a property's likely value, lowest and highest by the names of their fields."""
    low, likely, high = triple or (None, None, None)
    return {field: likely, f"{stem}_low": low, f"{stem}_high": high}


def _equivalents(row: Mapping[str, str]) -> tuple[str, ...]:
    """Return the names a material has elsewhere, in the order of the columns."""
    cells = (row[system] for system in ("british", "iso", "number", "american", "other"))
    names = (name.strip() for cell in cells for name in cell.split(";"))
    return tuple(dict.fromkeys(name for name in names if name and name != row["name"]))


def _sources(row: Row) -> tuple[str, ...]:
    """Say for each value that was read where; the last entry speaks for all the others."""
    said = [f"{column}: {origin.source}" for column, origin in row.origins.items() if column]
    return (*said, "all other values: from memory" if said else "all values: from memory")
