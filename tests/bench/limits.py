"""What does a method cost in each dimension of a file, up to its limit, and how does that grow?

    python tests/bench/limits.py [DIMENSION …]           our part: working out and drawing; the page
    python tests/bench/limits.py --site [DIMENSION …]    the build of a whole site at the limit
    python tests/bench/limits.py --worst [DIMENSION …]   the file that joins the dearest dimensions, each as far as it goes

Each dimension is measured at its limit, at half and at a quarter of it, in a process of its own. In brackets stands the
exponent of the growth, without what every file costs: 1 is linear, 2 is quadratic. Last stands what is said of the file.
Nothing is in CI by the clock; it is for whoever changes a limit or a path. It fails where a file that is taken costs more
than the marks.
"""

from __future__ import annotations

import json
import math
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import markdown

from methodsheets.faces.markdown import MethodSheetsExtension, Page
from methodsheets.handbook.build import build_handbook
from methodsheets.handbook.model import Options
from methodsheets.pages.site import Site
from methodsheets.pages.texts import method_text
from methodsheets.reading import limits
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import Problems
from methodsheets.reading.source import read_source

ROOT = Path(__file__).resolve().parents[2]
WORKSHOP = ROOT / "plugin" / "methodsheets" / "workshop" / "usual.yml"
SITE = """\
site_name: Measured
theme:
  name: material
  font: false
plugins:
  - search
  - tags
  - methodsheets:
      reference: false
markdown_extensions:
"""
EXTENSIONS = ["admonition", "attr_list", "def_list", "footnotes", "tables", "toc", "pymdownx.superfences"]
SECONDS, MEGABYTES = 20.0, 500.0
"""What the worst file that is taken may cost."""
NOISE = 0.15
"""CPU seconds that two runs of one thing differ by."""
ENVIRONMENT = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
Made = str | Mapping[str, str]

FRONT = "---\nmethod: A bush\nmaterial: EN1A\nstock: round 40 mm x 60 mm\nworkshop: shop\n{}---\n\n"
CHUCK = "```setup\nmachine: lathe\nhold: three-jaw chuck, on 40 mm, grip 15 mm, end A out\n```\n\n"


@dataclass(frozen=True)
class Dimension:
    """One way in which a file can be large.

    Parameters:
        most: how far it may go
        make: the method with so many of it; or files below the folder of methods, by name
    """

    most: int
    make: Callable[[int], Made]
    files: Mapping[str, str] = field(default_factory=dict)


def op(*lines: str) -> str:
    """One operation."""
    return "\n".join(("```op", *lines, "```", "", ""))


def of(text: str, chuck: bool = False, front: str = "") -> Callable[[int], Made]:
    """The same text again and again; `#` stands for the number."""
    head = FRONT.format(front) + (CHUCK if chuck else "")
    return lambda count: head + "".join(text.replace("#", str(number)) for number in range(count))


def listed(kind: str, before: str, entry: str) -> Callable[[int], Made]:
    """One block with so many entries; `#` stands for the number."""

    def make(count: int) -> Made:
        lines = (entry.replace("#", str(number)) for number in range(count))
        return FRONT.format("") + (CHUCK if kind == "op" else "") + "\n".join((f"```{kind}", before, *lines, "```", ""))

    return make


def _circle(count: int) -> Made:
    flange = FRONT.format("").replace("round 40 mm x 60 mm", "round 300 mm x 10 mm")
    table = "```setup\nmachine: mill\nhold: rotary table with clamps, end A up\n```\n\n"
    return flange + table + op(f"drill: 1 mm, through, on circle 280 mm, divide {count}")


def _turned(count: int) -> Made:
    return (
        FRONT.format("")
        + CHUCK
        + "".join(op(f"turn: to {39.9 - 0.1 * i:.1f} mm, over {44 - 0.2 * i:.1f} mm") for i in range(count))
    )


def _chain(count: int) -> Made:
    return {
        f"m{i}.md": FRONT.format("")
        .replace("A bush", f"Bush {i}")
        .replace("round 40 mm x 60 mm", f'from "m{i - 1}"' if i else "round 40 mm x 60 mm")
        for i in range(count)
    }


def _of_one_part(count: int) -> Made:
    return {
        f"m{i}.md": FRONT.format("part: bush\n").replace("A bush", f"Bush {i}")
        + CHUCK
        + op(f"face: {0.5 + i / 1000} mm")
        for i in range(count)
    }


def _records(count: int) -> Made:
    head = "date,batch,operation,limit,part,measured,minutes,note\n"
    text = FRONT.format("") + CHUCK + op("turn: to 16 mm, over 20 mm", 'check: limits(16 mm, "h6") with micrometer')
    return {
        "bush.md": text,
        "records/bush.csv": head + "".join(f"2026-11-25,1,10,16 mm h6,{i},15.995,3.5,\n" for i in range(count)),
    }


def _workshop(count: int) -> Made:
    tools = "".join(f"  drill {i}:\n    kind: drill\n    sizes: {1 + i / 100:.2f} mm\n" for i in range(count))
    return {
        "bush.md": FRONT.format("") + CHUCK + op("drill: 8 mm, deep 20 mm"),
        "workshops/shop.yml": WORKSHOP.read_text("utf-8").replace("\ntools:\n", f"\ntools:\n{tools}", 1),
    }


def _dense(piece: str) -> Callable[[int], Made]:
    """So many pieces, in paragraphs as full as they may be."""
    full = min(limits.MARKS // max(map(piece.count, piece)), limits.LINE // len(piece))
    return lambda count: (
        FRONT.format("") + "".join(piece * min(full, count - at) + "\n\n" for at in range(0, count, full))
    )


def _noted(count: int) -> Made:
    """So many mentions of as many footnotes as there may be, a hundred to a paragraph."""
    notes = min(count, limits.FOOTNOTES)
    said = "".join(f"[^{i % notes}] " + "\n\n" * (i % 100 == 99) for i in range(count))
    return FRONT.format("") + said + "\n\n" + "".join(f"[^{i}]: b\n" + "\n" * (i % 60 == 59) for i in range(notes))


DIMENSIONS: dict[str, Dimension] = {
    "paragraphs": Dimension(4_900, of("Some words, (more) [words] *there* and `code`.\n\n")),
    "one paragraph": Dimension(19_000, lambda n: FRONT.format("") + "word " * 10 + "\n".join("word " * 16 for _ in range(n // 80))),
    "headings": Dimension(limits.HEADINGS, of("## Turn the end\n\n")),
    "fences": Dimension(3_300, of("```text\na\n```\n")),
    "lists": Dimension(3_000, of("- a\n    - b\n\n")),
    "nested lists": Dimension(300, of("".join("    " * i + "- a\n\n" for i in range(15)))),
    "ordered lists": Dimension(4_900, of("1. a\n\n")),
    "definitions": Dimension(3_300, of("word\n:   meaning\n\n")),
    "admonitions": Dimension(3_300, of('!!! note "x"\n    a\n\n')),
    "nested admonitions": Dimension(600, of("".join("    " * i + "!!! note\n\n" for i in range(8)))),
    "quotations": Dimension(4_900, of("> a\n\n")),
    "footnotes": Dimension(limits.FOOTNOTES, of("a[^#]\n\n[^#]: b\n\n")),
    "mentions of footnotes": Dimension(limits.MARKS_OF_A_PAGE // 2 - limits.FOOTNOTES, _noted),
    "many placeholders": Dimension(limits.MARKS_OF_A_PAGE // 2, _dense("{{ 1 mm }} ")),
    "many words in stars": Dimension(limits.MARKS_OF_A_PAGE // 2, _dense("*a* ")),
    "many links": Dimension(limits.MARKS_OF_A_PAGE // 2, _dense("[a](b) ")),
    "links": Dimension(3_900, of("[a](b) [c][#] <http://d.e>\n\n")),
    "link references": Dimension(4_900, of("[#]: http://d.e\n\n")),
    "tables": Dimension(1_900, of("| a | b |\n|---|---|\n| c | d |\n\n")),
    "placeholders": Dimension(4_900, of("{{ 3 mm + # mm }}\n\n")),
    "tags": Dimension(3_900, of("<b>a\n\n")),
    "attributes": Dimension(4_900, of("a {: #x .y }\n\n")),
    "open comments": Dimension(3_900, of("<!-- a\n\n")),
    "rules": Dimension(390, of("a\n\n---\n\n")),
    "calculations": Dimension(limits.CALCULATIONS, lambda n: FRONT.format("") + "".join(f"```calc\n{chr(10).join(f'a{i}_{j} = {i} mm + {j} mm  # one' for j in range(20))}\n```\n\n" for i in range(n // 20))),
    "blocks of calculation": Dimension(limits.CALCULATIONS, of("```calc\na# = # mm\n```\n\n")),
    "wrong calculations": Dimension(limits.CALCULATIONS, of("```calc\na# = # mmm + (\n```\n\n")),
    "table searches": Dimension(limits.CALCULATIONS, of("```calc\na# = spindle_speed(25 m/min, # mm + 1 mm)\n```\n\n")),
    "operations": Dimension(limits.OPERATIONS, _turned),
    "operations on one face": Dimension(limits.OPERATIONS, of(op("face: 0.1 mm"), chuck=True)),
    "wrong operations": Dimension(limits.OPERATIONS, of(op("tourn: to 3 mm"), chuck=True)),
    "set-ups": Dimension(limits.SETUPS, of(CHUCK + op("face: 0.1 mm"))),
    "pieces": Dimension(limits.SETUPS, of(CHUCK.replace("lathe\n", "lathe\npiece: p#\nstock: round 40 mm x 60 mm\n") + op("face: 0.1 mm"))),
    "features": Dimension(limits.FEATURES - 1, listed("part", "- round: 40 mm, over 60 mm", "- drill: 2 mm, deep 5 mm, on radius 10 mm, at # deg")),
    "added features": Dimension(limits.FEATURES - 1, listed("part", "- round: 40 mm, over 60 mm", "- round: 3 mm, over 1 mm, from 1 mm, axis offset 15 mm, at # deg")),
    "part blocks": Dimension(2_400, of("```part\n- x: 1\n```\n\n")),
    "notes": Dimension(limits.ENTRIES - 20, listed("op", "face: 0.5 mm\nnote:", "- note number #")),
    "checks": Dimension(limits.ENTRIES - 20, listed("op", "turn: to 16 mm, over 20 mm\ncheck:", '- limits(16 mm + # mm, "h7") with micrometer')),
    "tags of a method": Dimension(limits.ENTRIES, lambda n: FRONT.format("tags:\n" + "".join(f"  - word{i}\n" for i in range(n)))),
    "holes": Dimension(limits.HOLES, _circle),
    "crossed holes": Dimension(35, lambda n: FRONT.format("") + CHUCK.replace("lathe", "mill").replace("three-jaw chuck", "rotary table with three-jaw chuck").replace("out", "up") + op(f"cross-drill: 7.9 mm, from face 10 mm, divide {n}")),
    "passes": Dimension(limits.PASSES, lambda n: FRONT.format("") + CHUCK + op("turn: to 10 mm, over 30 mm", f"depth: {15.0 / n:.6f} mm")),
    "pins": Dimension(limits.BODIES - 2, of(op("pin: 2 mm, long 10 mm, on radius 15 mm, at # deg"), chuck=True)),
    "rivets": Dimension(18, lambda n: FRONT.format("") + CHUCK + op(f"rivet: 1 mm, on circle 30 mm, divide {n}")),
    "rivets one by one": Dimension(8, lambda n: FRONT.format("") + CHUCK + "".join(op(f"rivet: 1 mm, on radius 15 mm, at {360 * i // n} deg") for i in range(n))),
    "pieces with pins": Dimension(15, of(CHUCK.replace("lathe\n", "lathe\npiece: p#\nstock: round 40 mm x 60 mm\n") + op("pin: 2 mm, long 10 mm, on circle 30 mm, divide 3"))),
    "sizes of drills": Dimension(limits.OPERATIONS, lambda n: FRONT.format("") + CHUCK + "".join(op(f"drill: {1 + i / 100:.2f} mm, deep 5 mm, on radius 15 mm, at {360 * i // n} deg") for i in range(n))),
    "a chain of methods": Dimension(limits.REFERENCES, _chain),
    "methods of one part": Dimension(200, _of_one_part),
    "records": Dimension(9_000, _records),
    "tools": Dimension(3_000, _workshop),
}  # fmt: skip


def write(root: Path, files: Mapping[str, str]) -> None:
    """The folder of methods with these files, and a workshop."""
    (root / "methods" / "workshops").mkdir(parents=True)
    shutil.copy(WORKSHOP, root / "methods" / "workshops" / "shop.yml")
    for name, text in files.items():
        (root / "methods" / name).parent.mkdir(exist_ok=True)
        (root / "methods" / name).write_text(text, "utf-8")


def build(made: Made) -> tuple[float, float]:
    """CPU seconds and peak memory [MB] of the build of a site with one method, or with these files."""
    files = made if isinstance(made, Mapping) else {"bush.md": made}
    with tempfile.TemporaryDirectory(prefix="methodsheets-limits-") as somewhere:
        site = Path(somewhere)
        (site / "docs").mkdir()
        (site / "docs" / "index.md").write_text("# Measured\n", "utf-8")
        (site / "mkdocs.yml").write_text(SITE + "".join(f"  - {name}\n" for name in EXTENSIONS), "utf-8")
        write(site, files)
        with (site / "said").open("wb") as said:
            process = subprocess.Popen(
                [sys.executable, "-m", "mkdocs", "build", "--quiet"], cwd=site, env=ENVIRONMENT, stderr=said
            )
            _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode:
            print((site / "said").read_text("utf-8")[-2000:])
        elif os.environ.get("SAID"):
            print((site / "said").read_text("utf-8")[:1500])
    return usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def pages(made: Made) -> tuple[float, float, str]:
    """CPU seconds of our part without a site: all methods worked out and drawn; the page of the first one.

    Also the first thing that is said of the files, which tells whether the file was taken at all.
    """
    files = made if isinstance(made, Mapping) else {"bush.md": made}
    with tempfile.TemporaryDirectory(prefix="methodsheets-limits-") as somewhere:
        root = Path(somewhere)
        write(root, files)
        began = time.process_time()
        book = build_handbook(Options(root, (root / "methods",), store=root / "store.sqlite", workers=1))
        worked = time.process_time()
        site, slug = Site(book), next(iter(book.entries))
        extension = MethodSheetsExtension()
        extension.page = Page(site, slug, f"methods/{slug}.md", clean=True)
        markdown.Markdown(extensions=[*EXTENSIONS, extension]).convert(method_text(site, slug))
        told = next((one.what for one in book.problems if not one.code.startswith("check-")), "")
        return worked - began, time.process_time() - worked, told


def in_a_process_of_its_own(made: Made) -> tuple[float, float, float, str]:
    """Seconds of working out and of the page, peak memory [MB], what is said; in a process that ends with it."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        os.write(writing, json.dumps(pages(made)).encode())
        os._exit(0)
    os.close(writing)
    with os.fdopen(reading) as came:
        said = came.read()
    _, _, usage = os.wait4(child, 0)
    worked, page, told = json.loads(said)
    return worked, page, usage.ru_maxrss / 1024, told


def growth(name: str) -> bool:
    """Print how a dimension grows; True where it is over the mark."""
    one = DIMENSIONS[name]
    quarter, half, whole = (in_a_process_of_its_own(one.make(one.most // share)) for share in (4, 2, 1))
    bent = [
        f"{math.log2((whole[part] - half[part]) / (half[part] - quarter[part])):.1f}"
        if whole[part] - half[part] > NOISE and half[part] > quarter[part]
        else " – "
        for part in (0, 1)
    ]
    print(
        f"{name:22} {one.most:6,}  worked out {whole[0]:6.1f} s ({bent[0]})  page {whole[1]:6.1f} s ({bent[1]})  "
        f"{whole[2]:4.0f} MB  {whole[3][:60]}",
        flush=True,
    )
    return whole[0] + whole[1] > SECONDS or whole[2] > MEGABYTES


def taken(text: str) -> bool:
    """Whether a file is read without a word: none of the limits that are met in reading was."""
    with tempfile.TemporaryDirectory(prefix="methodsheets-limits-") as somewhere:
        file, problems = Path(somewhere) / "bush.md", Problems()
        file.write_text(text, "utf-8")
        source = read_source(file, file.parent, problems, file.name)
        if source is not None:
            parse_method(source.text, file.name, problems)
        return not [
            one for one in problems if one.code in ("too-much", "too-many", "too-large", "too-long", "too-deep")
        ]


def joined(names: Sequence[str]) -> str:
    """One file of several dimensions: of each in turn as much as is still taken."""
    whole = FRONT.format("") + CHUCK
    for name in names:
        one, least, most = DIMENSIONS[name], 0, DIMENSIONS[name].most
        while most - least > max(1, one.most // 50):
            middle = (least + most + 1) // 2
            least, most = (middle, most) if taken(_with(whole, one, middle)) else (least, middle)
        whole = _with(whole, one, least)
        print(f"{name:22} {least:6,}  {whole.count(chr(10)):6,} lines  {len(whole):7,} bytes", flush=True)
    return whole


def _with(whole: str, one: Dimension, count: int) -> str:
    made = one.make(count) if count else {}
    return f"{whole}\n\n{made.partition(FRONT[-5:])[2]}" if isinstance(made, str) else whole


def worst(names: list[str]) -> bool:
    """Join the dimensions in the order of what a line of each costs; True where that file is over the mark."""
    cost: dict[str, float] = {}
    for name in names or [name for name, one in DIMENSIONS.items() if isinstance(one.make(1), str)]:
        made = DIMENSIONS[name].make(max(1, DIMENSIONS[name].most // 8))
        worked, page, _, _ = in_a_process_of_its_own(made)
        cost[name] = (worked + page) / (str(made).count("\n") - 10)
    text = joined(sorted(cost, key=lambda name: -cost[name]))
    worked, page, memory, told = in_a_process_of_its_own(text)
    print(f"our part: worked out {worked:.1f} s, page {page:.1f} s, {memory:.0f} MB; {told}", flush=True)
    seconds, whole = build(text)
    print(f"the site: {seconds:.1f} s, {whole:.0f} MB", flush=True)
    return seconds > SECONDS or whole > MEGABYTES


def main(names: list[str]) -> bool:
    """Measure and print; True where something is over the mark."""
    if names[:1] == ["--worst"]:
        return worst(names[1:])
    if names[:1] == ["--site"]:
        over = False
        for name in names[1:] or DIMENSIONS:
            seconds, memory = build(DIMENSIONS[name].make(DIMENSIONS[name].most))
            print(f"{name:22} {seconds:7.1f} s {memory:5.0f} MB", flush=True)
            over |= seconds > SECONDS or memory > MEGABYTES
        return over
    return bool(sum(growth(name) for name in names or DIMENSIONS))  # all of them, not up to the first


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    sys.exit(main(sys.argv[1:]))
