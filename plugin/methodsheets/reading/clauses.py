"""Where do the clauses of a line begin and end: commas count, but not those inside brackets or quotation marks."""

from __future__ import annotations

from collections.abc import Iterator

from methodsheets.reading.text import Text

OPENING = "([{"
CLOSING = ")]}"


def split_clauses(line: Text, separator: str = ",") -> tuple[Text, ...]:
    """The clauses of a line, each at its place and without blanks round it; an empty line has none.

    Empty clauses (two commas in a row, one at the end) are kept as empty texts so that the caller can name them.
    """
    if not line.value.strip():
        return ()
    cuts = [index for index, character in bare_characters(line.value) if character == separator]
    starts = [0, *(cut + 1 for cut in cuts)]
    return tuple(line.cut(start, end) for start, end in zip(starts, [*cuts, None], strict=True))


def split_word(clause: Text) -> tuple[Text, Text]:
    """The first word of a clause and the rest: 'over 30 mm' gives 'over' and '30 mm'."""
    stripped = clause.cut(0)
    end = next((i for i, character in enumerate(stripped.value) if character.isspace()), len(stripped.value))
    return stripped.cut(0, end), stripped.cut(end)


def find_word(clause: Text, word: str) -> tuple[Text, Text] | None:
    """The parts before and after a bare word: 'offset throw at 0 deg' cut at 'at'; None where it is not there."""
    for index, character in bare_characters(clause.value):
        if character != word[0] or not clause.value.startswith(word, index):
            continue
        end = index + len(word)
        before, after = clause.value[index - 1 : index], clause.value[end : end + 1]
        if (not before or before.isspace()) and (not after or after.isspace()):
            return clause.cut(0, index), clause.cut(end)
    return None


def strip_remark(line: str) -> tuple[str, str]:
    """A line without the remark behind ` #`, and the remark; a # inside quotation marks is no remark."""
    for index in outside_quotes(line):
        if line[index] == "#" and (index == 0 or line[index - 1].isspace()):
            return line[:index].rstrip(), line[index + 1 :].strip()
    return line.rstrip(), ""


def bracket_depth(line: str) -> int:
    """How many brackets are still open at the end of the line; negative if more were closed."""
    depth = 0
    for index in outside_quotes(line):
        depth += (line[index] in OPENING) - (line[index] in CLOSING)
    return depth


def bare_characters(line: str) -> Iterator[tuple[int, str]]:
    """The characters outside brackets and quotation marks, with their offsets."""
    depth = 0
    for index in outside_quotes(line):
        character = line[index]
        if character in OPENING:
            depth += 1
        elif character in CLOSING:
            depth = max(0, depth - 1)
        elif not depth:
            yield index, character


def outside_quotes(line: str) -> Iterator[int]:
    """Offsets of the characters outside quotation marks; a mark straight after a digit means seconds or inches."""
    quoted = False
    for index, character in enumerate(line):
        if character == '"':
            if quoted:
                quoted = False
                continue
            if not is_measure_mark(line, index):
                quoted = True
                continue
        if not quoted:
            yield index


def is_measure_mark(line: str, index: int) -> bool:
    """Whether the quotation mark at `index` stands straight after a digit, as in 12°30'15" or 3/8"."""
    return index > 0 and (line[index - 1].isdigit() or line[index - 1] == ".")
