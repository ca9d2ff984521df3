"""How far does a cam lift its follower at an angle, and where does its cutter stand?"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation

Law = Callable[[float], tuple[float, float, float]]
"""Share of the way → share of the lift, its first and its second derivative."""


def _uniform(u: float) -> tuple[float, float, float]:
    return u, 1.0, 0.0


def _harmonic(u: float) -> tuple[float, float, float]:
    a = math.pi * u
    return (1 - math.cos(a)) / 2, math.pi * math.sin(a) / 2, math.pi**2 * math.cos(a) / 2


def _parabolic(u: float) -> tuple[float, float, float]:
    return (2 * u * u, 4 * u, 4.0) if u < 0.5 else (1 - 2 * (1 - u) ** 2, 4 * (1 - u), -4.0)


def _cycloidal(u: float) -> tuple[float, float, float]:
    a = 2 * math.pi * u
    return u - math.sin(a) / (2 * math.pi), 1 - math.cos(a), 2 * math.pi * math.sin(a)


LAWS: Mapping[str, Law] = {
    "uniform": _uniform, "harmonic": _harmonic, "parabolic": _parabolic, "cycloidal": _cycloidal,
}  # fmt: skip
"""Laws of motion: constant speed, simple harmonic, constant acceleration, cycloidal."""


ROUNDS = 60
"""Rounds in which the bends of a table of lifts are found, to a millionth of a micrometre."""


@dataclass(frozen=True)
class CamLift:
    """What a follower does at an angle of its cam."""

    lift: float
    slope: float
    bend: float


@calculation
def cam_lift(angle: float, lift: float, rise: float, dwell: float, fall: float, motion: str = "harmonic") -> CamLift:
    """Lift of a follower at an angle of a cam that rises, dwells, falls and rests.

    Equation:
        u = a / b
        s = h / 2 * (1 - cos(pi * u))

    Parameters:
        angle: a [deg] (0 <= a <= 360) angle from where the rise begins
        lift: h [mm] (h > 0) whole lift
        rise: b [deg] (0 < b < 360) angle of the rise
        dwell: c [deg] (0 <= c < 360) angle at the top
        fall: f [deg] (0 < f < 360) angle of the fall; what is left of the turn is rest
        motion: [text] (one of uniform, harmonic, parabolic, cycloidal) law of motion; the equation is the harmonic one

    Returns:
        lift: s [mm] size  lift there
        slope: [mm] length  lift for each radian of turning
        bend: [mm] length  its change for each radian

    Raises:
        OutOfRange: a value lies outside the range given above, or the angles make more than a turn.

    Validity:
        Uniform motion begins and ends with a knock, parabolic and harmonic motion with a jump of acceleration;
        cycloidal motion with none.

    Example:
        Half way up a harmonic rise of 6 mm.
        >>> round(cam_lift(30, 6, 60, 30, 60).lift, 6)
        3.0

    Source:
        The laws of motion of every text on cams; worked out here.

    Trust: exact

    Checked: the laws against their own slopes and ends; texts print curves and no numbers.
    """
    if rise + dwell + fall > 360 + 1e-9:
        raise OutOfRange("fall", rise + dwell + fall, "deg", "rise, dwell and fall make a turn at most")
    law, at = LAWS[motion], angle % 360.0
    if at < rise:
        return _scaled(law(at / rise), lift, rise, 1.0)
    if at <= rise + dwell:
        return CamLift(lift, 0.0, 0.0)
    if at < rise + dwell + fall:
        return _scaled(law((rise + dwell + fall - at) / fall), lift, fall, -1.0)
    return CamLift(0.0, 0.0, 0.0)


def _scaled(found: tuple[float, float, float], lift: float, over: float, way: float) -> CamLift:
    turn = math.radians(over)
    return CamLift(lift * found[0], way * lift * found[1] / turn, lift * found[2] / turn**2)


@calculation
def cam_cusp(radius: float, step: float, cutter: float) -> float:
    """Height of the ridge that stays between two settings of a cutter on a cam.

    Equation:
        w = r * t
        k = w ** 2 / 8 * (1 / r + 2 / d)

    Parameters:
        radius: r [mm] (r > 0) radius of the cam there
        step: t [deg] (0 < t <= 60) angle from setting to setting
        cutter: d [mm] (d > 0) diameter of the cutter

    Returns:
        k [mm] deviation

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Small steps, a round part of the cam. The ridges are filed off.

    Example:
        >>> round(cam_cusp(18, 2, 10), 4)
        0.0126

    Source:
        Worked out here: two circles that touch a round from outside.

    Trust: exact

    Checked: against two circles that meet, by Pythagoras; nobody prints a case.
    """
    wide = radius * math.radians(step)
    return wide**2 / 8 * (1 / radius + 2 / cutter)


def table_lifts(lifts: Sequence[float]) -> Callable[[float], CamLift]:
    """The smooth lift through lifts [mm] at equal steps of a turn: a closed cubic spline; takes degrees.

    Raises:
        ValueError: there are fewer than four.
    """
    count = len(lifts)
    if count < 4:
        raise ValueError("a table of lifts has four values at least")
    step, y = 2 * math.pi / count, [float(lift) for lift in lifts]
    wanted = [6 * (y[i - 1] - 2 * y[i] + y[(i + 1) % count]) / step**2 for i in range(count)]
    bend = [0.0] * count
    for _ in range(ROUNDS):  # each round halves what is left, as the middle outweighs its two neighbours
        for i in range(count):
            bend[i] = (wanted[i] - bend[i - 1] - bend[(i + 1) % count]) / 4

    def at(angle: float) -> CamLift:
        place = math.radians(angle % 360.0) / step
        i = int(place) % count
        t, j = place - int(place), (i + 1) % count
        a, b, m, n = y[i], y[j], bend[i], bend[j]
        rest = ((1 - t) ** 3 - (1 - t)) * m + (t**3 - t) * n
        lift = (1 - t) * a + t * b + rest * step**2 / 6
        slope = (b - a) / step + ((1 - 3 * (1 - t) ** 2) * m + (3 * t * t - 1) * n) * step / 6
        return CamLift(lift, slope, (1 - t) * m + t * n)

    return at
