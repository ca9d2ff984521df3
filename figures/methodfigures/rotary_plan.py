"""What does the rotary table show from above: its graduation, the holder, the work, the places of the cut?"""
from __future__ import annotations

import math

import numpy as np
import shapely

from methodfigures import dimensions as dim
from methodfigures import fixtures
from methodfigures import text as lettering
from methodfigures.palette import JAW, TINT, TOOL
from methodfigures.rotary_stage import RotaryStage, cutter_r
from methodfigures.shapes import arc, circle, polygon
from methodfigures.sheet import FINE, HATCH, NARROW, Layer
from methodfigures.standing import direction, hexagon, piece
from methodfigures.views import draw_look

LEADER_AT = 135.0


def signed(angle: float) -> float:
    """An angle from −180 to 180."""
    a = (angle + 180.0) % 360.0 - 180.0
    return 180.0 if a == -180.0 else a


def draw_plan(stage: RotaryStage) -> None:
    """Table, holder, work and cutter from above, and the angle at which the table stands."""
    spec, sheet = stage.spec, stage.sheet
    place = stage.places()[1]
    _table(stage)
    _holder(stage)
    draw_look(sheet, stage.book.look(spec.after, stage.plan), place, z=3.0)
    if spec.verb != "graduate":
        sheet.removed(place.shape(stage.book.silhouette(spec.removed, stage.plan)), 4.5, pitch=0.9)
    _over_work(stage)
    c, r = stage.centre, stage.swing * stage.scale
    sheet.centre_line(c - (r + 3, 0), c + (max(stage.ring, r) - 3.6, 0), 0)
    sheet.centre_line(c - (0, r + 3), c + (0, r + 3), 0)
    _angle(stage)
    if spec.radius > 0 and spec.verb not in ("flat", "slot", "keyway"):
        _pitch_circle(stage)
    elif spec.verb != "graduate":
        _milled(stage)
    else:
        _scribed(stage)


# ---------------------------------------------------------------------- table
def _table(stage: RotaryStage) -> None:
    spec, sheet, c, r = stage.spec, stage.sheet, stage.centre, stage.ring
    sheet.circle(c, r, "narrow", 1.1, fill=TINT, ink=False)
    slots = (45, 135, 225, 315)
    if spec.plain_table:
        return
    sheet.circle(c, r - 3.4, "narrow", 1.2, width=FINE, ink=False)
    zero = -90.0 - spec.angle
    for d in range(0, 360, 5):
        q, long = direction(zero + d), 3.4 if d % 30 == 0 else 2.4 if d % 10 == 0 else 1.5
        sheet.lines([[c + q * (r - long), c + q * r]], HATCH if d % 30 == 0 else FINE, 1.25, ink=False)
    skip = [-90.0, -spec.angle] + ([LEADER_AT] if spec.radius > 0 else [])
    for d in range(0, 360, 30):
        at = zero + d
        if all(abs(signed(at - s)) > (5 if s != -90 else 3) for s in skip):
            x, y = c + direction(at) * (r + 2.8)
            sheet.text(x, y, str(d), lettering.SMALL, level="middle")
    for d in slots:
        q = direction(d)
        n = np.array([-q[1], q[0]]) * 2.0
        lines = [[c + q * 6 + n * s, c + q * (r - 3.6) + n * s] for s in (-1, 1)]
        sheet.lines(lines, HATCH, 1.15, ink=False)
    p = c - (0, r + 0.7)
    sheet.area(polygon([p, p + (1.4, -3.4), p + (-1.4, -3.4)]), "ink", 3)
    words = spec.words("reading", f"table reads {spec.number(spec.angle)}°")
    sheet.text(c[0], c[1] - r - 8.4, words)


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
            _jaw(stage, a, r, min(out, stage.ring - 0.5))
    elif spec.holding == "clamps":
        for a in (180, 60, 300):
            _strap(stage, a, r)


def _bolts(stage: RotaryStage, at: float) -> None:
    for d in (45, 135, 225):
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
    shape = polygon(stage.centre + np.array([q * near * 0.97 + n * half * 0.6, q * nose + n * half, q * far + n * half,
                                             q * far - n * half, q * nose - n * half, q * near * 0.97 - n * half * 0.6]))
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
    outer = -58 <= at <= 120
    words = spec.words("zero", "0°")
    q = direction(at)
    start = c + q * min(stage.swing * stage.scale, stage.ring - 9) * 0.25
    if outer:
        end = c + q * (stage.ring + 10.5)
        sheet.centre_line(start, end, 0)
        _zero_words(stage, at, words)
    else:
        sheet.centre_line(start, c + q * (stage.ring - 3.8), 0)
        side = np.array([-q[1], q[0]]) * (1 if at > 0 or at < -90 else -1)
        x, y = c + q * (stage.ring - 7.5) + side * (2.2 + abs(side[0]) * lettering.width(words) / 2)
        sheet.text(x, y, words, level="middle", mask=True)
    if abs(at) < 0.5:
        return
    text = spec.words("angle", f"{spec.number(signed(spec.angle))}°".replace("-", "−"))
    radius = stage.ring + 8.0 if outer else _inner_arc(stage)
    low, high = min(at, 0.0), max(at, 0.0)
    p = arc(c, radius, low, high)
    sheet.lines([p], NARROW, Layer.AXIS + 0.1)
    dim.head(sheet, p[0], p[0] - p[1])
    dim.head(sheet, p[-1], p[-1] - p[-2])
    if outer:
        sheet.lines([[c + (stage.ring + 4.5, 0), c + (radius + 2, 0)]], NARROW, Layer.AXIS)
    m = at / 2 if abs(at) > 24 else (at + (10 if at < 0 else -10)) - (20 if at < 0 else -20)
    w = lettering.width(text)
    r = radius + (1 if outer else -1) * (1.6 + abs(math.cos(math.radians(m))) * w / 2 + abs(math.sin(math.radians(m))) * 1.3)
    x, y = c + direction(m) * r
    sheet.text(x, y, text, level="middle", mask=True)


def _inner_arc(stage: RotaryStage) -> float:
    """Radius of an angle's arc inside the graduation, as far as can be from circles and holes."""
    spec, k = stage.spec, stage.scale
    taken = [stage.swing * k, stage.ring - 3.4]
    if spec.radius > 0:
        taken += [spec.radius * k + spec.diameter / 2 * k, spec.radius * k - spec.diameter / 2 * k - 4]
    tried = np.arange(0.55 * stage.ring, stage.ring - 5, 0.5)
    return float(max(tried, key=lambda r: min(abs(r - t) for t in taken)))


def zero_box(stage: RotaryStage) -> float:
    """How far right the words at the 0° mark reach."""
    at = signed(-stage.spec.angle)
    if not -58 <= at <= 120:
        return 0.0
    return float((stage.centre + direction(at) * (stage.ring + 11))[0]) + 1 + lettering.width(stage.spec.words("zero", "0°"))


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
    count = len(spec.angles)
    gap = 2 * math.pi * big / max(count, 1)
    for i, angle in enumerate(spec.angles):
        q = direction(angle - spec.angle)
        p = c + q * big
        sheet.centre_line(p - q * r, p + q * r, 1.4)
        if i >= spec.done and i != spec.at:
            sheet.outline(circle(p, r), "phantom", 6.6, width=HATCH, ink=False)
        if i == spec.at:
            sheet.circle(p, r, "narrow", 6.7, fill=TOOL)
            dim.turn_arrow(sheet, p, r + 1.7, 110, -70, z=6.8)
        if count > 1 and (gap > 7 or i in (0, spec.at)):
            _number(stage, angle - spec.angle, big, r, i + 1)
    tip = c + direction(LEADER_AT) * big
    x, y = c + direction(LEADER_AT) * (stage.ring + 5.5)
    words = spec.words("radius", f"R{spec.number(spec.radius)}")
    dim.leader(sheet, tip, (x, y), words, right=False)


def _number(stage: RotaryStage, angle: float, big: float, r: float, number: int) -> None:
    """Number of a place, beside its centre line on the inner side of the pitch circle, or on the outer."""
    inner = big - r - 3.4
    nut = 1.55 * stage.spec.grip_diameter / 2 * stage.scale if stage.spec.holding == "mandrel" else 0.0
    radius = inner if inner > nut + 2.4 and inner > 5 else big + r + 3.4
    turn = math.degrees(2.4 / radius)
    x, y = stage.centre + direction(angle + turn) * radius
    stage.sheet.text(x, y, str(number), lettering.SMALL, level="middle", weight="bold", mask=True, z=Layer.TEXT)


def _milled(stage: RotaryStage) -> None:
    """Cutter at the start (solid) and the end (phantom) of its path, feed, distance from the axis."""
    spec, sheet, k = stage.spec, stage.sheet, stage.scale
    d = spec.cutter_diameter or spec.width
    r, x = d / 2 * k, cutter_r(stage)
    if spec.verb == "flat":
        half = math.sqrt(max(stage.swing**2 - spec.radius**2, 0.0)) + d / 2 + 2 / k
        a, b = (stage.x(x), stage.yp(-half)), (stage.x(x), stage.yp(half))
        feed = (b[0] + r + 4.0, stage.yp(0) - 15), (b[0] + r + 4.0, stage.yp(0) - 3)
        turn = (200.0, 70.0)
    else:
        out, last = stage.swing + d / 2 + 2 / k, (-stage.swing - d / 2 - 2 / k if spec.in_face else x)
        a, b = (stage.x(out), stage.yp(0)), (stage.x(last), stage.yp(0))
        y = stage.yp(0) + r + 5
        feed, turn = ((stage.x(stage.swing) + 13, y), (stage.x(stage.swing) + 1, y)), (-60.0, -200.0)
    sheet.circle(a, r, "narrow", Layer.TOOL, fill=TOOL, width=0.35)
    sheet.centre_mark(a, r, 1.2)
    dim.turn_arrow(sheet, a, r + 1.6, *turn)
    if math.dist(a, b) > 0.8:
        sheet.outline(circle(b, r), "phantom", Layer.TOOL)
    dim.block_arrow(sheet, *feed)
    words = spec.words("feed", "feed")
    if spec.verb == "flat":
        sheet.text(feed[1][0] + 0.9, feed[1][1] + 4.2, words, turn=90, align="left", mask=True)
    else:
        sheet.text(feed[0][0] - 5, feed[0][1] + 2.8, words, mask=True)
    if spec.radius > 0 and not spec.in_face:
        _distance(stage)


def _distance(stage: RotaryStage) -> None:
    """From the axis to the flat, or to the bottom of the slot."""
    spec, k = stage.spec, stage.scale
    y = float(stage.centre[1]) + stage.swing * k + 4.4
    half = math.sqrt(max(stage.swing**2 - spec.radius**2, 0.0)) if spec.verb == "flat" else spec.width / 2
    ends = (stage.x(0), stage.yp(stage.swing) + 3), (stage.x(spec.radius), stage.yp(half))
    dim.linear(stage.sheet, *ends, y, spec.words("radius", spec.number(spec.radius)), side=-1)


def _scribed(stage: RotaryStage) -> None:
    """Scriber at the rim."""
    x = stage.x(stage.swing)
    y = float(stage.centre[1])
    point = shapely.Polygon([(x, y), (x + 6.4, y + 2), (x + 26, y + 2), (x + 26, y - 2), (x + 6.4, y - 2)])
    piece(stage.sheet, point, (0, 0, x + 22, 999), TOOL, z=Layer.TOOL)
