"""What does a thread measure over wires, and which wires serve?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import calculation
from .thread_names import thread_size

_LEAST_WIRE, _GREATEST_WIRE = 0.97, 1.56


@calculation
def over_wires(effective: float, pitch: float, wire: float, angle: float = 60.0) -> float:
    """Measurement over three wires of a thread.

    Equation:
        M = d_2 + W * (1 + 1 / sin(alpha / 2)) - P / (2 * tan(alpha / 2))

    Parameters:
        effective: d_2 [mm] (d_2 > 0) effective diameter
        pitch: P [mm] (P > 0) pitch
        wire: W [mm] (W > 0) diameter of the wires
        angle: alpha [deg] (20 <= alpha <= 90) between the flanks: 60 ISO and unified, 55 Whitworth, 47.5 BA

    Returns:
        M [mm] size

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Single-start threads; the helix angle is neglected: up to about 1 um too small for common threads, more for
        coarse ones.

    Example:
        1 1/2-6, wires of 0.140 in: 1.6674 in.
        >>> round(over_wires((1.5 - 0.649519 / 6) * 25.4, 25.4 / 6, 0.140 * 25.4) / 25.4, 4)
        1.6674

    Source:
        Handbook page on three wires, 60 degrees (page read). A web page that uses 3 W and 0.57735 P for Whitworth
        threads is in error.

    Trust: exact
    """
    half = math.radians(angle / 2)
    return effective + wire * (1 + 1 / math.sin(half)) - pitch / (2 * math.tan(half))


@calculation
def effective_from_wires(over: float, pitch: float, wire: float, angle: float = 60.0) -> float:
    """Effective diameter from a measurement over three wires.

    Equation:
        d_2 = M - W * (1 + 1 / sin(alpha / 2)) + P / (2 * tan(alpha / 2))

    Parameters:
        over: M [mm] (M > 0) measured over the wires
        pitch: P [mm] (P > 0) pitch
        wire: W [mm] (W > 0) diameter of the wires
        angle: alpha [deg] (20 <= alpha <= 90) between the flanks

    Returns:
        d_2 [mm] size

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        As over_wires.

    Example:
        1/4-20 2A, wires of 0.0289 in: 0.2598 in over them is 0.2164 in.
        >>> round(effective_from_wires(0.2598 * 25.4, 1.27, 0.0289 * 25.4) / 25.4, 4)
        0.2164

    Source:
        Public page on the 1/4-20 2A window (page read).

    Trust: exact
    """
    half = math.radians(angle / 2)
    return over - wire * (1 + 1 / math.sin(half)) + pitch / (2 * math.tan(half))


@dataclass(frozen=True)
class WireCheck:
    """What to read over three wires on a thread, and which wires serve."""

    over: float
    wire: float
    best_wire: float
    least_wire: float
    greatest_wire: float
    note: str


@calculation
def thread_over_wires(name: str, wire: float | None = None, effective: float | None = None) -> WireCheck:
    """What to read over three wires on a named thread.

    Equation:
        W_b = P / (2 * cos(alpha / 2))
        W_low = 0.97 * W_b
        W_high = 1.56 * W_b

    Table:
        threads

    Parameters:
        name: [text] as people type it: "M6", "M6x0.75", "1/4-20 UNC", "1/4 BSF", "2BA", "G1/4", "1/4x32 ME", "Tr10x2"
        wire: W [mm] (W > 0) diameter of the wires; the best wire when not given
        effective: d_2 [mm] (d_2 > 0) effective diameter wanted; the basic one when not given

    Returns:
        over: M [mm] size  reading over the wires
        wire: W [mm] size  wires used
        best_wire: W_b [mm] size  touches at the effective diameter
        least_wire: W_low [mm] size  least that serves
        greatest_wire: W_high [mm] size  greatest that serves
        note: [text] text  says when the wire does not serve

    Raises:
        NotInTable: no thread has that name; the nearest names are suggested.
        OutOfRange: a value lies outside the range given above.

    Validity:
        As over_wires. Least and greatest wires: 0.56 P and 0.90 P for 60 degrees (page read), in the same share for
        the others.

    Example:
        7/16-14, wires of 0.045 in: 0.464 in.
        >>> check = thread_over_wires("7/16-14 UNC", wire=1.143)
        >>> round(check.over / 25.4, 3), round(check.best_wire / 25.4, 3), round(check.greatest_wire / 25.4, 3)
        (0.464, 0.041, 0.064)

    Source:
        Lathe text's example of 7/16-14 with its best, least and greatest wire (page read).

    Trust: exact
    """
    size = thread_size(name)
    best = size.pitch / (2 * math.cos(math.radians(size.form.angle / 2)))
    used = best if wire is None else wire
    basic = size.major - size.form.effective * size.pitch
    over = over_wires(basic if effective is None else effective, size.pitch, used, size.form.angle)
    least, greatest = _LEAST_WIRE * best, _GREATEST_WIRE * best
    note = "" if least <= used <= greatest else f"these wires do not serve: take {least:.3f} to {greatest:.3f} mm"
    return WireCheck(over, used, best, least, greatest, note)
