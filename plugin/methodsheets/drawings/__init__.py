"""Which picture shows this set-up, this operation, this method? Solids and numbers become figures."""

from methodsheets.drawings.drawing_room import draw_method

__all__ = ["draw_method"]
