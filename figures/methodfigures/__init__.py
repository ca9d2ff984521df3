"""Engineering drawings as SVG: views, sections, set-ups and charts to drawing practice.

The names below are fetched when they are first used: shapes of tools and holders need no drawing library, and whoever
asks for those alone (a check of reach) does not wait for it.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from methodfigures.drawing import Drawing
    from methodfigures.mesh import Mesh
    from methodfigures.sheet import Layer, Sheet
    from methodfigures.views import Place, ViewBook, basis, centred, pictorial_basis

__all__ = ["Drawing", "Layer", "Mesh", "Place", "Sheet", "ViewBook", "basis", "centred", "pictorial_basis"]

_HOMES = {
    "Drawing": "drawing",
    "Mesh": "mesh",
    "Layer": "sheet",
    "Sheet": "sheet",
    "Place": "views",
    "ViewBook": "views",
    "basis": "views",
    "centred": "views",
    "pictorial_basis": "views",
}


def __getattr__(name: str) -> Any:
    """Fetch one of the names above from its module."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
