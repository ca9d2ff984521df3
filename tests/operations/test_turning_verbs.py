"""Metal that each verb of turned work takes, against closed forms: cylinders, cones, rings by Guldin's rule, segments."""

from __future__ import annotations

import math

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.method.done import CheckedOperation
from methodsheets.trade.threads.hole_making import centre_drill

PI = math.pi
SHOP = "osierbank-large"
"""The shop with the longer tools: here only the metal counts."""
CHUCK = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 12 mm, end A out")
OFFSET = block(
    "setup", "machine: lathe", "hold: four-jaw chuck, on 40 mm, grip 12 mm, end A out, axis offset 4 mm at 30 deg"
)
FAR_END = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 12 mm, end B out")
TABLE = block("setup", "machine: mill", "hold: rotary table, on 40 mm, grip 12 mm, end A up")


def done(setup: str, *lines: str, stock: str = "") -> CheckedOperation:
    """The last of some operations, each a line; problems other than checks are none."""
    text = setup + "".join(block("op", line) for line in lines)
    made = work_out(method(text, stock=stock) if stock else method(text), SHOP)
    assert not made.method.problems, [str(p) for p in made.method.problems]
    return made.live.operations[-1]


def ring(outer: float, inner: float, length: float) -> float:
    """Volume between two diameters."""
    return PI / 4 * (outer**2 - inner**2) * length


def frustum(near: float, far: float, length: float) -> float:
    """Volume of a tapered bar by its two diameters."""
    return PI / 12 * length * (near**2 + near * far + far**2)


def guldin(area: float, radius: float) -> float:
    """Volume of an area that is turned about the axis: area times the way of its centroid."""
    return 2 * PI * radius * area


def corner(radius: float) -> tuple[float, float]:
    """(area, distance of its centroid from the sharp corner's sides) of a square less its quarter circle."""
    square, quarter = radius**2, PI * radius**2 / 4
    area = square - quarter
    return area, (square * radius / 2 - quarter * (radius - 4 * radius / (3 * PI))) / area


def strip(radius: float, half: float) -> float:
    """Area of a circle between two lines at ± half a width from its middle."""
    return 2 * (half * math.sqrt(radius**2 - half**2) + radius**2 * math.asin(half / radius))


def segment(radius: float, distance: float) -> float:
    """Area of a circle beyond a chord."""
    return radius**2 * math.acos(distance / radius) - distance * math.sqrt(radius**2 - distance**2)


def crossed(small: float, large: float, steps: int = 20000) -> float:
    """Volume common to two round bars that cross at right angles, by the middle rule."""
    h = 2 * small / steps
    xs = (-small + h * (i + 0.5) for i in range(steps))
    return h * sum(4 * math.sqrt((small**2 - x * x) * (large**2 - x * x)) for x in xs)


FILLET, FILLET_IN = corner(2.0)
TIP = 5.0 / math.tan(math.radians(59.0))
A2 = centre_drill("A2")
CONE = (A2.mouth - 2.0) / 2 / math.tan(math.radians(30))

CASES = [
    ("face", CHUCK, ["face: 2 mm"], ring(40, 0, 2), "Face 2 off"),
    ("face to length", CHUCK, ["face: to length 57 mm"], ring(40, 0, 3), "Face to 57 long"),
    ("face down to a pip", CHUCK, ["face: 2 mm, down to 10 mm"], ring(40, 10, 2), "Face 2 off"),
    ("face end B", FAR_END, ["face: 2 mm"], ring(40, 0, 2), "Face 2 off"),
    ("face about an offset axis", OFFSET, ["face: 2 mm"], ring(40, 0, 2), "Face 2 off"),
    ("turn", CHUCK, ["turn: to 30 mm, over 20 mm"], ring(40, 30, 20), "Turn to Ø30 over 20"),
    ("turn to the jaws", CHUCK, ["turn: to 30 mm"], ring(40, 30, 48), "Turn to Ø30 over 48"),
    ("turn behind", CHUCK, ["turn: to 36 mm, over 30 mm", "turn: to 34 mm, over 20 mm", "turn: to 35 mm, from 20 mm, over 10 mm"],
     ring(36, 35, 10), "Turn to Ø35 over 10, from 20"),
    ("turn and leave some on", CHUCK, ["turn: to 30 mm, over 20 mm, leave 0.5 mm"], ring(40, 30.5, 20), "Turn to Ø30.5 over 20, 0.5 left on for a later cut"),
    ("turn with a corner", CHUCK, ["turn: to 30 mm, over 20 mm, corner 2 mm"],
     ring(40, 30, 20) - guldin(FILLET, 15 + FILLET_IN), "Turn to Ø30 over 20"),
    ("turn about an offset axis", OFFSET, ["turn: to 20 mm, over 20 mm"], ring(40, 20, 20), "Turn to Ø20 over 20"),
    ("taper by two diameters", CHUCK, ["taper: from 20 mm to 30 mm, over 25 mm"], ring(40, 0, 25) - frustum(20, 30, 25), "Taper from Ø20 to Ø30 over 25"),
    ("taper by an angle", CHUCK, ["taper: from 20 mm, angle 10 deg, over 25 mm"],
     ring(40, 0, 25) - frustum(20, 20 + 50 * math.tan(math.radians(10)), 25), "Taper from Ø20 to Ø28.816 over 25"),
    ("taper down from the outside by an angle", CHUCK, ["taper: angle 10 deg, over 25 mm"],
     ring(40, 0, 25) - frustum(40 - 50 * math.tan(math.radians(10)), 40, 25), "Taper from Ø31.184 to Ø40 over 25"),
    ("taper that falls towards the chuck", CHUCK, ["taper: from 38 mm to 36 mm, over 25 mm"], ring(40, 0, 25) - frustum(38, 36, 25), "Taper from Ø38 to Ø36 over 25"),
    ("taper in a bore", CHUCK, ["drill: 16 mm, through", "taper: from 24 mm to 18 mm, over 20 mm, inside"],
     frustum(24, 18, 20) - ring(16, 0, 20), "Bore a taper from Ø24 to Ø18 over 20"),
    ("profile", CHUCK, ["profile: points (0 mm, 20 mm), (10 mm, 30 mm), (20 mm, 30 mm)"],
     ring(40, 0, 20) - frustum(20, 30, 10) - ring(30, 0, 10), "Turn the profile from 0 to 20, Ø20 at its smallest"),
    ("profile along a quarter circle", CHUCK, ["profile: points (0 mm, 0 mm), (20 mm - 20 mm * cos(45 deg), 40 mm * sin(45 deg)), (20 mm, 40 mm), via (20 mm - 20 mm * cos(45 deg), 40 mm * sin(45 deg))"],
     ring(40, 0, 20) - 2 / 3 * PI * 8000, "Turn the profile from 0 to 20, Ø0 at its smallest"),
    ("round an edge", CHUCK, ["round over: 2 mm"], guldin(FILLET, 20 - FILLET_IN), "Form a radius of 2 on Ø40"),
    ("form a hollow", CHUCK, ["round over: 3 mm, hollow"], guldin(PI * 9 / 4, 20 - 4 * 3 / (3 * PI)), "Form a radius of 3 on Ø40"),
    ("groove", CHUCK, ["groove: from 10 mm, wide 3 mm, deep 4 mm"], ring(40, 32, 3), "Groove 3 wide at 10 to Ø32"),
    ("groove in a bore", CHUCK, ["drill: 16 mm, through", "groove: from 10 mm, wide 3 mm, to 20 mm, inside"], ring(20, 16, 3), "Groove 3 wide at 10 to Ø20 inside"),
    ("undercut", CHUCK, ["turn: to 30 mm, over 20 mm", "undercut: at 20 mm, wide 2 mm, deep 0.5 mm"], ring(30, 29, 2), "Undercut 2 wide, 0.5 deep, at the shoulder 20 from the face to Ø29"),
    ("chamfer", CHUCK, ["chamfer: 1 mm"], guldin(0.5, 20 - 1 / 3), "Chamfer 1 × 45° on Ø40"),
    ("chamfer at 30°", CHUCK, ["chamfer: 1 mm, angle 30 deg"], guldin(0.5 / math.tan(PI / 6), 20 - 1 / 3), "Chamfer 1 × 30° on Ø40"),
    ("chamfer at a shoulder", CHUCK, ["turn: to 30 mm, over 20 mm", "chamfer: 1 mm, at 20 mm"], guldin(0.5, 20 - 1 / 3), "Chamfer 1 × 45° on Ø40"),
    ("chamfer the far side", CHUCK, ["groove: from 20 mm, wide 6 mm, to 30 mm", "chamfer: 1 mm, at 20 mm, on 40 mm, away"], guldin(0.5, 20 - 1 / 3), "Chamfer 1 × 45° on Ø40"),
    ("chamfer a bore", CHUCK, ["drill: 16 mm, through", "chamfer: 1 mm, inside"], guldin(0.5, 8 + 1 / 3), "Chamfer 1 × 45° in the bore Ø16"),
    ("knurl", CHUCK, ["knurl: over 20 mm"], 0.0, "Knurl Ø40 over 20, diamond, pitch 1"),
    ("drill", CHUCK, ["drill: 10 mm, deep 20 mm"], ring(10, 0, 20) + ring(10, 0, TIP / 3), "Drill Ø10 20 deep"),
    ("drill with a flat point", CHUCK, ["drill: 10 mm, deep 20 mm, point 180 deg"], ring(10, 0, 20), "Drill Ø10 20 deep"),
    ("drill through", CHUCK, ["drill: 10 mm, through"], ring(10, 0, 60), "Drill Ø10 through"),
    ("centre drill", CHUCK, ["centre: 2 mm"], frustum(A2.mouth, 2, CONE) + ring(2, 0, A2.pilot_length) + ring(2, 0, 0.3 * 2 / 3), "Centre drill, 2 pilot, to Ø4.25†"),
    ("bore", CHUCK, ["drill: 16 mm, through", "bore: to 18 mm, through"], ring(18, 16, 60), "Bore to Ø18 through"),
    ("bore and leave some in", CHUCK, ["drill: 16 mm, through", "bore: to 20 mm, deep 20 mm, leave 0.3 mm"], ring(19.7, 16, 20), "Bore to Ø19.7 20 deep"),
    ("ream", CHUCK, ["drill: 11.8 mm, through", "ream: 12 mm, through"], ring(12, 11.8, 60), "Ream Ø12 through"),
    ("counterbore", CHUCK, ["drill: 5.5 mm, through", "counterbore: 10 mm, deep 6 mm"], ring(10, 5.5, 6), "Counterbore Ø10 6 deep"),
    ("countersink", CHUCK, ["drill: 8 mm, through", "countersink: 12 mm"], frustum(12, 8, 2) - ring(8, 0, 2), "Countersink to Ø12, 90°"),
    ("outside thread on a thick rod", CHUCK, ["turn: to 12.4 mm, over 20 mm", "thread: M12, over 15 mm"], ring(12.4, 12, 15), "Cut thread M12 over 15"),
    ("inside thread", CHUCK, ["drill: 10 mm, through", "bore: to 10.4 mm, through", "thread: M12, over 15 mm, inside"], 0.0, "Cut thread M12 inside over 15"),
    ("tap", CHUCK, ["drill: 5 mm, deep 20 mm", "tap: M6, deep 14 mm"], 0.0, "Tap M6 14 deep"),
    ("flat", TABLE, ["flat: 15 mm, over 20 mm"], segment(20, 15) * 20, "Mill a flat 15 from the axis over 20 at 0°"),
    ("hexagon", TABLE, ["flat: across 36 mm, over 10 mm, divide 6"], 6 * segment(20, 18) * 10, "Mill a flat 18 from the axis over 10, 6 times of 6 round the circle"),
    ("flats, some left out", TABLE, ["flat: 18 mm, over 10 mm, divide 6, skip 2, 5"], 4 * segment(20, 18) * 10, "Mill a flat 18 from the axis over 10, 4 times of 6 round the circle"),
    ("keyway", TABLE, ["keyway: wide 6 mm, deep 4 mm, over 20 mm, at 90 deg"],
     (strip(20, 3) / 2 - 6 * 16) * 20, "Mill a slot 6 wide, 4 deep, over 20 at 90°"),
    ("keyway in a bore", CHUCK, ["drill: 16 mm, through", "keyway: wide 5 mm, deep 2.3 mm, in bore"],
     (5 * 10.3 - strip(8, 2.5) / 2) * 60, "Slot a keyway 5 wide, 2.3 deep, in the bore at 0°"),
    ("slot across the face", TABLE, ["slot: wide 6 mm, deep 4 mm, in face"], strip(20, 3) * 4, "Mill a slot 6 wide, 4 deep, across the face at 0°"),
    ("pitch circle", TABLE, ["drill: 5 mm, through, on circle 28 mm, divide 6, skip 1"], 5 * ring(5, 0, 60), "Drill 5 × Ø5 through, 5 places of 6"),
    ("graduate", TABLE, ["graduate: 60, line 3 mm"], 0.0, "Divide 60 and scribe the rim Ø40, lines 3, 3 and 3 long"),
    ("face on the rotary table", TABLE, ["face: 1 mm"], ring(40, 0, 1), "Face 1 off"),
    ("cross-drill", TABLE, ["cross-drill: 6 mm, from face 20 mm, at 30 deg"], crossed(3, 20), "Cross-drill Ø6 through, 20 from the face at 30°"),
    ("cross-drill, blind", TABLE, ["cross-drill: 6 mm, from face 20 mm, deep 8 mm, point 180 deg"],
     crossed(3, 20) / 2 - ring(6, 0, 12), "Cross-drill Ø6 8 deep, 20 from the face"),
    ("file a flat", CHUCK, ["file: a flat for the screw, to 18 mm, at 90 deg, over 10 mm"], segment(20, 18) * 10, "File a flat 18 from the axis at 90°: a flat for the screw"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "setup", "lines", "volume", "words"), CASES, ids=[case[0] for case in CASES])
def test_metal_and_words(name: str, setup: str, lines: list[str], volume: float, words: str) -> None:
    one = done(setup, *lines)
    assert one.volume == pytest.approx(volume, rel=1e-3, abs=1e-6)
    assert one.words.metric == words


@pytest.mark.parametrize(("keep", "length"), [("", 20.0), (", keep front", 20.0), (", keep back", 38.0)])
def test_part_off_keeps_the_piece_that_is_said(keep: str, length: float) -> None:
    one = done(CHUCK, f"part off: 20 mm, wide 2 mm{keep}")
    assert one.volume == pytest.approx(ring(40, 0, 2), rel=1e-6)
    assert one.after.volume == pytest.approx(ring(40, 0, length), rel=1e-6)
    assert one.after.ends.length == pytest.approx(length)
    assert sum(solid.volume for solid in one.stub) == pytest.approx(ring(40, 0, 58 - length), rel=1e-6)


@pytest.mark.parametrize(("keep", "share"), [("both", 2), ("left", 1), ("right", 1)])
def test_split_lengthwise(keep: str, share: int) -> None:
    one = done(TABLE, f"split: at 0 deg, wide 2 mm, keep {keep}")
    half = (ring(40, 0, 60) - strip(20, 1) * 60) / 2
    assert one.after.volume == pytest.approx(share * half, rel=1e-4)
    assert one.volume == pytest.approx(strip(20, 1) * 60, rel=1e-4)


def test_split_keeps_the_side_that_lies_left_of_the_cut() -> None:
    """Looking at end A along a cut to 0°: what lies on the side of 90° is left of it."""
    one = done(TABLE, "split: at 0 deg, wide 2 mm, keep left")
    low, high = one.after.bounds
    frame = one.frame
    assert frame.to_shop([(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, 0.0])[2] == pytest.approx(90.0, abs=1e-6)


def test_saw_off_takes_the_kerf() -> None:
    saw = block("setup", "machine: saw", "hold: saw vice, end A out")
    one = done(saw, "saw off: 20 mm, wide 1.5 mm")
    assert one.volume == pytest.approx(ring(40, 0, 1.5), rel=1e-6)
    assert one.after.volume == pytest.approx(ring(40, 0, 20), rel=1e-6)


def test_offset_turning_leaves_the_disc_where_the_angle_says() -> None:
    """The thrown round stands 4 mm off the main axis, 30° anticlockwise as you look at end A."""
    one = done(OFFSET, "turn: to 20 mm, over 20 mm")
    surfaces = [
        s for solid in one.after for s in solid.mesh().surfaces if s.kind == "cylinder" and abs(s.diameter - 20) < 1e-9
    ]
    x, y, _ = surfaces[0].point
    assert (x, y) == (pytest.approx(4 * math.cos(PI / 6)), pytest.approx(-4 * math.sin(PI / 6)))


@pytest.mark.parametrize(("verb", "how", "key"), [
    ("press in", "pressed", "pressing"), ("shrink on", "shrunk", "hot"), ("silver-braze", "brazed", "brazing"), ("weld", "welded", "welding"),
    ("retain", "retained", "retaining"), ("screw in", "screwed", ""),
])  # fmt: skip
def test_every_joint_adds_the_other_piece(verb: str, how: str, key: str) -> None:
    bush = CHUCK + block("op", "drill: 10 mm, through")
    rod = block(
        "setup",
        "piece: rod",
        "stock: round 10 mm x 60 mm",
        "machine: lathe",
        "hold: three-jaw chuck, on 10 mm, grip 10 mm, end A out",
    )
    join = block("setup", "piece: bush", "machine: press", "hold: press blocks, end A up") + block(
        "op", f"{verb}: rod, at 0 mm"
    )
    made = work_out(method(bush + rod + join, front="piece: bush\n"))
    assert not made.method.problems, [str(p) for p in made.method.problems]
    one = made.live.operations[-1]
    assert one.plan.join is not None
    assert one.plan.join.how == how
    assert one.after.volume == pytest.approx(ring(40, 0, 60), rel=1e-6)
    assert set(one.after.bodies) == {"bush", "rod"}
    assert [c.key for c in made.method.operations[-1].cautions][: 1 if key else 0] == (
        [key] if key in ("pressing", "brazing", "welding", "retaining") else ["hot"] if key else []
    )


@pytest.mark.parametrize(
    ("verb", "minutes"),
    [("deburr", 1.0), ("harden", 20.0), ("blue", 10.0), ("polish", 5.0), ("measure", 1.0), ("clean", 2.0)],
)
def test_verbs_without_metal_carry_time_and_words(verb: str, minutes: float) -> None:
    one = done(CHUCK, f"{verb}: the outside")
    assert one.volume == 0
    assert one.worked.minutes == minutes
    assert "the outside" in one.words.metric
    assert done(CHUCK, f"{verb}: the outside, for 7 min").worked.minutes == 7.0
