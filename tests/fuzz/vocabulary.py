"""Methods that nobody would write, in words that the handbook knows: every table of the vocabulary is drawn from.

Nothing is listed here: a new verb, clause, way of holding, machine, support or key comes in with its row.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Sequence

from methodsheets.method.part_features import ADDS
from methodsheets.operations.hold_clauses import CLAUSES as HOLD_CLAUSES
from methodsheets.operations.stock import CLAUSES as STOCK_CLAUSES
from methodsheets.operations.verb import ANY, BENCH, TURNING, VICE, Verb
from methodsheets.operations.vocabulary import OPERATION_KEYS, SETUP_KEYS, verbs
from methodsheets.operations.words import RUNS_ON, Clause
from methodsheets.reading.front_matter import HELP
from methodsheets.trade.metal.materials import material_names
from methodsheets.trade.threads.thread_names import thread_names
from methodsheets.vocabulary.holding import WAYS, WayRow
from methodsheets.vocabulary.machine import MACHINES
from methodsheets.vocabulary.stock import STOCKS
from methodsheets.workpiece import FACES

LENGTHS = ("12 mm", "8 mm", "1 mm", "20 mm", "30 mm", "2 mm", "0.5 mm", "1/2 in", "40 mm")
ODD = (
    "0 mm",
    "-3 mm",
    "0.001 mm",
    "1e9 mm",
    "400 mm",
    "x",
    "20 degC",
    "1/0",
    '"H7"',
    "1e-9 mm",
    "7",
    "99999 mm",
    "(2 mm, 3 mm)",
)
GOOD = 0.93
"""Share of values that are of the sort that is asked for, and of a size that work has."""


def _size(rng: random.Random) -> str:
    return rng.choice(LENGTHS) if rng.random() < 0.5 else f"{rng.uniform(0.2, 45):.3g} mm"


def value(rng: random.Random, clause: Clause) -> str:
    """What may stand in a clause, by its kind."""
    if clause.kind == "flag":
        return ""
    if rng.random() > GOOD:
        return rng.choice(ODD)
    if clause.choices is not None:
        return rng.choice(clause.choices.known)
    if clause.kind in RUNS_ON and clause.kind != "prose":
        return ", ".join(_one(rng, clause.kind) for _ in range(rng.randint(1, 4)))
    return _one(rng, clause.kind)


def _one(rng: random.Random, kind: str) -> str:
    made = {
        "length": lambda: _size(rng),
        "lengths": lambda: _size(rng),
        "angle": lambda: f"{rng.choice((0, 15, 30, 45, 90, 120, -20, 359.9))} deg",
        "angles": lambda: f"{rng.choice((0, 30, 90, 210))} deg",
        "count": lambda: str(rng.choice((1, 2, 3, 4, 6, 12, 40, 127))),
        "counts": lambda: str(rng.choice((1, 2, 3, 6))),
        "number": lambda: rng.choice(("1", "2.5", "0.5", "17", "60")),
        "points": lambda: f"({', '.join(_size(rng) for _ in range(rng.choice((2, 2, 2, 3))))})",
        "thread": lambda: rng.choice(thread_names()),
        "minutes": lambda: rng.choice(("5 min", "30 s", "2 h")),
        "temperature": lambda: rng.choice(("780 degC", "220 degC", "400 K")),
    }  # fmt: skip
    return made.get(
        kind, lambda: rng.choice(("plug", "main", "A", "B", *FACES, "brass", "oil", "straw", "square 12 mm"))
    )()


def line(rng: random.Random, first: Clause | None, clauses: Sequence[Clause]) -> str:
    """The clauses of a line: those that must be there nearly always, the others sometimes."""
    parts = [value(rng, first)] if first is not None and (first.required or rng.random() < 0.7) else []
    few = 2.5 / max(len(clauses), 3)
    for clause in clauses:
        if rng.random() < (0.97 if clause.required else few):
            parts.append(f"{clause.word} {value(rng, clause)}".strip())
    return ", ".join(parts)


def _block(kind: str, lines: Iterable[str]) -> str:
    return "\n".join((f"```{kind}", *lines, "```", "", ""))


def _keys(rng: random.Random, keys: Iterable[str], few: float = 0.06) -> list[str]:
    said = (
        "0.5 mm",
        "twice",
        '"H7"',
        "20 m/min",
        "300 1/min",
        'limits(16 mm, "h6") with micrometer',
        "5 min",
        "plug",
        "",
    )
    return [f"{key}: {rng.choice(said)}" for key in keys if rng.random() < few]


def _stock(rng: random.Random) -> str:
    row = rng.choice(tuple(STOCKS.values()))
    sizes = " x ".join(f"{rng.choice((20, 30, 40, 60))} mm" for _ in row.sizes)
    known = [clause for clause in STOCK_CLAUSES if clause.word in row.clauses or rng.random() < 0.05]
    more = line(rng, None, known) if rng.random() < 0.2 else ""
    return ", ".join(part for part in (f"{rng.choice(row.words)} {sizes}", more) if part)


def _hold(rng: random.Random, row: WayRow, *, block: bool) -> str:
    size = rng.choice((40, 30, 20, 60))
    stands = (
        f"up {rng.choice(tuple(FACES))}, towards {rng.choice(tuple(FACES))}"
        if block
        else f"end {rng.choice('AB')} {rng.choice(('out', 'out', 'up'))}"
    )
    parts = [rng.choice(row.words), f"on {size} mm", f"grip {rng.choice((10, 15, 5))} mm", stands]
    parts = [part for part in parts if rng.random() < 0.9]
    if rng.random() < 0.3:
        parts.append(line(rng, None, HOLD_CLAUSES))
    return ", ".join(parts)


def _setup(rng: random.Random, pieces: Sequence[str]) -> tuple[str, str]:
    """A set-up, and the frame that its verbs are likely to have."""
    row = rng.choice(tuple(WAYS.values()))
    machine = rng.choice(row.machines) if row.machines and rng.random() < 0.9 else rng.choice(tuple(MACHINES))
    block = row.holds_blocks if rng.random() < 0.9 else not row.holds_blocks
    lines = [f"machine: {rng.choice(MACHINES[machine].words)}", f"hold: {_hold(rng, row, block=block)}"]
    if pieces:
        lines += [f"piece: {rng.choice(pieces)}", f"stock: {_stock(rng)}"][: rng.randint(0, 2)]
    lines += _keys(rng, SETUP_KEYS)
    return _block("setup", lines), VICE if block else TURNING


def _operation(rng: random.Random, frame: str) -> str:
    found: list[Verb] = [
        one for (_, where), one in verbs().items() if where in (frame, ANY, BENCH) or rng.random() < 0.05
    ]
    verb = rng.choice(found)
    return _block("op", [f"{verb.name}: {line(rng, verb.first, verb.clauses)}", *_keys(rng, OPERATION_KEYS)])


def _part(rng: random.Random) -> str:
    lines = []
    for _ in range(rng.randint(1, 5)):
        if rng.random() < 0.4:
            name = rng.choice(tuple(ADDS))
            lines.append(f"- {name}: {line(rng, *ADDS[name])}")
        else:
            verb = rng.choice(tuple(verbs().values()))
            lines.append(f"- {verb.name}: {line(rng, verb.first, verb.clauses)}")
    return _block("part", lines)


def a_text(rng: random.Random) -> str:
    """A whole method."""
    front = ["method: Made up", f"material: {rng.choice(material_names())}", f"stock: {_stock(rng)}"]
    front += _keys(rng, [key for key in HELP if not any(one.startswith(f"{key}:") for one in front)])
    pieces = ("main", "plug") if rng.random() < 0.4 else ()
    body = _block("calc", [f"a{i} = {_size(rng)}" for i in range(rng.randint(0, 3))])
    body += _part(rng) if rng.random() < 0.2 else ""
    for _ in range(rng.randint(1, 3)):
        setup, frame = _setup(rng, pieces)
        body += setup + "".join(_operation(rng, frame) for _ in range(rng.randint(1, 5)))
    return "\n".join(("---", *front, "---", "", body))
