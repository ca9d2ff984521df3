"""How far has a long piece of work come? A bar for who sits at a terminal; a pipe and a short build see nothing."""

from __future__ import annotations

import logging
import sys
from collections.abc import Callable
from typing import Any, TextIO

WORKED_OUT = "methods worked out"
AFTER = 1.5
"""Seconds after which a bar appears: what is done sooner needs none."""


class Bar:
    """Told how many of how many are done; draws nothing before some time has gone by, and leaves nothing behind.

    Parameters:
        words: what is being done
        stream: the terminal
        after: seconds after which the bar appears
    """

    def __init__(self, words: str, stream: TextIO, after: float = AFTER) -> None:
        self.words, self.stream, self.after = words, stream, after
        self.bar: Any = None

    def __call__(self, done: int, of: int) -> None:
        """So many of so many are done."""
        if self.bar is None:
            from tqdm import tqdm  # late: who needs no bar does not wait for it

            self.bar = tqdm(
                total=of, desc=self.words, file=self.stream, delay=self.after, leave=False, dynamic_ncols=True
            )
        self.bar.update(done - self.bar.n)
        if done >= of:
            self.bar.close()
            self.bar = None


def bar(words: str, stream: TextIO | None = None) -> Callable[[int, int], None] | None:
    """A bar on the error channel where that is a terminal and the host has not been told to be quiet; else None."""
    stream = sys.stderr if stream is None else stream
    if not stream.isatty() or logging.getLogger("mkdocs").getEffectiveLevel() > logging.WARNING:
        return None
    return Bar(words, stream)
