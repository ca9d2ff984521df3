"""Which drill leaves how much thread, and how deep is it tapped?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation
from .drills import nearest_drill
from .thread_names import ThreadSize, thread_size

DEFINITIONS: Mapping[str, float] = {"inch": 1.299038, "iso": 1.082532, "british": 1.226869}
"""What 100 % of a 60 degree thread takes off the diameter, in pitches, by each of the three definitions in use."""

_LEADS: Mapping[str, float] = {"taper": 8.0, "second": 4.0, "plug": 2.0}
_MOST_THREAD = 1.15
"""Of full depth: the tap has room for a little more than its own form, no more."""
_BINDS = 0.02
"""A tapping drill this much [mm] below the minor diameter is more than rounding."""


@calculation
def thread_engagement(name: str, drill: float, definition: str = "iso") -> float:
    """Percentage of thread that a hole leaves, by a definition that is named.

    Equation:
        e = (d - d_h) / (k * P)

    Table:
        threads

    Parameters:
        name: [text] as people type it: "M6", "M6x0.75", "1/4-20 UNC", "1/4 BSF", "2BA", "G1/4", "1/4x32 ME", "Tr10x2"
        drill: d_h [mm] (d_h > 0) diameter of the hole before tapping
        definition: [text] (one of inch, iso, british) 100 % is 1.2990 P (inch handbooks), 1.0825 P (ISO overlap) or
            1.2269 P (British practice) for 60 degree threads; Whitworth and BA forms know one only: their full depth

    Returns:
        e [1] percent

    Raises:
        NotInTable: no thread has that name; the nearest names are suggested.
        OutOfRange: the hole is not smaller than the thread, or the definition is none of the three.

    Validity:
        Exact by its definition, to 115 %. A drill that cuts large leaves less. The same hole in M6, 5.0 mm, is 77, 92
        or 82 %.

    Heed:
        e > 1: the hole is smaller than the thread is deep: the tap cuts with its roots and soon breaks

    Example:
        M6 and a 5 mm drill, British practice: 82 %.
        >>> round(100 * thread_engagement("M6", 5.0, "british"))
        82

    Source:
        British hobby page, M6 with 5.0 mm 82 % (page read); tapping table of 1/4-20 and others by inch practice
        (page read).

    Trust: exact
    """
    size = thread_size(name)
    if drill >= size.major:
        raise OutOfRange("drill", drill, "mm", f"smaller than the thread ({size.major:g} mm)")
    full = full_thread(size, definition)
    if drill < size.major - _MOST_THREAD * full:
        least = size.major - _MOST_THREAD * full
        raise OutOfRange("drill", drill, "mm", f"{least:.3g} mm or more: a tap cannot clear what lies below its core")
    return (size.major - drill) / full


@dataclass(frozen=True)
class TappingDrill:
    """A drill for a wanted percentage of thread, and what it gives by each definition."""

    wanted: float
    name: str
    diameter: float
    engagement: float
    engagement_inch: float
    engagement_iso: float
    engagement_british: float
    definition: str
    note: str


@calculation
def drill_for_thread(
    name: str, engagement: float = 0.75, definition: str = "iso", system: str = "metric", oversize: float = 0.0
) -> TappingDrill:
    """Drill for a wanted percentage of thread, by a definition that is named.

    Equation:
        d_w = d - k * P * e - o

    Table:
        threads, drill_gauges, metric_drills

    Parameters:
        name: [text] as people type it: "M6", "M6x0.75", "1/4-20 UNC", "1/4 BSF", "2BA", "G1/4", "1/4x32 ME", "Tr10x2"
        engagement: e [1] (0.3 <= e <= 1) wanted share; 0.60 to 0.70 in a home workshop, 0.50 to 0.60 in hard metal
        definition: [text] (one of inch, iso, british) 100 % is 1.2990 P (inch handbooks), 1.0825 P (ISO overlap) or
            1.2269 P (British practice) for 60 degree threads; Whitworth and BA forms know one only: their full depth
        system: [text] (one of metric, common, number, letter, fraction, inch, all) which drills to look among
        oversize: o [mm] (o >= 0) how much the drill cuts large

    Returns:
        wanted: d_w [mm] size  size that gives just that share
        name: [text] text  nearest drill
        diameter: d_n [mm] size  its diameter
        engagement: e_n [1] percent  share it gives, by the definition asked for
        engagement_inch: [1] percent  the same hole by the inch definition
        engagement_iso: [1] percent  the same hole by the ISO definition
        engagement_british: [1] percent  the same hole by the British definition
        definition: [text] text  what 100 % means
        note: [text] text  what to know

    Raises:
        NotInTable: no thread has that name; the nearest names are suggested.
        OutOfRange: a value lies outside the range given above, or no drill of that system is near.

    Validity:
        Above 60 % a thread gains little strength while the tap gains much load.

    Example:
        75 % of 1/4-20 by the inch definition: 0.2013 in, No. 7.
        >>> found = drill_for_thread("1/4-20 UNC", 0.75, "inch", "number")
        >>> round(found.wanted / 25.4, 4), found.name
        (0.2013, 'No. 7')

    Source:
        Tapping table by the inch definition (page read); advice on percentages: two workshop pages (pages read). A
        list that pairs 3/8 x 32 ME with drill Q is in error: it is below the core.

    Trust: exact
    """
    size = thread_size(name)
    wanted = size.major - full_thread(size, definition) * engagement - oversize
    found = nearest_drill(wanted, system)
    hole = found.diameter + oversize
    minor = size.major - size.form.minor * size.pitch
    note = "this drill is below the minor diameter: the tap may bind" if hole < minor - _BINDS else ""
    shares = {word: (size.major - hole) / full_thread(size, word) for word in DEFINITIONS}
    return TappingDrill(
        wanted=wanted,
        name=found.name,
        diameter=found.diameter,
        engagement=shares[definition.strip().lower()],
        engagement_inch=shares["inch"],
        engagement_iso=shares["iso"],
        engagement_british=shares["british"],
        definition=f"100 % is {full_thread(size, definition):.3f} mm off the outside diameter",
        note=note,
    )


@dataclass(frozen=True)
class TappedHole:
    """How deep to drill and to tap."""

    tapped_depth: float
    drill_depth: float
    turns: float
    note: str


@calculation
def tapped_hole(name: str, thread_length: float, tap: str = "second", clearance: float = 1.0) -> TappedHole:
    """How deep to drill and tap a blind hole for a length of full thread.

    Equation:
        L_t = L + z * P
        L_d = L_t + c

    Table:
        threads

    Parameters:
        name: [text] as people type it: "M6", "M6x0.75", "1/4-20 UNC", "1/4 BSF", "2BA", "G1/4", "1/4x32 ME", "Tr10x2"
        thread_length: L [mm] (L > 0) full thread wanted
        tap: [text] (one of taper, second, plug) last tap used; its lead is about 8, 4 or 2 pitches (American: taper,
            plug, bottoming)
        clearance: c [mm] (c >= 0) room below the tap for chips

    Returns:
        tapped_depth: L_t [mm] length  from the face to the end of the tap
        drill_depth: L_d [mm] length  full diameter of the drill, without its point
        turns: [1] number  turns of the tap
        note: [text] text  what to know

    Raises:
        NotInTable: no thread has that name; the nearest names are suggested.
        OutOfRange: a value lies outside the range given above.

    Validity:
        Leads of taps differ by maker; measure the tap.

    Example:
        >>> hole = tapped_hole("M6", 10)
        >>> hole.tapped_depth, hole.drill_depth
        (14.0, 15.0)

    Source:
        From memory: common practice.

    Trust: common practice

    Checked: common practice of the workshop: books give the rule and no cases of it.
    """
    size = thread_size(name)
    lead = _LEADS[tap.strip().lower()] * size.pitch
    tapped = thread_length + lead
    note = "the drill's point goes deeper still: see drill_point_length"
    return TappedHole(tapped, tapped + clearance, tapped / size.pitch, note)


def full_thread(size: ThreadSize, definition: str) -> float:
    """Return what 100 % of thread takes off the outside diameter [mm] by a definition."""
    if size.form.angle == 60.0:
        return DEFINITIONS[definition.strip().lower()] * size.pitch
    return size.form.minor * size.pitch
