"""How are the journeys of `journeys.txt` read and walked?"""

import re
from pathlib import Path

from choosing import PAUSE, TRIES

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


def there(page, words):
    """The first thing of that name that a thumb can press; None where there is none yet."""
    ours = page.locator(OURS)
    for role in ("link", "button", "radio"):
        for one in ours.get_by_role(role, name=words).all():
            if one.is_visible() or role == "radio":
                return one, role
    opens = ours.locator("summary:visible", has_text=words)
    return (opens.first, "summary") if opens.count() else None


def tap(page, words):
    """Press it, when the page that was asked for has come and is shown."""
    for _ in range(TRIES):
        found = there(page, words)
        if found:
            one, role = found
            one.check(force=True) if role == "radio" else one.click()
            return
        page.wait_for_timeout(PAUSE)
    raise AssertionError(f"nothing to press: {words}")


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
