"""Where do the holes of a pitch circle, the lines of a scale and the flats of a polygon lie?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import OutOfRange, calculation
from .dividing import whole


@dataclass(frozen=True)
class PitchCircle:
    """Holes on a circle, as places for the two slides and as angles for a rotary table."""

    angles: tuple[float, ...]
    x: tuple[float, ...]
    y: tuple[float, ...]
    moves_x: tuple[float, ...]
    moves_y: tuple[float, ...]
    chord: float


@dataclass(frozen=True)
class Polygon:
    """An even-sided figure: its sizes, and how deep each flat is cut."""

    across_flats: float
    across_corners: float
    side: float
    flat_from_centre: float
    depth: float
    corners_sharp: bool


@dataclass(frozen=True)
class Graduation:
    """The lines of a divided scale."""

    angles: tuple[float, ...]
    lengths: tuple[float, ...]
    spacing: float
    numbered: tuple[int, ...]


@calculation
def pitch_circle(
    diameter: float,
    holes: float,
    start: float = 0.0,
    centre_x: float = 0.0,
    centre_y: float = 0.0,
    clockwise: bool = False,
) -> PitchCircle:
    """Places of the holes of a pitch circle, in the order they are drilled.

    Equation:
        x = x_0 + D / 2 * cos(a)
        y = y_0 + D / 2 * sin(a)
        c = D * sin(pi / N)

    Parameters:
        diameter: D [mm] (D > 0) diameter of the pitch circle
        holes: N [1] (1 <= N <= 720, whole number) number of holes
        start: a_0 [deg] angle of the first hole, anticlockwise from the x direction
        centre_x: x_0 [mm] slide reading at the centre
        centre_y: y_0 [mm] slide reading at the centre
        clockwise: [flag] whether the next hole follows clockwise

    Returns:
        angles: a [deg, ...] angle angle of each hole
        x: x [mm, ...] size slide reading of each hole
        y: y [mm, ...] size slide reading of each hole
        moves_x: [mm, ...] size move from the hole before; the first from the centre
        moves_y: [mm, ...] size move from the hole before; the first from the centre
        chord: c [mm] size straight distance from hole to hole; nothing for one hole

    Raises:
        OutOfRange: the number of holes is not whole.

    Validity:
        Exact. x to the right and y away from you, as you look down on the table.

    Example:
        >>> flange = pitch_circle(50, 5)
        >>> round(flange.x[1], 4), round(flange.y[1], 4)
        (7.7254, 23.7764)

    Source:
        A home-workshop page on the co-ordinate method (formula read, figures worked out).

    Trust: exact
    """
    n = whole("holes", holes)
    turn = -1 if clockwise else 1
    angles = tuple((start + turn * 360 * k / n) % 360 for k in range(n))
    x = tuple(centre_x + diameter / 2 * _cos(angle) for angle in angles)
    y = tuple(centre_y + diameter / 2 * _sin(angle) for angle in angles)
    return PitchCircle(
        angles=angles,
        x=x,
        y=y,
        moves_x=_moves(x, centre_x),
        moves_y=_moves(y, centre_y),
        chord=pitch_chord(diameter, n) if n > 1 else 0.0,
    )


@calculation
def pitch_chord(diameter: float, divisions: float, apart: float = 1) -> float:
    """Straight distance between two holes of a pitch circle, to set dividers or check with a calliper.

    Equation:
        c = D * sin(pi * k / N)

    Parameters:
        diameter: D [mm] (D > 0) diameter of the pitch circle
        divisions: N [1] (N >= 2, whole number) number of holes
        apart: k [1] (k >= 1, whole number) how many spaces the two holes are apart

    Returns:
        c [mm] size chord

    Raises:
        OutOfRange: a value is not a whole number, or the spaces go past the whole circle.

    Validity:
        Exact. Over the outsides of two pins add a pin, between them take one off.

    Example:
        >>> round(pitch_chord(50, 6), 6)
        25.0

    Source:
        Handbook formula, from memory: the chord of six is the radius.

    Trust: exact
    """
    n, k = whole("divisions", divisions), whole("apart", apart)
    if k >= n:
        raise OutOfRange("apart", k, "1", "fewer than the divisions")
    return diameter * math.sin(math.pi * k / n)


@calculation
def chord(diameter: float, angle: float) -> float:
    """Straight distance across an angle on a circle.

    Equation:
        c = D * sin(a / 2)

    Parameters:
        diameter: D [mm] (D > 0) diameter of the circle
        angle: a [deg] (0 <= a <= 360) angle at the centre

    Returns:
        c [mm] size chord

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Exact.

    Example:
        >>> round(chord(100, 60), 6)
        50.0

    Source:
        Geometry: six chords of 60 degrees go round, each the radius.

    Trust: exact
    """
    return diameter * math.sin(math.radians(angle) / 2)


@calculation
def polygon_flats(across_flats: float, sides: float, bar: float | None = None) -> Polygon:
    """Sizes of an even polygon and the depth to cut each flat from a round bar.

    Equation:
        r = s / 2
        e = s / cos(pi / N)
        l = s * tan(pi / N)

    Parameters:
        across_flats: s [mm] (s > 0) across flats; twice the distance of a flat from the middle where sides are odd
        sides: N [1] (N >= 3, whole number) number of sides
        bar: D [mm] (D > 0) diameter of the bar; just enough for sharp corners where it is not said

    Returns:
        across_flats: s [mm] size across flats
        across_corners: e [mm] size twice the distance of a corner from the middle
        side: l [mm] size length of a side
        flat_from_centre: r [mm] size distance of a flat from the middle
        depth: h [mm] size depth of each flat below the top of the bar
        corners_sharp: [flag] flag whether the bar is large enough for sharp corners

    Raises:
        OutOfRange: the sides are not a whole number, or the bar is too small to be cut at all.

    Validity:
        Exact.

    Example:
        >>> square = polygon_flats(10, 4, bar=14)
        >>> square.depth, round(square.across_corners, 3), square.corners_sharp
        (2.0, 14.142, False)

    Source:
        Geometry, worked out here: the diagonal of a 10 mm square is 14.142 mm.

    Trust: exact
    """
    n = whole("sides", sides)
    corners = across_flats / math.cos(math.pi / n)
    round_bar = corners if bar is None else bar
    if round_bar <= across_flats:
        raise OutOfRange("bar", round_bar, "mm", f"larger than the {across_flats:g} mm across flats")
    return Polygon(
        across_flats=across_flats,
        across_corners=corners,
        side=across_flats * math.tan(math.pi / n),
        flat_from_centre=across_flats / 2,
        depth=(round_bar - across_flats) / 2,
        corners_sharp=round_bar >= corners - 1e-9,
    )


@calculation
def polygon_from_bar(bar: float, sides: float, corner: float = 0.0) -> Polygon:
    """Largest even polygon that a round bar gives.

    Equation:
        s = D * cos(pi / N)
        l = s * tan(pi / N)
        h = (D - s) / 2

    Parameters:
        bar: D [mm] (D > 0) diameter of the bar
        sides: N [1] (N >= 3, whole number) number of sides
        corner: k [mm] (k >= 0) diameter taken off for a clean bar: the corners come out at D - k

    Returns:
        across_flats: s [mm] size across flats; twice the distance of a flat from the middle where sides are odd
        across_corners: e [mm] size twice the distance of a corner from the middle
        side: l [mm] size length of a side
        flat_from_centre: r [mm] size distance of a flat from the middle
        depth: h [mm] size depth of each flat below the top of the bar
        corners_sharp: [flag] flag true

    Raises:
        OutOfRange: the sides are not a whole number.

    Validity:
        Exact.

    Example:
        >>> round(polygon_from_bar(20, 6).across_flats, 3)
        17.321

    Source:
        Geometry, worked out here: across flats is 0.866 of across corners for a hexagon.

    Trust: exact
    """
    flats = (bar - corner) * math.cos(math.pi / whole("sides", sides))
    made = polygon_flats(flats, sides)
    return Polygon(flats, made.across_corners, made.side, flats / 2, (bar - flats) / 2, True)


@calculation
def graduation(
    divisions: float,
    diameter: float,
    long_every: float = 10,
    middle_every: float = 5,
    long: float = 6.0,
    middle: float = 4.5,
    short: float = 3.0,
) -> Graduation:
    """Lines of a divided rim: their angles, lengths and spacing.

    Equation:
        b = pi * D / N

    Parameters:
        divisions: N [1] (2 <= N <= 720, whole number) number of lines
        diameter: D [mm] (D > 0) diameter of the rim
        long_every: [1] (n >= 1, whole number) a long, numbered line every so many
        middle_every: [1] (n >= 1, whole number) a middling line every so many
        long: [mm] (l > 0) length of the long lines
        middle: [mm] (l > 0) length of the middling lines
        short: [mm] (l > 0) length of the others

    Returns:
        angles: [deg, ...] angle angle of each line
        lengths: [mm, ...] length length of each line
        spacing: b [mm] size distance from line to line round the rim
        numbered: [1, ...] count which lines are long and take a number

    Raises:
        OutOfRange: a number of lines is not whole.

    Validity:
        Lines closer than about 0.8 mm are hard to read (common practice).

    Example:
        >>> rim = graduation(100, 60)
        >>> round(rim.spacing, 3), rim.lengths[:6]
        (1.885, (6.0, 3.0, 3.0, 3.0, 3.0, 4.5))

    Source:
        Worked out here. The lengths are common practice.

    Trust: exact

    Checked: a definition: nothing is printed that says more than the equation does.
    """
    n, tens, fives = whole("divisions", divisions), whole("long_every", long_every), whole("middle_every", middle_every)
    lengths = tuple(long if k % tens == 0 else middle if k % fives == 0 else short for k in range(n))
    return Graduation(
        angles=tuple(360 * k / n for k in range(n)),
        lengths=lengths,
        spacing=math.pi * diameter / n,
        numbered=tuple(range(0, n, tens)),
    )


def _moves(places: tuple[float, ...], start: float) -> tuple[float, ...]:
    """Return the move to each place from the one before."""
    return tuple(round(now - before, 12) for before, now in zip((start, *places), places, strict=False))


def _cos(angle: float) -> float:
    """Cosine of an angle in degrees, without dust at the quarter turns."""
    return 0.0 if angle % 180 == 90 else math.cos(math.radians(angle))


def _sin(angle: float) -> float:
    """Sine of an angle in degrees, without dust at the quarter turns."""
    return 0.0 if angle % 180 == 0 else math.sin(math.radians(angle))
