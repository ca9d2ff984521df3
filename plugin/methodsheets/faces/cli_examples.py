"""How is each command typed? Lines that work, shown by its help; and what a shell needs to complete them."""

from __future__ import annotations

import argparse
from collections.abc import Mapping

EXAMPLES: dict[str, tuple[str, ...]] = {
    "start": ("methodsheets start my-handbook", "methodsheets start my-handbook --as-usual"),
    "new": (
        'methodsheets new "Guide bush, reamed"',
        'methodsheets new "Guide bush, bored" --part guide-bush --workshop large',
    ),
    "check": (
        "methodsheets check",
        "methodsheets check methods/guide-bush.md --workshop all",
        "methodsheets check --json",
    ),
    "approve": ("methodsheets approve methods/guide-bush.md",),
    "tidy": (
        "methodsheets tidy methods/guide-bush.md",
        "methodsheets tidy --check",
        "methodsheets tidy --upgrade methods",
    ),
    "work": (
        'methodsheets work "spindle_speed(25 m/min, 12 mm)"',
        "methodsheets work \"fit(16 mm, 'H7/g6')\"",
    ),
    "show": (
        "methodsheets show methods/guide-bush.md",
        "methodsheets show methods/guide-bush.md --workshop large --json",
    ),
    "watch": ("methodsheets watch methods/guide-bush.md --open",),
    "limits": ("methodsheets limits > docs/limits.md",),
    "messages": ("methodsheets messages > docs/messages.md",),
    "verbs": ("methodsheets verbs", "methodsheets verbs drill"),
    "sayings": ("methodsheets sayings docs --workshop methods/workshops/small.yml --methods docs/guide",),
    "schema": (
        "methodsheets schema",
        "methodsheets schema workshop > workshop.schema.json",
        "methodsheets schema --into .schemas",
    ),
    "add": (
        "methodsheets add guide-bush.html",
        "methodsheets add guide-bush.html --workshop small",
        "methodsheets add guide-bush.html --with-workshop",
    ),
    "record": ("methodsheets record guide-bush-measured.csv",),
    "export": ("methodsheets export methods/guide-bush.md -o guide-bush.html",),
    "prepare": (
        "methodsheets prepare",
        "methodsheets prepare --into docs",
        "methodsheets prepare --run zensical serve",
    ),
    "completion": (
        "methodsheets completion bash > ~/.local/share/bash-completion/completions/methodsheets",
        "methodsheets completion zsh > _methodsheets",
    ),
}
"""By command; the first is the plainest."""


def shown(name: str) -> str:
    """The examples of a command as its help shows them."""
    return "\n".join(["examples:", *(f"  {line}" for line in EXAMPLES[name])])


def completion(options: argparse.Namespace) -> int:
    """`methodsheets completion`: what a shell needs to complete commands, options and file names."""
    import shtab

    from methodsheets.faces.cli import parser

    whole = parser()
    _name_files(whole, {"FILE": shtab.FILE, "FOLDER": shtab.DIRECTORY})
    print(shtab.complete(whole, shell=options.shell))
    return 0


def _name_files(whole: argparse.ArgumentParser, kinds: Mapping[str, Mapping[str, object]]) -> None:
    """Say which words are files and which are folders, for every command."""
    for action in whole._actions:
        if isinstance(action, argparse._SubParsersAction):
            for below in action.choices.values():
                _name_files(below, kinds)
        elif isinstance(action.metavar, str) and action.metavar in kinds:
            action.complete = kinds[action.metavar]  # type: ignore[attr-defined]
