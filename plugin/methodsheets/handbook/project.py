"""To which handbook does a file belong? Found from where it lies, for the command line."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from methodsheets.reading.inside import real

from .library import LEFT_OUT, PARTS, markdown_files
from .model import Options
from .shops import FOLDER as WORKSHOPS

CONFIGS = ("mkdocs.yml", "mkdocs.yaml")
NAME = "methodsheets"
METHODS = "methods"
STORE = Path(".cache/plugin/methodsheets/handbook.sqlite")
"""Where a site keeps what was worked out, unless its option `cache_dir` says otherwise."""

Reader = Callable[[Path], "dict[str, Any] | None"]
"""Reads the settings of a site; None where they cannot be read."""

_DEEPEST = 12


@dataclass(frozen=True)
class Project:
    """Where a handbook keeps its things.

    Parameters:
        root: folder of `mkdocs.yml`; the folder above the methods where there is none
        methods: folders of methods
        workshops: folder of the workshops; None for `workshops/` inside the folders of methods
        docs: the site's own pages; None where there is no site
        store: file of the store; None where there is no site
    """

    root: Path
    methods: tuple[Path, ...]
    workshops: Path | None = None
    docs: Path | None = None
    store: Path | None = None
    folder: str = "methods"
    """Folder of the generated pages within the site."""
    units: str = "metric"
    """What readers see until they choose."""
    tags: bool = True
    """Whether pages of methods get tags."""
    reference: bool = True
    """Whether the chapter on everything that can be worked out is published."""
    trust_authors: bool = False
    """Whether all markup of the authors is let through."""

    def options(self, **changes: Any) -> Options:
        """How to build this handbook; `changes` overrule single options."""
        said: dict[str, Any] = {
            "root": self.root,
            "methods": tuple(folder for folder in self.methods if folder.is_dir()),
            "workshops": self.workshops,
            "inside": self.inside(),
            "store": self.store,
        }
        return Options(**{**said, **changes})

    def inside(self) -> tuple[Path, ...]:
        """Pages of the site that may be methods and lie in no folder of methods."""
        if self.docs is None or not self.docs.is_dir():
            return ()
        folders = [real(folder) for folder in self.methods]
        pages = markdown_files(self.docs)
        return tuple(page for page in pages if not any(real(page).is_relative_to(folder) for folder in folders))


def find_project(start: Path, read: Reader | None = None) -> Project:
    """The handbook that a file or folder belongs to.

    The nearest `mkdocs.yml` above that names our plugin decides; else the nearest folder that has `workshops/`, is
    called `methods` or holds a folder called so; else the folder itself.

    Parameters:
        read: reads the settings of a site as its host does; without it they are read as they stand
    """
    place = real(start)
    folder = place if place.is_dir() else place.parent
    for above in _upwards(folder):
        for name in CONFIGS:
            if (above / name).is_file():
                project = read_config(above / name, read)
                if project is not None:
                    return project
    for above in _upwards(folder):
        if (above / WORKSHOPS).is_dir() or above.name == METHODS:
            return Project(above.parent, (above,))
        if (above / METHODS).is_dir():
            return Project(above, (above / METHODS,))
    while folder.name in LEFT_OUT or folder.name == PARTS:
        folder = folder.parent
    return Project(folder, (folder,))


def _upwards(folder: Path) -> Iterator[Path]:
    """The folder and those above it, not too many."""
    yield folder
    yield from list(folder.parents)[:_DEEPEST]


def read_config(path: Path, read: Reader | None = None) -> Project | None:
    """What a `mkdocs.yml` says of our plugin; None where it does not name it or cannot be read.

    Only what is needed is read, and nothing in it is run: tags such as `!!python/name` are passed over.
    """
    settings = (read or plain_settings)(path)
    if settings is None:
        return None
    ours = _ours(settings.get("plugins"))
    if ours is None:
        return None
    root = path.parent
    named = ours.get("methods", METHODS)
    folders = [named] if isinstance(named, str) else [one for one in named or () if isinstance(one, str)]
    workshops = ours.get("workshops")
    cache = ours.get("cache_dir")
    docs = settings.get("docs_dir")
    return Project(
        root=root,
        methods=tuple(real(root / folder) for folder in folders),
        workshops=real(root / workshops) if isinstance(workshops, str) else None,
        docs=real(root / (docs if isinstance(docs, str) else "docs")),
        store=real(root / cache / STORE.name if isinstance(cache, str) else root / STORE),
        folder=str(ours.get("folder", "methods")),
        units="inch" if ours.get("units") == "inch" else "metric",
        tags=ours.get("tags") not in ("off", False),
        reference=ours.get("reference") is not False,
        trust_authors=ours.get("trust_authors") is True,
    )


def _ours(plugins: Any) -> dict[str, Any] | None:
    """The options of our plugin in the list of plugins; None where it is not in it."""
    items = plugins.items() if isinstance(plugins, dict) else plugins if isinstance(plugins, list) else ()
    for item in items:
        name, options = item if isinstance(item, tuple) else (item, None)
        if isinstance(name, dict) and len(name) == 1:
            name, options = next(iter(name.items()))
        if isinstance(name, str) and name.split(" ")[0] == NAME:
            return options if isinstance(options, dict) else {}
    return None


def plain_settings(path: Path) -> dict[str, Any] | None:
    """The settings of a site as they stand in its file, without what other plugins' tags stand for."""
    import yaml

    class Loader(yaml.SafeLoader):
        """Passes over every tag it does not know."""

    Loader.add_multi_constructor("", lambda loader, suffix, node: None)
    try:
        settings = yaml.load(path.read_text("utf-8-sig"), Loader)
    except (OSError, ValueError, yaml.YAMLError, RecursionError):
        return None
    return settings if isinstance(settings, dict) else None
