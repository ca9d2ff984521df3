"""What does the metal look like that the work starts from?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ..geometry import STOCK, Axis, Outline, Solid, SolidKernel, grown
from .datum import Ends, Place2


@dataclass(frozen=True, eq=False)
class Stock:
    """A piece of stock: its kind, its sizes in mm by name, its solid and where its ends stand."""

    kind: str
    sizes: Mapping[str, float]
    solid: Solid
    ends: Ends

    @property
    def length(self) -> float:
        """Along z, mm."""
        return self.ends.length


def _sized(kind: str, solid: Solid, length: float, **sizes: float) -> Stock:
    low = min(sizes, key=lambda name: sizes[name])
    if not sizes[low] > 0 or not length > 0:
        raise ValueError(f"a {kind} needs sizes above 0 (got {low} {sizes[low]:g}, length {length:g})")
    return Stock(kind, {**sizes, "length": length}, solid, Ends(0.0, float(length)))


def round_bar(kernel: SolidKernel, diameter: float, length: float, *, centre: Place2 = (0.0, 0.0)) -> Stock:
    """Round bar along z; `centre` = where its own axis lies when the part's main axis is (0, 0)."""
    solid = kernel.cylinder(diameter / 2, 0, length, STOCK, Axis.upright(*centre))
    return _sized("round bar", solid, length, diameter=diameter)


def hexagon_bar(
    kernel: SolidKernel, across_flats: float, length: float, *, centre: Place2 = (0.0, 0.0), turned: float = 0.0
) -> Stock:
    """Hexagon bar along z by its size across flats; the middle of a flat lies at `turned` degrees about z."""
    outline = Outline.regular(6, across_flats, centre, turned)
    return _sized("hexagon bar", kernel.prism(outline, 0, length, STOCK), length, across_flats=across_flats)


def square_bar(
    kernel: SolidKernel, side: float, length: float, *, centre: Place2 = (0.0, 0.0), turned: float = 0.0
) -> Stock:
    """Square bar along z; the middle of a side lies at `turned` degrees about z."""
    return _sized(
        "square bar", kernel.prism(Outline.regular(4, side, centre, turned), 0, length, STOCK), length, side=side
    )


def flat_bar(
    kernel: SolidKernel, width: float, thickness: float, length: float, *, centre: Place2 = (0.0, 0.0)
) -> Stock:
    """Flat bar along z: `width` along x, `thickness` along y, about `centre`."""
    x, y = centre
    solid = kernel.box((x - width / 2, y - thickness / 2, 0), (x + width / 2, y + thickness / 2, length), STOCK)
    return _sized("flat bar", solid, length, width=width, thickness=thickness)


def tube(kernel: SolidKernel, diameter: float, bore: float, length: float, *, centre: Place2 = (0.0, 0.0)) -> Stock:
    """Round tube along z by its outside diameter and its bore; ValueError where no wall is left."""
    if not diameter > bore:
        raise ValueError(f"a tube needs a wall (got outside {diameter:g}, bore {bore:g})")
    solid = kernel.tube(diameter / 2, bore / 2, 0, length, STOCK, Axis.upright(*centre))
    return _sized("tube", solid, length, diameter=diameter, bore=bore)


def plate(kernel: SolidKernel, length: float, width: float, thickness: float, *, bore: float = 0.0) -> Stock:
    """A block for six-face work: length left to right (x), width front to back (y), thickness bottom to top (z).

    `bore` = diameter in mm of a hole that is there already, through the middle from top to bottom.
    """
    solid = kernel.box((0, 0, 0), (length, width, thickness), STOCK)
    if bore > 0:
        solid -= kernel.cylinder(bore / 2, -1, thickness + 1, STOCK, Axis.upright(length / 2, width / 2))
    made = _sized("plate", solid, thickness, width=width, thickness=thickness)
    return Stock("plate", {"length": length, "width": width, "thickness": thickness}, made.solid, made.ends)


def turned_blank(kernel: SolidKernel, outline: Outline | Sequence[Place2], *, centre: Place2 = (0.0, 0.0)) -> Stock:
    """A bought or earlier turned blank: a half profile of (radius, length) about `centre`, its raw end A at z = 0.

    Its skin counts as stock.
    """
    solid = kernel.revolve(outline, STOCK, Axis.upright(*centre))
    return _from_solid("turned blank", solid)


def casting(
    kernel: SolidKernel, outline: Outline | Sequence[Place2], allowance: float, *, centre: Place2 = (0.0, 0.0)
) -> Stock:
    """A turned casting: the finished half profile of (radius, length), grown all round by an allowance in mm.

    Its raw end A stands at z = 0, so the finished end A lies at z = `allowance`.
    """
    drawn = outline if isinstance(outline, Outline) else Outline(*outline)
    solid = kernel.revolve(grown(drawn, allowance), STOCK, Axis.upright(*centre))
    return _from_solid("casting", solid, allowance=allowance)


def _from_solid(kind: str, solid: Solid, **sizes: float) -> Stock:
    low, high = solid.bounds
    box = dict(zip(("across x", "across y", "length"), (high - low).tolist(), strict=True))
    return Stock(kind, {**box, **sizes}, solid.shifted((0, 0, -low[2])), Ends(0.0, float(high[2] - low[2])))
