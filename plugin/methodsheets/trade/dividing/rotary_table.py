"""What does the handwheel of a rotary table read for an angle or a division?"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..form.calculation import OutOfRange, calculation, takes
from .dividing import whole

TENTHS = 36000
"""Tenths of a second of arc in a degree: a dial's least reading is a whole number of them."""


@dataclass(frozen=True)
class SexagesimalAngle:
    """An angle as the scale reads it."""

    degrees: int
    minutes: int
    seconds: float
    below_zero: bool
    words: str


@dataclass(frozen=True)
class TableSetting:
    """Where the handwheel stands for an angle."""

    turns: int
    dial: float
    dial_words: str
    table_reading: float
    error: float
    words: str


@dataclass(frozen=True)
class TablePositions:
    """Where the handwheel stands for each division, counted from the start so that errors do not add up."""

    angles: tuple[float, ...]
    turns: tuple[int, ...]
    dials: tuple[float, ...]
    errors: tuple[float, ...]
    words: tuple[str, ...]
    greatest_error: float


@calculation
def degrees_minutes_seconds(angle: float, places: float = 0) -> SexagesimalAngle:
    """An angle in degrees, minutes and seconds.

    Equation:
        D = floor(abs(a) * 180 / pi)

    Parameters:
        angle: a [deg] the angle
        places: p [1] (0 <= p <= 6, whole number) decimal places of the seconds

    Returns:
        degrees: D [1] count whole degrees
        minutes: M [1] count whole minutes
        seconds: S [1] number seconds
        below_zero: [flag] flag whether the angle is below nothing
        words: [text] text the same, as it is written

    Raises:
        OutOfRange: places is not a whole number from 0 to 6.

    Validity:
        Exact; a rounding up to 60 seconds is carried on.

    Example:
        >>> degrees_minutes_seconds(360 / 26, 3).words
        '13° 50′ 46.154″'

    Source:
        A published rotary-table help page prints these degrees, minutes and seconds; its decimal degrees (13.646)
        are a misprint for 13.846.

    Trust: exact
    """
    digits = whole("places", places)
    total = round(abs(angle) * 3600, digits)
    degrees, rest = divmod(total, 3600)
    minutes, seconds = divmod(round(rest, digits), 60)
    seconds = round(seconds, digits)
    sign = "-" if angle < 0 and total else ""
    words = f"{sign}{int(degrees)}° {int(minutes)}′ {seconds:.{digits}f}″"
    return SexagesimalAngle(int(degrees), int(minutes), seconds, bool(sign), words)


@calculation
def angle_from_minutes(degrees: float, minutes: float = 0, seconds: float = 0) -> float:
    """An angle from degrees, minutes and seconds.

    Equation (units as listed):
        a = (D + M / 60 + S / 3600) * pi / 180

    Parameters:
        degrees: D [1] (D >= 0) degrees
        minutes: M [1] (0 <= M < 60) minutes
        seconds: S [1] (0 <= S < 60) seconds

    Returns:
        a [deg] angle the angle

    Raises:
        OutOfRange: minutes or seconds are not below 60.

    Validity:
        Exact.

    Example:
        >>> round(angle_from_minutes(8, 50), 6)
        8.833333

    Source:
        Definition; 8 degrees 50 minutes is 530 minutes (a technical-college course page).

    Trust: exact
    """
    return degrees + minutes / 60 + seconds / 3600


@calculation
def table_setting(angle: float, ratio: float = 90, least_reading: float = 1 / 60) -> TableSetting:
    """Turns and dial reading of a rotary table's handwheel for an angle, to what the dial and vernier read.

    Equation:
        b = 2 * pi / i
        delta = round(a / r) * r - a

    Parameters:
        angle: a [deg] (a >= 0) angle from the place where dial and table read nothing
        ratio: i [1] (i >= 1) turns of the handwheel for one turn of the table
        least_reading: r [deg] (r > 0) least the dial and its vernier read: 1 minute, 10 seconds ...

    Returns:
        turns: [1] count whole turns of the handwheel
        dial: [deg] angle then the dial on to this reading
        dial_words: [text] text the dial reading in degrees, minutes and seconds
        table_reading: [deg] angle what the scale on the table itself shows; settles which turn you are on
        error: delta [deg] angle angle set less angle wanted, for want of a finer reading
        words: [text] text the whole setting

    Raises:
        OutOfRange: the ratio is not a whole number.

    Validity:
        The worm's own error comes besides (a few minutes on small tables). Always come up to the reading the same way,
        then lock the table.

    Example:
        >>> setting = table_setting(360 / 7, 90)
        >>> setting.turns, setting.dial_words, round(setting.error * 3600, 1)
        (12, '3° 26′ 0″', 17.1)

    Source:
        Worked out here: one turn of a 90:1 table is 4 degrees; 360/7 is 12 turns and 3.4286 degrees.

    Trust: exact

    Checked: a definition: nothing is printed that says more than the equation does.
    """
    return _setting(Fraction(angle), whole("ratio", ratio), _step(least_reading))


@calculation
@takes(lambda divisions, **_: 450 * divisions)
def table_positions(
    divisions: float, ratio: float = 90, least_reading: float = 1 / 60, start: float = 0.0
) -> TablePositions:
    """Handwheel settings of a rotary table for every division, each worked out from the start.

    Equation:
        a = start + 2 * pi * k / N

    Parameters:
        divisions: N [1] (1 <= N <= 720, whole number) number of divisions
        ratio: i [1] (i >= 1) turns of the handwheel for one turn of the table
        least_reading: r [deg] (r > 0) least the dial and its vernier read
        start: start [deg] (start >= 0) angle of the first

    Returns:
        angles: a [deg, ...] angle exact angle of each
        turns: [1, ...] count whole turns of the handwheel
        dials: [deg, ...] angle dial reading
        errors: [deg, ...] angle angle set less angle wanted
        words: [text, ...] text the setting in words
        greatest_error: [deg] angle greatest error, either way

    Raises:
        OutOfRange: divisions or ratio is not a whole number.

    Validity:
        As for table_setting. No error is greater than half the least reading.

    Example:
        >>> table_positions(6, 90).words[1]
        '15 turns'

    Source:
        Worked out here: 60 degrees is 15 turns of 4 degrees.

    Trust: exact

    Checked: a definition: nothing is printed that says more than the equation does.
    """
    n, i = whole("divisions", divisions), whole("ratio", ratio)
    step = _step(least_reading)
    exact = [Fraction(start) + Fraction(360 * k, n) for k in range(n)]
    settings = [_setting(angle, i, step) for angle in exact]
    return TablePositions(
        angles=tuple(float(angle) for angle in exact),
        turns=tuple(setting.turns for setting in settings),
        dials=tuple(setting.dial for setting in settings),
        errors=tuple(setting.error for setting in settings),
        words=tuple(setting.words for setting in settings),
        greatest_error=max(abs(setting.error) for setting in settings),
    )


def _step(least_reading: float) -> Fraction:
    """Return a dial's least reading without the rounding of who typed it: 0.0333333 degrees are 2 minutes."""
    return Fraction(round(least_reading * TENTHS), TENTHS)


def _setting(angle: Fraction, ratio: int, step: Fraction) -> TableSetting:
    """Set an angle to the nearest reading and part it into turns and dial."""
    if step <= 0:
        raise OutOfRange("least_reading", float(step), "deg", "at least a tenth of a second of arc")
    readable = round(angle / step) * step
    turn = Fraction(360, ratio)
    turns, dial = divmod(readable, turn)
    exact_seconds = dial * 3600
    digits = 0 if exact_seconds.denominator == 1 else 1
    dial_words = degrees_minutes_seconds(float(dial), digits).words
    parts = [f"{turns} turn{'' if turns == 1 else 's'}"] if turns or not dial else []
    if dial:
        parts.append(dial_words)
    return TableSetting(
        turns=int(turns),
        dial=float(dial),
        dial_words=dial_words,
        table_reading=float(readable % 360),
        error=float(readable - angle),
        words=" + ".join(parts),
    )
