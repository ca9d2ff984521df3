"""Do the round surfaces run as true to one another as the part asks?

What is asked is a run-out as a dial gauge reads it; what the method gives is the run-out of the holdings that lie
between the two surfaces (`run_out`). At worst all of them point one way: where that is within what is asked, it holds.
Where not even the likely reading is, it does not. Between the two only the gauge knows.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping

from methodsheets.geometry import Axis, Solid
from methodsheets.method.hanging import Link
from methodsheets.method.intention import Round, RunsTrue
from methodsheets.method.job import Asked, Job, Point
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.piece import Piece
from methodsheets.method.run_out import Chain, between_surfaces
from methodsheets.operations.facts import judged
from methodsheets.operations.say import MM, dia, dim
from methodsheets.sheet.model import Check
from methodsheets.vocabulary.holding import Grips
from methodsheets.workpiece.skins import Skin, round_skins
from methodsheets.workshop.holding import Holding

SIZE = 0.02
"""mm on the diameter within which a surface is the one that is meant."""
DUST = 1e-6
LEAST = 0.005
"""mm: less than this nobody sets work true to in a small shop."""


def check_truth(job: Job, asked: Asked, laid: Mapping[str, Point]) -> Iterator[Check]:
    """Every run-out that a part asks for; see `check_qualities` for the parameters."""
    for name, part in ((name, part) for name, part in asked.each() if name in laid):
        piece = job.pieces.get(name) or job.pieces[job.main]
        for wanted in part.trues:
            yield _judge(job, piece, wanted.along(laid[name][2], wanted.line))


def _judge(job: Job, piece: Piece, wanted: RunsTrue) -> Check:
    ours, theirs = surfaces(piece.work.state.without_filler, wanted)
    asked = f"{dia(wanted.on.diameter)} is to run true to {dia(wanted.to.diameter)} within {dim(wanted.within)} {MM}"
    if not ours or not theirs:
        words, remedy = _lacking(wanted, ours), "check `on`, `to`, `from` and `over`"
        return judged("runs-true", False, f"{asked}: {words}", wanted.line, remedy=remedy)
    marks = ([*dict.fromkeys(skin.surface.operation for skin in each)] for each in (ours, theirs))
    chain = between_surfaces(job, piece.name, *marks)
    if chain is None or not chain.known:
        why = chain.words if chain is not None else "not known: nothing that is said ties the one to the other"
        remedy = f"cut both in one holding, or {_unknown(chain)}"
        return judged("runs-true", None, f"{asked}, {why}", wanted.line, remedy=remedy)
    return _verdict(job, wanted, asked, chain)


def _verdict(job: Job, wanted: RunsTrue, asked: str, chain: Chain) -> Check:
    """What is known of the way is held against what is asked."""
    if not chain.links:
        return judged("runs-true", True, f"{asked}: {chain.words}", wanted.line)
    made = f"{chain.words} {MM}"
    if len(chain.links) > 1:
        made += f", at worst {dim(chain.worst)} {MM}, likely {dim(chain.likely)} {MM}"
    if chain.worst <= wanted.within + DUST:
        return judged("runs-true", True, f"{asked}: {made}", wanted.line)
    worst = max(chain.links, key=lambda link: link.run_out or 0.0)
    holds, remedy = None if chain.likely <= wanted.within + DUST else False, _remedy(job, wanted, chain, worst)
    if holds is None:
        return judged("runs-true", None, f"{asked}, not known: {made}", wanted.line,
            remedy=f"put a dial gauge to it before it is taken out; or {remedy}")  # fmt: skip
    setup = _setup(job, worst)
    line = setup.block.place.line if setup else wanted.line
    return judged("runs-true", False, f"{asked}: {made}", line, remedy=remedy)


def _remedy(job: Job, wanted: RunsTrue, chain: Chain, worst: Link) -> str:
    """What the shop has that runs true enough, and to what the work has to be set if it stays where it is."""
    spare, setup = wanted.within - (chain.worst - (worst.run_out or 0.0)), _setup(job, worst)
    ways = ["cut both in one holding"]
    if setup is None:
        return f"{ways[0]} when they are joined, or give hole and shaft of the seat closer limits"
    better = {one.run_out: one.name for one in job.workshop.holdings.values() if _takes(one, setup, spare)}
    if better:
        ways.append(f"hold it otherwise in set-up {setup.number}: {better[max(better)]}, {dim(max(better))} {MM}")
    if spare >= LEAST:
        ways.append(f"set it true there with the dial gauge and write `run-out {spare:.3g} mm`")
    return ", or ".join(ways)


def _takes(holder: Holding, setup: OpenSetup, spare: float) -> bool:
    """Whether a holding of the shop runs true enough and takes the work on what it is gripped on now."""
    machine, held = setup.held.machine, setup.held.holding
    gripped = (held.diameter if held else None) or 0.0
    true = 0 < holder.run_out <= spare + DUST and holder.goes_on(machine.key, machine.kind)
    grips = holder.sort.in_lathe and holder.sort.grips is Grips.OUTSIDE and holder.holds_outside(gripped)
    centres = holder.sort.carrier_turns and holder.sort.grips is Grips.CENTRES
    return true and bool(grips or centres)


def _unknown(chain: Chain | None) -> str:
    """What makes it known."""
    unsaid = chain is not None and any(link.run_out is None and link.setup for link in chain.links)
    return "write `run-out` in that set-up, as the dial gauge reads" if unsaid else "measure it when it is made"


def _setup(job: Job, link: Link) -> OpenSetup | None:
    """The set-up whose holding a link is; None where it is a seat."""
    return next((one for one in job.setups if one.number == link.setup), None)


# ------------------------------------------------------------------------------------------------ which surfaces
def surfaces(solid: Solid, wanted: RunsTrue) -> tuple[list[Skin], list[Skin]]:
    """The surfaces that are to run true and those that they run true to; only such as lie on one axis with another."""
    ours = [skin for skin in round_skins(solid) if _is(skin, wanted.on)]
    theirs = [skin for skin in round_skins(solid) if _is(skin, wanted.to) and skin not in ours]
    pairs = [(one, other) for one, other in itertools.product(ours, theirs) if _on_one_axis(one, other)]
    if not pairs:
        return ours, []
    return [skin for skin in ours if any(skin is one for one, _ in pairs)], [
        skin for skin in theirs if any(skin is other for _, other in pairs)
    ]


def _is(skin: Skin, wanted: Round) -> bool:
    """Whether a surface is of that diameter, and more than half of it lies where it is meant."""
    surface = skin.surface
    if surface.kind != "cylinder" or abs(surface.diameter - wanted.diameter) >= SIZE:
        return False
    if wanted.span is None:
        return True
    way = 1.0 if surface.direction[2] >= 0 else -1.0
    low, high = sorted((skin.low * way, skin.high * way))
    return 2 * (min(high, wanted.span[1]) - max(low, wanted.span[0])) > high - low


def _on_one_axis(one: Skin, other: Skin) -> bool:
    return other.surface.coaxial(Axis.through(one.surface.point, one.surface.direction))


def _lacking(wanted: RunsTrue, ours: list[Skin]) -> str:
    """Which of the surfaces is not there."""
    if not ours:
        return f"no surface of {dia(wanted.on.diameter)} is there{' where it is meant' if wanted.on.span else ''}"
    return f"no {'other ' if wanted.on.diameter == wanted.to.diameter else ''}surface of {dia(wanted.to.diameter)} " \
           "lies on one axis with it"  # fmt: skip
