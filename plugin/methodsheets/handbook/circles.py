"""In which order can methods be worked out that are made from each other, and which go round in a circle?"""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping, Sequence


def circles(needs: Mapping[str, Sequence[str]]) -> list[tuple[str, ...]]:
    """The groups of names that need each other, those that others need first; a name in no circle is a group of one.

    Every name and every need is looked at once (Tarjan's strongly connected components), without recursion, so that
    a chain of a thousand is nothing special.

    Parameters:
        needs: name → names that it needs; each of them is a key too
    """
    search = _Search(needs)
    for name in needs:
        if name not in search.index:
            search.start(name)
    return search.groups


class _Search:
    """Tarjan's search with a stack of its own."""

    def __init__(self, needs: Mapping[str, Sequence[str]]) -> None:
        self.needs = needs
        self.index: dict[str, int] = {}
        self.lowest: dict[str, int] = {}
        self.open: list[str] = []
        self.is_open: set[str] = set()
        self.groups: list[tuple[str, ...]] = []

    def start(self, first: str) -> None:
        """Search from one name."""
        path: list[tuple[str, Iterator[str]]] = [self._enter(first)]
        while path:
            name, left = path[-1]
            following = next(left, None)
            if following is None:
                path.pop()
                if path:
                    above = path[-1][0]
                    self.lowest[above] = min(self.lowest[above], self.lowest[name])
                if self.lowest[name] == self.index[name]:
                    self._close(name)
            elif following not in self.index:
                path.append(self._enter(following))
            elif following in self.is_open:
                self.lowest[name] = min(self.lowest[name], self.index[following])

    def _enter(self, name: str) -> tuple[str, Iterator[str]]:
        self.index[name] = self.lowest[name] = len(self.index)
        self.open.append(name)
        self.is_open.add(name)
        return name, iter(self.needs[name])

    def _close(self, name: str) -> None:
        """Take a whole group from the stack."""
        group: list[str] = []
        while not group or group[-1] != name:
            group.append(self.open.pop())
        self.is_open.difference_update(group)
        self.groups.append(tuple(sorted(group)))


def before(name: str, needs: Mapping[str, Sequence[str]], done: Container[str] = ()) -> list[str]:
    """Everything that a name needs, and what that needs in turn, what is needed first; without the name itself.

    Parameters:
        needs: name → names that it needs, without circles
        done: names that are there already
    """
    order: list[str] = []
    seen = {name}
    path = [(name, iter(needs[name]))]
    while path:
        current, left = path[-1]
        following = next((one for one in left if one not in seen and one not in done), None)
        if following is not None:
            seen.add(following)
            path.append((following, iter(needs[following])))
            continue
        path.pop()
        if path:
            order.append(current)
    return order
