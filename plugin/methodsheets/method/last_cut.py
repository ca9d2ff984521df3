"""Which operation gave a round surface its last cut, when later ones ran along it or cut it away?

A surface keeps the mark of the operation that made its form. A later cut of the same size runs exactly along it: the
metal that stands there then belongs to the later holding. A later cut to another size leaves a surface of its own, and
what hung on the first one hangs on that.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from methodsheets.method.done import WorkedOperation
from methodsheets.method.job import Job
from methodsheets.workpiece.skins import in_place_of, ran_along, round_skins, round_tags

LEAST_SHARE = 0.01
"""Share of a surface below which nobody calls it that surface."""
WORTH = 0.01
"""mm²: less than this is no surface."""


@dataclass(frozen=True)
class Recut:
    """What a later operation did to a round surface of an earlier one."""

    by: WorkedOperation
    of: str
    """What the surface is marked with."""
    share: float
    """Share (0 to 1) of what stood there that the later cut ran along; 0 where it cut to a size of its own."""


class LastCuts:
    """The last cut of every round surface of a method, as far as the method has come."""

    def __init__(self, job: Job) -> None:
        """Look at every cut once; solids remember their round surfaces."""
        self.operations = job.operations
        self._by_tag = {done.tag: done for done in self.operations}
        self._recuts = [found for done in self.operations if done.plan.cutters for found in _recuts(done)]

    def of(self, done: WorkedOperation) -> tuple[WorkedOperation, ...]:
        """The operations that made what stands of its round surface; none where nothing of it is left."""
        if self._stands(done.tag):
            return self.of_tag(done.tag, len(self.operations))
        heirs = [found.by for found in self._recuts if found.of == done.tag and not found.share]
        return tuple({last.tag: last for heir in heirs for last in self.of(heir)}.values())

    def of_tag(self, tag: str, before: int) -> tuple[WorkedOperation, ...]:
        """The operations that made a surface that stands, by its mark, before the operation of that place in order."""
        maker = self._by_tag.get(tag)
        if maker is None:
            return ()
        early = {done.tag for done in self.operations[:before]}
        shares = {maker.tag: 1.0}
        for found in self._recuts:
            if found.of == tag and found.share and found.by.tag in early:
                shares = {one: share * (1.0 - found.share) for one, share in shares.items()}
                shares[found.by.tag] = found.share
        return tuple(self._by_tag[one] for one, share in shares.items() if share > LEAST_SHARE)

    def led_by(self, done: WorkedOperation) -> tuple[WorkedOperation, ...]:
        """The cuts that say where its surface lies: its own, or those of the hole that its tool followed.

        A tool that cuts about its own axis (drill, reamer) goes where the hole before it leads.
        """
        found, look = dict[str, WorkedOperation](), [done]
        while look:
            cut = look.pop()
            before = [] if cut.tag in found or not cut.plan.cut.process.row.own_axis else self._holes_before(cut)
            look += before
            if not before:
                found[cut.tag] = cut
        return tuple(found.values())

    def wanders(self, done: WorkedOperation) -> str:
        """Why no spindle says where its surface lies, of a tool that followed no bored hole; empty where one does."""
        if all(not one.plan.cut.process.row.own_axis for one in self.led_by(done)):
            return ""
        return f"operation {done.number} follows a hole that was not bored, and a drill wanders"

    def _holes_before(self, done: WorkedOperation) -> list[WorkedOperation]:
        """The earlier operations whose hole it opened."""
        found = [self._by_tag[one.of] for one in self._recuts if one.by is done and one.of in self._by_tag]
        return [one for one in found if (row := one.plan.cut.process.row).own_axis or row.runs_true]

    def ran_along(self, done: WorkedOperation) -> bool:
        """Whether it ran along an earlier surface at the same size."""
        return any(found.by is done and found.share for found in self._recuts)

    def _stands(self, tag: str) -> bool:
        """Whether the last state that knew of the surface still has it."""
        for done in reversed(self.operations):
            if tag in round_tags(done.after):
                return True
            if tag in round_tags(done.before):
                return False
        return False


def _recuts(done: WorkedOperation) -> Iterator[Recut]:
    """What one operation did to the round surfaces of earlier ones."""
    tools = [skin for cutter in done.plan.cutters for skin in round_skins(cutter)]
    stands = [skin for solid in done.after for skin in round_skins(solid)]
    stood = [skin for solid in done.before for skin in round_skins(solid)]
    ours = [skin for skin in stands if skin.surface.operation == done.tag]
    for tag in sorted({skin.surface.operation for skin in stood} - {done.tag}):
        theirs = [skin for skin in stands if skin.surface.operation == tag]
        along = sum(ran_along(skin, tool) for skin in theirs for tool in tools)
        if along > WORTH:
            yield Recut(done, tag, min(1.0, along / sum(skin.area for skin in theirs)))
        lost = [skin for skin in stood if skin.surface.operation == tag]
        if sum(s.area for s in lost) - sum(s.area for s in theirs) > WORTH and any(
            in_place_of(one, other) for one in ours for other in lost
        ):
            yield Recut(done, tag, 0.0)
