"""How does the guide write the blocks of a method: which key first, which word for a verb, which lines are clauses?"""

from __future__ import annotations

import functools
from collections.abc import Mapping, Sequence

from methodsheets.reading.front_matter import HELP
from methodsheets.reading.old_words import FRONT, new_clause, new_key
from methodsheets.reading.tidying import Manner
from methodsheets.vocabulary.shape import PartKey, Shape
from methodsheets.vocabulary.verb_word import verb_name

from .vocabulary import OPERATION_KEYS, SETUP_KEYS, verbs

_ORDERS: Mapping[str, tuple[str, ...]] = {FRONT: tuple(HELP), "setup": tuple(SETUP_KEYS), "op": tuple(OPERATION_KEYS)}
_CLAUSES = {FRONT: ("stock",), "setup": ("hold", "stock")}
_IN_VERBS = ("op", "part")
_FEATURES = frozenset(map(str, (*Shape, *PartKey)))
"""What stands in a part block beside verbs."""


def guide(*, upgrade: bool = False) -> Manner:
    """The manner of the guide; `upgrade` writes today's words for old ones."""
    if upgrade:
        return Manner(_word_of_today, _rank, _is_clauses, _clause_of_today)
    return Manner(_word, _rank, _is_clauses)


def _word(kind: str, key: str, keys: Sequence[str]) -> str:
    """A verb as the handbook calls it, where it is the only one of its block."""
    name = verb_name(key) if kind in _IN_VERBS else ""
    if (
        not name
        or name == key
        or (kind == "op" and sum(one not in OPERATION_KEYS and bool(verb_name(one)) for one in keys) > 1)
    ):
        return key
    return name


def _word_of_today(kind: str, key: str, keys: Sequence[str]) -> str:
    row = new_key(kind, key, keys)
    return row.new if row else _word(kind, key, keys)


def _clause_of_today(kind: str, key: str, clause: str) -> str:
    row = new_clause(kind, key, clause)
    return row.new + clause[len(row.old) :] if row else clause


def _rank(kind: str, key: str) -> int:
    """A verb first, then the keys in their order; what is none of ours last."""
    order = _ORDERS.get(kind, ())
    if key in order:
        return order.index(key) + 1
    return 0 if kind == "op" and verb_name(key) else len(order) + 1


def _is_clauses(kind: str, key: str) -> bool:
    """Whether a line is clauses; one that holds prose is not, for its commas are its author's."""
    if kind == "part" and key in _FEATURES:
        return True
    if kind in _IN_VERBS:
        return _has_clauses(verb_name(key))
    return key in _CLAUSES.get(kind, ())


@functools.cache
def _has_clauses(verb: str) -> bool:
    """Whether no sense of a verb takes prose."""
    senses = [one for (name, _), one in verbs().items() if name == verb]
    taken = {clause.kind for one in senses for clause in (one.first, *one.clauses) if clause}
    return bool(senses) and "prose" not in taken
