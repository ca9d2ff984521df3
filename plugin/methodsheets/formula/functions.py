"""Which functions may a formula call, what do they take, and what do they give? A fixed list, nothing else."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeAlias

from methodsheets.formula.errors import FormulaError
from methodsheets.formula.values import Value
from methodsheets.reading.problem import did_you_mean

Arguments: TypeAlias = dict[str, Value]


@dataclass(frozen=True)
class Parameter:
    """What a function takes."""

    name: str
    unit: str = "any"
    """A unit such as 'mm' or '1', or 'any', 'text', 'flag', 'expression', or the name of a sort of result ('Fit')."""
    required: bool = True
    default: Any = None
    """What the function takes where it is left out, in its unit."""
    many: bool = False
    """A list of them."""
    rule: str = ""
    """The range in words: '0 < v <= 3000'."""
    text: str = ""
    symbol: str = ""


@dataclass(frozen=True)
class Result:
    """What a function gives."""

    name: str
    unit: str
    kind: str
    text: str = ""
    symbol: str = ""


@dataclass(frozen=True)
class Function:
    """One function of the formula language."""

    name: str
    parameters: tuple[Parameter, ...]
    call: Callable[[Arguments], Value] = field(repr=False, compare=False)
    sentence: str = ""
    results: tuple[Result, ...] = ()
    variadic: bool = False
    """Takes any number of values, or one list of them; they arrive as `values`."""
    lazy: bool = False
    """Its arguments are worked out one by one by the evaluator: `when`, `solve`."""
    calculation: Any = field(default=None, repr=False, compare=False)
    """The record of the handbook's calculation behind it, None for the built-in ones."""
    lines: Callable[[Arguments], int] = field(default=lambda arguments: 0, repr=False, compare=False)
    """How long it is with these arguments, in lines of a program; 0 for what is done at once."""

    @property
    def signature(self) -> str:
        """How it is written: 'press_fit(seat, length, hub, …)'."""
        if self.variadic:
            return f"{self.name}(a, b, …)"
        return f"{self.name}({', '.join(p.name if p.required else f'{p.name}=…' for p in self.parameters)})"

    @property
    def short_signature(self) -> str:
        """The same with the arguments that may be left out as `…`."""
        needed = [parameter.name for parameter in self.parameters if parameter.required]
        more = ["…"] if len(needed) < len(self.parameters) else []
        return self.signature if self.variadic else f"{self.name}({', '.join([*needed, *more])})"

    def bind(self, positional: tuple[Any, ...], named: Mapping[str, Any]) -> dict[str, Any]:
        """Arguments by the names of the parameters; FormulaError for one too many, unknown, twice or missing."""
        if len(positional) > len(self.parameters):
            plural = "s" * (len(self.parameters) != 1)
            raise FormulaError(
                f"`{self.name}` takes at most {len(self.parameters)} value{plural} (got {len(positional)})",
                f"it is written {self.short_signature}",
                "take one away",
                code="arguments",
            )
        bound = {parameter.name: value for parameter, value in zip(self.parameters, positional, strict=False)}
        known = {parameter.name for parameter in self.parameters}
        for name, value in named.items():
            if name not in known:
                raise FormulaError(
                    f"`{self.name}` has no argument `{name}`",
                    f"it is written {self.short_signature}",
                    did_you_mean(name, known),
                    code="arguments",
                )
            if name in bound:
                raise FormulaError(
                    f"`{name}` is given twice to `{self.name}`",
                    f"it is written {self.short_signature}",
                    "take one away",
                    code="arguments",
                )
            bound[name] = value
        for parameter in self.parameters:
            if parameter.required and parameter.name not in bound:
                raise FormulaError(
                    f"`{self.name}` lacks `{parameter.name}`",
                    f"it is written {self.short_signature}",
                    f"add {_example(parameter)}",
                    code="arguments",
                )
        return bound


def _example(parameter: Parameter) -> str:
    if parameter.unit in ("any", "text", "flag", "1", "expression") or parameter.unit[0].isupper():
        return f"`{parameter.name}=…`" + (f": {parameter.text}" if parameter.text else "")
    return f"`{parameter.name}=… {parameter.unit}`" + (f": {parameter.text}" if parameter.text else "")


@dataclass(frozen=True)
class FunctionTable:
    """The functions and constants a formula may use; read only."""

    functions: Mapping[str, Function]
    constants: Mapping[str, Value] = field(default_factory=dict)

    def __iter__(self) -> Iterator[Function]:
        return iter(self.functions.values())

    def find(self, name: str) -> Function:
        """The function of that name; FormulaError with a suggestion where there is none."""
        found = self.functions.get(name)
        if found is None:
            remedy = f"{did_you_mean(name, self.functions)}; the handbook's reference chapter lists them all"
            raise FormulaError(f"unknown function `{name}`", "", remedy, code="unknown-function")
        return found

    def with_functions(self, more: Mapping[str, Function]) -> FunctionTable:
        """A table with further functions; a name that is taken is our own mistake (ValueError)."""
        taken = sorted(set(self.functions) & set(more))
        if taken:
            raise ValueError(f"two functions are called {', '.join(taken)}")
        return FunctionTable({**self.functions, **more}, self.constants)


@dataclass(frozen=True)
class Called:
    """One call that was made while a value was worked out; the working is set from it."""

    function: Function
    arguments: Mapping[str, Value]
    value: Value
