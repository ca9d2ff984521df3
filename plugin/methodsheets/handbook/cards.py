"""What does a page say of a workshop? Machines, ways of holding and tools in words and numbers ready to print."""

from __future__ import annotations

from collections.abc import Iterator

from methodsheets.formula.display import measure
from methodsheets.formula.measure import Measure
from methodsheets.reading.problem import Problem
from methodsheets.workshop.dividing import RotaryTable
from methodsheets.workshop.holding import Holding
from methodsheets.workshop.machines import HandFeed, Machine, StepFeeds, StepSpeeds, VariableFeeds, VariableSpeeds
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.tools import Tool

from .shop_cards import DividingCard, HoldingCard, MachineCard, ToolCard, WorkshopCard

Facts = Iterator[tuple[str, Measure | str]]


def card_of(workshop: Workshop, problems: tuple[Problem, ...] = ()) -> WorkshopCard:
    """The card of a workshop."""
    return WorkshopCard(
        key=workshop.key,
        name=workshop.name,
        summary=workshop.summary,
        units=workshop.units,
        path=workshop.path,
        machines=tuple(_machine(one) for one in workshop.machines.values()),
        holdings=tuple(_holding(one) for one in workshop.holdings.values()),
        tools=tuple(_tool(one) for one in workshop.tools.values()),
        dividing=tuple(_dividing(one) for one in workshop.rotary_tables.values()),
        currency=workshop.rates.currency,
        hour=workshop.rates.hour,
        machine_hours=tuple(workshop.rates.machines.items()),
        problems=problems,
    )


def _lengths(*pairs: tuple[str, float]) -> Facts:
    """Those lengths that are said."""
    for label, value in pairs:
        if value:
            yield label, measure(value, "length")


def _machine(machine: Machine) -> MachineCard:
    speeds: tuple[float, ...] = ()
    ranges: tuple[tuple[float, float], ...] = ()
    if isinstance(machine.speeds, StepSpeeds):
        speeds = machine.speeds.steps
    elif isinstance(machine.speeds, VariableSpeeds):
        ranges = machine.speeds.ranges
    return MachineCard(
        key=machine.key,
        kind=machine.kind,
        name=machine.name,
        facts=tuple(_machine_facts(machine)),
        speeds=speeds,
        speed_ranges=ranges,
        feeds=_feeds(machine),
        note=machine.note,
    )


def _machine_facts(machine: Machine) -> Facts:
    if machine.power:
        yield "Power", measure(machine.power, "power")
        yield "Power that reaches the tool", measure(machine.power_at_tool, "power")
    yield from _lengths(
        ("Spindle bore", machine.spindle_bore),
        ("Swing over the bed", machine.swing_over_bed),
        ("Swing over the cross slide", machine.swing_over_cross_slide),
        ("Between centres", machine.between_centres),
        ("Leadscrew pitch", machine.leadscrew),
        ("Spindle nose to table", machine.daylight),
        ("Throat", machine.throat),
        ("Width of its cut", machine.kerf),
    )
    for axis, length in machine.travel.items():
        yield f"Travel, {axis}", measure(length, "length")
    if machine.force:
        yield "Force", measure(machine.force, "force")
    if machine.temperature:
        yield "Reaches", measure(machine.temperature, "temperature")
    for label, words in (
        ("Spindle nose", machine.spindle_nose),
        ("Spindle taper", machine.spindle_taper),
        ("Tailstock taper", machine.tailstock_taper),
    ):
        if words:
            yield label, words
    if machine.change_wheels:
        yield "Change wheels", ", ".join(str(teeth) for teeth in machine.change_wheels)
    for slide, dial in machine.dials.items():
        yield f"Dial, {slide}", dial.words.removeprefix(slide).strip()


def _feeds(machine: Machine) -> str:
    """'0.05, 0.1, 0.2 mm a turn', '15 to 400 mm/min', 'by hand'."""
    feeds = machine.feeds
    if isinstance(feeds, HandFeed):
        return "by hand" if machine.speeds.high else ""
    unit = "mm/min" if feeds.per == "min" else "mm a turn"
    if isinstance(feeds, StepFeeds):
        return f"{', '.join(f'{step:g}' for step in feeds.steps)}\u202f{unit}"
    assert isinstance(feeds, VariableFeeds)
    return f"{feeds.low:g} to {feeds.high:g}\u202f{unit}"


def _holding(holding: Holding) -> HoldingCard:
    return HoldingCard(holding.key, holding.kind, holding.name, tuple(_holding_facts(holding)))


def _holding_facts(holding: Holding) -> Facts:
    for label, bounds in (("Holds from outside", holding.outside), ("Holds in a bore", holding.inside)):
        if bounds is not None:
            low, high = measure(bounds.low, "length"), measure(bounds.high, "length")
            yield f"{label}, from", low
            yield f"{label}, to", high
    if holding.sizes:
        yield "Sizes", f"{', '.join(f'{size:g}' for size in holding.sizes)}\u202fmm"
    if holding.run_out:
        yield "Run-out", measure(holding.run_out, "length")
    if holding.collet_class:
        yield "Class of the collets", f"{holding.collet_class}"
    if holding.run_out_note:
        yield "Run-out holds", holding.run_out_note
    yield from _lengths(
        ("Longest grip", holding.jaw_length),
        ("Opens to", holding.opening),
        ("Jaw height", holding.jaw_height),
        ("Jaw width", holding.jaw_width),
        ("Bore", holding.bore),
        ("Farthest off the axis", holding.throw),
        ("Height", holding.height),
    )
    if holding.limit_speed:
        yield "Speed limit", measure(holding.limit_speed, "spindle_speed")
    yield "Setting up", measure(holding.setting_minutes, "time")


def _tool(tool: Tool) -> ToolCard:
    sizes = tuple((one.label or f"{one.size:g}\u202fmm", one.size) for one in tool.sizes)
    return ToolCard(tool.key, tool.kind, tool.name, tool.material, tuple(_tool_facts(tool)), sizes)


def _tool_facts(tool: Tool) -> Facts:
    yield from _lengths(
        ("Nose radius", tool.nose_radius),
        ("Diameter", tool.diameter),
        ("Width", tool.width),
        ("Reach", tool.reach),
        ("Shank", tool.shank),
        ("Smallest bore", tool.min_bore),
        ("Flute length", tool.flute_length),
    )
    if tool.teeth:
        yield "Teeth", measure(tool.teeth, "count")
    if tool.point_angle:
        yield "Point angle", measure(tool.point_angle, "angle")
    if tool.fit:
        yield "Makes", tool.fit


def _dividing(table: RotaryTable) -> DividingCard:
    return DividingCard(table.key, table.name, table.ratio, table.division, table.vernier, table.plates)
