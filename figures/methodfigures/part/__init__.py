"""The dimensioned drawing of a finished part: its views, its sizes, its limits, its title block."""

from methodfigures.part.drawing import compose_part, draw_part
from methodfigures.part.portrait import Portrait, draw_portrait
from methodfigures.part.spec import PartDrawing

__all__ = ["PartDrawing", "Portrait", "compose_part", "draw_part", "draw_portrait"]
