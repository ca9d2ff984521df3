"""How is a line of words written so that YAML takes it for those very words?"""

from __future__ import annotations


def in_yaml(words: str) -> str:
    """In quotes where YAML would take a sign in it for its own; runs of blanks become one."""
    plain = " ".join(words.split())
    awkward = plain[:1] in "\"'&*!|>%@`#-?:,[]{}" or ": " in plain or " #" in plain or plain.endswith(":")
    return '"' + plain.replace("\\", "\\\\").replace('"', '\\"') + '"' if awkward else plain
