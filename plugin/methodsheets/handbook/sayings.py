"""How is each saying shown? A small method for each, worked out and drawn; the page of them; the writing guide."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from methodsheets.drawings.drawing_room import draw_last, draw_work
from methodsheets.method.evaluate import evaluate_method
from methodsheets.method.job import Evaluated
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import Problems
from methodsheets.vocabulary.saying import SAYINGS, Saying
from methodsheets.workshop.model import Workshop

FOLDER = "assets/saying"
"""Folder of the pictures, below the guide."""
HEAD = """---
title: How do I say …
---

# How do I say …

What you want to do, in the words of the trade, and the line to write in an `op` block for it. Each line was worked
out in the small shop of the demo club and drawn by the same rules as every method.
[What each verb takes](verbs.md) has all clauses, [The first lines](guide.md) a whole method for each family of jobs.

<!-- made by `methodsheets sayings` -->

"""


def method_of(saying: Saying, workshop: str) -> str:
    """The method in which a saying stands: its set-up, what comes before, the line itself."""
    machine, hold = saying.set_up
    other, (other_machine, other_hold) = saying.other, saying.other.set_up
    first = _block("setup", f"machine: {other_machine}", f"piece: {other.name}", f"stock: {other.stock}",
                   f"hold: {other_hold}") + _block("op", other.op)  # fmt: skip
    own = (f"machine: {machine}", f"hold: {hold}")
    piece = ("piece: main", f"stock: {saying.stock}") if saying.joins else ()
    keys = {"method": saying.wants, "material": saying.material, "stock": saying.stock, "workshop": workshop}
    front = "---\n" + "".join(f"{key}: {value}\n" for key, value in keys.items()) + "---\n\n"
    before = "".join(_block("op", one) for one in saying.before)
    again = ""
    if saying.last is not None:
        machine, hold = saying.last
        again = _block("setup", f"machine: {machine}", f"hold: {hold}", *piece[:1])
    body = _block("setup", *own, *piece) + before + again + _block("op", saying.line)
    return front + (first if saying.joins else "") + body


def worked_out(saying: Saying, workshop: Workshop) -> Evaluated:
    """The method of a saying, worked out for a workshop."""
    problems = Problems()
    file = parse_method(method_of(saying, workshop.key), f"{saying.key}.md", problems)
    assert file is not None  # the text is ours
    return evaluate_method(file, workshop, lambda _name: None, problems)


def pictures(workshop: Workshop) -> Iterator[tuple[Saying, str]]:
    """Every saying with its picture as an SVG file: its set-up, or what it does to the work."""
    for saying in SAYINGS:
        yield saying, draw_last(worked_out(saying, workshop))


def sayings_page() -> str:
    """The page of all sayings, in Markdown; it needs no drawing."""
    return HEAD + "\n".join(_family(family) for family in dict.fromkeys(one.family for one in SAYINGS))


def _family(family: str) -> str:
    parts = [f"## {family}\n"]
    for saying in (one for one in SAYINGS if one.family == family):
        picture = f"![{saying.wants}]({FOLDER}/{saying.key}.svg)"
        before = f"behind `{'`, `'.join(saying.before)}`; " if saying.before else ""
        hold = f"{before}held: `{saying.held[1]}`"
        other = saying.other
        hold += f"; the {other.name} is `{other.stock}`, behind `{other.op}`" if saying.joins else ""
        material = f", {saying.material}" if saying.material != "EN1A" else ""
        title = saying.wants[0].upper() + saying.wants[1:]
        parts.append(f"### {title}\n\n```text\n{saying.line}\n```\n\n{hold}{material}\n\n{picture}\n")
    return "\n".join(parts)


def _block(kind: str, *lines: str) -> str:
    return "```" + kind + "\n" + "\n".join(lines) + "\n```\n\n"


GUIDE_FOLDER = "assets/guide"
"""Folder of the pictures of the guide's methods."""
GUIDE = {
    "What a part asks for": ("knurled-drift", "a `part` block with a knurl, a finish and a hardness, proved"),
    "Turning, facing and boring": ("lapped-bush", "face, centre, drill, bore, lap to size, part off"),
    "Threads": ("quick-screw", "two starts, a run-out groove, a chamfer in front"),
    "Pipe threads": ("pipe-nipple", "a cone turned first, then the taper thread on it"),
    "Round ends and heat": ("ball-pin", "a ball end by coordinates, hardened and tempered by colour"),
    "Grooves and keyways in a bore": ("ring-collar", "a pilot first, a groove for a ring, a keyway slotted by hand"),
    "Gears": ("gear-wheel", "blank by the module, teeth divided on the rotary table, axis level"),
    "Cams": ("valve-cam", "by dwell and lift, a line of the table for every setting"),
    "Pieces that are bored as one": (
        "split-bearing",
        "two halves sweated together, bored on their joint, warmed apart",
    ),
    "Ends rounded by hand": ("rod-link", "two hardened buttons in the hole guide the file"),
    "Rivets": ("riveted-hinge", "two pieces drilled alike, laid together and riveted"),
    "Taper pipe threads in a hole": ("tapped-boss", "its drill, its gauge, and how deep"),
    "Racks": ("toothed-rack", "stepping along by the pitch"),
    "Plates and plastics": ("grid-plate", "a grid of holes, and what delrin asks for"),
    "Milling a block": ("vice-block", "face, step, slot, drill and tap in the vice, nothing said of the grip"),
    "Square work and castings in the four-jaw": ("bearing-housing", "a block that turns, bored about a place"),
    "On the faceplate": ("eccentric-strap", "a bore about a place, clamps, and what the balance asks for"),
    "On a mandrel between centres": ("bush-on-taper-mandrel", "bored first, then turned about its bore"),
    "Long work": ("long-shaft", "centred, then held up by the fixed steady"),
    "Bolt circles on the rotary table": ("bolt-circle-flange", "the axis upright, holes divided"),
    "Dividing with the axis level": ("splined-shaft", "keyways between chuck and tailstock"),
    "Squares and hexagons in a collet block": ("squared-pin-in-block", "its faces divide"),
    "Side outlines": ("lever-arm", "an arm milled round two centres with the flanks that touch both"),
    "Holes and pins across a shaft": ("spoked-hub", "three equal pieces pressed in at once"),
    "Two pieces, pressed off the axis": ("two-web-shaft", "a pin through two webs, each piece with its own part"),
    "Securing a joint": ("welded-web", "pressed on, then welded at its mouth"),
    "A support left in to the last": ("sieve-shaft", "the core between two webs sawn out, the pin kept"),
    "Springs": ("wound-spring", "mandrel, rate, and what is not known"),
}
"""Family of jobs → a method of the tests' own, and what it shows."""
GUIDE_HEAD = """---
title: The first lines
---

# The first lines

A whole method for each family of jobs. Each is worked out and checked with every change of the program, so what stands
here works: copy one, change a number, and watch the page. [Write a method](writing.md) has the rules,
[How do I say …](how-do-i-say.md) a line for every job.

<!-- made by `methodsheets sayings` -->

"""


def guide_pictures(workshop: Workshop, texts: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """Every method of the guide by name, with a picture of its finished work as an SVG file."""
    for name in dict.fromkeys(name for name, _ in GUIDE.values()):
        problems = Problems()
        file = parse_method(texts[name], f"{name}.md", problems)
        assert file is not None  # the text is ours
        yield name, draw_work(evaluate_method(file, workshop, lambda _name: None, problems))


def guide_page(texts: Mapping[str, str]) -> str:
    """The writing guide, in Markdown, from the text of each of its methods by name."""
    parts = []
    for family, (name, shows) in GUIDE.items():
        fenced, title = texts[name].strip(), f"{shows[0].upper()}{shows[1:]}."
        picture = f"![{family}: what the method makes]({GUIDE_FOLDER}/{name}.svg)"
        parts.append(f"## {family}\n\n{title}\n\n{picture}\n\n`````text\n{fenced}\n`````\n")
    return GUIDE_HEAD + "\n".join(parts)
