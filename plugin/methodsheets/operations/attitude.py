"""How does the axis of the work stand on a rotary table or in a dividing head, and on which one is it?"""

from __future__ import annotations

from methodsheets.reading.problem import MethodError
from methodsheets.vocabulary.attitude import Attitude
from methodsheets.vocabulary.holding import Way
from methodsheets.vocabulary.support import ALONE, HeldUp, Support
from methodsheets.workshop.dividing import RotaryTable
from methodsheets.workshop.holding import Holding as Holder
from methodsheets.workshop.machines import Machine
from methodsheets.workshop.model import Workshop

from .words import Said


def attitude_of(said: Said, machine: Machine, carrying: Way | None, way: Way | None) -> Attitude | None:
    """Upright or level, where the work rests and it matters; None where it turns, and where neither is sure.

    A rotary table lies on its back and a dividing head on its foot, unless the set-up says `axis level`, `axis upright`
    or `end A up`. MethodError where it says two of them that do not agree.
    """
    if machine.sort.work_turns:
        return None
    if carrying is None:
        return Attitude.LEVEL if way is not None and way.row.lies else None
    wanted, up = said.get("axis"), says_up(said)
    if wanted is Attitude.LEVEL and up:
        words = f"`end {said.get('end')}` and `axis level` are both said"
        rule = "an end is up where the axis stands upright"
        raise MethodError(said.where("axis"), words, rule, "write `out` for the end, or `axis upright`",
                          code="contradiction")  # fmt: skip
    return wanted or (Attitude.UPRIGHT if up else carrying.row.usual)


def says_up(said: Said) -> bool:
    """Whether the author calls the end that looks at you up."""
    return "up" in str(said.get("end", "")).lower().split()


def table_of(workshop: Workshop, carrying: Way | None, holder: Holder | None) -> RotaryTable | None:
    """The rotary table or dividing head that the work stands on; None where the workshop has none."""
    if carrying is None:
        return None
    if holder is not None and holder.table in workshop.rotary_tables:
        return workshop.rotary_tables[holder.table]
    return workshop.divider(carrying)


def tailstock_for(said: Said, attitude: Attitude | None) -> HeldUp:
    """What holds up the free end of work on a level rotary table or dividing head: a centre in its tailstock."""
    if attitude is not Attitude.LEVEL:
        return ALONE
    support = said.get("support", Support.NONE)
    if support.row.steady:
        words = f"a {support} stands on a lathe (got {support})"
        rule = "work on a rotary table or in a dividing head is held up by the centre of its tailstock"
        raise MethodError(said.where("support"), words, rule, "write `support tailstock centre`", code="wrong-value")
    return HeldUp(support) if support.there else ALONE
