"""What does a function say of itself? Read from its source where Python was told to forget it (`-OO`)."""

from __future__ import annotations

import ast
import functools
import inspect
from collections.abc import Callable
from pathlib import Path
from typing import Any


def docstring(function: Callable[..., Any]) -> str:
    """The docstring, its indentation taken off; '' where there is none."""
    said = inspect.getdoc(function)
    if said is None and (code := getattr(inspect.unwrap(function), "__code__", None)) is not None:
        said = _in_file(code.co_filename).get(code.co_name)
    return inspect.cleandoc(said) if said else ""


@functools.cache
def _in_file(name: str) -> dict[str, str]:
    """The docstrings of the functions of a module, by name."""
    try:
        tree = ast.parse(Path(name).read_text("utf-8"))
    except (OSError, ValueError, SyntaxError):
        return {}
    found = ((node.name, ast.get_docstring(node)) for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))
    return {name: said for name, said in found if said}
