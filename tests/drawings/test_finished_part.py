"""Does the drawing of the finished part say what the method says, and has it what a drawing office puts on it?"""

from __future__ import annotations

import random
import re
from dataclasses import replace

import pytest
from tests.method.bench import demo, method, work_out
from tests.method.test_planted_faults import ALL, home

from methodfigures.part import PartDrawing, compose_part
from methodfigures.part.spec import Cutting, Side
from methodfigures.solids.views import ViewBook
from methodsheets.drawings.finished import part_spec
from methodsheets.drawings.solids import Drawn


def drawing_of(text: str, workshop: str = "osierbank-small", slug: str = "sample") -> PartDrawing:
    found = part_spec(Drawn(), work_out(text, workshop, slug).live)
    assert found is not None
    return found


def words_on(spec: PartDrawing) -> list[str]:
    views = [v for v in (spec.front, spec.beside_left, spec.beside_right, spec.below) if v]
    return [one.text for v in views for one in v.sizes] + [one.words for v in views for one in v.callouts]


@pytest.mark.parametrize("slug", ALL)
def test_every_size_on_it_is_a_size_of_the_solid(slug: str) -> None:
    """Each dimension text is the distance of its two points, to the rounding of the sheet."""
    spec = drawing_of(demo(slug), home(slug), slug)
    for view in (spec.front, spec.beside_left, spec.beside_right, spec.below):
        for size in view.sizes if view else ():
            said = float(re.search(r"[\d.]+", size.text)[0])
            apart = [abs(a - b) for a, b in zip(size.first, size.second, strict=True)]
            if size.text.startswith("Ø") or (size.side in (Side.LEFT, Side.RIGHT) and spec.below is None):
                assert sum(a * a for a in apart) ** 0.5 == pytest.approx(said, abs=1e-3), size
            else:
                assert any(a == pytest.approx(said, abs=1e-3) for a in apart), size


@pytest.mark.parametrize("slug", ALL)
def test_every_toleranced_size_stands_in_the_table(slug: str) -> None:
    evaluated = work_out(demo(slug), home(slug), slug)
    spec = part_spec(Drawn(), evaluated.live)
    asked = {
        (round(limit.upper.value, 3), round(limit.lower.value, 3))
        for operation in evaluated.method.operations
        for limit in operation.limits
        if limit.has_limits and not limit.fit.startswith("ISO 2768")
    }
    shown = {(float(row.upper), float(row.lower)) for row in spec.limits}
    assert asked == shown or len(spec.limits) == 7


def test_the_bush_is_half_in_section_with_its_fits() -> None:
    spec = drawing_of(demo("guide-bush"), home("guide-bush"), "guide-bush")
    assert spec.front.cutting is Cutting.HALF
    assert {"Ø24 p6", "Ø28", "22", "26", "Ø16 H7 through", "1 × 45°", "0.5 × 45° (2 places)"} <= set(words_on(spec))
    assert spec.beside_left is None


def test_solid_work_is_not_cut_and_its_ends_are_shown() -> None:
    spec = drawing_of(demo("eccentric-one-piece"), home("eccentric-one-piece"), "eccentric-one-piece")
    assert spec.front.cutting is Cutting.NONE
    said = words_on(spec)
    assert "Ø10 through on R17.5 at 0°" in said
    assert "2 × Ø10 through on R15.5 at −45° and 45°" in said
    assert "flat 8.5 from the axis at −40° and 40°" in said
    assert "R0.6" in said
    assert "ISO 6411-A2/4.25" in said


def test_equal_holes_on_a_circle_are_one_note() -> None:
    spec = drawing_of(demo("handwheel-flange"), home("handwheel-flange"), "handwheel-flange")
    assert "6 × Ø5.5 through on Ø42" in words_on(spec)
    assert spec.front.cutting is Cutting.FULL


def test_a_tapped_hole_has_its_thread_and_its_drill() -> None:
    spec = drawing_of(demo("clamp-block"), home("clamp-block"), "clamp-block")
    assert "M6 × 12, drill Ø5 × 14 deep" in words_on(spec)
    assert spec.below is not None
    assert [thread.major for thread in spec.below.threads] == [6.0]


def test_an_assembly_names_its_bodies_and_leaves_the_shaft_whole() -> None:
    spec = drawing_of(demo("eccentric-two-piece"), home("eccentric-two-piece"), "eccentric-two-piece")
    assert spec.front.cutting is Cutting.FULL
    assert {"1 spindle", "2 disc", "3 pin"} <= set(words_on(spec))
    assert {spec.names[i] for i in spec.uncut} >= {"spindle", "pin"}


def test_many_holes_become_a_table() -> None:
    places = ", ".join(f"({6 + 11 * i} mm, {8 + 3 * i} mm)" for i in range(6))
    spec = drawing_of(
        method(
            "```setup\nmachine: mill\nhold: machine vice, up top, towards front, grip 6 mm\n```\n\n"
            f"```op\ndrill: 4 mm, deep 8 mm, places {places}\n```\n",
            stock="flat 40 mm x 20 mm x 80 mm",
        )
    )
    assert spec.holes[0] == ("Hole", "X", "Y", "Size")
    assert len(spec.holes) == 7
    assert spec.holes[1][3] == "Ø4 × 8 deep"


def steps_of(seed: int) -> str:
    """A turned part with random steps, chamfers, grooves and a bore."""
    rng = random.Random(seed)
    wide, long = rng.choice([12.0, 25.0, 40.0, 60.0]), rng.choice([15.0, 40.0, 90.0, 140.0])
    lines = [f"face: 0.5 mm\n```\n\n```op\nturn: to {wide - 1:g} mm, over {0.6 * long:g} mm"]
    for share, length in ((0.8, 0.45), (0.6, 0.3), (0.45, 0.12)):
        if rng.random() < 0.7:
            lines.append(f"turn: to {round(share * wide, 1):g} mm, over {round(length * long, 1):g} mm")
    if rng.random() < 0.5:
        lines.append(f"drill: {round(0.2 * wide, 1):g} mm, deep {round(0.3 * long, 1):g} mm")
    if rng.random() < 0.6:
        lines.append("chamfer: 0.5 mm")
    blocks = "\n\n".join(f"```op\n{line}\n```" for line in lines)
    hold = f"hold: three-jaw chuck, on {wide:g} mm, grip {round(0.25 * long, 1):g} mm, end A out"
    return method(f"```setup\nmachine: lathe\n{hold}\n```\n\n{blocks}\n", stock=f"round {wide:g} mm x {long:g} mm")


@pytest.mark.parametrize("seed", range(12))
def test_nothing_lies_over_anything_on_random_parts(seed: int) -> None:
    from methodfigures.solids.views import ViewBook

    assert compose_part(drawing_of(steps_of(seed)), ViewBook()).clashes() == ()


def test_a_long_name_takes_two_lines_of_the_title_block() -> None:
    evaluated = work_out(demo("tee-nuts"), home("tee-nuts"), "tee-nuts")
    spec = part_spec(Drawn(), evaluated.live, narrow=True)
    assert spec is not None
    name = "Shaft with four keyways, between chuck and tailstock on the level rotary table"
    sheet = compose_part(replace(spec, block=(("Part", name), *spec.block[1:])), ViewBook())
    assert sheet.clashes() == ()
    written = [text.text for text in sheet.register.texts]
    assert all(any(word in line.split() for line in written) for word in name.split())
