"""How does a sheet write a number inside a sentence?"""

from __future__ import annotations


def number(value: float) -> str:
    """A length or an angle without its unit, as drawings write it: three decimals at most, no trailing zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".") if value == value else "?"
    return ("0" if text in ("-0", "") else text).replace("-", "\u2212")


def diameter(value: float) -> str:
    """'Ø38'."""
    return f"Ø{number(value)}"


def degrees(value: float) -> str:
    """'40°'."""
    return f"{number(value)}°"


def turned(angle: float) -> float:
    """An angle from above -180 to 180 degrees, without the dust that the sums leave."""
    seen = round((angle + 180.0) % 360.0 - 180.0, 6)
    return 180.0 if seen == -180.0 else seen + 0.0


def joined(words: list[str]) -> str:
    """'a', 'a and b', 'a, b and c'."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}" if words else ""


def plural(count: int, one: str, many: str = "") -> str:
    """'1 hole', '6 holes'."""
    return f"{count} {one if count == 1 else many or one + 's'}"
