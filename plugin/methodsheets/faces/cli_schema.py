"""What does an editor, or another program, need to know of our files? JSON Schemas, words and snippets."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from methodsheets.faces.command import as_typed
from methodsheets.faces.host_config import project_of
from methodsheets.operations.offers import Names, block_schema, file_schema, snippets, words
from methodsheets.reading.inside import Inside

BLOCKS = ("setup", "op", "part", "calc")


def schema(options: argparse.Namespace) -> int:
    """`methodsheets schema`: one of our forms to the output, or all of them into a folder."""
    names = names_of(options)
    if not options.into:
        print(FORMS[options.what](names), end="")
        return 0
    door = Inside(Path(options.into))
    for file in map(_file, FORMS):
        door.place(file)  # told before anything is written
    for form, made in FORMS.items():
        print(as_typed(door.write(_file(form), made(names).encode("utf-8"))))
    return 0


def _file(form: str) -> str:
    """The name of the file of a form."""
    return {"words": "words.txt", "snippets": "methods.code-snippets"}.get(form, f"{form}.schema.json")


def names_of(options: argparse.Namespace) -> Names:
    """The machines and tools of the workshops that are here."""
    from methodsheets.handbook.digests import base_digest
    from methodsheets.handbook.shops import find_workshops
    from methodsheets.handbook.store import Store

    settings = project_of(options, Path.cwd()).options()
    shops = find_workshops(settings, settings.methods, base_digest(), Store())
    found = [shops.workshop(key) for key in shops.digests]
    machines = dict.fromkeys(one.name for shop in found for one in shop.machines.values())
    tools = dict.fromkeys(one.name for shop in found for one in shop.tools.values())
    return Names(tuple(shops.digests), tuple(machines), tuple(tools))


def _text(made: Any) -> str:
    return json.dumps(made, ensure_ascii=False, indent=1) + "\n"


def _block(kind: str) -> Callable[[Names], str]:
    return lambda names: _text(block_schema(file_schema(names), kind))


def _workshop(_: Names) -> str:
    from methodsheets.workshop.schema import workshop_schema

    return _text(workshop_schema())


def _method(_: Names) -> str:
    from methodsheets.handbook.exchange import method_schema

    return _text(method_schema())


FORMS: Mapping[str, Callable[[Names], str]] = {
    "front-matter": _block("front_matter"),
    "method-file": lambda names: _text(file_schema(names)),
    **{kind: _block(kind) for kind in BLOCKS},
    "workshop": _workshop,
    "method": _method,
    "words": lambda names: "\n".join(words(names)) + "\n",
    "snippets": lambda _: _text(snippets()),
}
"""Every form, by the word that asks for it."""
