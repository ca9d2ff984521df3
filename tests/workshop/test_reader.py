"""Is every slip in a workshop file told with its place and a remedy?"""

from __future__ import annotations

from pathlib import Path

import pytest

from methodsheets.reading.problem import Problems
from methodsheets.workshop.machines import HandFeed, StepFeeds, StepSpeeds, VariableFeeds, VariableSpeeds
from methodsheets.workshop.reader import parse_workshop, read_workshop, workshop_files

DEMO = Path(__file__).resolve().parents[2] / "methods" / "workshops"
USUAL = Path(__file__).resolve().parents[2] / "plugin" / "methodsheets" / "workshop" / "usual.yml"

LATHE = "machines:\n  lathe:\n    speeds: 100, 200 1/min\n"


def problems_of(text: str) -> list[str]:
    problems = Problems()
    parse_workshop(text, "shop.yml", problems)
    return [str(one) for one in problems]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (LATHE + "    dept: 3 mm\n", "shop.yml:4:5: unknown key `dept` of a machine; known are for instance `also called`"),
        (LATHE + "    spindle bor: 3 mm\n", "shop.yml:4:5: unknown key `spindle bor` of a machine; did you mean `spindle bore`?"),
        (LATHE + "    spindle bore: 20\n", "shop.yml:4:19: `spindle bore`: a bare number (got 20); every length, speed, power and time "
                                           "carries its unit; write `20 mm`"),
        (LATHE + "    power: 0.37\n", "shop.yml:4:12: `power`: a bare number (got 0.37); every length, speed, power and time "
                                      "carries its unit; write `0.37 kW`"),
        (LATHE + "    power: 0,37 kW\n", "shop.yml:4:12: `power`: unknown unit `,37 kW`; write decimals with a point: 0.5 mm"),
        (LATHE + "    spindle bore: 20 kW\n", "shop.yml:4:19: `spindle bore`: `kW` is no unit for this; write it in mm"),
        (LATHE + "    spindle bore: wide\n", "shop.yml:4:19: `spindle bore` is no number (got `wide`); write a number and its unit, "
                                             "e.g. `12 mm`"),
        (LATHE + "    spindle bore: 20 mmm\n", "shop.yml:4:19: `spindle bore`: unknown unit `mmm`; did you mean `mm`?"),
        (LATHE + "    spindle bore: 1/0 in\n", "shop.yml:4:19: `spindle bore`: a fraction with nothing below its line"),
        (LATHE + "    spindle bore: -3 mm\n", "shop.yml:4:19: `spindle bore` is -3 mm of a machine; it is at least 0 mm"),
        (LATHE + "    efficiency: 1.2\n", "shop.yml:4:17: `efficiency` is 1.2 of a machine; it is from 0.05 to 1"),
        (LATHE + "    duty: strong\n", "shop.yml:4:11: `strong` is no duty of a machine; known: `heavy`, `light`, `medium`"),
        (LATHE + "    coolant: perhaps\n", "shop.yml:4:14: `coolant` is neither yes nor no (got `perhaps`)"),
        (LATHE + "    dials:\n      cross slide: {per turn: 1 mm}\n",
         "shop.yml:5:7: the dial of the cross slide has no graduation; add `graduation: 0.02 mm`"),
        (LATHE + "    dials:\n      x: {graduation: 0.03 mm, per turn: 1 mm}\n",
         "shop.yml:5:32: one turn of the x is not a whole number of divisions; a dial goes round in whole divisions; look at `graduation` "
         "and `per turn` again"),
        (LATHE + "    change wheels: 20 mm, 30\n", "shop.yml:4:20: `change wheels`: `mm` is no unit for this; write it in 1"),
        ("machines:\n  lathe: {}\n", "shop.yml:2:3: the lathe has no spindle speeds; add `speeds: 200, 400, 800 1/min`"),
        ("machines:\n  lathe: {speeds: 0 1/min}\n", "shop.yml:2:11: a spindle speed of nought or less; spindle speeds lie above 0"),
        ("machines:\n  lathe: {speeds: 500 to 100 1/min}\n",
         "shop.yml:2:19: `speeds` runs from 500 1/min to 100 1/min; a range runs upwards"),
        ("workshop: X\n", "shop.yml:1:1: the workshop has no machine; a workshop lists its machines; add `machines:` with at least one"),
        (LATHE + "holding:\n  thing: {setting: 3 min}\n", "shop.yml:5:3: what sort of holding is `thing`?; each way of holding has a `kind`"),
        (LATHE + "holding:\n  v: {kind: vise-grip}\n", "shop.yml:5:13: `vise-grip` is no kind of a way of holding"),
        (LATHE + "holding:\n  c: {kind: collet, collet class: 3}\n", "shop.yml:5:35: `3` is no collet class of a way of holding"),
        (LATHE + "holding:\n  j: {kind: three-jaw, collet class: 2}\n",
         "shop.yml:5:3: `j` has a collet class and is no collet; classes are of collets"),
        (LATHE + "holding:\n  v: {kind: vice, goes on: mill}\n",
         "shop.yml:4:1: `v` goes on `mill`, which the workshop does not have; machines here: lathe"),
        (LATHE + "holding:\n  r: {kind: rotary-table, goes on: lathe, table: big}\n",
         "shop.yml:4:1: `r` is on the rotary table `big`, which is not listed; `table` names one under `dividing`"),
        (LATHE + "dividing:\n  r: {diameter: 100 mm}\n",
         "shop.yml:5:3: `r` has no ratio; a rotary table turns once for so many turns of its handle; add `ratio: 90`"),
        (LATHE + "tools:\n  thing: {width: 3 mm}\n", "shop.yml:5:3: what sort of tool is `thing`?; each tool has a `kind`"),
        (LATHE + "tools:\n  taps: {kind: tap, sizes: M6 M8}\n", "shop.yml:5:21: `M6 M8` is no thread that the tables know"),
        (LATHE + "tools:\n  d: {kind: drill, sizes: 1 to 13 mm by 0.0001 mm}\n",
         "shop.yml:5:20: `sizes` lists more than 2000 sizes; give a coarser step"),
        (LATHE + "units: furlongs\n", "shop.yml:4:8: `furlongs` is no units of a workshop; known: `inch`, `metric`"),
        (LATHE + "rates: 12 money\n", "shop.yml:4:1: `rates` holds no keys of its own (got `12 money`)"),
        (LATHE + "rates:\n  machines: {mill: 20 money}\n",
         "shop.yml:4:1: an hour at `mill` has a price, and the workshop has no such machine; machines here: lathe"),
        (LATHE + "rates:\n  materials: {mild steel: 3 money, mild stell: 3 money}\n",
         "shop.yml:5:48: `mild stell` is no material, so that its price changes nothing; a price stands under any name of the "
         "table of materials; did you mean mild steel"),
        (LATHE + "    spindle bore: {a: 1 mm}\n", "shop.yml:4:5: `spindle bore` holds keys of its own; `spindle bore` takes one line"),
        ("", "shop.yml:1:1: the workshop file is empty; a workshop lists what is there"),
        ("- a\n- b\n", "shop.yml:1:1: the workshop is not a list of `key: value` lines"),
        ("machines: &a {lathe: {speeds: 1 1/min}}\n", "the workshop holds an anchor (got &a)"),
        ("machines: !!python/object:os.system {}\n", "the workshop holds a tag"),
        ("machines:\n  lathe: {speeds: 1 1/min}\n  lathe: {speeds: 1 1/min}\n", "shop.yml:3:3: the key `lathe` is written twice"),
    ],
)  # fmt: skip
def test_slips(text: str, told: str) -> None:
    found = problems_of(text)
    assert any(told in line for line in found), found


def test_a_slip_does_not_hide_the_others() -> None:
    text = LATHE + "    power: 3\n    throat: 5 kg\n    nonsense: 1\nholding:\n  v: {kind: nothing}\n"
    assert len(problems_of(text)) == 4


def test_what_can_be_read_is_read() -> None:
    problems = Problems()
    shop = parse_workshop(LATHE + "    power: 3\n    spindle bore: 20 mm\n", "s.yml", problems)
    assert shop is not None
    assert shop.machines["lathe"].spindle_bore == 20
    assert shop.machines["lathe"].power == 0


@pytest.mark.parametrize(
    ("said", "speeds"),
    [
        ("100, 200, 50 1/min", StepSpeeds((50.0, 100.0, 200.0))),
        ("100 1/min, 100 1/min", StepSpeeds((100.0,))),
        ("100 rpm", StepSpeeds((100.0,))),
        ("50 to 500 1/min", VariableSpeeds(((50.0, 500.0),))),
        ("50 to 500, 150 to 2000 1/min", VariableSpeeds(((50.0, 500.0), (150.0, 2000.0)))),
        ("[100 1/min, 200 1/min]", StepSpeeds((100.0, 200.0))),
    ],
)
def test_speeds(said: str, speeds: object) -> None:
    problems = Problems()
    shop = parse_workshop(f"machines:\n  lathe:\n    speeds: {said}\n", "s.yml", problems)
    assert [str(one) for one in problems] == []
    assert shop is not None
    assert shop.machines["lathe"].speeds == speeds


@pytest.mark.parametrize(
    ("said", "feeds"),
    [
        ("hand", HandFeed()),
        ("0.05, 0.1 mm/rev", StepFeeds((0.05, 0.1))),
        ("2 thou", StepFeeds((0.0508,))),
        ("15 to 400 mm/min", VariableFeeds(15.0, 400.0, "min")),
        ("20, 40 mm/min", StepFeeds((20.0, 40.0), "min")),
    ],
)
def test_feeds(said: str, feeds: object) -> None:
    problems = Problems()
    shop = parse_workshop(f"machines:\n  mill:\n    speeds: 100 1/min\n    feeds: {said}\n", "s.yml", problems)
    assert [str(one) for one in problems] == []
    assert shop is not None
    assert shop.machines["mill"].feeds == feeds


def test_inch_sizes() -> None:
    text = (
        LATHE
        + """    spindle bore: 19/32 in
    swing over bed: 3 1/2 in
    power: 0.5 hp
tools:
  d: {kind: drill, sizes: 1/16, 1/8, 1/4 in}
  n: {kind: drill, sizes: number drills}
"""
    )
    problems = Problems()
    shop = parse_workshop(
        text.replace("{kind: drill, sizes: 1/16, 1/8, 1/4 in}", '{kind: drill, sizes: "1/16, 1/8, 1/4 in"}'),
        "s",
        problems,
    )
    assert [str(one) for one in problems] == []
    assert shop is not None
    lathe = shop.machines["lathe"]
    assert lathe.spindle_bore == pytest.approx(15.08125)
    assert lathe.swing_over_bed == pytest.approx(88.9)
    assert lathe.power == pytest.approx(372.85, abs=0.01)  # 1 hp = 550 ft·lbf/s = 745.7 W
    quarter = shop.tool("drill", 6.35)
    assert quarter is not None
    assert quarter.diameter == pytest.approx(6.35)
    # No. 43 is 0.0890 in, by the usual table of number drills (from memory)
    number = shop.tool("No. 43 drill")
    assert number is not None
    assert number.diameter == pytest.approx(0.0890 * 25.4, abs=1e-4)


def test_the_demo_workshops_have_no_problems_and_differ_visibly() -> None:
    problems = Problems()
    read = (read_workshop(path, DEMO.parent, problems) for path in workshop_files(DEMO))
    shops = {shop.key: shop for shop in read if shop is not None}
    assert [str(one) for one in problems] == []
    assert {"osierbank-small", "osierbank-large"} <= set(shops)
    small, large = (shops[f"osierbank-{size}"].machines["lathe"] for size in ("small", "large"))
    assert isinstance(small.speeds, StepSpeeds)
    assert isinstance(large.speeds, VariableSpeeds)
    assert large.power > 3 * small.power
    assert large.spindle_bore > small.spindle_bore
    assert small.dials["cross slide"].reads == "radius"
    assert large.dials["cross slide"].reads == "diameter"
    assert shops["osierbank-inch"].machines["lathe"].dials["cross slide"].unit == "in"
    assert {next(iter(shop.rotary_tables.values())).ratio for shop in shops.values() if shop.rotary_tables} == {72, 90}


def test_the_usual_workshop_has_no_problems() -> None:
    problems = Problems()
    assert read_workshop(USUAL, USUAL.parent, problems) is not None
    assert [str(one) for one in problems] == []


def test_files_of_a_folder(tmp_path: Path) -> None:
    (tmp_path / "b.yml").write_text(LATHE)
    (tmp_path / "a.yaml").write_text(LATHE)
    (tmp_path / "c.txt").write_text("no")
    assert [file.name for file in workshop_files(tmp_path)] == ["a.yaml", "b.yml"]
    assert workshop_files(tmp_path / "nowhere") == ()


def test_a_file_that_is_no_text(tmp_path: Path) -> None:
    file = tmp_path / "x.yml"
    file.write_bytes(b"workshop: \xff\xfe\n")
    problems = Problems()
    assert read_workshop(file, tmp_path, problems) is None
    assert "not UTF-8" in str(next(iter(problems)))


def test_the_digest_is_that_of_the_bytes(tmp_path: Path) -> None:
    file = tmp_path / "x.yml"
    file.write_text(LATHE)
    one = read_workshop(file, tmp_path, Problems())
    file.write_text(LATHE + "# a remark\n")
    other = read_workshop(file, tmp_path, Problems())
    assert one is not None
    assert other is not None
    assert one.digest != other.digest
    assert one.machines == other.machines
