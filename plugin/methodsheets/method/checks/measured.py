"""Is the size that is to be measured one that the work has after the cut?"""

from __future__ import annotations

from methodsheets.formula.measure import Measure
from methodsheets.method.done import WorkedOperation
from methodsheets.operations.say import dim
from methodsheets.workpiece import sizes_of

WITHIN = 0.02
"""mm within which a size that is measured is one of the work: a note rounds to a hundredth."""


def check_measured(done: WorkedOperation) -> None:
    """Every size behind `check` is a size of the work, of the operation's own words, or one that the sheet tells."""
    wanted = [limit.nominal for limit in done.limits if limit.nominal.unit == "mm" and limit.nominal.value > 0]
    if not wanted or not done.after.bodies:
        return
    there = [*_told(done), *sizes_of(done.after)]
    if not there:
        return
    for measure in wanted:
        if all(abs(measure.value - size) > WITHIN for size in there):
            near = min(there, key=lambda size: abs(size - measure.value))
            words = f"{dim(measure.value)} is to be measured, and the work has no such size"
            done.judge("measured-size", False, f"{words}; the nearest is {dim(near)}")


def _told(done: WorkedOperation) -> list[float]:
    """Lengths that the operation says or the sheet works out for it, in mm."""
    said = [float(value) for value in done.said.values.values() if isinstance(value, float)] if done.said else []
    facts = [fact.value for fact in (*done.found.facts, *done.plan.facts) if isinstance(fact.value, Measure)]
    lengths = [fact.value for fact in facts if fact.unit == "mm"]
    sketch = done.plan.sketch
    return [*said, *lengths, *(one.size for one in done.plan.makes), sketch.diameter, sketch.end - sketch.start]
