"""Which method files are there, and to which other methods may each of them refer?

Finding a method file costs a glance at its first lines; it is read and taken apart only when it must be worked out.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from methodsheets.reading.inside import Inside, RefusedError
from methodsheets.reading.problem import Place, Problems
from methodsheets.reading.slips import slip
from methodsheets.reading.slug import file_slug
from methodsheets.reading.source import Source, given_source, in_words, read_source, shown_path

PARTS = "parts"
"""Folder, inside a folder of methods, whose files say what a finished part is; they are no methods of their own."""

LEFT_OUT = frozenset({"workshops", "records", "node_modules", "site", "__pycache__"})
"""Folders inside a folder of methods that hold no method files."""

SUFFIXES = frozenset({".md", ".markdown"})

_GLANCE = 16_384
_TITLE = re.compile(r"^method[ \t]*:([^\r\n]*)", re.MULTILINE)
_METHOD = re.compile(r"\ufeff?---[ \t]*\r?\n(?:(?!---|\.\.\.)[^\n]*\n)*?[\"']?method[\"']?[ \t]*:", re.ASCII)


@dataclass(frozen=True)
class Found:
    """One method file (or file of a part) as it lies on the disk.

    Parameters:
        path: as problems show it
        root: folder that it must lie in, links followed
        digest: SHA-256 of its bytes; '' where it cannot be read
        text: what the author wrote; '' where it cannot be read
        title: of its front matter, or made of its name
        place: where it lies below its folder of methods, for its address: 'bushes/guide-bush.md'
    """

    slug: str
    path: str
    file: Path
    root: Path
    digest: str
    text: str
    title: str
    place: str
    inside: bool = False
    """Whether it lies among the pages of the site itself."""


@dataclass(frozen=True)
class Library:
    """All method files, by slug and in the order of slugs, and all files of parts."""

    methods: dict[str, Found]
    parts: dict[str, Found]
    problems: tuple[tuple[str, Problems], ...]
    """Path → what is wrong with a file as such; the file may be in `methods` all the same."""
    folders: tuple[Path, ...] = ()

    def problems_of(self, path: str) -> Problems:
        """What is wrong with a file as such."""
        return next((found for shown, found in self.problems if shown == path), Problems())


def find_methods(
    folders: Iterable[Path], inside: Iterable[Path], root: Path, offered: tuple[Path, bytes] | None = None
) -> Library:
    """Find the method files of folders, and of single files named.

    Parameters:
        folders: folders of methods; a folder that is not there is a problem
        inside: method files elsewhere, e.g. among the site's own pages; those that are none are passed over
        root: paths are shown from here
        offered: path and bytes of a method that is not taken in yet; it is shown by its name alone
    """
    methods: dict[str, Found] = {}
    parts: dict[str, Found] = {}
    problems: dict[str, Problems] = {}
    seen: set[str] = set()
    kept = tuple(folders)
    # A file that bears its address as its name comes first: `Spacer.md` must not take the place of `spacer.md`.
    for file, folder in sorted(_candidates(kept, tuple(inside), root, problems), key=lambda one: _is_odd(one[0])):
        real = os.path.realpath(file)
        if real in seen and not file.is_symlink():
            continue
        seen.add(real)
        found = _look(file, folder, root, problems)
        if found is None:
            continue
        into = parts if _is_part(file, folder) else methods
        first = into.get(found.slug)
        if first is None:
            into[found.slug] = found
        else:
            problems.setdefault(found.path, Problems()).error(
                Place(found.path),
                f"two methods have the name `{found.slug}` (the other is {first.path})",
                "a method is known by the name of its file",
                "give one of the two files another name",
                code="two-of-a-name",
            )
    if offered is not None:
        found = _offered(*offered, problems)
        if found is not None:
            methods[found.slug] = found
    return Library(dict(sorted(methods.items())), parts, tuple(sorted(problems.items())), kept)


def _offered(file: Path, raw: bytes, problems: dict[str, Problems]) -> Found | None:
    """A method from its bytes: it is tried among the others before anything of it is written."""
    if not _METHOD.match(_loosely(raw[:_GLANCE])):
        return None
    noted = Problems()
    source = given_source(raw, file.name, noted)
    if len(noted):
        problems[file.name] = noted
    return _found(file, file.parent, file.parent, file.name, raw[:_GLANCE], source)


def _is_odd(file: Path) -> bool:
    return file.name != f"{file_slug(in_words(file.stem))}.md"


def _candidates(
    folders: tuple[Path, ...], inside: tuple[Path, ...], root: Path, problems: dict[str, Problems]
) -> Iterator[tuple[Path, Path | None]]:
    """Every Markdown file that may be a method, with its folder of methods."""
    for folder in folders:
        if not folder.is_dir():
            shown = shown_path(folder, root)
            problems.setdefault(shown, Problems()).error(
                Place(shown),
                f"there is no folder of methods (got {shown})",
                "the option `methods` names a folder",
                "make the folder, or mend the option",
                code="no-folder",
            )
            continue
        for file in markdown_files(folder):
            yield file, folder
    for file in inside:
        yield file, None


def markdown_files(folder: Path) -> Iterator[Path]:
    """The Markdown files below a folder, in order; hidden folders and those that hold no methods are passed over."""
    for here, below, names in os.walk(folder):
        below[:] = sorted(name for name in below if name not in LEFT_OUT and not name.startswith("."))
        for name in sorted(names):
            file = Path(here, name)
            if file.suffix.lower() in SUFFIXES and not name.startswith("."):
                yield file


def _is_part(file: Path, folder: Path | None) -> bool:
    return folder is not None and PARTS in file.relative_to(folder).parts[:-1]


def _look(file: Path, folder: Path | None, root: Path, problems: dict[str, Problems]) -> Found | None:
    """Read one file, if it is a method file."""
    shown = shown_path(file, root)
    noted = Problems()
    try:
        glance = Inside(folder or root).read(file, _GLANCE)
    except RefusedError:
        glance = b"---\nmethod:"  # let the reader say what is the matter with it
    if not _METHOD.match(_loosely(glance)):
        source = read_source(file, folder, Problems(), shown) if folder is not None else None
        found = slip(source) if source is not None else None
        if found is not None:
            problems[shown] = Problems([found])
        return None
    source = read_source(file, folder or root, noted, shown)
    if len(noted):
        problems[shown] = noted
    return _found(file, folder, root, shown, glance, source)


def _found(file: Path, folder: Path | None, root: Path, shown: str, glance: bytes, source: Source | None) -> Found:
    title = _TITLE.search(_loosely(glance))
    return Found(
        slug=file_slug(in_words(file.stem)),
        path=shown,
        file=file,
        root=folder or root,
        digest=source.digest if source else "",
        text=source.text if source else "",
        title=title.group(1).strip().strip("\"'")
        if title and title.group(1).strip()
        else in_words(file.stem).replace("-", " ").capitalize(),
        place=in_words(file.relative_to(folder).as_posix()) if folder else shown,
        inside=folder is None,
    )


def _loosely(raw: bytes) -> str:
    """The first lines, whatever their encoding: enough to see whether this is meant to be a method."""
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return raw.decode("utf-16", errors="replace")
    return raw.decode("utf-8-sig", errors="replace")
