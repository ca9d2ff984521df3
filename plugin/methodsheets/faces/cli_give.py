"""How does a method travel: in from someone else, out as one file, or as pages for a host without plugins?"""

from __future__ import annotations

import argparse
import re
import subprocess
import sys
import time
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path, PurePosixPath

from methodsheets.faces.cli_along import Along, along_with
from methodsheets.faces.command import FAILED, CommandError, as_typed, refuse_taken
from methodsheets.faces.given import LARGEST_PAGE, is_page, read_given
from methodsheets.faces.host_config import project_of
from methodsheets.faces.on_demand import PREPARED, stand_of
from methodsheets.faces.progress import WORKED_OUT, bar
from methodsheets.handbook.build import build_handbook
from methodsheets.handbook.model import Entry, Handbook, Options
from methodsheets.handbook.project import Project
from methodsheets.pages.site import Site
from methodsheets.pages.trouble import troubles
from methodsheets.pages.trouble_box import verdict
from methodsheets.reading.inside import Inside, real
from methodsheets.reading.slug import file_slug
from methodsheets.reading.source import LARGEST

_WORKSHOP_LINE = re.compile(rb"^(workshop[ \t]*:[ \t]*)([^\r\n#]*?)([ \t]*(?:#[^\r\n]*)?)(?=\r?\n)", re.MULTILINE)


# add


def add(options: argparse.Namespace) -> int:
    """`methodsheets add`: take a method in, after working it out among the methods that are here."""
    name, raw = given(Path(options.file))
    if options.workshop:
        raw = _for_workshop(raw, options.workshop)
    project = project_of(options, Path(options.folder) if options.folder else Path.cwd())
    folder = Path(options.folder) if options.folder else _first_folder(project)
    along = along_with(options, folder, project)
    target = folder / f"{file_slug(PurePosixPath(name).stem)}.md"
    refuse_taken(project, folder, target.stem, "rename the file that you have")
    door = Inside(folder)
    door.place(target.name)  # told before it is worked out
    with along:
        problems, entry, shops = _tried(project, target, raw, along)
        for problem in problems:
            print(problem, file=sys.stderr)
        if entry is None:
            raise CommandError(f"{options.file} is not a method file: its front matter has no key `method`")
        differs = _what_differs(entry) if options.workshop or along.key else ()
        for line in (*_of_the_workshop(raw, shops, along), *along.told, *differs):
            print(line, file=sys.stderr)
        if problems and not options.anyway:
            print("Not taken in. Mend it first, or say --anyway.", file=sys.stderr)
            return FAILED
        taken = [door.write(target.name, raw, new=True), *along.stays()]
    print("\n".join(map(as_typed, taken)))
    return 0


def given(file: Path) -> tuple[str, bytes]:
    """The name and the bytes of the method file that was given, or that a travelling page holds."""
    raw = read_given(file)
    if not is_page(file):
        return file.name, raw
    from methodsheets.pages.selfcontained import source_of

    found = source_of(raw.decode("utf-8", errors="replace"))
    if found is None:
        raise CommandError(f"{file} holds no method file; only pages made by `methodsheets export` or by the site do")
    if len(found[1]) > LARGEST:
        raise CommandError(f"the method file in {file} is too large ({len(found[1]):,} bytes; {LARGEST:,} are read)")
    return found


def _for_workshop(raw: bytes, workshop: str) -> bytes:
    """The method file with another workshop in its front matter; all else stays byte for byte."""
    end = re.search(rb"^(?:---|\.\.\.)[ \t]*\r?\n", raw[4:], re.MULTILINE)
    head = raw[: 4 + end.start()] if end else raw
    line = _WORKSHOP_LINE.search(head)
    if line:
        return raw[: line.start(2)] + workshop.encode() + raw[line.end(2) :]
    first = raw.find(b"\n") + 1
    return raw[:first] + b"workshop: " + workshop.encode() + b"\n" + raw[first:]


def _first_folder(project: Project) -> Path:
    if not project.methods:
        raise CommandError("there is no folder of methods here; name one with --folder")
    return project.methods[0]


def _of_the_workshop(raw: bytes, shops: Sequence[str], along: Along) -> Iterable[str]:
    """What to do about a method of somebody else's workshop."""
    line = _WORKSHOP_LINE.search(raw)
    theirs = line.group(2).decode("utf-8", errors="replace").strip("\"' ") if line else ""
    if not theirs or theirs in shops:
        return
    yield f"It is written for the workshop `{theirs}`, which is not here."
    yield (
        f"To make it in yours: --workshop {' or --workshop '.join(shops)}." if shops else "Write a workshop file first."
    )
    if along.offered == file_slug(theirs):
        yield "To take the workshop along, which travels in this page: --with-workshop."
        return
    yield f"To take the workshop along: ask for its file, `{theirs}.yml`, and say --with-workshop {theirs}.yml."


def _what_differs(entry: Entry) -> Iterable[str]:
    """Whether it works in the workshop that it was taken for, and what stands against it there."""
    for key, method in entry.by_workshop.items():
        yield f"In `{key}`: {verdict(method)}."
        for _, where, what in troubles(method):
            yield f"  {where}: {what}" if where else f"  {what}"


def _tried(project: Project, target: Path, raw: bytes, along: Along) -> tuple[list[str], Entry | None, tuple[str, ...]]:
    """What would be wrong with it here, in the words of the problems; the method, if it is one; the workshops here."""
    options = project.options(
        draw=False, store=None, only=(target.stem,), own_only=not along.key, offered=(target, raw)
    )
    handbook = build_handbook(options)
    # A friend may well have called it the same: that is told by `check`, and no reason to refuse it.
    about = {target.name, *(card.path for key, card in handbook.workshops.items() if key == along.key)}
    mine = [one for one in handbook.problems if one.place.path in about and one.code not in _OF_NAMES]
    return [str(one) for one in mine], handbook.entries.get(target.stem), tuple(handbook.workshops)


_OF_NAMES = ("two-of-a-title", "two-of-a-part")


# export


def export(options: argparse.Namespace) -> int:
    """`methodsheets export`: one HTML file with pictures, data and the method file itself."""
    file = Path(options.file)
    if not file.is_file():
        raise CommandError(f"there is no file {options.file}")
    from methodsheets.pages.selfcontained import source_of

    target = Path(options.output or f"{file_slug(file.stem)}.html")
    door = Inside(target.parent)
    there = door.place(target.name)  # told before anything is drawn
    if there.exists() and source_of(door.read(there, LARGEST_PAGE).decode("utf-8", errors="replace")) is None:
        raise CommandError(f"{as_typed(there)} is there already and is no page that `export` made; name another file")
    project = project_of(options, file)
    handbook = worked_out(file, project.options())
    slug = next((slug for slug, one in handbook.entries.items() if real(one.file) == real(file)), "")
    if not slug:
        raise CommandError("; ".join(str(one) for one in handbook.problems) or f"{options.file} is not a method file")
    for problem in handbook.problems:
        print(problem, file=sys.stderr)
    door.write(target.name, travelling_text(handbook, slug).encode())
    print(target.as_posix())
    return FAILED if handbook.problems else 0


def worked_out(file: Path, options: Options) -> Handbook:
    """The handbook of one method file."""
    options = replace(options, only=(file_slug(file.stem),))
    known = [folder for folder in options.methods if real(file).is_relative_to(folder)]
    if not known and real(file) not in {real(one) for one in options.inside}:
        options = replace(options, inside=(*options.inside, real(file)))
    return build_handbook(options)


def travelling_text(handbook: Handbook, slug: str, *, live: bool = False) -> str:
    """A method's page as one HTML file that needs nothing else; `live` while a server loads it again."""
    from markdown import Markdown

    from methodsheets.faces.markdown import MethodSheetsExtension, Page
    from methodsheets.pages.photos import photos_of
    from methodsheets.pages.selfcontained import travelling_page
    from methodsheets.pages.texts import adorned, body_of

    site = Site(handbook)
    page = Page(site, slug, site.places.methods[slug].page, alone=True, clean=True)
    extension = MethodSheetsExtension()
    extension.page = page
    markdown = Markdown(
        extensions=["admonition", "attr_list", "def_list", "footnotes", "md_in_html", "tables", extension]
    )
    entry = handbook.entries[slug]
    html = markdown.convert(adorned(body_of(entry.file_text), slug, entry.own.title))
    return travelling_page(site, slug, page.islands.fill(html, handbook.svg), photos_of(entry).get, live=live)


# prepare


def prepare(options: argparse.Namespace) -> int:
    """`methodsheets prepare`: the generated pages, the stylesheet and the script, as files among the site's pages.

    With `--run` a host's command is started when they are there. While it runs they are made anew at each save, so that
    a host that serves shows them; the exit status is the worse of the two.
    """
    project = project_of(options, Path.cwd())
    into = Path(options.into) if options.into else project.docs
    if into is None:
        raise CommandError("there is no mkdocs.yml here; name the folder of the site's pages with --into")
    status = _prepared(project, into)
    return max(status, _beside(options.run, project, into)) if options.run else status


def _prepared(project: Project, into: Path) -> int:
    Inside(into).place(LIST)  # told before anything is worked out
    handbook = build_handbook(project.options(), bar(WORKED_OUT))
    inside = {real(file): file.relative_to(real(into)).as_posix() for file in _pages_in(into, project)}
    homes = {slug: inside[file] for slug, one in handbook.entries.items() if (file := real(one.file)) in inside}
    written, spared = _write_all(into, _files(handbook, project, homes))
    for problem in handbook.problems:
        print(problem, file=sys.stderr)
    for name in spared:
        print(f"{name} is a page of your own and is left as it is", file=sys.stderr)
    print(f"{written} files written below {as_typed(into)}; {handbook.counts.words()}", flush=True)
    return FAILED if handbook.problems or spared else 0


def _beside(command: Sequence[str], project: Project, into: Path) -> int:
    """Run a host's command to its end, and prepare again whenever a file of the handbook was saved meanwhile."""
    before = saved(project)
    try:
        host = subprocess.Popen(command)
    except OSError as error:
        raise CommandError(f"`{command[0]}` cannot be run ({error.strerror}); is the host installed?") from error
    try:
        while host.poll() is None:
            time.sleep(EVERY)
            if (now := saved(project)) != before:
                before = now
                _prepared(project, into)
    finally:
        if host.poll() is None:
            host.terminate()
        host.wait()
    return FAILED if host.returncode else 0


EVERY = 0.25
"""Seconds between two looks at the files, as a writer notices none."""


def saved(project: Project) -> tuple[tuple[str, int, int], ...]:
    """How the files of methods and workshops stand."""
    folders = [*project.methods, *([project.workshops] if project.workshops else [])]
    own = ((str(file), file.stat().st_mtime_ns, file.stat().st_size) for file in project.inside() if file.is_file())
    return (*stand_of(folders), *own)


def _pages_in(into: Path, project: Project) -> list[Path]:
    return [real(file) for file in project.inside() if real(file).is_relative_to(real(into))]


def _files(handbook: Handbook, project: Project, homes: dict[str, str]) -> dict[str, str]:
    """Everything that is made for a site, by its place among the site's pages."""
    from methodsheets.pages.assets import SCRIPT_URI, STYLE_URI, script, style
    from methodsheets.pages.data import data_text, operations_text
    from methodsheets.pages.texts import made_pages

    site = Site(handbook, project.folder, homes, reference=project.reference, trusted=project.trust_authors)
    systems = {key: card.units for key, card in handbook.workshops.items()}
    files = {page.uri: page.text for page in made_pages(site, tags=project.tags)}
    files |= {STYLE_URI: style(handbook.workshops), SCRIPT_URI: script(project.units, systems)}
    for slug, entry in handbook.entries.items():
        place = site.places.methods[slug]
        files |= {place.data: data_text(entry), place.operations: operations_text(entry)}
        files[place.travelling] = travelling_text(handbook, slug)
        for method in entry.by_workshop.values():
            for drawing in method.drawings:
                if site.same_picture(drawing.key) == drawing.key:
                    files[place.drawing(drawing.key)] = handbook.standalone_svg(drawing.key)
    return files


LIST = PREPARED
"""Names the files that an earlier `prepare` wrote; only those are written over, and taken away when not needed."""


def _write_all(into: Path, files: dict[str, str]) -> tuple[int, list[str]]:
    """Write the files below a folder: how many had to be written, and which were spared as they are not ours.

    Raises:
        RefusedError: a file would be written or taken away elsewhere; nothing has been written then.
    """
    door = Inside(into)
    listed = door.place(LIST)
    before = set(door.read(listed, LARGEST_PAGE).decode("utf-8", "replace").split("\n")) if listed.is_file() else set()
    gone = sorted(before - set(files) - {""})
    for name in (*files, *gone):
        door.place(name)
    spared = sorted(name for name in files if name not in before and _differs(into / name, files[name]))
    kept = {name: text for name, text in files.items() if name not in spared}
    written = sum(_put(door, name, text) for name, text in kept.items())
    for name in gone:
        door.remove(name)
    _put(door, LIST, "\n".join(sorted(kept)) + "\n")
    return written, spared


def _differs(file: Path, text: str) -> bool:
    """Whether something else stands there."""
    return file.exists() and file.read_bytes() != text.encode("utf-8")


def _put(door: Inside, name: str, text: str) -> bool:
    """Write a file where it differs from what is there, so that nothing is rebuilt for nothing."""
    file = door.place(name)
    if file.is_file() and not _differs(file, text):
        return False
    door.write(name, text.encode("utf-8"))
    return True
