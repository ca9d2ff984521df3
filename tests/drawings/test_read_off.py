"""Can the size and the place of everything that is cut be read off the drawing of the finished part?

The walk takes every verb of a block with each of its clauses, and looks at the surfaces that are left: each must follow
from the sizes, notes and tables of the drawing. Which faces there are comes from the solid, not from the method.
"""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest
from tests.method.bench import block, demo, method, work_out
from tests.method.test_planted_faults import ALL, home
from tests.vocabulary.clause_samples import BLOCK, VICE, Sample
from tests.vocabulary.clause_samples_on_blocks import ON_BLOCK

from methodfigures.part import PartDrawing
from methodsheets.drawings.finished import part_spec
from methodsheets.drawings.finished.made import Made
from methodsheets.drawings.solids import Drawn
from methodsheets.method.job import Evaluated
from methodsheets.workpiece.features import Flat, Round

NEAR = 2e-3


class Read:
    """What a reader of the drawing knows: places along each axis, points of tables, and all words."""

    def __init__(self, spec: PartDrawing, low: np.ndarray, high: np.ndarray) -> None:
        views = [v for v in (spec.front, spec.beside_left, spec.beside_right, spec.below) if v]
        self.words = [c.words for v in views for c in v.callouts] + [row[3] for row in spec.holes if len(row) == 4]
        self.along: list[set[float]] = [{float(low[i])} for i in range(3)]
        self.points: list[dict[int, float]] = []
        for size in itertools.chain.from_iterable(v.sizes for v in views):
            apart = np.abs(np.array(size.second) - np.array(size.first))
            said = re.search(r"[\d.]+", size.text)
            assert said is not None
            for i in np.flatnonzero(np.abs(apart - float(said[0])) < NEAR):
                self.along[i] |= {size.first[i], size.second[i]}
        heading: tuple[str, ...] = ()
        for row in spec.holes:
            if row[0] in ("Hole", "Point"):
                heading = row
            else:
                at = {"XYZ".index(heading[i]): float(row[i]) for i in (1, 2)}
                self.points.append({i: v + float(low[i]) for i, v in at.items()})

    def knows(self, axis: int, place: float) -> bool:
        return any(abs(place - one) < NEAR for one in self.along[axis])

    def has_point(self, **at: float) -> bool:
        wanted = {int(k[1:]): v for k, v in at.items()}
        if all(self.knows(i, v) for i, v in wanted.items()):
            return True
        return any(all(abs(p.get(i, np.inf) - v) < NEAR for i, v in wanted.items()) for p in self.points)

    def knows_in_a_row(self, axis: int, place: float) -> bool:
        """Whether it is known, or lies some teeth of a rack beyond a known one: its pitch is module times π (ISO 53)."""
        steps = [0.0]
        for row in (re.search(r"(\d+) gaps of a 20° rack of module ([\d.]+)", words) for words in self.words):
            steps += [math.pi * float(row[2]) * i for i in range(int(row[1]))] if row else []
        return any(self.knows(axis, place - step) for step in steps)

    def says(self, text: str) -> bool:
        return any(text in words for words in self.words)


def untold(evaluated: Evaluated) -> list[str]:
    """What the drawing leaves open."""
    spec = part_spec(Drawn(), evaluated.live)
    assert spec is not None
    job = evaluated.live
    made = Made.of(job, job.pieces[job.main])
    low, high = made.piece.work.state.bounds
    read = Read(spec, np.array(low), np.array(high))
    return [*_flats(made, read), *_rounds(made, read), *_arrows(made, spec)]


def _arrows(made: Made, spec: PartDrawing) -> Iterator[str]:
    """Notes of roundings whose arrow does not end on an arc of that radius."""
    for view in (spec.front, spec.beside_left, spec.beside_right, spec.below):
        for note in view.callouts if view else ():
            if found := re.search(r"^(?:\d+ × )?R([\d.]+)$", note.words):
                spot, radius = np.array([note.spot]), float(found[1])
                arcs = [r for r in made.features.rounds if r.part and abs(float(r.axis.radii(spot)[0]) - radius) < 0.01]
                if not any(float((spot[0] - r.spot()) @ np.array(r.towards)) > 0.9 * radius for r in arcs):
                    yield f"{note.words} points at nothing"


def _flats(made: Made, read: Read) -> Iterator[str]:
    flats = made.features.flats
    for flat in flats:
        square = [i for i in range(3) if flat.along(i)]
        if square:
            (axis,) = square
            if not read.knows(axis, flat.level * flat.normal[axis]) and not _in_a_hole(made, flat, axis):
                yield f"face square to {'xyz'[axis]} at {flat.level * flat.normal[axis]:.3f}"
        elif not _slope_told(flat, flats, read):
            yield f"slope {flat.normal} from {flat.low} to {flat.high}"


def _in_a_hole(made: Made, flat: Flat, axis: int) -> bool:
    middle = (np.array(flat.low) + np.array(flat.high)) / 2
    return any(
        r.inside and r.axis.parallel(np.eye(3)[axis].tolist()) and float(r.axis.radii(middle[None])[0]) < 0.01
        for r in made.features.rounds
    )


def _slope_told(flat: Flat, flats: tuple[Flat, ...], read: Read) -> bool:
    """Both ends of it are known; or the middle between it and its mirror image is, and a note has the rest."""
    a, b = (i for i in range(3) if abs(flat.normal[i]) > 1e-6)
    falls = flat.normal[a] * flat.normal[b] > 0
    ends = [
        (flat.low[a], flat.high[b] if falls else flat.low[b]),
        (flat.high[a], flat.low[b] if falls else flat.high[b]),
    ]
    known = [read.has_point(**{f"a{a}": u, f"a{b}": v}) for u, v in ends]
    if all(known):
        return True
    if any(read.knows(a, u) or read.knows(b, v) for u, v in ends) and read.says("hamfer"):
        return True
    for other in flats:
        for i, j in ((a, b), (b, a)):
            mirrored = abs(other.normal[i] + flat.normal[i]) < 1e-6 and abs(other.normal[j] - flat.normal[j]) < 1e-6
            if mirrored and abs(other.low[j] - flat.low[j]) < NEAR:
                middle = (min(other.low[i], flat.low[i]) + max(other.high[i], flat.high[i])) / 2
                if read.knows_in_a_row(i, middle) and read.says("°"):
                    return True
    return False


def _rounds(made: Made, read: Read) -> Iterator[str]:
    for one in (*made.holes, *made.outside):
        across = [i for i in range(3) if abs(one.axis.direction[i]) < 1e-9]
        at = {i: float(one.axis.point[i]) for i in across}
        r = one.diameter / 2
        text = f"R{r:g}" if one.part else f"{one.diameter:g}"
        if not read.says(text) and not _threaded(made, one):
            yield f"size of the round {text}"
        loose = [i for i, v in at.items() if not (one.part and any(read.knows(i, p) for p in (v - r, v + r)))]
        if loose and not read.has_point(**{f"a{i}": at[i] for i in loose}):
            yield f"place of the round {text} at {at}"


def _threaded(made: Made, one: Round) -> bool:
    return made.thread_on(one) is not None


def lines(verb: str, sample: Sample) -> Iterator[str]:
    yield sample.line
    for said in sample.clauses.values():
        yield sample.line + said if isinstance(said, str) else said[1]


CUT = [
    (verb, line)
    for verb, sample in ON_BLOCK.items()
    if not sample.before and not sample.front and verb not in ("mark out", "file", "saw off", "saw out")
    for line in dict.fromkeys(lines(verb, sample))
]


@pytest.mark.parametrize(("verb", "line"), CUT, ids=[f"{verb}: {line}" for verb, line in CUT])
def test_all_that_a_verb_cuts_can_be_read_off(verb: str, line: str) -> None:
    sample = replace(ON_BLOCK[verb], setup=VICE, stock=BLOCK)
    assert untold(work_out(sample.text(verb, line))) == []


TOGETHER = (
    "face: 1 mm",
    "pocket: from (10 mm, 6 mm), to (30 mm, 18 mm), deep 6 mm, corner 3 mm",
    "vee: wide 6 mm, middle 42 mm, along width",
    "slot: wide 5 mm, deep 3 mm, along length, middle 32 mm, from 8 mm, to 30 mm",
    "step: side right, wide 8 mm, deep 9 mm",
    "chamfer: 1 mm, side front",
    "drill: 5 mm, deep 9 mm, places (36 mm, 12 mm), (36 mm, 24 mm)",
)


def test_a_block_with_everything_can_be_read_off() -> None:
    setup = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 6 mm")
    text = method(setup + "".join(block("op", line) for line in TOGETHER), stock="plate 60 mm x 40 mm x 25 mm")
    assert untold(work_out(text)) == []


@pytest.mark.parametrize("slug", [slug for slug in ALL if "clamp" in slug or "tee" in slug or "bracket" in slug])
def test_the_demo_s_blocks_can_be_read_off(slug: str) -> None:
    assert untold(work_out(demo(slug), home(slug), slug)) == []
