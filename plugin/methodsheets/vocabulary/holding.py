"""How can the work be held: one row for each way, with what it grips, how it is built, drawn and checked?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from .attitude import Attitude
from .machine import MachineKind, on
from .spelling import Words, said


class Grips(StrEnum):
    """What of the work a way of holding takes hold of."""

    OUTSIDE = "outside"
    INSIDE = "inside"
    FACES = "faces"
    TABLE = "table"
    CENTRES = "centres"
    NOTHING = "nothing"


class HolderForm(StrEnum):
    """Which polygons stand round the work in the lathe."""

    JAWS = "jaws"
    FOUR_JAWS = "four jaws"
    SOFT_JAWS = "soft jaws"
    COLLET = "collet"
    CENTRES = "centres"
    MANDREL = "mandrel"
    EXPANDING = "expanding mandrel"
    THREADED = "threaded mandrel"
    MANDREL_ON_CENTRES = "mandrel between centres"
    PLATE = "plate"
    NONE = "none"


@dataclass(frozen=True, kw_only=True)
class WayRow:
    """What the rooms ask of a way of holding."""

    words: tuple[str, ...]
    """What it is called, the usual name first."""
    machines: tuple[MachineKind, ...]
    """Kinds of machine that it is used on."""
    grips: Grips
    turns_with_work: bool = False
    """Whether the work turns about the spindle's axis in it."""
    self_centring: bool = False
    """Whether it brings the work to the axis by itself."""
    support: bool = False
    """Whether it only supports a work that is held otherwise (tailstock centre, steady)."""
    offset: bool = False
    """Whether the work can be set off the axis in it."""
    jaws_stand_out: bool = False
    """Whether its jaws stand out in front of its body."""
    packs: bool = False
    """Whether work is set off its axis by packing under one jaw."""
    set_by_dial: bool = False
    """Whether each jaw is set by itself, to a dial gauge."""
    closes: bool = False
    """Whether it comes in sizes that close on the work."""
    usual: Attitude | None = None
    """How its axis stands where nobody says; None for what carries no other way of holding."""
    on_parallels: bool = False
    """Whether it is a vice in which work is cut, on parallels that bring it up as far as the cuts need."""
    flat_on_table: bool = False
    """Whether six-face work lies on the table itself in it, or on packing."""
    unchecked: str = ""
    """Why nothing of the holding itself is checked, where nothing is; the reader sees it."""
    at_most: tuple[tuple[float, str], ...] = ()
    """(highest spindle speed in 1/min, reason) of work held so in the lathe: common practice, from memory."""
    carrier_turns: bool = False
    """Whether the work turns on centres at both ends, driven by a carrier."""
    faces: int = 0
    """Faces of a collet block, which lies in the vice on each of them in turn; 0 for all that has none."""
    straps: bool = False
    """Whether clamps that lap over its edges hold the work."""
    stands: bool = False
    """Whether work only stands or lies in it and nothing takes hold of it: there is no grip to assume."""
    lies: bool = False
    """Whether round work lies in it on its side."""
    form: HolderForm = HolderForm.NONE
    in_lathe: str = ""
    """What the drawing library calls it when it turns in the lathe; empty where it does not."""
    on_table: str = ""
    """The same for work that stands upright on a table."""
    across: str = ""
    """The same for round work that lies on its side."""
    on_block: str = ""
    """The same for six-face work."""
    turns_block: str = ""
    """The same for six-face work that turns in the lathe."""

    @property
    def jaws(self) -> bool:
        """Whether jaws close on the work."""
        return self.form in (HolderForm.JAWS, HolderForm.FOUR_JAWS, HolderForm.SOFT_JAWS)

    @property
    def carries(self) -> bool:
        """Whether another way of holding stands on it (rotary table, dividing head)."""
        return self.usual is not None

    @property
    def holds_blocks(self) -> bool:
        """Whether it takes six-face work by its faces."""
        return bool(self.on_block)

    @property
    def takes_bores(self) -> bool:
        """Whether it can take hold in a bore: a mandrel always does, jaws may."""
        jaws = self.form in (HolderForm.JAWS, HolderForm.FOUR_JAWS, HolderForm.SOFT_JAWS)
        return self.grips is Grips.INSIDE or jaws or self.carries


class Way(StrEnum):
    """A way of holding; each one is spelled as the workshop file spells its kind."""

    THREE_JAW = "three-jaw"
    FOUR_JAW = "four-jaw"
    FOUR_JAW_SCROLL = "four-jaw-scroll"
    SOFT_JAWS = "soft-jaws"
    COLLET = "collet"
    CENTRES = "centres"
    MANDREL = "mandrel"
    EXPANDING_MANDREL = "expanding-mandrel"
    THREADED_MANDREL = "threaded-mandrel"
    MANDREL_BETWEEN_CENTRES = "mandrel-between-centres"
    FACEPLATE = "faceplate"
    FIXTURE = "fixture"
    TAILSTOCK_CENTRE = "tailstock-centre"
    STEADY = "steady"
    TRAVELLING_STEADY = "travelling-steady"
    VICE = "vice"
    DRILL_VICE = "drill-vice"
    TOOLMAKERS_VICE = "toolmakers-vice"
    CLAMPS = "clamps"
    ANGLE_PLATE = "angle-plate"
    VEE_BLOCK = "vee-block"
    SQUARE_COLLET_BLOCK = "square-collet-block"
    HEXAGON_COLLET_BLOCK = "hexagon-collet-block"
    ROTARY_TABLE = "rotary-table"
    DIVIDING_HEAD = "dividing-head"
    SAW_VICE = "saw-vice"
    BENCH_VICE = "bench-vice"
    PRESS_BLOCKS = "press-blocks"
    BRAZING_BRICKS = "brazing-bricks"
    MAGNET = "magnet"
    BY_HAND = "by-hand"

    @property
    def row(self) -> WayRow:
        """All that is known of it."""
        return WAYS[self]


WAYS: Mapping[Way, WayRow] = MappingProxyType(
    {
        Way.THREE_JAW: WayRow(
            words=said("three-jaw chuck, 3 jaw, three jaw, self-centring chuck, scroll chuck, "
                       "three-jaw self-centring chuck"),
            machines=on("lathe mill drill"), grips=Grips.OUTSIDE, turns_with_work=True, self_centring=True,
            offset=True, jaws_stand_out=True, packs=True, form=HolderForm.JAWS, in_lathe="three-jaw",
            on_table="three-jaw",
        ),
        Way.FOUR_JAW: WayRow(
            words=said("four-jaw chuck, 4 jaw, four jaw, independent chuck, four-jaw independent chuck"),
            machines=on("lathe mill"), grips=Grips.OUTSIDE, turns_with_work=True, offset=True, jaws_stand_out=True,
            set_by_dial=True, form=HolderForm.FOUR_JAWS, in_lathe="four-jaw", on_table="four-jaw",
            turns_block="four-jaw",
            at_most=((1000.0, "four-jaw chuck"),),
        ),
        Way.FOUR_JAW_SCROLL: WayRow(
            words=said("four-jaw self-centring chuck, four-jaw scroll chuck"), machines=on("lathe"),
            grips=Grips.OUTSIDE, turns_with_work=True, self_centring=True, jaws_stand_out=True, form=HolderForm.JAWS,
            in_lathe="three-jaw", on_table="three-jaw",
            at_most=((1000.0, "four-jaw chuck"),),
        ),
        Way.SOFT_JAWS: WayRow(
            words=said("soft jaws, three-jaw chuck soft jaws, bored soft jaws"), machines=on("lathe"),
            grips=Grips.OUTSIDE, turns_with_work=True, self_centring=True, form=HolderForm.SOFT_JAWS,
            in_lathe="soft jaws", on_table="soft jaws",
        ),
        Way.COLLET: WayRow(
            words=said("collet chuck, collet, collets, spring collet, er collet, er chuck"), machines=on("lathe mill"),
            grips=Grips.OUTSIDE, turns_with_work=True, self_centring=True, closes=True, form=HolderForm.COLLET,
            in_lathe="collet", on_table="collet",
        ),
        Way.CENTRES: WayRow(
            words=said("between centres, centres, dead centres, centres and dog, centres and carrier"),
            machines=on("lathe"), grips=Grips.CENTRES, turns_with_work=True, offset=True, form=HolderForm.CENTRES,
            in_lathe="centres",
            at_most=((700.0, "a carrier swings round with the work"),), carrier_turns=True,
        ),
        Way.MANDREL: WayRow(
            words=said("mandrel, stub mandrel, plug mandrel"), machines=on("lathe mill"),
            grips=Grips.INSIDE, turns_with_work=True, self_centring=True, form=HolderForm.MANDREL, in_lathe="mandrel",
            on_table="mandrel",
            at_most=((1000.0, "driven by a mandrel"),),
        ),
        Way.EXPANDING_MANDREL: WayRow(
            words=said("expanding mandrel, expanding arbor"), machines=on("lathe mill"), grips=Grips.INSIDE,
            turns_with_work=True, self_centring=True, form=HolderForm.EXPANDING, in_lathe="mandrel",
            on_table="mandrel",
            at_most=((1000.0, "driven by a mandrel"),),
        ),
        Way.THREADED_MANDREL: WayRow(
            words=said("threaded mandrel, screwed mandrel"), machines=on("lathe"), grips=Grips.INSIDE,
            turns_with_work=True, self_centring=True, form=HolderForm.THREADED, in_lathe="mandrel", on_table="mandrel",
            at_most=((1000.0, "driven by a mandrel"),),
        ),
        Way.MANDREL_BETWEEN_CENTRES: WayRow(
            words=said("mandrel between centres, taper mandrel, mandrel on centres, lathe mandrel"),
            machines=on("lathe"), grips=Grips.INSIDE, turns_with_work=True, self_centring=True,
            form=HolderForm.MANDREL_ON_CENTRES, in_lathe="mandrel",
            at_most=((700.0, "a carrier swings round with the work"),), carrier_turns=True,
        ),
        Way.FACEPLATE: WayRow(
            words=said("faceplate, face plate"), machines=on("lathe"), grips=Grips.TABLE, straps=True,
            turns_with_work=True, offset=True, form=HolderForm.PLATE, in_lathe="faceplate",
            turns_block="faceplate",
            at_most=((400.0, "clamped on a faceplate"),),
        ),
        Way.FIXTURE: WayRow(
            words=said("fixture, turning fixture, jig"), machines=on("lathe mill drill bench"), grips=Grips.TABLE,
            turns_with_work=True, offset=True, form=HolderForm.PLATE, in_lathe="faceplate", on_table="clamps",
            on_block="fixture", flat_on_table=True, turns_block="faceplate",
            at_most=((400.0, "clamped on a faceplate"),),
            unchecked="a fixture is made for its work, and nothing is known of its grip",
        ),
        Way.TAILSTOCK_CENTRE: WayRow(
            words=said("tailstock centre, live centre, running centre, revolving centre"), machines=on("lathe mill"),
            grips=Grips.CENTRES, self_centring=True, support=True,
        ),
        Way.STEADY: WayRow(
            words=said("fixed steady, steady, steady rest"), machines=on("lathe"), grips=Grips.OUTSIDE, support=True,
        ),
        Way.TRAVELLING_STEADY: WayRow(
            words=said("travelling steady, follow rest, follower"), machines=on("lathe"), grips=Grips.OUTSIDE,
            support=True,
        ),
        Way.VICE: WayRow(
            words=said("machine vice, vice, milling vice"), machines=on("mill drill grinder"), grips=Grips.FACES,
            on_parallels=True,
            across="vice", on_block="vice",
        ),
        Way.DRILL_VICE: WayRow(
            words=said("drill vice, drilling vice"), machines=on("drill"), grips=Grips.FACES,
            on_parallels=True, across="drill-vice",
            on_block="drill-vice",
        ),
        Way.TOOLMAKERS_VICE: WayRow(
            words=said("toolmaker's vice, screwless vice"), machines=on("mill grinder"), grips=Grips.FACES,
            on_parallels=True,
            across="toolmakers-vice", on_block="toolmakers-vice",
        ),
        Way.CLAMPS: WayRow(
            words=said("clamps, clamped to the table, table clamps, bridge clamps, strap clamps"),
            machines=on("mill drill"), grips=Grips.TABLE, on_table="clamps", on_block="clamps",
            flat_on_table=True, straps=True,
            unchecked="clamps are set where the cuts leave room, and each cut is looked at for them",
        ),
        Way.ANGLE_PLATE: WayRow(
            words=said("angle plate, knee, angle plate faceplate, angle plate on the faceplate"),
            machines=on("mill drill lathe"), grips=Grips.TABLE,
            on_block="angle-plate", turns_block="angle-plate",
            at_most=((300.0, "bolted to an angle plate"),),
        ),
        Way.VEE_BLOCK: WayRow(
            words=said("vee block, v block, vee blocks"), machines=on("mill drill bench"), grips=Grips.OUTSIDE,
            self_centring=True, across="vee-block", lies=True,
        ),
        Way.SQUARE_COLLET_BLOCK: WayRow(
            words=said("square collet block, collet block"), machines=on("mill drill"), grips=Grips.OUTSIDE,
            self_centring=True, closes=True, lies=True, faces=4, across="collet-block",
        ),
        Way.HEXAGON_COLLET_BLOCK: WayRow(
            words=said("hexagon collet block, hex collet block, hexagonal collet block"), machines=on("mill drill"),
            grips=Grips.OUTSIDE, self_centring=True, closes=True, lies=True, faces=6, across="collet-block",
        ),
        Way.ROTARY_TABLE: WayRow(
            words=said("rotary table, rotary table chuck, three-jaw chuck rotary table"), machines=on("mill drill"),
            grips=Grips.TABLE, offset=True, usual=Attitude.UPRIGHT, on_table="three-jaw", across="head",
        ),
        Way.DIVIDING_HEAD: WayRow(
            words=said("dividing head, indexing head, spin indexer"), machines=on("mill lathe"), grips=Grips.OUTSIDE,
            self_centring=True, usual=Attitude.LEVEL, on_table="three-jaw", across="head",
        ),
        Way.SAW_VICE: WayRow(
            words=said("saw vice, saw's vice"), machines=on("saw"), grips=Grips.FACES, on_block="saw-vice",
        ),
        Way.BENCH_VICE: WayRow(
            words=said("bench vice, fitting vice, soft jaw bench vice"), machines=on("bench"), grips=Grips.FACES,
            on_block="bench-vice",
        ),
        Way.PRESS_BLOCKS: WayRow(
            words=said("press blocks, press, press plates, arbor press"), machines=on("press"), grips=Grips.TABLE,
            on_block="clamps", stands=True,
            unchecked="the work stands on it, and nothing takes hold of it",
        ),
        Way.BRAZING_BRICKS: WayRow(
            words=said("brazing bricks, fire bricks, hearth"), machines=on("hearth"), grips=Grips.TABLE,
            on_block="clamps", stands=True,
            unchecked="the work lies on them, and nothing takes hold of it",
        ),
        Way.MAGNET: WayRow(
            words=said("magnetic chuck, magnet"), machines=on("mill grinder lathe"), grips=Grips.TABLE,
            on_block="magnet", flat_on_table=True,
        ),
        Way.BY_HAND: WayRow(
            words=said("by hand, in the hand, loose, on the surface plate"), machines=on("bench grinder hearth"),
            grips=Grips.NOTHING, on_block="clamps", stands=True,
            unchecked="it is held by hand",
        ),
    }
)  # fmt: skip
"""Every way of holding that the handbook knows. A workshop's list says which of them it has, and how big."""


SPELLED: Words[Way] = Words({way: row.words for way, row in WAYS.items()})
"""Reads a way of holding in the author's words."""


def carried(words: str) -> tuple[Way | None, str]:
    """What another way of holding stands on, and that other: 'rotary table with three-jaw chuck'."""
    carrier, _, on_it = words.partition(" with ")
    found = SPELLED.read(carrier) if on_it else None
    return (found, on_it) if found is not None and found.row.carries else (None, words)
