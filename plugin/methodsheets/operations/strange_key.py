"""What did the author mean by a key that a block does not have: another key, or a clause of one of its lines?"""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping

from methodsheets.reading.problem import meant_by_its_help

from .words import Clause

NEAR = 0.6
"""How like two words are of which one may be meant for the other, from 0 to 1."""


def meant_by(key: str, owners: Mapping[str, Iterable[Clause]], keys: Mapping[str, str]) -> str:
    """What to do instead: a clause belongs into its line, also where it is misspelt; else the key that is nearest.

    Parameters:
        key: what the author wrote
        owners: the lines of the block by their key, with the clauses that each knows
        keys: those that the block may have, with what each is for
    """
    word, known = " ".join(key.lower().split()), tuple(keys)
    clauses = {clause.word: owner for owner, some in owners.items() for clause in some if clause.word}
    if word in clauses:
        return f"`{key}` is a clause: {_into_line(key, clauses[word])}"
    near = max(clauses, key=lambda one: _likeness(word, one), default="")
    if near and _likeness(word, near) > max([NEAR, *(_likeness(word, one.lower()) for one in known)]):
        return f"did you mean the clause `{near}`? {_into_line(near, clauses[near])}"
    return meant_by_its_help(key, keys)


def _into_line(word: str, owner: str) -> str:
    return f"write it in the line of `{owner}`, as `{owner}: …, {word} …`"


def _likeness(one: str, other: str) -> float:
    """How like two words are: 0 not at all, 1 the same."""
    return difflib.SequenceMatcher(None, one, other).ratio()
