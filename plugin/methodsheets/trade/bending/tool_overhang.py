"""How far does a boring bar or an end mill bend, and how far may it stand out?"""

from __future__ import annotations

from dataclasses import dataclass

from ..form.calculation import calculation
from .beams import STEEL, rectangular_section, round_section
from .stiffness import bar_deflection

CARBIDE = 600000.0
"""Modulus of solid carbide [MPa], from memory."""


@dataclass(frozen=True)
class ToolBends:
    """How far a tool bends, and how far it stands out for its thickness."""

    deflection: float
    stiffness: float
    overhang_ratio: float
    note: str


@calculation
def boring_bar_bends(
    force: float, diameter: float, overhang: float, modulus: float = STEEL, usual_ratio: float = 4.0
) -> ToolBends:
    """Bending of a round boring bar under the force at its tip.

    Equation:
        I = pi * d ** 4 / 64
        w = F * L ** 3 / (3 * E * I)
        k = F / w
        n = L / d

    Parameters:
        force: F [N] (F > 0) force across the bar at its tip
        diameter: d [mm] (d > 0) diameter of the bar
        overhang: L [mm] (L > 0) length that stands out of its holder
        modulus: E [MPa] (E > 0) modulus of the bar: steel 206000, solid carbide about 600000
        usual_ratio: n_u [1] (n_u > 0) overhang over diameter that is usual: 4 for steel, 10 for carbide

    Returns:
        deflection: w [mm] clearance how far the tip moves; the bore is smaller by twice this
        stiffness: k [N/mm] stiffness force for each millimetre
        overhang_ratio: n [1] ratio overhang over diameter
        note: [text] text whether that is more than usual

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        The holder does not give. Chatter comes earlier than bending: keep to the usual ratio.

    Example:
        >>> bar = boring_bar_bends(100, 10, 50, 205000)
        >>> round(bar.deflection, 4), bar.overhang_ratio
        (0.0414, 5.0)

    Source:
        Handbook cantilever formula, from memory; usual ratios from published tool pages (4 for steel, 10 for carbide).

    Trust: estimate
    """
    deflection, _ = bar_deflection(((0.0, overhang, round_section(diameter)),), force, overhang, modulus, "chuck")
    ratio = overhang / diameter
    note = f"stands out {ratio:.1f} diameters; {usual_ratio:g} is usual: expect chatter" if ratio > usual_ratio else ""
    return ToolBends(deflection, force / deflection, ratio, note)


@calculation
def end_mill_bends(
    force: float,
    diameter: float,
    flute_length: float,
    overhang: float,
    shank: float | None = None,
    modulus: float = STEEL,
    core: float = 0.8,
) -> ToolBends:
    """Bending of an end mill under the force at its tip.

    Equation:
        L_f = min(l, L)
        I_f = pi * (c * d) ** 4 / 64
        I_s = pi * d_s ** 4 / 64
        w = F / (3 * E) * ((L ** 3 - L_f ** 3) / I_s + L_f ** 3 / I_f)
        n = L / d

    Parameters:
        force: F [N] (F > 0) force across the cutter, taken at its tip
        diameter: d [mm] (d > 0) diameter of the cutter
        flute_length: l [mm] (l > 0) length of the flutes
        overhang: L [mm] (L > 0) length that stands out of its holder
        shank: d_s [mm] (d_s > 0) diameter of the shank; the cutter's where it is not said
        modulus: E [MPa] (E > 0) modulus of the cutter: high-speed steel as steel, solid carbide about 600000
        core: c [1] (0.5 <= c <= 1) stiffness of the fluted part as a round bar of this share of the diameter

    Returns:
        deflection: w [mm] clearance how far the tip moves
        stiffness: k [N/mm] stiffness force for each millimetre
        overhang_ratio: n [1] ratio overhang over diameter
        note: [text] text whether that is more than usual

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Holder and spindle do not give (small ones do). The share of 0.8 is common practice for two to four flutes.

    Example:
        >>> mill = end_mill_bends(100, 10, 20, 30)
        >>> round(mill.deflection, 4)
        0.0127

    Source:
        Two-step cantilever formula (derived, agrees with a finite-element beam).

    Trust: estimate ±30 %
    """
    fluted = min(flute_length, overhang)
    root = round_section(diameter if shank is None else shank)
    pieces = [(overhang - fluted, overhang, round_section(core * diameter))]
    if fluted < overhang:
        pieces.insert(0, (0.0, overhang - fluted, root))
    deflection, _ = bar_deflection(pieces, force, overhang, modulus, "chuck")
    ratio = overhang / diameter
    note = f"stands out {ratio:.1f} diameters; 3 is usual: take light cuts" if ratio > 3 else ""
    return ToolBends(deflection, force / deflection, ratio, note)


@calculation
def lathe_tool_bends(force: float, width: float, height: float, overhang: float, modulus: float = STEEL) -> ToolBends:
    """Bending of a square or flat lathe tool, or of a parting blade, under the cutting force.

    Equation:
        w = 4 * F * L ** 3 / (E * b * h ** 3)
        k = F / w
        n = L / h

    Parameters:
        force: F [N] (F > 0) cutting force, down on the tip
        width: b [mm] (b > 0) width of the shank or blade
        height: h [mm] (h > 0) height of the shank or blade
        overhang: L [mm] (L > 0) length that stands out of the tool post
        modulus: E [MPa] (E > 0) modulus of the shank

    Returns:
        deflection: w [mm] clearance how far the tip dips
        stiffness: k [N/mm] stiffness force for each millimetre
        overhang_ratio: n [1] ratio overhang over height
        note: [text] text whether that is more than usual

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        The tool post does not give. A blade higher than its overhang is usual for parting.

    Example:
        >>> blade = lathe_tool_bends(300, 2, 20, 20)
        >>> round(blade.deflection, 5), blade.overhang_ratio
        (0.00291, 1.0)

    Source:
        Handbook cantilever formula, from memory; overhang of a parting blade from a tool maker's page.

    Trust: estimate
    """
    section = rectangular_section(width, height)
    deflection, _ = bar_deflection(((0.0, overhang, section),), force, overhang, modulus, "chuck")
    ratio = overhang / height
    note = "stands out more than its height: shorten it" if ratio > 1.5 else ""
    return ToolBends(deflection, force / deflection, ratio, note)


@calculation
def longest_overhang(force: float, diameter: float, deflection: float, modulus: float = STEEL) -> float:
    """Length that a round bar or tool may stand out for a deflection you allow.

    Equation:
        I = pi * d ** 4 / 64
        L = (3 * E * I * w / F) ** (1 / 3)

    Parameters:
        force: F [N] (F > 0) force across the tip
        diameter: d [mm] (d > 0) diameter of the bar
        deflection: w [mm] (w > 0) deflection you allow
        modulus: E [MPa] (E > 0) modulus of elasticity; steel where it is not said

    Returns:
        L [mm] length longest overhang

    Raises:
        OutOfRange: a value is not above nothing.

    Validity:
        As for boring_bar_bends.

    Example:
        >>> round(longest_overhang(200, 20, 0.04121), 1)
        100.0

    Source:
        Handbook cantilever formula turned round; the figures are those of a 20 mm bar standing out 100 mm.

    Trust: estimate
    """
    return (3 * modulus * round_section(diameter) * deflection / force) ** (1 / 3)
