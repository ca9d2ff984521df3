"""Which change wheels cut this pitch, how true, and how deep is each cut?"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation, takes

_Train = tuple[int, int, int, int]
_CLEAR = 15
"""Teeth by which a pair must outreach the wheel beside it, so that it does not foul the stud (common practice)."""

_NEAR = 0.1
"""Compound trains further off than this share are not worth listing."""


@dataclass(frozen=True)
class GearTrain:
    """Change wheels for a pitch, and how true the thread comes."""

    first_driver: int
    first_driven: int
    second_driver: int
    second_driven: int
    ratio: float
    pitch: float
    error: float
    error_per_25: float
    words: str
    others: tuple[str, ...]


@calculation
@takes(lambda gears, most_gears, **_: len(gears) ** 4 / 1.6 if most_gears > 2 else 10 * len(gears) ** 2)
def change_gears(
    pitch: float, leadscrew: float, gears: tuple[float, ...], fixed_ratio: float = 1.0, most_gears: int = 4
) -> GearTrain:
    """Change wheels that cut a pitch most truly, from the wheels there are.

    Equation (units as listed):
        i = z_1 * z_3 / (z_2 * z_4)
        P_c = i * P_L * q
        delta = P_c / P - 1
        delta_25 = 25 * delta

    Parameters:
        pitch: P [mm] (P > 0) pitch to cut (the lead, with several starts)
        leadscrew: P_L [mm] (P_L > 0) pitch of the leadscrew
        gears: [1, ...] (z >= 8, whole number) teeth of every wheel there is; a wheel there are two of, twice
        fixed_ratio: q [1] (q > 0) turns of the train's first stud for one of the spindle: tumbler or gearbox
        most_gears: [1] (2 <= g <= 4, whole number) 2 for simple trains only, 4 for compound ones too

    Returns:
        first_driver: z_1 [1] count  on the spindle's stud
        first_driven: z_2 [1] count  meshes with it
        second_driver: z_3 [1] count  on the same stud as the one before; 1 in a simple train
        second_driven: z_4 [1] count  on the leadscrew; 1 in a simple train
        ratio: i [1] ratio  drivers over driven
        pitch: P_c [mm] length  pitch that is cut
        error: delta [1] ratio  share by which it is off
        error_per_25: delta_25 [mm] deviation  gained or lost in 25 mm
        words: [text] text  the train in words
        others: [text, ...] text  the next best trains

    Raises:
        OutOfRange: a value lies outside the range given above, or there are fewer than two wheels.

    Validity:
        Any set of wheels. Trains whose first pair would foul the second stud, by the usual rule of 15 teeth, are
        left out. The banjo may not span all.

    Example:
        1 mm on a leadscrew of 8 to the inch without a 127 wheel: 0.01 % long with a 63.
        >>> train = change_gears(1.0, 3.175, (20, 25, 30, 35, 40, 45, 50, 55, 60, 63, 65, 80))
        >>> round(100 * train.error, 2), 63 in (train.first_driver, train.second_driver)
        (0.01, True)

    Source:
        Definition: the carriage moves a leadscrew pitch for each of its turns.

    Trust: exact
    """
    wheels = sorted(round(gear) for gear in gears)
    if len(wheels) < 2:
        raise OutOfRange("gears", len(wheels), "count", "two wheels at least")
    wanted = pitch / (leadscrew * fixed_ratio)
    trains = sorted(_trains(wheels, wanted, most_gears), key=lambda train: _merit(train, wanted))
    best = trains[0]
    ratio = _ratio(best)
    error = ratio / wanted - 1
    others = tuple(_words(train, wanted) for train in trains[1:6])
    return GearTrain(*best, ratio, ratio * leadscrew * fixed_ratio, error, 25 * error, _words(best, wanted), others)


@calculation
@takes(lambda cuts, **_: 2 * cuts)
def threading_infeeds(depth: float, cuts: int) -> tuple[float, ...]:
    """Depth to set for each cut of a thread so that every cut takes the same area.

    Equation:
        a = h * sqrt(k / m)

    Parameters:
        depth: h [mm] (h > 0) full depth of the thread
        cuts: m [1] (m >= 1, whole number) number of cuts

    Returns:
        a [mm, ...] length

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact for a straight-sided thread. Add a cut or two at the full depth, without infeed, to clean.

    Example:
        >>> [round(depth, 3) for depth in threading_infeeds(0.613, 4)]
        [0.306, 0.433, 0.531, 0.613]

    Source:
        Geometry of a triangle; usual in handbooks (from memory).

    Trust: exact
    """
    return tuple(depth * math.sqrt(cut / cuts) for cut in range(1, cuts + 1))


@calculation
def infeed_along_slide(depth: float, slide_angle: float = 29.5) -> float:
    """Travel of a top-slide set over, for a depth of thread.

    Equation:
        s = h / cos(gamma)

    Parameters:
        depth: h [mm] (h > 0) depth of the thread on the radius
        slide_angle: gamma [deg] (0 <= gamma < 60) from square to the work: half the thread angle, less half a degree

    Returns:
        s [mm] length

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Heed:
        gamma > 30: past half the angle of a 60 degree thread the trailing flank is not cut clean

    Example:
        M6: 0.613 mm deep at 29.5 degrees.
        >>> round(infeed_along_slide(0.613), 3)
        0.704

    Source:
        Geometry; usual practice (from memory).

    Trust: exact
    """
    return depth / math.cos(math.radians(slide_angle))


@dataclass(frozen=True)
class ThreadDial:
    """At which marks of a thread dial the half-nuts may be closed."""

    every: int
    marks: tuple[float, ...]
    note: str


@calculation
@takes(lambda dial_marks, **_: 4 * dial_marks)
def thread_dial(pitch: float, leadscrew: float, dial_teeth: int = 16, dial_marks: int = 8) -> ThreadDial:
    """Marks of a thread dial at which the half-nuts may be closed for a pitch.

    Between two such marks the carriage moves s, the least travel that is a whole number of both pitches and of marks.

    Equation:
        k = s * m / (z * P_L)

    Parameters:
        pitch: P [mm] (P > 0) lead of the thread
        leadscrew: P_L [mm] (P_L > 0) pitch of the leadscrew
        dial_teeth: z [1] (z >= 4, whole number) teeth of the dial's wheel
        dial_marks: m [1] (m >= 1, whole number) marks on the dial

    Returns:
        every: k [1] count  close at every k-th mark; 0 at none
        marks: [1, ...] count  numbers of those marks, the first is 1
        note: [text] text  what to do

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Pitches that divide the leadscrew in whole numbers within one turn of the dial. A metric thread on an inch
        leadscrew has none, nor the other way about: keep the nut closed and reverse the spindle.

    Example:
        Leadscrew of 8 to the inch, wheel of 16, 8 marks: 10 to the inch at every second mark.
        >>> thread_dial(25.4 / 10, 25.4 / 8).every
        2

    Source:
        From memory: usual practice; the carriage has moved a whole number of both pitches.

    Trust: exact
    """
    for step in range(1, dial_marks + 1):
        moved = step * dial_teeth * leadscrew / dial_marks
        if dial_marks % step == 0 and _whole(moved / pitch) and _whole(moved / leadscrew):
            marks = tuple(float(mark) for mark in range(1, dial_marks + 1, step))
            return ThreadDial(step, marks, "any mark" if step == 1 else f"every {step} marks from the first")
    return ThreadDial(0, (), "at no mark: keep the half-nuts closed and reverse the spindle")


def _trains(wheels: list[int], wanted: float, most_gears: int) -> Iterator[_Train]:
    """Yield every train of two wheels, and of four that do not foul, near the wanted ratio."""
    for first, second in set(itertools.permutations(wheels, 2)):
        yield first, second, 1, 1
    if most_gears < 4:
        return
    for drivers in sorted(set(itertools.combinations(wheels, 2))):
        rest = list(wheels)
        for gear in drivers:
            rest.remove(gear)
        for driven in sorted(set(itertools.combinations(rest, 2))):
            ratio = drivers[0] * drivers[1] / (driven[0] * driven[1])
            if abs(ratio / wanted - 1) < _NEAR and not set(drivers) & set(driven):
                yield from _arrangements(drivers, driven)


def _arrangements(drivers: tuple[int, int], driven: tuple[int, int]) -> Iterator[_Train]:
    """Yield the first order of four wheels in which no wheel fouls the other pair's stud."""
    for first, third in (drivers, drivers[::-1]):
        for second, fourth in (driven, driven[::-1]):
            if first + second >= third + _CLEAR and third + fourth >= second + _CLEAR:
                yield first, second, third, fourth
                return


def _ratio(train: _Train) -> float:
    return train[0] * train[2] / (train[1] * train[3])


def _merit(train: _Train, wanted: float) -> tuple[float, int, int, _Train]:
    """Rank the truest first; among equals the simple train, then the smaller wheels."""
    return round(abs(_ratio(train) / wanted - 1), 9), 0 if train[2] == 1 else 1, sum(train), train


def _words(train: _Train, wanted: float) -> str:
    first, second, third, fourth = train
    error = 100 * (_ratio(train) / wanted - 1)
    said = f"{first} drives {second}" + (f", {third} drives {fourth}" if third != 1 else "")
    return f"{said}: " + ("true" if abs(error) < 1e-7 else f"{error:+.3f} %")


def _whole(value: float) -> bool:
    return round(value) >= 1 and abs(value - round(value)) < 1e-6
