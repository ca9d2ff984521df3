"""Which picture shows a verb on each stage: turning in the lathe, upright on a table, lying across, on a block?

The table is total: each pair of verb and stage has the name under which the drawing library draws it, or a reason why
it has no picture, and the reason is what the reader sees.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from types import MappingProxyType
from typing import Any

from .spelling import said


class Stage(StrEnum):
    """Where the work is when a verb cuts it."""

    LATHE = "in the lathe"
    TABLE = "upright on a table"
    LYING = "lying on its side"
    BLOCK = "on a block"
    PLATE = "on a block that turns in the lathe"


@dataclass(frozen=True, kw_only=True)
class SceneRow:
    """What the drawing office asks of a verb."""

    looks: Mapping[Stage, str]
    """Stage → the verb of the drawing library that looks like it."""
    reason: str = ""
    """Why there is no picture on the other stages, where there is more to say than that."""
    marks: bool = False
    """Whether it is drawn though no metal goes: a thread, a knurl, graduations."""
    designation: bool = False
    """Whether its size on the drawing is a name: M6."""
    wide: bool = False
    """Whether it leaves a gap of one width with a bottom of its own, which is drawn: a slot, a tooth."""
    across_hole: bool = False
    """Whether it is a hole across the axis."""
    balances: bool = False
    """Whether it is cut to balance the work, when it is made off the axis."""
    off_axis: bool = False
    """Whether it is always made off the axis."""
    sawn: bool = False
    """Whether a bar is sawn across: it has a picture of its own wherever it is gripped."""
    guided: bool = False
    """Whether it is shown with what guides the tool, wherever the work is held."""
    disc: bool = False
    """Whether its cutter is a disc on an arbor: a form cutter, a slitting saw."""
    slide_set_over: bool = False
    """Whether the top slide is set over for it."""
    also: tuple[str, ...] = ()
    """Other words that the trade has for the verb."""


_L, _T, _Y, _B, _P = Stage.LATHE, Stage.TABLE, Stage.LYING, Stage.BLOCK, Stage.PLATE
_HAND = "handwork, no set-up is changed"
_ARBOR = "a form cutter on its arbor is drawn beside work that lies level"
_JOINT = "the drawing shows the pieces and not the set-up"


def _by_hand(also: str = "") -> SceneRow:
    return SceneRow(looks={}, reason=_HAND, also=said(also))


def _joint(also: str = "") -> SceneRow:
    return SceneRow(looks={}, reason=_JOINT, also=said(also))


def _hole(name: str, *, lathe: str = "", table: str = "", **more: Any) -> SceneRow:
    return replace(SceneRow(looks={_L: lathe or name, _T: table or name, _B: name, _P: name}), **more)


def _turned(name: str, **more: Any) -> SceneRow:
    return replace(SceneRow(looks={_L: name}, reason="the work must turn for it"), **more)


def _milled(name: str, **more: Any) -> SceneRow:
    return replace(SceneRow(looks={_B: name}, reason="it is drawn on six-face work only"), **more)


def _along(name: str, **more: Any) -> SceneRow:
    return replace(SceneRow(looks={_T: name, _Y: name}, reason="a cutter must turn beside the work"), **more)


SCENES: Mapping[str, SceneRow] = MappingProxyType(
    {
        "face": SceneRow(looks={_L: "face", _B: "face"}, reason="a face on a table is drawn on six-face work only",
                         also=said("facing")),
        "turn": _turned("turn", also=said("turning")),
        "taper": _turned("taper", slide_set_over=True), "groove": _turned("groove"),
        "undercut": _turned("groove"), "part off": _turned("part off", also=said("part, cut off")),
        "knurl": _turned("knurl", marks=True),
        "round over": _turned("chamfer", also=said("radius")),
        "thread": _turned("thread", marks=True, designation=True, also=said("screwcut, screw-cut")),
        "chamfer": SceneRow(looks={_L: "chamfer", _B: "chamfer"}, reason="the work must turn for it"),
        "profile": SceneRow(looks={_L: "profile", _B: "profile"}, reason="the work must turn for it"),
        "drill": _hole("drill", balances=True), "bore": _hole("bore", balances=True), "ream": _hole("ream"),
        "tap": _hole("tap", marks=True, designation=True),
        "centre": _hole("centre", also=said("centre drill, center, spot")),
        "counterbore": _hole("counterbore"),
        "countersink": _hole("countersink", lathe="counterbore", table="counterbore"),
        "cross-drill": SceneRow(looks={_Y: "cross-drill"}, reason="drawn lying in vee blocks or a vice",
                                across_hole=True, also=said("cross drill, crossdrill")),
        "cross-ream": SceneRow(looks={_Y: "cross-ream"}, reason="drawn lying in vee blocks or a vice",
                               across_hole=True),
        "cross-tap": SceneRow(looks={_Y: "tap"}, reason="drawn lying in vee blocks or a vice", across_hole=True,
                              marks=True, designation=True),
        "flat": _along("flat", balances=True, off_axis=True),
        "web": _along("flat"), "cam": replace(_along("flat"), looks={_T: "round", _Y: "flat"}),
        "outline": _along("flat"),
        "keyway": replace(_along("keyway", wide=True), reason="in a bore it is slotted stroke by stroke, the spindle "
                          "locked: the route shows what it makes"),
        "slot": SceneRow(looks={_T: "slot", _Y: "slot", _B: "slot"}, reason="a cutter must turn beside the work",
                         wide=True, balances=True, off_axis=True),
        "graduate": SceneRow(looks={_T: "graduate"}, reason="drawn on a rotary table only", marks=True,
                             also=said("scribe")),
        "step": _milled("step"), "pocket": _milled("pocket"), "vee": _milled("vee"),
        "dovetail": _milled("dovetail"), "t-slot": _milled("t-slot"),
        "saw out": SceneRow(looks={_B: "saw out"}, sawn=True, reason="nothing says where the bar is gripped"),
        "file": SceneRow(looks={}, reason=_HAND, balances=True, off_axis=True),
        "saw off": SceneRow(looks={}, sawn=True, reason="nothing says where the bar is gripped", also=said("saw")),
        "split": SceneRow(looks={_Y: "split"}, reason="a slit along the work is drawn where the work lies level",
                          wide=True, disc=True, also=said("slit")),
        "gear": SceneRow(looks={_Y: "gear"}, reason=_ARBOR, wide=True, disc=True),
        "rack": SceneRow(looks={_B: "rack"}, reason=_ARBOR, disc=True),
        "dome": _turned("profile"),
        "wind": SceneRow(looks={}, reason="a spring is wound, and no metal goes"),
        "broach": SceneRow(looks={}, reason="a broach is pressed through by hand; the route shows what it makes"),
        **dict.fromkeys(("anneal", "case-harden", "normalise", "temper"), _by_hand()),
        **dict.fromkeys(("assemble", "blue", "check", "clean", "do", "fit", "harden", "hone", "lap", "measure",
                         "polish", "support"), _by_hand()),
        "deburr": _by_hand("debur"), "mark out": _by_hand("mark"),
        "round end": SceneRow(looks={}, guided=True, reason="the buttons are shown, and not the vice"),
        "take apart": SceneRow(looks={}, reason="the pieces come apart as they were put together",
                               also=said("unsolder, separate, unclamp")),
        "glue": _joint("bond"), "soft-solder": _joint("solder, soft solder"), "press in": _joint("press"),
        "shrink on": _joint("shrink"), "silver-braze": _joint("silver braze, silver solder"),
        **dict.fromkeys(("braze", "pin", "press on", "retain", "rivet", "screw in", "screw on", "shrink in", "secure",
                         "slide in", "slide on", "weld"), _joint()),
    }
)  # fmt: skip
"""Every verb on every stage."""


def look(verb: str, stage: Stage) -> str:
    """The drawing library's verb for a verb on a stage; empty where there is no picture."""
    return SCENES[verb].looks.get(stage, "")


def why_not(verb: str, stage: Stage) -> str:
    """Why a verb has no picture on a stage; empty where it has one."""
    row = SCENES[verb]
    return "" if stage in row.looks else row.reason or f"it is not drawn {stage}"
