"""Where exactly in its lines does each key of a mapping stand, and its value?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import yaml

from methodsheets.reading.mapping import LOADER, plain_lines


@dataclass(frozen=True)
class Written:
    """One key with its value; lines and columns count from 0 within the mapping."""

    key: str
    line: int
    column: int
    key_end: int
    """The column behind the key and its quotation marks."""
    is_plain_key: bool
    value: tuple[int, int] | None
    """First column of the value and the one behind it, where it stands on the line of its key; else None."""
    is_plain: bool
    """Whether the value stands without quotation marks or brackets."""
    end_line: int
    """The last line that holds something of the value."""


def written_entries(body: str) -> tuple[Written, ...]:
    """The keys of a mapping, or of a list of mappings, in their order; () where it is neither, or in braces."""
    plain = plain_lines(body)
    try:
        node = yaml.compose(plain, Loader=LOADER)
    except (yaml.YAMLError, RecursionError):
        return ()
    pairs = list(_pairs(node))
    if None in pairs:
        return ()
    lines, shown = body.split("\n"), plain.split("\n")
    ends = [key.start_mark.line for key, _ in pairs[1:]] + [len(lines)]
    return tuple(_written(pair, end, lines, shown) for pair, end in zip(pairs, ends, strict=True))


def _pairs(node: Any) -> Iterator[Any]:
    """Keys with their values, and None for what is none of these."""
    if isinstance(node, yaml.MappingNode) and not node.flow_style:
        yield from node.value
    elif isinstance(node, yaml.SequenceNode) and not node.flow_style:
        for item in node.value:
            yield from _pairs(item) if isinstance(item, yaml.MappingNode) else (None,)
    else:
        yield None


def _written(pair: tuple[Any, Any], end: int, lines: list[str], shown: list[str]) -> Written:
    key, value = pair
    at = key.start_mark.line
    first, last = value.start_mark, value.end_mark
    one_line = first.line == at and last.line == at and not _is_block(value)
    if one_line:
        last_line = at
    elif isinstance(value, yaml.ScalarNode) and not _is_block(value):
        last_line = last.line
    else:
        last_line = _last_filled(lines, at, end, key.start_mark.column)
    place = None
    is_plain = isinstance(value, yaml.ScalarNode) and not value.style
    if one_line and lines[at] != shown[at]:  # prose with a colon in it: all that stands behind the key
        place, is_plain = (first.column, len(lines[at].rstrip())), False
    elif one_line and value.value != "":
        place = (first.column, last.column)
    return Written(
        key=key.value,
        line=at,
        column=key.start_mark.column,
        key_end=key.end_mark.column,
        is_plain_key=isinstance(key, yaml.ScalarNode) and not key.style,
        value=place,
        is_plain=is_plain,
        end_line=last_line,
    )


def _is_block(value: Any) -> bool:
    """Whether a value goes on in lines of its own by its form: `|`, `>`, or a list or mapping without brackets."""
    if isinstance(value, yaml.ScalarNode):
        return value.style in ("|", ">")
    return not value.flow_style


def _last_filled(lines: list[str], at: int, end: int, column: int) -> int:
    """The last line before `end` that belongs to the value of a key: deeper than it, or an item of its list."""
    last = at
    for number in range(at + 1, end):
        line = lines[number]
        indent = len(line) - len(line.lstrip())
        if line.strip() and (indent > column or (indent == column and line.lstrip().startswith("- "))):
            last = number
    return last
