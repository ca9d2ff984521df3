"""Methods at random: Ø3 pins to Ø250 flanges, long and thin, many steps, tiny grooves beside big ones, long names.

As a program: draws every figure of `COUNT` methods and prints each clash.

    python -m tests.drawings.random_methods [count] [first seed]
"""

from __future__ import annotations

import random
import sys
from collections.abc import Callable, Iterator

from tests.method.bench import work_out

from methodfigures.paper.drawing import Drawing
from methodsheets.drawings import draw_method

COUNT = 200
NAMES = (
    "Pin",
    "Collar",
    "Spindle of the second change wheel, with its undercuts, for the swing frame of the small lathe",
    "Halter für die Wälzlagerbüchse der zweiten Übersetzung mit Einstichen",
    "Втулка направляющая с канавками",
    "軸受",
)
MATERIALS = ("EN1A", "silver steel", "delrin", "CZ121")


def _ops(*lines: str) -> str:
    return "\n\n".join(f"```op\n{line}\n```" for line in lines)


def _setup(machine: str, hold: str) -> str:
    return f"```setup\nmachine: {machine}\nhold: {hold}\n```\n\n"


def _number(value: float) -> str:
    return f"{round(value, 2):g} mm"


def _steps(rng: random.Random, wide: float, long: float) -> Iterator[tuple[float, float]]:
    """(diameter, length from end A) of steps, the longest first."""
    for share in sorted((rng.uniform(0.1, 0.95) for _ in range(rng.choice((0, 1, 2, 3, 6)))), reverse=True):
        wide *= rng.choice((0.99, 0.95, 0.85, 0.7))
        if wide > 2.0:
            yield round(wide, 1), round(long * share, 1)


def turned(rng: random.Random) -> tuple[str, str]:
    """(stock, blocks) of a turned part."""
    wide, long = rng.choice(((3, 20), (3, 120), (6, 60), (10, 400), (20, 90), (25, 600), (40, 30), (60, 140), (90, 25)))
    free = round(0.7 * long, 1)
    steps = list(_steps(rng, wide, free))
    lines = [f"face: {_number(min(1.0, 0.1 * wide))}"]
    lines += [f"turn: to {_number(d)}, over {_number(over)}" for d, over in steps]
    end = (0.0, *(over for _, over in reversed(steps)), free)
    for low, high, d in zip(end, end[1:], (*(d for d, _ in reversed(steps)), wide), strict=False):
        width = rng.choice((0.3, 0.5, 1.0, 2.0))
        if rng.random() < 0.5 and high - low > 6 * width and d > 2.5:
            deep = rng.choice((0.1, 0.2, 0.5)) * (1 if d < 10 else 3)
            lines.append(
                f"groove: from {_number(rng.uniform(low + width, high - 2 * width))}, wide {_number(width)}, "
                f"to {_number(d - 2 * min(deep, d / 4))}"
            )
    least = min((d for d, _ in steps), default=wide)
    if rng.random() < 0.4 and least > 4:
        lines.append(f"drill: {_number(rng.choice((0.2, 0.4)) * least)}, deep {_number(0.3 * free)}")
    if rng.random() < 0.6:
        lines.append(f"chamfer: {_number(rng.choice((0.2, 0.5)))}")
    hold = f"three-jaw chuck, on {wide} mm, grip {_number(0.25 * long)}, end A out"
    return f"round {wide} mm x {long} mm", _setup("lathe", hold) + _ops(*lines)


def flange(rng: random.Random) -> tuple[str, str]:
    """(stock, blocks) of a disc with a bore and holes about it."""
    wide, thick = rng.choice(((30, 8), (60, 16), (120, 14), (180, 20), (250, 24)))
    bore = round(wide * rng.choice((0.15, 0.3)), 0)
    hole = rng.choice((1.0, 3.0, 5.0, 0.08 * wide))
    turn = ["face: 1 mm", "centre: 3.15 mm, to 6 mm", f"drill: {_number(bore)}, through"]
    if rng.random() < 0.5:
        turn.append(f"turn: to {_number(0.6 * wide)}, over {_number(0.3 * thick)}")
    if rng.random() < 0.5:
        turn.append("chamfer: 0.5 mm")
    count = rng.choice((2, 3, 6, 8, 24))
    circle = f"drill: {_number(hole)}, through, on circle {_number(0.5 * wide)}, divide {count}"
    mill = _setup("mill", f"rotary table with three-jaw chuck, on {wide} mm, grip {_number(0.4 * thick)}, end A up")
    lathe = _setup("lathe", f"three-jaw chuck, on {wide} mm, grip {_number(0.4 * thick)}, end A out")
    return f"round {wide} mm x {thick} mm", f"{lathe}{_ops(*turn)}\n\n{mill}{_ops(circle)}"


def block(rng: random.Random) -> tuple[str, str]:
    """(stock, blocks) of a block held in the vice: holes great and tiny, slots, steps, a vee."""
    x, y, z = rng.choice(((20, 12, 8), (40, 30, 20), (80, 50, 8), (90, 40, 30), (300, 30, 20), (200, 12, 12)))
    lines = []
    for _ in range(rng.choice((1, 2, 3))):
        size = rng.choice((1.0, 2.0, 4.0, 0.2 * y))
        count = rng.choice((1, 2, 5))
        at = ", ".join(
            f"({_number(rng.uniform(0.1, 0.9) * x)}, {_number(rng.uniform(0.2, 0.8) * y)})" for _ in range(count)
        )
        deep = "through" if rng.random() < 0.3 else f"deep {_number(min(0.6 * z, 4 * size))}"
        lines.append(f"drill: {_number(size)}, {deep}, places {at}")
    if rng.random() < 0.5:
        lines.append("face: 0.5 mm")
    if rng.random() < 0.5:
        lines.append(
            f"slot: wide {_number(rng.choice((1.0, 3.0, 6.0)))}, deep {_number(rng.choice((0.3, 0.2 * z)))}, at {_number(0.4 * y)}"
        )
    hold = _setup("mill", f"machine vice, up top, towards front, grip {_number(0.4 * z)}")
    return f"flat {y} mm x {z} mm x {x} mm", hold + _ops(*lines)


KINDS: tuple[Callable[[random.Random], tuple[str, str]], ...] = (turned, turned, flange, block)


def text_of(seed: int) -> str:
    """A method file."""
    rng = random.Random(f"method {seed}")
    stock, blocks = rng.choice(KINDS)(rng)
    name, material = rng.choice(NAMES), rng.choice(MATERIALS)
    return f"---\nmethod: {name}\nmaterial: {material}\nstock: {stock}\nworkshop: osierbank-small\n---\n\n{blocks}\n"


def figures_of(seed: int) -> tuple[list[Drawing], list[str]]:
    """Every figure of one method, and what could not be drawn."""
    evaluated, shared = work_out(text_of(seed), "osierbank-large", f"random-{seed}"), {}
    draw_method(evaluated, shared)
    failed = [str(p) for p in evaluated.live.problems if p.code == "no-picture"]
    return list(shared.values()), failed


def main(count: int = COUNT, first: int = 0) -> int:
    """Print what is wrong; the number of figures that are."""
    drawn = bad = 0
    for seed in range(first, first + count):
        figures, failed = figures_of(seed)
        for words in failed:
            print(f"{seed}: {words}")
        for one in figures:
            if one.clashes:
                print(f"{seed}: {one.title}: {'; '.join(one.clashes[:4])}", flush=True)
        drawn += len(figures)
        bad += len(failed) + sum(bool(one.clashes) for one in figures)
    print(f"{count} methods, {drawn} figures, {bad} with something wrong")
    return bad


if __name__ == "__main__":
    sys.exit(bool(main(*map(int, sys.argv[1:]))))
