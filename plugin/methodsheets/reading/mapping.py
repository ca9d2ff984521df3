"""What are the `key: value` lines of a block, each at its place? YAML is read, never interpreted: words stay words."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import yaml

from methodsheets.reading.clauses import split_clauses
from methodsheets.reading.limits import ENTRIES, LEVELS, VALUE
from methodsheets.reading.problem import MethodError, Place, Problems
from methodsheets.reading.text import BLANKS, Text
from methodsheets.reading.yaml_words import yaml_error

LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
DEEPEST = LEVELS
MOST_ENTRIES = ENTRIES
BREAKS = str.maketrans({"\x85": " ", "\u2028": " ", "\u2029": " "})
"""Characters that YAML takes for line ends and editors do not; they would shift every line number."""

EntryValue: TypeAlias = "Text | tuple[Entry, ...] | tuple[Text, ...] | tuple[tuple[Entry, ...], ...]"


@dataclass(frozen=True)
class Entry:
    """One `key: value` of a block."""

    key: Text
    value: EntryValue

    @property
    def text(self) -> Text:
        """The value as words; '' at the key's place if it is a list or a mapping."""
        return self.value if isinstance(self.value, Text) else Text("", self.key.place)

    @property
    def texts(self) -> tuple[Text, ...]:
        """The value as a list of words; a single value is a list of one, an empty one a list of none."""
        if isinstance(self.value, Text):
            return (self.value,) if self.value else ()
        return tuple(item for item in self.value if isinstance(item, Text))

    @property
    def entries(self) -> tuple[Entry, ...]:
        """The value as a mapping; empty if it is none."""
        if isinstance(self.value, Text):
            return ()
        return tuple(item for item in self.value if isinstance(item, Entry))

    @property
    def items(self) -> tuple[tuple[Entry, ...], ...]:
        """The value as a list of mappings; empty if it is none."""
        if isinstance(self.value, Text):
            return ()
        return tuple(item for item in self.value if isinstance(item, tuple))

    @property
    def is_text(self) -> bool:
        """Whether the value is a single piece of words."""
        return isinstance(self.value, Text)

    @property
    def is_mapping(self) -> bool:
        """Whether the value is a non-empty mapping."""
        return not isinstance(self.value, Text) and bool(self.value) and isinstance(self.value[0], Entry)

    def entry(self, key: str) -> Entry | None:
        """The entry of that key in the mapping below this one."""
        return find_entry(self.entries, key)


@dataclass
class _Node:
    """A list or a mapping that is still being read."""

    is_mapping: bool
    place: Place
    flow_start: int | None = None
    items: list[Any] = field(default_factory=list)
    key: Text | None = None
    seen: dict[str, Place] = field(default_factory=dict)


def find_entry(entries: Iterable[Entry], key: str) -> Entry | None:
    """The entry of that key, or None."""
    return next((entry for entry in entries if entry.key.value == key), None)


def read_mapping(
    body: str, place: Place, problems: Problems, *, nested: bool = False, what: str = "block"
) -> tuple[Entry, ...]:
    """Read `key: value` lines into entries in their order.

    body: the lines, already without their common indent; place: that of the first character of the first line.
    nested: whether values may be mappings and lists of mappings; lists of words are always allowed.
    Anchors, aliases, tags, repeated keys and several documents are refused. All scalars stay the author's words.
    On a problem the entries that were read before it are lost and () is returned.
    """
    read = _read(body, place, problems, nested=nested, what=what)
    if isinstance(read, tuple) and all(isinstance(item, Entry) for item in read):
        return read
    if read is not None:
        problems.error(
            place,
            f"the {what} is not a list of `key: value` lines",
            "a key, a colon, a blank, a value",
            "write for instance `tool: knife tool`",
            code="not-a-mapping",
        )
    return ()


def read_items(body: str, place: Place, problems: Problems, *, what: str = "block") -> tuple[tuple[Entry, ...], ...]:
    """Read a block that is one mapping, or a list (`- key: value`) of mappings, into the entries of each."""
    read = _read(body, place, problems, nested=True, what=what)
    if read is None or read == ():
        return ()
    if isinstance(read, tuple) and isinstance(read[0], Entry):
        return (read,)
    if isinstance(read, tuple) and all(isinstance(item, tuple) for item in read):
        return read
    problems.error(
        place,
        f"the {what} holds more than `key: value` lines",
        "each item of the list is `- key: value`",
        "write for instance `- bore: 16 mm, through`",
        code="not-a-mapping",
    )
    return ()


def _read(body: str, place: Place, problems: Problems, *, nested: bool, what: str) -> Any:
    reader = _Reader(plain_lines(body), place, nested, what)
    try:
        return reader.read()
    except MethodError as error:
        problems.extend([error.problem])
    except yaml.YAMLError as error:
        problems.extend([yaml_error(error, reader.body, place, what)])
    return None


_PROSE = re.compile(r"(?m)^(?P<key>(?:- )?(?:note|caution|title|method|summary): +)(?P<said>[^\s'\"|>\[{][^\n]*)$")
"""A line of prose, which YAML would take for a mapping if it has a colon in it: `note: Careful: hot`."""


def plain_lines(body: str) -> str:
    """The lines as YAML is to see them: blanks and line ends of its own kind, prose with a colon in quotes."""
    return _PROSE.sub(_quoted, body.translate(BREAKS).translate(BLANKS))


def _quoted(line: re.Match[str]) -> str:
    """The same line with its prose in quotes, where it has a colon with a blank behind it."""
    said = line["said"].rstrip(" \t")
    return line["key"] + "'" + said.replace("'", "''") + "'" if ": " in said[1:] else line[0]


class _Reader:
    """Builds entries from YAML events; events come one by one, so nothing deep or aliased is ever expanded."""

    def __init__(self, body: str, place: Place, nested: bool, what: str) -> None:
        self.body = body
        self.lines = body.split("\n")
        self.start = place
        self.nested = nested
        self.what = what
        self.stack: list[_Node] = []
        self.result: Any = ()
        self.documents = 0
        self.count = 0

    def read(self) -> Any:
        for event in yaml.parse(self.body, Loader=LOADER):
            self._check(event)
            if isinstance(event, yaml.ScalarEvent):
                self._add(self._scalar(event))
            elif isinstance(event, yaml.MappingStartEvent | yaml.SequenceStartEvent):
                self._open(event)
            elif isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
                self._close(event)
        return self.result

    def _place(self, mark: Any, right: int = 0) -> Place:
        return Place(self.start.path, self.start.line + mark.line, self.start.column + mark.column + right)

    def _check(self, event: Any) -> None:
        refused = ""
        if isinstance(event, yaml.AliasEvent):
            refused = f"an alias (got *{event.anchor})"
        elif getattr(event, "anchor", None):
            refused = f"an anchor (got &{event.anchor})"
        elif getattr(event, "tag", None) not in (None, "!"):
            refused = f"a tag (got {event.tag})"
        elif isinstance(event, yaml.DocumentStartEvent):
            self.documents += 1
            if self.documents > 1:
                refused = "a second document (got `---`)"
        if refused:
            raise MethodError(
                self._place(event.start_mark),
                f"the {self.what} holds {refused}",
                "only `key: value` lines are read",
                "write the value out; put it in double quotes if it begins with a special sign",
                code="yaml-feature",
            )

    def _scalar(self, event: Any) -> Text:
        mark = event.start_mark
        if len(event.value) > VALUE:
            raise MethodError(
                self._place(mark),
                f"the value is too long (got {len(event.value):,} characters)",
                f"a value has at most {VALUE:,}",
                "write it as text of the page",
                code="too-much",
            )
        if event.style in ("|", ">"):
            line = self.lines[mark.line + 1 : mark.line + 2] or [""]
            indent = len(line[0]) - len(line[0].lstrip())
            return Text(
                event.value.rstrip("\n"),
                Place(self.start.path, self.start.line + mark.line + 1, self.start.column + indent),
            )
        return Text(event.value, self._place(mark, 1 if event.style in ("'", '"') else 0))

    def _open(self, event: Any) -> None:
        place = self._place(event.start_mark)
        mapping = isinstance(event, yaml.MappingStartEvent)
        if self.stack and mapping and not self.nested:
            raise self._too_nested(place, event)
        if len(self.stack) >= DEEPEST:
            raise MethodError(
                place,
                f"the {self.what} is nested too deep (got {len(self.stack) + 1} levels)",
                f"{DEEPEST} levels are read",
                "write it flatter",
                code="too-deep",
            )
        parent = self.stack[-1] if self.stack else None
        if parent is not None and parent.is_mapping and parent.key is None:
            raise MethodError(place, "a key is a list or a mapping", "a key is a word", _braces_hint(self.body, event))
        self.stack.append(_Node(mapping, place, event.start_mark.index if event.flow_style else None))

    def _too_nested(self, place: Place, event: Any) -> MethodError:
        return MethodError(
            place,
            "a mapping stands where words are due",
            f"values of this {self.what} are words or lists of words",
            _braces_hint(self.body, event),
            code="too-deep",
        )

    def _close(self, event: Any) -> None:
        node = self.stack.pop()
        items = tuple(node.items)
        if not node.is_mapping and node.flow_start is not None:
            items = self._flow_items(node, event.end_mark, items)
        if not self.stack:
            self.result = items
        else:
            self._add(items)

    def _flow_items(self, node: _Node, end_mark: Any, items: tuple[Any, ...]) -> tuple[Any, ...]:
        """The items of `[…]` cut at its own commas, so that `[(1 mm, 2 mm), f(a, b)]` has two."""
        if end_mark.line + self.start.line != node.place.line or not any(
            isinstance(item, Text) and item.value[:1] not in ('"', "'") for item in items
        ):
            return items
        line = self.lines[end_mark.line]
        begin = node.place.column - self.start.column + 1
        raw = Text(line[begin : end_mark.column - 1], node.place.right(1))
        if "(" not in raw.value and "[" not in raw.value:
            return items
        return tuple(_unquoted(piece) for piece in split_clauses(raw))

    def _add(self, item: Any) -> None:
        self.count += 1
        if self.count > MOST_ENTRIES:
            raise MethodError(self.start, f"the {self.what} has more than {MOST_ENTRIES} entries", "", "split it up")
        if not self.stack:
            if isinstance(item, Text) and not item.value:
                return
            raise MethodError(
                item.place,
                f"the {self.what} is not a list of `key: value` lines (got `{item.value[:60]}`)",
                "a key, a colon, a blank, a value",
                _with_a_colon(item.value),
                code="not-a-mapping",
            )
        node = self.stack[-1]
        if not node.is_mapping:
            node.items.append(item)
        elif node.key is None:
            self._take_key(node, item)
        else:
            node.items.append(Entry(node.key, item))
            node.key = None

    def _take_key(self, node: _Node, key: Text) -> None:
        first = node.seen.get(key.value)
        if first is not None:
            raise MethodError(
                key.place,
                f"the key `{key.value}` is written twice (first on line {first.line})",
                f"a key stands once in a {self.what}",
                "put both into one line, or take one away",
                code="repeated-key",
            )
        node.seen[key.value] = key.place
        node.key = key


def _with_a_colon(words: str) -> str:
    """What to write for a line without one: a word or two are a key that stands alone, as `deburr:` may."""
    alone = len(words.split()) <= 2 and words.replace(" ", "").isalpha()
    return f"put a colon behind it: `{words}:`" if alone else "write for instance `tool: knife tool`"


def _unquoted(piece: Text) -> Text:
    if len(piece.value) >= 2 and piece.value[0] == piece.value[-1] and piece.value[0] in "\"'":
        return Text(piece.value[1:-1], piece.place.right(1))
    return piece


def _braces_hint(body: str, event: Any) -> str:
    line = body.split("\n")[event.start_mark.line]
    if "{{" in line:
        return "write the name without `{{ }}`: values of blocks are worked out as they stand"
    return "write it as words on one line"
