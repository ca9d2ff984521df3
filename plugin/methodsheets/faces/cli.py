"""What can be asked for at the command line? `methodsheets new | check | work | show | …`; each answers at once."""

from __future__ import annotations

import argparse
import contextlib
import io
import logging
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from pathlib import Path
from typing import Any, TypeAlias

from methodsheets.faces import cli_examples
from methodsheets.faces.command import FAILED, CommandError
from methodsheets.reading import mishap
from methodsheets.reading.inside import RefusedError, why_none

DESCRIPTION = """Machining method sheets: write a method as text, have it worked out, cut on a solid model and drawn."""

Command = Callable[..., int]
FORMS = (
    "front-matter", "method-file", "setup", "op", "part", "calc", "workshop", "method", "words", "snippets",
)  # fmt: skip
"""What `schema` prints; `method` is the form of `show --json`."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Carry out one command.

    Parameters:
        arguments: the words after `methodsheets`; those of the process where None

    Returns:
        0 where all is well, 1 where something is wrong with what was given.
    """
    _speak_utf8()
    options = parser().parse_args(arguments)
    if options.debug:
        logging.basicConfig(stream=sys.stderr, format="%(message)s")
        mishap.log.setLevel(logging.DEBUG)
    try:
        if getattr(options, "config_file", None):
            _command("host_config", "project_of")(options, Path.cwd())  # told, whether or not the command needs them
        return _command(options.module, options.function)(options)
    except CommandError as error:
        print(f"methodsheets {options.command}: {error}", file=sys.stderr)
        return FAILED
    except RefusedError as refused:
        print(f"methodsheets {options.command}: {refused.what}; {refused.remedy}", file=sys.stderr)
        return FAILED
    except BrokenPipeError:
        # The reader, `head` for instance, has seen enough.
        with contextlib.suppress(OSError):
            sys.stdout.close()
        return 0
    except KeyboardInterrupt:
        return 130
    except Exception as error:
        if options.debug:
            raise
        fault = mishap.mishap(f"methodsheets {options.command}", "this could not be carried out", error)
        print(f"{fault}; `methodsheets --debug {options.command} …` shows where", file=sys.stderr)
        return FAILED


def _command(module: str, function: str) -> Command:
    """The function behind a command; its module is read only when it is wanted."""
    found: Command = getattr(import_module(f"methodsheets.faces.{module}"), function)
    return found


def _speak_utf8() -> None:
    """Write UTF-8 whatever the console thinks: Ø, ° and µ are part of the trade."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            with contextlib.suppress(OSError, ValueError):
                stream.reconfigure(encoding="utf-8", errors="replace")


def parser() -> argparse.ArgumentParser:
    """The command line as argparse sees it."""
    made = argparse.ArgumentParser(prog="methodsheets", description=DESCRIPTION)
    made.add_argument("--version", action="version", version=_version())
    made.add_argument("--debug", action="store_true", help="show where in the program something failed")
    commands = made.add_subparsers(dest="command", required=True, metavar="COMMAND")
    _writing(commands)
    _asking(commands)
    _giving(commands)
    return made


def _version() -> str:
    from importlib import metadata

    try:
        return f"%(prog)s {metadata.version('mkdocs-methodsheets')}"
    except metadata.PackageNotFoundError:
        return "%(prog)s (not installed)"


Commands: TypeAlias = "argparse._SubParsersAction[argparse.ArgumentParser]"


def _add(commands: Commands, name: str, function: str, words: str, *, settings: bool = True) -> argparse.ArgumentParser:
    """Add a command; `function` is 'module.function' below `faces`, `settings` whether it reads those of a site."""
    made = commands.add_parser(
        name,
        help=words,
        description=words,
        epilog=cli_examples.shown(name),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    module, _, called = function.partition(".")
    made.set_defaults(module=module, function=called)
    if settings:
        _file(made, "--config-file", "-f", words="settings of the site (default: the mkdocs.yml above)")
    return made


def _file(command: argparse.ArgumentParser, *names: str, words: str, **more: Any) -> None:
    """An argument that names a file, or several."""
    command.add_argument(*names, metavar="FILE", type=a_path, help=words, **more)


def _folder(command: argparse.ArgumentParser, *names: str, words: str, **more: Any) -> None:
    """An argument that names a folder."""
    command.add_argument(*names, metavar="FOLDER", type=a_path, help=words, **more)


def a_path(words: str) -> str:
    """The type of every argument that names a file or a folder: no blank, for that would mean the whole folder here.

    Raises:
        ArgumentTypeError: it names nothing that could be there.
    """
    why = why_none(words)
    if why:
        raise argparse.ArgumentTypeError(f"names no file or folder (got {words[:60]!r}; {why})")
    return words


def _writing(commands: Commands) -> None:
    start = _add(
        commands, "start", "cli_new.start", "Make a new handbook: a site, a workshop, a first method.", settings=False
    )
    _folder(start, "folder", words="folder to make it in (default: here)", nargs="?", default=".")
    start.add_argument("--as-usual", action="store_true", help="ask nothing: begin with a usual small workshop")
    new = _add(commands, "new", "cli_new.new", "Write a new method file that builds, to be changed into your own.")
    new.add_argument("title", help='title of the method, e.g. "Guide bush, reamed"')
    _folder(new, "--folder", words="folder to write it into (default: the handbook's folder of methods)")
    new.add_argument("--part", help="name of the part; methods of one part are compared")
    new.add_argument("--workshop", help="workshop it is written for (default: the first one)")


def _asking(commands: Commands) -> None:
    check = _add(
        commands,
        "check",
        "cli_check.check",
        "Work methods out and list every problem; exit status 1 if any, 3 if only something is not known.",
    )
    _file(check, "files", words="method files or folders (default: the whole handbook)", nargs="*")
    _json(check)
    _workshop(check, "key of a workshop, or `all` (default: the one each method is written for)")
    approve = _add(
        commands, "approve", "cli_check.approve", "Keep the numbers of methods; builds tell when they change."
    )
    _file(approve, "files", words="method files", nargs="+")
    tidy = _add(commands, "tidy", "cli_tidy.tidy", "Bring method files into the form of the guide; the meaning stays.")
    _file(tidy, "files", words="method files or folders (default: the whole handbook)", nargs="*")
    tidy.add_argument(
        "--check", action="store_true", help="write nothing: tell which would change, exit status 1 if any"
    )
    tidy.add_argument("--upgrade", action="store_true", help="write today's words for those that are old")
    work = _add(commands, "work", "cli_work.work", "Work an expression out, with its working.")
    work.add_argument("expressions", nargs="+", metavar="EXPRESSION", help='e.g. "spindle_speed(25 m/min, 12 mm)"')
    _json(work)
    _workshop(work, "key of a workshop, to say which speeds its machines really have")
    show = _add(commands, "show", "cli_check.show", "Show a method worked out: set-ups, operations, checks, times.")
    _file(show, "file", words="method file")
    _json(show)
    _workshop(show, "key of a workshop, or `all` (default: the one it is written for)")
    watch = _add(commands, "watch", "cli_watch.watch", "Show a method in a browser while you write it.")
    _file(watch, "file", words="method file")
    watch.add_argument("--port", type=int, default=8010, help="port of this machine (default: %(default)s)")
    watch.add_argument("--open", action="store_true", help="open it in a browser")
    _add(
        commands,
        "limits",
        "cli_work.limits",
        "List every bound on what a method may hold, and why, as Markdown.",
        settings=False,
    )
    _add(
        commands,
        "messages",
        "cli_work.messages",
        "List every message by its code, with its remedy, as Markdown.",
        settings=False,
    )
    verbs = _add(
        commands,
        "verbs",
        "cli_work.verbs",
        "List the verbs of operations and what each takes, as Markdown.",
        settings=False,
    )
    words = "Write the pages `How do I say …` and `The first lines`, with their pictures."
    sayings = _add(commands, "sayings", "cli_work.sayings", words, settings=False)
    _folder(sayings, "folder", words="folder of the guide")
    _file(sayings, "--workshop", words="file of the workshop that they are for", required=True)
    _folder(sayings, "--methods", words="folder of the guide's methods", required=True)
    verbs.add_argument("verb", nargs="?", default="", help="one verb alone, e.g. `drill`")
    words = "Print a JSON Schema, for editors and other programs; or write all, with lists of words and snippets."
    schema = _add(commands, "schema", "cli_schema.schema", words)
    schema.add_argument("what", nargs="?", default="front-matter", choices=FORMS, help="which of them: %(choices)s")
    _folder(schema, "--into", words="write every one of them to a file of this folder")
    words = "Print what a shell needs to complete commands, options and file names."
    shell = _add(commands, "completion", "cli_examples.completion", words, settings=False)
    shell.add_argument("shell", choices=("bash", "zsh", "tcsh"), help="the shell that you type in")


def _giving(commands: Commands) -> None:
    add = _add(commands, "add", "cli_give.add", "Take a method from someone else into the handbook, after checking it.")
    _file(add, "file", words="a method file (.md) or a method that travels alone (.html)")
    _folder(add, "--folder", words="folder to put it into (default: the handbook's folder of methods)")
    add.add_argument("--workshop", help="write this workshop into it instead of its author's")
    _file(
        add,
        "--with-workshop",
        words="take its author's workshop along: the one that travels in the page, or this file (.yml)",
        nargs="?",
        const=True,
    )
    add.add_argument("--anyway", action="store_true", help="take it in although something is wrong with it")
    record = _add(
        commands,
        "record",
        "cli_record.record",
        "Put what was measured, as a sheet or spreadsheet saved it, to the records.",
    )
    _file(record, "files", words="files of records (.csv)", nargs="+")
    record.add_argument("--method", help="the method that they are of (default: found from the file)")
    export = _add(commands, "export", "cli_give.export", "Write a method as one HTML file that travels alone.")
    _file(export, "file", words="method file")
    _file(export, "--output", "-o", words="file to write (default: <method>.html here)")
    prepare = _add(
        commands,
        "prepare",
        "cli_give.prepare",
        "Write the generated pages for a host that runs Markdown extensions only.",
    )
    _folder(prepare, "--into", words="folder of the site's pages (default: docs_dir of mkdocs.yml)")
    words = "then run this, and prepare again at each save while it runs; stands last, e.g. --run zensical serve"
    prepare.add_argument("--run", nargs=argparse.REMAINDER, metavar="COMMAND", help=words)


def _json(command: argparse.ArgumentParser) -> None:
    command.add_argument("--json", action="store_true", help="as JSON, for other programs")


def _workshop(command: argparse.ArgumentParser, words: str) -> None:
    command.add_argument("--workshop", help=words)
