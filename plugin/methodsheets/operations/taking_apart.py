"""How do pieces that were worked on as one come apart again: unsoldered, unscrewed, lifted off, pressed out?"""

from __future__ import annotations

from methodsheets.reading.problem import MethodError, did_you_mean
from methodsheets.vocabulary.joint import Joint
from methodsheets.workpiece import Body

from .facts import judged
from .joining import TIME
from .plan import Plan
from .station import Station
from .verb import ANY, verb
from .words import Clause, Said


@verb(
    "take apart",
    frame=ANY,
    family="joining",
    first=Clause("", "text", "name of the piece that comes off", True),
    clauses=[TIME],
)
def take_apart(station: Station, said: Said) -> Plan:
    """Take a piece off again that was joined before, such as the cap of a bearing that was bored as one with it."""
    name = str(said.get(""))
    body = _joined(station, said, name)
    row = Joint(body.joined).row
    back = name in station.pieces and body.place is not None
    shape = f"the {name} has the shape that it was cut to"
    shape = shape if back else f"the {name} is no piece of this method: it comes off and is not followed further"
    plan = Plan(
        f"Take the {name} off: {row.apart}", must_cut=False, comes_off=name, feature=name,
        cautions=[key for key in row.cautions if row.hot], tool_words=row.tool, handling=1.0,
        by_hand=said.get("for", row.minutes / 2),
    )  # fmt: skip
    return plan.with_more(checks=[judged("taken-apart", back, shape, said.place.line)])


def _joined(station: Station, said: Said, name: str) -> Body:
    """The body that comes off; MethodError where it is not there, is the work itself, or does not come off."""
    bodies = station.piece.bodies
    body = bodies.get(name)
    if body is None or not body.joined:
        known = [other for other, one in bodies.items() if one.joined]
        words = f"no such piece is joined to the work (got `{name}`)"
        rule = f"joined are {', '.join(known)}" if known else "nothing is joined to the work yet"
        remedy = did_you_mean(name, known) or "name the piece that was joined, or join it first"
        raise MethodError(said.where(""), words, rule, remedy, code="not-joined")
    if not Joint(body.joined).row.apart:
        words = f"the {name} does not come off again: it is {body.joined}"
        rule = "pieces that are worked on as one are soft-soldered, screwed, pressed or only laid together"
        raise MethodError(said.where(""), words, rule, "join it in another way, or saw it off", code="not-joined")
    return body
