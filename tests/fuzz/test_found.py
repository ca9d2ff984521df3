"""What the long runs of the fuzzers found, once each; it stays mended."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.drawings.drawing_room import draw_method
from methodsheets.handbook.work import PASSING
from methodsheets.method import metal, part_block
from methodsheets.method.evaluate import evaluate_method
from methodsheets.reading.limits import FACETS, PASSES, Limit
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.mishap import CODE
from methodsheets.reading.problem import Problems
from methodsheets.workshop.reader import read_workshop
from methodtooling.tools import twist_drill

from .cases import WORKSHOPS, outcome, scope, shop

TURNED = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")
VICE = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
HOUSING = Path("tests/methods/vice-block.md").read_text("utf-8")


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("drill: 200 mm, through, places (25 mm, 20 mm)", "nothing of the work would be left"),
        ("drill: 99999999 mm, through, places (45 mm, 20 mm)", "out of reach"),
        ("slot: wide 1e9 mm, deep 5 mm, along width", "out of reach"),
    ],
)
def test_an_operation_that_cannot_be_is_a_problem_of_its_line(line: str, said: str) -> None:
    spoilt = HOUSING.replace(
        "drill: 5 mm, deep 14 mm, places (45 mm, 20 mm)\n```\n\n```op\ntap", f"{line}\n```\n\n```op\ntap"
    )
    assert spoilt != HOUSING
    problems = [str(one) for one in work_out(spoilt).live.problems]
    assert any(said in one for one in problems), problems


CONES = (
    ("countersink: 12 mm, angle {}", TURNED),
    ("drill: 8 mm, deep 5 mm, point {}", TURNED),
    ("cross-drill: 4 mm, deep 5 mm, from face 10 mm, point {}", TURNED),
    ("vee: wide 5 mm, along length, angle {}", VICE),
)


@pytest.mark.parametrize("angle", ["0 deg", "-30 deg", "360 deg"])
@pytest.mark.parametrize(("line", "table"), CONES, ids=[line.partition(":")[0] for line, _ in CONES])
def test_a_cone_has_an_angle(line: str, table: str, angle: str) -> None:
    """A countersink of 0 degrees was a division by zero; so were a drill's point and a vee."""
    stock = "round 40 mm x 60 mm" if table == TURNED else "plate 60 mm x 40 mm x 25 mm"
    said = [str(one) for one in work_out(method(table + block("op", line.format(angle)), stock=stock)).live.problems]
    assert ["stands between" in one for one in said] == [True], said


CHUCK = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")


def test_a_hair_of_a_drill_is_not_drawn_out_forty_thousand_times() -> None:
    """It took 1.3 s and 40,000 values: once for the depths and once for the flutes of the picture."""
    made = work_out(method(CHUCK + block("op", "drill: 0.001 mm, deep 20 mm")))
    assert any(f"more than {PASSES:,} times" in str(one) for one in made.live.problems)
    assert len(twist_drill(0.01, 30.0)[0].detail) < 10 < len(twist_drill(2.0, 30.0)[0].detail)


@pytest.mark.parametrize(
    ("feature", "said"),
    [
        ("chamfer: 0 mm", "more than nothing"),
        ("round: 1e9 mm, over 1 mm", "out of reach"),
        ("drill: 0.3 mm, deep 3 mm, on circle 30 mm, divide 400", f"at most {FACETS:,}"),
    ],
)
def test_the_features_of_a_part_keep_the_rules_of_operations(feature: str, said: str) -> None:
    part = block("part", "- round: 40 mm, over 60 mm", f"- {feature}")
    made = work_out(method(part + CHUCK + block("op", "face: 1 mm")))
    assert [one.place.line for one in made.live.problems if said in str(one)] == [10]


def test_features_are_counted_together(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(part_block, "FACETS_IN_ALL", Limit(2000, "facets", "", "all would have"))
    planned: list[str] = []
    real = part_block._cut
    monkeypatch.setattr(part_block, "_cut", lambda *given: planned.append(given[1]) or real(*given))
    part = block("part", "- round: 40 mm, over 60 mm", *["- drill: 5 mm, deep 3 mm, on circle 20 mm, divide 6"] * 9)
    made = work_out(method(part + CHUCK + block("op", "face: 1 mm")))
    assert {one.code for one in made.live.problems} >= {"too-much"}
    assert len(planned) < 4  # what comes after is not planned any more: that is what takes long


def test_cuts_that_meet_are_counted_together(monkeypatch: pytest.MonkeyPatch) -> None:
    """127 holes that all met at the axis took ten seconds, and there might have been 200 such operations."""
    monkeypatch.setattr(metal, "OVERLAPS", Limit(8, "pairs", "", "too many cuts meet"))
    holes = "cross-drill: 3 mm, from face 5 mm, divide 4"
    text = block("part", "- round: 40 mm, over 60 mm", f"- {holes}") + CHUCK + block("op", holes)
    told = [one for one in work_out(method(text)).live.problems if one.code == "too-much"]
    assert ["6 pairs, and 6 before it" in one.what for one in told] == [True]


def test_a_set_up_that_cannot_grip_is_told_and_the_pictures_do_not_fail() -> None:
    hold = "hold: three-jaw chuck, on 40 mm, grip 15 mm, stick-out 62 mm, end A out"
    made = work_out(method(block("setup", "machine: lathe", hold) + block("op", "face: 0.5 mm")))
    draw_method(made)
    assert not [one for one in made.live.problems if one.code in PASSING]


DOORS = {
    "a set-up": "methodsheets.method.evaluate._begin_setup",
    "an operation": "methodsheets.method.carrying_out.cut_metal",
    "a feature": "methodsheets.method.part_block._about_axis",
}


@pytest.mark.parametrize("door", DOORS)
def test_what_fails_in_one_block_is_told_at_its_line_and_the_rest_is_worked_out(
    door: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    failed: list[str] = []
    module, _, name = DOORS[door].rpartition(".")
    real = getattr(__import__(module, fromlist=[name]), name)

    def planted(*given: Any) -> Any:
        if not failed:
            failed.append(name)
            raise KeyError("nobody foresaw this")
        return real(*given)

    monkeypatch.setattr(f"{module}.{name}", planted)
    part = block("part", "- round: 40 mm, over 60 mm")
    made = work_out(method(part + (CHUCK + block("op", "face: 0.5 mm")) * 2))
    told = [one for one in made.live.problems if one.code == CODE]
    assert len(told) == 1
    assert told[0].place.line > 1
    assert "nobody foresaw" in told[0].what
    assert made.method.setups[-1].operations


@pytest.mark.parametrize(
    "written",
    ["table_positions(1e20 %)", "differential_indexing(1e30)", "compound_indexing(0.001)", "peck_depths(1e20 um, 1 m)"],
)
def test_a_calculation_that_would_never_end_is_refused(written: str) -> None:
    assert outcome(written, scope()) not in ("", "crash")


@pytest.mark.parametrize("name", ["M400 x 1.5", "M12.5 x 1.5", "M10 x 1.5", "M0", "M99999"])
def test_a_thread_whose_coarse_one_is_in_no_table_can_be_found(name: str) -> None:
    """What a method is found as was asked of the table of threads without asking whether the thread is there."""
    made = work_out(method(CHUCK + block("op", f"thread: {name}, over 10 mm")))
    assert name.replace(" ", "") in made.method.found_as
    assert not [one for one in made.live.problems if one.code in PASSING]


@pytest.mark.parametrize("wide", ["0.001 mm", "0.0401 mm"])
def test_a_gap_of_next_to_no_width_is_looked_into_or_told(wide: str) -> None:
    bench = block("setup", "machine: bench", "hold: bench vice, on 40 mm, grip 15 mm, end A out")
    pin = block("op", "drill: 8 mm, deep 20 mm, on radius 12 mm, at 0 deg")
    pin += block("op", "pin: 8 mm, long 20 mm, on radius 12 mm, at 0 deg")
    made = work_out(method(CHUCK + pin + bench + block("op", f"saw out: from 5 mm, wide {wide}, keep pin")))
    assert made.method.setups[-1].operations
    assert not [str(one) for one in made.live.problems if one.code in PASSING]


LONG = "9" * 5000
OF_THE_ATTACK = {
    "no size of a casting": ("stock: round 40 mm x 60 mm", "stock: casting 1/0 mm"),
    "no size of a bar": ("stock: round 40 mm x 60 mm", "stock: round 1/0 mm x 60 mm"),
    "a bar without end": ("stock: round 40 mm x 60 mm", "stock: round 1e999 mm x 60 mm"),
    "sizes of thousands of digits": ("stock: round 40 mm x 60 mm", f"stock: round {LONG} mm x {LONG} mm"),
    "a part of a long name": ("material: EN1A", f"material: EN1A\npart: {'p' * 300}"),
    "a part of no letter": ("material: EN1A", 'material: EN1A\npart: "a\\0b"'),
    "parts without end": ("material: EN1A", f"material: EN1A\nmakes: {LONG}"),
    "a time of thousands of digits": ("face: 1 mm", f"face: 1 mm\ntime: {LONG} min"),
    "a time without end": ("face: 1 mm", "face: 1 mm\ntime: 1e999 min"),
    "cuts of nothing": ("face: 1 mm", "turn: to 20 mm, over 20 mm\ndepth: 1e-9 mm"),
    "a speed without end": ("face: 1 mm", "face: 1 mm\nspeed: 1e999 1/min"),
    "four circles of holes": ("face: 1 mm\n```", "drill: 1 mm, deep 5 mm, on circle 30 mm, divide 400\n```\n" * 4),
    "lists that double": ("```setup", "```calc\na = [1, 1]\n" + "".join(f"{b} = [{a}, {a}, {a}]\n" for a, b in zip(
        "abcdefghijklmnopq", "bcdefghijklmnopqr", strict=True)) + "```\n\n```setup"),
}  # fmt: skip


@pytest.mark.parametrize("name", OF_THE_ATTACK)
def test_what_took_a_build_down_is_told_of_its_file(name: str) -> None:
    """Each of them ended the build, or held it for a minute, before there were doors and limits."""
    before, after = OF_THE_ATTACK[name]
    text = method(CHUCK + block("op", "face: 1 mm"))
    assert before in text
    problems = Problems()
    found = parse_method(text.replace(before, after), "bush.md", problems)
    if found is not None:
        problems = evaluate_method(found, shop(), lambda slug: None, problems).live.problems
    assert [str(one) for one in problems if one.code in PASSING] == []
    assert [one.place.path for one in problems if name != "a part of a long name"][:1] in ([], ["bush.md"])
    assert all(len(str(one)) < 1000 for one in problems)


@pytest.mark.parametrize("number", ["1e999", "-1", "0", "1/0", "nan"])
def test_no_number_of_a_workshop_takes_it_down(number: str, tmp_path: Path) -> None:
    """Every number of the demo's workshops is exchanged: circles of 0 holes, ratios and flutes without end."""
    text = method(CHUCK + block("op", "drill: 8 mm, deep 20 mm, on circle 20 mm, divide 7"))
    for key, whole in enumerate(WORKSHOPS):
        (tmp_path / f"{key}.yml").write_text(re.sub(r"(?<=[ {\[])\d+(?:\.\d+)?(?=[ ,\n}\]])", number, whole), "utf-8")
        problems = Problems()
        spoilt = read_workshop(tmp_path / f"{key}.yml", tmp_path, problems, "shop.yml")
        assert len(problems)
        found = parse_method(text, "bush.md", problems)
        if spoilt is not None and found is not None:
            problems = evaluate_method(found, spoilt, lambda slug: None, problems).live.problems
        assert [str(one) for one in problems if one.code in PASSING] == []
