"""Stand-ins with the shape of the handbook's calculations, so that formulas are tested without the handbook."""

from dataclasses import dataclass, field
from types import SimpleNamespace


def parameter(name, symbol, unit, *, optional=False, default=None, many=False, rule="", text=""):
    return SimpleNamespace(
        name=name, symbol=symbol, unit=unit, optional=optional, default=default, many=many, rule=rule, text=text
    )


def result(name, symbol, unit, kind, text=""):
    return SimpleNamespace(name=name, symbol=symbol, unit=unit, kind=kind, many=False, text=text)


def record(function, equations, parameters, results, **more):
    """A stand-in with the shape of one of the handbook's calculations."""
    facts = {"sentence": "Sentence.", "source": "Source.", "trust": "exact", "validity": "Holds."} | more
    return SimpleNamespace(
        name=function.__name__,
        function=function,
        equations=equations,
        parameters=parameters,
        results=results,
        **facts,
    )


class OutOfRange(ValueError):
    def __init__(self, parameter, value, unit, rule):
        self.parameter, self.value, self.unit, self.rule = parameter, value, unit, rule
        super().__init__(parameter)


class NotInTable(LookupError):
    def __init__(self, name, what, known):
        self.name, self.what, self.known = name, what, known
        super().__init__(f"no {what} called {name!r}; did you mean {known[0]}?")


@dataclass(frozen=True)
class Side:
    upper: float


@dataclass(frozen=True)
class Seat:
    name: str
    size: float
    hole: Side
    steps: tuple[float, ...] = field(default=(1.0, 2.0))
    loose: bool = False


def turns(speed: float, diameter: float) -> float:
    import math

    if speed <= 0:
        raise OutOfRange("speed", speed, "m/min", "v > 0")
    return 1000 * speed / (math.pi * diameter)


def side(upper: float) -> Side:
    return Side(upper)


def seat(size: float, name: str = "H7/s6") -> Seat:
    if name == "H77":
        raise NotInTable(name, "fit", ("H7",))
    return Seat(name, size, Side(size + 0.018))


def grip(seat: Seat, length: float) -> float:
    return 2.0 * seat.size * length


def total(lengths: tuple[float, ...]) -> float:
    return sum(lengths)


def square(width: float) -> float:
    return width**2


def chord(diameter: float, count: float) -> float:
    import math

    return diameter * math.sin(math.pi / count)


def tolerance_unit(size: float) -> float:
    return 0.45 * size ** (1 / 3) + 0.001 * size


def ring(outer: float, inner: float = 0.0) -> float:
    return outer**2 - inner**2


@dataclass(frozen=True)
class Warned:
    size: float
    note: str = "past the yield"


def warned(size: float) -> Warned:
    return Warned(size)


CATALOGUE = {
    "chord": record(
        chord,
        ("c = D * sin(pi / N)",),
        (parameter("diameter", "D", "mm"), parameter("count", "N", "1")),
        (result("chord", "c", "mm", "length"),),
    ),
    "tolerance_unit": record(
        tolerance_unit,
        ("i = 0.45 * D ** (1 / 3) + 0.001 * D",),
        (parameter("size", "D", "mm"),),
        (result("tolerance_unit", "i", "um", "deviation"),),
        equation_in_stated_units=True,
    ),
    "ring": record(
        ring,
        ("a = D ** 2 - d ** 2",),
        (parameter("outer", "D", "mm"), parameter("inner", "d", "mm", optional=True, default=0.0)),
        (result("ring", "a", "mm^2", "area"),),
    ),
    "warned": record(
        warned,
        (),
        (parameter("size", "d", "mm"),),
        (result("size", "d", "mm", "size"), result("note", "note", "text", "text")),
    ),
    "turns": record(
        turns,
        ("n = v / (pi * d)",),
        (parameter("speed", "v", "m/min"), parameter("diameter", "d", "mm", text="of the work")),
        (result("turns", "n", "1/min", "spindle_speed"),),
    ),
    "side": record(side, (), (parameter("upper", "u", "mm"),), (result("upper", "u", "mm", "size"),)),
    "seat": record(
        seat,
        (),
        (parameter("size", "d", "mm"), parameter("name", "name", "text", optional=True, default="H7/s6")),
        (
            result("name", "name", "text", "text"),
            result("size", "d", "mm", "size", "the nominal size"),
            result("hole", "hole", "Side", "result"),
            result("steps", "steps", "mm", "length"),
            result("loose", "loose", "flag", "flag"),
        ),
    ),
    "grip": record(
        grip,
        ("F = 2 * p * L",),
        (parameter("seat", "seat", "Seat", text="a fit"), parameter("length", "L", "mm")),
        (result("grip", "F", "N", "force"),),
        trust="estimate ±30 %",
    ),
    "total": record(total, (), (parameter("lengths", "L", "mm", many=True),), (result("total", "s", "mm", "length"),)),
    "square": record(
        square,
        ("a = w * 2", "A = w ** 2"),
        (parameter("width", "w", "mm"),),
        (result("square", "A", "mm^2", "area"),),
    ),
}
