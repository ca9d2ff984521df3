"""What does one calculation take and give, and how far is it believed? Read from its own docstring."""

from __future__ import annotations

import functools
import importlib
import inspect
import math
import pkgutil
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, ParamSpec, TypeVar, cast

from .chapters import HANDBOOK
from .docstring import docstring
from .errors import NotInTable, OutOfRange, TooMuch
from .expression import holds, names_of
from .rows import Taken, taking
from .sheet import UNITS, Parameter, Result, Sheet, read_sheet

__all__ = [
    "Calculation",
    "NotInTable",
    "OutOfRange",
    "Parameter",
    "Result",
    "TooMuch",
    "calculation",
    "calculation_of",
    "catalogue",
    "subjects",
    "takes",
]

P = ParamSpec("P")
R = TypeVar("R")

_MARK = "__calculation__"
_WORK = "__work__"

MOST_LINES = 500_000
"""Lines of a program that one calculation may take; change wheels from a set of thirty take as many."""
USUAL_LINES = 3_000
"""Lines that any calculation may take without saying so: a table is looked through, a thread is found by name."""
LINES_AN_ITEM = 60
"""Lines that it may take for each value of a list."""
MOST_ITEMS = 1_000
"""Values in a list that goes into a calculation."""


@dataclass(frozen=True)
class Calculation:
    """One calculation of the handbook: what its docstring says, and the function that does it."""

    name: str
    subject: str
    function: Callable[..., Any]
    sheet: Sheet
    remembered: bool = True
    """Whether the same arguments always rest on the same rows; not where it asks of the work as it stands."""

    @property
    def work(self) -> Callable[..., float] | None:
        """Gives the lines of a program that it takes, from its arguments; None where that is always few."""
        found: Callable[..., float] | None = getattr(self.function, _WORK, None)
        return found

    def lines(self, arguments: Mapping[str, Any]) -> int:
        """Lines of a program that it takes with these arguments, at the most.

        Raises:
            TooMuch: more than a calculation may take.
        """
        items = sum(len(value) for value in arguments.values() if isinstance(value, tuple | list))
        return USUAL_LINES + LINES_AN_ITEM * items + _lines(self.function, arguments)

    @property
    def sentence(self) -> str:
        """What it answers, in one sentence."""
        return self.sheet.sentence

    @property
    def details(self) -> str:
        """Further prose between the sentence and the first section."""
        return self.sheet.details

    @property
    def equations(self) -> tuple[str, ...]:
        """The equation lines, in order."""
        return self.sheet.equations

    @property
    def equation_in_stated_units(self) -> bool:
        """Whether the equation holds only for numbers in the units listed (an empirical formula)."""
        return self.sheet.equation_in_stated_units

    @property
    def tables(self) -> tuple[str, ...]:
        """Names of the tables it reads."""
        return self.sheet.tables

    @property
    def parameters(self) -> tuple[Parameter, ...]:
        """What goes in."""
        return self.sheet.parameters

    @property
    def results(self) -> tuple[Result, ...]:
        """What comes out: one for a number, one a field for a result object."""
        return self.sheet.results

    @property
    def raises(self) -> str:
        """The refusals, in words."""
        return self.sheet.raises

    @property
    def validity(self) -> str:
        """Where it holds and where it does not."""
        return self.sheet.validity

    def notes(self, arguments: Mapping[str, Any], result: Any) -> tuple[str, ...]:
        """Say where these numbers leave the ground the calculation was made for.

        `arguments` by parameter name, as floats in the listed units; `result` is the number or the result object.
        """
        known = _by_symbol(self.sheet, arguments) | _results_by_symbol(self.sheet, result)
        return tuple(heed.text for heed in self.sheet.heeds if _is_so(heed.condition, known))

    def rows(self, arguments: Mapping[str, Any]) -> tuple[Taken, ...]:
        """Say which rows of which tables the answer rests on, each with its source and trust; works it out again.

        `arguments` by parameter name. Nothing where the calculation refuses them.
        """
        if not self.tables:
            return ()
        try:
            if not self.remembered:
                return _rows_taken.__wrapped__(self.function, tuple(arguments.items()))
            return _rows_taken(self.function, tuple(sorted(arguments.items())))
        except TypeError:  # A list among the arguments cannot be remembered by.
            return _rows_taken.__wrapped__(self.function, tuple(arguments.items()))

    @property
    def from_memory(self) -> bool:
        """Whether the rule itself was recalled, not read."""
        return self.sheet.source.startswith("From memory")

    @property
    def example(self) -> str:
        """Source of the worked example (doctest lines)."""
        return self.sheet.example

    @property
    def source(self) -> str:
        """Where the equation and its values come from."""
        return self.sheet.source

    @property
    def trust(self) -> str:
        """How far to believe it."""
        return self.sheet.trust

    @property
    def checked(self) -> str:
        """Why there are not two checks against the outside world; empty where there are."""
        return self.sheet.checked


def calculation(function: Callable[P, R]) -> Callable[P, R]:
    """Mark a function as a calculation of the handbook and check its ranges on every call.

    Everything else (units, ranges, equation, source) is read from the docstring the first time it is wanted. A
    parameter annotated `int` takes a whole number of either sort, 3 or 3.0.
    """
    signature = inspect.signature(function)
    whole = {name for name, entry in signature.parameters.items() if entry.annotation in (int, "int")}
    bind = _binder(signature)

    @functools.wraps(function)
    def checked(*args: P.args, **kwargs: P.kwargs) -> R:
        bound = bind(args, kwargs)
        sheet = _sheet_of(checked)
        for parameter in sheet.parameters:
            if parameter.name in bound:
                _check(parameter, bound[parameter.name], {})
                if parameter.name in whole:
                    bound[parameter.name] = _whole(parameter, bound[parameter.name])
        for parameter in sheet.parameters:
            if parameter.range.symbols and parameter.name in bound:
                _check(parameter, bound[parameter.name], _bounds(sheet, parameter, bound))
        _lines(function, bound)
        return cast(Callable[..., R], function)(**bound)

    setattr(checked, _MARK, function)
    return checked


def _binder(signature: inspect.Signature) -> Callable[[Sequence[Any], Mapping[str, Any]], dict[str, Any]]:
    """What gives the arguments of a call by name: `Signature.bind`, and far faster where all stand in their order."""
    names = tuple(signature.parameters)
    needed = sum(one.default is one.empty for one in signature.parameters.values())
    if any(one.kind is not one.POSITIONAL_OR_KEYWORD for one in signature.parameters.values()):
        raise TypeError(f"a calculation takes each argument by its name (got {signature})")

    def bind(args: Sequence[Any], kwargs: Mapping[str, Any]) -> dict[str, Any]:
        if kwargs or not needed <= len(args) <= len(names):
            return dict(signature.bind(*args, **kwargs).arguments)
        return dict(zip(names, args, strict=False))

    return bind


def takes(work: Callable[..., float]) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Say how long a calculation is: `@takes(lambda cuts, **_: 3 * cuts)`, written below `@calculation`.

    Whatever goes round in a loop that its arguments set the length of says so, so that the work is known before it is
    begun. A test counts the lines and finds who says too little.

    Parameters:
        work: takes the arguments by name and gives lines of a program, not too few
    """

    def mark(function: Callable[P, R]) -> Callable[P, R]:
        setattr(function, _WORK, work)
        return function

    return mark


def _lines(function: Callable[..., Any], arguments: Mapping[str, Any]) -> int:
    """Lines over the usual ones that a calculation says it takes; none where it will refuse its arguments anyway."""
    work = getattr(function, _WORK, None)
    if work is None:
        return 0
    defaults = {name: one.default for name, one in inspect.signature(function).parameters.items()}
    try:
        lines = float(work(**{**defaults, **arguments}))
    except (TypeError, ValueError, ArithmeticError):
        return 0  # the calculation will refuse what its work cannot be found from
    if not lines <= MOST_LINES:
        raise TooMuch(function.__name__, MOST_LINES)
    return int(lines)


def calculation_of(function: Callable[..., Any]) -> Calculation:
    """Return the record of a decorated function.

    Raises:
        TypeError: the function is not decorated with `@calculation`.
    """
    if not hasattr(function, _MARK):
        raise TypeError(f"{function!r} is not a calculation")
    subject = function.__module__.rpartition(".")[2]
    return Calculation(function.__name__, subject, function, _sheet_of(function))


def catalogue() -> dict[str, Calculation]:
    """Return every calculation of the handbook by name, sorted; imports all the subjects."""
    found: dict[str, Calculation] = {}
    for module_name in _module_names():
        module = importlib.import_module(module_name)
        for value in vars(module).values():
            if hasattr(value, _MARK) and value.__module__ == module.__name__:
                if value.__name__ in found:
                    raise TypeError(f"two calculations are called {value.__name__}")
                found[value.__name__] = calculation_of(value)
    return dict(sorted(found.items()))


def subjects() -> tuple[str, ...]:
    """Return the names of the subjects (modules) that hold calculations, sorted."""
    return tuple(sorted({entry.subject for entry in catalogue().values()}))


def _module_names() -> tuple[str, ...]:
    package = importlib.import_module(HANDBOOK)
    return tuple(sorted(module.name for module in pkgutil.walk_packages(package.__path__, f"{HANDBOOK}.")))


@functools.cache
def _sheet_of(function: Callable[..., Any]) -> Sheet:
    """Read the docstring once; defaults come from the signature."""
    defaults = {
        name: parameter.default
        for name, parameter in inspect.signature(function).parameters.items()
        if parameter.default is not inspect.Parameter.empty
    }
    return read_sheet(function.__name__, docstring(function), defaults)


@functools.lru_cache(maxsize=4096)
def _rows_taken(function: Callable[..., Any], arguments: tuple[tuple[str, Any], ...]) -> tuple[Taken, ...]:
    with taking() as taken:
        try:
            function(**dict(arguments))
        except (ValueError, LookupError, ArithmeticError):
            return ()
    return tuple(taken)


_Known = Mapping[str, float]
"""Other parameters by symbol, in the unit of the one that is judged."""


def _bounds(sheet: Sheet, parameter: Parameter, arguments: Mapping[str, Any]) -> _Known:
    """Return the parameters that bound this one, in its own unit; those that were not given stay out."""
    found: dict[str, float] = {}
    for other in sheet.parameters:
        value = arguments.get(other.name, other.default)
        if other.symbol in parameter.range.symbols and _is_plain(other, value):
            found[other.symbol] = float(value) * UNITS[other.unit] / UNITS[parameter.unit]
    return found


def _by_symbol(sheet: Sheet, arguments: Mapping[str, Any]) -> dict[str, float]:
    """Return every number that went in by its symbol, in its listed unit."""
    given = {entry: arguments.get(entry.name, entry.default) for entry in sheet.parameters}
    return {entry.symbol: float(value) for entry, value in given.items() if _is_plain(entry, value)}


def _results_by_symbol(sheet: Sheet, result: Any) -> dict[str, float]:
    """Return every number that came out by its symbol, in its listed unit."""
    fields = {entry: getattr(result, entry.name, result) for entry in sheet.results}
    return {entry.symbol: float(value) for entry, value in fields.items() if _is_plain(entry, value)}


def _is_plain(entry: Parameter | Result, value: object) -> bool:
    return entry.unit in UNITS and not entry.many and isinstance(value, int | float) and not isinstance(value, bool)


def _is_so(condition: str, known: Mapping[str, float]) -> bool:
    """Whether a condition holds; one that speaks of something that was not given does not."""
    return names_of(condition) - {"pi"} <= known.keys() and holds(condition, {"pi": math.pi, **known})


def _check(parameter: Parameter, value: object, known: _Known) -> None:
    """Refuse a value of the wrong kind or outside the range its docstring gives."""
    if value is None and parameter.optional:
        return
    if parameter.many:
        if isinstance(value, tuple | list) and len(value) > MOST_ITEMS:
            raise OutOfRange(parameter.name, len(value), "count", f"at most {MOST_ITEMS} values")
        for item in value if isinstance(value, tuple | list) else (value,):
            _check_one(parameter, item, known)
        return
    _check_one(parameter, value, known)


def _check_one(parameter: Parameter, value: object, known: _Known) -> None:
    if parameter.unit == "flag":
        if not isinstance(value, bool):
            raise OutOfRange(parameter.name, value, "flag", "true or false")
    elif parameter.unit == "text":
        if not isinstance(value, str):
            raise OutOfRange(parameter.name, value, "text", "words in quotes")
        if parameter.choices and value.strip().lower() not in parameter.choices:
            raise OutOfRange(parameter.name, value, "text", parameter.rule)
    elif parameter.is_number:
        _check_number(parameter, value, known)


def _whole(parameter: Parameter, value: Any) -> int:
    """Return a whole number; refuse one with a fraction."""
    if value != round(value):
        raise OutOfRange(parameter.name, float(value), parameter.unit, "a whole number")
    return round(value)


def _check_number(parameter: Parameter, value: object, known: _Known) -> None:
    if isinstance(value, bool) or not hasattr(value, "__float__"):
        raise OutOfRange(parameter.name, value, parameter.unit, f"a number in {parameter.unit}")
    number = float(value)
    if not math.isfinite(number):
        raise OutOfRange(parameter.name, number, parameter.unit, "a finite number")
    if not parameter.range.holds(number, known):
        there = "".join(f"; {symbol} is {bound:g} here" for symbol, bound in known.items())
        raise OutOfRange(parameter.name, number, parameter.unit, parameter.rule + there)
