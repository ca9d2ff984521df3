"""How large is a taper pipe thread at its end, how long is it, and what is drilled for it?"""

from __future__ import annotations

import re
from dataclasses import dataclass

from ..form.calculation import NotInTable, calculation
from ..form.rows import Row, take
from ..form.tables import read_table

TAPER = 1 / 16
"""On the diameter, of R, Rc and NPT alike."""
HEIGHT = {55.0: 0.640327, 60.0: 0.8}
"""Height of the thread as a share of its pitch: Whitworth form by ISO 7-1; the truncated form of NPT."""


@dataclass(frozen=True)
class TaperThread:
    """A taper pipe thread; mm."""

    name: str
    inside: str
    pitch: float
    small_end: float
    large_end: float
    gauge_major: float
    gauge: float
    useful: float
    depth: float
    drill: float
    angle: float
    half_angle: float


@calculation
def taper_thread(name: str) -> TaperThread:
    """Sizes of a taper pipe thread, 1 in 16 on the diameter.

    Equation:
        d_1 = d - g / 16
        d_2 = d_1 + l / 16
        d = d_1 + g / 16

    Table:
        taper_threads

    Parameters:
        name: [text] "R 1/2", "Rc 1/2", "1/2 BSPT", "1/2 NPT", "1/2-14 NPT"

    Returns:
        name: [text] text  the thread
        inside: [text] text  the inside thread that it goes into
        pitch: P [mm] size
        small_end: d_1 [mm] size  major diameter at the small end, where one begins to turn it
        large_end: d_2 [mm] size  the same at the end of the useful thread
        gauge_major: d [mm] size  major diameter at the gauge plane, which is the face of an inside thread
        gauge: g [mm] length  gauge length (R), hand-tight length (NPT)
        useful: l [mm] length  useful thread
        depth: h [mm] size  depth of thread
        drill: [mm] size  drill for an inside thread that is not taper reamed
        angle: [deg] angle  of the thread
        half_angle: [deg] angle  setting of the top slide, 1 degree 47 minutes

    Raises:
        NotInTable: no taper thread has that name.

    Validity:
        Sizes of the table. An NPT is measured from the pipe's outside at the end of its effective thread.

    Example:
        >>> found = taper_thread("R 1/2")
        >>> round(found.small_end, 4), round(found.pitch, 3)
        (20.4425, 1.814)

    Source:
        ISO 7-1 and ASME B1.20.1, from memory.

    Trust: table
    """
    row = _row(name)
    take(row)
    pitch, major, gauge, useful = (25.4 / float(row["tpi"]), *(float(row[c]) for c in ("major", "gauge", "useful")))
    at = useful if row["name"].endswith("NPT") else gauge
    small = major - at * TAPER
    angle = float(row["angle"])
    name = row["name"]
    inside = name.replace("R ", "Rc ")
    return TaperThread(
        name=name,
        inside=inside,
        pitch=pitch,
        small_end=small,
        large_end=small + useful * TAPER,
        gauge_major=small + gauge * TAPER,
        gauge=gauge,
        useful=useful,
        depth=HEIGHT[angle] * pitch,
        drill=float(row["drill"]),
        angle=angle,
        half_angle=1.7899,
    )


def is_taper(name: str) -> bool:
    """Whether a name is that of a taper pipe thread, known or not."""
    return re.match(r"(?i)^\s*(rc?\s*\d|.*\b(npt|bspt)\b)", name) is not None


def _row(name: str) -> Row:
    """The row of a name as people type it."""
    plain = " ".join(name.replace('"', "").upper().split())
    size = re.sub(r"^RC?\s*|\s*(BSPT|NPT)|-\s*[\d.]+(?=\s|$)|\s*IN(CH)?$", "", plain).strip()
    wanted = f"{size} NPT" if "NPT" in plain else f"R {size}"
    rows = read_table("taper_threads").rows
    found = next((row for row in rows if row["name"] == wanted), None)
    if found is None or not is_taper(name):
        raise NotInTable(name, "taper thread", [row["name"] for row in rows])
    return found
