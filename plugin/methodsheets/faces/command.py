"""How does a command say that it cannot be carried out?"""

from __future__ import annotations

FAILED = 1
"""Exit status where something is wrong with what was given; 2 is a wrong command line."""


class CommandError(Exception):
    """A command that cannot be carried out; its words go to the person who typed it."""
