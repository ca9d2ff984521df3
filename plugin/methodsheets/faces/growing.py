"""Where does a site grow until it is whole? In a hidden folder of its own, so that readers never meet half of it.

A build that is killed leaves the old site as it was. When the new one is whole, its files are put in place one by one,
each at once, and only then are those taken away that it has no more. What an earlier build left behind when it was
killed is cleared away by the next; a build that still runs beside this one is left alone.
"""

from __future__ import annotations

import contextlib
import filecmp
import os
import shutil
import tempfile
import weakref
from collections.abc import Iterator
from pathlib import Path

from filelock import FileLock, Timeout
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError

from methodsheets.reading.inside import Inside, RefusedError

PREFIX = ".being-made-"
_ALIVE = "alive.lock"


class Growing:
    """A site that is being made.

    Parameters:
        config: settings of the host; its `site_dir` is the folder in which the site grows until `drop`
        aside: False where it grows in its folder itself, as while it is served

    Attributes:
        pages: folder in which it grows
        waiting: folder for files that are made and not yet copied into it; in memory they would fill it

    Raises:
        PluginError: the folder of the site cannot be written.
    """

    def __init__(self, config: MkDocsConfig, *, aside: bool = True) -> None:
        self.site, self._config = Path(config.site_dir), config
        try:
            self._begin(self.site, aside)
        except OSError as error:
            raise PluginError(f"the folder of the site cannot be written ({error})") from error
        config.site_dir = str(self.pages)

    def _begin(self, site: Path, aside: bool) -> None:
        site.mkdir(parents=True, exist_ok=True)
        _clear(site)
        self._folder = Path(tempfile.mkdtemp(prefix=PREFIX, dir=site))
        self._alive = FileLock(self._folder / _ALIVE)
        self._alive.acquire(timeout=0)
        self._end = weakref.finalize(self, shutil.rmtree, self._folder, ignore_errors=True)
        self.pages = self._folder / "site" if aside else site
        self.pages.mkdir(exist_ok=True)
        self.waiting = self._folder / "waiting"
        self.waiting.mkdir()

    def put(self, folder: Path, name: str, text: str) -> str:
        """Write a file below `pages` or `waiting`; gives its path.

        Raises:
            PluginError: it cannot be written, for instance because the disk is full; the old site stays.
        """
        try:
            return str(Inside(folder).write(name, text.encode("utf-8")))
        except RefusedError as refused:
            raise PluginError(f"the site cannot be written: {refused.what}; {refused.remedy}") from refused

    @property
    def open(self) -> bool:
        """Whether it has not been dropped yet."""
        return self._end.alive

    def publish(self) -> None:
        """Put everything in place, and take away what the new site has no more.

        Raises:
            PluginError: a file cannot be put in place.
        """
        try:
            self._publish()
        except OSError as error:
            raise PluginError(f"the folder of the site cannot be written ({error})") from error

    def _publish(self) -> None:
        if self.pages == self.site:
            return
        made = {file.relative_to(self.pages) for file in _files(self.pages)}
        for name in sorted(made):
            _put(self.pages / name, self.site, name)
        for file in list(_files(self.site)):
            name = file.relative_to(self.site)
            if name not in made and not name.parts[0].startswith("."):  # the host keeps hidden files as well
                file.unlink(missing_ok=True)
        _without_empty(self.site)

    def drop(self) -> None:
        """Take away what is left of the making, and give the host its own folder again."""
        self._config.site_dir = str(self.site)
        self._alive.release()
        self._end()


def _clear(site: Path) -> None:
    """Take away what builds left behind that were killed."""
    for left in site.glob(f"{PREFIX}*"):
        lock = FileLock(left / _ALIVE)
        with contextlib.suppress(Timeout, OSError):
            lock.acquire(timeout=0)
            lock.release()
            shutil.rmtree(left, ignore_errors=True)


def _files(folder: Path) -> Iterator[Path]:
    """Every file below a folder, and every link as itself."""
    for here, below, names in os.walk(folder):
        links = [name for name in below if Path(here, name).is_symlink()]
        below[:] = [name for name in below if name not in links and not name.startswith(PREFIX)]
        yield from (Path(here, name) for name in (*names, *links))


def _put(made: Path, site: Path, name: Path) -> None:
    """Put one file in its place at once; one that is the same already stays."""
    place = site
    for part in name.parts[:-1]:
        place = place / part
        if place.is_symlink() or (place.exists() and not place.is_dir()):
            place.unlink()
        place.mkdir(exist_ok=True)
    place = site / name
    if place.is_dir() and not place.is_symlink():
        shutil.rmtree(place)
    if place.is_symlink() or not place.is_file() or not filecmp.cmp(made, place, shallow=False):
        made.replace(place)


def _without_empty(site: Path) -> None:
    """Take folders away in which nothing is left."""
    for here, _, _ in os.walk(site, topdown=False):
        folder = Path(here)
        if folder != site and not folder.relative_to(site).parts[0].startswith("."):
            with contextlib.suppress(OSError):
                folder.rmdir()
