"""How far does the half-made part bend under the cut, and what taper or barrel does that leave?

The bending is worked out from the sections of the solid as it stands before the cut: a stepped beam held in the chuck,
in chuck and centre, or between centres. The force is that of the deepest pass; finishing passes bend less in proportion.
"""

from __future__ import annotations

import math

from methodsheets.geometry import Axis, profile, section_at
from methodsheets.method.job import DoneOperation, DoneSetup
from methodsheets.method.model import Check, Fact
from methodsheets.operations.facts import fact, worked
from methodsheets.trade.errors import OutOfRange
from methodsheets.trade.stiffness import turned_shape, work_bends
from methodsheets.workpiece import State

MOST_STEPS = 24
NOTICE = 0.005
"""mm: below this the bending is not worth a line on the sheet."""


def stiffness_facts(setup: DoneSetup, done: DoneOperation) -> None:
    """Deflection at the tool and the shape it leaves, for turning between the holder and the face."""
    holding, cut = done.station.holding, done.plan.cut
    if (
        holding is None
        or holding.inside
        or not setup.held.grip
        or done.worked.force <= 0
        or cut.process not in ("turn", "groove", "part")
    ):
        return
    stick = done.station.stick_out
    if stick <= 1.0:
        return
    steps = _steps(done.before, done, stick)
    after = _steps(done.after, done, stick)
    if not steps or not after:
        return
    support = "chuck and centre" if "centre" in done.station.supported else "chuck"
    modulus = setup.piece.material.modulus
    place = min(max(stick - (done.plan.sketch.start + done.plan.sketch.end) / 2, 0.5), stick - 0.01)
    if support == "chuck" and done.plan.sketch.start <= 0.01:
        place = stick - 0.01
    lengths, diameters = [a for a, _ in after], [d for _, d in after]
    push = 0.5 * done.worked.force
    try:
        bends, working = worked(work_bends, push, lengths, diameters, place, support, modulus)
        before = work_bends(push, [a for a, _ in steps], [d for _, d in steps], place, support, modulus)
    except (OutOfRange, ValueError):
        return
    done.facts.append(
        fact(
            "deflection",
            "Work bends at the tool",
            bends.deflection,
            "mm",
            "size",
            [working],
            "",
            f"push {push:.0f} N; {1000 * before.deflection:.0f} µm before the cut",
        )
    )
    if bends.diameter_error > NOTICE and cut.process == "turn":
        _shape(done, setup, push, lengths, diameters, support, modulus, stick)


def _shape(
    done: DoneOperation,
    setup: DoneSetup,
    push: float,
    lengths: list[float],
    diameters: list[float],
    support: str,
    modulus: float,
    stick: float,
) -> None:
    sketch = done.plan.sketch
    near, far = max(0.0, stick - sketch.end), min(stick, stick - sketch.start)
    try:
        shape = turned_shape(push, lengths, diameters, support, near, min(far, sum(lengths)), modulus)
    except (OutOfRange, ValueError):
        return
    if shape.left_over_cut > NOTICE:
        done.facts.append(
            Fact(
                "taper_left",
                "Shape left",
                f"{shape.shape}, {1000 * shape.left_over_cut:.0f} µm on the diameter, before the finishing pass",
            )
        )
        if shape.left_over_cut > 0.1:
            done.checks.append(
                Check(
                    "stiffness",
                    "failed",
                    f"the work bends so far that it is left {1000 * shape.left_over_cut:.0f} µm out of parallel: support it",
                    done.line,
                )
            )
    del setup


def _steps(state: State, done: DoneOperation, stick: float) -> list[tuple[float, float]]:
    """(length, equivalent diameter) from the holder outwards: the round bar with the same least second moment."""
    frame = done.station.turning
    axis = Axis.upright(*frame.axis)
    low, high = frame.span(0.0, stick)
    levels = profile(state.solid, axis, low, high, spacing=max(0.5, stick / MOST_STEPS)).lengths
    cuts = sorted({round(float(z), 3) for z in levels})
    spans = [(a, b) for a, b in zip(cuts, cuts[1:], strict=False) if b - a > 0.02]
    steps = []
    for a, b in spans:
        section = section_at(state.solid, axis, (a + b) / 2)
        least, _, _ = section.principal
        if least <= 0:
            return []
        steps.append((b - a, (64.0 * least / math.pi) ** 0.25))
    if frame.out == "A":
        steps.reverse()
    return _merged(steps)


def _merged(steps: list[tuple[float, float]]) -> list[tuple[float, float]]:
    out: list[tuple[float, float]] = []
    for length, d in steps:
        if out and abs(out[-1][1] - d) < 1e-3:
            out[-1] = (out[-1][0] + length, d)
        else:
            out.append((length, d))
    return out
