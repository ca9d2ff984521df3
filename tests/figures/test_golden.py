"""Golden pictures: what was once looked at and found good must not change unnoticed.

Write them anew with METHODFIGURES_GOLDEN=write and look at every one before committing it.
"""

import os
from pathlib import Path

import figure_setups
import figure_spindle
import numpy as np
import pytest
from PIL import Image

from methodfigures.explain.offset_setting import OffsetSetting, compose_offset_setting
from methodfigures.route.proof import compose_proof
from methodfigures.route.storyboard import Storyboard, compose_storyboard
from methodfigures.route.strip import SectionStrip, compose_section_strip
from methodfigures.setups.turning.figure import compose_turning_setup
from methodfigures.solids.views import ViewBook

FOLDER = Path(__file__).parent / "golden"
DPI = 72.0


def _turning(case, **kw):
    return lambda: compose_turning_setup(case(**kw), ViewBook())


PICTURES = {
    "three_jaw_with_centre": _turning(figure_setups.with_centre, pictorials=True),
    "four_jaw_offset": _turning(figure_setups.thrown),
    "collet": _turning(figure_setups.tiny),
    "drilled": _turning(figure_setups.drilled),
    "slender": _turning(figure_setups.slender),
    "between_centres": _turning(figure_setups.between_centres),
    "mandrel": _turning(figure_setups.on_mandrel),
    "faceplate": _turning(figure_setups.on_faceplate),
    "storyboard": lambda: compose_storyboard(Storyboard(figure_spindle.cells()[0]), ViewBook()),
    "strip": lambda: compose_section_strip(SectionStrip(figure_spindle.cells()[0]), ViewBook()),
    "proof": lambda: compose_proof(figure_spindle.proof(), ViewBook()),
    "offset_setting": lambda: compose_offset_setting(OffsetSetting(16, 6, True)),
}


@pytest.mark.parametrize("name", PICTURES)
def test_picture(name):
    made = PICTURES[name]().raster(DPI) // 17 * 17  # sixteen greys
    path = FOLDER / f"{name}.png"
    if os.environ.get("METHODFIGURES_GOLDEN") == "write":
        FOLDER.mkdir(exist_ok=True)
        Image.fromarray(made).quantize(16).save(path, optimize=True)
    wanted = np.asarray(Image.open(path).convert("L"), float)
    assert made.shape == wanted.shape
    off = np.abs(made - wanted)
    assert off.mean() < 1.0
    assert (off > 60).mean() < 0.004
