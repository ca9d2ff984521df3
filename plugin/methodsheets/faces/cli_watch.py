"""How does a method look while I write it? One page beside any editor, loaded again at each save."""

from __future__ import annotations

import argparse
import contextlib
import html
import logging
import signal
import sys
import tempfile
import threading
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from methodsheets.faces.cli_give import travelling_text, worked_out
from methodsheets.faces.command import CommandError, as_typed
from methodsheets.faces.host_config import project_of
from methodsheets.handbook.project import Project
from methodsheets.reading.inside import Inside, real
from methodsheets.reading.problem import Problem

if TYPE_CHECKING:
    from mkdocs.livereload import LiveReloadServer

HOST, PAGE, EVERY = "127.0.0.1", "index.html", 0.2
"""Only this machine sees the page; how often the files are looked at, s."""


@dataclass(frozen=True)
class LivePage:
    """The page of one method file, written anew whenever it is asked for.

    Parameters:
        file: the method file
        project: the handbook that it belongs to
        into: the folder that is served
    """

    file: Path
    project: Project
    into: Path

    def write(self) -> bool:
        """Work the method out for its own workshop, tell every problem, and write the page; False for no method.

        What is not a method yet, or is gone, makes a page that says so: the next save is shown again.
        """
        handbook = worked_out(self.file, replace(self.project.options(), own_only=True))
        for problem in handbook.problems:
            print(problem, file=sys.stderr)
        slug = next((slug for slug, one in handbook.entries.items() if real(one.file) == real(self.file)), "")
        text = travelling_text(handbook, slug, live=True) if slug else _told(self.file, handbook.problems)
        Inside(self.into).write(PAGE, text.encode())
        return bool(slug)

    def renew(self) -> None:
        """Write the page again, whatever has become of the file."""
        self.write()

    @property
    def watched(self) -> tuple[Path, ...]:
        """The files and folders that the page depends on: the method, and the workshops."""
        options = self.project.options()
        shops = (options.workshops or folder / "workshops" for folder in options.methods or (self.file.parent,))
        return (self.file, *dict.fromkeys(folder for folder in shops if folder.is_dir()))


def _told(file: Path, problems: Sequence[Problem]) -> str:
    """A page for a file of which no method can be made."""
    said = [str(problem) for problem in problems] or [
        f"{file.name} is no method file: its front matter has no `method`"
    ]
    lines = "\n".join(f"<li>{html.escape(line)}</li>" for line in said)
    name = html.escape(file.name)
    return (
        f'<!doctype html>\n<html lang="en">\n<head><meta charset="utf-8"><title>{name}</title></head>\n'
        f"<body>\n<h1>{name}</h1>\n<ul>\n{lines}\n</ul>\n</body>\n</html>\n"
    )


def server_of(page: LivePage, port: int) -> LiveReloadServer:
    """A server for the page, which writes it anew when one of its files changes; `serve` starts it.

    Raises:
        CommandError: the file is no method to begin with.
    """
    from mkdocs.livereload import LiveReloadServer

    if not page.write():
        raise CommandError(f"{as_typed(page.file)} is no method file; `methodsheets new` writes one")
    server = LiveReloadServer(page.renew, HOST, port, str(page.into), polling_interval=EVERY)
    server.build_delay = 0.05  # one file is saved, not a folder
    for one in page.watched:
        server.watch(str(one))
    return server


@contextlib.contextmanager
def _ended_by_hand(server: LiveReloadServer) -> Iterator[None]:
    """Let Ctrl+C end the server between two looks at the files, and not in the midst of one."""
    before = signal.signal(signal.SIGINT, lambda *_: threading.Thread(target=server.shutdown).start())
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


def watch(options: argparse.Namespace) -> int:
    """`methodsheets watch`: a live page of one method, until the command is ended."""
    file = Path(options.file)
    if not file.is_file():
        raise CommandError(f"there is no file {options.file}")
    logging.basicConfig(level=logging.WARNING, format="%(message)s")
    with tempfile.TemporaryDirectory() as folder:
        server = server_of(LivePage(file, project_of(options, file), Path(folder)), options.port)
        print(f"{file.name} at http://{HOST}:{options.port}/ ; each save shows there. End with Ctrl+C.", flush=True)
        with _ended_by_hand(server):
            try:
                server.serve(open_in_browser=options.open)  # type: ignore[no-untyped-call]  # the library has no types here
            except OSError as error:
                remedy = "name another with --port"
                raise CommandError(f"port {options.port} cannot be used ({error.strerror}); {remedy}") from error
            finally:
                server.shutdown()
    return 0
