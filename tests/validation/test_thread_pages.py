"""Do threads, tapping drills and wires agree with published tables and texts?"""

from __future__ import annotations

import re

import pytest

from methodsheets.trade.threads.drills import drill, nearest_drill
from methodsheets.trade.threads.tapping import drill_for_thread, thread_engagement
from methodsheets.trade.threads.thread_limits import thread_limits
from methodsheets.trade.threads.thread_measuring import effective_from_wires, over_wires, thread_over_wires
from methodsheets.trade.threads.threads import Thread, thread

from .cases import INCH, Case, case, cases
from .units import agree, ours, parts

THREADS, DRILLS, WIRES = "Threads", "Tapping drills", "Thread over wires"
COARSE = tuple(cases("cutting", "ISO metric coarse"))
FINE = tuple(cases("cutting", "ISO metric fine"))
FINE_DRILLS = tuple(cases("cutting", "tapping drill metric fine"))
UNIFIED = (*cases("cutting", "UNC basic"), *cases("cutting", "UNF basic"))
WHITWORTH = tuple(cases("cutting", "BSW"))
BA = tuple(cases("cutting", "BA thread"))
BA_DRILLS = tuple(cases("cutting", "BA tapping drill"))
MODEL = tuple(cases("cutting", "model-engineer thread"))
PERCENTAGES = tuple(cases("cutting", "tap drill percentage"))
NUMBERS = {0.06: "0", 0.073: "1", 0.086: "2", 0.099: "3", 0.112: "4", 0.164: "8", 0.19: "10"}


def named(entry: Case, system: str) -> Thread:
    """Return the thread of a case by the name people type: size, pitch and system."""
    size = entry.name.split("-", 1)[1]
    return thread(
        f"{size.rpartition('-')[0].replace('_', '/') or size.replace('_', '/')}-{entry.inputs['TPI']} {system}"
    )


@pytest.mark.parametrize("entry", COARSE, ids=lambda entry: entry.name)
def test_iso_coarse(entry: Case) -> None:
    found = thread(f"M{parts(entry.inputs['D'])[0]:g}")
    assert found.pitch == pytest.approx(ours(entry.inputs["P"]))
    for key, value in (
        ("d2", found.effective),
        ("d3", found.core),
        ("D1", found.minor),
        ("tap_drill", found.tap_drill),
    ):
        agree(entry, THREADS, key, value)
    share = 100 * thread_engagement(found.name, found.tap_drill, "iso")
    assert share == pytest.approx(parts(entry.expected["engagement_D1"])[0], abs=0.1)


@pytest.mark.parametrize("entry", FINE, ids=lambda entry: entry.name)
def test_iso_fine(entry: Case) -> None:
    found = thread(f"M{parts(entry.inputs['D'])[0]:g} x {parts(entry.inputs['P'])[0]:g}")
    for key, value in (("d2", found.effective), ("d3", found.core), ("D1", found.minor)):
        agree(entry, THREADS, key, value)


@pytest.mark.copied
@pytest.mark.parametrize("entry", FINE_DRILLS, ids=lambda entry: entry.name)
def test_iso_fine_tapping_drills(entry: Case) -> None:
    found = thread(f"M{parts(entry.inputs['D'])[0]:g}x{parts(entry.inputs['P'])[0]:g}")
    agree(entry, DRILLS, "tap_drill", found.tap_drill)


@pytest.mark.parametrize("entry", UNIFIED, ids=lambda entry: entry.name)
def test_unified(entry: Case) -> None:
    found = named(entry, entry.name[:3].upper())
    for key, value in (("d2", found.effective), ("d3_unr", found.core), ("D1", found.minor)):
        agree(entry, THREADS, key, value)


@pytest.mark.parametrize("entry", WHITWORTH, ids=lambda entry: entry.name)
def test_whitworth(entry: Case) -> None:
    found = thread(f"{entry.name.removeprefix('bsw-').replace('_', '/')} BSW")
    assert found.tpi == pytest.approx(entry.inputs["TPI"])
    agree(entry, THREADS, "effective", found.effective)
    agree(entry, THREADS, "core", found.core)
    assert found.tap_drill == pytest.approx(ours(entry.expected["tap_drill"]), abs=0.05)


@pytest.mark.parametrize("entry", BA, ids=lambda entry: entry.name)
def test_ba(entry: Case) -> None:
    found = thread(f"{entry.inputs['number']}BA")
    agree(entry, THREADS, "D", found.major)
    agree(entry, THREADS, "P", found.pitch)
    agree(entry, THREADS, "D_inch", found.major)
    if "core_page" in entry.expected:
        agree(entry, THREADS, "core_page", found.core)
    assert drill(found.tap_drill_inch) == drill(entry.expected["tap_drill_ibls"])


@pytest.mark.parametrize("number", [*range(11), 12])
def test_ba_rule(number: int) -> None:
    """BS 93 as given on published pages: P = 0.9^k and D = 6 P^1.2, two figures each; depth 0.6 P."""
    found = thread(f"{number} BA")
    pitch = float(f"{0.9**number:.2g}")
    assert found.pitch == pytest.approx(pitch)
    assert found.major == pytest.approx(float(f"{6 * pitch**1.2:.2g}"))
    assert found.core == pytest.approx(found.major - 1.2 * pitch)


@pytest.mark.parametrize("entry", BA_DRILLS, ids=lambda entry: entry.name)
def test_ba_tapping_drills(entry: Case) -> None:
    found = thread(f"{entry.name.removeprefix('ba-drill-')} BA")
    assert found.tap_drill == pytest.approx(ours(entry.expected["tap_drill"]))
    figure = parts(entry.expected["engagement"])[0]
    entry.check(DRILLS, "engagement", 100 * thread_engagement(found.name, found.tap_drill), figure)


@pytest.mark.parametrize("entry", MODEL, ids=lambda entry: entry.name)
def test_model_engineers_threads(entry: Case) -> None:
    found = thread(f"{entry.name.removeprefix('me-').replace('_', '/')} ME")
    assert found.major == pytest.approx(ours(entry.inputs["D"]))
    for key, value in (("effective", found.effective), ("core", found.core)):
        assert value == pytest.approx(ours(entry.expected[key]), abs=0.0001 * INCH)
    listed = drill(entry.expected["tap_drill"].split(" = ")[0])
    figure = parts(entry.expected["engagement"])[0]
    entry.check(DRILLS, "engagement", 100 * thread_engagement(found.name, listed.diameter), figure)


@pytest.mark.parametrize("entry", PERCENTAGES, ids=lambda entry: entry.name)
def test_percentage_by_the_inch_definition(entry: Case) -> None:
    major, pitch = parts(entry.inputs["D"])[0], entry.inputs["TPI"]
    share = thread_engagement(f"{NUMBERS[major]}-{pitch}", ours(entry.inputs["drill"]), "inch")
    entry.check(DRILLS, "percent", 100 * share, parts(entry.expected["percent"])[0])


@pytest.mark.parametrize(
    ("name", "size"), [("tap-75-1_4", "1/4-20"), ("tap-50-1_4", "1/4-20"), ("tap-75-10-32", "10-32")]
)
def test_drill_for_a_percentage(name: str, size: str) -> None:
    entry = case("cutting", name)
    found = drill_for_thread(size, entry.inputs["percent"] / 100, "inch", "inch")
    agree(entry, DRILLS, "drill", found.wanted)
    nearest = drill(entry.expected["nearest"].split(" = ")[0])
    assert nearest_drill(found.wanted, nearest.system).name == nearest.name


def test_three_definitions_of_one_hole() -> None:
    entry = case("cutting", "tap-M6-uk")
    shares = [100 * thread_engagement("M6", 5.0, word) for word in ("inch", "iso", "british")]
    assert [round(share) for share in shares] == [77, 92, 82]
    entry.check(DRILLS, "percent", shares[2], parts(entry.expected["percent"])[0])
    assert thread("M6").core == pytest.approx(ours(entry.expected["full_drill"]), abs=0.01)


def test_three_wires() -> None:
    entry = case("cutting", "3w-01")
    check = thread_over_wires("7/16-14 UNC", wire=ours(entry.inputs["W"]))
    for key, value in (
        ("M", check.over),
        ("best_wire", check.best_wire),
        ("max_wire", check.greatest_wire),
        ("min_wire", check.least_wire),
    ):
        agree(entry, WIRES, key, value)
    agree(case("cutting", "3w-02"), WIRES, "M", thread_over_wires("1 1/2-6 UNC", wire=0.140 * INCH).over)
    special = thread_over_wires("1/2-12 UNS", wire=0.04811 * INCH)
    agree(case("cutting", "3w-03"), WIRES, "M", special.over)
    agree(case("cutting", "3w-03"), WIRES, "best_wire", special.best_wire)
    agree(case("cutting", "3w-06"), WIRES, "M", thread_over_wires("M10", wire=0.866).over)


def test_the_window_of_a_quarter_inch_screw() -> None:
    entry = case("cutting", "3w-07")
    wire, pitch = ours(entry.inputs["W"]), ours(entry.inputs["P"])
    limits = thread_limits("1/4-20 UNC", "2A")
    assert limits.effective_min / INCH == pytest.approx(0.2127, abs=0.0001)
    assert limits.effective_max / INCH == pytest.approx(0.2164, abs=0.0001)
    for key, effective in (("M_min", ours(entry.inputs["E_min"])), ("M_max", ours(entry.inputs["E_max"]))):
        over = over_wires(effective, pitch, wire)
        agree(entry, WIRES, key, over)
        assert effective_from_wires(over, pitch, wire) == pytest.approx(effective)


@pytest.mark.parametrize(
    ("angle", "wires", "pitch", "best"),
    [(60.0, 3.0, 0.86603, 0.57735), (55.0, 3.1657, 0.9605, 0.5637), (47.5, 3.4829, 1.1363, 0.5464)],
)
def test_constants_of_the_wire_formula(angle: float, wires: float, pitch: float, best: float) -> None:
    """60 and 55 degrees: a 1914 text (read); 47.5: derived. Misprint 5: a web page uses the 60 degree ones."""
    assert over_wires(10, 1e-9, 1, angle) - 10 == pytest.approx(wires, abs=1e-4)
    assert 10 + wires - over_wires(10, 1, 1, angle) == pytest.approx(pitch, abs=2e-4)
    name = {60.0: "M6", 55.0: "1/4 BSW", 47.5: "2BA"}[angle]
    assert thread(name).best_wire / thread(name).pitch == pytest.approx(best, abs=2e-4)


def test_misprints_are_not_repeated() -> None:
    """Misprints 6 to 11 and 16 of published pages."""
    assert thread("2BA").major == pytest.approx(4.7)  # 6: 6 P^1.2, not 6 P
    assert thread("2BA").major != pytest.approx(6 * thread("2BA").pitch, abs=0.1)
    assert thread("2BA").pitch == pytest.approx(0.81)  # the square of 0.9, not its root
    assert thread_engagement("3/8-32 ME", drill("Q").diameter) > 1.0  # 7: Q is below the core
    assert thread("3/8-32 ME").tap_drill > thread("3/8-32 ME").core
    assert thread("3/4-16 UNF").core / INCH == pytest.approx(0.6756, abs=0.0001)  # 8: printed .6763
    assert thread("1-12 UNF").core / INCH == pytest.approx(0.9008, abs=0.0001)  # printed .9001
    assert thread("M8").minor == pytest.approx(6.647, abs=0.001)  # 9: 6.917 is M8x1
    assert thread("M9x1").tap_drill == pytest.approx(8.0)
    assert thread("1/8 BSW").core / INCH == pytest.approx(0.0930, abs=0.0001)  # 10: printed .0903
    assert thread("5/16 BSW").depth / INCH == pytest.approx(0.0356, abs=0.0001)  # printed .0076
    assert drill("#46").diameter / INCH == pytest.approx(0.0810)  # 11: printed .0801
    assert 100 * thread_engagement("0-80", 1.25, "inch") == pytest.approx(66.5, abs=0.3)  # printed 68
    assert 100 * thread_engagement("1-64", 1.45, "inch") == pytest.approx(78.4, abs=0.3)  # printed 77
    assert thread("1/2 UNC").tpi == pytest.approx(13)  # 16: a text calls 1/2-12 UNC


def test_no_standard_thread_is_left_out_of_the_forms() -> None:
    from methodsheets.trade.threads.thread_names import FORMS, standard_threads

    for size in standard_threads():
        assert size.system in FORMS
        found = thread(size.name)
        assert found.name == size.name or re.fullmatch(r"M[\d.]+x.*", size.name), (found.name, size.name)
        assert 0 < found.core <= found.minor < found.effective < found.major
        assert found.minor - 0.35 * found.pitch < found.tap_drill < found.major
