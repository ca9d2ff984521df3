"""How is one operation carried out: its words into a plan, the plan into a cut, the cut into facts and checks?"""

from __future__ import annotations

import re

from methodsheets.formula.errors import FormulaError
from methodsheets.geometry import GeometryError
from methodsheets.method.job import DoneOperation, DoneSetup, Job
from methodsheets.method.limits import read_limits
from methodsheets.method.model import Caution, Check
from methodsheets.method.proof import check_cut, check_reach
from methodsheets.operations.cautions import caution
from methodsheets.operations.cutting import Wishes, work_out
from methodsheets.operations.plan import Plan
from methodsheets.operations.station import Station
from methodsheets.operations.verb import Verb
from methodsheets.operations.vocabulary import entry_text, entry_texts, find_verb, verb_in_frame
from methodsheets.operations.words import read_clauses
from methodsheets.reading.method_file import Block
from methodsheets.reading.problem import MethodError, did_you_mean
from methodsheets.reading.slug import slugify
from methodsheets.workpiece import Cut, mass, towards
from methodsheets.workpiece.bodies import Body
from methodsheets.workshop.tools import Tool


def carry_out(job: Job, setup: DoneSetup, block: Block) -> DoneOperation | None:
    """Do one operation on the set-up's piece; None (and a problem) where its words are wrong."""
    try:
        return _carry_out(job, setup, block)
    except MethodError as error:
        job.problems.extend([error.problem])
    except (GeometryError, ValueError) as error:
        job.problems.error(
            block.place,
            f"the cut cannot be made: {error}",
            "its sizes must make a solid",
            "check the sizes of this operation",
            code="no-solid",
        )
    return None


def _carry_out(job: Job, setup: DoneSetup, block: Block) -> DoneOperation:
    name, line = find_verb(block)
    station = _station(job, setup, name)
    meaning = verb_in_frame(name, station.frame, line if line.value else type(line)("", block.place))
    number = 10 * (len(job.operations) + 1)
    station.operation = f"{number}"
    wanted = entry_text(block, "tool")
    station.tool = _named_tool(job, setup, wanted, meaning, 0.0) if wanted else None
    said = read_clauses(line, meaning.first, meaning.clauses, job.reader, name)
    before = setup.piece.work.state
    plan = meaning.make(station, said)
    tool = _tool(job, setup, plan, meaning, wanted)
    title = _title(block, plan)
    verb_line = line.place.line if line.value else block.place.line
    done = DoneOperation(
        number,
        f"op-{number}-{slugify(name)}",
        title,
        block,
        verb_line,
        name,
        plan,
        station,
        setup.piece,
        before,
        before,
        tool=tool,
        tool_name=_tool_name(tool, plan),
    )
    done.checks += plan.checks
    done.facts += plan.facts
    done.tables += plan.tables
    _cut(job, setup, done)
    done.worked = work_out(
        plan, setup.held.machine, tool, setup.piece.material, _wishes(job, block), verb_line, setup.ceiling
    )
    done.facts = [*done.worked.facts, *done.facts]
    done.checks += done.worked.checks
    done.limits = [*plan.limits, *read_limits(job, entry_texts(block, "check"))]
    done.notes = [job.reader.words(text) for text in entry_texts(block, "note")]
    done.handling = _handling(job, block, plan, setup)
    check_cut(done)
    check_reach(job, setup, done)
    _cautions(setup, done, block)
    done.grams_after = mass(done.after).grams
    return done


def _station(job: Job, setup: DoneSetup, verb: str) -> Station:
    held = setup.held
    stick = held.stick_out
    if held.holding and held.grip and setup.operations:
        # The grip stays where it is while the face moves: the stick-out shrinks by what was faced off.
        frame, first = held.holding.frame(setup.piece.work.ends), held.holding.frame(setup.before.ends)
        stick = frame.s_of(first.z_of(held.grip[0]))
    return Station(
        setup.piece.work, job.workshop, held.machine, held.holder, held.holding, held.pose, stick, setup.supported, None,
        {name: piece.work for name, piece in job.pieces.items()}, lambda other: _elsewhere(job, other), verb=verb,
    )  # fmt: skip


def _elsewhere(job: Job, name: str):  # type: ignore[no-untyped-def]
    found = job.library(name)
    return found.live.pieces[found.live.main].work if found and found.live.main else None


def _title(block: Block, plan: Plan) -> str:
    own = entry_text(block, "title")
    if own:
        return own.value
    if block.heading and block.heading_is_fresh:
        return block.heading.text
    return plan.words


# ------------------------------------------------------------------------------------------------ tools
def _named_tool(job: Job, setup: DoneSetup, wanted, meaning: Verb, size: float) -> Tool | None:  # type: ignore[no-untyped-def]
    found = job.workshop.tool(wanted.value, size, machine=setup.held.machine, verb=meaning.name)
    if found is None:
        raise MethodError(
            wanted.place,
            f"this workshop has no such tool (got `{wanted.value}`)",
            "tools are listed in the workshop's file",
            did_you_mean(wanted.value, job.workshop.known_tools()),
            code="unknown-tool",
        )
    return found


def _tool(job: Job, setup: DoneSetup, plan: Plan, meaning: Verb, wanted) -> Tool | None:  # type: ignore[no-untyped-def]
    size = plan.tool_size or (plan.cut.diameter if plan.cut.process == "mill" else 0.0)
    if wanted:
        return _named_tool(job, setup, wanted, meaning, size)
    machine = setup.held.machine
    found = job.workshop.tool(plan.tool_words, size, machine=machine, verb=meaning.name) if plan.tool_words else None
    return found or job.workshop.default_tool(meaning.name, size, machine=machine)


def _tool_name(tool: Tool | None, plan: Plan) -> str:
    if tool:
        return tool.name
    return plan.tool_words


# ------------------------------------------------------------------------------------------------ metal
def _cut(job: Job, setup: DoneSetup, done: DoneOperation) -> None:
    work, plan = setup.piece.work, done.plan
    if plan.cutters:
        ends = None
        if plan.face_moves and done.station.holding:
            ends = done.station.turning.faced(plan.face_moves)
        done.cut = work.cut(plan.cutters, done.station.operation, splits=plan.splits, ends=ends)
        if plan.face_moves and setup.held.pose:
            _lower(setup, plan.face_moves)
        if plan.splits:
            _keep(setup, done)
    if plan.marks:
        work.mark(plan.marks, _mark_kind(done.verb), done.station.operation)
    if plan.join:
        joined = Body(plan.join.solid, plan.join.material, plan.join.density)
        work.join(plan.join.name, joined, search=1.0)
        work.state = work.state.changed(ends=_grown(work))
    if plan.supports:
        setup.supported = "" if plan.supports == "none" else plan.supports
    done.after = work.state


def _grown(work):  # type: ignore[no-untyped-def]
    """The ends of the work stay its own: what is pressed on does not move the datum."""
    return work.ends


def _lower(setup: DoneSetup, off: float) -> None:
    from dataclasses import replace

    assert setup.held.pose is not None
    pose = setup.held.pose.faced(off)
    setup.held = replace(setup.held, pose=pose)
    work = setup.piece.work
    if setup.held.pose.up in ("top", "bottom"):
        low, high = work.state.bounds
        work.set_end("A", float(low[2]))
        work.set_end("B", float(high[2]))


def _mark_kind(verb: str) -> str:
    return {"knurl": "knurl", "thread": "thread", "tap": "thread"}.get(verb, "scribed")  # type: ignore[return-value]


def _keep(setup: DoneSetup, done: DoneOperation) -> None:
    """Of a part that was parted or sawn, keep the piece that the plan names; the rest is stub."""
    work, plan, station = setup.piece.work, done.plan, done.station
    if plan.keeps == "both":
        return
    stubs = []
    for name in list(done.cut.removed if done.cut else ()):
        if name not in work.bodies:
            continue
        if plan.keeps in ("front", "back") and station.holding:
            z = station.turning.z_of(plan.sketch.start)
            towards_us = station.holding.out
            other = "B" if towards_us == "A" else "A"
            chooser = towards(towards_us if plan.keeps == "front" else other, z)  # type: ignore[arg-type]
        elif plan.keeps in ("front", "back"):
            up = setup.held.pose.frame.rotation[:, 2]  # type: ignore[union-attr]
            level = float(up @ setup.held.pose.to_work(0, 0, plan.sketch.start))  # type: ignore[union-attr]
            front = plan.keeps == "front"

            def chooser(piece, up=up, level=level, front=front):  # type: ignore[no-untyped-def]
                low, high = piece.bounds
                return (float(up @ (low + high) / 2) > level) == front
        else:
            normal = station.turning.normal(plan.sketch.angles[0] + 90.0)
            left = plan.keeps == "left"

            def chooser(piece, normal=normal, left=left):  # type: ignore[no-untyped-def]
                low, high = piece.bounds
                middle = (low + high) / 2
                return (float(middle @ normal) > 0) == left

        kept = work.keep(chooser, name)
        stubs += list(kept.scrap.get(name, ()))
    done.stub = tuple(stubs)


# ------------------------------------------------------------------------------------------------ the author's wishes
def _wishes(job: Job, block: Block) -> Wishes:
    speed, feed, depth, time = (entry_text(block, key) for key in ("speed", "feed", "depth", "time"))
    cutting = spindle = None
    if speed:
        value = job.reader.value(speed)
        try:
            spindle = value.to("1/min", "`speed`")
        except FormulaError:
            cutting = job.reader._in(speed, "m/min", "`speed`")
    return Wishes(
        cutting, spindle, job.reader.length(feed) if feed else None, job.reader.length(depth) if depth else None,
        job.reader.minutes(time) if time else None,
    )  # fmt: skip


def _handling(job: Job, block: Block, plan: Plan, setup: DoneSetup) -> float:
    own = entry_text(block, "handling")
    if own:
        return job.reader.minutes(own)
    times = job.workshop.times
    change = (
        times.tool_change if plan.cut.process and setup.held.machine.kind not in ("bench", "press", "hearth") else 0.0
    )
    measuring = times.measure * len(entry_texts(block, "check"))
    return change + plan.handling + measuring


def _cautions(setup: DoneSetup, done: DoneOperation, block: Block) -> None:
    keys = list(done.plan.cautions)
    material = setup.piece.material.group.lower()
    if done.plan.cut.process and done.volume:
        if "iron" in material:
            keys.append("iron-dust")
        if "titanium" in material or "magnesium" in material:
            keys.append("swarf-fire")
        if done.verb == "turn" and ("stainless" in material or "aluminium" in material or "plastic" in material):
            keys.append("long-swarf")
    if block.entry("with"):
        keys.append("fluids")
    done.cautions = [caution(key) for key in dict.fromkeys(keys)]
    done.cautions += [Caution("own", text.value) for text in entry_texts(block, "caution")]
    fluid = entry_text(block, "with")
    if fluid:
        done.notes.append(f"Cutting fluid: {fluid.value}")


def operation_title(words: str) -> str:
    """A heading's text without Markdown marks."""
    return re.sub(r"[*_`]", "", words)


__all__ = ["Check", "Cut", "carry_out", "operation_title"]
