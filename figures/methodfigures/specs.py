"""What have the descriptions of all figures in common: a digest of their content, and the writing of numbers?"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from methodfigures.solids.mesh import Mesh


def content(value: Any) -> Any:
    """`value` as plain nested data that is equal exactly when the content is equal."""
    if isinstance(value, Mesh):
        return ("mesh", value.key())
    if isinstance(value, Mapping):
        return sorted((str(k), content(v)) for k, v in value.items())
    if isinstance(value, tuple | list):
        return tuple(content(v) for v in value)
    if is_dataclass(value) and not isinstance(value, type):
        return (type(value).__name__, *(content(getattr(value, f.name)) for f in fields(value)))
    return value


class Spec:
    """Base of the frozen dataclasses that describe a figure: equal content makes equal descriptions."""

    units: str
    dimension_texts: Mapping[str, str]

    def key(self) -> str:
        """A digest of everything that goes into the drawing."""
        return hashlib.sha256(repr(content(self)).encode()).hexdigest()

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and isinstance(other, Spec) and self.key() == other.key()

    def __hash__(self) -> int:
        return hash(self.key())

    def number(self, value: float) -> str:
        """A length as it is written: metric as it is, inches to a thousandth."""
        return f"{value / 25.4:.3f}" if self.units == "in" else f"{round(value, 3):g}"

    @staticmethod
    def degrees(angle: float) -> str:
        """An angle as it is written: "−40°", "12.5°"."""
        return f"{round(angle, 3):g}°".replace("-", "−")

    def words(self, name: str, default: str) -> str:
        """The given text, or the default."""
        return self.dimension_texts.get(name, default)
