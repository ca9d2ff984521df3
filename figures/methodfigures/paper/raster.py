"""How do the marks of a sheet become a grey picture, for tests and previews?"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import numpy as np
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.font_manager import FontProperties
from matplotlib.path import Path
from matplotlib.textpath import TextPath
from matplotlib.transforms import Affine2D
from numpy.typing import NDArray

from methodfigures.paper import text as lettering
from methodfigures.paper.marks import LINE, MOVE, Mark, PathMark, TextMark, grouped
from methodfigures.paper.palette import LIGHT


def raster(
    marks: Iterable[Mark], width: float, height: float, dpi: float, colours: Mapping[str, str] = LIGHT
) -> NDArray[np.uint8]:
    """Grey picture of a sheet in a scheme, (rows, columns) 0 … 255."""
    k = dpi / 25.4
    renderer: Any = RendererAgg(round(width * k), round(height * k), dpi)  # type: ignore[no-untyped-call]
    _paint(renderer, marks, colours, k)
    return np.asarray(np.asarray(renderer.buffer_rgba())[..., :3].mean(2), np.uint8)


def _codes(mark: PathMark) -> NDArray[np.uint8]:
    if mark.codes is not None:
        return mark.codes
    codes = np.full(len(mark.vertices), LINE, np.uint8)
    codes[0] = MOVE
    return codes


def _joined(run: list[PathMark]) -> Path:
    path = Path(np.concatenate([m.vertices for m in run]), np.concatenate([_codes(m) for m in run]))
    path.should_simplify = False
    return path


def _paint(renderer: Any, marks: Iterable[Mark], colours: Mapping[str, str], scale: float) -> None:
    """Draw `marks`; `scale` = pixels per mm."""
    transform = Affine2D().scale(scale)
    for item in grouped(marks):
        if isinstance(item, TextMark):
            _outline_text(renderer, item, colours, transform)
            continue
        style, run = item
        gc: Any = renderer.new_gc()
        gc.set_joinstyle("round")
        gc.set_capstyle(style.cap)
        gc.set_linewidth(renderer.points_to_pixels(style.width * 72 / 25.4) if style.stroke else 0)
        if style.stroke:
            gc.set_foreground(colours[style.stroke])
        renderer.draw_path(gc, _joined(run), transform, _rgb(colours[style.fill]) if style.fill else None)
        gc.restore()


def _rgb(colour: str) -> tuple[float, float, float]:
    r, g, b = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return r, g, b


def _outline_text(renderer: Any, mark: TextMark, colours: Mapping[str, str], transform: Any) -> None:
    size = mark.height / lettering.CAPITAL
    prop = FontProperties(family="DejaVu Sans", weight=mark.weight)
    glyphs = TextPath((0, 0), mark.text, size=size, prop=prop)
    place = Affine2D().scale(lettering.CONDENSED, 1).rotate_deg(mark.turn).translate(mark.x, mark.y)
    gc: Any = renderer.new_gc()
    gc.set_linewidth(0)
    renderer.draw_path(gc, glyphs, place + transform, _rgb(colours[mark.role]))
    gc.restore()
