"""What are the diameters, the depth and the tapping drill of this thread?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import calculation
from ..form.rows import take
from .drills import Drill, drill, nearest_drill
from .thread_names import INCH, TRAPEZOIDAL, UNIFIED, ThreadSize, crest_clearance, thread_size

_USUAL_ENGAGEMENT = 0.77
_LARGEST_DRILL = 50.0


@dataclass(frozen=True)
class Thread:
    """One thread: all its diameters, its tapping drill and its wires."""

    name: str
    system: str
    form: str
    angle: float
    major: float
    pitch: float
    tpi: float
    effective: float
    minor: float
    core: float
    depth: float
    hole_depth: float
    helix_angle: float
    tap_drill: float
    tap_drill_name: str
    tap_drill_inch: str
    engagement: float
    best_wire: float
    over_best_wire: float
    note: str


@calculation
def thread(name: str) -> Thread:
    """All diameters of a thread, its depth, helix, tapping drill and best wire.

    Equation:
        d_2 = d - k_2 * P
        D_1 = d - k_1 * P
        d_3 = d - k_3 * P
        h_3 = (d - d_3) / 2
        H_1 = (d - D_1) / 2
        phi = atan(P / (pi * d_2))
        e = (d - d_t) / (d - D_1)
        W = P / (2 * cos(alpha / 2))
        M_W = d_2 + W * (1 + 1 / sin(alpha / 2)) - P / (2 * tan(alpha / 2))

    Table:
        threads, drill_gauges, metric_drills

    Parameters:
        name: [text] as people type it: "M6", "M6x0.75", "1/4-20 UNC", "1/4 BSF", "2BA", "G1/4", "1/4x32 ME", "Tr10x2"

    Returns:
        name: [text] text  the name as the handbook writes it
        system: [text] text  M, UNC, BSW, BA and so on
        form: [text] text  shape of the thread
        angle: alpha [deg] angle  between the flanks
        major: d [mm] size  outside diameter
        pitch: P [mm] length  pitch
        tpi: [1] number  threads to the inch
        effective: d_2 [mm] size  effective (pitch) diameter
        minor: D_1 [mm] size  minor diameter of the hole
        core: d_3 [mm] size  core of the screw
        depth: h_3 [mm] length  depth of the screw's thread, to feed in
        hole_depth: H_1 [mm] length  depth of the hole's thread
        helix_angle: phi [deg] angle  at the effective diameter
        tap_drill: d_t [mm] size  tapping drill of the table
        tap_drill_name: [text] text  its name
        tap_drill_inch: [text] text  number, letter or fraction drill of the table, or the nearest
        engagement: e [1] percent  with that drill, of the full depth in the hole (ISO overlap)
        best_wire: W [mm] size  wire that touches at the effective diameter
        over_best_wire: M_W [mm] size  over three such wires
        note: [text] text  what to know

    Raises:
        NotInTable: no thread has that name; the nearest names are suggested.

    Validity:
        Basic sizes, no tolerances: see thread_limits. Unified cores are the rounded ones; older_unified_core
        gives those of older tables. The table lists usual tapping drills; drill_for_thread finds others.

    Example:
        >>> m6 = thread("M6")
        >>> round(m6.effective, 3), round(m6.core, 3), round(m6.minor, 3), m6.tap_drill
        (5.35, 4.773, 4.917, 5.0)

    Source:
        ISO 724 basic sizes and tapping drills of M6 (tables read). A page that gives M8 a minor of 6.917 prints
        that of M8x1; one that gives M9x1 a 9.0 drill is in error.

    Trust: exact
    """
    size = thread_size(name)
    form, pitch, major = size.form, size.pitch, size.major
    effective, minor = major - form.effective * pitch, major - form.minor * pitch
    core = core_of(size)
    chosen = _tap_drill(size)
    half = math.radians(form.angle / 2)
    wire = pitch / (2 * math.cos(half))
    return Thread(
        name=size.name,
        system=size.system,
        form=form.name,
        angle=form.angle,
        major=major,
        pitch=pitch,
        tpi=INCH / pitch,
        effective=effective,
        minor=minor,
        core=core,
        depth=(major - core) / 2,
        hole_depth=(major - minor) / 2,
        helix_angle=math.degrees(math.atan(pitch / (math.pi * effective))),
        tap_drill=chosen.diameter,
        tap_drill_name=chosen.name,
        tap_drill_inch=size.inch_drill or nearest_drill(min(chosen.diameter, 50.8), "inch").name,
        engagement=(major - chosen.diameter) / (major - minor),
        best_wire=wire,
        over_best_wire=effective + wire * (1 + 1 / math.sin(half)) - pitch / (2 * math.tan(half)),
        note=_note(size),
    )


@calculation
def older_unified_core(major: float, pitch: float) -> float:
    """Core diameter of an American or unified screw as older tables print it, with flat roots.

    Equation:
        d_3 = d - 1.22687 * P

    Parameters:
        major: d [mm] (d > 0) outside diameter
        pitch: P [mm] (0 < P < 0.8 * d) pitch

    Returns:
        d_3 [mm] size

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        17/24 of the sharp height on either side. Tables since the rounded root print d - 1.19078 P; see thread.

    Example:
        1/4-20 UNC: 0.1887 in.
        >>> round(older_unified_core(6.35, 1.27) / 25.4, 4)
        0.1887

    Source:
        A published thread page's note: the rounded root is D - 1.19078 P, older tables print D - 1.22687 P (page read).

    Trust: exact
    """
    return major - 1.22687 * pitch


def core_of(size: ThreadSize) -> float:
    """Return the core diameter [mm] of a screw."""
    more = 2 * crest_clearance(size.pitch) if size.form is TRAPEZOIDAL else 0.0
    return size.major - size.form.core * size.pitch - more


def _tap_drill(size: ThreadSize) -> Drill:
    """Return the listed tapping drill, or the nearest for 77 % of the full depth where none is listed."""
    if size.row is not None and (size.drill or size.inch_drill):
        take(size.row, "drill", "inch_drill")
    listed = float(size.drill.removesuffix(" mm")) if size.drill.endswith(" mm") else 0.0
    if listed > _LARGEST_DRILL:
        return Drill(f"bore {listed:g} mm", "bored", listed)
    if size.drill or size.inch_drill:
        return drill(size.drill or size.inch_drill)
    wanted = size.major - _USUAL_ENGAGEMENT * size.form.core * size.pitch
    if wanted > _LARGEST_DRILL:
        return Drill(f"bore {wanted:.2f} mm", "bored", wanted)
    found = nearest_drill(wanted, "metric")
    return Drill(found.name, found.system, found.diameter)


def _note(size: ThreadSize) -> str:
    said = [size.note] if size.note else []
    if not (size.drill or size.inch_drill):
        said.append("no tapping drill is listed: this one gives about 77 % of the full depth")
    if size.form is UNIFIED:
        said.append("core of the rounded root; older tables print d - 1.2269 P")
    return "; ".join(said)
