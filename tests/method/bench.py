"""Work a method out in a test: from a text, for one of the demo workshops."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from methodsheets.method.evaluate import evaluate_method
from methodsheets.method.job import Evaluated
from methodsheets.reading.method_file import parse_method
from methodsheets.reading.problem import Problems
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.reader import read_workshop

ROOT = Path(__file__).parents[2] / "methods"


@functools.cache
def workshop(key: str = "osierbank-small") -> Workshop:
    problems = Problems()
    found = read_workshop(ROOT / "workshops" / f"{key}.yml", ROOT, problems)
    assert found is not None
    assert not problems.found
    return found


def demo(slug: str) -> str:
    return (ROOT / f"{slug}.md").read_text(encoding="utf-8")


def work_out(
    text: str, key: str = "osierbank-small", slug: str = "sample", more: Mapping[str, str] = MappingProxyType({})
) -> Evaluated:
    """Evaluate a text; other methods are those of the demo, and `more` by name."""
    if not more and (ROOT / f"{slug}.md").exists() and text == demo(slug):
        return _of_the_demo(key, slug)
    return _evaluated(text, key, slug, more)


@functools.lru_cache(maxsize=48)
def _of_the_demo(key: str, slug: str) -> Evaluated:
    """A method of the demo, evaluated once a run; nobody changes what comes out."""
    return _evaluated(demo(slug), key, slug, {})


def _evaluated(text: str, key: str, slug: str, more: Mapping[str, str]) -> Evaluated:
    problems = Problems()
    file = parse_method(text, f"{slug}.md", problems)
    assert file is not None, [str(p) for p in problems]

    def library(name: str) -> Evaluated | None:
        if name in more:
            return work_out(more[name], key, name)
        path = ROOT / f"{name}.md"
        return work_out(path.read_text(encoding="utf-8"), key, name) if path.exists() else None

    return evaluate_method(file, workshop(key), library, problems)


def method(blocks: str, *, stock: str = "round 40 mm x 60 mm", material: str = "EN1A", front: str = "") -> str:
    """A method file round some blocks written as `setup: …` and `op: …` paragraphs."""
    return (
        f"---\nmethod: Sample\nmaterial: {material}\nstock: {stock}\nworkshop: osierbank-small\n{front}---\n\n{blocks}"
    )


def block(kind: str, *lines: str) -> str:
    """One fenced block."""
    return "```" + kind + "\n" + "\n".join(lines) + "\n```\n\n"


THREE_JAW = block("setup", "machine: lathe", "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")
