"""What is drawn of work that stands on the rotary table: elevation, plan, and what the table reads?"""

from __future__ import annotations

from methodfigures.setups.rotary.spec import RotarySetup
from methodsheets.drawings.solids import Drawn
from methodsheets.drawings.turning import mouth_words, removed_words
from methodsheets.method.done import CheckedOperation
from methodsheets.method.not_drawn import stage_of
from methodsheets.method.open_setup import CheckedSetup
from methodsheets.operations.say import degrees
from methodsheets.vocabulary.scene import SCENES, Stage, look

MOST_ROWS = 12


def can_draw(setup: CheckedSetup, done: CheckedOperation) -> bool:
    """Whether it is work about an upright axis on the mill or the drilling machine."""
    upright = done.station.holding is not None and setup.held.machine.sort.tool_turns and bool(setup.held.grip)
    upright = upright and stage_of(setup.held) is Stage.TABLE
    way = setup.held.way
    return (
        upright
        and way is not None
        and bool(way.row.on_table)
        and bool(look(done.verb, Stage.TABLE))
        and (done.volume > 0 or SCENES[done.verb].marks)
    )


def rotary_spec(drawn: Drawn, setup: CheckedSetup, done: CheckedOperation) -> RotarySetup:
    """The figure of one operation on the rotary table."""
    holding, sketch, plan = done.station.holding, done.plan.sketch, done.plan
    assert holding is not None
    frame, first = holding.frame(done.before.ends), holding.frame(setup.before.ends)
    start, end = (frame.s_of(first.z_of(s)) for s in (setup.held.grip or (0.0, 0.0)))
    way = setup.held.way
    assert way is not None
    on_table = setup.held.carrying is not None
    columns, rows = _handle(done)
    milled = plan.cut.process.row.milling_feed
    cutter = plan.cut.diameter if milled else sketch.diameter
    return RotarySetup(
        before=drawn.state(done.before),
        after=(*drawn.state(done.after), *drawn.solids(done.stub)),
        removed=drawn.gone(done.removed),
        end_z=(done.before.ends.a, done.before.ends.b),
        verb=look(done.verb, Stage.TABLE),
        holding=way.row.on_table,
        grip=(start, end),
        grip_diameter=holding.diameter or 2 * done.before.swing(frame),
        out=holding.out,
        axis=holding.axis,
        grip_axis=holding.gripped_axis,
        table_radius=_table_radius(setup),
        plain_table=not on_table,
        angles=sketch.angles,
        done=1 if not sketch.divided else len(sketch.angles),
        radius=sketch.radius,
        start=sketch.start,
        end=min(sketch.end, done.before.ends.length),
        diameter=sketch.diameter if not milled else 0.0,
        width=sketch.size if SCENES[done.verb].wide else 0.0,
        cutter_diameter=cutter,
        through=sketch.through,
        in_face=SCENES[done.verb].wide and sketch.in_face,
        climb=plan.climb,
        pitch=plan.cut.pitch,
        dimension_texts=_texts(setup, done),
        tool_name=done.tool_name,
        removed_text=removed_words(done),
        title=f"Operation {done.number}: {done.title}",
        table_columns=columns,
        table_rows=rows,
        table_caption="What the handle reads" if rows else "",
    )


def _table_radius(setup: CheckedSetup) -> float:
    table = setup.held.table
    return table.diameter / 2 if table and table.diameter else 60.0


def _texts(setup: CheckedSetup, done: CheckedOperation) -> dict[str, str]:
    texts, carrying = {}, setup.held.carrying
    if done.plan.sketch.angles:
        noun = carrying.row.words[0].rsplit(maxsplit=1)[-1] if carrying is not None else "table"
        texts["reading"] = f"{noun} reads {degrees(done.plan.sketch.angles[0] % 360)}"
    if SCENES[done.verb].designation:
        texts["note"] = done.plan.sketch.diameter_words
    elif mouth := mouth_words(done, len(done.plan.sketch.angles)):
        texts["note"] = mouth
    if carrying is not None:
        texts["table"] = carrying.row.words[0]
    return texts


def _handle(done: CheckedOperation) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """The columns of the operation's table that a small table beside the plan has room for."""
    if not done.tables:
        return (), ()
    table = done.tables[0]
    wanted = [i for i, name in enumerate(table.columns) if name in ("No.", "Angle") or name.startswith("Handle")]
    if len(wanted) < 3 or len(table.rows) > MOST_ROWS:
        return (), ()
    heads = tuple("handle" if table.columns[i].startswith("Handle") else table.columns[i].lower() for i in wanted)
    return heads, tuple(tuple(str(row[i]) for i in wanted) for row in table.rows)
