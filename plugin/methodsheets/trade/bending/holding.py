"""How is work set off centre, clocked true and held in a collet?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import take
from ..form.tables import number, read_table


@dataclass(frozen=True)
class Packing:
    """Packing under one jaw of a three-jaw chuck: the two bounds, and what to begin with."""

    thickness: float
    narrow_jaws: float
    flat_jaws: float
    dial_reading: float
    note: str


@dataclass(frozen=True)
class FourJaw:
    """How to move two opposed jaws."""

    off_centre: float
    move: float
    screw_turns: float
    note: str


@dataclass(frozen=True)
class Collet:
    """A collet that holds a shank."""

    size: str
    name: float
    least: float
    greatest: float
    nut: str
    fits: tuple[str, ...]


@dataclass(frozen=True)
class RunOut:
    """Run-out by the dial: good, usual and poor."""

    least: float
    usual: float
    most: float


@dataclass(frozen=True)
class ColletRunOut:
    """What a class of collet may run out, and where it is read."""

    run_out: float
    test_length: float


@calculation
def three_jaw_packing(throw: float, diameter: float) -> Packing:
    """Packing under one jaw of a three-jaw chuck that sets round work off centre.

    How the jaws touch matters: narrow jaws (a line each) want the first thickness, jaws with a flat face square to the
    radius the second; real jaws lie between.

    Equation:
        t_n = 1.5 * a + sqrt((D / 2) ** 2 - 0.75 * a ** 2) - D / 2
        t_f = 1.5 * a
        t = (t_n + t_f) / 2
        M = 2 * a

    Parameters:
        throw: a [mm] (a > 0) distance of the new axis from the middle of the work
        diameter: D [mm] (D > 0) diameter of the work where the jaws hold it

    Returns:
        thickness: t [mm] size packing to begin with: midway
        narrow_jaws: t_n [mm] size packing for jaws that touch along a line; exact
        flat_jaws: t_f [mm] size packing for jaws with a flat face; exact
        dial_reading: M [mm] size total reading of the dial when it is right: twice the throw
        note: [text] text how far to trust it

    Raises:
        OutOfRange: the new axis would not lie inside the work.

    Validity:
        Packing on the jaw's line of touch and stiff. Set it to the dial, always. Above a quarter of the diameter
        grip and balance are poor: use a four-jaw chuck or a fixture. A widely copied 1.5 a (1 - 0.125 a/D) is not the
        expansion of the exact formula; 1.5 a (1 - 0.5 a/D) is.

    Heed:
        a > 0.25 * D: a throw above a quarter of the diameter: grip and balance are poor; take a four-jaw chuck

    Example:
        >>> packing = three_jaw_packing(0.313 * 25.4, 2 * 1.6875 * 25.4)
        >>> round(packing.narrow_jaws / 25.4, 3)
        0.448

    Source:
        A model-locomotive society's page on turning an eccentric in a three-jaw chuck (0.448 inch); the flat jaw is
        derived.

    Trust: exact
    """
    if throw >= diameter / 2:
        raise OutOfRange("throw", throw, "mm", f"less than half the diameter ({diameter / 2:g} mm)")
    radius = diameter / 2
    flat = 1.5 * throw
    narrow = flat + math.sqrt(radius**2 - 0.75 * throw**2) - radius
    note = "set it to the dial"
    if throw > diameter / 4:
        note += "; more than a quarter of the diameter: poor grip and balance, a four-jaw chuck is better"
    return Packing((narrow + flat) / 2, narrow, flat, 2 * throw, note)


@calculation
def four_jaw_move(reading: float, screw_pitch: float = 1.25, on_jaw: bool = True) -> FourJaw:
    """How far to move two opposed jaws from the total reading of the dial.

    Equation:
        a = M / 2

    Parameters:
        reading: M [mm] (M >= 0) total reading of the dial, high side less low side
        screw_pitch: p [mm] (p > 0) pitch of the jaw screw
        on_jaw: [flag] whether the high side lies at a jaw; if not, two pairs share it

    Returns:
        off_centre: a [mm] size how far the work is off centre
        move: v [mm] size move of this pair: half the reading on a jaw, three tenths of it off one
        screw_turns: n [1] ratio turns of the screw
        note: [text] text what to do

    Raises:
        OutOfRange: a value is below nothing.

    Validity:
        Slacken the low jaw, tighten the high one. Off a jaw, three tenths is a published rule of thumb (half the
        reading at 45 degrees would be 0.35).

    Example:
        >>> clocking = four_jaw_move(0.030 * 25.4, 0.050 * 25.4, on_jaw=False)
        >>> round(clocking.move / 25.4, 3), round(clocking.screw_turns, 2)
        (0.009, 0.18)

    Source:
        A technical training page on the four-jaw chuck (20 threads an inch; 30 per cent of the reading).

    Trust: common practice
    """
    move = reading / 2 if on_jaw else 0.3 * reading
    words = "tighten the jaw at the high side, slacken the one opposite"
    if not on_jaw:
        words = "move the two jaws next to the high side in turn, slackening those opposite"
    return FourJaw(reading / 2, move, move / screw_pitch, words)


@calculation
def four_jaw_reading(throw: float) -> float:
    """Total dial reading that sets work off centre by a throw.

    Equation:
        M = 2 * a

    Parameters:
        throw: a [mm] (a >= 0) distance of the new axis from the middle

    Returns:
        M [mm] size high side less low side on the dial

    Raises:
        OutOfRange: the throw is below nothing.

    Validity:
        Exact, on a round surface. Past the stroke of the dial, measure with the cross-slide.

    Example:
        >>> four_jaw_reading(5)
        10

    Source:
        Definition, from memory: total reading is twice the eccentricity.

    Trust: exact
    """
    return 2 * throw


@calculation
def collet_for(shank: float, size: str = "") -> Collet:
    """ER collet that holds a shank or bar.

    Table: collets

    Parameters:
        shank: d [mm] (d > 0) diameter of the shank
        size: [text] ER11 to ER50; the smallest that holds it where it is not said

    Returns:
        size: [text] text size of the collet
        name: [mm] length name of the collet: its greatest diameter
        least: [mm] length smallest diameter that collet closes to
        greatest: [mm] length largest diameter it takes
        nut: [text] text thread of the nut
        fits: [text, ...] text every size that could hold it

    Raises:
        OutOfRange: no size holds it.
        NotInTable: there is no such size.

    Validity:
        Collets in steps of their collapse: 1 mm, 0.5 mm on the small ones. Holds best at its name; hold over at least
        two thirds of its length.

    Example:
        >>> collet_for(9.5, "ER20").name
        10.0

    Source:
        A toolholding maker's technical information (page read); collapse from memory.

    Trust: table
    """
    rows = read_table("collets").rows
    names = tuple(row["size"] for row in rows)
    wanted = size.strip().upper().replace(" ", "").replace("-", "")
    if wanted and wanted not in names:
        raise NotInTable(size, "collet size", names)
    fits = tuple(row["size"] for row in rows if float(row["least"]) <= shank <= float(row["greatest"]))
    for row in rows:
        if row["size"] in fits and wanted in {"", row["size"]}:
            take(row, "least", "greatest", "collapse", "nut")
            step = float(row["collapse"])
            name = min(math.ceil(round(shank / step, 9)) * step, float(row["greatest"]))
            return Collet(row["size"], name, max(name - step, float(row["least"])), name, row["nut"], fits)
    raise OutOfRange("shank", shank, "mm", f"held by one of {', '.join(fits)}" if fits else "0.5 to 34 mm")


@calculation
def holding_runout(holding: str) -> RunOut:
    """Run-out to count on for a way of holding, by the dial.

    Table: holding_runout

    Parameters:
        holding: [text] three-jaw chuck, four-jaw chuck, collet, between centres, mandrel, soft jaws, same setting ...

    Returns:
        least: [mm] clearance run-out of good equipment
        usual: [mm] clearance run-out to count on
        most: [mm] clearance run-out of worn or cheap equipment

    Raises:
        NotInTable: the table has no such way of holding.

    Validity:
        Near the jaws. Measure your own: it goes first.

    Example:
        >>> holding_runout("three-jaw").most
        0.13

    Source:
        Published pages and memory, as the table says.

    Trust: common practice

    Checked: common practice: classes and makers differ too much for a second figure to say anything.
    """
    rows = read_table("holding_runout").rows
    wanted = " ".join(holding.lower().split())
    for row in rows:
        if wanted in {row["holding"].lower(), *(word.strip().lower() for word in row["also"].split("|"))}:
            take(row)
            return RunOut(*(number(row[key]) or 0.0 for key in ("least", "usual", "most")))
    raise NotInTable(holding, "way of holding", tuple(row["holding"] for row in rows))


@calculation
def collet_runout(size: float, grade: int = 2) -> ColletRunOut:
    """Run-out that a class of ER collet may have, by the dial.

    Table: collet_runout

    Parameters:
        size: d [mm] (1 <= d <= 34) bore of the collet
        grade: k [1] (1 <= k <= 2, whole number) class of the collet; 2 is the normal one

    Returns:
        run_out: t [mm] size greatest total reading of a new collet
        test_length: L [mm] length how far from the nose it is read

    Raises:
        OutOfRange: the table has no collet of that bore.
        NotInTable: there is no such class.

    Validity:
        The collet alone, new and clean, at its own bore; taper and spindle come on top, and one that is closed far
        below its name runs out more. Measure your own: it goes first.

    Example:
        >>> collet_runout(12, 1).run_out
        0.015

    Source:
        ISO 15488, from memory.

    Trust: table
    """
    if grade not in CLASSES:
        raise NotInTable(f"{grade:g}", "class of collet", [str(one) for one in CLASSES])
    for row in read_table("collet_runout").rows:
        if size <= float(row["to"]):
            take(row, "to", "test_length", f"class_{grade:g}")
            return ColletRunOut(float(row[f"class_{grade:g}"]), float(row["test_length"]))
    raise OutOfRange("size", size, "mm", "1 to 34 mm")


CLASSES = (1, 2)
"""Classes of collet."""
