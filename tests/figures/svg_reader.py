"""What does a drawing's SVG say: its lines in millimetres, with the style that each inherits? Reads, as a browser does,
the path commands of SVG 2 that the drawings use: M m l h v c z (numbers may follow one another without a command).
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

SVG = "{http://www.w3.org/2000/svg}"
_TOKEN = re.compile(r"([MmLlHhVvCcZz])|(-?(?:\d+\.?\d*|\.\d+))")
_COUNT = {"m": 2, "l": 2, "h": 1, "v": 1, "c": 6, "z": 0}


def lines_of(d):
    """Path data as a list of point lists; of a curve only its end."""
    out, here, begin, word, numbers = [], (0.0, 0.0), (0.0, 0.0), "", []
    for command, value in _TOKEN.findall(d):
        if command:
            assert not numbers, f"{word} has too few numbers before {command} in {d[:80]}"
            word = command
            if word in "zZ":
                out[-1].append(begin)
                here = begin
            continue
        numbers.append(float(value))
        kind = word.lower()
        if len(numbers) < _COUNT[kind]:
            continue
        x, y = (0.0, 0.0) if word.isupper() else here
        step = {"h": (numbers[0], 0.0), "v": (0.0, numbers[0])}.get(kind) or tuple(numbers[-2:])
        assert word.islower() or word == "M", "only the first point is absolute"
        here, numbers = (x + step[0], y + step[1]), []
        if kind == "m":
            out.append([here])
            begin, word = here, "L" if word == "M" else "l"
        else:
            out[-1].append(here)
    return out


def paths(svg):
    """(style with what is inherited, lines) of every path."""
    out = []

    def walk(element, inherited):
        said = dict(part.split(":", 1) for part in element.get("style", "").split(";") if ":" in part)
        style = inherited | said
        if element.tag == SVG + "path":
            out.append((style, lines_of(element.get("d"))))
        for child in element:
            walk(child, style)

    walk(ET.fromstring(svg), {})
    return out
