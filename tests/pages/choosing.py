"""A reader chooses a workshop: what it sees may have to come from a file beside the page first."""

from __future__ import annotations

from typing import Any


def choose(page: Any, shop: str) -> None:
    """Choose a workshop on a page whose scripts run, and wait until it is shown."""
    page.locator(f"input[name=ms-workshop][value={shop}]").check(force=True)
    page.wait_for_function("shop => document.documentElement.dataset.msWorkshop === shop", arg=shop)
