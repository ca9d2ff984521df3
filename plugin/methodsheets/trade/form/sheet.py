"""What does a calculation's docstring say? Its sections read into a record."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from .ranges import ANY, Range, read_range

UNITS: Mapping[str, float] = {
    # unit word -> factor to metre, second, newton, kilogram, radian, kelvin
    "mm": 1e-3,
    "m": 1.0,
    "um": 1e-6,
    "mm^2": 1e-6,
    "mm^3": 1e-9,
    "mm^4": 1e-12,
    "cm^3": 1e-6,
    "deg": 3.141592653589793 / 180,
    "1/min": 1 / 60,
    "m/min": 1 / 60,
    "mm/min": 1e-3 / 60,
    "mm/s": 1e-3,
    "N": 1.0,
    "N/mm": 1e3,
    "N*m": 1.0,
    "MPa": 1e6,
    "GPa": 1e9,
    "kW": 1e3,
    "W": 1.0,
    "J": 1.0,
    "g": 1e-3,
    "kg": 1.0,
    "g*mm": 1e-6,
    "kg*mm^2": 1e-6,
    "kg/m^3": 1.0,
    "g/cm^3": 1e3,
    "degC": 1.0,
    "delta_degC": 1.0,
    "s": 1.0,
    "min": 60.0,
    "cm^3/min": 1e-6 / 60,
    "1/K": 1.0,
    "W/(m*K)": 1.0,
    "J/(kg*K)": 1.0,
    "1/mm": 1e3,
    "mm/m": 1e-3,
    "HB": 1.0,
    "money": 1.0,
    "money/kg": 1.0,
    "money/m": 1.0,
    "1": 1.0,
}
"""Every unit a docstring may use, with the factor that brings it to SI (temperatures keep their own zero)."""

KINDS = frozenset(
    """
    angle area clearance cutting_speed density deviation energy feed feed_rate force frequency hardness length mass
    money moment power pressure ratio removal_rate roughness size slope speed spindle_speed stiffness stress
    temperature temperature_difference time torque
    unbalance volume expansion modulus inertia inertia_area curvature count percent number flag text result
    """.split()  # noqa: SIM905
)
"""The third word of a result: how the page rounds it."""

SECTIONS = (
    "Equation", "Table", "Parameters", "Returns", "Raises", "Validity", "Heed", "Example", "Source", "Trust", "Checked",
)  # fmt: skip
TRUSTS = ("exact", "table", "common practice", "estimate")

_HEAD = re.compile(rf"^({'|'.join(SECTIONS)})( \(units as listed\))?:[ ]*(.*)$")
_PARAMETER = re.compile(
    r"^(?P<name>\w+):\s+(?:(?P<symbol>[A-Za-z]\w*)\s+)?\[(?P<unit>[^\]]+)\]\s*(?:\((?P<rule>[^)]*)\)\s*)?(?P<text>.*)$",
    re.S,
)
_RESULT = re.compile(
    r"^(?:(?P<name>\w+):\s+)?(?:(?P<symbol>[A-Za-z]\w*)\s+)?\[(?P<unit>[^\]]+)\]\s+(?P<kind>\w+)\s*(?P<text>.*)$", re.S
)
_NOTE = re.compile(r"^(?P<condition>[^:]*[<>][^:]*):\s+(?P<text>.+)$", re.S)


class SheetError(TypeError):
    """A docstring does not keep to the form: our own mistake, never the author's."""


@dataclass(frozen=True)
class Parameter:
    """One input: its name, symbol, unit and the range in which the calculation holds.

    `unit` is one of `UNITS`, `text`, `flag`, or the name of a result class; `many` means a list of them.
    """

    name: str
    symbol: str
    unit: str
    range: Range = ANY
    default: object = None
    optional: bool = False
    many: bool = False
    text: str = ""

    @property
    def rule(self) -> str:
        """The range in words: `0 < v <= 3000`."""
        return self.range.rule

    @property
    def choices(self) -> tuple[str, ...]:
        """The words to choose from, where there is a choice."""
        return self.range.choices

    @property
    def is_number(self) -> bool:
        """Whether a number with a unit is wanted here (not words, a yes or no, or another result)."""
        return self.unit in UNITS


@dataclass(frozen=True)
class Heed:
    """What to say where the numbers leave the ground the calculation was made for: a condition and the words."""

    condition: str
    text: str


@dataclass(frozen=True)
class Result:
    """One output: its name, symbol, unit and the kind that says how it is rounded on a page."""

    name: str
    symbol: str
    unit: str
    kind: str
    many: bool = False
    text: str = ""


@dataclass(frozen=True)
class Sheet:
    """A docstring, taken apart."""

    sentence: str
    details: str = ""
    equations: tuple[str, ...] = ()
    equation_in_stated_units: bool = False
    tables: tuple[str, ...] = ()
    parameters: tuple[Parameter, ...] = ()
    results: tuple[Result, ...] = ()
    raises: str = ""
    validity: str = ""
    heeds: tuple[Heed, ...] = ()
    example: str = ""
    source: str = ""
    trust: str = ""
    checked: str = ""
    """Why there are not two checks against the outside world; empty where there are."""
    sections: tuple[str, ...] = field(default=())


def read_sheet(name: str, docstring: str, defaults: Mapping[str, object]) -> Sheet:
    """Take a calculation's docstring apart.

    `name` is used for the result of a calculation that gives one number; `defaults` are the signature's.

    Raises:
        SheetError: a line does not keep to the form.
    """
    prose, sections, stated = _split(docstring)
    if not prose:
        raise SheetError(f"{name}: the docstring has no first sentence")
    return Sheet(
        sentence=prose[0],
        details="\n".join(prose[1:]).strip(),
        equations=tuple(line.strip() for line in sections.get("Equation", ()) if line.strip()),
        equation_in_stated_units=stated,
        tables=tuple(re.split(r"[,\s]+", " ".join(sections["Table"]).strip())) if "Table" in sections else (),
        parameters=tuple(_parameter(name, entry, defaults) for entry in _entries(sections.get("Parameters", []))),
        results=tuple(_result(name, entry) for entry in _entries(sections.get("Returns", []))),
        raises=_prose(sections.get("Raises", [])),
        validity=_prose(sections.get("Validity", [])),
        heeds=tuple(_heed(name, entry) for entry in _entries(sections.get("Heed", []))),
        example="\n".join(sections.get("Example", [])),
        source=_prose(sections.get("Source", [])),
        trust=_prose(sections.get("Trust", [])),
        checked=_prose(sections.get("Checked", [])),
        sections=tuple(sections),
    )


def _split(docstring: str) -> tuple[list[str], dict[str, list[str]], bool]:
    """Cut a docstring at its section heads; say whether the equation keeps to stated units."""
    prose: list[str] = []
    sections: dict[str, list[str]] = {}
    current = prose
    stated = False
    for line in docstring.splitlines():
        head = _HEAD.match(line)
        if head is None:
            current.append(line[4:] if current is not prose and line.startswith("    ") else line)
            continue
        current = sections.setdefault(head[1], [])
        stated = stated or bool(head[2])
        if head[3]:
            current.append(head[3])
    return prose, sections, stated


def _entries(lines: list[str]) -> list[str]:
    """Join each entry with the deeper lines that carry it on."""
    entries: list[str] = []
    for line in lines:
        if not line.strip():
            continue
        if line.startswith(" ") and entries:
            entries[-1] += " " + line.strip()
        else:
            entries.append(line.strip())
    return entries


def _prose(lines: list[str]) -> str:
    return "\n".join(lines).strip()


def _unit(where: str, word: str) -> tuple[str, bool]:
    """Read a unit word; a trailing `, ...` says a list."""
    many = word.endswith(", ...")
    unit = word.removesuffix(", ...").strip()
    if unit in UNITS or unit in {"text", "flag"} or re.fullmatch(r"[A-Z]\w*", unit):
        return unit, many
    raise SheetError(f"{where}: {unit!r} is not a unit of the handbook")


def _parameter(function: str, entry: str, defaults: Mapping[str, object]) -> Parameter:
    found = _PARAMETER.match(entry)
    if found is None:
        raise SheetError(f"{function}: cannot read the parameter line {entry!r}")
    name, rule = found["name"], (found["rule"] or "").strip()
    where = f"{function}, {name}"
    unit, many = _unit(where, found["unit"])
    found_range = read_range(rule)
    if found_range is None:
        raise SheetError(f"{where}: cannot read the range ({rule})")
    return Parameter(
        name=name,
        symbol=found["symbol"] or name,
        unit=unit,
        range=found_range,
        default=defaults.get(name),
        optional=name in defaults,
        many=many,
        text=" ".join(found["text"].split()),
    )


def _heed(function: str, entry: str) -> Heed:
    found = _NOTE.match(entry)
    if found is None:
        raise SheetError(f"{function}: cannot read what to heed in {entry!r}")
    return Heed(found["condition"].strip(), " ".join(found["text"].split()))


def _result(function: str, entry: str) -> Result:
    found = _RESULT.match(entry)
    if found is None:
        raise SheetError(f"{function}: cannot read the result line {entry!r}")
    name = found["name"] or function
    unit, many = _unit(f"{function}, {name}", found["unit"])
    if found["kind"] not in KINDS:
        raise SheetError(f"{function}, {name}: {found['kind']!r} is not a kind of result")
    return Result(name, found["symbol"] or name, unit, found["kind"], many, " ".join(found["text"].split()))
