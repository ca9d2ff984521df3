"""What hole, what torque and what depth of thread does a screw want?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import Row, take
from ..form.tables import number, read_table
from .threads import Thread, thread


@dataclass(frozen=True)
class CapScrew:
    """Sizes of a socket cap screw and the hole it sits in."""

    head: float
    head_height: float
    key: float
    clearance: float
    counterbore: float
    counterbore_depth: float


@dataclass(frozen=True)
class HexagonParts:
    """Sizes of a hexagon screw, its nut and its washer."""

    across_flats: float
    head_height: float | None
    nut_height: float | None
    washer: float | None
    washer_thickness: float | None


@dataclass(frozen=True)
class Tightening:
    """How tight a screw is done up."""

    torque: float
    preload: float
    torque_low: float
    torque_high: float
    stress_area: float
    note: str


@dataclass(frozen=True)
class ThreadStrength:
    """How deep a tapped hole must be for the screw to break before the thread strips."""

    length: float
    length_in_diameters: float
    screw_breaks_at: float


@calculation
def clearance_hole(size: str, series: str = "medium") -> float:
    """Clearance hole for a metric screw.

    Table: screw_parts

    Parameters:
        size: [text] M1 to M36
        series: [text] (one of fine, medium, coarse) fine for close work, medium as a rule

    Returns:
        d_h [mm] size diameter of the hole

    Raises:
        NotInTable: the table has no such size.

    Validity:
        As the standard has it; drill to the nearest size above.

    Example:
        >>> clearance_hole("M6")
        6.6

    Source:
        From memory of ISO 273.

    Trust: table
    """
    return _cell(size, series.strip().lower())


@calculation
def cap_screw(size: str, series: str = "medium") -> CapScrew:
    """Head of a socket cap screw, and the hole and counterbore that sink it.

    Table: screw_parts

    Parameters:
        size: [text] M1.6 to M36
        series: [text] (one of fine, medium, coarse) series of the clearance hole

    Returns:
        head: d_k [mm] size largest diameter of the head
        head_height: k [mm] size height of the head
        key: s [mm] size across flats of the key
        clearance: d_h [mm] size clearance hole
        counterbore: D [mm] size diameter of the counterbore
        counterbore_depth: t [mm] size depth that sinks the head: its height and 0.4 to 0.8 mm

    Raises:
        NotInTable: the table has no such size.

    Validity:
        Without a washer. The extra depth is common practice.

    Example:
        >>> screw = cap_screw("M6")
        >>> screw.head, screw.counterbore, screw.counterbore_depth
        (10.0, 11.0, 6.4)

    Source:
        From memory of ISO 4762 and DIN 974-1.

    Trust: table
    """
    height = _cell(size, "cap_height")
    extra = 0.4 if height <= 6 else 0.6 if height <= 20 else 0.8
    return CapScrew(
        head=_cell(size, "cap_head"),
        head_height=height,
        key=_cell(size, "cap_key"),
        clearance=_cell(size, series.strip().lower()),
        counterbore=_cell(size, "counterbore"),
        counterbore_depth=round(height + extra, 6),
    )


@calculation
def countersink(size: str) -> float:
    """Diameter of the 90 degree countersink that sinks a countersunk socket screw flush.

    Table: screw_parts

    Parameters:
        size: [text] M3 to M20

    Returns:
        D [mm] size sharp diameter of the head, to which the countersink is cut

    Raises:
        NotInTable: the table has no such size.

    Validity:
        Heads of ISO 10642; slotted and cross-head screws are a little smaller. Try one in its hole.

    Example:
        >>> countersink("M5")
        11.2

    Source:
        From memory of ISO 10642 (2.24 diameters).

    Trust: table
    """
    return _cell(size, "countersunk")


@calculation
def hexagon_parts(size: str) -> HexagonParts:
    """Hexagon head, nut and washer of a metric screw.

    Table: screw_parts

    Parameters:
        size: [text] M1.6 to M36

    Returns:
        across_flats: s [mm] size across flats of head and nut
        head_height: k [mm] size height of the head; nothing where unknown
        nut_height: m [mm] size greatest height of the nut; nothing where unknown
        washer: D [mm] size outside of the plain washer; nothing where unknown
        washer_thickness: h [mm] size its thickness; nothing where unknown

    Raises:
        NotInTable: the table has no such size.

    Validity:
        ISO sizes; older DIN heads of M10, M12, M14 and M22 are 17, 19, 22 and 32 mm across flats.

    Example:
        >>> hexagon_parts("M8").across_flats
        13.0

    Source:
        From memory of ISO 4014, ISO 4032 and ISO 7089.

    Trust: table
    """
    row = _row(size)
    heights = (number(row[key]) for key in ("hexagon_height", "nut_height", "washer", "washer_thickness"))
    return HexagonParts(_cell(size, "hexagon"), *heights)


@calculation
def stress_area(name: str) -> float:
    """Area that carries the pull in a screw thread.

    Equation:
        A = pi / 4 * ((d_2 + d_3) / 2) ** 2

    Table: threads, drill_gauges, metric_drills

    Parameters:
        name: [text] any thread the handbook knows: M6, 1/4 BSF, 2BA

    Returns:
        A [mm^2] area stress area

    Raises:
        NotInTable: no thread has that name.

    Validity:
        d_2 is the effective diameter, d_3 the core of the screw.

    Example:
        >>> round(stress_area("M6"), 1)
        20.1

    Source:
        ISO 898-1, from memory: 20.1 mm^2 for M6.

    Trust: exact
    """
    return _stress_area(thread(name))


@calculation
def tightening_torque(
    size: str, property_class: str = "8.8", friction: float = 0.12, share: float = 0.9, head: float | None = None
) -> Tightening:
    """Torque that draws a screw to a share of its yield, and the pull it gives.

    Equation:
        p = atan(P / (pi * d_2))
        r = atan(mu / cos(pi / 6))
        M = F * (d_2 / 2 * tan(p + r) + mu * D_k / 2)

    Table: screw_parts, property_classes, threads, drill_gauges, metric_drills

    Parameters:
        size: [text] M1.6 to M36
        property_class: [text] 4.6 to 12.9, A2-70 and the like
        friction: mu [1] (0.04 <= mu <= 0.4) of thread and head: 0.12 lightly oiled, 0.10 greased, 0.16 or more dry
        share: q [1] (0 < q <= 1) share of the yield in the core, pull and twist together
        head: D_h [mm] (D_h > 0) outside of the bearing face; a cap head's where it is not said

    Returns:
        torque: M [N*m] torque torque to set
        preload: F [N] force pull in the screw
        torque_low: [N*m] torque torque for the same pull at friction a quarter less
        torque_high: [N*m] torque torque for the same pull at friction a quarter more
        stress_area: A [mm^2] area stress area
        note: [text] text what the spread means

    Raises:
        NotInTable: the table has no such size or class.

    Validity:
        Screw in steel. The pull spreads by a quarter either way at one torque. In aluminium, brass or cast iron the
        tapped thread or the face under the head gives first: see tapped_strength.

    Example:
        >>> screw = tightening_torque("M8", "8.8")
        >>> round(screw.torque, 1), round(screw.preload, -2)
        (25.3, 18600.0)

    Source:
        From memory of VDI 2230, which gives 18.1 kN and 24.6 N m here: 3 per cent less.

    Trust: estimate ±25 %
    """
    shape = thread(size)
    area = _stress_area(shape)
    pull = _preload(shape, share * _strength(property_class, "yield"), friction)
    face = head if head is not None else _cell(size, "cap_head")
    mean = (face + _cell(size, "medium")) / 2
    torque, low, high = (_torque(shape, pull, mu, mean) for mu in (friction, 0.75 * friction, 1.25 * friction))
    note = "tightened by torque the pull spreads by a quarter either way; a torque wrench does not change that"
    return Tightening(torque, pull, low, high, area, note)


@calculation
def tapped_strength(
    size: str, tensile: float, property_class: str = "8.8", margin: float = 1.2, shear_share: float = 0.6
) -> ThreadStrength:
    """Length of full thread in a tapped hole that breaks the screw before the thread strips.

    Equation:
        F = R * A
        L = n * F / (c * R_h * 0.875 * pi * d)

    Table: property_classes, threads, drill_gauges, metric_drills

    Parameters:
        size: [text] M1.6 and up, coarse or fine
        tensile: R_h [MPa] (R_h > 0) tensile strength of the metal that is tapped
        property_class: [text] 4.6 to 12.9, A2-70 and the like
        margin: n [1] (n >= 1) extra length for a drill on the large side and a rough thread
        shear_share: c [1] (0.3 <= c <= 0.8) shear strength over tensile strength: about 0.6

    Returns:
        length: L [mm] length length of full thread, besides the lead-in
        length_in_diameters: [1] ratio the same over the diameter
        screw_breaks_at: F [N] force pull at which the screw breaks

    Raises:
        NotInTable: there is no such thread or class.

    Validity:
        The thread of the hole shears at the screw's outside. Full engagement: a hole tapped to 60 per cent
        keeps most of it. Where the screw's own thread is the weaker (a soft screw in hard steel), 0.8 diameters do.

    Example:
        >>> hole = tapped_strength("M6", 310, "8.8", margin=1)
        >>> round(hole.length, 2)
        5.25

    Source:
        Shear area of threads from handbooks, from memory; worked out here.

    Trust: estimate ±25 %

    Checked: books give a length in diameters without the metal's strength; no case with all its numbers is
        printed.
    """
    shape = thread(size)
    breaks = _strength(property_class, "tensile") * _stress_area(shape)
    length = margin * breaks / (shear_share * tensile * 0.875 * math.pi * shape.major)
    return ThreadStrength(length, length / shape.major, breaks)


def _stress_area(shape: Thread) -> float:
    return math.pi / 4 * ((shape.effective + shape.core) / 2) ** 2


def _preload(shape: Thread, allowed: float, friction: float) -> float:
    """Return the pull at which pull and twist together reach the stress allowed (von Mises)."""
    core = (shape.effective + shape.core) / 2
    arm = shape.effective / 2 * math.tan(_lead(shape) + _angle_of_friction(shape, friction))
    twist = arm * 16 / (math.pi * core**3) * (math.pi / 4 * core**2)
    # At yield the twist spreads evenly over the section, which counts it three quarters (VDI 2230, from memory).
    return allowed * _stress_area(shape) / math.sqrt(1 + 3 * (0.75 * twist) ** 2)


def _torque(shape: Thread, pull: float, friction: float, mean_head: float) -> float:
    in_thread = shape.effective / 2 * math.tan(_lead(shape) + _angle_of_friction(shape, friction))
    return pull * (in_thread + friction * mean_head / 2) / 1000


def _lead(shape: Thread) -> float:
    return math.atan(shape.pitch / (math.pi * shape.effective))


def _angle_of_friction(shape: Thread, friction: float) -> float:
    return math.atan(friction / math.cos(math.radians(shape.angle / 2)))


def _strength(property_class: str, which: str) -> float:
    rows = read_table("property_classes").rows
    for row in rows:
        if row["class"].lower() == property_class.strip().lower():
            return float(take(row)[which])
    raise NotInTable(property_class, "property class", tuple(row["class"] for row in rows))


def _row(size: str) -> Row:
    """Return the row of a size; 'M6', 'm6' and 'M6x1' are one."""
    rows = read_table("screw_parts").rows
    wanted = "".join(size.upper().split()).partition("X")[0]
    for row in rows:
        if row["size"].upper() == wanted:
            return take(row)
    raise NotInTable(size, "screw size", tuple(row["size"] for row in rows))


def _cell(size: str, column: str) -> float:
    found = number(_row(size)[column])
    if found is None:
        words = column.replace("_", " ")
        raise OutOfRange("size", size, "text", f"a size whose {words} the table has")
    return found
