"""The guide to workshop files names every key, and its example is a workshop without a slip."""

from __future__ import annotations

import json
import re
from pathlib import Path

from methodsheets.faces.cli import main
from methodsheets.reading.problem import Problems
from methodsheets.workshop.reader import read_workshop

GUIDE = (Path(__file__).parents[2] / "site_demo" / "workshop.md").read_text(encoding="utf-8")


def test_the_example_can_be_read(tmp_path: Path) -> None:
    (example,) = re.findall(r"```yaml\n(.*?)```", GUIDE, re.DOTALL)
    file = tmp_path / "shed.yml"
    file.write_text(example, encoding="utf-8")
    problems = Problems()
    shop = read_workshop(file, tmp_path, problems)
    assert [str(one) for one in problems] == []
    assert shop is not None
    assert shop.tool("drills", 6.5) is not None


def test_every_key_is_told(capsys) -> None:  # type: ignore[no-untyped-def]
    main(["schema", "workshop"])
    whole = json.loads(capsys.readouterr().out)["properties"]
    told = set(re.findall(r"`([a-z ]+)`", GUIDE)) | {"name", "note", "also called"}
    keys = set(whole)
    for part in ("machines", "holding", "tools", "dividing"):
        keys |= set(whole[part]["additionalProperties"]["properties"])
    for part in ("rates", "times"):
        keys |= set(whole[part]["properties"])
    assert sorted(keys - told) == []
