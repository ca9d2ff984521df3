"""What does a casting's outline look like, given the finished one and the allowance for machining?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from .frame import Point2
from .outline import Arc, Line, Outline, Piece

AXIS = 1e-9
"""mm: an outline runs along the axis where both ends of a line are nearer than this."""


@dataclass(frozen=True)
class _Run:
    """A piece with the points and directions at which it begins and ends."""

    piece: Piece
    begin: Point2
    end: Point2
    leave: Point2
    arrive: Point2


def grown(outline: Outline, allowance: float) -> Outline:
    """A half profile of (radius, length) grown outward all round by an allowance in mm, with sharp outer corners.

    Lines along the axis stay on it; inner roundings smaller than the allowance become sharp. ValueError where a corner
    between a line and an arc turns inward: write the casting's own outline instead.
    """
    if not allowance > 0:
        raise ValueError(f"an allowance must be above 0 (got {allowance:g})")
    sense = 1.0 if outline.anticlockwise else -1.0
    runs = [r for r in (_shifted(run, allowance, sense) for run in _runs(outline)) if r is not None]
    corners = [_corner(runs[i - 1], runs[i], sense) for i in range(len(runs))]
    out = Outline(corners[0][-1])
    for i, run in enumerate(runs):
        after = corners[(i + 1) % len(runs)]
        if isinstance(run.piece, Arc):
            a = run.piece
            out = out.arc(a.centre, a.radius, a.start, a.stop, a.label)
        out = out.to(*after, label=run.piece.label)
    if min(p.end[0] for p in out.pieces) < -AXIS:
        raise ValueError(f"the hole along the axis closes with an allowance of {allowance:g}: leave it out")
    return out


def _runs(outline: Outline) -> list[_Run]:
    runs, at = [], outline.start
    for piece in outline.closed.pieces:
        if isinstance(piece, Arc):
            turn = 1 if piece.stop > piece.start else -1
            leave, arrive = _tangent(piece.start, turn), _tangent(piece.stop, turn)
            runs.append(_Run(piece, piece.begin, piece.end, leave, arrive))
        elif math.dist(at, piece.end) > AXIS:
            d = math.dist(at, piece.end)
            along = ((piece.end[0] - at[0]) / d, (piece.end[1] - at[1]) / d)
            runs.append(_Run(piece, at, piece.end, along, along))
        at = piece.end
    return runs


def _tangent(angle: float, turn: int) -> Point2:
    a = math.radians(angle)
    return (-turn * math.sin(a), turn * math.cos(a))


def _shifted(run: _Run, allowance: float, sense: float) -> _Run | None:
    """The piece moved outward, to the right of an anticlockwise outline; None where an inner rounding closes up."""
    if isinstance(run.piece, Arc):
        bulge = sense if run.piece.stop > run.piece.start else -sense
        radius = run.piece.radius + bulge * allowance
        if radius <= AXIS:
            return None
        arc = Arc(run.piece.centre, radius, run.piece.start, run.piece.stop, run.piece.label)
        return _Run(arc, arc.begin, arc.end, run.leave, run.arrive)
    if abs(run.begin[0]) < AXIS and abs(run.end[0]) < AXIS:
        return run
    right = (run.leave[1] * sense * allowance, -run.leave[0] * sense * allowance)
    begin, end = (run.begin[0] + right[0], run.begin[1] + right[1]), (run.end[0] + right[0], run.end[1] + right[1])
    return _Run(run.piece, begin, end, run.leave, run.arrive)


def _corner(before: _Run, after: _Run, sense: float) -> list[Point2]:
    """The points between two moved pieces: where they meet, or a sharp corner with lines led out to it."""
    if math.dist(before.end, after.begin) < 1e-7:
        return [after.begin]
    (ax, ay), (bx, by) = before.arrive, after.leave
    turn = ax * by - ay * bx
    if abs(turn) < 1e-9:
        return [before.end, after.begin]
    wx, wy = after.begin[0] - before.end[0], after.begin[1] - before.end[1]
    along = (wx * by - wy * bx) / turn
    meet = (before.end[0] + along * ax, before.end[1] + along * ay)
    straight = isinstance(before.piece, Line) and isinstance(after.piece, Line)
    if straight:
        return [meet]
    if turn * sense < 0:
        raise ValueError("a corner between a line and an arc turns inward: write the casting's own outline")
    lead_in = [before.end] if isinstance(before.piece, Arc) else []
    return [*lead_in, meet] + ([after.begin] if isinstance(after.piece, Arc) else [])
