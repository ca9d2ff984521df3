"""Are methods that are made from each other worked out in order, each once, and is a word in passing no reference?"""

from __future__ import annotations

from pathlib import Path

import pytest

from methodsheets.handbook import plan as plans
from methodsheets.handbook.build import build_handbook
from methodsheets.handbook.circles import before, circles
from methodsheets.method.references import references
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import Problems

from .conftest import Folder

METHOD = """\
---
method: A spindle
stock: {stock}
intended: {intended}
piece: spindle
---

The word bore is in the prose, and flange.

```calc
bore = 8 mm  # seat and face
```

```setup
machine: lathe
piece: collar
stock: from "old collar"
```

```op
press on: {joined}, at 10 mm
note: see guide-bush
```
"""


def read(**said: str) -> tuple[str, ...]:
    file = parse_method(METHOD.format(**said), "spindle.md", Problems())
    assert file is not None
    return references(file)


def test_only_what_a_method_is_made_from_is_a_reference() -> None:
    found = read(stock='from "guide-bush", at 3 mm', intended="flange", joined="plug")
    assert found == ("guide-bush", "flange", "old collar", "plug")
    assert read(stock="round 20 mm x 30 mm", intended="flange", joined="collar") == ("flange", "old collar")


def test_groups_stand_in_the_order_of_need() -> None:
    needs = {"a": ("b",), "b": ("c", "d"), "c": ("b",), "d": (), "e": ("a", "e2"), "e2": ("e",)}
    assert circles(needs) == [("d",), ("b", "c"), ("a",), ("e", "e2")]
    assert before("x", {"x": ("a", "b"), "a": ("c",), "b": ("c", "a"), "c": ()}) == ["c", "a", "b"]
    assert before("x", {"x": ("a",), "a": ("c",), "c": ()}, done={"c"}) == ["a"]


def test_honest_names_cost_nothing(folder: Folder) -> None:
    names = ["bore", "seat", "face", "drill", "ream", "plug", "gauge", "lathe", "chuck", "turn", "setup", "machine"]
    for name in names:
        folder.method(name)
    build_handbook(folder.options(own_only=True))
    folder.worked()
    folder.method("bore", title="Another bore")
    build_handbook(folder.options(own_only=True))
    assert folder.worked() == ["bore for small"]


@pytest.mark.parametrize("shape", ["chain", "lattice", "circle"])
def test_every_method_is_looked_at_once(folder: Folder, shape: str, monkeypatch: pytest.MonkeyPatch) -> None:
    counted: list[str] = []
    real = plans.digest_of
    monkeypatch.setattr(plans, "digest_of", lambda *parts: (counted.append(parts[0]), real(*parts))[1])
    work = {}
    for count in (20, 40):
        for number in range(count):
            needed = {
                "chain": number - 1,
                "lattice": max(number // 2 * 2 - 2 + number % 2, 0),
                "circle": (number + 1) % count,
            }[shape]
            folder.method(f"pin-{number}", stock=f"from pin-{needed}" if needed >= 0 else "round 20 mm x 50 mm")
        counted.clear()
        book = build_handbook(folder.options(own_only=True, store=None))
        work[count] = len(counted)
        assert len(folder.worked()) == count
        assert {one.code for one in book.problems} == ({"circle"} if shape == "circle" else set())
    assert work[40] <= 2 * work[20]


def test_a_chain_of_a_thousand_is_no_deeper_than_one_of_two() -> None:
    needs: dict[str, tuple[str, ...]] = {f"m{number}": (f"m{number - 1}",) for number in range(1, 5000)}
    needs["m0"] = ()
    assert len(circles(needs)) == 5000
    assert len(before("m4999", needs)) == 4999


def test_a_circle_gives_the_same_whatever_is_worked_out_first(folder: Folder, tmp_path: Path) -> None:
    for number in range(14):
        folder.method(f"pin-{number:02}", stock=f"from pin-{(number + 1) % 14:02}")
    one = build_handbook(folder.options(store=None, workers=1))
    two = build_handbook(folder.options(store=None, workers=2))
    for slug in one.entries:
        assert one.entries[slug].own == two.entries[slug].own
    assert "`pin-00`, `pin-01`" in str(one.problems[0])
