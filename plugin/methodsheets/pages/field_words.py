"""What is a field of a result called in the workshop? `interference_max` is 'interference, greatest'."""

from __future__ import annotations

import re

from . import document as d

_ENDINGS = {
    "max": "greatest", "min": "least", "high": "high", "low": "low", "likely": "likely", "worst": "at worst",
    "best": "best",
}  # fmt: skip

_WORDS = {
    "bore_closes": "bore closes by",
    "core": "core diameter",
    "effective": "effective diameter",
    "effective_max": "effective diameter, greatest",
    "effective_min": "effective diameter, least",
    "engagement_british": "engagement, British definition",
    "engagement_inch": "engagement, inch definition",
    "engagement_iso": "engagement, ISO definition",
    "error_per_25": "error in 25 mm",
    "hub_grows": "hub grows by",
    "hub_hoop_max": "pull round the hub, greatest",
    "hub_hoop_min": "pull round the hub, least",
    "hub_margin": "margin of the hub",
    "hub_stress_max": "stress in the hub, greatest",
    "kienzle": "specific force",
    "least_wire": "least wire",
    "likely_greatest": "greatest, likely",
    "likely_least": "least, likely",
    "major": "outside diameter",
    "major_max": "outside diameter, greatest",
    "major_min": "outside diameter, least",
    "minor": "minor diameter of the hole",
    "minor_max": "minor diameter, greatest",
    "minor_min": "minor diameter, least",
    "moves_x": "moves along x",
    "moves_y": "moves along y",
    "over_best_wire": "over the best wires",
    "over": "over the wires",
    "poisson": "Poisson’s ratio",
    "rate": "taper on the diameter",
    "roughness_loss": "lost to roughness",
    "shaft_hoop_max": "push round the shaft, greatest",
    "shaft_margin": "margin of the shaft",
    "shaft_stress_max": "stress in the shaft, greatest",
    "tap_drill": "tapping drill",
    "tap_drill_inch": "tapping drill, inch sizes",
    "tap_drill_name": "tapping drill, by name",
    "tpi": "threads to the inch",
    "worst_greatest": "greatest, at worst",
    "worst_least": "least, at worst",
}
"""Names that the rule below would not put well."""

_TYPED = re.compile(r"\b[a-z]+(?:_[a-z0-9]+)+\b")


def field_words(name: str) -> str:
    """The words for a field of a result: 'interference_max' → 'interference, greatest'."""
    if name in _WORDS:
        return _WORDS[name]
    stem, _, ending = name.rpartition("_")
    if stem and ending in _ENDINGS:
        return f"{stem.replace('_', ' ')}, {_ENDINGS[ending]}"
    return name.replace("_", " ")


def with_names(words: str) -> d.Inline:
    """Words in which names of the formula language, such as `hub_roughness`, are shown as they are typed."""
    pieces: list[d.Text | d.Code] = []
    at = 0
    for match in _TYPED.finditer(words):
        if match.start() > at:
            pieces.append(d.Text(words[at : match.start()]))
        pieces.append(d.Code(match.group(0)))
        at = match.end()
    if at < len(words):
        pieces.append(d.Text(words[at:]))
    return tuple(pieces)
