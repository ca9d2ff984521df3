"""How are the journeys of `journeys.txt` read and walked?"""

import re
from pathlib import Path

JOURNEYS = Path(__file__).with_name("journeys.txt")
OURS = ".md-content, .ms-view, .ms-alone-body"
HEAD = re.compile(r"(.+), (\d+) taps? \((\d+|no way) before\), (\S+)")


def read(text):
    """(name, taps, page, [(what to do, with what)]) of each journey; none may take more taps than it took before."""
    found = []
    for block in text.split("\n\n"):
        lines = [line for line in block.splitlines() if line and not line.startswith("#")]
        if lines:
            name, taps, before, page = HEAD.fullmatch(lines[0]).groups()
            assert before == "no way" or int(taps) <= int(before), name
            found.append((name, int(taps), page, [tuple(line.split(" ", 1)) for line in lines[1:]]))
    return found


def tap(page, words):
    """The first thing of that name that a thumb can press."""
    for role in ("link", "button", "radio"):
        there = page.locator(OURS).get_by_role(role, name=words)
        for one in there.all():
            if one.is_visible() or role == "radio":
                one.check(force=True) if role == "radio" else one.click()
                return
    page.locator(OURS).locator("summary:visible", has_text=words).first.click()


def done(page, what, words):
    label, _, said = words.partition(": ")
    if what == "tap":
        tap(page, words)
    elif what == "write":
        page.get_by_label(label).first.fill(said)
    elif what == "choose":
        page.locator(OURS).get_by_role("combobox", name=label).first.select_option(label=said)
    elif what == "see":
        page.locator(f"text={words} >> visible=true").first.wait_for()
    else:
        with page.expect_download() as waiting:
            tap(page, words)
        assert Path(waiting.value.path()).stat().st_size > 50
