"""Does anything that is read raise what nobody foresaw? A few cases of every kind; `make fuzz` tries far more."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from .cases import KINDS

CASES = {
    "expressions": 3000,
    "methods": 60,
    "pictures": 15,
    "workshops": 60,
    "records": 300,
    "travelling": 60,
    "tidied": 60,
}
SHARES = 5


@pytest.mark.parametrize("share", range(SHARES))
@pytest.mark.parametrize("kind", sorted(KINDS))
def test_nothing_is_raised(kind: str, share: int, tmp_path: Path) -> None:
    for seed in range(share, CASES[kind], SHARES):
        try:
            KINDS[kind](random.Random(seed), tmp_path)
        except Exception as error:
            raise AssertionError(f"{kind}, seed {seed}") from error
