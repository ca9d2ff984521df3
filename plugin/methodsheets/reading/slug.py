"""Which anchor or address does a heading or a file get?"""

from __future__ import annotations

import re
import unicodedata

ATTRIBUTES = re.compile(r"(?<![ \t])[ \t]*\{:?[ \t]*(?P<list>[#.][^{}\n]*)\}[ \t]*$")
LINK = re.compile(r"!?\[(?P<words>[^\[\]]*)\](?:\([^()]*\)|\[[^\[\]]*\])")
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
    """The address of a method: its file name without ending, lower case, safe in a URL; 'method' if nothing is left."""
    return re.sub(r"-{2,}", "-", re.sub(r"[^a-z0-9-]+", "-", slugify(stem.replace("_", "-")))).strip("-") or "method"


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
