"""How does the handbook live beside other plugins? What each of them needs is known here, and nowhere else."""

from __future__ import annotations

import re
from collections.abc import Callable

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import get_plugin_logger

from methodsheets.reading.markdown import scan

log = get_plugin_logger(__name__)

_QUOTED = re.compile(r"(?<!\\)\{\{\s*(.*?)\s*\}\}")
_OPENING = ("{{", "{%", "{#")


def is_translated(config: MkDocsConfig) -> bool:
    """Whether a plugin builds the site once for each language of its readers; it drops pages that it does not know."""
    return "i18n" in config.plugins


def tags_are_limited(config: MkDocsConfig) -> bool:
    """Whether the site's list of tags is closed, so that a tag that we derive would end the build."""
    for name in ("material/tags", "tags"):
        if name in config.plugins and config.plugins[name].config.get("tags_allowed"):
            log.info("methods get no tags: the tags plugin's option `tags_allowed` would refuse them")
            return True
    return False


def kept_from_macros(markdown: str, config: MkDocsConfig, is_ours: Callable[[str], bool]) -> str:
    """The text of a method with what is ours marked as no macro: `{{ bore }}` and our blocks; other macros stay.

    Parameters:
        is_ours: whether the method knows what stands between two pairs of braces
    """
    if "macros" not in config.plugins or not any(sign in markdown for sign in _OPENING):
        return markdown
    said = config.plugins["macros"].config
    begin, end = said.get("j2_block_start_string") or "{%", said.get("j2_block_end_string") or "%}"

    def raw(text: str) -> str:
        return f"{begin} raw {end}{text}{begin} endraw {end}"

    def kept(line: str) -> str:
        return _QUOTED.sub(lambda found: raw(found[0]) if is_ours(found[1]) else found[0], line)

    lines = markdown.split("\n")
    fenced = [(fence.line - 2, fence.end_line - 1) for fence in scan("\n" + markdown).fences]
    out: list[str] = []
    at = 0
    for first, last in fenced:
        out += [kept(line) for line in lines[at:first]]
        block = "\n".join(lines[first:last])
        out.append(raw(block) if any(sign in block for sign in _OPENING) else block)
        at = last
    return "\n".join([*out, *(kept(line) for line in lines[at:])])
