"""Which anchor or address does a heading or a file get?"""

from __future__ import annotations

import hashlib
import re
import unicodedata

ATTRIBUTES = re.compile(r"(?<![ \t])[ \t]*\{:?[ \t]*(?P<list>[#.][^{}\n]*)\}[ \t]*$")
LINK = re.compile(r"!?\[(?P<words>[^\[\]]*)\](?:\([^()]*\)|\[[^\[\]]*\])")
LONGEST = 80
"""Letters of an address; file systems take some 255 for a name, and several endings are added."""

DEVICES = frozenset({"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))})
"""Names that no file may have on some systems, whatever its ending."""

COUNTED = re.compile(r"(?P<stem>.*)_(?P<count>[0-9]{1,18})$", re.DOTALL)


def heading_slug(words: str, taken: set[str], counters: dict[str, int] | None = None) -> tuple[str, str]:
    """The heading without markup, and its anchor, made as Python-Markdown's table of contents makes it.

    `{#name}` at the end of a heading names the anchor. The anchor is added to `taken`.
    `counters` spares counting where many headings are alike; see `_unique`.
    """
    attributes = ATTRIBUTES.search(words) if words.rstrip().endswith("}") else None
    named = None
    if attributes:
        words = words[: attributes.start()]
        named = next((word[1:] for word in attributes["list"].split() if word.startswith("#")), None)
    plain = re.sub(r"\\([\\`*_{}\[\]()#+.!-])", r"\1", re.sub(r"`|\*+", "", LINK.sub(r"\g<words>", words))).strip()
    slug = named or _unique(slugify(plain), taken, counters if counters is not None else {})
    taken.add(slug)
    return plain, slug


def slugify(words: str) -> str:
    """Lower-case ASCII letters, digits and hyphens: 'Turn to Ø38' gives 'turn-to-38'."""
    ascii_words = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode("ascii")
    return re.sub(r"[-\s]+", "-", re.sub(r"[^\w\s-]", "", ascii_words).strip().lower())


def file_slug(stem: str) -> str:
    """The address of a method, a part or a workshop: lower case, safe in a URL and as the name of a file.

    A name of which nothing is left, one too long for a file and one that a system keeps for a device get an ending
    of their own, so that two such names stay two addresses.
    """
    slug = re.sub(r"-{2,}", "-", re.sub(r"[^a-z0-9-]+", "-", slugify(stem.replace("_", "-")))).strip("-")
    if slug and len(slug) <= LONGEST and slug not in DEVICES:
        return slug
    ending = hashlib.sha256(stem.encode("utf-8", "surrogatepass")).hexdigest()[:8]
    return f"{slug[: LONGEST - 9].rstrip('-') or 'name'}-{ending}"


def _unique(slug: str, taken: set[str], counters: dict[str, int]) -> str:
    """A slug that is not taken, counted on as Python-Markdown counts: 'turn', 'turn_1', 'turn_2'.

    Parameters:
        counters: stem → the largest n for which 'stem_1' to 'stem_n' are all taken, so that a thousand equal
            headings are not counted from the beginning each time
    """
    if slug and slug not in taken:
        return slug
    counted = COUNTED.match(slug)
    stem, number = (counted["stem"], int(counted["count"])) if counted else (slug, 0)
    known = counters.get(stem, 0)
    goes_on = number <= known or slug == f"{stem}_{known + 1}"
    number = (max(number, known) if goes_on else number) + 1
    while f"{stem}_{number}" in taken:
        number += 1
    if goes_on:
        counters[stem] = number
    return f"{stem}_{number}"
