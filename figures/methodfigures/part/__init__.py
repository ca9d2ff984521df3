"""The dimensioned drawing of a finished part: its views, its sizes, its limits, its title block."""

from methodfigures.part.drawing import compose_part, draw_part
from methodfigures.part.spec import PartDrawing

__all__ = ["PartDrawing", "compose_part", "draw_part"]
