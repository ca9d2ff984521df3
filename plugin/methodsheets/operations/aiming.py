"""Where does an operation stop, so that the size it makes lies inside the limits that its own check allows?

The words of an operation and its solid stay nominal. The tool is led to the middle of the limits: a journal Ø16 with
limits 16.010 to 16.018 is turned to 16.014, and the dial of the last pass says so.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from methodsheets.formula.kinds import limit_kind
from methodsheets.sheet.model import Check, Limit
from methodsheets.trade.fits.iso286 import tolerance_grade
from methodsheets.trade.form.errors import NotInTable, OutOfRange
from methodsheets.vocabulary.tool import ToolRow

from .facts import judged, length_measure
from .plan import CutData, Made, Plan
from .say import dia, dim, exact

SAME = 1e-4
"""mm: a check that names the size of the operation so nearly is about it."""
NEAR = 0.1
"""mm: a check that misses the size of the operation by no more than this is about it too, and the two disagree."""
GENERAL = "ISO 2768"
WHOLE = 0.004
"""mm between the limits: from here on the aim is a whole micrometre."""
HINTS = {
    "length": ("length", "long", "over", "shoulder", "thick", "thickness", "high", "height"),
    "depth": ("deep", "depth"),
    "width": ("wide", "width", "tongue", "across"),
}
"""Words of a check that tell which of several equal sizes it is about; else the first that the verb names."""


@dataclass(frozen=True)
class Aim:
    """A size that an operation makes, and what its check lets it be."""

    made: Made
    limit: Limit
    """The check, which now says where to stop."""
    size: float
    """mm: where the tool stops."""
    lower: float
    upper: float


def take_aim(plan: Plan, limits: Sequence[Limit], line: int) -> tuple[Plan, list[Limit], list[Check]]:
    """Lead the passes of a plan to the middle of the limits that its checks set.

    A check of another size than the operation makes is left alone.

    Returns:
        the plan with its cut led there; the limits, each with the size to stop at where it has one; and what is to be
        told about tools and sizes that do not agree with their limits
    """
    aimed, checks = [], []
    for limit in limits:
        made = _about(plan.makes, limit) if limit.has_limits and limit.nominal.unit == "mm" else None
        if made is None:
            checks += _disagreeing(plan.makes, limit, line)
            aimed.append(limit)
            continue
        if made.by is not None and made.by.row.grade:
            checks.append(_of_the_tool(made, made.by.row, limit, line))
            aimed.append(limit)
            continue
        aim = _aim(made, limit)
        aimed.append(aim.limit)
        if made.infeed:
            plan = replace(plan, cut=_led(plan.cut, aim))
    return plan, aimed, checks


def _about(makes: Sequence[Made], limit: Limit) -> Made | None:
    """The size of the operation that a check is about: of the same nominal, else one that lies inside the limits."""
    lower, upper = limit.lower.value, limit.upper.value
    exactly = [made for made in makes if abs(made.size - limit.nominal.value) <= SAME]
    found = exactly or [made for made in makes if lower <= made.size <= upper]
    words = set(re.findall(r"[a-z]+", limit.name.lower()))
    hinted = [made for made in found if words & set(HINTS.get(made.what, ()))]
    return next(iter(hinted or found), None)


def _aim(made: Made, limit: Limit) -> Aim:
    """The middle; a size of the author's own that lies well inside its limits is kept."""
    if made.by_standard and limit.fit.startswith(GENERAL):
        limit = _by_standard(limit, *made.by_standard)
    lower, upper = limit.lower.value, limit.upper.value
    width = upper - lower
    own = abs(made.size - limit.nominal.value) > SAME and lower + width / 4 <= made.size <= upper - width / 4
    size = made.size if own else round((lower + upper) / 2, 3 if width >= WHOLE else 4)
    return Aim(made, replace(limit, aim=length_measure(size, limit_kind("aim", width))), size, lower, upper)


def _by_standard(limit: Limit, least: float, greatest: float, name: str) -> Limit:
    """A check of the bare size, with the limits of the size's own standard instead of the general ones."""
    lower, upper = limit.nominal.value + least, limit.nominal.value + greatest
    kinds = (limit_kind(which, upper - lower) for which in ("lower", "upper"))
    low, high = (length_measure(size, kind) for size, kind in zip((lower, upper), kinds, strict=True))
    return replace(limit, lower=low, upper=high, fit=name)


def _led(cut: CutData, aim: Aim) -> CutData:
    """The cut with its end moved from the nominal size to the aim, and the travels between which it must stop."""
    total = cut.infeed

    def travel(size: float) -> float:
        return total + aim.made.infeed * (size - aim.made.size)

    first, last = sorted((travel(aim.lower), travel(aim.upper)))
    return replace(cut.with_infeed(travel(aim.size)), stop=(first, last))


def _of_the_tool(made: Made, tool: ToolRow, limit: Limit, line: int) -> Check:
    """A size that the tool decides: what it leaves, against what the check allows."""
    lower, upper = limit.lower.value, limit.upper.value
    try:
        high = made.size + tolerance_grade(max(made.size, 0.1), f"IT{tool.grade}")
    except (NotInTable, OutOfRange):
        high = made.size
    usual = f"a {tool.words[0]} of {dim(made.size)} leaves {exact(made.size)} to {exact(high)} as a rule"
    wanted = f"the check allows {exact(lower)} to {exact(upper)}"
    holds = True if lower - 1e-6 <= made.size and high <= upper + 1e-6 else False if high <= lower + 1e-6 else None
    if made.size > upper + 1e-6:
        holds = False
    return judged("size-by-tool", holds, f"{usual}; {wanted}", line)


def _disagreeing(makes: Sequence[Made], limit: Limit, line: int) -> list[Check]:
    """A size that the operation makes stands just outside limits that can only be meant for it."""
    if not limit.has_limits or limit.nominal.unit != "mm":
        return []
    lower, upper = limit.lower.value, limit.upper.value
    for made in makes:
        if 0 < max(lower - made.size, made.size - upper) <= NEAR and not made.left_on:
            size = dia(made.size) if made.what == "diameter" else dim(made.size)
            words = f"the operation makes {size}; its check allows {exact(lower)} to {exact(upper)}"
            return [judged("size-of-check", False, words, line)]
    return []
