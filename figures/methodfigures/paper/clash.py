"""Does anything on the sheet lie over something it must not touch?

A drawing is clean when no lettering lies on other lettering, on a line, under a filled area or off the sheet, no
leader crosses another leader, a block arrow, a dimension line or a break, and every leader ends on something.
Narrow lines below masked lettering are allowed: the mask breaks them.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from methodfigures.paper.shapes import Points, line_shapes

MARGIN: Final = 0.25
"""Least distance of two texts / 2 in mm."""
BORDER: Final = 0.4
ARROW: Final = 8.0
"""Height above the paper of heads and dots; everything else is what they may point at."""
TOUCH: Final = 0.3
"""mm from its area that the middle of a dot may lie: the dot still covers it."""
NEAR: Final = 0.6
"""mm from the line that a head may end."""


@dataclass(frozen=True, slots=True)
class TextBox:
    """Outline of one line of lettering; `masked` = it stands on a patch of paper."""

    outline: shapely.Polygon
    text: str
    masked: bool
    z: float


@dataclass(frozen=True, slots=True)
class Ink:
    """A line that lettering may not touch."""

    line: Points
    width: float
    z: float


@dataclass(frozen=True, slots=True)
class Tip:
    """Where a leader ends: with a `dot` in an area, else with a head on a line."""

    spot: Points
    dot: bool


@dataclass(slots=True)
class Register:
    """What has been put on a sheet, kept for the overlap test."""

    texts: list[TextBox] = field(default_factory=list)
    inks: list[Ink] = field(default_factory=list)
    fills: list[tuple[float, BaseGeometry]] = field(default_factory=list)
    leaders: list[shapely.LineString] = field(default_factory=list)
    arrows: list[BaseGeometry] = field(default_factory=list)
    tips: list[Tip] = field(default_factory=list)
    barriers: list[tuple[str, shapely.LineString]] = field(default_factory=list)
    """Lines that no leader may cross, each with its name: dimension lines between their heads, and breaks."""
    _known: tuple[list[Ink], int, shapely.STRtree] | None = None

    def in_the_way(self) -> list[BaseGeometry]:
        """What a new leader keeps clear of, lettering aside: arrows, leaders, dimension lines and breaks."""
        return [*self.arrows, *self.leaders, *(line for _, line in self.barriers)]

    def lines(self) -> shapely.STRtree:
        """The lines that lettering may not touch, in the order of `inks`, ready to be asked."""
        known = self._known
        if known is None or known[0] is not self.inks or known[1] != len(self.inks):
            tree = shapely.STRtree(line_shapes([ink.line for ink in self.inks]))
            known = self._known = (self.inks, len(self.inks), tree)
        return known[2]


def found(register: Register, width: float, height: float) -> tuple[str, ...]:
    """Every overlap on a sheet of `width` × `height` mm, as sentences in a fixed order."""
    out = {
        *_texts(register, width, height),
        *_lines(register),
        *_covered(register),
        *_leaders(register),
        *_in_air(register),
    }
    return tuple(sorted(out))


def crosses(leader: shapely.LineString, other: BaseGeometry) -> bool:
    """Whether a leader, given from its end on, meets something elsewhere than where it ends: there it points at it."""
    if not leader.intersects(other):
        return False
    return not leader.intersection(other).within(shapely.Point(leader.coords[0]).buffer(NEAR))


def _spot(shape: BaseGeometry) -> str:
    x, y = shapely.get_coordinates(shape.centroid)[0]
    return f"near {x:.1f}, {y:.1f}"


def _texts(r: Register, width: float, height: float) -> list[str]:
    page = shapely.box(BORDER, BORDER, width - BORDER, height - BORDER)
    outlines = np.array([t.outline for t in r.texts])
    within = shapely.contains(page, outlines) if len(outlines) else ()
    out = [f"'{t.text}' is off the sheet" for t, held in zip(r.texts, within, strict=True) if not held]
    if len(outlines):
        grown = shapely.buffer(outlines, MARGIN, cap_style="square", join_style="mitre")
        first, second = shapely.STRtree(grown).query(grown, predicate="intersects")
        out += [f"'{r.texts[i].text}' over '{r.texts[j].text}'" for i, j in zip(first, second, strict=True) if i < j]
    return out


def _lines(r: Register) -> list[str]:
    if not r.inks or not r.texts:
        return []
    tree = r.lines()
    lines = tree.geometries
    boxes = [t.outline for t in r.texts]
    out = []
    for i, j in np.transpose(tree.query(boxes, predicate="intersects")):
        text, ink = r.texts[i], r.inks[j]
        if not (text.masked and ink.width < 0.3 and ink.z < text.z):
            out.append(f"a line crosses '{text.text}' {_spot(lines[j].intersection(text.outline))}")
    return out


def _covered(r: Register) -> list[str]:
    least = min((t.z for t in r.texts), default=0.0)
    above = [(z, shape) for z, shape in r.fills if z > least]
    if not above or not r.texts:
        return []
    tree = shapely.STRtree([shape for _, shape in above])
    texts, shapes = tree.query([t.outline for t in r.texts], predicate="intersects")
    return [
        f"an area covers '{r.texts[i].text}' {_spot(above[j][1].intersection(r.texts[i].outline))}"
        for i, j in zip(texts.tolist(), shapes.tolist(), strict=True)
        if above[j][0] > r.texts[i].z
    ]


def _leaders(r: Register) -> list[str]:
    out = []
    for i, a in enumerate(r.leaders):
        out += [f"leaders cross {_spot(a.intersection(b))}" for b in r.leaders[:i] if a.intersects(b)]
        out += [f"a leader crosses an arrow {_spot(a.intersection(b))}" for b in r.arrows if a.intersects(b)]
    if r.leaders and r.barriers:
        tree = shapely.STRtree([line for _, line in r.barriers])
        for i, j in np.transpose(tree.query(r.leaders, predicate="intersects")):
            name, line = r.barriers[j]
            if crosses(r.leaders[i], line):
                out.append(f"a leader crosses {name} {_spot(line.intersection(r.leaders[i]))}")
    out += [f"an arrow over '{t.text}'" for t in r.texts for b in r.arrows if t.outline.intersects(b)]
    return out


def _in_air(r: Register) -> list[str]:
    """Leaders that end on nothing: a dot beside every area, a head beside every line."""
    things = [shape for z, shape in r.fills if z != ARROW]
    out = []
    for tip in r.tips:
        here = shapely.Point(tip.spot)
        held = any(here.distance(shape) < TOUCH for shape in things)
        if not tip.dot and not held:
            lines = r.lines().geometries[r.lines().query(here.buffer(NEAR))]
            own = tip.spot
            held = any(
                line.distance(here) < NEAR and np.abs(shapely.get_coordinates(line)[0] - own).max() > 1e-9
                for line in lines
            ) or any(here.distance(shape) < NEAR for shape in things)
        if not held:
            out.append(f"a leader ends in the air near {tip.spot[0]:.1f}, {tip.spot[1]:.1f}")
    return out
