"""Does the work have what its part asks for and no solid shows: knurl, hardness, colour, finish? Asked for and not made,
and made otherwise, is found, on the line that is to blame.

Ra of a turned surface from feed and nose radius is f²/(32 r); ranges by process are those of the handbooks (after ASME
B46.1, from memory).
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.method.bench import block, method, work_out

DRIFT = (Path(__file__).parents[1] / "methods" / "knurled-drift.md").read_text(encoding="utf-8")
KNURL = "\n```op\nknurl: from 20 mm, over 18 mm, pitch 1 mm\n```\n"
HARDEN = "\n```op\nharden: the thin end, temper 230 degC\n```\n"
FAULTS = [
    ("the knurl is forgotten", KNURL, "", "- knurl", "asks for a diamond knurl, pitch 1 mm on Ø18, and no operation makes it"),
    ("a straight knurl", KNURL, KNURL.replace("1 mm\n", "1 mm, straight\n"), "knurl", "makes a straight knurl, pitch 1 mm, and a diamond knurl"),
    ("a finer knurl", KNURL, KNURL.replace("pitch 1 mm", "pitch 0.6 mm"), "knurl", "pitch 0.6 mm, and a diamond knurl, pitch 1 mm is asked for"),
    ("a shorter knurl", KNURL, KNURL.replace("over 18 mm", "over 12 mm"), "knurl", "it is 12 long and not 18"),
    ("a knurl at the other end", KNURL, KNURL.replace("from 20 mm", "from 24 mm"), "knurl", "it lies 4 mm beside its place"),
    ("hardening is forgotten", HARDEN, "\n```op\nclean: it\n```\n", "- harden", "hardened steel, tempered at 230 °C, and no operation makes it"),
    ("tempered too far", HARDEN, HARDEN.replace("230", "300"), "harden", "tempered at 300 °C, and hardened steel, tempered at 230 °C is asked for"),
    ("not tempered", HARDEN, HARDEN.replace(", temper 230 degC", ""), "harden", "makes hardened steel, and hardened steel, tempered at 230 °C is asked for"),
    ("annealed again", HARDEN, HARDEN + "\n```op\nanneal: all over\n```\n", "anneal", "makes soft steel"),
    ("tempered again, hotter", HARDEN, HARDEN + "\n```op\ntemper: to blue, at 300 degC\n```\n", "temper", "makes hardened steel, tempered at 230"),
    ("too rough", "- finish: 1.6 um", "- finish: 0.1 um", "turn: to 10 mm", "Ra at best, the part asks for 0.1 µm on Ø10"),
    ("a finish on no surface", "um, on 10 mm", "um, on 9 mm", "- finish", "on Ø9, and no such surface is there"),
    ("a blue that nobody gives", "- finish", "- blue: all over\n- finish", "- blue", "asks for a blued surface, and no operation makes it"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "old", "new", "line", "says"), FAULTS, ids=[fault[0] for fault in FAULTS])
def test_a_quality_that_is_not_made_as_it_is_asked_for(name: str, old: str, new: str, line: str, says: str) -> None:
    assert DRIFT.count(old) == 1
    text = DRIFT.replace(old, new)
    made = work_out(text).method
    (check,) = made.failed
    told = check.words.metric.replace("\u202f", " ").replace("\u00a0", " ")
    assert check.key == "intended-part"
    assert says in told
    assert all(check.advice)
    lines = [i for i, one in enumerate(text.splitlines(), 1) if one.startswith(line)]
    assert check.line in lines


def test_the_heat_of_a_braze_takes_the_hardness() -> None:
    """A plug silver-soldered in after hardening: steel that was hard is soft again."""
    chuck = "hold: three-jaw chuck, on {} mm, grip 12 mm, end A out"
    plug = block("setup", "machine: lathe", "piece: plug", "stock: round 12 mm x 20 mm", chuck.format(12))
    main = block("setup", "machine: lathe", "piece: main", "stock: round 40 mm x 30 mm", chuck.format(40))
    hearth = block("setup", "machine: hearth", "piece: main", "hold: bricks, end A out")
    part = block("part", "- piece: main", "- round: 40 mm, over 29 mm", "- drill: 12.1 mm, through", "- harden: it")
    drilled = block("op", "face: 1 mm") + block("op", "drill: 12.1 mm, through")
    hard, braze = block("op", "harden: it"), block("op", "silver-braze: plug")
    body = plug + block("op", "face: 0.5 mm") + main + drilled + hearth
    for order, soft in ((hard + braze, True), (braze + hard, False)):
        text = method(part + body + order, stock="round 12 mm x 20 mm", material="silver steel")
        found = [c.words.metric for c in work_out(text).method.failed if c.key == "intended-part"]
        assert any("makes soft again" in words for words in found) == soft, found


def test_a_part_named_from_another_method_asks_for_the_same() -> None:
    """`intended:` carries threads, knurls and hardness with the shape, and points to its own line."""
    own = DRIFT[: DRIFT.index("```part")] + DRIFT[DRIFT.index("## Turn") :].replace(KNURL, "\n")
    made = work_out(own.replace("stock:", "intended: drift\nstock:"), more={"drift": DRIFT}).method
    (check,) = made.failed
    assert "a diamond knurl, pitch 1 mm on Ø18, and no operation makes it" in check.words.metric
    assert check.line == 4


ASKED = "- harden: the thin end, temper 230 degC"
MADE = "harden: the thin end, temper 230 degC"


@pytest.mark.parametrize(
    ("asked", "made", "state", "says"),
    [
        ("60 HRC", "60 HRC", "passed", "tempered at 230 °C, 60 HRC, as the part asks for"),
        ("60 HRC", "61 HRC", "passed", "as the part asks for"),
        ("60 HRC", "54 HRC", "failed", "54 HRC, and hardened steel, tempered at 230 °C, 60 HRC is asked for"),
        ("60 HRC", "", "not known", "not known, because the operation does not say its hardness"),
        ("700 HV", "60 HRC", "not known", "not known"),
    ],
)
def test_a_hardness_is_a_number(asked: str, made: str, state: str, says: str) -> None:
    """It goes from the `part` block to the operation; no table says what a steel has, so that alone stays open."""
    text = DRIFT.replace(ASKED, f"{ASKED}, hardness {asked}")
    assert text != DRIFT
    own = f"\n{MADE}" + (f", hardness {made}" if made else "")
    text = text.replace(f"\n{MADE}", own)
    found = work_out(text).method
    checks = [*found.checks, *(c for s in found.setups for o in s.operations for c in o.checks)]
    (check,) = {c.words.metric: c for c in checks if "asked for" in c.words.metric or ("asks for" in c.words.metric
                and "hardened" in c.words.metric)}.values()  # fmt: skip
    assert says in check.words.metric.replace("\u202f", " ").replace("\u00a0", " ")
    assert check.state == state
    if made:
        assert any("is not known: no table here says how hard" in c.words.metric for c in checks)


def test_no_hardness_is_refused_with_what_is_known() -> None:
    for wrong in ("60", "hard", "90 HRC", "60 Shore"):
        problem = work_out(DRIFT.replace(f"\n{MADE}", f"\n{MADE}, hardness {wrong}")).method.problems[0]
        assert "no such hardness" in problem.what
        assert "20 to 68 HRC" in problem.rule
