"""In which part of the reference chapter does a subject stand, and what is it called there?"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

PARTS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "Cutting": (
            "cutting",
            "cutting-data",
            "cutting-force",
            "cutting-power",
            "drilling-force",
            "milling-force",
            "deepest-cut",
            "chips",
            "finish",
            "tool-life",
            "removal",
            "cutting-time",
            "milling-time",
        ),
        "Holes and threads": (
            "drilling",
            "drills",
            "hole-making",
            "threads",
            "tapping",
            "thread-limits",
            "thread-measuring",
            "screw-cutting",
        ),
        "Fits": (
            "iso286",
            "fits",
            "recommended-fits",
            "general-tolerances",
            "made-to-measured",
            "press-fits",
            "shrink-fits",
            "lame",
        ),
        "Joining": ("joining", "brazing", "screws"),
        "Dividing and angles": (
            "rotary-table",
            "dividing",
            "compound-indexing",
            "pitch-circles",
            "angles",
            "tapers",
            "taper-measuring",
        ),
        "Holding and bending": ("holding", "slender-work", "stiffness", "beams", "tool-overhang", "stacks"),
        "Balance and metal": ("balance", "centroids", "materials", "stock"),
    }
)
"""Parts of the chapter with their subjects, in the order in which one looks for them."""

TITLES: Mapping[str, str] = MappingProxyType(
    {
        "iso286": "ISO 286 limits",
        "lame": "Thick rings",
        "chips": "Thickness of chips",
        "cutting": "Speeds and feeds",
        "cutting-data": "Recommended speeds",
        "removal": "Metal removed",
        "finish": "Surface finish",
        "stacks": "Chains of sizes",
        "made-to-measured": "Made to a measured part",
        "slender-work": "Slender work",
        "stock": "Stock, weight, price",
        "stiffness": "Bending of work",
        "tool-overhang": "Bending of tools",
        "beams": "Bending of beams",
    }
)
"""Subjects whose name is not the word that a machinist looks for."""
REST = "More"


def subject_title(subject: str) -> str:
    """'press-fits' gives 'Press fits'."""
    return TITLES.get(subject, subject.replace("-", " ").capitalize())


def by_part(subjects: Iterable[str]) -> dict[str, list[str]]:
    """The subjects that there are, by the part in which they stand; a subject that nobody has placed stands last."""
    there = list(subjects)
    placed = {part: [one for one in wanted if one in there] for part, wanted in PARTS.items()}
    rest = [one for one in there if not any(one in found for found in placed.values())]
    return {part: found for part, found in (*placed.items(), (REST, rest)) if found}
