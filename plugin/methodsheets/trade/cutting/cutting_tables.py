"""Which rows of the cutting tables hold for this material, tool and kind of cut?"""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass

from ..form.calculation import NotInTable
from ..form.tables import read_table
from ..metal.materials import look_up, material_names

FOOT, INCH = 0.3048, 25.4
TOOLS = ("hss", "cobalt", "carbide", "carbon steel")
OWN_CUTS = ("rough", "finish", "drill", "mill")

_TOOL_WORDS: Mapping[str, str] = {
    "hss": "hss",
    "high speed steel": "hss",
    "high-speed steel": "hss",
    "cobalt": "cobalt",
    "hss cobalt": "cobalt",
    "cobalt steel": "cobalt",
    "carbide": "carbide",
    "tungsten carbide": "carbide",
    "tipped": "carbide",
    "insert": "carbide",
    "carbon steel": "carbon steel",
    "silver steel": "carbon steel",
}
_CUT_WORDS: Mapping[str, str] = {
    "turn": "rough",
    "roughing": "rough",
    "finishing": "finish",
    "drilling": "drill",
    "reaming": "ream",
    "milling": "mill",
    "threading": "thread",
    "screw-cutting": "thread",
    "tapping": "tap",
    "parting": "part",
    "part off": "part",
    "facing": "face",
    "boring": "bore",
    "knurling": "knurl",
    "center": "centre",
    "spot": "centre",
    "flat": "mill",
    "pocket": "slot",
    "profile": "mill",
    "taper": "rough",
    "grooving": "groove",
}


@dataclass(frozen=True)
class SpeedRow:
    """A published speed, in m/min, and who published it."""

    low: float
    high: float
    hardness: str
    source: str


@dataclass(frozen=True)
class CutRow:
    """How one kind of cut follows from another."""

    base: str
    speed: tuple[float, float]
    feed: tuple[float, float]
    source: str
    note: str


@dataclass(frozen=True)
class Group:
    """What goes for all materials that cut alike."""

    name: str
    mill_class: str
    depth_share: float
    drill_share: float
    drill_torque: float | None
    drill_thrust: float | None


def group_of(name: str) -> Group:
    """Return the group of a material, or the group itself when its name is given.

    Raises:
        NotInTable: neither a material nor a group has that name.
    """
    groups = _groups()
    plain = " ".join(name.split()).lower()
    if plain in groups:
        return groups[plain]
    try:
        return groups[look_up(name).group]
    except NotInTable:
        raise NotInTable(name, "material or group of materials", (*groups, *material_names())) from None


def tool_word(name: str) -> str:
    """Return hss, carbide or carbon steel for a name in use."""
    plain = " ".join(name.split()).lower()
    if plain not in _TOOL_WORDS:
        raise NotInTable(name, "tool material", _TOOL_WORDS)
    return _TOOL_WORDS[plain]


def cut_word(name: str) -> str:
    """Return the handbook's word for a kind of cut."""
    plain = " ".join(name.split()).lower()
    plain = _CUT_WORDS.get(plain, plain)
    if plain not in OWN_CUTS and plain not in cut_rows():
        raise NotInTable(name, "kind of cut", (*OWN_CUTS, *cut_rows()))
    return plain


@functools.cache
def speed_rows() -> Mapping[tuple[str, str, str], SpeedRow]:
    """Return published speeds by group, tool and kind of cut."""
    table = read_table("cutting_speeds")
    found: dict[tuple[str, str, str], SpeedRow] = {}
    for row in table.rows:
        factor = FOOT if row["unit"] == "ft/min" else 1.0
        low, high = float(row["low"]) * factor, float(row["high"]) * factor
        found[row["group"], row["tool"], row["cut"]] = SpeedRow(low, high, row["hardness"], row.origin().source)
    return found


@functools.cache
def cut_rows() -> Mapping[str, CutRow]:
    """Return the kinds of cut that follow from another (rows named `tool …` say it of tools)."""
    return {
        row["cut"]: CutRow(
            row["from"],
            (float(row["speed_low"]), float(row["speed_high"])),
            (float(row["feed_low"]), float(row["feed_high"])),
            row.origin().source,
            row["note"],
        )
        for row in read_table("cutting_factors").rows
    }


@functools.cache
def turning_feeds() -> Mapping[str, tuple[tuple[float, float], tuple[float, float], str]]:
    """Return roughing and finishing feeds in mm and their source, by group."""
    return {
        row["group"]: (
            (float(row["rough_low"]) * INCH, float(row["rough_high"]) * INCH),
            (float(row["finish_low"]) * INCH, float(row["finish_high"]) * INCH),
            row.origin().source,
        )
        for row in read_table("cutting_feeds").rows
    }


@functools.cache
def mill_feeds() -> Mapping[tuple[str, str], tuple[float, float, str]]:
    """Return the feed for a tooth as a share of the cutter's diameter, by class and tool."""
    return {
        (row["class"], row["tool"]): (float(row["low"]), float(row["high"]), row.origin().source)
        for row in read_table("mill_feeds").rows
    }


@dataclass(frozen=True)
class CutterKind:
    """Feed for a tooth of a kind of milling cutter in steel, mm."""

    floor: float
    cap: float
    by_diameter: bool
    note: str


@functools.cache
def cutter_kinds() -> Mapping[str, CutterKind]:
    """Return floor and cap of the feed for a tooth by kind of cut."""
    return {
        row["cut"]: CutterKind(float(row["floor"]), float(row["cap"]), row["by_diameter"] == "yes", row["note"])
        for row in read_table("cutter_kinds").rows
    }


@functools.cache
def drill_bands() -> tuple[tuple[float, float, float, float], ...]:
    """Return the bands of drill feeds in mm: from, to (infinite at the end), least and greatest feed."""
    return tuple(
        (
            float(row["above"]) * INCH,
            float(row["to"]) * INCH if row["to"] else float("inf"),
            float(row["low"]) * INCH,
            float(row["high"]) * INCH,
        )
        for row in read_table("drill_feeds").rows
    )


@functools.cache
def machine_classes() -> Mapping[str, Mapping[str, float]]:
    """Return the shares and depths of each class of machine."""
    return {
        row["machine"]: {column: float(cell) for column, cell in row.items() if column not in ("machine", "key")}
        for row in read_table("machine_classes").rows
    }


@functools.cache
def _groups() -> Mapping[str, Group]:
    return {
        row["group"].lower(): Group(
            row["group"],
            row["mill_class"],
            float(row["depth_share"]),
            float(row["drill_share"]),
            float(row["drill_torque"]) if row["drill_torque"] else None,
            float(row["drill_thrust"]) if row["drill_thrust"] else None,
        )
        for row in read_table("material_groups").rows
    }
