"""One of every figure: clean, readable in both schemes, the same twice, and as it looked when it was approved.

Golden pictures are small grey rasters made by the library itself; to renew them on purpose run
``python tests/figures/test_gallery.py``.
"""

from __future__ import annotations

import re
from pathlib import Path
from random import Random

import numpy as np
import pytest
from PIL import Image
from test_plate_and_head import plate

import methodfigures
import methodsheets.drawings
from methodfigures import gallery
from methodfigures.paper import text as lettering
from methodfigures.paper.palette import DARK, INK, LIGHT, PAPER, ROLES
from methodfigures.paper.sheet import Sheet
from methodfigures.setups.plate.figure import draw_plate_setup

GOLDEN = Path(__file__).parent / "golden" / "gallery"
MAKERS = {
    **gallery.MAKERS,
    "plate": lambda: ("A block on the faceplate", draw_plate_setup(plate(Random(3), "faceplate"))),
}
NAMES = sorted(MAKERS)
DPI = 48.0
"""A set-up is 321 pixels wide then: as a phone shows it, and as 90 mm of grey paper do at 90 dots to the inch."""
DARK_DPI = 24.0
MANY_PICTURES = ("storyboard", "storyboard-narrow", "strip", "proof")
"""Their few words stand under pictures on a page, never on a bench sheet."""


@pytest.fixture(scope="module")
def shown():
    """Name to (title, drawing, picture in the light scheme, picture in the dark one), each drawn once."""
    return {name: pictures(name) for name in NAMES}


def pictures(name):
    """The example with its pictures, taken from the sheet on its way to becoming a drawing."""
    found = []
    plain = Sheet.drawing

    def keep(sheet, title, description):
        found.append((sheet.raster(DPI), sheet.raster(DARK_DPI, DARK) // 17 * 17))
        return plain(sheet, title, description)

    Sheet.drawing = keep
    try:
        return (*MAKERS[name](), found)
    finally:
        Sheet.drawing = plain


@pytest.mark.parametrize("name", NAMES)
def test_clean_and_the_same_twice(name, shown):
    title, first, _ = shown[name]
    _, second = MAKERS[name]()
    assert first.clashes == ()
    assert first.svg == second.svg
    sizes = [float(found) for found in re.findall(r"font-size:([\d.]+)px", first.svg)]
    assert not sizes or min(sizes) * lettering.CAPITAL >= 1.8
    if MAKERS[name].__module__.endswith(".setups") and name not in MANY_PICTURES:  # it stands on a bench sheet
        assert min(sizes) * lettering.CAPITAL >= lettering.HEIGHT - 0.01
    assert len(title) > 3
    assert len(first.description) > 10
    assert "<desc" in first.svg


@pytest.mark.parametrize("name", NAMES)
def test_as_approved(name, shown):
    """On a phone or on 90 mm of grey paper, and in the dark."""
    for scheme, got in zip(("", "dark-"), shown[name][2][-1], strict=True):
        want = np.asarray(Image.open(GOLDEN / f"{scheme}{name}.png").convert("L"), float)
        assert got.shape == want.shape
        off = np.abs(got - want)
        assert off.mean() < 2.0
        assert (off > 64).mean() < 0.002


def test_a_missing_line_is_noticed(shown):
    """The tolerance is narrow enough: without 4 % of its rows a picture is another one."""
    want = shown["vice"][2][-1][0].astype(float)
    got = want.copy()
    rows = slice(int(0.4 * len(want)), int(0.44 * len(want)))
    got[rows] = 255
    assert (np.abs(got - want) > 64).mean() > 0.002


def _luminance(colour):
    """Relative luminance after WCAG 2.1."""
    v = np.array([int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)])
    v = np.where(v <= 0.03928, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)
    return float(v @ (0.2126, 0.7152, 0.0722))


@pytest.mark.parametrize("scheme", [LIGHT, DARK])
def test_ink_stands_out_on_every_area(scheme):
    """WCAG 2.1: 4.5 : 1 for text, on the paper and on every tint that lettering may cross."""
    for role in ROLES:
        if role != INK:
            a, b = sorted((_luminance(scheme[INK]), _luminance(scheme[role])), reverse=True)
            assert (a + 0.05) / (b + 0.05) >= 4.5, role
    a, b = sorted((_luminance(scheme[INK]), _luminance(scheme[PAPER])), reverse=True)
    assert (a + 0.05) / (b + 0.05) >= 12


@pytest.mark.parametrize("name", ["vice", "rotary", "balance", "fit-zones"])
def test_only_known_colours(name):
    drawing = MAKERS[name]()[1]
    loose = re.findall(r"#[0-9a-fA-F]{6}", re.sub(r"var\(--ms-[a-z]+,#[0-9a-f]{6}\)", "", drawing.svg))
    assert loose == []
    dark = drawing.standalone(DARK)
    assert LIGHT[PAPER] not in dark
    assert DARK[PAPER] in dark


def test_widths_of_all_lines():
    """ISO 128-2, group 0.5: no line is wider than twice the wide one, wide outlines are there."""
    for name in ("vice", "rotary", "cross", "joint-press"):
        widths = {float(w) for w in re.findall(r'stroke-width[:=]"?\s*([0-9.]+)', MAKERS[name]()[1].svg)}
        assert 0.5 in widths
        assert 0.25 in widths
        assert max(widths) <= 0.5


if __name__ == "__main__":
    GOLDEN.mkdir(exist_ok=True)
    for example in NAMES:
        for scheme, picture in zip(("", "dark-"), pictures(example)[2][-1], strict=True):
            Image.fromarray(picture).save(GOLDEN / f"{scheme}{example}.png", optimize=True)


def test_there_is_no_figure_that_no_method_can_get():
    """Every function that draws a figure is called by the drawing room of the plugin; its charts are made in pages."""
    drawn = {
        name
        for file in Path(methodfigures.__file__).parent.rglob("*.py")
        if file.parent.name in ("explain", "route", "part") or "setups" in file.parts
        for name in re.findall(r"^def (draw_\w+)\(spec: ", file.read_text(encoding="utf-8"), re.MULTILINE)
    }
    room = Path(methodsheets.drawings.__file__).parent
    used = " ".join(file.read_text(encoding="utf-8") for file in room.rglob("*.py"))
    assert len(drawn) > 12
    assert {name for name in drawn if not re.search(rf"\b{name}\b", used)} == set()
