"""Which pictures are there already? Drawings by what they show, so that an edit redraws only what looks otherwise."""

from __future__ import annotations

import hashlib
import zlib
from collections.abc import Callable, Iterator, MutableMapping
from typing import Any

from methodsheets.sheet.records import RecordError, pack, unpack

from .digests import digest_of
from .store import Store


class Album(MutableMapping[str, Any]):
    """Drawings by their content: those of the method in hand, and those that the store has.

    `drawings.draw_method` looks here before it draws, and puts here what it has drawn.
    """

    def __init__(
        self, base: str, figure: type | None, store: Store | None, views: Callable[[], Any] | None = None
    ) -> None:
        """Open the album.

        Parameters:
            base: digest of the program that draws
            figure: the record that a drawing is; None where drawings cannot be kept
            store: None where nothing is to be taken from it
            views: makes what remembers how solids look; None where nothing is drawn
        """
        self._base = base
        self._figure = figure
        self._store = store
        self._here: dict[str, Any] = {}
        self._slug = ""
        self._new_views = views
        self.views: Any = None
        """How the solids of the method in hand look: the same for every workshop."""
        self._fresh: dict[str, bytes] = {}
        self.drawn = 0
        """How many have been drawn since `take` was called."""

    def in_child(self) -> None:
        """Read through a connection of this process' own; one from before the fork must not be used."""
        path = self._store.path if self._store is not None else None
        self._store = Store(path, read_only=True) if path is not None else None

    def begin(self, slug: str) -> None:
        """Go on to a method; the drawings of the one before are put away, so that a large handbook stays small."""
        if slug != self._slug:
            self._slug = slug
            self._here.clear()
            self.views = self._new_views() if self._new_views is not None else None

    def take(self) -> tuple[dict[str, bytes], int]:
        """What has been drawn since this was called last, ready for the store, and how many."""
        fresh, drawn = self._fresh, self.drawn
        self._fresh, self.drawn = {}, 0
        return fresh, drawn

    def _key(self, content: str) -> str:
        return "figure:" + digest_of(self._base, content)

    def __getitem__(self, content: str) -> Any:
        """The drawing of a content.

        Raises:
            KeyError: it must be drawn.
        """
        if content in self._here:
            return self._here[content]
        if self._store is None or self._figure is None:
            raise KeyError(content)
        kept = self._store.note(self._key(content))
        if kept is None:
            raise KeyError(content)
        try:
            figure: Any = unpack(self._figure, zlib.decompress(kept))
        except (RecordError, zlib.error):
            raise KeyError(content) from None
        self._here[content] = figure
        return figure

    def __setitem__(self, content: str, figure: Any) -> None:
        """Put a new drawing in."""
        self._here[content] = figure
        self.drawn += 1
        if self._figure is not None and isinstance(figure, self._figure):
            self._fresh[self._key(content)] = zlib.compress(pack(figure), 1)

    def __delitem__(self, content: str) -> None:
        """Take a drawing out."""
        del self._here[content]

    def __iter__(self) -> Iterator[str]:
        """The contents at hand."""
        return iter(self._here)

    def __len__(self) -> int:
        """How many are at hand."""
        return len(self._here)


def picture_key(svg: str) -> str:
    """Where the store keeps a picture: under the digest of the picture itself, so that equal ones are kept once."""
    return "svg:" + hashlib.sha256(svg.encode()).hexdigest()


def pack_picture(svg: str) -> bytes:
    """A picture as the store keeps it."""
    return zlib.compress(svg.encode(), 1)


def unpack_picture(kept: bytes) -> str:
    """The picture that `pack_picture` packed."""
    return zlib.decompress(kept).decode()


def picture_of(store: Store, key: str) -> str | None:
    """A picture from the store; None where it is missing or damaged."""
    kept = store.note(key)
    try:
        svg = None if kept is None else unpack_picture(kept)
    except (zlib.error, UnicodeDecodeError):
        return None
    return svg if svg is not None and picture_key(svg) == key else None
