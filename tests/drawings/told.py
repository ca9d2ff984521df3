"""Is every number that stands in a figure a number of the record that the figure is about, in that unit?

Figures along an axis or round a circle are read as a scale: they are true when they keep step with their places.  Scales
of the drawing (1 : 2) and the letters of sections are no numbers of a method.
"""

from __future__ import annotations

import html
import itertools
import operator
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import msgspec
import numpy as np

from methodsheets.drawings.explaining import calculated
from methodsheets.drawings.finished.made import Made
from methodsheets.method.job import Evaluated
from methodsheets.sheet.model import Drawing
from methodsheets.trade.fits.fits import Fit
from methodsheets.trade.fits.press_fits import PressFit
from methodsheets.workpiece import mass, unbalance

TEXT = re.compile(r'<text x="([-\d.]+)" y="([-\d.]+)"([^>]*)>(.*?)</text>')
_LENGTH = re.compile(r'textLength="([\d.]+)"')
NUMBER = re.compile(
    r"(?<![A-Za-z\d.,])(?P<sign>[-+±]?)(?P<kind>Ø|R|M)?(?P<value>\d+(?:\.\d+)?)"
    r"(?:\s?(?P<unit>N/mm²|N·m|g·mm|mm³|cm³|µm|kN|mm|°|%|g|turns?)(?![A-Za-z·/]))?(?![A-Za-z\d.]*[A-Za-z\d])"
)
RANGE = re.compile(r"([\d.]+) to ([\d.]+) (µm|kN|N/mm²)")
STANDARD = re.compile(r"ISO \d+(-\S*)?")
OF_DRAWING = re.compile(r"^[\d.]+ : [\d.]+(, shortened)?$")
COUNT = re.compile(r"(\d+) × (?=Ø|M)")
NO_RECORD = {"working", "choices", "line", "block", "id", "inch", "cautions", "problems", "drawings", "cutting_minutes"}
"""Fields that say how a number came about, what else could be done, or where it was written."""
EXACT = {"mm", "°", "turns"}
NEAR = 5e-4
"""mm and degrees: what is printed has three places at most."""
OTHER_NAMES = {"deg": "°", "1": "", "g*mm": "g·mm", "N/mm^2": "N/mm²", "MPa": "N/mm²", "N*m": "N·m", "turn": "turns"}


@dataclass(frozen=True)
class Text:
    """One line of lettering of a figure: where it begins on the paper and how long it is, mm, and whether it is bold."""

    x: float
    y: float
    length: float
    bold: bool
    words: str

    @property
    def middle(self) -> float:
        return round(self.x + self.length / 2, 1)

    @property
    def right(self) -> float:
        return round(self.x + self.length, 1)


def texts(svg: str) -> list[Text]:
    """All lettering of a figure."""
    found = TEXT.findall(svg)
    assert len(found) == svg.count("<text")
    return [
        Text(float(x), float(y), float(_LENGTH.findall(more)[0]), "bold" in more, _plain(html.unescape(w)))
        for x, y, more, w in found
    ]


def _plain(words: str) -> str:
    return words.replace("\u202f", " ").replace("\u2212", "-")


@dataclass(frozen=True)
class Said:
    """A number as it is printed."""

    unit: str
    value: float
    places: int

    def is_one_of(self, known: dict[str, set[float]]) -> bool:
        near = NEAR if self.unit in EXACT else 0.5001 * 10.0**-self.places
        return any(abs(self.value - one) <= near for one in known.get(self.unit, ()))


def said(words: str, unit: str = "mm") -> Iterator[Said]:
    """Every number of some words; `unit` is that of a number without one."""
    for found in NUMBER.finditer(RANGE.sub(r"\1 \3 to \2 \3", STANDARD.sub("", _plain(words)))):
        value = float(found["value"]) * (-1.0 if found["sign"] == "-" else 1.0)
        named = "M" if found["kind"] == "M" else "mm" if found["kind"] else found["unit"] or unit
        yield Said(OTHER_NAMES.get(named, named), value, len(found["value"].partition(".")[2]))


class Known:
    """The numbers of a record by their unit."""

    def __init__(self, *records: Any) -> None:
        self.by_unit: dict[str, set[float]] = {}
        for record in records:
            self._walk(msgspec.to_builtins(record))

    def add(self, unit: str, *values: float) -> None:
        self.by_unit.setdefault(unit, set()).update(float(v) for v in values)

    def _walk(self, record: Any) -> None:
        if isinstance(record, dict):
            if isinstance(record.get("value"), int | float) and "unit" in record:
                unit = record["unit"]
                self.add(OTHER_NAMES.get(unit, unit), record["value"])
            for key, value in record.items():
                if key == "removed_cm3":
                    self.add("cm³", value)
                    self.add("mm³", value * 1000.0)
                elif key not in NO_RECORD:
                    self._walk(value)
        elif isinstance(record, list | tuple):
            for one in record:
                self._walk(one)
        elif isinstance(record, str):
            for one in said(record):
                self.add(one.unit, one.value)


def is_scale(numbers: list[tuple[float, float, float]]) -> bool:
    """Whether values (third) keep step with their places along a line, or as degrees round a circle."""
    at = np.array(numbers)
    if len(at) < 4:
        return False
    ones = np.ones(len(at))
    for axis in (0, 1):
        if np.ptp(at[:, 1 - axis]) < 0.5 and np.ptp(at[:, axis]) > 1.0:
            return _fits(np.column_stack([at[:, axis], ones]), at[:, 2], 0.02 * np.ptp(at[:, 2]))
    turned = np.radians(at[:, 2])
    c, s, o = np.cos(turned), np.sin(turned), 0 * ones
    for way in (1, -1):  # x = cx + a cos v - b sin v, y = cy + way (b cos v + a sin v)
        rows = np.vstack([np.column_stack([ones, o, c, -s]), np.column_stack([o, ones, way * s, way * c])])
        if _fits(rows, np.concatenate([at[:, 0], at[:, 1]]), 1.0):
            return True
    return False


def _fits(rows: np.ndarray, wanted: np.ndarray, near: float) -> bool:
    best = np.linalg.lstsq(rows, wanted, rcond=None)[0]
    return bool(np.abs(rows @ best - wanted).max() < near)


def all_untold(evaluated: Evaluated, pictures: Sequence[tuple[Drawing, str]]) -> list[tuple[str, list[str]]]:
    """(key, what is untold) of every figure that says what its record does not."""
    records = {scheme: record_of(evaluated, scheme) for scheme in {drawing.scheme for drawing, _ in pictures}}
    found = [(drawing.key, untold(evaluated, records[drawing.scheme], drawing, svg)) for drawing, svg in pictures]
    return [(key, words) for key, words in found if words]


def untold(evaluated: Evaluated, known: Known, drawing: Drawing, svg: str) -> list[str]:
    """The numbers of a figure that `known` does not have, each in its words; and counts of holes that are not its own."""
    lettering = texts(svg)
    for rim in (one.value for t in lettering for one in said(t.words) if re.fullmatch(r"R[\d.]+", t.words)):
        known.add("g", *(amount / rim for amount in known.by_unit.get("g·mm", ())))
    return [*_numbers(known, lettering, drawing), *_counts(evaluated, lettering, drawing.scheme)]


def _counts(evaluated: Evaluated, lettering: list[Text], scheme: str) -> Iterator[str]:
    """Counts before a diameter, and the rows of a list with those that it leaves out, against the places of the cut."""
    for done in evaluated.live.operations:
        if scheme == f"op-{done.number}":
            holes = len(done.plan.sketch.points) or len(done.plan.sketch.angles)
            counts = [int(n) for text in lettering for n in COUNT.findall(text.words)]
            rows = sum(text.words.endswith((" turns", " turn")) for text in lettering)
            more = [int(text.words[2:]) for text in lettering if re.fullmatch(r"\+ \d+", text.words)]
            if rows and done.plan.sketch.diameter and done.plan.sketch.angles:
                counts.append(rows + sum(more))
            yield from (f"{n} places for {holes}" for n in counts if n != holes)


def _numbers(known: Known, lettering: list[Text], drawing: Drawing) -> list[str]:
    unit = (
        "µm" if any(t.words == "micrometres" for t in lettering) else "N/mm²" if drawing.kind == "press-fit" else "mm"
    )
    scales = _scales(lettering)
    return [
        f"{one.value:g} {one.unit} in '{text.words}'"
        for text in lettering
        if text not in scales and not OF_DRAWING.match(text.words)
        for one in said(text.words, unit)
        if not any(each.is_one_of(known.by_unit) for each in _readings(one, text, unit, drawing))
    ]


def _readings(one: Said, text: Text, unit: str, drawing: Drawing) -> Iterator[Said]:
    """What a number may be: limits among micrometres are millimetres, and so are lengths among stresses; a number that
    stands alone may be that of a row, a jaw or an operation.
    """
    yield one
    if one.unit == unit and (drawing.kind == "press-fit" or one.places == 3):
        yield replace(one, unit="mm")
    if one.unit == unit and (text.bold or text.words == f"{one.value:g}"):
        yield replace(one, unit="number")


def _scales(lettering: list[Text]) -> list[Text]:
    """Figures along an axis or round a circle."""
    plain = [t for t in lettering if re.fullmatch(r"-?[\d.]+°?", t.words) and not t.bold]
    found: list[Text] = []
    for axis in ("y", "right", "middle"):
        place = operator.attrgetter(axis)
        for _, group in itertools.groupby(sorted(plain, key=place), key=place):
            for _, row in itertools.groupby(sorted(group, key=_in_degrees), key=_in_degrees):
                found += _kept(list(row))
    ring = [t for t in plain if not _in_degrees(t) and float(t.words) % 30 == 0 and float(t.words) < 360]
    return found + _kept(ring)


def _in_degrees(text: Text) -> bool:
    return text.words.endswith("°")


def _kept(group: list[Text]) -> list[Text]:
    return group if is_scale([(t.middle, t.y, float(t.words.rstrip("°"))) for t in group]) else []


def record_of(evaluated: Evaluated, scheme: str) -> Known:
    """What a figure is about: a calculation, a set-up, an operation in its set-up, or the whole method."""
    kind, _, name = scheme.partition("-")
    method = evaluated.method
    if kind == "calc":
        return _calculated(evaluated, name)
    for setup in method.setups:
        if kind == "setup" and name == str(setup.number):
            known = Known(replace(setup, operations=()))
            known.add("number", 1, 2, 3, 4)  # jaws
            return known
        for operation in setup.operations:
            if kind == "op" and name == str(operation.number):
                return _cut(Known(operation, setup.words, setup.facts), evaluated, operation.number)
    return _whole(evaluated)


def _calculated(evaluated: Evaluated, name: str) -> Known:
    """A calculation with what went into it, and both parts of a fit."""
    (line,) = (c for c in evaluated.method.calculations if c.name == name)
    known = Known(line, line.working.plain)
    raw = next(raw for found, _, raw in calculated(evaluated.live) if found == name)
    for part in (raw.hole, raw.shaft) if isinstance(raw, Fit) else ():
        known.add("mm", part.lower, part.upper, part.lower_deviation, part.upper_deviation)
    if isinstance(raw, PressFit):  # in a thick ring pull and pressure have one sum everywhere (Lamé)
        known.add("N/mm²", raw.hub_hoop_max - raw.pressure_max)
    known.add("µm", *(1000.0 * mm for mm in known.by_unit["mm"]))
    known.add("kN", *(newton / 1000.0 for newton in known.by_unit.get("N", ())))
    return known


def _cut(known: Known, evaluated: Evaluated, number: int) -> Known:
    """What the operation itself has of its cut: where it begins and ends, how deep it goes, where its holes are; and how
    long the work is by then, and how far it stands out.
    """
    held, done = next((s, o) for s in evaluated.live.setups for o in s.operations if o.number == number)
    sketch = done.plan.sketch
    known.add("mm", sketch.start, sketch.end, sketch.end - sketch.start, sketch.diameter, sketch.from_diameter)
    known.add("mm", sketch.radius, sketch.size, sketch.end_diameter or 0.0, *(sketch.box or ()))
    known.add("mm", *itertools.chain.from_iterable(sketch.points))
    known.add("°", 0.0, *sketch.angles)
    known.add("number", *range(1, 1 + max(len(sketch.angles), len(sketch.points))))
    length = done.before.ends.length
    known.add("mm", length, held.held.stick_out - held.before.ends.length + length)
    if done.plan.cut.pitch:  # ISO 68-1 and ISO 724: 60 degrees, and d - 0.6495 P at the flanks
        known.add("°", 60.0)
        known.add("mm", round(sketch.diameter - 0.6495 * done.plan.cut.pitch, 3))
    return known


def _whole(evaluated: Evaluated) -> Known:
    """Everything the method says, the share of metal that stays, and the balance before and after each cut."""
    known, live, totals = Known(evaluated.method), evaluated.live, evaluated.method.totals
    known.add("number", *(setup.number for setup in evaluated.method.setups))
    known.add("number", *(done.number for done in live.operations))
    if totals and totals.stock_mass and totals.finished_mass:
        known.add("%", 100.0 * totals.finished_mass.value / totals.stock_mass.value)
    made = Made.of(live, live.pieces[live.main])
    levels = sorted({round(f.level * float(f.normal[2]), 3) for f in made.features.flats if f.along(2)})
    known.add("mm", *(b - a for a, b in itertools.combinations(levels, 2)))
    for done in live.operations:
        sketch = done.plan.sketch
        if sketch.end_diameter is not None and abs(sketch.end_diameter - sketch.diameter) > NEAR:
            known.add("mm", round((sketch.end - sketch.start) / abs(sketch.end_diameter - sketch.diameter), 3))
        for state in (done.before, done.after) if done.station.holding and done.volume > 0 else ():
            found = unbalance(state)
            known.add("g·mm", found.amount)
            known.add("mm", round(found.eccentricity, 2))
            known.add("g", mass(state).grams, found.amount)
    return known
