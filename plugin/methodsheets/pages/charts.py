"""How does time grow with the batch, a size with the parts, a speed with the diameter? Small charts as SVG text.

They are plain lines and words, so they need no drawing library and cost nothing on a build where nothing changed.
Colours are the page's own (`--ms-ink` and so on); lines are told apart by their dashes and their words, not by colour.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from html import escape
from itertools import pairwise

from methodsheets.handbook.break_even import quicker, same_band
from methodsheets.handbook.model import TimeLine

Point = tuple[float, float]

DASHES = ("", "6 2", "1.5 1.5", "8 2 1.5 2", "4 1.5 1.5 1.5 1.5 1.5")
"""Line styles, in the order in which they are used up."""

INK, SOFT, TINT = "var(--ms-ink,#000)", "var(--ms-line,#bbb)", "var(--ms-tint,#eee)"


class Plot:
    """A frame with two scales, in units of about a quarter of a millimetre."""

    def __init__(
        self,
        width: int,
        height: int,
        x: tuple[float, float],
        y: tuple[float, float],
        *,
        log: bool = False,
        right: int = 130,
    ) -> None:
        self.width, self.height, self.x, self.y, self.log = width, height, x, y, log
        self.left, self.top, self.right, self.bottom = 62, 14, right, 48
        self.parts: list[str] = []

    def at(self, x: float, y: float) -> Point:
        """Where a value lies on the paper."""
        across = self._share(x, self.x) * (self.width - self.left - self.right) + self.left
        up = self._share(y, self.y) * (self.height - self.top - self.bottom)
        return across, self.height - self.bottom - up

    def _share(self, value: float, scale: tuple[float, float]) -> float:
        low, high = scale
        if self.log:
            return math.log(value / low) / math.log(high / low)
        return (value - low) / ((high - low) or 1)

    def grid(
        self, xs: Sequence[float], ys: Sequence[float], x_words: Callable[[float], str], y_words: Callable[[float], str]
    ) -> None:
        """Thin lines with their values."""
        floor, wall = self.height - self.bottom, self.width - self.right
        for x in xs:
            px = self.at(x, self.y[0])[0]
            self.line([(px, self.top), (px, floor)], width=0.6, colour=SOFT)
            self.text(px, floor + 18, x_words(x), anchor="middle")
        for y in ys:
            py = self.at(self.x[0], y)[1]
            self.line([(self.left, py), (wall, py)], width=0.6, colour=SOFT)
            self.text(self.left - 6, py + 4, y_words(y), anchor="end")
        frame = [(self.left, self.top), (self.left, floor), (wall, floor)]
        self.line(frame, width=1.4)

    def axes(self, x: str, y: str) -> None:
        """What the scales are."""
        self.text((self.left + self.width - self.right) / 2, self.height - 8, x, anchor="middle")
        middle = (self.top + self.height - self.bottom) / 2
        self.parts.append(
            f'<text transform="translate(13 {middle:.1f}) rotate(-90)" text-anchor="middle" class="ms-chart-text">'
            f"{escape(y)}</text>"
        )

    def line(self, points: Sequence[Point], *, width: float = 1.8, dash: str = "", colour: str = INK) -> None:
        """A line on the paper."""
        path = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        self.parts.append(f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="{width}"{dashed}/>')

    def dot(self, x: float, y: float, *, filled: bool = False) -> None:
        """A marked point."""
        px, py = self.at(x, y)
        fill = INK if filled else "var(--ms-paper,#fff)"
        self.parts.append(
            f'<circle cx="{px:.1f}" cy="{py:.1f}" r="3.6" fill="{fill}" stroke="{INK}" stroke-width="1.4"/>'
        )

    def band(self, low: float, high: float) -> None:
        """A tinted band between two values of the upright scale."""
        (x0, y0), (x1, y1) = self.at(self.x[0], high), self.at(self.x[1], low)
        self.parts.append(
            f'<rect x="{x0:.1f}" y="{y0:.1f}" width="{x1 - x0:.1f}" height="{y1 - y0:.1f}" fill="{TINT}"/>'
        )

    def area(self, points: Sequence[Point]) -> None:
        """A tinted area."""
        path = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
        self.parts.append(f'<path d="{path}Z" fill="{TINT}"/>')

    def text(self, x: float, y: float, words: str, *, anchor: str = "start") -> None:
        """Words on the paper."""
        self.parts.append(
            f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" class="ms-chart-text">{escape(words)}</text>'
        )

    def svg(self, description: str) -> str:
        """The finished chart."""
        body = "".join(self.parts)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="ms-chart-svg" viewBox="0 0 {self.width} {self.height}" '
            f'style="--ms-wide:{self.width}" '
            f'role="img" aria-label="{escape(description)}" font-size="12" fill="{INK}">{body}</svg>'
        )


def round_steps(low: float, high: float, about: int = 5) -> list[float]:
    """Round values between two bounds: steps of 1, 2 or 5 times a power of ten."""
    span = (high - low) or 1
    raw = span / about
    power = 10 ** math.floor(math.log10(raw))
    step = next(factor * power for factor in (1, 2, 5, 10) if factor * power >= raw * 0.999)
    first = math.ceil(low / step - 1e-9)
    return [round(index * step, 10) for index in range(first, math.floor(high / step + 1e-9) + 1)]


def _plain(value: float) -> str:
    return f"{value:g}"


def time_chart(lines: Sequence[tuple[str, float, float]], most: int, crossings: Sequence[float] = ()) -> str:
    """Time for a batch against its size.

    Parameters:
        lines: name, minutes once, minutes for each part, of every method.
        most: largest batch shown.
        crossings: batch sizes at which two methods take the same time.
    """
    hours = max(once + each * most for _, once, each in lines) / 60
    in_hours = hours > 3
    scale = 60 if in_hours else 1
    top = max(once + each * most for _, once, each in lines) / scale * 1.05
    plot = Plot(640, 320, (0, most), (0, top), right=175)
    plot.grid(round_steps(0, most, 8), round_steps(0, top), _plain, _plain)
    plot.axes("parts in the batch", "hours" if in_hours else "minutes")
    ends = _spread([plot.at(most, (once + each * most) / scale)[1] for _, once, each in lines], 15)
    for index, (name, once, each) in enumerate(lines):
        start, end = plot.at(0, once / scale), plot.at(most, (once + each * most) / scale)
        plot.line([start, end], dash=DASHES[index % len(DASHES)], width=2.2)
        plot.line([(end[0], end[1]), (end[0] + 10, ends[index])], width=0.8)
        plot.text(end[0] + 13, ends[index] + 4, _shortened(name, 24))
    for size in crossings:
        if 0 < size < most:
            name, once, each = lines[0]
            plot.dot(size, (once + each * size) / scale)
    said = "; ".join(f"{name}: {once:.0f} min once and {each:.0f} min for each part" for name, once, each in lines)
    return plot.svg(f"Time against the number of parts. {said}.")


def difference_chart(first: TimeLine, second: TimeLine, most: int) -> str:
    """By how many minutes the second method takes longer than the first, against the number of parts.

    Parameters:
        first, second: their times; where the ends of the estimates do not tell them apart lies the tinted band.
        most: largest batch shown.
    """

    def apart(parts: float) -> float:
        return second.minutes(parts) - first.minutes(parts)

    steps = [1 + (most - 1) * i / 60 for i in range(61)]
    band = [same_band(first, second, n) for n in steps]
    values = [apart(n) for n in steps] + [end for ends in band for end in ends]
    margin = 0.08 * (max(values) - min(values)) or 1.0
    plot = Plot(640, 300, (1, most), (min(values) - margin, max(values) + margin), right=40)
    upper = [plot.at(n, high) for n, (_, high) in zip(steps, band, strict=True)]
    plot.area(upper + [plot.at(n, low) for n, (low, _) in reversed(list(zip(steps, band, strict=True)))])
    plot.grid([n for n in round_steps(1, most, 8) if n >= 1], round_steps(*plot.y), _plain, _plain)
    plot.line([plot.at(1, 0.0), plot.at(most, 0.0)], width=1.0)
    plot.line([plot.at(n, apart(n)) for n in steps], width=2.4)
    for parts in range(1, most + 1):
        plot.dot(parts, apart(parts), filled=quicker(first, second, parts) is not None)
    plot.axes("parts in the batch", f"minutes more for {_inside_sentence(_shortened(second.title, 30))}")
    x = plot.at(1, 0)[0] + 8
    plot.text(x, plot.top + 14, f"above the line: {_inside_sentence(first.title)} is quicker")
    plot.text(x, plot.height - plot.bottom - 8, f"below the line: {_inside_sentence(second.title)} is quicker")
    words = f"{second.title} against {first.title}: {apart(1):+.0f} min for one part, {apart(most):+.0f} min for {most}"
    return plot.svg(f"Difference of the times. {words}. Tinted: too close to tell; hollow points lie in it.")


def _inside_sentence(words: str) -> str:
    """A title in the middle of a sentence: its first letter small, unless it is part of a name."""
    return words if words[1:2].isupper() else words[:1].lower() + words[1:]


def _spread(heights: list[float], apart: float) -> list[float]:
    """The same heights, moved so far that words on them do not touch; their order is kept."""
    order = sorted(range(len(heights)), key=lambda index: heights[index])
    moved = list(heights)
    for before, after in pairwise(order):
        moved[after] = max(moved[after], moved[before] + apart)
    shift = sum(old - new for old, new in zip(heights, moved, strict=True)) / (len(heights) or 1)
    return [height + shift for height in moved]


def _shortened(words: str, most: int) -> str:
    return words if len(words) <= most else words[: most - 1].rstrip() + "…"


def drift_chart(values: Sequence[float], lower: float, upper: float, description: str) -> str:
    """Measured sizes one after another, in the band of their limits; lengths in mm."""
    low, high = min([*values, lower]), max([*values, upper])
    margin = (high - low) * 0.15 or 0.01
    plot = Plot(460, 190, (0.5, len(values) + 0.5), (low - margin, high + margin), right=70)
    plot.band(lower, upper)
    every = max(1, round(len(values) / 10))
    plot.grid([index for index in range(1, len(values) + 1) if index % every == 0], [], _plain, _plain)
    for bound in (lower, upper):
        plot.line([plot.at(0.5, bound), plot.at(len(values) + 0.5, bound)], width=1, dash="6 2")
        plot.text(plot.width - plot.right + 5, plot.at(0.5, bound)[1] + 4, f"{bound:.3f}")
    plot.line([plot.at(index, value) for index, value in enumerate(values, 1)], width=1.2)
    for index, value in enumerate(values, 1):
        plot.dot(index, value, filled=not lower <= value <= upper)
    plot.axes("parts, in the order they were measured", "mm")
    return plot.svg(description)


def speed_chart(
    speeds: Sequence[float], cutting_speeds: Sequence[tuple[str, float]], diameters: tuple[float, float]
) -> str:
    """Spindle speed against diameter for some cutting speeds, with the speeds that the machine has as lines.

    Parameters:
        speeds: [1/min] the machine's own steps, or its lowest and highest.
        cutting_speeds: words and [m/min].
        diameters: [mm] smallest and largest.
    """
    low, high = min(speeds) * 0.8, max(speeds) * 1.25
    plot = Plot(640, 400, diameters, (low, high), log=True, right=150)
    marks = [mark for mark in (2, 3, 5, 10, 20, 30, 50, 100, 200, 300) if diameters[0] <= mark <= diameters[1]]
    plot.grid(marks, list(speeds), _plain, _plain)
    for index, (words, v) in enumerate(cutting_speeds):
        points = _inside(lambda d, v=v: v * 1000 / (math.pi * d), diameters, (low, high))  # type: ignore[misc]
        if len(points) < 2:
            continue
        plot.line([plot.at(x, y) for x, y in points], dash=DASHES[index % len(DASHES)], width=2)
        px, py = plot.at(*points[-1])
        if points[-1][0] < diameters[1] * 0.999:
            plot.text(px + 5, py - 5, words)
        else:
            plot.text(px + 6, py + 4, words)
    plot.axes("diameter, mm", "spindle speed, 1/min")
    said = ", ".join(words for words, _ in cutting_speeds)
    return plot.svg(f"Spindle speed against diameter for {said}; the level lines are the speeds of the machine.")


def _inside(rule: Callable[[float], float], xs: tuple[float, float], ys: tuple[float, float]) -> list[Point]:
    steps = 80
    points = []
    for index in range(steps + 1):
        x = xs[0] * (xs[1] / xs[0]) ** (index / steps)
        y = rule(x)
        if ys[0] <= y <= ys[1]:
            points.append((x, y))
    return points
