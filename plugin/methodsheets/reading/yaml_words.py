"""What does a YAML error mean in plain words?"""

from __future__ import annotations

from typing import Any

import yaml

from methodsheets.reading.problem import Place, Problem, Severity

QUOTE_IT = "put the whole value in double quotes, or leave the sign out"


def yaml_error(error: yaml.YAMLError, body: str, start: Place, what: str) -> Problem:
    """The problem behind a YAML error, at its place in the file."""
    mark: Any = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    if "quoted scalar" in str(getattr(error, "context", "")) and "end of stream" in str(getattr(error, "problem", "")):
        mark = getattr(error, "context_mark", None) or mark  # where the quotation mark is opened
    lines = body.split("\n")
    line, column = (min(mark.line, len(lines) - 1), mark.column) if mark is not None else _reader_place(error, body)
    place = Place(start.path, start.line + line, start.column + column)
    said, rule, remedy = _plain(error, lines[line], column)
    return Problem(place, f"the {what} cannot be read: {said}", rule, remedy, Severity.ERROR, "yaml")


def _reader_place(error: yaml.YAMLError, body: str) -> tuple[int, int]:
    position = getattr(error, "position", 0)
    before = body[: position if isinstance(position, int) else 0]
    return before.count("\n"), len(before) - before.rfind("\n") - 1


def _plain(error: yaml.YAMLError, line: str, column: int) -> tuple[str, str, str]:
    problem = str(getattr(error, "problem", "") or getattr(error, "reason", "") or "")
    sign = line[column : column + 1]
    got = f"(got `{line.strip()[:60]}`)"
    if "{{" in line:
        return f"braces in a value {got}", "values are worked out as they stand", "write the name without `{{ }}`"
    if "\t" in line[: len(line) - len(line.lstrip())] or sign == "\t":
        return f"a tab in the indent {got}", "blanks indent a line", "replace the tab by blanks"
    if "mapping values are not allowed" in problem:
        return f"a second colon with a blank behind it {got}", "one `key: value` to a line", QUOTE_IT
    if "could not find expected ':'" in problem:
        return "a line without a colon", "a key, a colon, a blank, a value", "write for instance `tool: knife tool`"
    if "cannot start any token" in problem:
        return f"a value may not begin with `{sign}` {got}", "", QUOTE_IT
    if "unexpected end of stream" in problem or "unexpected document" in problem:
        return f"a quotation mark or a bracket is opened and not closed {got}", "", "close it"
    if "escape" in problem:
        return f"a backslash in a quoted value {got}", "", "leave the backslash out, or the quotation marks"
    if "not allowed" in problem and "character" in problem:
        return "a control character", "a block is plain text", "delete it"
    if "expected <block end>" in problem or "did not find expected key" in problem or "found '<scalar>'" in problem:
        return (
            f"this line does not fit the lines above {got}",
            "all keys of a block begin in one column, and nothing follows a closing quotation mark",
            "check the indent and the quotation marks",
        )
    if "did not find expected" in problem or "expected the node content" in problem or "flow" in problem:
        return f"brackets or commas do not match {got}", "", QUOTE_IT
    return f"something here is not `key: value` {got}", "a key, a colon, a blank, a value", QUOTE_IT
