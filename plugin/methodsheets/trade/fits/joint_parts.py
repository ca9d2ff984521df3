"""What is the metal of a press fit's two parts like: from the materials table, or as the caller says?"""

from __future__ import annotations

from dataclasses import dataclass

from ..form.calculation import OutOfRange
from ..metal.materials import look_up


@dataclass(frozen=True)
class Metal:
    """What a joint needs to know of one of its metals; nothing where it is not known."""

    modulus: float
    """Modulus of elasticity [MPa]."""
    poisson: float
    yield_strength: float | None
    """Lowest yield [MPa]."""
    expansion: float | None
    """Expansion [1/K]."""
    brittle_at: float | None = None
    """Lowest tensile strength [MPa] of a metal that cracks before it yields: grey cast iron."""


@dataclass(frozen=True)
class Said:
    """What the caller says of one metal, over the table."""

    part: str
    material: str
    modulus: float | None
    poisson: float | None
    yield_strength: float | None
    expansion: float | None = None


def metal_of(said: Said, other: Metal | None = None) -> Metal:
    """Return a metal: what the caller says, else the table's value for the material named.

    `other` is the metal of the other part; it stands in when nothing names this one.

    Raises:
        OutOfRange: neither a material nor its modulus and Poisson's ratio are given.
        NotInTable: the table has no such material.
    """
    base = _base(said, other)
    return Metal(
        modulus=said.modulus or base.modulus,
        poisson=base.poisson if said.poisson is None else said.poisson,
        yield_strength=said.yield_strength or base.yield_strength,
        expansion=said.expansion or base.expansion,
        brittle_at=base.brittle_at,
    )


def _base(said: Said, other: Metal | None) -> Metal:
    """Return what stands where the caller says nothing: the table, the other part, or only what was said."""
    if said.material:
        found = look_up(said.material, "modulus", "poisson", "yield", "expansion", "tensile")
        brittle = found.tensile_low if found.form == "cast iron" and "cast iron" in found.group else None
        return Metal(found.modulus, found.poisson, found.yield_low, found.expansion, brittle)
    if said.modulus is None and other is not None:
        return other
    if said.modulus is None or said.poisson is None:
        wanted = f"a material, or {said.part}_modulus and {said.part}_poisson"
        raise OutOfRange(f"{said.part}_material", "", "text", wanted)
    return Metal(said.modulus, said.poisson, None, None)
