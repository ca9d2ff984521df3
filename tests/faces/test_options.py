"""Does the page for keepers list every option with the default that the plugin really has, and no other?"""

from __future__ import annotations

import re
from pathlib import Path

from methodsheets.faces.mkdocs_options import MethodSheetsConfig

PAGE = Path(__file__).resolve().parents[2] / "site_demo" / "keeping.md"


def test_every_option_stands_on_the_page_with_its_default() -> None:
    rows = re.findall(r"^\| (`[^|]*) \| [^|]+ \| ([^|]+) \|$", PAGE.read_text("utf-8"), re.MULTILINE)
    listed = {}
    for names, without in rows:
        several = re.findall(r"`(\w+)`", names)
        defaults = without.split(", ") if len(several) > 1 else [without]
        listed |= dict(zip(several, (one.strip().strip("`") for one in defaults), strict=True))
    real = dict(MethodSheetsConfig._schema)  # the host's own table of options
    assert {name: option.default for name, option in real.items() if option.default is not None} == {
        name: {"true": True, "false": False}.get(said, int(said) if said.isdigit() else said)
        for name, said in listed.items()
        if name in real and real[name].default is not None
    }
    assert set(listed) >= set(real)
