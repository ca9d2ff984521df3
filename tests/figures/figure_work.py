"""A small lathe in words, which keeps stock, cuts and the faces of the work."""

from __future__ import annotations

import math

from figure_solids import bar, tube, turned

from methodfigures.setups.turning.spec import TurningSetup


class Work:
    """A bar whose end A looks at us at z = 0; the metal lies at z > 0.  `throw` mm between axis and bar."""

    def __init__(self, d, length, throw=0.0):
        self.d, self.length, self.face, self.throw = d, length, 0.0, throw
        self.solid = bar(d, 0, length, (-throw, 0.0))

    def cut(self, tool):
        before, after, gone = self.solid, self.solid - tool, self.solid & tool
        self.solid = after
        return {"before": (before.mesh(),), "after": (after.mesh(),), "removed": (gone.mesh(),)}

    def outside(self, d, a, b):
        """Everything outside diameter `d` between a and b from the face."""
        z0 = self.face + a - (1 if a < 1e-9 else 0)
        return tube(4 * self.d, d, z0, self.face + b)

    def hole(self, d, a, b, point=0.0):
        r = d / 2
        h = r / math.tan(math.radians(point / 2)) if point else 0.0
        z0, z1 = self.face + a - (1 if a < 1e-9 else 0), self.face + b
        if h:
            return turned([(z0, 0), (z0, r), (z1, r), (z1 + h, 0)])
        return bar(d, z0, z1)

    def spec(self, tool, **kw):
        end_z = (self.face, self.length)
        grip_axis = (-self.throw, 0.0) if self.throw else None
        return TurningSetup(**self.cut(tool), end_z=end_z, grip_axis=grip_axis, **kw)


HELD = {"three-jaw": "three-jaw", "collet": "collet", "four-jaw": "four-jaw"}
