"""Engineering drawings as SVG: views, sections, set-ups and charts to drawing practice."""
from methodfigures.drawing import Drawing
from methodfigures.mesh import Mesh
from methodfigures.sheet import Layer, Sheet
from methodfigures.views import Place, ViewBook, basis, centred, pictorial_basis

__all__ = ["Drawing", "Layer", "Mesh", "Place", "Sheet", "ViewBook", "basis", "centred", "pictorial_basis"]
