"""Which anchor or address does a heading or a file get?"""

from __future__ import annotations

import re
import unicodedata

ATTRIBUTES = re.compile(r"[ \t]*\{:?[ \t]*(?P<list>[#.][^{}\n]*)\}[ \t]*$")
LINK = re.compile(r"!?\[(?P<words>[^\[\]]*)\](?:\([^()]*\)|\[[^\[\]]*\])")
COUNTED = re.compile(r"(?P<stem>.*)_(?P<count>\d+)$")


def heading_slug(words: str, taken: set[str]) -> tuple[str, str]:
    """The heading without markup, and its anchor, made as Python-Markdown's table of contents makes it.

    `{#name}` at the end of a heading names the anchor. The anchor is added to `taken`.
    """
    attributes = ATTRIBUTES.search(words)
    named = None
    if attributes:
        words = words[: attributes.start()]
        named = next((word[1:] for word in attributes["list"].split() if word.startswith("#")), None)
    plain = re.sub(r"\\([\\`*_{}\[\]()#+.!-])", r"\1", re.sub(r"`|\*+", "", LINK.sub(r"\g<words>", words))).strip()
    slug = named or _unique(slugify(plain), taken)
    taken.add(slug)
    return plain, slug


def slugify(words: str) -> str:
    """Lower-case ASCII letters, digits and hyphens: 'Turn to Ø38' gives 'turn-to-38'."""
    ascii_words = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode("ascii")
    return re.sub(r"[-\s]+", "-", re.sub(r"[^\w\s-]", "", ascii_words).strip().lower())


def file_slug(stem: str) -> str:
    """The address of a method: its file name without ending, lower case, safe in a URL; 'method' if nothing is left."""
    return re.sub(r"-{2,}", "-", re.sub(r"[^a-z0-9-]+", "-", slugify(stem.replace("_", "-")))).strip("-") or "method"


def _unique(slug: str, taken: set[str]) -> str:
    while slug in taken or not slug:
        counted = COUNTED.match(slug)
        slug = f"{counted['stem']}_{int(counted['count']) + 1}" if counted else f"{slug}_1"
    return slug
