"""What does a workshop file say of a tool, or of a set of tools?"""

from __future__ import annotations

from methodsheets.trade.threads.any_thread import thread_diameter
from methodsheets.vocabulary.machine import MACHINES, SPELLED
from methodsheets.vocabulary.scene import SCENES
from methodsheets.vocabulary.tool import TOOLS, Hand, SizedBy, ToolKind, Turned
from methodsheets.vocabulary.verb_word import verb_name

from .fields import Fields, plain_key
from .tool_lengths import for_hand, series
from .tools import Tool, ToolSize
from .trade_sizes import STANDARD_SETS
from .words import kind_named

MATERIALS = ("HSS", "carbide", "carbon steel")
"""What tools are made of."""


def read_tool(key: str, fields: Fields) -> Tool:
    """Read one tool or set; what is wrong goes to the fields' problems."""
    kind = ToolKind(fields.choice("kind", TOOLS, _kind_of(key, fields)))
    sort = kind.row
    lengths = fields.choice("lengths", series(), "")
    tool = Tool(
        key=key,
        kind=kind,
        name=fields.text("name") or sort.words[0],
        words=fields.words("also called"),
        turned=Turned(fields.choice("turned", Turned, Turned.BY_HAND if for_hand(lengths) else sort.turned)),
        hand=Hand(fields.choice("hand", Hand, sort.hand)),
        material=fields.choice("material", MATERIALS, "HSS"),
        machines=fields.meant("goes on", SPELLED.read, MACHINES),
        nose_radius=fields.amount("nose radius", "mm"),
        approach=fields.amount("approach", "deg", 90.0, most=180),
        nose_angle=fields.amount("nose angle", "deg", most=180),
        reach=fields.amount("reach", "mm"),
        shank=fields.amount("shank", "mm"),
        width=fields.amount("width", "mm"),
        diameter=fields.amount("diameter", "mm"),
        sizes=_sizes(fields, sort.sized),
        flute_length=fields.amount("flute length", "mm"),
        flute_factor=fields.amount("flute factor", "1"),
        lengths=lengths,
        overall_length=fields.amount("overall length", "mm"),
        teeth=fields.whole("teeth"),
        point_angle=fields.amount("point angle", "deg", sort.point_angle, most=180),
        min_bore=fields.amount("smallest bore", "mm"),
        verbs=fields.meant("for", verb_name, SCENES),
        centre_cutting=fields.flag("centre cutting", default=sort.centre_cutting),
        fit=fields.text("fit"),
        handling_minutes=fields.amount("handling", "min"),
        note=fields.text("note"),
    )
    fields.done()
    return tool


def _sizes(fields: Fields, sized: SizedBy) -> tuple[ToolSize, ...]:
    """The sizes of a set: lengths, names of threads ('M3, M4'), or a whole set by name ('number drills')."""
    said = fields.text("sizes")
    if not said:
        return ()
    if sized is SizedBy.THREAD:
        return tuple(_thread(label, fields) for label in fields.words("sizes"))
    whole = STANDARD_SETS.get(plain_key(said))
    if whole is not None:
        return tuple(ToolSize(size, label) for label, size in whole())
    labels = [part.strip() for part in said.split(",")] if " to " not in said else []
    sizes = fields.amounts("sizes", "mm")
    names = (
        {size: _label(label, labels) for size, label in zip(sizes, labels, strict=False)}
        if len(labels) == len(sizes)
        else {}
    )
    return tuple(ToolSize(size, names.get(size, "")) for size in sorted(set(sizes)))


def _label(label: str, labels: list[str]) -> str:
    """The name of one size: an inch size keeps its fraction ('3/8 in'), a metric one is named by its number."""
    if "/" not in label and not any(label.endswith(unit) for unit in ("in", "thou")):
        return ""
    unit = next((word for one in reversed(labels) if (word := one.split()[-1]).isalpha()), "")
    if unit == "mm":
        return ""
    return label if label.split()[-1].isalpha() else f"{label} {unit}"


def _thread(label: str, fields: Fields) -> ToolSize:
    """A thread by its name; its size is the outside diameter."""
    diameter = thread_diameter(label)
    if diameter is None:
        what = f"`{label}` is no thread that the tables know"
        fields.problems.error(
            fields.place_of("sizes"),
            what,
            "",
            "write for instance M6, M10x1, 1/4 BSF, 2BA, Rc 1/4",
            code="workshop-thread",
        )
    return ToolSize(diameter or 0.0, label)


def _kind_of(key: str, fields: Fields) -> str:
    """The kind where none is written: the one that the tool's name says best."""
    if fields.has("kind"):
        return ToolKind.KNIFE  # what stands under `kind` decides
    found = kind_named((fields.text("name"), key), {kind: sort.words for kind, sort in TOOLS.items()})
    if not found:
        remedy = f"known: {', '.join(TOOLS)}"
        what, rule = f"what sort of tool is `{key}`?", "each tool has a `kind`"
        fields.problems.error(fields.place, what, rule, remedy, code="workshop-kind")
    return found or ToolKind.KNIFE
