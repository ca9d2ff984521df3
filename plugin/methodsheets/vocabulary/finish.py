"""How smooth does each way of cutting leave a surface, where feed and nose radius do not say it?

Mean roughness Ra in µm, from and to, that a shop gets as a rule: the table of surface finish by process that workshop
handbooks print (after ASME B46.1), from memory; the lower figure is reached with care.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from .process import Process

Range = tuple[float, float]
POLISHED: Range = (0.1, 0.4)
LAPPED: Range = (0.05, 0.4)
HONED: Range = (0.1, 0.8)
BROACHED: Range = (0.8, 3.2)
_TURNED: Range = (0.4, 6.3)
LEAVES: Mapping[Process, Range] = MappingProxyType({
    **dict.fromkeys((Process.TURN, Process.FACE, Process.BORE, Process.GROOVE, Process.PART, Process.FORM,
                     Process.CHAMFER, Process.THREAD), _TURNED),
    **dict.fromkeys((Process.DRILL, Process.CENTRE, Process.COUNTERBORE, Process.COUNTERSINK, Process.TAP,
                     Process.DIE), (1.6, 6.3)),
    Process.REAM: (0.8, 3.2), Process.MILL: (0.8, 6.3), Process.SAW: (3.2, 25.0),
    Process.KNURL: (0.0, 0.0), Process.NONE: (0.0, 0.0),
})  # fmt: skip
"""Every process; (0, 0) where there is no figure."""
