"""How do the marks of a sheet become SVG, or a picture for a test?

One lean artist hands all marks to matplotlib's renderer.  Marks of one style that follow one another become one path.
Lettering is written as text elements, so that it can be selected and read aloud; other back ends get its outlines.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final
from xml.sax.saxutils import escape

import numpy as np
from matplotlib.backends.backend_svg import RendererSVG
from matplotlib.path import Path
from matplotlib.transforms import Affine2D, IdentityTransform
from numpy.typing import NDArray

from methodfigures.paper import text as lettering
from methodfigures.paper.drawing import PREFIX
from methodfigures.paper.palette import LIGHT, SENTINEL, variable

if TYPE_CHECKING:
    from matplotlib.backend_bases import RendererBase

FAMILY: Final = "'DejaVu Sans','Bitstream Vera Sans',Verdana,Geneva,sans-serif"
DECIMALS: Final = 2
"""Paper coordinates are written to 0.01 mm."""


@dataclass(frozen=True, slots=True)
class Style:
    """Look of a path: roles of fill and stroke (None = without), line width in mm, ends of lines."""

    fill: str | None = None
    stroke: str | None = None
    width: float = 0.0
    cap: str = "round"


@dataclass(frozen=True, slots=True)
class PathMark:
    """Lines or areas of one style; `codes` None = a polyline, else matplotlib path codes."""

    z: float
    style: Style
    vertices: NDArray[np.float64]
    codes: NDArray[np.uint8] | None = None


@dataclass(frozen=True, slots=True)
class TextMark:
    """One line of lettering; (x, y) is the left end of its base line, `turn` in degrees anticlockwise."""

    z: float
    text: str
    x: float
    y: float
    height: float
    width: float
    turn: float = 0.0
    weight: str = "normal"
    role: str = "ink"


Mark = PathMark | TextMark


def _codes(mark: PathMark) -> NDArray[np.uint8]:
    if mark.codes is not None:
        return mark.codes
    codes = np.full(len(mark.vertices), Path.LINETO, np.uint8)
    codes[0] = Path.MOVETO
    return codes


def grouped(marks: Iterable[Mark]) -> Iterator[tuple[Style, Path] | TextMark]:
    """Marks from the bottom to the top, neighbours of one style joined to one path."""
    run: list[PathMark] = []
    for mark in sorted(marks, key=lambda m: m.z):
        if run and not (isinstance(mark, PathMark) and mark.style == run[0].style):
            yield run[0].style, _joined(run)
            run = []
        if isinstance(mark, PathMark):
            run.append(mark)
        else:
            yield mark
    if run:
        yield run[0].style, _joined(run)


def _joined(run: list[PathMark]) -> Path:
    path = Path(np.round(np.concatenate([m.vertices for m in run]), DECIMALS), np.concatenate([_codes(m) for m in run]))
    path.should_simplify = False
    return path


def paint(
    renderer: RendererBase, marks: Iterable[Mark], colours: Mapping[str, str], scale: float, height: float
) -> None:
    """Draw `marks` with a matplotlib renderer; `scale` = its units per mm, `height` of the sheet in mm."""
    plain = isinstance(renderer, RendererSVG)
    transform = Affine2D().scale(scale) if scale != 1.0 else IdentityTransform()
    for item in grouped(marks):
        if isinstance(item, TextMark):
            if plain:
                _write_text(renderer, item, colours, height)
            else:
                _outline_text(renderer, item, colours, transform)
            continue
        style, path = item
        gc: Any = renderer.new_gc()
        gc.set_joinstyle("round")
        gc.set_capstyle(style.cap)
        gc.set_linewidth(renderer.points_to_pixels(style.width * (1.0 if plain else 72 / 25.4)) if style.stroke else 0)
        if style.stroke:
            gc.set_foreground(colours[style.stroke])
        renderer.draw_path(gc, path, transform, _rgb(colours[style.fill]) if style.fill else None)
        gc.restore()


def _rgb(colour: str) -> tuple[float, float, float]:
    r, g, b = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return r, g, b


def _number(value: float) -> str:
    return f"{value:.{DECIMALS}f}".rstrip("0").rstrip(".") or "0"


def _write_text(renderer: RendererBase, mark: TextMark, colours: Mapping[str, str], height: float) -> None:
    x, y = _number(mark.x), _number(height - mark.y)
    attributes = {"x": x, "y": y}
    if mark.turn:
        attributes["transform"] = f"rotate({_number(-mark.turn)} {x} {y})"
    attributes |= {"textLength": _number(mark.width), "lengthAdjust": "spacingAndGlyphs"}
    attributes["style"] = f"font-size:{_number(mark.height / lettering.CAPITAL)}px;fill:{colours[mark.role]}"
    if mark.weight != "normal":
        attributes["style"] += f";font-weight:{mark.weight}"
    renderer.writer.element("text", mark.text, attrib=attributes)  # type: ignore[attr-defined]


def _outline_text(renderer: RendererBase, mark: TextMark, colours: Mapping[str, str], transform: Any) -> None:
    from matplotlib.font_manager import FontProperties
    from matplotlib.textpath import TextPath

    size = mark.height / lettering.CAPITAL
    prop = FontProperties(family="DejaVu Sans", weight=mark.weight)
    glyphs = TextPath((0, 0), mark.text, size=size, prop=prop)
    place = Affine2D().scale(lettering.CONDENSED, 1).rotate_deg(mark.turn).translate(mark.x, mark.y)
    gc: Any = renderer.new_gc()
    gc.set_linewidth(0)
    renderer.draw_path(gc, glyphs, place + transform, _rgb(colours[mark.role]))
    gc.restore()


def raster(marks: Iterable[Mark], width: float, height: float, dpi: float) -> NDArray[np.uint8]:
    """Grey picture of a sheet in the light scheme, (rows, columns) 0 … 255."""
    from matplotlib.backends.backend_agg import RendererAgg

    k = dpi / 25.4
    renderer: Any = RendererAgg(round(width * k), round(height * k), dpi)  # type: ignore[no-untyped-call]
    paint(renderer, marks, LIGHT, k, height)
    return np.asarray(np.asarray(renderer.buffer_rgba())[..., :3].mean(2), np.uint8)


def document(marks: Iterable[Mark], width: float, height: float, title: str, description: str) -> str:
    """Inline SVG of a sheet of `width` × `height` mm; the same marks give the same bytes."""
    out = io.StringIO()
    renderer: Any = RendererSVG(  # type: ignore[no-untyped-call]
        width, height, out, metadata=dict.fromkeys(("Date", "Creator", "Format", "Type"))
    )
    paint(renderer, marks, SENTINEL, 1.0, height)
    renderer.finalize()
    body = out.getvalue().partition("</defs>")[2].rpartition("</svg>")[0]
    head = (
        f'<svg width="100%" viewBox="0 0 {_number(width)} {_number(height)}" xmlns="http://www.w3.org/2000/svg" '
        f'class="ms-drawing" role="img" aria-labelledby="{PREFIX}-t {PREFIX}-d">'
        f'<title id="{PREFIX}-t">{escape(title)}</title><desc id="{PREFIX}-d">{escape(description)}</desc>'
        f'<g style="stroke-linejoin:round;font-family:{FAMILY}">'
    )
    return head + _lean(body) + "</g></svg>"


_NUMBERS = re.compile(r' d="([^"]*)"')
_STYLES = re.compile(r' style="[^"]*"')
_COLOURS = {SENTINEL[role]: variable(role) for role in LIGHT}
_COLOUR = re.compile("|".join(_COLOURS))


def _lean(body: str) -> str:
    """The renderer's text without its line breaks and spaces, roles instead of stand-in colours."""

    def path(match: re.Match[str]) -> str:
        d = match.group(1).replace(" \n", "\n").strip().replace("\n", "")
        return f' d="{d.replace("M ", "M").replace("L ", "L").replace("C ", "C")}"'

    def style(match: re.Match[str]) -> str:
        return match.group(0).replace("; ", ";").replace(": ", ":")

    body = _STYLES.sub(style, _NUMBERS.sub(path, body)).replace("\n", "").replace("> <", "><").strip()
    return _COLOUR.sub(lambda m: _COLOURS[m.group(0)], body)
