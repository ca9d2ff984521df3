"""Is everything that a file can be told on the page of messages, with its rule and what to do?"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from methodsheets.faces.message_list import message_list, messages

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "site_demo" / "messages.md"


def test_the_page_of_the_demo_is_the_list_of_today():
    assert PAGE.read_text("utf-8") == message_list(), "make it again: methodsheets messages > site_demo/messages.md"


def test_every_code_that_stands_in_the_program_is_listed():
    """Found another way: by reading the text of every module."""
    named = {
        code
        for file in (ROOT / "plugin" / "methodsheets").rglob("*.py")
        for code in re.findall(r'\bcode="([a-z-]+)"', file.read_text("utf-8"))
        if code not in {"method", "crash"}
    }
    assert named <= {one.code for one in messages()}


@pytest.mark.parametrize("code", sorted({one.code for one in messages()}))
def test_some_message_of_every_code_says_what_to_do(code):
    said = [one for one in messages() if one.code == code]
    assert any(one.remedy or one.rule for one in said), code
