"""Does the work have what its part asks for and no solid shows: knurl, hardness, colour, finish? Asked for and not made,
and made otherwise, is found, on the line that is to blame.

Ra of a turned surface from feed and nose radius is f²/(32 r); ranges by process are those of the handbooks (after ASME
B46.1, from memory).
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.operations.qualities import Quality

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
    """It goes from the `part` block to the operation; the table of tempering says whether the heat gives it."""
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
        known = made.endswith("HRC")
        told = "silver steel comes to about 60 HRC" if known else "no table here says how hard"
        (own_check,) = (c for c in checks if c.key == "heat-treatment" and told in c.words.metric)
        assert own_check.state == ("passed" if made in ("60 HRC", "61 HRC") else "failed")


def test_no_hardness_is_refused_with_what_is_known() -> None:
    for wrong in ("60", "hard", "90 HRC", "60 Shore"):
        problem = work_out(DRIFT.replace(f"\n{MADE}", f"\n{MADE}, hardness {wrong}")).method.problems[0]
        assert "no such hardness" in problem.what
        assert "20 to 68 HRC" in problem.rule


# ------------------------------------------------------------------------------------------------ the whole family
LATHE = ("machine: lathe", "hold: three-jaw chuck, on 20 mm, grip 8 mm, end A out")
HEARTH = ("machine: hearth", "hold: bricks, end A out")
FAMILY: dict[Quality, tuple[str, str, tuple[str, ...], str]] = {
    Quality.KNURL: ("knurl: from 5 mm, over 10 mm, pitch 2 mm", "turn: to 16 mm, over 30 mm", LATHE, "cuts it away"),
    Quality.LINES: ("graduate: 20, line 3 mm", "turn: to 16 mm, over 30 mm", LATHE, "cuts them away"),
    Quality.HARD: ("harden: it", "anneal: it", HEARTH, ""),
    Quality.CASE: ("case-harden: it, deep 0.5 mm", "turn: to 16 mm, over 30 mm", HEARTH, "goes through it"),
    Quality.COLOUR: ("blue: it", "turn: to 16 mm, over 30 mm", HEARTH, "leaves bright metal there"),
    Quality.FINISH: ("polish: it", "turn: to 16 mm, over 30 mm", LATHE, "Ra"),
}
"""For each: a line that makes it, and asks for it but for a finish; what spoils it; where; how that is told."""


def with_quality(asked: str, made: str, spoil: str, where: tuple[str, ...]) -> list[str]:
    """What fails of the proof of a turned bar, in which something is asked for, made, and spoilt."""
    last = 16 if spoil.startswith("turn") else 18
    part = block(
        "part",
        f"- round: {last} mm, over 30 mm",
        "- round: 20 mm, from 30 mm, over 10 mm",
        *([f"- {asked}"] if asked else []),
    )
    body = part + block("setup", *LATHE) + block("op", "turn: to 18 mm, over 30 mm")
    body += (block("setup", *where) if where is HEARTH else "") + block("op", made)
    body += (block("setup", *LATHE) if where is HEARTH and last == 16 else "") + (block("op", spoil) if spoil else "")
    made_of = work_out(method(body, stock="round 20 mm x 40 mm", material="silver steel")).method
    assert not [p for p in made_of.problems if not p.code.startswith("check-")], [str(p) for p in made_of.problems]
    return [c.words.metric for c in made_of.failed if c.key == "intended-part"]


@pytest.mark.parametrize("quality", [*Quality])
def test_each_is_found_that_nobody_asked_for_and_that_was_spoilt(quality: Quality) -> None:
    """Walks the table of qualities. A finish is asked of the surface: smoother than asked for is no fault."""
    made, spoil, where, says = FAMILY[quality]
    finish = quality is Quality.FINISH
    asked = "finish: 0.2 um, from 1 mm, over 28 mm" if finish else made
    assert with_quality(asked, made, "", where) == []
    alone = with_quality("", made, "", where)
    assert [words for words in alone if "the part does not ask for it" in words] == alone
    assert bool(alone) != finish
    if quality is Quality.LINES:
        assert with_quality("", made, spoil, where) == [], "what is gone again is nothing to ask for"
    (told,) = with_quality(asked, made, spoil, where)
    assert says in told


def test_a_knurl_of_which_a_later_cut_leaves_a_part() -> None:
    made = FAMILY[Quality.KNURL][0]
    (told,) = (words for words in with_quality(made, made, "turn: to 17 mm, over 10 mm", LATHE) if "knurl" in words)
    assert "long and not 10, as operation 30 leaves it" in told


def test_a_thread_that_nobody_asked_for() -> None:
    (told,) = with_quality("", "thread: M18, over 12 mm", "", LATHE)
    assert "M18, 12 long, is cut, and the part does not ask for it" in told
    assert with_quality("thread: M18, over 12 mm", "thread: M18, over 12 mm", "", LATHE) == []
