"""Does a site come out byte for byte the same, whatever the language, the clock's place, the seed and Python's thrift?"""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
from pathlib import Path

import pytest
from sample_site import make_project

METHOD = """---
method: Büchse 100 % #3
part: bush
material: EN1A
stock: round 20 mm x 30 mm
---

```setup
machine: lathe
hold: three-jaw chuck, end A out
```

```op
drill: 8 mm, through
```
"""
SHOP = "workshop: A shop\nmachines:\n  lathe: {kind: lathe, speeds: '100, 200, 400 1/min'}\n"
ELSEWHERE = {
    "plain": ([], {"LC_ALL": "C.UTF-8", "TZ": "UTC", "PYTHONHASHSEED": "0"}),
    "elsewhere": (["-O"], {"LC_ALL": "POSIX", "TZ": "Pacific/Auckland", "PYTHONHASHSEED": "41"}),
    "thrifty": (["-OO"], {"LC_ALL": "C", "TZ": "America/Lima", "PYTHONHASHSEED": "7", "PYTHONUTF8": "0"}),
}


def built(folder: Path, words: list[str], around: dict[str, str]) -> dict[str, bytes]:
    config = make_project(
        folder, plugins=["search", {"methodsheets": {"reference": False, "concurrency": 1}}], theme={"name": "mkdocs"}
    )
    (folder / "methods" / "Büchse 100 % #3.md").write_text(METHOD, "utf-8")
    with contextlib.suppress(OSError):  # some disks take no name that is not UTF-8
        (folder / "methods" / os.fsdecode(b"B\xfcchse.md")).write_text(METHOD.replace("100 %", "alt"), "utf-8")
    (folder / "methods" / "workshops" / "shop.yml").write_text(SHOP, "utf-8")
    subprocess.run(
        [sys.executable, *words, "-m", "mkdocs", "build", "-q", "-f", str(config)],
        env={**os.environ, "SOURCE_DATE_EPOCH": "1795000000", **around}, check=True, capture_output=True,
    )  # fmt: skip
    site = folder / "site"
    return {one.relative_to(site).as_posix(): one.read_bytes() for one in site.rglob("*") if one.is_file()}


def test_the_same_bytes_everywhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sites = {name: built(tmp_path / name, *how) for name, how in ELSEWHERE.items()}
    plain = sites.pop("plain")
    assert any("buchse-100-3" in name for name in plain)
    assert any("bxfcchse" in name for name in plain) or sys.platform != "linux"
    for name, other in sites.items():
        assert sorted(other) == sorted(plain), name
        assert [one for one in plain if plain[one] != other[one]] == [], name
