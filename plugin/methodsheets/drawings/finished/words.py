"""How does a drawing write a diameter, a hole, an angle?"""

from __future__ import annotations

from methodsheets.drawings.finished.made import NEAR, Made
from methodsheets.method.intention import RunsTrue
from methodsheets.operations.qualities import Given
from methodsheets.operations.say import diameter, number
from methodsheets.workpiece.features import Round


def angle_words(angle: float) -> str:
    """'40°', '−40°', without dust."""
    return f"{round(angle, 3) + 0.0:g}°".replace("-", "−")


def diameter_words(made: Made, r: Round) -> str:
    """'Ø16 f7', or 'Ø16'."""
    limit = made.limit_of(r)
    return f"{diameter(r.diameter)} {limit.fit}".strip() if limit else diameter(round(r.diameter, 4))


def roughness_words(asked: Given) -> str:
    """'Ra 1.6'."""
    return f"Ra {number(asked.figures[0].value)}"


def true_words(asked: RunsTrue) -> str:
    """'Ø30 runs true to Ø16 within 0.02.', for a remark."""
    return f"{diameter(asked.on.diameter)} runs true to {diameter(asked.to.diameter)} within {number(asked.within)}."


def hole_words(made: Made, h: Round) -> str:
    """'Ø16 H7 through', 'Ø8 × 30 deep', 'M6 × 14, drill Ø5 × 18 deep'."""
    closed = made.capped(h, high=True) or made.capped(h, high=False)
    depth = f" × {number(round(h.length, 3))} deep" if closed else " through"
    thread = made.thread_on(h)
    if thread is None:
        return diameter_words(made, h) + depth
    length = thread.high - thread.low
    if not closed and length > h.length - NEAR:
        return f"{thread.name} through"
    return f"{thread.name} × {number(round(length, 3))}, drill {diameter(h.diameter)}{depth}"
