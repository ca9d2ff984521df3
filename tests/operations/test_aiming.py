"""Does an operation stop inside the limits of its own check: in its last pass, on the dial, in both units?

Limits: ISO 286-2 (16 f7 -16/-34 µm, 16 H7 +18/0, 24 p6 +35/+22, 12 h7 0/-18: tables read), ISO 965-1 M12 6g effective
-34 µm with a width of 150 µm (from memory). That one leads the tool to the middle of the limits is common practice.
"""

from __future__ import annotations

import re

import pytest
from tests.method.bench import ROOT, THREE_JAW, block, demo, method, work_out

from methodsheets.method.done import CheckedOperation
from methodsheets.operations.verb import ANY, TURNING, VICE
from methodsheets.operations.vocabulary import verbs
from methodsheets.sheet.model import Limit, Operation

SHOPS = ("osierbank-small", "osierbank-large", "osierbank-inch")
DEMO = [path.stem for path in sorted(ROOT.glob("*.md"))]
VICE_SETUP = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
PLATE = "plate 60 mm x 40 mm x 30 mm"
UPRIGHT = block("setup", "machine: mill", "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up")
LEVEL = block(
    "setup", "machine: mill", "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, axis level, end A out"
)
CROSS = block("setup", "machine: mill", "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A out")

TURNED = {
    "a journal": (["turn: to 16 mm, over 20 mm"], 'limits(16 mm, "f7")', 15.966, 15.984),
    "a journal that was roughed": (
        ["turn: to 16 mm, over 20 mm, leave 0.4 mm", "turn: to 16 mm, over 20 mm"],
        'limits(16 mm, "h6")',
        15.989,
        16.0,
    ),
    "a bore": (["drill: 15 mm, through", "bore: to 16 mm, through"], 'limits(16 mm, "H7")', 16.0, 16.018),
    "a length faced": (["face: to length 57 mm"], 'limits(57 mm, "h9")', 56.926, 57.0),
    "a groove": (["groove: from 10 mm, wide 2 mm, to 30 mm"], 'limits(30 mm, "h11")', 29.87, 30.0),
    "a groove inside": (
        ["drill: 15 mm, through", "bore: to 20 mm, through", "groove: from 10 mm, wide 1.6 mm, to 21 mm, inside"],
        'limits(21 mm, "H11")',
        21.0,
        21.13,
    ),
    "a taper": (["taper: from 30 mm to 36 mm, over 20 mm"], 'limits(36 mm, "h8")', 35.961, 36.0),
    "a profile": (["profile: points (0 mm, 20 mm), (10 mm, 30 mm)"], 'limits(30 mm, "h9")', 29.948, 30.0),
}
MILLED = {
    "a face": (["face: to length 28 mm"], 'limits(28 mm, "h9")', 27.948, 28.0),
    "a step": (["step: side front, wide 10 mm, deep 6 mm"], 'limits(6 mm, "H9")', 6.0, 6.03),
    "what a step leaves": (["step: side front, wide 10 mm, deep 6 mm"], 'limits(24 mm, "h9")', 23.948, 24.0),
    "a slot": (["slot: wide 8 mm, deep 5 mm"], 'limits(5 mm, "H11")', 5.0, 5.075),
    "a pocket": (["pocket: from (10 mm, 10 mm), to (40 mm, 30 mm), deep 4 mm"], 'limits(4 mm, "H10")', 4.0, 4.048),
    "a vee": (["vee: wide 12 mm"], 'limits(12 mm, "H11")', 12.0, 12.11),
    "a flat": (["flat: across 36 mm, over 20 mm, divide 6"], 'limits(36 mm, "h11")', 35.84, 36.0),
    "a keyway": (["keyway: wide 6 mm, deep 3.5 mm, over 20 mm"], 'limits(3.5 mm, "H11")', 3.5, 3.575),
}


def last_dial(done: CheckedOperation) -> float:
    """Mm that the slide has gone in from the touch-off, by the words of the last pass alone; nan where no dial is."""
    if done.worked.passes:
        words = done.worked.passes[-1].dial
    else:
        words = next((fact.note.metric for fact in done.facts if fact.key == "plunge"), "")
    found = re.fullmatch(
        r"(?:(?P<turns>\d+) turns?)?(?: \+ )?(?:(?P<rest>[\d.]+)\u202f(?P<unit>mm|in))?(?:, between two lines)?", words
    )
    dial = done.station.machine.dial(done.plan.cut.slide)
    if not words or dial is None:
        return float("nan")
    assert found is not None, words
    rest = float(found["rest"] or 0.0) * (25.4 if found["unit"] == "in" else 1.0)
    return (int(found["turns"] or 0) * dial.per_turn + rest) / dial.factor


def size_of(done: CheckedOperation, nominal: float, travel: float) -> float:
    """The size that a travel makes: the nominal one is made by the travel that the solid was cut with."""
    made = next(one for one in done.plan.makes if abs(one.size - nominal) < 1e-6)
    stop, aim = done.plan.cut.infeed, next(limit.aim for limit in done.limits if limit.aim is not None)
    return aim.value + (travel - stop) / made.infeed


def first_limit(done: CheckedOperation) -> Limit:
    (limit,) = done.limits
    assert limit.aim is not None
    return limit


def inches(measure: object) -> float:
    return float(str(measure).replace("\u202f", " ").split()[0])


@pytest.mark.parametrize("shop", SHOPS)
@pytest.mark.parametrize("name", [*TURNED, *MILLED])
def test_every_kind_of_cut_ends_inside_its_limits(name: str, shop: str) -> None:
    lines, check, lower, upper = (TURNED | MILLED)[name]
    round_work = name in TURNED or name in ("a flat", "a keyway")
    setup = THREE_JAW if name in TURNED else CROSS if round_work else VICE_SETUP
    ops = "".join(block("op", line) for line in lines[:-1]) + block("op", lines[-1], f"check: {check} with micrometer")
    made = work_out(method(setup + ops, stock="round 40 mm x 60 mm" if round_work else PLATE), shop)
    done = made.live.operations[-1]
    limit = first_limit(done)
    assert (limit.lower.value, limit.upper.value) == (pytest.approx(lower, abs=2e-4), pytest.approx(upper, abs=2e-4))
    assert limit.aim is not None
    assert lower < limit.aim.value < upper
    travel = last_dial(done)
    if travel == travel:
        reached = size_of(done, limit.nominal.value, travel)
        assert lower + 1e-4 < reached < upper - 1e-4, (reached, done.worked.passes)


def last_size(operation: Operation) -> float | None:
    size = operation.passes[-1].size if operation.passes else None
    return size.value if size else None


@pytest.mark.parametrize("shop", SHOPS)
@pytest.mark.parametrize("slug", DEMO)
def test_every_operation_of_the_demo_ends_inside_its_limits(slug: str, shop: str) -> None:
    seen = 0
    for done in work_out(demo(slug), shop, slug).live.operations:
        for limit in done.limits:
            if not limit.has_limits or limit.aim is None:
                continue
            seen += 1
            lower, upper = limit.lower.value, limit.upper.value
            assert lower < limit.aim.value < upper
            low, aim, high = (inches(one.inch) for one in (limit.lower, limit.aim, limit.upper))
            assert low < aim < high, (limit, "in inches")
            if done.verb in ("turn", "bore") and done.worked.passes:
                assert lower < (done.worked.passes[-1].size or limit.aim).value < upper
            travel = last_dial(done)
            made = [one for one in done.plan.makes if abs(one.size - limit.nominal.value) < 1e-4]
            if travel == travel and made and made[0].infeed:
                reached = size_of(done, limit.nominal.value, travel)
                assert lower < reached < upper, (slug, done.number, reached, lower, upper)
    assert seen or slug in ("file-holder",)


def test_the_solid_and_the_words_stay_nominal() -> None:
    text = method(THREE_JAW + block("op", "turn: to 16 mm, over 20 mm", 'check: limits(16 mm, "f7")'))
    done = work_out(text).live.operations[0]
    assert done.words.metric == "Turn to Ø16 over 20"
    assert 2 * done.after.swing(done.frame, 1.0, 19.0) == pytest.approx(16.0, abs=1e-6)
    assert last_size(work_out(text).method.operations[0]) == pytest.approx(15.975)


def test_a_shaft_made_to_a_measured_bore_stops_where_the_fit_wants_it() -> None:
    text = method(
        block("calc", 'seat = fit(16 mm, "H7/s6")')
        + THREE_JAW
        + block("op", "turn: to 16 mm, over 25 mm", 'check: make_to(seat, "bore")')
    )
    operation = work_out(text).method.operations[0]
    assert last_size(operation) == pytest.approx(16.0245, abs=6e-4)  # the middle of 16.010 and 16.039


@pytest.mark.parametrize(
    ("line", "check"),
    [
        ("turn: to 16 mm, over 20 mm", 'limits(12 mm, "f7")'),  # of another journal
        ("turn: to 16 mm, over 20 mm, leave 0.3 mm", 'limits(16 mm, "f7")'),  # of the cut that follows
        ("face: 1 mm", 'limits(12 mm, "h9")'),
        ("turn: to 16 mm, over 20 mm", "the corner is sharp all round"),
    ],
)
def test_a_check_of_another_size_moves_nothing(line: str, check: str) -> None:
    bare = work_out(method(THREE_JAW + block("op", line))).method.operations[0]
    checked = work_out(method(THREE_JAW + block("op", line, f"check: {check}"))).method.operations[0]
    assert [one.size for one in checked.passes] == [one.size for one in bare.passes]
    assert checked.limits[0].aim is None
    assert not [check for check in checked.checks if check.key == "size-of-check"]


def test_a_length_check_does_not_move_a_diameter_of_the_same_size() -> None:
    lines = ("turn: to 20 mm, over 20 mm", 'check: limits(length, "h9")')
    made = work_out(method(block("calc", "length = 20 mm") + THREE_JAW + block("op", *lines))).method
    operation = made.operations[0]
    assert last_size(operation) == pytest.approx(20.0)
    assert operation.limits[0].aim is not None
    assert operation.limits[0].aim.value == pytest.approx(19.974)


def test_an_authors_own_size_inside_the_limits_is_kept() -> None:
    text = method(THREE_JAW + block("op", "turn: to 15.976 mm, over 20 mm", 'check: limits(16 mm, "f7")'))
    assert last_size(work_out(text).method.operations[0]) == pytest.approx(15.976)


def test_a_size_just_outside_its_own_limits_is_told() -> None:
    text = method(THREE_JAW + block("op", "turn: to 15.99 mm, over 20 mm", 'check: limits(16 mm, "f7")'))
    (told,) = [check for check in work_out(text).method.operations[0].checks if check.key == "size-of-check"]
    assert told.state == "failed"
    assert "15.99" in told.words.metric


@pytest.mark.parametrize(
    ("zone", "state"), [("H7", "passed"), ("H6", "not known"), ("F7", "not known"), ("p6", "failed")]
)
def test_a_reamer_decides_its_size(zone: str, state: str) -> None:
    """A reamer is sold for H7: 16.000 to 16.018 in a hole of 16 mm (DIN 1420 is made for it, from memory)."""
    ops = block("op", "drill: 15.8 mm, through")
    ops += block("op", "ream: 16 mm, through", f'check: limits(16 mm, "{zone}") with plug gauge')
    operation = work_out(method(THREE_JAW + ops)).method.operations[1]
    (told,) = [check for check in operation.checks if check.key == "size-by-tool"]
    assert told.state == state
    assert operation.limits[0].aim is None


def test_a_thread_is_measured_over_wires_by_its_own_class() -> None:
    """M12 6g: effective diameter 34 to 184 µm under the basic one (ISO 965-1, from memory)."""
    ops = block("op", "turn: to 12 mm, over 30 mm")
    ops += block("op", "thread: M12, over 25 mm", "check: wires.over with wires")
    made = work_out(method(block("calc", 'wires = thread_over_wires("M12")') + THREE_JAW + ops)).method
    (limit,) = made.operations[1].limits
    assert limit.fit == "6g"
    assert limit.upper.value == pytest.approx(limit.nominal.value - 0.034, abs=1e-4)
    assert limit.lower.value == pytest.approx(limit.nominal.value - 0.184, abs=1e-4)
    assert limit.aim is not None
    assert limit.aim.value == pytest.approx(limit.nominal.value - 0.109, abs=1e-3)
    bare = work_out(method(THREE_JAW + ops.replace("check: wires.over with wires\n", ""))).method.operations[1]
    assert last_size(made.operations[1]) == pytest.approx((last_size(bare) or 0.0) - 0.109, abs=1e-3)


BORED = ("drill: 15 mm, through",)
EXAMPLES = {
    ("face", TURNING): (THREE_JAW, "face: 1 mm"),
    ("turn", TURNING): (THREE_JAW, "turn: to 30 mm, over 10 mm"),
    ("taper", TURNING): (THREE_JAW, "taper: from 30 mm to 36 mm, over 10 mm"),
    ("profile", TURNING): (THREE_JAW, "profile: points (0 mm, 20 mm), (10 mm, 30 mm)"),
    ("round over", TURNING): (THREE_JAW, "round over: 3 mm"),
    ("chamfer", TURNING): (THREE_JAW, "chamfer: 1 mm"),
    ("groove", TURNING): (THREE_JAW, "groove: from 10 mm, wide 2 mm, to 30 mm"),
    ("undercut", TURNING): (THREE_JAW, "turn: to 30 mm, over 20 mm", "undercut: at 20 mm, wide 2 mm, deep 0.3 mm"),
    ("part off", TURNING): (THREE_JAW, "part off: 10 mm"),
    ("drill", ANY): (THREE_JAW, "drill: 10 mm, through"),
    ("bore", ANY): (THREE_JAW, *BORED, "bore: to 16 mm, through"),
    ("ream", ANY): (THREE_JAW, *BORED, "ream: 15.2 mm, through"),
    ("counterbore", ANY): (THREE_JAW, *BORED, "counterbore: 20 mm, deep 4 mm"),
    ("countersink", ANY): (THREE_JAW, *BORED, "countersink: 18 mm"),
    ("centre", ANY): (THREE_JAW, "centre: 3.15 mm"),
    ("cross-drill", TURNING): (CROSS, "cross-drill: 6 mm, from face 10 mm"),
    ("cross-ream", TURNING): (CROSS, "cross-ream: 6 mm, from face 10 mm"),
    ("thread", TURNING): (THREE_JAW, "turn: to 12 mm, over 30 mm", "thread: M12, over 25 mm"),
    ("face", VICE): (VICE_SETUP, "face: 1 mm"),
    ("step", VICE): (VICE_SETUP, "step: side front, wide 10 mm, deep 6 mm"),
    ("slot", VICE): (VICE_SETUP, "slot: wide 8 mm, deep 5 mm"),
    ("pocket", VICE): (VICE_SETUP, "pocket: from (10 mm, 10 mm), to (40 mm, 30 mm), deep 4 mm"),
    ("profile", VICE): (VICE_SETUP, "profile: points (5 mm, 5 mm), (50 mm, 5 mm), (30 mm, 35 mm), deep 4 mm"),
    ("vee", VICE): (VICE_SETUP, "vee: wide 12 mm"),
    ("dovetail", VICE): (VICE_SETUP, "dovetail: wide 12 mm, deep 5 mm"),
    ("t-slot", VICE): (VICE_SETUP, "t-slot: wide 8 mm, deep 12 mm, head 14 mm, high 5 mm"),
    ("chamfer", VICE): (VICE_SETUP, "chamfer: 1 mm, side all"),
    ("flat", TURNING): (CROSS, "flat: 18 mm, over 10 mm"),
    ("slot", TURNING): (CROSS, "slot: wide 6 mm, deep 3 mm, over 20 mm"),
    ("web", TURNING): (UPRIGHT, "web: hub 12 mm, nose 9 mm, offset 5 mm, over 10 mm"),
    ("outline", TURNING): (
        UPRIGHT,
        "outline: points (-12 mm, -12 mm), (12 mm, -12 mm), (12 mm, 12 mm), (-12 mm, 12 mm), over 10 mm",
    ),
    ("cam", TURNING): (
        UPRIGHT,
        "cam: base 12 mm, lift 5 mm, rise 70 deg, dwell 30 deg, fall 70 deg, follower point, over 12 mm",
    ),
    ("gear", TURNING): (LEVEL, "gear: module 1 mm, teeth 38, over 15 mm"),
    ("rack", VICE): (VICE_SETUP, "rack: module 1 mm, teeth 8"),
    ("dome", TURNING): (THREE_JAW, "turn: to 20 mm, over 25 mm", "dome: 10 mm"),
    ("keyway", TURNING): (CROSS, "keyway: wide 6 mm, deep 3 mm, over 20 mm"),
}
NO_SIZE = {"tap", "cross-tap", "knurl", "graduate"}
"""Verbs without a size that a check of lengths could be about: the tap decides, the others leave a pattern."""


def test_no_verb_that_cuts_is_forgotten() -> None:
    families = {"turning", "holes", "threads", "milling", "dividing"}
    cutting = {key for key, verb in verbs().items() if verb.family in families and verb.name not in NO_SIZE}
    assert cutting == set(EXAMPLES)


@pytest.mark.parametrize("key", EXAMPLES)
def test_every_verb_that_cuts_says_what_it_makes(key: tuple[str, str]) -> None:
    """A verb without sizes would never be led into its limits."""
    setup, *lines = EXAMPLES[key]
    stock = PLATE if setup == VICE_SETUP else "round 40 mm x 60 mm"
    made = work_out(method(setup + "".join(block("op", line) for line in lines), stock=stock))
    assert len(made.live.operations) == len(lines), [str(problem) for problem in made.method.problems]
    assert made.live.operations[-1].plan.makes
