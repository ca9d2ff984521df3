"""What does the rotary table show from above: its graduation, the holder, the work, the places of the cut?"""

from __future__ import annotations

import math

import numpy as np
import shapely

from methodfigures.paper import dimensions as dim
from methodfigures.paper import text as lettering
from methodfigures.paper.palette import JAW, TINT, TOOL
from methodfigures.paper.shapes import arc, circle, polygon
from methodfigures.paper.sheet import FINE, HATCH, NARROW, Layer
from methodfigures.setups import inside_thread
from methodfigures.setups.rotary.stage import OUTER, RotaryStage, cutter_r
from methodfigures.setups.standing import box_of, direction, free_number, free_text, hexagon, is_free, piece, signed
from methodfigures.solids.views import draw_look
from methodtooling import fixtures

LEADER_AT = 135.0
BESIDE = ("flat", "round", "slot", "keyway")
"""What is milled with the cutter beside the work, and has no pitch circle."""


def draw_plan(stage: RotaryStage) -> None:
    """Table, holder, work and cutter from above, and the angle at which the table stands."""
    spec, sheet = stage.spec, stage.sheet
    place = stage.places()[1]
    _table(stage)
    _holder(stage)
    draw_look(sheet, stage.book.look(spec.after, stage.plan), place, z=3.0)
    if spec.verb != "graduate":
        seen = stage.book.ghost(spec.after, spec.removed, stage.plan).shown
        sheet.removed(place.shape(seen), 4.5, pitch=0.9)
    _over_work(stage)
    c, r = stage.centre, stage.swing * stage.scale
    x, y = float(c[0]), float(c[1])
    sheet.centre_line((x - r - 3, y), (x + max(stage.ring, r) - 3.6, y), 0)
    sheet.centre_line((x, y - r - 3), (x, y + r + 3), 0)
    if spec.radius > 0 and spec.verb not in BESIDE:
        _pitch_circle(stage)
    elif spec.verb != "graduate":
        _milled(stage)
    else:
        _scribed(stage)
    _angle(stage)
    _feed_words(stage)
    _places(stage)
    if not spec.plain_table:
        _numerals(stage)


# ---------------------------------------------------------------------- table
def _table(stage: RotaryStage) -> None:
    spec, sheet, c, r = stage.spec, stage.sheet, stage.centre, stage.ring
    sheet.circle(c, r, "narrow", 1.1, fill=TINT, ink=False)
    slots = [a - spec.angle for a in (45, 135, 225, 315)]  # they turn with the table
    if spec.plain_table:
        return
    sheet.circle(c, r - 3.4, "narrow", 1.2, width=FINE, ink=False)
    zero = -90.0 - spec.angle
    for d in range(0, 360, 5):
        q, long = direction(zero + d), 3.4 if d % 30 == 0 else 2.4 if d % 10 == 0 else 1.5
        sheet.lines([[c + q * (r - long), c + q * r]], HATCH if d % 30 == 0 else FINE, 1.25, ink=False)
    for at in slots:
        q = direction(at)
        n = np.array([-q[1], q[0]]) * 2.0
        lines = [[c + q * 6 + n * s, c + q * (r - 3.6) + n * s] for s in (-1, 1)]
        sheet.lines(lines, HATCH, 1.15, ink=False)
    x, y = float(c[0]), float(c[1]) - r - 0.7
    sheet.area(polygon([(x, y), (x + 1.4, y - 3.4), (x - 1.4, y - 3.4)]), "ink", 3)
    words = spec.words("reading", f"table reads {spec.degrees(spec.angle % 360)}")
    sheet.text(c[0], c[1] - r - 7.4, words)


def _numerals(stage: RotaryStage) -> None:
    """Figures of the graduation, left out where something else stands or the index points."""
    spec, sheet, c = stage.spec, stage.sheet, stage.centre
    for d in range(0, 360, 30):
        at = d - 90.0 - spec.angle
        x, y = c + direction(at) * (stage.ring + 2.8) - (0, lettering.HEIGHT / 2)
        room = box_of(x, y, str(d), lettering.HEIGHT)
        if abs(signed(at + 90.0)) > 3 and abs(signed(at + spec.angle)) > 4 and is_free(sheet, room):
            sheet.text(x, y, str(d))


# ---------------------------------------------------------------------- holder
def _holder(stage: RotaryStage) -> None:
    spec, sheet, c, k = stage.spec, stage.sheet, stage.centre, stage.scale
    r = spec.grip_diameter / 2 * k
    out = fixtures.bounds(stage.holder)[3] * k if stage.holder else 0.0
    if spec.holding == "collet":
        _bolts(stage, min(out + 3.4, stage.ring - 7.4))
        for size, fill in ((out, TINT), (out - 5 * k, TINT), (r + 17 * k, JAW)):
            sheet.circle(c, size, "narrow", 1.4, fill=fill, ink=False)
    elif spec.holding in ("three-jaw", "four-jaw", "soft jaws"):
        body = stage.holder[0].bounds[3] * k
        sheet.circle(c, min(body, stage.ring), "narrow", 1.4, fill=TINT, ink=False)
        for a in (45, 135, 225, 315) if spec.holding == "four-jaw" else (90, 210, 330):
            _jaw(stage, a - spec.angle, r, min(out, stage.ring - 0.5))
    elif spec.holding == "clamps":
        for a in (180, 115, 245):
            _strap(stage, a - spec.angle, r)


def _bolts(stage: RotaryStage, at: float) -> None:
    for d in (a - stage.spec.angle for a in (45, 135, 225, 315)):
        p = stage.centre + direction(d) * at
        stage.sheet.circle(p, 3.2, "narrow", 1.32, fill=TINT, width=HATCH, ink=False)
        head = hexagon(p, 4.2, d)
        stage.sheet.area(head, JAW, 1.34)
        stage.sheet.outline(head, "narrow", 1.36, width=HATCH, ink=False)


def _jaw(stage: RotaryStage, angle: float, near: float, far: float) -> None:
    q = direction(angle)
    n = np.array([-q[1], q[0]])
    half = min(max(0.4 * near, 2.6), 5.5)
    nose = min(near * 0.9 + 1.2, near + 2.0)
    shape = polygon(
        stage.centre
        + np.array(
            [
                q * near * 0.97 + n * half * 0.6,
                q * nose + n * half,
                q * far + n * half,
                q * far - n * half,
                q * nose - n * half,
                q * near * 0.97 - n * half * 0.6,
            ]
        )
    )
    stage.sheet.area(shape, JAW, 1.6)
    stage.sheet.outline(shape, "narrow", 1.65, ink=False)
    step = [stage.centre + q * (near + 0.45 * (far - near)) + n * half * s for s in (-1, 1)]
    stage.sheet.lines([step], HATCH, 1.66, ink=False)


def _strap(stage: RotaryStage, angle: float, r: float) -> None:
    q = direction(angle)
    n = np.array([-q[1], q[0]]) * 2.6
    far = min(r + 14.0, stage.ring - 4)
    shape = polygon(stage.centre + np.array([q * (r - 3.2) + n, q * far + n, q * far - n, q * (r - 3.2) - n]))
    piece(stage.sheet, shape, fill=JAW, z=5.2)
    c = stage.centre + q * (r + 4.5)
    piece(stage.sheet, hexagon(c, 3.8), fill=JAW, z=5.5)


def _over_work(stage: RotaryStage) -> None:
    """Nut and washer of a mandrel."""
    if stage.spec.holding != "mandrel":
        return
    sheet, c, r = stage.sheet, stage.centre, stage.spec.grip_diameter / 2 * stage.scale
    sheet.circle(c, 1.55 * r, "narrow", 6.0, fill=TINT, ink=False)
    nut = hexagon(c, 2 * 1.32 * r * math.cos(math.radians(30)), 0)
    sheet.area(nut, JAW, 6.1)
    sheet.outline(nut, "narrow", 6.2, ink=False)
    sheet.circle(c, 0.8 * r, "narrow", 6.3, fill=TINT, ink=False)
    sheet.lines([arc(c, 0.68 * r, 30, 300)], FINE, 6.4, ink=False)


# ---------------------------------------------------------------------- angle
def _angle(stage: RotaryStage) -> None:
    """The work's 0° mark, and the angle from it to the place of the cut."""
    spec, sheet, c = stage.spec, stage.sheet, stage.centre
    at = signed(-spec.angle)
    outer = OUTER[0] <= at <= OUTER[1]
    words = spec.words("zero", "0°")
    q = direction(at)
    start = c + q * min(stage.swing * stage.scale, stage.ring - 9) * 0.25
    if outer:
        end = c + q * (stage.ring + 10.5)
        sheet.centre_line(start, end, 0)
        _zero_words(stage, at, words)
    else:
        sheet.centre_line(start, c + q * (stage.ring - 3.8), 0)
        _inner_words(stage, at, words)
    if abs(at) < 0.5:
        return
    text = spec.words("angle", spec.degrees(signed(spec.angle)))
    radius = stage.ring + 8.0 if outer else _inner_arc(stage)
    low, high = min(at, 0.0), max(at, 0.0)
    p = arc(c, radius, low, high)
    sheet.lines([p], NARROW, Layer.AXIS + 0.1)
    dim.head(sheet, p[0], p[0] - p[1])
    dim.head(sheet, p[-1], p[-1] - p[-2])
    if outer:
        sheet.lines([[c + np.array([stage.ring + 4.5, 0]), c + np.array([radius + 2, 0])]], NARROW, Layer.AXIS)
    w = lettering.width(text)
    spots = []
    for share in (
        (0.5, 0.38, 0.62, 0.26, 0.74, 0.16, 0.84)
        if abs(at) > 24
        else (1.0 + 11 / abs(at), 1.0 + 18 / abs(at), -14 / abs(at))
    ):
        m = math.radians(at * share)
        for side in (1, -1) if abs(at) > 24 else (0,):
            reach = abs(math.cos(m)) * w / 2 + abs(math.sin(m)) * 1.3 + 1.6
            for more in (0.0, 2.5, 5.0, 8.0):
                x, y = c + direction(at * share) * (radius + (side if outer else -side) * (reach + more))
                spots.append((float(x), float(y) - lettering.HEIGHT / 2, "centre"))
    free_text(sheet, spots, text)


def _inner_words(stage: RotaryStage, at: float, words: str) -> None:
    """The words at the 0° mark where it ends on the table: beside its line."""
    q = direction(at)
    w = lettering.width(words)
    spots = []
    for back in (7.5, 11.0, 15.0, 20.0):
        for way in (1, -1):
            n = np.array([-q[1], q[0]]) * way
            x, y = stage.centre + q * (stage.ring - back) + n * (2.2 + abs(n[0]) * w / 2)
            spots.append((float(x), float(y) - lettering.HEIGHT / 2, "centre"))
    free_text(stage.sheet, spots, words)


def _inner_arc(stage: RotaryStage) -> float:
    """Radius of an angle's arc inside the graduation, as far as can be from circles and holes."""
    spec, k = stage.spec, stage.scale
    taken = [stage.swing * k, stage.ring - 3.4]
    if spec.radius > 0:
        taken += [spec.radius * k + spec.diameter / 2 * k, spec.radius * k - spec.diameter / 2 * k - 4]
    tried = np.arange(0.55 * stage.ring, stage.ring - 5, 0.5)
    return float(max(tried, key=lambda r: min(abs(r - t) for t in taken)))


def _zero_words(stage: RotaryStage, at: float, words: str) -> None:
    x, y = stage.centre + direction(at) * (stage.ring + 11)
    if abs(at) < 14:
        stage.sheet.text(x + 0.8, y, words, align="left", level="middle")
    elif at > 60:
        stage.sheet.text(x, y + 0.8, words, align="centre" if at < 100 else "right")
    else:
        stage.sheet.text(x + 0.6, y + (0.4 if at > 0 else -2.6), words, align="left")


# ---------------------------------------------------------------------- the cut
def _pitch_circle(stage: RotaryStage) -> None:
    spec, sheet, c, k = stage.spec, stage.sheet, stage.centre, stage.scale
    big, r = spec.radius * k, max(spec.diameter / 2 * k, 0.5)
    sheet.outline(circle(c, big), "centre", 6.6, ink=False)
    for i, angle in enumerate(spec.angles):
        q = direction(angle - spec.angle)
        p = c + q * big
        sheet.centre_line(p - q * r, p + q * r, 1.4)
        if spec.pitch > 0 and i < spec.done and i != spec.at:
            inside_thread.from_its_end(sheet, p, inside_thread.root(spec.diameter, spec.pitch, k))
        if i >= spec.done and i != spec.at:
            sheet.outline(circle(p, r), "phantom", 6.6, width=HATCH, ink=False)
        if i == spec.at:
            sheet.circle(p, r, "narrow", 6.7, fill=TOOL)
            dim.turn_arrow(sheet, p, r + 1.7, 110, -70, z=6.8)
    tip = c + direction(LEADER_AT) * big
    x, y = c + direction(LEADER_AT) * (stage.ring + 5.5)
    words = spec.words("radius", f"R{spec.number(spec.radius)}")
    dim.leader(sheet, tip, (x, y), words, right=False)


def _places(stage: RotaryStage) -> None:
    """Numbers of the places on a pitch circle; of the first and the one being cut where they stand close."""
    spec, k = stage.spec, stage.scale
    count, big = len(spec.angles), spec.radius * k
    if count < 2 or spec.verb in (*BESIDE, "graduate") or big <= 0:
        return
    gap = 2 * math.pi * big / count
    for i, angle in enumerate(spec.angles):
        if gap > 8.5 or (i in (0, spec.at) and gap > 4) or i == spec.at:
            at = angle - spec.angle
            centre = stage.centre + direction(at) * big
            free_number(
                stage.sheet, centre, max(spec.diameter / 2 * k, 0.5) + 0.8, str(i + 1), weight="bold", first=at + 160
            )


def _milled(stage: RotaryStage) -> None:
    """Cutter at the start (solid) and the end (phantom) of its path, feed, distance from the axis."""
    spec, sheet, k = stage.spec, stage.sheet, stage.scale
    d = spec.cutter_diameter or spec.width
    r, x = d / 2 * k, cutter_r(stage)
    if spec.verb == "round":
        _goes_round(stage, r, x)
        return
    if spec.verb == "flat":
        half = math.sqrt(max(stage.swing**2 - spec.radius**2, 0.0)) + d / 2 + 2 / k
        a, b = (stage.xp(x), stage.yp(-half)), (stage.xp(x), stage.yp(half))
        feed = (b[0] + r + 4.0, stage.yp(0) - 15), (b[0] + r + 4.0, stage.yp(0) - 3)
        if spec.climb:
            a, b, feed = b, a, (feed[1], feed[0])
        turn = (200.0, 70.0)
    else:
        out, last = stage.swing + d / 2 + 2 / k, (-stage.swing - d / 2 - 2 / k if spec.in_face else x)
        a, b = (stage.xp(out), stage.yp(0)), (stage.xp(last), stage.yp(0))
        y = stage.yp(0) + r + 5
        feed, turn = ((stage.xp(stage.swing) + 13, y), (stage.xp(stage.swing) + 1, y)), (-60.0, -200.0)
    sheet.circle(a, r, "narrow", Layer.TOOL, fill=TOOL, width=0.35)
    sheet.centre_mark(a, r, 1.2)
    dim.turn_arrow(sheet, a, r + 1.6, *turn)
    if math.dist(a, b) > 0.8:
        sheet.outline(circle(b, r), "phantom", Layer.TOOL)
    dim.block_arrow(sheet, *feed)
    stage.feed_at = feed
    if spec.radius > 0 and not spec.in_face:
        _distance(stage)


def _goes_round(stage: RotaryStage, r: float, x: float) -> None:
    """Cutter where it meets the work, which the table turns past it: against the cutter's turn, or with it to climb."""
    spec, sheet, c = stage.spec, stage.sheet, stage.centre
    at = (stage.xp(x), stage.yp(0))
    sheet.circle(at, r, "narrow", Layer.TOOL, fill=TOOL, width=0.35)
    sheet.centre_mark(at, r, 1.2)
    dim.turn_arrow(sheet, at, r + 1.6, 200.0, 70.0)
    radius = max(stage.swing * stage.scale + 2.5, stage.ring - 6.0)
    begin, end = (-75.0, -35.0) if spec.climb else (-35.0, -75.0)
    dim.turn_arrow(sheet, c, radius, begin, end)
    tip = c + direction(-55.0) * (radius + 3.0)
    stage.feed_at = ((float(tip[0]), float(tip[1])), (float(tip[0]), float(tip[1])))
    if spec.radius > 0:
        _distance(stage)


def _feed_words(stage: RotaryStage) -> None:
    """The word at the feed arrow, beside it where nothing else stands."""
    if stage.feed_at is None:
        return
    (x0, y0), (x1, y1) = stage.feed_at
    w, x, y = stage.spec.words("feed", "feed"), (x0 + x1) / 2, (y0 + y1) / 2
    spots = [(x, max(y0, y1) + d, "centre") for d in (2.8, 4.5)] + [(x, min(y0, y1) - d, "centre") for d in (5.5, 8.0)]
    spots += [(max(x0, x1) + 3.0, y + d, "left") for d in (-1.2, 3.0, -5.5, 6.0, -9.0, 9.5, -13.0, 13.0, 17.0)]
    spots += [(min(x0, x1) - 3.0, y + d, "right") for d in (-1.2, 3.0, -5.5, 6.0, -9.0, 9.5, -13.0, 13.0, 17.0)]
    if x0 == x1:
        spots = spots[4:] + spots[:4]
    free_text(stage.sheet, spots, w)


def _distance(stage: RotaryStage) -> None:
    """From the axis to the flat, or to the bottom of the slot."""
    spec, k = stage.spec, stage.scale
    y = float(stage.centre[1]) + stage.swing * k + 4.4
    half = math.sqrt(max(stage.swing**2 - spec.radius**2, 0.0)) if spec.verb in ("flat", "round") else spec.width / 2
    ends = (stage.xp(0), stage.yp(stage.swing) + 3), (stage.xp(spec.radius), stage.yp(half))
    dim.linear(stage.sheet, *ends, y, spec.words("radius", spec.number(spec.radius)), side=-1)


def _scribed(stage: RotaryStage) -> None:
    """Scriber at the rim."""
    x = stage.xp(stage.swing)
    y = float(stage.centre[1])
    point = shapely.Polygon([(x, y), (x + 6.4, y + 2), (x + 26, y + 2), (x + 26, y - 2), (x + 6.4, y - 2)])
    end = min(x + 22.0, float(stage.centre[0]) + stage.ring + 6.0)  # short of the words at the 0° mark
    piece(stage.sheet, point, (0, 0, end, 999), TOOL, z=Layer.TOOL)
