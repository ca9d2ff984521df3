"""Handbooks of any size for measuring: turned parts that differ in every dimension, eight operations each."""

from __future__ import annotations

from pathlib import Path

METHOD = """\
---
method: Spacer {number}
part: spacer-{part}
makes: {makes}
material: EN1A
stock: round {stock} mm x {long} mm
workshop: shop-1
---

A spacer with a shoulder, turned from both ends.

```calc
body  = {body} mm                 # outside
neck  = {neck} mm                 # where it is held later
bore  = {bore} mm
seat  = fit(neck, "H7/g6")
speed = spindle_speed(25 m/min, body)
```

The neck has {{{{ seat.clearance_min }}}} of clearance at least.

## Turn and bore

```setup
machine: lathe
hold: three-jaw chuck, on {stock} mm, grip 15 mm, end A out
```

```op
face: 0.5 mm
```

```op
centre: 3.15 mm
```

```op
drill: bore, deep {deep} mm
```

```op
turn: to body, over {over} mm
```

```op
turn: to neck, over {necked} mm
check: limits(neck, "g6") with micrometer
```

```op
groove: at {groove} mm, wide 2 mm, to {grooved} mm
```

```op
chamfer: 0.5 mm
```

## Face the other end

```setup
machine: lathe
hold: three-jaw chuck, on body, grip 12 mm, end B out
```

```op
face: to length {length} mm
```
"""

SITE = """\
site_name: Measured
docs_dir: docs
theme:
  name: material
  font: false
  features: [navigation.sections, navigation.prune]
plugins:
  - search
{plugin}
markdown_extensions: [admonition, attr_list, tables]
"""

OURS = "  - methodsheets:\n      reference: false\n"


def write_handbook(folder: Path, methods: int, workshop: Path, workshops: int = 1) -> None:
    """Write a whole site.

    Parameters:
        methods: how many method files
        workshop: file that each of the `workshops` is a copy of, with a remark that makes it another one
    """
    (folder / "docs").mkdir(parents=True)
    (folder / "docs" / "index.md").write_text("# Measured\n\nA handbook to measure.\n", "utf-8")
    (folder / "mkdocs.yml").write_text(SITE.format(plugin=OURS), "utf-8")
    shops = folder / "methods" / "workshops"
    shops.mkdir(parents=True)
    for number in range(1, workshops + 1):
        (shops / f"shop-{number}.yml").write_text(f"# {number}\n" + workshop.read_text("utf-8"), "utf-8")
    for number in range(methods):
        (folder / "methods" / f"spacer-{number:04}.md").write_text(method(number), "utf-8")


def method(number: int, remark: str = "") -> str:
    """One method file; every number gives other dimensions."""
    stock = 30 + number % 7
    body = stock - 2 - 0.1 * (number % 5)
    neck = body - 6 - 0.1 * (number % 11)
    length = 52 + 0.5 * (number % 13)
    text = METHOD.format(
        number=number,
        part=number,
        makes=1 + number % 9,
        stock=stock,
        long=length + 1.5,
        body=f"{body:g}",
        neck=f"{neck:g}",
        bore=f"{8 + 0.1 * (number % 9):g}",
        deep=18 + number % 5,
        over=28 + number % 4,
        necked=f"{10 + 0.5 * (number % 6):g}",
        groove=4,
        grooved=f"{neck - 2:g}",
        length=f"{length:g}",
    )
    return text + remark
