"""A method that is really worked out in a moment, for whole builds."""

from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
WORKSHOP = ROOT / "methods" / "workshops" / "osierbank-small.yml"
METHOD = """---
method: Plain stub
part: stub
makes: 2
material: EN1A
stock: round 25 mm x 60 mm
workshop: osierbank-small
status: draft
---

A stub of {{ size }}.

```calc
size = 20 mm   # the finished diameter
```

## Turn it

```setup
machine: lathe
hold: three-jaw chuck, on 25 mm, grip 15 mm, end A out
```

```op
face: 0.5 mm
```

```op
turn: to size, over 30 mm
```
"""
