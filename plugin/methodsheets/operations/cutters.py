"""Which kind of milling cutter takes this cut, how deep at once, and how fast does a hand feed it?"""

from __future__ import annotations

from collections.abc import Mapping

from methodsheets.sheet.model import Check, Working
from methodsheets.trade.cutting.cutting_data import recommended_depth
from methodsheets.trade.cutting.cutting_tables import cutter_kinds
from methodsheets.trade.form.rows import take
from methodsheets.trade.form.tables import find_row
from methodsheets.trade.metal.materials import Material
from methodsheets.vocabulary.tool import SPELLED, MillCut
from methodsheets.workshop.machines import Machine
from methodsheets.workshop.tools import Tool

from .facts import judged, looked_up, worked
from .plan import CutData, Plan
from .say import dim

AT_ONCE: Mapping[str, float] = {"light": 8.0, "medium": 12.0, "heavy": 20.0}
"""mm of depth that a slitting saw takes at once, by the machine's duty (common practice, from memory)."""
FASTEST_HAND = 150.0
"""mm/min: a hand does not turn a table faster evenly (common practice, from memory)."""
HAND_TURNS = "how fast a hand turns a table"
"""What that rests on, as a footnote names it."""
LEAST_MILLED = 0.3
"""mm: a milling pass is not planned thinner than this, or the teeth rub (common practice)."""
MILL_FINISH, FINISH_FROM = 0.2, 0.6
"""mm that are left for the last pass where a size is checked, and the depth from which on (common practice)."""
SAME_WIDTH = 0.05


def kind_of_cut(plan: Plan, tool: Tool | None) -> MillCut:
    """The kind of cut: of the tool itself, else of what the verb asks for; other cutters mill a side or a slot."""
    cut, asked = plan.cut, SPELLED.read(plan.tool_words)
    row = tool.sort if tool else asked.row if asked else None
    if row is not None and row.cut is not None:
        return row.cut
    return MillCut.SLOT if cut.width >= 0.9 * cut.diameter and cut.paths <= 1.0 else MillCut.SIDE


def table_word(plan: Plan, tool: Tool | None) -> str:
    """The word of the cutting tables: the process's own, or that of the kind of milling cutter."""
    return kind_of_cut(plan, tool) if plan.cut.process.row.milling_feed else plan.cut.process.row.table_word


def depth_at_once(kind: MillCut, cut: CutData, machine: Machine, material: Material) -> tuple[float, Working | None]:
    """The deepest pass of a milling cutter, mm, with its working."""
    if kind is MillCut.SAW:
        return AT_ONCE.get(machine.duty, AT_ONCE["light"]), None
    if kind.at_full_depth:
        return max(LEAST_MILLED, cut.end), None
    word = kind.depth_word
    advice, working = worked(recommended_depth, material.name, word, cut.diameter, machine.duty)
    usual = advice.depth * machine.depth_factor
    if word is MillCut.SIDE and advice.width and cut.width > advice.width:
        usual *= max(0.12, advice.width / cut.width)  # a wide cut is a shallow one: the same section of chip
    return max(LEAST_MILLED, usual), working


def finishing_depth(cut: CutData) -> float:
    """What a milled cut leaves for its last pass: something where a check follows and there is depth enough."""
    return MILL_FINISH if cut.stop is not None and cut.end > FINISH_FROM else 0.0


def by_hand(feed: float, teeth: int, spindle: float) -> float:
    """Mm a tooth that a hand can keep up: its table runs no faster than a hand turns it evenly."""
    rate = feed * teeth * spindle
    return feed if rate <= FASTEST_HAND else feed * FASTEST_HAND / rate


def least_chip(plan: Plan, tool: Tool | None) -> float:
    """Mm a tooth below which the edge of such a cutter rubs."""
    return cutter_kinds()[kind_of_cut(plan, tool)].floor


def chip_rests_on(plan: Plan, tool: Tool | None) -> tuple[str, ...]:
    """What that least chip rests on that was recalled and not read."""
    return looked_up(lambda: take(find_row("cutter_kinds", cut=str(kind_of_cut(plan, tool))), "floor"))[1]


def what_to_heed(plan: Plan, tool: Tool | None) -> list[str]:
    """What the trade says of such a cutter, for the sheet."""
    if not plan.cut.process.row.milling_feed:
        return []
    note = cutter_kinds()[kind_of_cut(plan, tool)].note
    return [f"{note[0].upper()}{note[1:]}."] if note else []


def saw_width(plan: Plan, tool: Tool | None, line: int) -> list[Check]:
    """A saw that is not as wide as its slot is told: narrower ones cut twice, wider ones do not make it."""
    wide = plan.cut.width
    if tool is None or tool.sort.cut is not MillCut.SAW or not tool.width or abs(tool.width - wide) <= SAME_WIDTH:
        return []
    saw = f"the saw is {dim(tool.width)} wide, the slot {dim(wide)}"
    if tool.width > wide:
        return [judged("saw-width", False, saw, line)]
    return [judged("saw-width", True, f"{saw}: cut it side by side, {dim(wide - tool.width)} over", line, tight=True)]
