"""Which whole sets of drills does the trade sell by name?"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

Sizes = Callable[[], tuple[tuple[str, float], ...]]

STANDARD_SETS: Mapping[str, Sizes] = MappingProxyType({})
"""'number drills' → function that gives (label, diameter in mm) of every size."""
