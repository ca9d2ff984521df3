"""What does the whole method take: time for one and for the batch, stock to buy, weight, money?"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from methodsheets.formula.measure import Measure
from methodsheets.method.balance import part_balance
from methodsheets.method.job import Job
from methodsheets.method.piece import Piece
from methodsheets.operations import say
from methodsheets.operations.facts import fact, mass_rests, measure_of
from methodsheets.operations.say import MM, dim, plural
from methodsheets.operations.setups import Held
from methodsheets.sheet.model import Fact, Totals
from methodsheets.sheet.spread import CUTTING_TIME, HANDLING_TIME
from methodsheets.sheet.words import Words
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.metal.materials import Material, look_up
from methodsheets.workpiece import mass, skin_left

KERF = 2.0
"""mm: usual saw kerf where the stock line does not say; common practice."""


def totals(job: Job) -> Totals:
    """Add up the method for its batch."""
    operations = job.operations
    times = {piece.name: job.copies(piece) for piece in job.pieces.values()}
    cutting = sum(o.worked.minutes * times[o.piece.name] for o in operations)
    handling = sum(o.handling * times[o.piece.name] for o in operations)
    handling += sum(s.loading * times[s.piece.name] for s in job.setups)
    setting = sum(s.minutes for s in job.setups)
    batch = job.makes
    stock_mass = sum(piece.grams * times[piece.name] for piece in job.pieces.values())
    finished = _finished(job)
    removed = sum(o.volume * times[o.piece.name] for o in operations) / 1000.0
    tools = tuple(dict.fromkeys(o.tool_name for o in operations if o.tool_name))
    balance_facts, balance_tables = part_balance(job)
    return Totals(
        batch=batch,
        cutting_minutes=cutting,
        handling_minutes=handling,
        setting_minutes=setting,
        one_minutes=cutting + handling + setting,
        batch_minutes=batch * (cutting + handling) + setting,
        stock_mass=measure_of(stock_mass, "g", "mass"),
        finished_mass=finished,
        mass_rests=mass_rests(_metals(job)),
        removed_cm3=removed,
        bought=_bought(job),
        price=_price(job, stock_mass),
        machines=tuple(dict.fromkeys(s.held.machine.name for s in job.setups)),
        holdings=tuple(dict.fromkeys(s.held.words for s in job.setups)),
        tools=tools,
        facts=(*_part_facts(job), *balance_facts),
        tables=tuple(balance_tables),
        one_spread=_well_may_be(cutting, handling + setting),
        batch_spread=_well_may_be(batch * cutting, batch * handling + setting),
        machine_minutes=tuple(_by_machine(job, times)),
    )


def _by_machine(job: Job, times: Mapping[str, int]) -> Iterator[tuple[str, float, float]]:
    """(key, minutes to set up once, minutes for each part) of every machine, so that each may have its own price."""
    for key in dict.fromkeys(setup.held.machine.key for setup in job.setups):
        there = [setup for setup in job.setups if setup.held.machine.key == key]
        each = sum(s.loading * times[s.piece.name] for s in there)
        each += sum((o.worked.minutes + o.handling) * times[o.piece.name] for s in there for o in s.operations)
        yield key, sum(s.minutes for s in there), each


def _well_may_be(cutting: float, handling: float) -> tuple[float, float]:
    """(least, most) minutes. One shop is quick or slow in all it does, so that the ends of both kinds add up."""
    (low, high), (least, most) = CUTTING_TIME.of(cutting), HANDLING_TIME.of(handling)
    return low + least, high + most


def _metals(job: Job) -> Iterator[str]:
    """The materials of all pieces, and of what is joined to them."""
    for piece in job.pieces.values():
        yield piece.material.name
        yield from (body.material for body in piece.work.bodies.values())


def _finished(job: Job) -> Measure | None:
    piece = job.pieces.get(job.main)
    return measure_of(mass(piece.work.state).grams, "g", "mass") if piece and piece.work.bodies else None


def _part_facts(job: Job) -> list[Fact]:
    piece = job.pieces.get(job.main)
    if piece is None or not piece.work.bodies:
        return []
    weight = mass(piece.work.state)
    z = float(weight.centre[2])
    facts = [fact("centre_of_mass", "Centre of mass, from end A", z - piece.work.ends.a, "mm", "length")]
    if any(s.held.holding for s in job.setups if s.piece is piece):
        polar = float(weight.about((0.0, 0.0, z))[2, 2])
        facts.append(
            fact(
                "inertia",
                "Inertia about its axis",
                polar / 1000.0,
                "kg*mm^2",
                "inertia",
                rests=mass_rests(_metals(job)),
            )
        )
    if piece.rough:
        facts.append(fact("raw_skin", "Raw skin that stays", skin_left(piece.work.state), "mm^2", "area"))
    return facts


def _bought(job: Job) -> Words:
    parts = [_blank(piece, job.makes * job.copies(piece)) for piece in job.pieces.values()]
    return say.words("; ".join(part for part in parts if part))


def _blank(piece: Piece, count: int) -> str:
    said = piece.said
    if said.kind.row.elsewhere:
        return f"{count} from the method {said.source}"
    sizes = " × ".join(dim(size) for size in (said.sizes[:-1] if said.length else said.sizes))
    sign = "Ø" if said.kind.row.round else ""
    what = f"{piece.material.name} {said.kind} {sign}{sizes}".replace("  ", " ")
    if said.cored:
        what += f" with a hole Ø{dim(said.cored)} through it"
    if not said.length:
        return f"{plural(count, 'blank')} of {what}"
    kerf = KERF if said.kerf is None else said.kerf
    total = count * (said.length + kerf)
    bar = said.bar
    if bar:
        each = math.floor((bar - said.end_allowance + kerf) / (said.length + kerf))
        bars = math.ceil(count / each)
        blanks = f"{each} blanks of {dim(said.length)} {MM} from each, kerf {dim(kerf)}"
        return f"{what}: {plural(bars, 'bar')} of {dim(bar)} {MM}, {blanks}"
    return f"{what}: {dim(math.ceil(total))} {MM} for {count}, each {dim(said.length)} {MM} and {dim(kerf)} {MM} kerf"


def rate_of(rates: Mapping[str, float], wanted: Material) -> float | None:
    """The price of a material [money/kg] under whichever of its names the workshop file gives it; None without one."""
    if wanted.name in rates:
        return rates[wanted.name]
    for name, price in rates.items():
        try:
            if look_up(name).name == wanted.name:
                return price
        except NotInTable:
            continue
    return None


def _price(job: Job, grams: float) -> Measure | None:
    rates = job.workshop.rates
    cost = 0.0
    for piece in job.pieces.values():
        said_price = piece.said.price
        price = said_price if said_price is not None else rate_of(rates.materials, piece.material)
        if price is None:
            return None
        cost += price * piece.grams * job.copies(piece) / 1000.0
    del grams
    text = f"{cost * job.makes:.2f} {rates.currency}".strip()
    return Measure(cost * job.makes, rates.currency or "money", "money", text, text)


def setup_minutes(job: Job, held: Held) -> tuple[float, float]:
    """(minutes to set up once, minutes to load each part)."""
    times, holder = job.workshop.times, held.holder
    setting = (holder.setting_minutes if holder else times.setting) + held.machine.setting_minutes
    loading = holder.loading_minutes if holder else times.load
    if held.holding and held.holding.throw > 1e-6:
        loading += 3.0  # setting an offset to the dial gauge, each part anew: common practice
    return setting, loading
