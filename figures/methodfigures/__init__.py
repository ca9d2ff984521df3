"""Engineering drawings as SVG: views, sections, set-ups and charts to drawing practice.

The names below are fetched when they are first used: shapes of tools and holders need no drawing library, and whoever
asks for those alone (a check of reach) does not wait for it.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from methodfigures.paper.drawing import Drawing
    from methodfigures.paper.sheet import Layer, Sheet
    from methodfigures.solids.mesh import Mesh
    from methodfigures.solids.views import Place, ViewBook, basis, centred, pictorial_basis

__all__ = ["Drawing", "Layer", "Mesh", "Place", "Sheet", "ViewBook", "basis", "centred", "pictorial_basis"]

_HOMES = {
    "Drawing": "paper.drawing",
    "Mesh": "solids.mesh",
    "Layer": "paper.sheet",
    "Sheet": "paper.sheet",
    "Place": "solids.views",
    "ViewBook": "solids.views",
    "basis": "solids.views",
    "centred": "solids.views",
    "pictorial_basis": "solids.views",
}


def __getattr__(name: str) -> Any:
    """Fetch one of the names above from its module."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
