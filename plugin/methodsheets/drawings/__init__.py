"""Which picture shows this set-up, this operation, this method? Solids and numbers become figures of `methodfigures`."""

from methodsheets.drawings.drawing_room import Shared, draw_method

__all__ = ["Shared", "draw_method"]
