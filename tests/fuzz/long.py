"""How long can it go on? `python tests/fuzz/long.py KIND CASES [FIRST_SEED]`: faults, the slowest case, and memory.

`all` for the kind tries so many of each; of formulas, which take a moment, a hundred times as many.
"""

from __future__ import annotations

import contextlib
import ctypes
import gc
import math
import random
import resource
import sys
import tempfile
import time
import traceback
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.fuzz.cases import KINDS

SLOW = 1.0
"""CPU seconds of one case that are worth a line."""
TRIES = 3
"""How often a slow case is tried; the least counts, for what else the machine does lengthens CPU times as well."""
TIMES = {"expressions": 100}
"""How many times as many cases of a kind are tried when all are."""


def resident() -> int:
    """Memory that is held now [MB]; what the allocator only keeps in hand is given back first where it can be."""
    gc.collect()
    with contextlib.suppress(OSError, AttributeError):
        ctypes.CDLL("libc.so.6").malloc_trim(0)
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * resource.getpagesize() // 1_000_000


def tried(kind: str, seed: int, folder: Path) -> tuple[float, str]:
    """CPU seconds that a case took, and the traceback of what it raised."""
    least, fault = math.inf, ""
    for _ in range(TRIES):
        began = time.process_time()
        try:
            KINDS[kind](random.Random(seed), folder)
        except Exception:
            fault = traceback.format_exc(limit=-4)
        least = min(least, time.process_time() - began)
        if least <= SLOW:
            break
    return least, fault


def run(kind: str, cases: int, first: int = 0) -> int:
    """Try so many cases; gives how many faults there were."""
    faults, slowest, slowest_seed, told = 0, 0.0, first, max(cases // 10, 1)
    with tempfile.TemporaryDirectory() as somewhere:
        for number, seed in enumerate(range(first, first + cases), 1):
            took, fault = tried(kind, seed, Path(somewhere))
            if fault:
                faults += 1
                print(f"FAULT {kind} seed {seed}\n{fault}", flush=True)
            if took > SLOW:
                print(f"SLOW {kind} seed {seed}: {took:.2f} s", flush=True)
            if took > slowest:
                slowest, slowest_seed = took, seed
            if number % told == 0:
                said = f"{number:,} cases, {faults} faults, slowest {slowest:.2f} s (seed {slowest_seed})"
                print(f"{kind}: {said}, {resident()} MB", flush=True)
    return faults


def main(kind: str, cases: int, first: int = 0) -> bool:
    """Try one kind, or all of them whatever is found; whether there was a fault."""
    if kind != "all":
        return bool(run(kind, cases, first))
    return bool(sum([run(one, cases * TIMES.get(one, 1), first) for one in KINDS]))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]) if len(sys.argv) > 3 else 0))
