"""What differs from workshop to workshop? One tree from several: equal parts once, different parts one for each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from . import document as d


def merge(trees: Mapping[str, d.Blocks], own: str) -> d.Blocks:
    """Return one tree for all workshops.

    Parameters:
        trees: the tree for each workshop, by its key.
        own: key of the workshop that is shown until the reader chooses; the first one if it is not there.
    """
    if not trees:
        return ()
    shown = own if own in trees else next(iter(trees))
    return _merge_lists({shown: trees[shown], **{key: tree for key, tree in trees.items() if key != shown}}, shown)


def _merge_lists(trees: Mapping[str, tuple[Any, ...]], shown: str) -> tuple[Any, ...]:
    """Merge lists of blocks piece by piece where they run parallel, as a whole where they do not."""
    lists = list(trees.values())
    if all(tree == lists[0] for tree in lists):
        return lists[0]
    if not _run_parallel(lists):
        return _merge_around_anchors(trees, shown)
    merged: list[Any] = []
    for index in range(len(lists[0])):
        merged.extend(_merge_piece({key: tree[index] for key, tree in trees.items()}, shown))
    return tuple(merged)


def _merge_around_anchors(trees: Mapping[str, tuple[Any, ...]], shown: str) -> tuple[Any, ...]:
    """Merge lists of which some have pieces that others lack: what all have is paired, the rest goes in between."""
    common = _common_marks(list(trees.values()))
    if not common:
        return _variants(trees, shown)
    places = {key: [[_mark(piece) for piece in tree].index(mark) for mark in common] for key, tree in trees.items()}
    merged: list[Any] = []
    for number in range(len(common) + 1):
        between = {}
        for key, tree in trees.items():
            bounds = [-1, *places[key], len(tree)]
            between[key] = tree[bounds[number] + 1 : bounds[number + 1]]
        merged.extend(_merge_lists(between, shown))
        if number < len(common):
            merged.extend(_merge_piece({key: tree[places[key][number]] for key, tree in trees.items()}, shown))
    return tuple(merged)


def _common_marks(lists: list[tuple[Any, ...]]) -> list[tuple[str, ...]]:
    """Marks that every list has exactly once, if they stand in one order everywhere; else those of anchors alone."""
    marks = [[_mark(piece) for piece in tree] for tree in lists]
    once = [mark for mark in marks[0] if mark and all(other.count(mark) == 1 for other in marks)]
    for wanted in (once, [mark for mark in once if mark[0] == "Group" and mark[-1]]):
        orders = [[mark for mark in other if mark in wanted] for other in marks]
        if all(order == orders[0] for order in orders):
            return orders[0]
    return []


def _mark(piece: Any) -> tuple[str, ...]:
    """What tells one piece of a list from the others, whatever it says; () for a piece like any other."""
    name = type(piece).__name__
    if isinstance(piece, d.Group):
        return (name, piece.kind, piece.tag, piece.id)
    if isinstance(piece, d.Heading):
        return (name, piece.id) if piece.id else ()
    if isinstance(piece, d.Table):
        return (name, piece.kind, piece.caption)
    if isinstance(piece, d.Box):
        return (name, piece.kind, piece.title)
    if isinstance(piece, d.Pair):
        return (name, piece.key) if piece.key else ()
    if isinstance(piece, d.Pairs | d.Disclosure | d.FigurePlace | d.Listing | d.Paragraph):
        return (name, piece.kind) if piece.kind else ()
    return ()


def _run_parallel(lists: list[tuple[Any, ...]]) -> bool:
    """Whether all lists have the same kinds of pieces in the same order, so that each may be compared alone."""
    first = lists[0]
    return all(
        len(other) == len(first) and all(_alike(one, two) for one, two in zip(first, other, strict=True))
        for other in lists[1:]
    )


def _alike(one: Any, two: Any) -> bool:
    if type(one) is not type(two):
        return False
    if isinstance(one, d.Group):
        return (one.kind, one.tag, one.id) == (two.kind, two.tag, two.id)
    if isinstance(one, d.Pair):
        return bool((one.key, one.kind) == (two.key, two.kind))
    if isinstance(one, d.Heading):
        return bool(one.id == two.id)
    return True


def _merge_piece(pieces: Mapping[str, Any], shown: str) -> tuple[Any, ...]:
    first = next(iter(pieces.values()))
    if all(piece == first for piece in pieces.values()):
        return (first,)
    if (
        isinstance(first, d.Group)
        and not first.undivided
        and all(piece.attributes == first.attributes for piece in pieces.values())
    ):
        inner = _merge_lists({key: piece.content for key, piece in pieces.items()}, shown)
        return (replace(first, content=inner),)
    if isinstance(first, d.Disclosure) and all(piece.summary == first.summary for piece in pieces.values()):
        inner = _merge_lists({key: piece.content for key, piece in pieces.items()}, shown)
        return (replace(first, content=inner),)
    if isinstance(first, d.Pairs):
        inner = _merge_lists({key: piece.cells for key, piece in pieces.items()}, shown)
        return (replace(first, cells=inner),)
    return _variants({key: (piece,) for key, piece in pieces.items()}, shown)


def _variants(trees: Mapping[str, tuple[Any, ...]], shown: str) -> tuple[d.For, ...]:
    """One `For` for each different tree, with all the workshops that share it; the shown one first."""
    groups: list[tuple[tuple[Any, ...], list[str]]] = []
    for key, tree in trees.items():
        for known, keys in groups:
            if known == tree:
                keys.append(key)
                break
        else:
            groups.append((tree, [key]))
    return tuple(d.For(tuple(keys), tree, shown in keys) for tree, keys in groups if tree)


def merge_words(contents: Mapping[str, d.Inline], own: str) -> d.Inline:
    """The same for inline content, such as one cell of a table; nothing for nothing."""
    if not contents:
        return ()
    shown = own if own in contents else next(iter(contents))
    if all(content == contents[shown] for content in contents.values()):
        return contents[shown]
    pieces: list[d.Span] = []
    for content in dict.fromkeys([contents[shown], *contents.values()]):
        keys = [key for key, held in contents.items() if held == content]
        attributes: d.Attributes = (("data-ms-for", " ".join(keys)),)
        if shown in keys:
            pieces.append(d.Span("variant", content, attributes))
        else:
            pieces.append(d.Span("variant other", content, (*attributes, ("data-search-exclude", ""))))
    return tuple(pieces)


def workshops_in(blocks: tuple[Any, ...]) -> set[str]:
    """Keys of all workshops that some part of a tree is meant for."""
    found: set[str] = set()
    for block in blocks:
        if isinstance(block, d.For):
            found.update(block.workshops)
        elif isinstance(block, d.Pairs):
            found |= workshops_in(block.cells)
        elif isinstance(block, d.Group | d.Disclosure):
            found |= workshops_in(block.content)
    return found
