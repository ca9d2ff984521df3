"""Which speed, feed and depth suit this material, tool and kind of cut?"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass

from ..form.calculation import NotInTable, OutOfRange, calculation
from ..form.rows import take
from ..form.tables import find_row, read_table
from .cutting_tables import (
    CutRow,
    Group,
    SpeedRow,
    cut_rows,
    cut_word,
    cutter_kinds,
    drill_bands,
    group_of,
    machine_classes,
    mill_feeds,
    speed_rows,
    tool_word,
    turning_feeds,
)

_DEPTH_CUTS = ("rough", "face", "bore", "finish", "mill", "slot", "fly-cut", "face-mill")
KIND_SOURCE = "feed of its kind of cutter: from memory"
_FINISH_SHARE_OF_NOSE, _ROUGH_SHARE_OF_NOSE = 0.3, 0.6
_SMALLEST_PUBLISHED_DRILL = 25.4 / 16
_FEED_KNOTS = ((0.0, 0.0), (3.175, 0.0508), (6.35, 0.1016), (12.7, 0.1778), (25.4, 0.381), (50.8, 0.635))


@dataclass(frozen=True)
class SpeedAdvice:
    """A cutting speed with its range and where it comes from."""

    value: float
    low: float
    high: float
    basis: str
    hardness: str
    source: str
    note: str


@calculation
def recommended_speed(
    material: str, tool_material: str = "hss", operation: str = "rough", coolant: bool = False
) -> SpeedAdvice:
    """Cutting speed for a material, a tool and a kind of cut.

    The likely value lies midway in the range. Where the table has no speed for the cut or the tool, it is worked out
    by a published or usual factor, and `basis` says so.

    Equation:
        v = (v_low + v_high) / 2

    Table:
        cutting_speeds, cutting_factors, materials

    Parameters:
        material: [text] a material of the table, or a group of materials such as "mild steel"
        tool_material: [text] hss, cobalt, carbide or carbon steel
        operation: [text] rough, finish, face, bore, part, groove, form, thread, knurl, chamfer, drill, ream, tap,
            centre, countersink, counterbore, mill, slot, face-mill, fly-cut, t-slot, woodruff, dovetail, form-mill,
            gear or saw
        coolant: [flag] a full stream of cutting oil: the top of the range rises by 40 %

    Returns:
        value: v [m/min] cutting_speed  start here
        low: v_low [m/min] cutting_speed  tough material, weak machine, dry
        high: v_high [m/min] cutting_speed  kind material, strong machine
        basis: [text] text  the row of the table and the factors used
        hardness: [text] text  hardness the speed holds for, where the source says
        source: [text] text  where the speed and the factors come from
        note: [text] text  what to know

    Raises:
        NotInTable: no such material, tool or kind of cut, or no speed is known for them.

    Validity:
        Sharp tools in their usual shape. Published speeds of good sources differ twofold; listen to the cut.

    Example:
        >>> advice = recommended_speed("stainless 304", "hss", "drill")
        >>> round(advice.low / 0.3048), round(advice.high / 0.3048)
        (30, 40)

    Source:
        US Navy training manual, course 14345, drilling of stainless steel 30 to 40 ft/min (page read); others by row.

    Trust: common practice
    """
    group, tool, cut = group_of(material), tool_word(tool_material), cut_word(operation)
    row, start, steps, factor = _speed_row(group, tool, cut)
    gain = 1.4 if coolant else 1.0
    low, high = row.low * factor[0], row.high * factor[1] * gain
    basis = ", ".join([group.name, start, *(step for step, _ in steps), *(["in cutting oil"] if coolant else [])])
    sources = [row.source, *(source for _, source in steps)]
    if coolant:
        sources.append("US Army OD1645: a full stream of cutting oil allows up to 40 % more (page read)")
    note = cut_rows()[cut].note if cut in cut_rows() else ""
    return SpeedAdvice(
        value=(low + high) / 2, low=low, high=high, basis=basis, hardness=row.hardness,
        source="; ".join(dict.fromkeys(sources)), note=note,
    )  # fmt: skip


@dataclass(frozen=True)
class FeedAdvice:
    """A feed with its range, for one turn or for one tooth."""

    value: float
    low: float
    high: float
    per: str
    source: str
    note: str


@calculation
def recommended_feed(
    material: str,
    operation: str = "rough",
    diameter: float = 0.0,
    tool_material: str = "hss",
    nose_radius: float = 0.4,
    machine: str = "light",
) -> FeedAdvice:
    """Feed for a material and a kind of cut, on a light, medium or heavy machine.

    Turning feeds are held below 0.6 of the nose radius when roughing and 0.3 of it when finishing.

    Table:
        cutting_feeds, drill_feeds, mill_feeds, cutter_kinds, material_groups, machine_classes, cutting_factors

    Parameters:
        material: [text] a material of the table, or a group of materials
        operation: [text] kind of cut, as for the speed
        diameter: [mm] (diameter >= 0) of the drill, reamer or milling cutter; needed for those
        tool_material: [text] hss, carbide or carbon steel; matters when milling
        nose_radius: [mm] (nose_radius >= 0) radius of the turning tool's corner; 0 where it has none to speak of
        machine: [text] (one of light, medium, heavy) light: a bench lathe or small mill

    Returns:
        value: f [mm] feed  start here
        low: f_low [mm] feed  lowest
        high: f_high [mm] feed  greatest
        per: [text] text  "turn" or "tooth"
        source: [text] text  where the feed comes from
        note: [text] text  what to know

    Raises:
        NotInTable: no such material or kind of cut.
        OutOfRange: a drill or cutter without a diameter, or a thread: its feed is the pitch.

    Validity:
        Turning and milling feeds of the sources are for strong machines; the shares for lighter ones are from memory.

    Example:
        >>> advice = recommended_feed("mild steel", "drill", diameter=5, machine="heavy")
        >>> round(advice.low / 25.4, 3), round(advice.high / 25.4, 3)
        (0.002, 0.004)

    Source:
        US Navy training manual, course 14345, drills 1/8 to 1/4 inch 0.002 to 0.004 in (page read); others by table.

    Trust: common practice
    """
    group, cut, strength = group_of(material), cut_word(operation), _strength(machine)
    row = cut_rows().get(cut)
    base, factor = _base_of(cut)
    if cut in ("thread", "tap"):
        raise OutOfRange("operation", operation, "text", "a cut with a feed to choose; a thread's feed is its pitch")
    if base in ("drill", "mill") and diameter <= 0:
        raise OutOfRange("diameter", diameter, "mm", f"the tool's diameter, needed for the feed of {cut}")
    if base == "drill":
        low, value, high, source = _drill_feed(group, diameter, strength["drill_feed"])
    elif base == "mill":
        low, value, high, source = _mill_feed(group, tool_word(tool_material), diameter, strength["mill_feed"], cut)
    else:
        low, value, high, source = _turning_feed(group, base, nose_radius, strength["turn_feed"])
    middle = (factor[0] + factor[1]) / 2
    said = source if row is None else f"{source}; {row.source}"
    per, note = "tooth" if base == "mill" else "turn", row.note if row else ""
    return FeedAdvice(value * middle, low * factor[0], high * factor[1], per, said, note)


@dataclass(frozen=True)
class DepthAdvice:
    """Depth (and width when milling) of one cut."""

    depth: float
    width: float
    note: str


@calculation
def recommended_depth(
    material: str, operation: str = "rough", diameter: float = 0.0, machine: str = "light"
) -> DepthAdvice:
    """Depth of one cut for a material and a kind of cut, on a light, medium or heavy machine.

    Table:
        machine_classes, material_groups

    Parameters:
        material: [text] a material of the table, or a group of materials
        operation: [text] rough, finish, face, bore, mill (along a side), slot, fly-cut or face-mill
        diameter: [mm] (diameter >= 0) of the milling cutter; needed for mill and slot
        machine: [text] (one of light, medium, heavy) light: a bench lathe or small mill

    Returns:
        depth: a [mm] length  on the radius when turning; along the cutter's axis when milling
        width: a_e [mm] length  across the cutter; nothing when turning
        note: [text] text  what to know

    Raises:
        NotInTable: no such material, or no depth is kept for that kind of cut.
        OutOfRange: a side cut or slot without a diameter.

    Validity:
        A starting point for a machine in order, short tools and stiff work. Check long work for bending.

    Example:
        >>> recommended_depth("mild steel", "rough").depth
        0.75

    Source:
        From memory: common practice in small workshops.

    Trust: common practice

    Checked: common practice: books give ranges so wide that any value agrees with them.
    """
    group, cut, strength = group_of(material), cut_word(operation), _strength(machine)
    take(find_row("material_groups", group=group.name), "depth_share")
    share = group.depth_share
    if cut in ("mill", "slot") and diameter <= 0:
        raise OutOfRange("diameter", diameter, "mm", f"the cutter's diameter, needed for the depth of {cut}")
    if cut in ("rough", "face"):
        return DepthAdvice(strength["turn_rough"] * share, 0.0, "")
    if cut == "bore":
        return DepthAdvice(strength["turn_rough"] * share / 2, 0.0, "half of turning: the bar is slender")
    if cut == "finish":
        return DepthAdvice(strength["turn_finish"], 0.0, "too thin a cut rubs: below 0.05 mm use a keen edge")
    if cut == "mill":
        width = min(1.0, strength["side_width"] * share) * diameter
        return DepthAdvice(diameter, width, "a cut one diameter deep; shallower cuts may be wider")
    if cut == "slot":
        return DepthAdvice(min(1.0, strength["slot_depth"] * share) * diameter, diameter, "")
    if cut in ("fly-cut", "face-mill"):
        return DepthAdvice(strength["face_depth"] * share, 0.0, "")
    raise NotInTable(operation, "kind of cut with a depth to choose", _DEPTH_CUTS)


@calculation
def hardness_speed_factor(difference: float) -> float:
    """Factor of cutting speed for steel harder or softer than the table's.

    Between the entries of the table the factor is interpolated.

    Table:
        hardness_factors

    Parameters:
        difference: [HB] (-60 <= difference <= 100) hardness of the work less the hardness the speed holds for

    Returns:
        [1] ratio

    Raises:
        OutOfRange: a value lies outside the range given above.

    Validity:
        Unhardened steels, carbide tools.

    Example:
        >>> hardness_speed_factor(20)
        0.91

    Source:
        From memory: tool makers' tables of correction by hardness; none was read.

    Trust: common practice
    """
    table = read_table("hardness_factors").rows
    take(table[0])
    rows = [(float(row["difference"]), float(row["factor"])) for row in table]
    return _interpolated(rows, difference)


def _strength(machine: str) -> Mapping[str, float]:
    """Return the shares and depths of a class of machine; those of a heavy one are the published values themselves."""
    name = machine.strip().lower()
    take(find_row("machine_classes", machine=name))
    return machine_classes()[name]


def _speed_row(group: Group, tool: str, cut: str) -> tuple[SpeedRow, str, list[tuple[str, str]], tuple[float, float]]:
    """Find the nearest published row and the steps from it: by cut first, then by tool.

    Returns the row, its tool and cut in words, the steps with their sources, and the product of their factors.
    """
    low = high = 1.0
    steps: list[tuple[str, str]] = []
    rows = speed_rows()
    base = cut
    while (group.name, tool, base) not in rows and base in cut_rows():
        step = cut_rows()[base]
        take(find_row("cutting_factors", cut=base), "speed_low", "speed_high")
        low, high = low * step.speed[0], high * step.speed[1]
        steps.append((f"{base} by factor", f"{base}: {step.source}"))
        base = step.base
    row = rows.get((group.name, tool, base))
    if row is not None:
        take(find_row("cutting_speeds", group=group.name, tool=tool, cut=base))
        return row, f"{tool} {base}", steps, (low, high)
    row, step_of_tool = rows.get((group.name, "hss", base)), _tool_step(tool, base)
    if row is None or step_of_tool is None:
        raise NotInTable(f"{group.name}, {tool}, {cut}", "cutting speed", _known_for(group))
    take(find_row("cutting_speeds", group=group.name, tool="hss", cut=base))
    low, high = low * step_of_tool.speed[0], high * step_of_tool.speed[1]
    return row, f"hss {base}", [*steps, (f"{tool} by factor", step_of_tool.source)], (low, high)


def _tool_step(tool: str, base: str) -> CutRow | None:
    steps = cut_rows()
    if tool == "carbide":
        name = "tool carbide " + ("rough" if base == "finish" else base)
    elif tool in ("carbon steel", "cobalt"):
        name = f"tool {tool}"
    else:
        return None
    take(find_row("cutting_factors", cut=name), "speed_low", "speed_high")
    return steps[name]


def _known_for(group: Group) -> tuple[str, ...]:
    return tuple(f"{tool} {cut}" for name, tool, cut in speed_rows() if name == group.name)


def _base_of(cut: str) -> tuple[str, tuple[float, float]]:
    """Return the cut whose feed is published and the factor of feed from it."""
    low = high = 1.0
    while cut in cut_rows():
        step = cut_rows()[cut]
        take(find_row("cutting_factors", cut=cut), "feed_low", "feed_high")
        low, high, cut = low * step.feed[0], high * step.feed[1], step.base
    return cut, (low, high)


def _turning_feed(group: Group, base: str, nose: float, share: float) -> tuple[float, float, float, str]:
    feeds = turning_feeds()
    name = group.name if group.name in feeds else "other"
    rough, finish, source = feeds[name]
    take(find_row("cutting_feeds", group=name))
    low, high = rough if base == "rough" else finish
    low, high = low * share, high * share
    if nose > 0:
        most = nose * (_ROUGH_SHARE_OF_NOSE if base == "rough" else _FINISH_SHARE_OF_NOSE)
        low, high = min(low, most), min(high, most)
    return low, (low + high) / 2, high, source


def _drill_feed(group: Group, diameter: float, share: float) -> tuple[float, float, float, str]:
    place = next(index for index, band in enumerate(drill_bands()) if diameter <= band[1])
    low, high = drill_bands()[place][2:]
    source = take(read_table("drill_feeds").rows[place]).origin().source
    if diameter < _SMALLEST_PUBLISHED_DRILL:
        low, high = (edge * diameter / _SMALLEST_PUBLISHED_DRILL for edge in (low, high))
    middle = _interpolated(_FEED_KNOTS, min(diameter, _FEED_KNOTS[-1][0])) * (0.6 + 0.8 * group.drill_share)
    value = min(max(middle, low), high)
    return low * share, value * share, high * share, source


def _mill_feed(group: Group, tool: str, diameter: float, share: float, cut: str) -> tuple[float, float, float, str]:
    """Feed for a tooth by the cutter's diameter, between floor and cap of its kind."""
    feeds, grade = mill_feeds(), "carbide" if tool == "carbide" else "hss"
    low, high, source = feeds[group.mill_class, grade]
    take(find_row("mill_feeds", **{"class": group.mill_class, "tool": grade}))
    kind = cutter_kinds()[cut]
    take(find_row("cutter_kinds", cut=cut))
    cap = max(kind.floor, kind.cap * share * high / feeds["steel", "hss"][1])
    low, high = low * diameter * share, high * diameter * share
    if not kind.by_diameter:
        low, high, source = kind.floor, cap, KIND_SOURCE
    low, high = (min(max(feed, kind.floor), cap) for feed in (low, high))
    return low, (low + high) / 2, high, source


def _interpolated(knots: list[tuple[float, float]] | tuple[tuple[float, float], ...], at: float) -> float:
    """Return the value on the straight lines between knots; `at` lies within them."""
    for (left, start), (right, end) in itertools.pairwise(knots):
        if left <= at <= right:
            return start + (end - start) * (at - left) / (right - left)
    raise ValueError(f"{at} lies outside {knots[0][0]} to {knots[-1][0]}")
