"""What does a workshop file say of a machine?"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from methodsheets.vocabulary.machine import MACHINES, MachineKind

from .dials import Dial
from .fields import Fields, plain_key
from .machines import (
    Feeds,
    HandFeed,
    Machine,
    NoSpindle,
    Speeds,
    StepFeeds,
    StepSpeeds,
    VariableFeeds,
    VariableSpeeds,
    slide_name,
)

# What a machine of each duty takes of the table's cutting speed where it does not say. The tables of feed and depth
# of cut have columns for light, medium and heavy machines of their own, so nothing more is taken off those.
_DUTY: Mapping[str, tuple[float, float, float]] = MappingProxyType(
    {"light": (0.9, 1.0, 1.0), "medium": (1.0, 1.0, 1.0), "heavy": (1.0, 1.0, 1.0)}
)


def read_machine(key: str, fields: Fields) -> Machine:
    """Read one machine; what is wrong goes to the fields' problems."""
    kind = MachineKind(fields.choice("kind", MACHINES, key if key in MACHINES else MachineKind.BENCH))
    duty = fields.choice("duty", _DUTY, "medium")
    speed_factor, feed_factor, depth_factor = _DUTY[duty]
    machine = Machine(
        key=key,
        kind=kind,
        name=fields.text("name") or key,
        words=fields.words("also called"),
        speeds=_speeds(fields, kind),
        feeds=_feeds(fields, "feeds") or HandFeed(),
        cross_feeds=_feeds(fields, "cross feeds"),
        power=fields.amount("power", "W"),
        efficiency=fields.amount("efficiency", "1", 0.8, least=0.05, most=1.0),
        spindle_bore=fields.amount("spindle bore", "mm"),
        swing_over_bed=fields.amount("swing over bed", "mm"),
        swing_over_cross_slide=fields.amount("swing over cross slide", "mm"),
        swing_in_gap=fields.amount("swing in gap", "mm"),
        gap_length=fields.amount("gap length", "mm"),
        between_centres=fields.amount("between centres", "mm"),
        travel={plain_key(axis): length for axis, length in fields.pair_amounts("travel", "mm").items()},
        daylight=fields.amount("daylight", "mm"),
        throat=fields.amount("throat", "mm"),
        kerf=fields.amount("kerf", "mm"),
        force=fields.amount("force", "N"),
        temperature=fields.amount("temperature", "degC"),
        duty=duty,
        speed_factor=fields.amount("speed factor", "1", speed_factor, least=0.05, most=5),
        feed_factor=fields.amount("feed factor", "1", feed_factor, least=0.05, most=5),
        depth_factor=fields.amount("depth factor", "1", depth_factor, least=0.05, most=5),
        dials=_dials(fields),
        leadscrew=fields.amount("leadscrew", "mm"),
        change_wheels=fields.wholes("change wheels"),
        threads=fields.amounts("threads", "mm"),
        spindle_nose=fields.text("spindle nose"),
        spindle_taper=fields.text("spindle taper"),
        tailstock_taper=fields.text("tailstock taper"),
        coolant=fields.flag("coolant"),
        reverse=fields.flag("reverse", default=True),
        setting_minutes=fields.amount("setting", "min"),
        note=fields.text("note"),
    )
    fields.done()
    return machine


def _speeds(fields: Fields, kind: MachineKind) -> Speeds:
    """Steps '130, 220, 390 1/min' or ranges '50 to 800, 150 to 2500 1/min'; a machine that turns must have some."""
    spans = fields.spans("speeds", "1/min")
    step = fields.amount("speed step", "1/min", 10.0, least=0.1)
    if not spans:
        if kind.has_spindle:
            fields.problems.error(
                fields.place,
                f"the {kind} has no spindle speeds",
                "",
                "add `speeds: 200, 400, 800 1/min`",
                code="workshop-speeds",
            )
        return NoSpindle()
    if any(span.low <= 0 for span in spans):
        fields.problems.error(
            fields.place_of("speeds"),
            "a spindle speed of nought or less",
            "spindle speeds lie above 0",
            code="workshop-range",
        )
        return NoSpindle()
    if all(span.high == span.low for span in spans):
        return StepSpeeds(tuple(sorted({span.low for span in spans})))
    ranges = tuple(sorted((span.low, span.high) for span in spans))
    return VariableSpeeds(ranges, step)


def _feeds(fields: Fields, key: str) -> Feeds | None:
    """'hand', steps '0.05, 0.1 mm/rev', a range '10 to 300 mm/min', or None where nothing is said."""
    said = fields.text(key)
    if not said:
        return None
    if said.lower() in {"hand", "by hand"}:
        return HandFeed()
    per = "min" if "/min" in said.replace(" ", "") else "rev"
    spans = fields.spans(key, "mm/min" if per == "min" else "mm")
    if not spans:
        return HandFeed()
    if len(spans) == 1 and spans[0].high > spans[0].low and not spans[0].step:
        return VariableFeeds(spans[0].low, spans[0].high, per)
    steps = sorted({size for span in spans for size in span.sizes() if size > 0})
    return StepFeeds(tuple(steps), per) if steps else HandFeed()


def _dials(fields: Fields) -> dict[str, Dial]:
    """Every dial of the machine, by the slide it moves."""
    found: dict[str, Dial] = {}
    under = fields.nested("dials", "list of dials")
    if under is None:
        return found
    for name in under.names():
        slide = slide_name(name)
        one = under.nested(plain_key(name), "dial")
        if one is not None:  # it is there: the name came from the mapping itself
            found[slide] = read_dial(slide, one)
    return found


def read_dial(slide: str, fields: Fields) -> Dial:
    """One dial."""
    reads = fields.choice(
        "reads", ("distance", "radius", "diameter"), "radius" if slide == "cross slide" else "distance"
    )
    readout = fields.flag("readout")
    inch = fields.unit_of("graduation") in {"in", "inch", "thou"}
    graduation = fields.amount("graduation", "mm", 0.0)
    per_turn = fields.amount("per turn", "mm", 0.0)
    if graduation <= 0:
        fields.problems.error(
            fields.place,
            f"the dial of the {slide} has no graduation",
            "",
            "add `graduation: 0.02 mm`",
            code="workshop-dial",
        )
        graduation = 0.01
    elif per_turn and abs(per_turn / graduation - round(per_turn / graduation)) > 1e-3:
        fields.problems.warning(
            fields.place_of("per turn"), f"one turn of the {slide} is not a whole number of divisions",
            "a dial goes round in whole divisions", "look at `graduation` and `per turn` again", code="workshop-dial",
        )  # fmt: skip
    fields.done()
    return Dial(slide, graduation, reads, per_turn, "in" if inch else "mm", readout)
