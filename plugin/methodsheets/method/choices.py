"""What would follow if a cut were taken lighter or heavier, slower or faster, finer or coarser, held shorter or longer?

A few neighbours of what is planned, one thing changed in each, by the calculations that the plan rests on. They are
worked out when the handbook is built, so that a reader at the machine finds the answer where nothing can calculate.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from methodsheets.formula.measure import Measure
from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.stiffness import NOTICE, Bending
from methodsheets.operations import say
from methodsheets.operations.chosen import depths_of, passes_of, steps_of
from methodsheets.operations.cutplan import ceiling, round_passes
from methodsheets.operations.cutters import finishing_depth, table_word
from methodsheets.operations.cutting import feed_there_is
from methodsheets.operations.facts import looked_up, measure_of
from methodsheets.operations.loads import MOST_POWER, force_and_power
from methodsheets.operations.say import resting
from methodsheets.operations.worked import Worked
from methodsheets.sheet.model import Choice
from methodsheets.sheet.words import NOTHING, Words
from methodsheets.trade.cutting.cutting_data import recommended_speed
from methodsheets.trade.cutting.finish import turned_roughness
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.vocabulary.process import Passes
from methodsheets.workshop.machines import StepSpeeds

SHARES = (0.5, 0.7, 1.4, 2.0)
"""Of what is planned: two steps to either side, each about the root of two."""
LONGER = (-0.5, -0.25, 0.25, 0.5)
"""Shares of the stick-out by which the work is held shorter or longer."""
ROUND = 0.5
"""mm to which another stick-out is rounded."""
FOLLOWS = ("spindle_speed", "feed", "depth", "force", "power", "roughness", "deflection", "tool_deflection")
"""Numbers of the plan from which those of its neighbours follow."""
SAME = 0.02
"""Share within which a neighbour is what is planned."""
OVER_MOTOR, NEAR_MOTOR = "more than the motor gives", "close to all that the motor gives"


def choices_of(setup: OpenSetup, done: WorkedOperation, bending: Bending | None) -> tuple[Choice, ...]:
    """What is planned and its neighbours, by what they change; nothing for a cut whose force is not known."""
    worked = done.worked
    if not worked.force and not worked.told("power"):
        return ()
    try:
        near = _Near(setup, done, bending)
        groups = (list(near.depths()), list(near.speeds()), list(near.feeds()), list(near.stick_outs()))
    except (NotInTable, OutOfRange, ValueError):
        return ()
    return tuple(choice for group in groups if len(group) > 1 for choice in group)


@dataclass(frozen=True)
class _Near:
    setup: OpenSetup
    done: WorkedOperation
    bending: Bending | None

    # -------------------------------------------------------------------------------------------- what changes
    def depths(self) -> Iterator[Choice]:
        """Lighter and heavier passes, as round as the dial allows."""
        worked, way = self.done.worked, self.done.plan.cut.process.row.passes
        if way not in (Passes.TURNED, Passes.MILLED) or worked.depth <= 0:
            return
        now = round(worked.depth, 4)
        found = {now: self._count}
        for share in SHARES:
            laid = self._passes(share * worked.depth)
            found.setdefault(round(max(laid), 4), len(laid))
        for depth, count in sorted(found.items()):
            minutes = worked.minutes * self._minutes(count) / self._minutes(self._count)
            yield self._choice("depth", measure_of(depth, "mm", "depth_of_cut"), replace(worked, depth=depth),
                minutes, planned=depth == now, passes=count)  # fmt: skip

    def speeds(self) -> Iterator[Choice]:
        """Slower and faster, in the steps that the machine has."""
        worked, speeds = self.done.worked, self.setup.held.machine.speeds
        if isinstance(speeds, StepSpeeds):
            below = [step for step in speeds.steps if step < worked.spindle * (1 - SAME)][-2:]
            above = [step for step in speeds.steps if step > worked.spindle * (1 + SAME)][:2]
            found = [*below, worked.spindle, *above]
        else:
            there = {self.setup.held.machine.speed_for(share * worked.spindle).value for share in SHARES}
            found = sorted({one for one in there if abs(one / worked.spindle - 1) > SAME} | {worked.spindle})
        for spindle in found:
            other = replace(worked, spindle=spindle)
            value = measure_of(spindle, "1/min", "spindle_speed")
            minutes = worked.minutes * worked.spindle / spindle
            yield self._choice("speed", value, other, minutes, planned=spindle == worked.spindle)

    def feeds(self) -> Iterator[Choice]:
        """Finer and coarser, in the steps that the machine has; by hand as it comes."""
        worked, cut, machine = self.done.worked, self.done.plan.cut, self.setup.held.machine
        if cut.process.row.pitch_feed or worked.feed <= 0:
            return
        now = worked.feed / worked.teeth
        others = [feed_there_is(worked, cut, machine, share * now, worked.teeth)[0] for share in SHARES]
        found = {measure_of(one, "mm", "feed").metric: one for one in others if abs(one / now - 1) > SAME}
        for feed in sorted({*found.values(), now}):
            other = replace(worked, feed=feed * worked.teeth)
            rate = 1.0 if worked.told("finishing_feed") is None else self._roughing_share()
            minutes = worked.minutes * (rate * now / feed + 1 - rate)
            yield self._choice("feed", measure_of(feed, "mm", "feed"), other, minutes, planned=feed == now)

    def stick_outs(self) -> Iterator[Choice]:
        """The work held shorter and longer, where it is held in a chuck alone."""
        if self.bending is None:
            return
        out = self.done.station.stick_out
        others = {ROUND * round(out * share / ROUND) for share in LONGER}
        for by in sorted(others | {0.0}):
            value = measure_of(out + by, "mm", "length")
            bends = self.bending.held_longer(by)
            if bends is None:
                heed = Words("the jaws would stand in the way of the cut")
                yield Choice("stick-out", value, planned=False, heed=heed)
            else:
                yield replace(self._choice("stick-out", value, self.done.worked, self.done.worked.minutes,
                    planned=by == 0.0), bends=_noticed(bends))  # fmt: skip

    # -------------------------------------------------------------------------------------------- what follows
    def _choice(
        self, changes: str, value: Measure, other: Worked, minutes: float, *, planned: bool, passes: int = 0
    ) -> Choice:
        held = self.setup.held
        cut, material = self.done.plan.cut, self.setup.piece.material
        force, power = force_and_power(other, cut, held.machine, self.done.tool, material)
        return Choice(
            changes=changes,
            value=value,
            planned=planned,
            passes=passes or self._count,
            force=measure_of(force, "N", "force") if force else None,
            power=measure_of(power, "W", "power") if power else None,
            bends=self._bends(force),
            finish=self._finish(other),
            minutes=minutes,
            heed=self._heed(other, power),
            recalled=self._rests,
        )

    def _passes(self, most: float) -> list[float]:
        """The passes that none of which is deeper than so many mm."""
        cut, machine = self.done.plan.cut, self.setup.held.machine
        if cut.process.row.passes is Passes.MILLED:
            return round_passes(cut.end, most, finishing_depth(cut), steps_of(machine.dial("z")))
        return passes_of(cut, machine, depths_of(self.done.plan, machine, self.setup.piece.material), most)

    @property
    def _rests(self) -> tuple[str, ...]:
        """What the plan rests on, and every neighbour with it."""
        facts = (*self.done.worked.facts, *self.done.found.facts)
        return tuple(dict.fromkeys(words for fact in facts if fact.key in FOLLOWS for words in fact.recalled))

    @property
    def _count(self) -> int:
        """How many passes are planned."""
        return self.done.worked.strokes or len(self.done.worked.passes)

    def _minutes(self, passes: int) -> float:
        """What so many passes take, against each other: the last is the finishing pass where there is one."""
        fine = self._fine()
        return passes - 1 + fine if fine else float(passes)

    def _fine(self) -> float:
        """How much longer the finishing pass takes than a roughing one; 0 where there is none."""
        fine = self.done.worked.told("finishing_feed")
        value = fine.value.value if fine is not None and isinstance(fine.value, Measure) else 0.0
        return self.done.worked.feed / value if value else 0.0

    def _roughing_share(self) -> float:
        """Share of the cutting time that goes to the roughing passes."""
        rough = max(0, len(self.done.worked.passes) - 1)
        return rough / (rough + self._fine())

    def _bends(self, force: float) -> Measure | None:
        """Bending grows with the force."""
        told = next((one for one in self.done.found.facts if one.key in ("deflection", "tool_deflection")), None)
        if told is None or not isinstance(told.value, Measure) or not self.done.worked.force:
            return None
        return _noticed(told.value.value * force / self.done.worked.force)

    def _finish(self, other: Worked) -> Measure | None:
        """What feed and nose radius leave at best; the roughing feed leaves nothing where a finishing pass follows."""
        tool = self.done.tool
        told = self.done.worked.told("roughness")
        if told is None or tool is None or not isinstance(told.value, Measure):
            return None
        if other.told("finishing_feed") is not None or other.feed == self.done.worked.feed:
            return told.value
        return measure_of(turned_roughness(other.feed, tool.nose_radius).mean, "um", "roughness")

    def _heed(self, other: Worked, power: float) -> Words:
        """What speaks against it: the motor, the holding, the tool."""
        said, machine = [], self.setup.held.machine
        if machine.power and power > MOST_POWER * machine.power:
            said.append(OVER_MOTOR if power > machine.power else NEAR_MOTOR)
        if other.ceiling and other.spindle > other.ceiling * 1.005:
            why = f" ({other.ceiling_reason})" if other.ceiling_reason else ""
            said.append(f"above the {ceiling(other.ceiling, other.ceiling_reason)} of this set-up{why}")
        said += self._at_the_edge(other)
        return say.words("; ".join(said)) if said else NOTHING

    def _at_the_edge(self, other: Worked) -> list[str]:
        """What the edge stands, by the table of cutting speeds."""
        tool, cut, machine = self.done.tool, self.done.plan.cut, self.setup.held.machine
        grade, word = tool.material if tool else "HSS", table_word(self.done.plan, tool)
        advice, rests = looked_up(recommended_speed, self.setup.piece.material.name, grade, word, machine.coolant)
        speed = math.pi * cut.diameter * other.spindle / 1000.0
        fast = speed > advice.high * machine.speed_factor and other.spindle > self.done.worked.spindle
        return [f"{resting(f'{speed:.0f} m/min', rests)} is too fast for the edge"] if fast else []


def _noticed(bends: float) -> Measure | None:
    """A bending as it is shown; None where nobody notices it."""
    return measure_of(bends, "mm", "clearance") if bends >= NOTICE else None
