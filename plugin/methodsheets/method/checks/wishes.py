"""Are the author's own speed and feed such as work, holder and tool allow?"""

from __future__ import annotations

from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.operations.say import both, number
from methodsheets.operations.worked import Wishes
from methodsheets.trade.cutting.cutting import spindle_speed

COARSE, TOO_COARSE = 2.5, 4.0
"""The author's feed over the table's: from where it is remarked, and from where it is a slip of the pen."""
FINE_ENOUGH = 0.3
"""mm a turn or a tooth up to which a feed is never taken for a slip (common practice on light machines)."""
OVER = 1.02
"""Share of a ceiling above which a speed is over it: a dial is not read closer."""


def check_wishes(setup: OpenSetup, done: WorkedOperation, wishes: Wishes) -> None:
    """The author has the last word, but not a dangerous one."""
    if wishes.feed is not None:
        _feed(done, wishes.feed)
    if wishes.spindle_speed is not None or wishes.cutting_speed is not None:
        _speed(setup, done, wishes)


def _feed(done: WorkedOperation, wanted: float) -> None:
    usual = done.worked.usual_feed
    if usual <= 0 or wanted <= FINE_ENOUGH:
        return
    share = wanted / usual
    words = f"a feed of {both(wanted, 'feed')} is written, {number(round(share, 1))} times the table's"
    if share > TOO_COARSE:
        done.judge("feed", False, f"{words} {both(usual, 'feed')}")
    elif share > COARSE:
        done.judge("feed", True, f"{words} {both(usual, 'feed')}", tight=True)


def _speed(setup: OpenSetup, done: WorkedOperation, wishes: Wishes) -> None:
    """A speed that is written above what holder and balance allow is told, and not only held down."""
    ceiling, asked = done.worked.ceiling, wishes.spindle_speed
    if asked is None and wishes.cutting_speed is not None and done.plan.cut.diameter > 0:
        asked = spindle_speed(wishes.cutting_speed, done.plan.cut.diameter)
    if ceiling and asked is not None and asked > ceiling * OVER:
        words = f"{number(round(asked))} 1/min is written; the {setup.held.words} and the balance of the work allow "
        done.judge("speed", False, words + f"{number(round(ceiling))} 1/min")
