"""Which polygons hold the work in the lathe: one maker for each form of holder, in (s, r) mm?"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from methodsheets.vocabulary.holding import HolderForm

if TYPE_CHECKING:
    from methodtooling.fixtures import Parts


@dataclass(frozen=True)
class Gripped:
    """What the polygons of a holder are made from, in mm."""

    radius: float
    grip: tuple[float, float]
    throw: float
    body: float | None
    inside: bool
    reversed_jaws: bool = False
    back: float = 0.0
    """Where the work ends, from the face that looks at you."""


def _jaws(held: Gripped) -> Parts:
    from methodtooling import fixtures

    if held.inside:
        return fixtures.three_jaw_inside(held.radius, held.grip, body_radius=held.body)
    if held.reversed_jaws:
        return fixtures.reversed_jaws(held.radius, held.grip, body_radius=held.body)
    return fixtures.three_jaw(held.radius, held.grip, body_radius=held.body)


def _four_jaws(held: Gripped) -> Parts:
    from methodtooling import fixtures

    if held.inside or (held.reversed_jaws and not held.throw):
        return _jaws(held)
    return fixtures.four_jaw(held.radius, held.grip, held.throw, body_radius=held.body)


def _soft_jaws(held: Gripped) -> Parts:
    from methodtooling import fixtures

    return _jaws(held) if held.inside else fixtures.soft_jaws(held.radius, held.grip, body_radius=held.body)


def _collet(held: Gripped) -> Parts:
    from methodtooling import fixtures

    return fixtures.collet(held.radius, held.grip)


def _centres(held: Gripped) -> Parts:
    from methodtooling import fixtures

    return fixtures.between_centres(held.radius, held.grip, hole=min(2.0, 0.3 * held.radius), back=held.back)


def _mandrel(held: Gripped) -> Parts:
    from methodtooling import fixtures

    return fixtures.stub_mandrel(held.radius, held.grip)


def _expanding(held: Gripped) -> Parts:
    """It fills the bore and has neither nut nor washer in front."""
    from methodtooling import fixtures

    return fixtures.stub_mandrel(held.radius, held.grip, nut=False)


def _on_centres(held: Gripped) -> Parts:
    from methodtooling import fixtures

    return fixtures.mandrel_on_centres(held.radius, held.grip)


def _plate(held: Gripped) -> Parts:
    from methodtooling import fixtures

    return fixtures.faceplate(held.radius, held.grip, held.throw, plate_radius=held.body)


HOLDERS: Mapping[HolderForm, Callable[[Gripped], Parts]] = MappingProxyType(
    {
        HolderForm.JAWS: _jaws,
        HolderForm.FOUR_JAWS: _four_jaws,
        HolderForm.SOFT_JAWS: _soft_jaws,
        HolderForm.COLLET: _collet,
        HolderForm.CENTRES: _centres,
        HolderForm.MANDREL: _mandrel,
        HolderForm.EXPANDING: _expanding,
        HolderForm.THREADED: _expanding,
        HolderForm.MANDREL_ON_CENTRES: _on_centres,
        HolderForm.PLATE: _plate,
    }
)
"""How each form of holder is built; a way of holding whose form is not here has no polygons in the lathe."""
