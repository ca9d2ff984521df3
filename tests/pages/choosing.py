"""A reader chooses a workshop: what it sees may have to come from a file beside the page first."""

from __future__ import annotations

import contextlib
from typing import Any

TRIES, PAUSE = 1200, 25
"""How often a page is asked, and ms between: half a minute, however slow the machine."""
SHOWN = "!('msWaits' in document.documentElement.dataset)"
"""True when the lettering has come and the page is seen."""


def until(page: Any, script: str, arg: Any = None) -> None:
    """Wait until a script of the test is true in the page.

    A page with a policy lets no text be run as a script later on; what the test asks at once is let through.
    """
    from playwright.sync_api import Error

    for _ in range(TRIES):
        with contextlib.suppress(Error):  # while it goes to another page there is nothing to ask
            if page.evaluate(script, arg):
                return
        page.wait_for_timeout(PAUSE)
    raise AssertionError(f"never so: {script}")


def choose(page: Any, shop: str) -> None:
    """Choose a workshop on a page whose scripts run, and wait until it is shown."""
    page.locator(f"input[name=ms-workshop][value={shop}]").check(force=True)
    until(page, "shop => document.documentElement.dataset.msWorkshop === shop", shop)
