"""How is one operation carried out: its words into a plan, the plan into a cut, the cut into facts and checks?"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from methodsheets.formula.errors import FormulaError
from methodsheets.geometry import GeometryError
from methodsheets.method.checks.all_checks import check_operation
from methodsheets.method.checks.block_in_lathe import turning_block
from methodsheets.method.checks.carriers import check_attitude
from methodsheets.method.checks.wishes import check_wishes
from methodsheets.method.done import CutOperation, SaidOperation, WorkedOperation, planned, worked_out
from methodsheets.method.job import Job
from methodsheets.method.limits import read_limits
from methodsheets.method.metal import cut_metal, few_states
from methodsheets.method.not_drawn import depth_slide, not_drawn
from methodsheets.method.open_setup import OpenSetup
from methodsheets.method.proof import check_cut, check_reach
from methodsheets.method.rig import rig_round
from methodsheets.method.spinning import balance_after, turning_bound
from methodsheets.method.stages import stage
from methodsheets.operations import say
from methodsheets.operations.aiming import take_aim
from methodsheets.operations.cautions import caution
from methodsheets.operations.cutting import Wishes, work_out
from methodsheets.operations.plan import Plan
from methodsheets.operations.readings import readings
from methodsheets.operations.said_apart import said_apart
from methodsheets.operations.say import joined
from methodsheets.operations.sizes import sizes_are_sizes
from methodsheets.operations.station import Station
from methodsheets.operations.verb import Verb
from methodsheets.operations.vocabulary import entry_text, entry_texts, find_verb, verb_in_frame
from methodsheets.operations.words import read_clauses
from methodsheets.reading.method_file import Block
from methodsheets.reading.mishap import mishap
from methodsheets.reading.problem import MethodError, did_you_mean
from methodsheets.reading.slug import slugify
from methodsheets.reading.text import Text
from methodsheets.sheet.model import Caution
from methodsheets.sheet.words import Words
from methodsheets.trade.form.errors import NotInTable
from methodsheets.vocabulary.process import Load
from methodsheets.workpiece import Workpiece, mass
from methodsheets.workshop.tools import Tool
from methodsheets.workshop.words import plain_words

LONG_SWARF = ("stainless", "aluminium", "thermoplastic")
"""Groups whose turnings come off in long coils."""
FORESEEN = (MethodError, GeometryError, ValueError, NotInTable)
"""What words of the author can lead to; anything else is a fault of the program."""
SIZES = {"mm", "in", "inch", "thou"}
"""Words of a tool's name that are of its size."""


def carry_out(job: Job, setup: OpenSetup, block: Block) -> WorkedOperation | None:
    """Do one operation on the set-up's piece; None (and a problem) where its words are wrong."""
    try:
        done = _carry_out(job, setup, block)
    except MethodError as error:
        job.problems.extend([error.problem])
    except (GeometryError, ValueError, NotInTable) as error:
        job.problems.error(
            block.place,
            f"the cut cannot be made: {error}",
            "its sizes must make a solid",
            "check the sizes of this operation",
            code="no-solid",
        )
    except Exception as error:
        job.problems.extend([mishap(block.place, "this operation could not be worked out", error)])
    else:
        failed = job.log.broken.get(setup.piece.name)
        if failed:
            words = f"follows the operation of line {failed}, which could not be worked out"
            done.judge("follows-failed", None, words)
        return done
    job.log.broke(setup.piece.name, block.place.line)
    return None


def _carry_out(job: Job, setup: OpenSetup, block: Block) -> WorkedOperation:
    few_states(job, block.place)
    name, line = find_verb(block)
    number = 10 * (len(job.operations) + 1)
    station = _station(job, setup, name, f"{job.file.slug} {number}")
    meaning = verb_in_frame(name, station.frame, line if line.value else Text("", block.place))
    wanted = entry_text(block, "tool")
    if wanted:
        meant = _named_tool(job, setup, wanted, meaning)
        station = replace(station, tool=meant)
        own_word(job, wanted, meant.known_as(), meant.name)
    said = read_clauses(line, meaning.first, meaning.clauses, job.reader, name)
    sizes_are_sizes(said, (*((meaning.first,) if meaning.first else ()), *meaning.clauses), name)
    plan = meaning.make(station, said)
    plan = plan.with_more(facts=said_apart(said, meaning.all_clauses))
    plan = replace(plan, cut=replace(plan.cut, slide=depth_slide(setup.held, name, plan)))
    said.all_asked(name, meaning.all_clauses)
    _no_idle_wish(block, name, plan, setup)
    tool = _named_tool(job, setup, wanted, meaning, plan) if wanted else _tool(job, setup, plan, meaning)
    spoken = SaidOperation(number=number, block=block, verb=name, said=said, tool_said=wanted.value if wanted else "")
    intended = planned(
        spoken, id=f"op-{number}-{slugify(name)}", title=_title(block, plan), plan=plan, station=station,
        piece=setup.piece, tool=tool, line=line.place.line if line.value else block.place.line,
    )  # fmt: skip
    return _work_out(job, setup, cut_metal(job, setup, intended))


def _work_out(job: Job, setup: OpenSetup, done: CutOperation) -> WorkedOperation:
    """Everything that follows from the cut: cutting data, limits, times, checks, cautions."""
    block, material = done.block, setup.piece.material
    turning_block(setup, done)
    ceiling = turning_bound(setup, done.before)
    # The limits first: the passes are led into them.
    wanted = [*done.plan.limits, *read_limits(job, entry_texts(block, "check"))]
    plan, limits, told = take_aim(done.plan, wanted, done.line)
    done = replace(done, plan=plan)
    wishes = _wishes(job, block)
    worked = work_out(plan, setup.held.machine, done.tool, material, wishes, done.line, ceiling, job.workshop.times)
    set_by_hand, positions = readings(plan, done.station, setup.held.machine, limits)
    found, missing = done.found, not_drawn(setup, done)
    found.facts.extend([*worked.facts, *set_by_hand, *plan.facts])
    found.tables.extend(positions)
    found.checks.extend([*worked.checks, *told])
    found.notes.extend(say.words(note) for note in worked.notes)
    found.notes.extend(Words(job.reader.words(text)) for text in entry_texts(block, "note"))
    found.notes.extend([Words(missing)] if missing else [])
    doing = f"operation {done.number} could not be looked at"
    made = worked_out(
        done, worked=worked, limits=tuple(limits), grams_after=mass(done.after).grams,
        handling=_handling(job, block, plan, setup, worked.further_tools),
        rig=stage(job, doing, lambda: rig_round(setup, done), None, of=done, foreseen=FORESEEN),
    )  # fmt: skip
    stage(job, doing, lambda: _look_at(job, setup, made, wishes), None, of=made, foreseen=FORESEEN)
    return made


def _look_at(job: Job, setup: OpenSetup, done: WorkedOperation, wishes: Wishes) -> None:
    """Every check of the cut, and its cautions."""
    balance_after(setup, done)
    check_cut(done)
    check_wishes(setup, done, wishes)
    check_operation(job.workshop, setup, done)
    check_reach(job.workshop, setup, done)
    check_attitude(setup, done)
    _cautions(setup, done, done.block)


def _station(job: Job, setup: OpenSetup, verb: str, tag: str) -> Station:
    held = setup.held
    stick = held.stick_out
    if held.holding and held.grip and setup.operations:
        # The grip stays where it is while the face moves: the stick-out shrinks by what was faced off.
        frame, first = held.holding.frame(setup.piece.work.ends), held.holding.frame(setup.before.ends)
        stick = frame.s_of(first.z_of(held.grip[0]))
    return Station(
        setup.piece.work, job.workshop, held.machine, held.holder, held.holding, held.pose, stick,
        held.table, held.attitude, setup.held_up,
        {name: piece.work for name, piece in job.pieces.items()}, lambda other: _elsewhere(job, other), operation=tag,
        verb=verb,
    )  # fmt: skip


def _elsewhere(job: Job, name: str) -> Workpiece | None:
    """The finished piece of another method of the handbook."""
    found = job.library(name)
    return found.live.pieces[found.live.main].work if found and found.live.main else None


def _title(block: Block, plan: Plan) -> Words:
    own = entry_text(block, "title")
    if own:
        return Words(own.value)
    if block.heading and block.heading_is_fresh:
        return Words(block.heading.text)
    return say.words(plan.words)


# ------------------------------------------------------------------------------------------------ tools
def _named_tool(job: Job, setup: OpenSetup, wanted: Text, meaning: Verb, plan: Plan | None = None) -> Tool:
    """The tool that the author's words mean; of a set the size that they say, else the one that the plan wants."""
    size, angle, thread = (plan.tool_size, plan.tool_angle, plan.thread) if plan else (0.0, 0.0, "")
    found = job.workshop.tool(
        wanted.value, size, angle=angle, thread=thread, machine=setup.held.machine, verb=meaning.name
    )
    if found is None:
        raise MethodError(
            wanted.place,
            f"this workshop has no such tool (got `{wanted.value}`)",
            "tools are listed in the workshop's file",
            did_you_mean(wanted.value, job.workshop.known_tools()),
            code="unknown-tool",
        )
    return found


def own_word(job: Job, wanted: Text, known_as: Iterable[str], name: str) -> None:
    """A name that the author's own workshop does not have is told: `magic knife` is not the knife tool.

    Parameters:
        known_as: every word by which the thing that was found may be called
        name: its name in the workshop
    """
    known = {word for one in known_as for word in plain_words(one)} | SIZES
    strange = [word for word in plain_words(wanted.value) if word.isalpha() and word not in known]
    own = job.file.front.workshop
    if strange and (own is None or own.value == job.workshop.key):
        words = f"this workshop has nothing of that name (got `{wanted.value}`); its {name} is taken"
        rule = "tools and ways of holding are listed in the workshop's file"
        job.problems.warning(wanted.place, words, rule, f"write `{name}`, or enter it there", code="other-name")


def _tool(job: Job, setup: OpenSetup, plan: Plan, meaning: Verb) -> Tool | None:
    """The tool that the plan asks for, else the trade's usual one for the verb."""
    shop, name, size = job.workshop, meaning.name, plan.tool_size
    wanted: dict[str, Any] = {"angle": plan.tool_angle, "thread": plan.thread, "machine": setup.held.machine}
    found = shop.tool(plan.tool_words, size, verb=name, **wanted) if plan.tool_words else None
    found = found or shop.default_tool(name, size, **wanted)
    if found is not None and plan.cut.process.row.hand_turned and found.hand is not plan.hand:
        of_hand = (
            one.for_thread(plan.thread) or one.nearest(size)
            for one in shop.tools_of(found.kind)
            if one.hand is plan.hand
        )
        return min(of_hand, key=lambda one: abs(one.size - plan.tool_size), default=found)
    return found


# ------------------------------------------------------------------------------------------------ the author's wishes
def _wishes(job: Job, block: Block) -> Wishes:
    speed, feed, depth, time = (entry_text(block, key) for key in ("speed", "feed", "depth", "time"))
    cutting, spindle = _speeds(job, speed) if speed else (None, None)
    return Wishes(
        cutting, spindle, _feed(job, feed) if feed else None, job.reader.length(depth) if depth else None,
        job.reader.minutes(time) if time else None,
    )  # fmt: skip


def _no_idle_wish(block: Block, name: str, plan: Plan, setup: OpenSetup) -> None:
    """Refuse a depth, feed or speed that changes nothing: a drill has no depth of cut, a thread feeds by its pitch."""
    takes = plan.cut.process.row.takes if setup.held.machine.kind.has_spindle else frozenset()
    for key in ("depth", "feed", "speed"):
        text = entry_text(block, key)
        if text is not None and key not in takes:
            words = f"`{key}` changes nothing in this `{name}` (got `{text.value}`)"
            rule = f"it takes {joined([f'`{one}`' for one in sorted(takes)])}" if takes else "no machine cuts here"
            raise MethodError(text.place, words, rule, "take it away", code="idle-clause")


def _feed(job: Job, text: Text) -> float:
    """Mm a turn, or a tooth: what the machine's table does in a minute follows from it."""
    value = job.reader.value(text)
    if value.is_quantity and value.unit in ("mm/min", "m/min", "inch/min", "in/min"):
        words = f"a feed is a length: of one turn, or of one tooth when milling (got {text.value})"
        rule = "its rate follows from the spindle speed and is shown on the sheet"
        raise MethodError(text.place, words, rule, "write e.g. `feed: 0.1 mm`", code="wrong-dimension")
    return job.reader.length(text)


def _speeds(job: Job, text: Text) -> tuple[float | None, float | None]:
    """(cutting speed in m/min, spindle speed in 1/min): the author gives one of them."""
    value = job.reader.value(text)
    try:
        return None, value.to("1/min", "`speed`")
    except FormulaError:
        if value.is_quantity and value.unit == "1":
            rule, remedy = "a speed has a unit", f"write `{text.value} 1/min` for turns, `25 m/min` for a cutting speed"
            words = f"`speed` says nothing of its unit (got `{text.value}`)"
            raise MethodError(text.place, words, rule, remedy, code="bare-number") from None
        return job.reader.cutting_speed(text), None


def _handling(job: Job, block: Block, plan: Plan, setup: OpenSetup, further_tools: int) -> float:
    own = entry_text(block, "handling")
    if own:
        return job.reader.minutes(own)
    times = job.workshop.times
    change = times.tool_change if plan.cut.process.cuts and not setup.held.machine.sort.by_hand else 0.0
    change *= 1 + further_tools
    return change + plan.handling + times.measure * len(entry_texts(block, "check"))


OF_THE_MATERIAL = (
    ("iron", "iron-dust"), ("titanium", "swarf-fire"), ("magnesium", "swarf-fire"), ("thermoplastic", "plastic-heat"),
    ("ptfe", "plastic-fume"), ("rigid pvc", "plastic-fume"), ("brittle plastic", "brittle-plastic"),
    ("brittle plastic", "plastic-heat"), ("laminate", "laminate-dust"),
)  # fmt: skip
"""(word of its group, or its name; caution) for metal or plastic that is cut."""


def _cautions(setup: OpenSetup, done: WorkedOperation, block: Block) -> None:
    keys = list(done.plan.cautions)
    material = setup.piece.material.group.lower()
    if done.plan.cut.process.cuts and done.volume:
        keys += [key for word, key in OF_THE_MATERIAL if word in material or word == setup.piece.material.name.lower()]
        if done.plan.cut.process.row.load is Load.TURNING and any(word in material for word in LONG_SWARF):
            keys.append("long-swarf")
    fluid = entry_text(block, "with")
    if fluid:
        keys.append("fluids")
        done.found.notes.append(Words(f"Cutting fluid: {fluid.value}"))
    done.found.cautions.extend(caution(key) for key in dict.fromkeys(keys))
    done.found.cautions.extend(Caution("own", text.value) for text in entry_texts(block, "caution"))
