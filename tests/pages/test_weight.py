"""How heavy are the pages of the demo handbook? Every page of a method stays below its budget."""

import json
import re

import pytest
from weighing import weight

BYTES, ELEMENTS = 288_000, 4_800
"""Promised are 300 kB and 5,000 elements; the demo keeps some way off."""

pytestmark = pytest.mark.slow


def test_no_page_of_a_method_is_too_heavy(demo):
    methods = [
        page for page in sorted(demo.glob("methods/*.html")) if (page.parent / page.stem / "bench.html").exists()
    ]
    assert len(methods) >= 9
    elsewhere = [other for page in methods for other in page.parent.glob(f"{page.stem}--in-*.html")]
    assert len(elsewhere) == 2 * len(methods)
    pages = [*methods, *elsewhere, *demo.glob("methods/*/bench*.html")]
    found = {page.relative_to(demo).as_posix(): weight(page) for page in pages}
    heavy = {name: both for name, both in found.items() if both[0] > BYTES or both[1] > ELEMENTS}
    assert heavy == {}


def test_every_line_that_opens_later_finds_its_pieces_beside_the_page(demo):
    """On the plain page, and in the script file: for as many lines as the pages have."""
    lines = 0
    for page in demo.glob("methods/*.html"):
        text = page.read_text("utf-8")
        for said, address, place in re.findall(
            r'data-ms-later="([^"]+)">.*?<a class="ms-later" href="([^"#]+)#([^"]+)">', text, re.S
        ):
            plain = page.parent / address
            told = plain.with_suffix(".js").read_text("utf-8")
            beside = json.loads(told.removeprefix("methodSheetsTake(").removesuffix(");\n"))
            assert all(beside["pieces"][int(one.split("@")[0])] for one in beside["places"][int(said) - 1].split())
            assert f'id="{place}"' in plain.read_text("utf-8")
            lines += 1
    assert lines > 300
