"""What does the raw skin of a casting ask: where it bears when it is first held, and how deep the first cut goes?

The skin is uneven, and hard with sand and scale. Work rocks on more than three points of it, and a tool that rubs in it
is blunt at once: the first cut goes under it in one pass.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.facts import told
from methodsheets.operations.say import MM, dia, dim
from methodsheets.vocabulary.holding import Grips, HolderForm
from methodsheets.vocabulary.process import Passes
from methodsheets.workpiece import skin_facing, skin_of_diameter, skin_taken

UNDER_SKIN = 1.0
"""mm: depth of a first cut that goes under the skin of a small casting (common practice, from memory)."""
WORTH = 1.0
"""mm² of skin that count."""
NEEDS_A_TRUE_SURFACE = (HolderForm.SOFT_JAWS, HolderForm.COLLET)
"""Holders that close on their size and no other."""
THREE_POINTS = "three points of the raw skin: shim it where it rocks, and clamp above a point, not between two"


def check_bearing(setup: OpenSetup) -> None:
    """Where a casting is first held, on its raw skin; nothing for stock that is true."""
    held = setup.held
    if not setup.piece.rough or held.holder is None or not held.way:
        return
    raw = any(area > WORTH for area in _skin_that_bears(setup))
    if not raw:
        setup.judge("raw-skin", True, "it is held on what was cut before")
        return
    row = held.way.row
    if row.form in NEEDS_A_TRUE_SURFACE or row.closes or row.grips is Grips.INSIDE:
        remedy = "hold it in a chuck with jaws, or clamp it, until that surface is cut"
        words = f"the raw skin of a casting is uneven, and the {held.words} needs a true surface"
        setup.judge("raw-skin", False, words, remedy=remedy)
        return
    setup.found.facts.append(told("bears_on", "Bears on", THREE_POINTS))
    words = f"held on its raw skin; the allowance of {dim(setup.piece.allowance)} {MM} takes up what it is out"
    setup.judge("raw-skin", True, words, tight=True)


def _skin_that_bears(setup: OpenSetup) -> Iterator[float]:
    """Area in mm² of raw skin on each face or round surface that the holder takes hold of or that lies on it."""
    held, work = setup.held, setup.before
    table = held.way is not None and held.way.row.grips is Grips.TABLE
    if held.pose is not None:
        (tx, ty, tz), (ux, uy, uz) = held.pose.frame.rotation[:, 1:].T.tolist()
        sides = ((-ux, -uy, -uz),) if table else ((tx, ty, tz), (-tx, -ty, -tz))
        yield from (skin_facing(work, side) for side in sides)
    elif held.holding is not None and table:
        out = held.holding.frame(work.ends)
        yield skin_facing(work, (0.0, 0.0, math.copysign(1.0, out.z_of(1.0) - out.z_of(0.0))))
    elif held.holding is not None:
        yield skin_of_diameter(work, held.holding.diameter or 0.0)


def check_skin(done: WorkedOperation) -> None:
    """A cut in the raw skin of a casting goes under it, and in its first pass."""
    plan, cut = done.plan, done.cut
    row = plan.cut.process.row
    if not done.piece.rough or cut is None:
        return
    there = plan.sketch.from_diameter
    if row.drops and row.passes is Passes.BORED and there > 0 and skin_of_diameter(done.before, there) > WORTH:
        words = f"a {done.tool_name} follows the cored hole {dia(there)}, which is never true"
        done.judge("skin", True, f"{words}: bore it with a bar where it must lie right", tight=True)
        return
    if row.passes not in (Passes.TURNED, Passes.MILLED):
        return
    if skin_taken(cut) <= WORTH:
        return
    deep, first = plan.cut.infeed, done.worked.passes[0].depth if done.worked.passes else None
    least = min(UNDER_SKIN, done.piece.allowance or UNDER_SKIN)
    words = f"it takes {dim(round(deep, 2))} {MM} off the raw skin"
    if deep < least - 1e-6:
        words += f": less than {dim(least)} {MM} rubs in it"
        done.judge("skin", False, words, remedy=f"leave it for a cut of {dim(least)} or more, or cut deeper")
    elif first is not None and first.value < least - 1e-6:
        words += f", {dim(round(first.value, 2))} {MM} of it in the first pass: go {dim(least)} deep at once"
        done.judge("skin", True, words, tight=True)
    else:
        done.judge("skin", True, f"{words}, and the first pass goes under it")
