"""With which arguments does a calculation's own example call it? A known good place to start walking from."""

from __future__ import annotations

import doctest
import functools
import importlib
import inspect
from typing import Any

from methodsheets.trade.form.calculation import Calculation


@functools.cache
def examples() -> dict[str, tuple[dict[str, Any], ...]]:
    """The arguments of every example of every calculation, by name of the calculation."""
    from methodsheets.trade.form.calculation import catalogue

    return {name: _arguments(entry) for name, entry in catalogue().items()}


def _arguments(entry: Calculation) -> tuple[dict[str, Any], ...]:
    calls: list[dict[str, Any]] = []

    @functools.wraps(entry.function)
    def recorder(*args: Any, **kwargs: Any) -> Any:
        calls.append(dict(inspect.signature(entry.function).bind(*args, **kwargs).arguments))
        return entry.function(*args, **kwargs)

    module = importlib.import_module(entry.function.__module__)
    names = {**vars(module), entry.name: recorder}
    example = doctest.DocTestParser().get_doctest(entry.example, names, entry.name, None, None)
    doctest.DocTestRunner(optionflags=doctest.NORMALIZE_WHITESPACE).run(example, out=lambda text: None)
    return tuple(calls)
