"""Can I make it in my shop: as it is written, with these changes, or not at all, and what would I buy or borrow?"""

from __future__ import annotations

from enum import StrEnum

from methodsheets.sheet.model import Check, Method

from .trouble import Trouble, troubles

TO_BUY = frozenset(
    {"holding", "holding-range", "mandrel-size", "reach", "ring", "saw-width", "steady", "thread-form", "tool",
     "tool-kind", "tool-shape", "tool-size"}
)  # fmt: skip
"""Checks that fail for want of a tool or a holder: one can be bought or borrowed."""
TO_GO_ELSEWHERE = frozenset(
    {"bed-length", "between-centres", "machine", "press-force", "swing", "swing-cross-slide", "table", "table-height",
     "travel"}
)  # fmt: skip
"""Checks that fail because the machine is too small or not there; all others ask for another way of doing it."""


class Answer(StrEnum):
    """What every page says of a method in a workshop: one of three things."""

    WORKS = "works"
    CHANGES = "changes"
    NOT = "not"


def answer(method: Method) -> Answer:
    """Whether it works in its workshop, works with changes, or does not.

    What fails in its author's own workshop is a fault of the method, and what could not be worked out has no change
    that would mend it: neither works.
    """
    found = troubles(method)
    if not found:
        return Answer.WORKS
    failed = [check for check in method.all_checks if check.state == "failed"]
    told = {(str(check.words)) for check in failed}
    unheard = any(str(words) not in told for _, _, words in found)
    if method.own_workshop or unheard or any(check.key in TO_GO_ELSEWHERE for check in failed):
        return Answer.NOT
    return Answer.CHANGES


def to_make_it_work(method: Method, trouble: Trouble) -> str:
    """What to buy, borrow or change against one trouble, as a sentence; '' where nobody knows."""
    check = next((one for one in method.all_checks if one.state == "failed" and one.words == trouble[2]), None)
    return _remedy(check) if check else ""


def _remedy(check: Check) -> str:
    _, remedy = check.advice
    if check.key in TO_BUY:
        return f"Buy or borrow what is wanted, or {remedy}."
    if check.key in TO_GO_ELSEWHERE:
        return f"Use a larger machine of somebody else's, or {remedy}."
    return f"{remedy[:1].upper()}{remedy[1:]}."
