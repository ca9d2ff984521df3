"""How do an author's words get into a host, whose templates set titles, descriptions and tags as finished markup?

A host's template writes `{{ page.title }}` and escapes nothing. So words of a method or workshop pass through here
once, on their way out of our pages: as `HostWords` into templates and front matter, as `heading_words` into Markdown.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from html import escape
from typing import Any, NewType

HostWords = NewType("HostWords", str)
"""Words that a template may set as they are: text of HTML, without a sign that could begin markup."""

_SIGNS = re.compile(r"[^\w\s.,;()/×·–—’-]|_")
_UNPRINTED = re.compile("[^\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
"""What YAML refuses or folds where it stands in quotes."""


def host_words(words: str) -> HostWords:
    """Words as a template may set them, in text and within quotes."""
    return HostWords(escape(words, quote=True))


def host_meta(given: Any) -> Any:
    """What a page tells its host, every text in it as `host_words`; numbers, truth values and dates stay."""
    if isinstance(given, str):
        return host_words(given)
    if isinstance(given, Mapping):
        return {host_meta(key): host_meta(value) for key, value in given.items()}
    if isinstance(given, list | tuple):
        return [host_meta(one) for one in given]
    return given


def front_matter(meta: Mapping[str, Any]) -> str:
    """Front matter; JSON is YAML, so no value can be misread."""
    kept = {key: value for key, value in meta.items() if value not in (None, [], "")}
    lines = [f"{key}: {_quoted(host_meta(value))}" for key, value in kept.items()]
    return "---\n" + "\n".join(lines) + "\n---\n"


def _quoted(value: Any) -> str:
    return _UNPRINTED.sub(lambda found: f"\\u{ord(found.group()):04x}", json.dumps(value, ensure_ascii=False))


def heading_words(words: str) -> str:
    """Words on one line of Markdown that stay these words: every sign that Markdown might take is spelt out."""
    return _SIGNS.sub(lambda found: f"&#{ord(found.group())};", " ".join(words.split()))
