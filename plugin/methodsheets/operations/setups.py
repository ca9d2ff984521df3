"""How does a set-up line hold the work: on which surface, how deep, which end or face towards you, about which axis?"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from methodsheets.geometry import Axis
from methodsheets.reading.problem import MethodError, Place, did_you_mean
from methodsheets.sheet.words import Words
from methodsheets.vocabulary.attitude import Attitude
from methodsheets.vocabulary.holding import SPELLED as HOLDINGS
from methodsheets.vocabulary.holding import Grips, Way, carried
from methodsheets.vocabulary.support import ALONE, HeldUp, Support
from methodsheets.workpiece import FACES, Holding, TurningFrame, VicePose, Workpiece, flats
from methodsheets.workpiece.datum import End, FaceName
from methodsheets.workshop.dividing import RotaryTable
from methodsheets.workshop.holding import Holding as Holder
from methodsheets.workshop.machines import Machine
from methodsheets.workshop.model import Workshop

from . import say
from .attitude import attitude_of, says_up, table_of, tailstock_for
from .by_faces import wants_block
from .say import dia, dim, number
from .words import Said


@dataclass(frozen=True)
class Held:
    """One set-up's holding, read and found in the workshop and on the solid."""

    said: Said
    machine: Machine
    holder: Holder | None
    """What the workshop holds it with; None where the workshop has no such thing."""
    words: str
    """The way of holding in the trade's words: 'three-jaw chuck'."""
    sentence: Words
    holding: Holding | None = None
    pose: VicePose | None = None
    stick_out: float = 0.0
    grip: tuple[float, float] | None = None
    across: float = 0.0
    """Size across flats of a gripped hexagon or square, 0 for round work."""
    sides: int = 0
    """Flats of that size: 6, 4, or 2 of a rectangular bar; 0 for round work."""
    assumed: Mapping[str, str] = field(default_factory=dict)
    """Clauses that the author left out and the sheet assumed, with the reason: 'grip' to 'the whole jaw'."""
    way: Way | None = None
    """Which way of holding it is, whether the workshop has it or not; None where the handbook knows none."""
    carrier: Way | None = None
    """The rotary table or dividing head that another way of holding stands on."""
    attitude: Attitude | None = None
    """How the axis of resting work stands, where it matters; None in the lathe, and where neither is sure."""
    reversed_jaws: bool = False
    """Whether the jaws of the chuck are reversed for a large outside."""
    table: RotaryTable | None = None
    """The workshop's rotary table or dividing head that the work is on."""
    held_up: HeldUp = ALONE
    """Centre and steady that are there from the start."""

    @property
    def carrying(self) -> Way | None:
        """The rotary table or dividing head, whether another way of holding stands on it or it holds by itself."""
        return self.carrier or (self.way if self.way is not None and self.way.row.carries else None)


def hold(said: Said, machine: Machine, workshop: Workshop, piece: Workpiece) -> Held:
    """Find holder, gripped surface, axis and pose; MethodError where the words contradict themselves or the solid."""
    words = str(said.get(""))
    carrier, base = carried(words)
    block = wants_block(said)
    alone = HOLDINGS.read(base) if carrier is None else None
    if alone is not None and alone.row.carries and workshop.holding_of(alone, machine) is None:
        carrier, base = alone, Way.THREE_JAW.row.words[0]  # a chuck is what usually stands on it
    way = HOLDINGS.read(base) if block else _way(base, said)
    size = 0.0 if block else float(said.get("on", 0.0))
    inside = not block and (bool(said.get("inside")) or (way is not None and way.row.grips is Grips.INSIDE))
    if way is Way.SOFT_JAWS:  # where the shop has none, it is told, and no other jaws are taken for them
        holder = workshop.soft_jaws(None if carrier else machine)
    else:
        holder = workshop.holding(base, machine=machine, size=size, inside=inside)
    if way is not None and way.row.faces and holder is not None and holder.kind is not way:
        holder = None  # a collet chuck has no faces to lie on
    if holder is None and way is not None and way.row.closes and not way.row.faces:
        holder = next(iter(workshop.collets(machine)), None)
    way = holder.kind if holder else way
    if way is not None and way.row.support:
        what = f"a {way.row.words[0]} only supports the work (got `{words}`)"
        remedy = f"say what holds the work, and `support {way.row.words[0]}`"
        raise MethodError(said.where(""), what, "work is held by one thing and supported by another", remedy,
                          code="wrong-value")  # fmt: skip
    inside = inside or (not block and way is not None and way.row.grips is Grips.INSIDE)
    if way is not None and said.has("inside") and not way.row.takes_bores:
        what = f"`{way.row.words[0]}` does not take hold in a bore (got `inside`)"
        rule, remedy = "jaws and mandrels take hold in a bore", "take `inside` away, or name what holds it there"
        raise MethodError(said.where("inside"), what, rule, remedy, code="idle-clause")
    usual = _usual(base, carrier, way, holder)
    held = (
        _on_block(said, machine, holder, usual, piece, way)
        if block
        else _about_axis(said, machine, holder, usual, piece, inside, way, carrier)
    )
    carrying = carrier or (way if way is not None and way.row.carries else None)
    return replace(held, way=way, carrier=carrier, table=table_of(workshop, carrying, holder))


def _way(words: str, said: Said) -> Way | None:
    """Which way of holding the author's words name; None where the handbook knows none of that name.

    Soft jaws go into a chuck; in anything else the clause says nothing, and is refused.
    """
    way = HOLDINGS.read(words)
    chuck = way is None or way.row.jaws_stand_out
    return Way.SOFT_JAWS if chuck and said.get("soft jaws") else way


def _usual(words: str, carrier: Way | None, way: Way | None, holder: Holder | None) -> str:
    usual = holder.usual_name if holder else way.row.words[0] if way else words
    return f"{carrier.row.words[0]} with {usual}" if carrier else usual


def _on_block(
    said: Said, machine: Machine, holder: Holder | None, words: str, piece: Workpiece, way: Way | None
) -> Held:
    up, towards = str(said.get("up", "top")).lower(), str(said.get("towards", "front")).lower()
    face_up, face_towards = face_name(up, said.where("up")), face_name(towards, said.where("towards"))
    if not piece.bodies:
        raise MethodError(
            said.place,
            "there is no work to hold",
            "a method starts with its stock",
            "give the stock",
            code="missing-stock",
        )
    try:
        pose = VicePose.of(piece.state.bounds, face_up, face_towards)
    except ValueError as error:
        raise MethodError(
            said.where("towards"),
            f"{error} (got up {up}, towards {towards})",
            "the two faces are neighbours",
            "name another face",
            code="wrong-value",
        ) from None
    grip = float(said.get("grip", 0.0))
    sentence = f"{words[0].upper()}{words[1:]}, {up} up, {towards} towards you{_assumed(said, 'up')}" + (
        f", {dim(grip)} between the jaws{_assumed(said)}" if grip else ""
    )
    if way is not None and way.row.grips is Grips.TABLE and said.get("packed"):
        sentence += f", packed {dim(said.get('packed'))} up"
    return Held(
        said,
        machine,
        holder,
        words,
        say.words(sentence),
        pose=pose,
        stick_out=pose.size[2] - grip,
        grip=(pose.size[2] - grip, pose.size[2]) if grip else None,
    )


def face_name(name: str, place: Place) -> FaceName:
    """One of the six faces of a block; MethodError for any other word."""
    found = next((face for face in FACES if face == name), None)
    if found is None:
        rule = "a block has six: " + ", ".join(FACES)
        words = f"no such face (got `{name}`)"
        raise MethodError(place, words, rule, did_you_mean(name, FACES), code="wrong-value")
    return found


def _about_axis(
    said: Said,
    machine: Machine,
    holder: Holder | None,
    words: str,
    piece: Workpiece,
    inside: bool,
    way: Way | None,
    carrier: Way | None,
) -> Held:
    out = _end(said)
    attitude = attitude_of(said, machine, carrier or (way if way is not None and way.row.carries else None), way)
    if not piece.bodies:
        raise MethodError(
            said.place,
            "there is no work to hold",
            "a method starts with its stock",
            "give the stock",
            code="missing-stock",
        )
    length, size = piece.ends.length, said.get("on")
    probe = Holding(machine.key, words, out)
    given = _given_axis(said, piece, probe)
    grip_axis, surface = _gripped_surface(piece, size, inside, given)
    axis = _axis(said, given, grip_axis, way)
    grip = _grip(said, length, piece, probe, surface)
    held = Holding(machine.key, words, out=out, axis=axis, grip_axis=grip_axis, diameter=float(size) if size else None,
                   grip=grip, inside=inside)  # fmt: skip
    across = 0.0 if surface or not size else float(size)
    sides = _sides(piece, probe.frame(piece.ends), across) if across else 0
    between = way is not None and way.row.grips is Grips.CENTRES
    held_up = _held_up(said, machine, between=between) or tailstock_for(said, attitude)
    sentence = _sentence(said, words, _end_words(said, out, machine, attitude, way), grip, held, sides, way, held_up)
    return Held(
        said=said, machine=machine, holder=holder, words=words, sentence=say.words(sentence), holding=held, pose=None,
        stick_out=grip[0] if grip else 0.0, grip=grip, across=across, sides=sides, attitude=attitude, held_up=held_up,
        reversed_jaws=_jaws_reversed(said, way, inside=inside),
    )  # fmt: skip


def _end_words(said: Said, out: str, machine: Machine, attitude: Attitude | None, way: Way | None) -> str:
    """'end A out, axis level': which end looks at you, and how the axis stands."""
    lies = attitude is Attitude.LEVEL or (way is not None and bool(way.row.across) and not says_up(said))
    up = machine.sort.upright and (attitude is Attitude.UPRIGHT or not lies)
    level = attitude is Attitude.LEVEL and not (way is not None and way.row.lies)
    return f"end {out} {'up' if up else 'out'}{', axis level' if level else ''}"


def _held_up(said: Said, machine: Machine, *, between: bool) -> HeldUp | None:
    """What supports the work from the start; between centres a centre always does; None at rest."""
    if not machine.sort.work_turns:
        return None
    support, at = said.get("support", Support.NONE), said.get("support at")
    if at is not None:
        steady_place(said, support, "support at")
    there = HeldUp(Support.TAILSTOCK_CENTRE) if between else ALONE
    return there.brought(support, at) if support.there else there


def steady_place(said: Said, support: Support, word: str) -> None:
    """Refuse a place for a support that has none of its own."""
    if support.row.place_of_its_own:
        return
    why = "it moves with the tool" if support.row.travels else "it stands at the face"
    words = f"`{word}` is the place of a fixed steady (got {support})"
    rule = why if support.there else "say first what supports the work"
    raise MethodError(said.where(word), words, rule, "take it away, or name the fixed steady", code="idle-clause")


def _given_axis(said: Said, piece: Workpiece, probe: Holding) -> tuple[float, float] | None:
    """Where the author puts the axis of rotation, in the frame of the work; None where nothing is said."""
    offset = said.get("axis offset")
    if offset is None:
        return None
    a = math.radians(probe.frame(piece.ends).work_angle(float(said.get("at", 0.0))))
    given = (float(offset) * math.cos(a), float(offset) * math.sin(a))
    _axis_in_work(said, piece, given)
    return given


def _axis(
    said: Said, given: tuple[float, float] | None, gripped: tuple[float, float], way: Way | None
) -> tuple[float, float]:
    """The axis of rotation: as given, of the gripped surface, packed off it, or the part's own."""
    if given is not None:
        return given
    if way is not None and way.row.packs and said.get("packed"):
        # Packing under one jaw of three moves the work by about two thirds of it.
        return (gripped[0] + said.get("packed") / 1.5, gripped[1])
    return gripped if way is not None and way.row.self_centring else (0.0, 0.0)


def _axis_in_work(said: Said, piece: Workpiece, axis: tuple[float, float]) -> None:
    """Refuse an axis of rotation that lies beside the work."""
    low, high = piece.state.bounds
    if all(float(low[i]) - 1e-6 <= axis[i] <= float(high[i]) + 1e-6 for i in range(2)):
        return
    wide, offset = max(float(high[i] - low[i]) for i in range(2)), float(said.get("axis offset"))
    raise MethodError(
        said.where("axis offset"),
        f"the axis lies beside the work (got {number(offset)} mm on work {number(round(wide, 1))} mm across)",
        "work turns about an axis that runs through it",
        "check the offset",
        code="offset-too-large",
    )


def _sentence(
    said: Said,
    words: str,
    end: str,
    grip: tuple[float, float] | None,
    held: Holding,
    sides: int,
    held_by: Way | None,
    held_up: HeldUp,
) -> str:
    text = f"{words[0].upper()}{words[1:]}"
    if sides:
        text += f" on {dim(said.get('on'))} across flats"
    elif said.get("on"):
        text += f" {'in the bore' if held.inside else 'on'} {dia(said.get('on'))}"
    if grip:
        text += f", grip {dim(grip[1] - grip[0])}{_assumed(said)}"
    text += ", outside jaws" if _jaws_reversed(said, held_by, inside=held.inside) else ""
    text += f", {end}"
    if held.throw > 1e-6:
        text += f", axis {dim(held.throw)} off the gripped surface"
    if held_up.there and said.has("support"):
        text += f", {said.get('support').row.words[0]}"
    return text


def _jaws_reversed(said: Said, held_by: Way | None, *, inside: bool) -> bool:
    """Whether the jaws of a chuck are put in the other way round, for a large outside."""
    jaws = held_by is not None and held_by.row.jaws_stand_out and not inside
    return jaws and bool(said.get("outside jaws"))


def _assumed(said: Said, word: str = "grip") -> str:
    return " (assumed)" if word in said.assumed else ""


def _end(said: Said) -> End:
    words = str(said.get("end", "A out")).split()
    if not words or words[0].upper() not in ("A", "B") or (len(words) > 1 and words[1] not in ("out", "up")):
        raise MethodError(
            said.where("end"),
            f"no such end (got `{said.get('end')}`)",
            "turned work has two ends, A and B",
            "write `end A out`",
            code="wrong-value",
        )
    return "A" if words[0].upper() == "A" else "B"


def _gripped_surface(
    piece: Workpiece, size: float | None, inside: bool, wanted: tuple[float, float] | None
) -> tuple[tuple[float, float], tuple[float, float] | None]:
    """(x, y) of the axis of the cylinder of that size, and its span along z; ((0, 0), None) where there is none.

    Of several, the one about the main axis counts first, then the stock's own.
    """
    if not size:
        return (0.0, 0.0), None
    found: dict[tuple[float, float], list[float]] = {}
    for solid in piece.state:
        mesh = solid.mesh()
        for number_, surface in enumerate(mesh.surfaces):
            if (
                surface.kind != "cylinder"
                or abs(surface.diameter - size) > 2e-6
                or not Axis().parallel(surface.direction)
            ):
                continue
            mask = mesh.surface_index == number_
            corners = mesh.corners[mask]
            outward = np.einsum("ij,ij->i", mesh.normals[mask], corners.mean(axis=1) - np.array(surface.point))
            if (float(outward.mean()) < 0) != inside:
                continue
            key = (round(surface.point[0], 6) + 0.0, round(surface.point[1], 6) + 0.0)
            found.setdefault(key, []).extend([float(corners[..., 2].min()), float(corners[..., 2].max())])
    if not found:
        return (0.0, 0.0), None
    key = min(found, key=lambda k: (math.dist(k, wanted or (0.0, 0.0)) > 1e-6 and k != (0.0, 0.0), math.hypot(*k)))
    return key, (min(found[key]), max(found[key]))


def _grip(
    said: Said, length: float, piece: Workpiece, probe: Holding, surface: tuple[float, float] | None
) -> tuple[float, float] | None:
    """(from, to) lengths from the face: as said, or as deep as the gripped surface goes."""
    grip, stick = said.get("grip"), said.get("stick-out")
    if grip is None and stick is None:
        return None
    frame = probe.frame(piece.ends)
    far = length
    if surface is not None:
        far = max(frame.s_of(surface[0]), frame.s_of(surface[1]))
    start = float(stick) if stick is not None else min(far, length) - float(grip)
    end = start + float(grip) if grip is not None else min(far, length)
    return (start, end)


def _sides(piece: Workpiece, frame: TurningFrame, across: float) -> int:
    """6, 4 or 2: how many flats of that size about the main axis the work has; 0 where it has none.

    2 are those of a rectangular bar, which is another size across its other two.
    """
    there = flats(piece.state, frame, 0.0, piece.ends.length)
    count = len({round(f.angle) % 360 for f in there if abs(f.distance - across / 2) < 1e-4})
    return 0 if count < 2 else 6 if count % 3 == 0 else 4 if count % 4 == 0 else 2
