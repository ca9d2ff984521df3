"""A block that turns in the lathe, and work on a level dividing head: nothing overlaps, whatever the sizes."""

from __future__ import annotations

import random
import re

import pytest
from figure_solids import bar, block
from standing_setups import lying

from methodfigures.setups.cross.figure import draw_cross_setup
from methodfigures.setups.cross.spec import CrossSetup
from methodfigures.setups.plate.figure import draw_plate_setup
from methodfigures.setups.plate.spec import HOLDINGS, Clamp, PlateSetup
from methodtooling import fixtures

IDENTITY = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def plate(rng: random.Random, holding: str) -> PlateSetup:
    """A block of any size with a hole at any place of its middle half."""
    length, width, high = (rng.uniform(20, 120), rng.uniform(20, 120), rng.uniform(8, 50))
    x, y = length * rng.uniform(0.3, 0.7), width * rng.uniform(0.3, 0.7)
    d = rng.uniform(3, 0.4 * min(length, width))
    work, tool = block((0, 0, -high), (length, width, 0)), bar(d, -high - 1, 1, (x, y))
    sides = [Clamp(0, width / 2, (-1, 0)), Clamp(length, width / 2, (1, 0)),
             Clamp(length / 2, 0, (0, -1)), Clamp(length / 2, width, (0, 1))]  # fmt: skip
    return PlateSetup(
        (work.mesh(),), ((work - tool).mesh(),), ((work & tool).mesh(),), rng.choice(["drill", "bore", "ream"]),
        rotation=IDENTITY, origin=(0.0, 0.0, 0.0), size=(length, width, high), axis=(x, y), holding=holding,
        plate_radius=rng.choice([40.0, 75.0, 150.0]) + 0.5 * max(length, width), grip=0.5 * high, clamps=tuple(sides),
        weight=(rng.uniform(0, 360), 60.0, 120.0) if rng.random() < 0.6 else None, diameter=d, through=True,
        tool_name="8 mm drill", removed_text="cut away 5.8 cm³",
    )  # fmt: skip


def head(rng: random.Random) -> CrossSetup:
    """A round in a three-jaw chuck or a collet, with or without the tailstock; a keyway at any angle."""
    r, length = rng.uniform(5, 30), rng.uniform(50, 160)
    start, over, wide, deep = rng.uniform(5, 12), rng.uniform(8, 24), rng.uniform(2, 0.8 * r), 0.2 * r
    grip = (length - 15.0, length)
    work = bar(2 * r, 0, length)
    tool = block((r - deep, -wide / 2, start), (r + 2, wide / 2, start + over))
    make = rng.choice([fixtures.three_jaw, fixtures.collet])
    tail = fixtures.rotating_centre(min(2.0, 0.3 * r)) if rng.random() < 0.5 else ()
    return lying(
        work, tool, end_z=(0, length), verb="keyway", grip_diameter=2 * r, holding="head", grip=grip, start=start,
        end=start + over, width=wide, depth=deep, cutter_diameter=wide, holder_parts=make(r, grip), tail_parts=tail,
        centre_height=rng.choice([0.0, 65.0, 125.0]), tool_name="slot drill", removed_text="cut away 0.4 cm³",
        dimension_texts={"reading": "head reads 0°, 1 of 4"},
    )  # fmt: skip


@pytest.mark.parametrize("holding", HOLDINGS)
def test_a_block_in_the_lathe_has_no_clash(holding: str) -> None:
    found = {}
    for i in range(12):
        drawing = draw_plate_setup(plate(random.Random(f"{holding} {i}"), holding))
        if drawing.clashes:
            found[i] = drawing.clashes
    assert found == {}


def test_a_level_head_has_no_clash() -> None:
    found = {}
    for i in range(16):
        drawing = draw_cross_setup(head(random.Random(f"head {i}")))
        if drawing.clashes:
            found[i] = drawing.clashes
    assert found == {}


def test_the_weight_and_as_many_clamps_as_were_said_are_drawn() -> None:
    spec = plate(random.Random("weight 1"), "faceplate")
    with_it = {"weight": (30.0, 60.0, 120.0)}
    from dataclasses import replace

    drawn = draw_plate_setup(replace(spec, **with_it))  # type: ignore[arg-type]
    assert "balance weight 120 g" in drawn.svg
    assert "4 clamps" in drawn.description
    assert "balance weight" not in re.sub("<desc>.*?</desc>", "", draw_plate_setup(replace(spec, weight=None)).svg)
