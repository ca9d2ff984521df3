"""Which figures are there?  One example of each kind, with small built-in data."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from methodfigures.gallery import charts as charts
from methodfigures.gallery import finished as finished
from methodfigures.gallery import setting as setting
from methodfigures.gallery import setups as setups
from methodfigures.paper.drawing import Drawing

Maker = Callable[[], tuple[str, Drawing]]

MAKERS: Mapping[str, Maker] = {
    "turning": setups.turning,
    "turning-inside": setups.boring,
    "turning-centres": setups.between_centres,
    "offset-setting": setups.offset,
    "vice": setups.vice,
    "vice-third": setups.vice_third,
    "clamps": setups.clamps,
    "rotary": setups.rotary,
    "cross": setups.cross,
    "joint-press": setting.joint,
    "joint-braze": setting.braze,
    "saw-cut": setting.saw,
    "saw-gap": setting.saw_gap,
    "part": finished.part,
    "part-narrow": finished.part_narrow,
    "portrait": finished.portrait,
    "storyboard": setups.storyboard,
    "storyboard-narrow": finished.storyboard_narrow,
    "strip": setups.strip,
    "removed-metal": setups.removed,
    "proof": setups.proof,
    "fit-zones": charts.fits,
    "fit-transition": charts.one_fit,
    "press-fit": charts.press,
    "balance": charts.balance,
    "taper-slide": setting.slide,
    "three-wires": setting.wires,
    "three-wires-ba": setting.wires_ba,
}
"""Name of an example to the function that draws it: (what it is, the drawing)."""


def examples() -> dict[str, tuple[str, Drawing]]:
    """Every kind of figure once: name to (what it is, the drawing)."""
    return {name: make() for name, make in MAKERS.items()}
