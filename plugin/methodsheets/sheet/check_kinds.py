"""What is checked at all, which rule stands behind each check, and what is to be done where it fails?

Every check of a method bears one of these keys; a key that is not here cannot be used. The remedy is what a machinist
would try first; a check that knows better says so itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True)
class CheckKind:
    """One sort of check: the rule that it holds the method to, and the usual remedy."""

    rule: str
    remedy: str


_IN_THE_FILE = "or write it into the workshop's file, if you have it"

CHECK_KINDS: Mapping[str, CheckKind] = MappingProxyType(
    {
        # How the work is held
        "holding": CheckKind(
            "a set-up needs a holding that the workshop has and that suits the work", f"name another, {_IN_THE_FILE}"
        ),
        "holding-range": CheckKind(
            "a holder takes the sizes that it is made for", "hold the work on another size, or in another holder"
        ),
        "grip": CheckKind(
            "work is gripped on a surface that is there",
            "say `on` and `grip` as the work is then, or hold it elsewhere",
        ),
        "grip-length": CheckKind(
            "a grip is long enough to hold and no longer than the work", "change `grip` or `stick-out`"
        ),
        "raw-skin": CheckKind(
            "the raw skin of a casting bears on three points, in jaws or under clamps",
            "hold it in a chuck with jaws, or clamp it",
        ),
        "skin": CheckKind(
            "the first cut in a casting goes under its skin in one pass", "cut deeper, or leave that skin as it is"
        ),
        "jaws": CheckKind(
            "a cut ends in front of what holds the work", "grip less, or cut less deep, or turn the work round"
        ),
        "clamps": CheckKind(
            "a cut stays clear of the clamps", "clamp elsewhere, or cut in two set-ups and move the clamps"
        ),
        "table": CheckKind(
            "a cutter that comes out below needs room there", "put packing under the work, or cut less deep"
        ),
        "table-height": CheckKind(
            "work on a rotary table or in a dividing head turns clear of the table, with room for the cutter above it",
            "take a shorter tool or smaller work, or stand the axis the other way",
        ),
        "index": CheckKind(
            "what divides the work has a face for every angle", "take a block with other faces, or the dividing head"
        ),
        "carrier": CheckKind(
            "the carrier stands on its length of the work", "end the cut before it, and turn the work end for end"
        ),
        "between-centres": CheckKind(
            "work between centres fits between the headstock and the tailstock",
            "shorten the work, or hold it in the chuck",
        ),
        "throw": CheckKind(
            "work stands as far off the axis as its holder allows", "take the four-jaw or the faceplate"
        ),
        "one-axis": CheckKind(
            "in the lathe a set-up has one axis of rotation", "set the work anew for every place that is bored"
        ),
        "swing": CheckKind("the work swings clear of the bed", "take a larger lathe, or do it on the mill"),
        "swing-cross-slide": CheckKind(
            "work that is turned over the cross-slide swings clear of it", "keep the cut in front of the slide"
        ),
        "spindle-bore": CheckKind(
            "a bar that is too long to stick out goes through the spindle", "saw it shorter first"
        ),
        "bed-length": CheckKind(
            "chuck, work, tool and tailstock stand behind each other on the bed",
            "take a shorter tool, or shorten the work",
        ),
        "travel": CheckKind(
            "a slide goes as far as its travel", "set the work anew for the rest, or take a larger machine"
        ),
        "slender": CheckKind(
            "slender work is supported", "bring up the tailstock centre or a steady, or grip it shorter"
        ),
        "steady": CheckKind(
            "a steady runs on a true round within its range, clear of the tool",
            "set it elsewhere, or turn a place for it",
        ),
        "centre": CheckKind(
            "a tool cannot go where the centre stands", "take the support away first (`support: none`)"
        ),
        "centre-hole": CheckKind("a centre runs in a centre hole", "centre drill that end first"),
        "stiffness": CheckKind("work that bends is not cut to size", "support it, or write a lighter `depth`"),
        # What cuts, and on which machine
        "tool": CheckKind("an operation needs a tool that the workshop has", f"do it another way, {_IN_THE_FILE}"),
        "tool-kind": CheckKind(
            "a tool does the work that its kind does", "name a tool of the right kind, or leave the choice to the sheet"
        ),
        "size-by-tool": CheckKind(
            "a hole or slot is as large as its tool leaves it", "take a tool of that grade, or bore it to size"
        ),
        "saw-width": CheckKind("a saw makes a slot of its own width", "take a saw of that width, or an end mill"),
        "size-of-check": CheckKind(
            "an operation makes the size that its check wants", "write the same size in both, or check it elsewhere"
        ),
        "tool-size": CheckKind("a cut is as large as its tool", f"take a size that is there, {_IN_THE_FILE}"),
        "cam-push": CheckKind(
            "a cam pushes along the line of its follower, 30 degrees beside it at most",
            "a larger base or a longer rise",
        ),
        "cam-hollow": CheckKind("a cutter goes into the hollow of its cam", "take a smaller cutter"),
        "button": CheckKind("filing buttons sit in a hole and are wider than it", "drill the hole first"),
        "button-step": CheckKind("an end is as wide as its buttons", "bring the end to width first"),
        "stroke-end": CheckKind(
            "a slotting tool runs out into free room at the end of its stroke",
            "bore a groove there (`groove: …, inside`) or cross-drill a hole, or slot right through",
        ),
        "tool-shape": CheckKind(
            "a tool leaves the shape that it has", f"take a tool of that angle or form, {_IN_THE_FILE}"
        ),
        "machine": CheckKind("a cutter needs a spindle that turns it", "name the machine in a set-up of its own"),
        "power": CheckKind("a cut needs no more than the motor gives", "write a lighter `depth`, `feed` or `speed`"),
        "speed": CheckKind(
            "work and machine turn at the speeds that they allow",
            "write a lower `speed`, name a slower machine, or do it by hand",
        ),
        "feed": CheckKind(
            "a feed is a small share of what the tool can take", "write a finer `feed`, or leave it to the sheet"
        ),
        "cutting-data": CheckKind("speed and feed come from the tables", "write `speed` and `feed`"),
        "reach": CheckKind(
            "a tool gets there and touches nothing else", "take a longer tool, or set the work otherwise"
        ),
        "way-in": CheckKind(
            "a tool comes in from the side where nothing stands",
            "cut a groove first, say `left hand`, or turn the work round",
        ),
        # What becomes of the metal
        "removes-metal": CheckKind("a cut takes metal", "check its place and size, or take the operation away"),
        "piece": CheckKind("a method says what is kept of the work", "say what to `keep`, or change the cut"),
        "kept": CheckKind(
            "sawing out leaves what is to be kept", "come from the other side, or name in `keep` what is there"
        ),
        "carried-ends": CheckKind(
            "when a core is cut out, something still carries both ends",
            "`keep` what joins them, or leave more standing",
        ),
        "repeat": CheckKind("holes stand clear of each other", "check places, circle and size"),
        "order": CheckKind("what holds or guides a later cut is made before it", "put the other operation first"),
        "reaming-allowance": CheckKind(
            "a reamer takes a few tenths of a millimetre", "drill or bore the hole to leave it so much"
        ),
        "allowance": CheckKind(
            "laps and hones take hundredths", "leave less, or more, in the cut before: `leave`, or another size"
        ),
        "broach-hole": CheckKind(
            "a broach is guided by a hole of its size", "drill or bore the hole to the size across the flats first"
        ),
        "ring": CheckKind("a retaining ring has the size of its shaft or bore", "take the ring for that diameter"),
        "spring-stress": CheckKind(
            "the wire of a spring stays below what it bears when the coils touch",
            "thicker wire, more coils, or closer together",
        ),
        "mandrel-size": CheckKind(
            "a spring is wound on a mandrel of the size that is said", "turn the mandrel to size first"
        ),
        "gear-blank": CheckKind("the blank of a gear is module times teeth and two", "turn the blank to size first"),
        "heat-treatment": CheckKind(
            "steel is hardened, tempered and annealed at its own temperatures",
            "take the temperature of the table, or of the sheet that comes with the bar",
        ),
        "tapping-drill": CheckKind("a tapping hole leaves half to nine tenths of the thread", "drill the tapping size"),
        "thread-end": CheckKind(
            "a thread needs room for its lead and its run-out", "drill deeper, cut a groove, or thread less far"
        ),
        "thread-form": CheckKind("a tool cuts the thread of its own angle and hand", "take the tool for that thread"),
        "blank": CheckKind("a die runs on a blank of the thread's diameter", "turn the blank to size first"),
        "corner": CheckKind(
            "the nose of a tool leaves its radius in a corner", "take a sharper tool, an undercut, or say `corner`"
        ),
        "overlap": CheckKind(
            "nominal shapes of mating pieces meet without overlap", "check sizes and places of both pieces"
        ),
        "seat": CheckKind("a piece touches its seat", "check its place: `at`, `offset`, `turned`"),
        "in-line": CheckKind("seats of one piece lie on one axis", "drill and ream all walls in one set-up"),
        "square": CheckKind(
            "a driven piece goes in square to its walls", "mill a flat or a spot face square to the hole first"
        ),
        "rivet": CheckKind(
            "a rivet holds two pieces or more that lie together", "lay them together and drill them in one"
        ),
        "rivet-hole": CheckKind(
            "a rivet goes in with a little room, and fills its hole when it is closed", "drill the usual hole"
        ),
        "rivet-grip": CheckKind(
            "a rivet longer than five diameters bends and does not fill its hole", "take a thicker rivet, or a bolt"
        ),
        "rivet-head": CheckKind(
            "a head lies on metal or in its countersink, with room for the snap",
            "move the rivet, or countersink for it",
        ),
        "rivet-edge": CheckKind(
            "a rivet stands one and a half diameters from every edge", "move it inwards, or take a thinner one"
        ),
        "rivet-length": CheckKind("what stands out makes the head", "take a rivet of the length that is told"),
        "taken-apart": CheckKind(
            "what comes off is a piece of this method of one body", "give it a set-up of its own before it is joined"
        ),
        "joint-material": CheckKind("a material stands the way in which it is joined", "join it in another way"),
        "secured": CheckKind("what is secured stands in the work", "join it first, then secure it"),
        "bead": CheckKind("a bead has room for its throat", "chamfer the mouth, or let the piece stand out"),
        "heat-after": CheckKind(
            "heat spoils what was bonded, hardened, finished or closed before it", "put the hot operation first"
        ),
        "joint-gap": CheckKind("a filler has the gap that it wants", "change the hole or the piece"),
        "press-force": CheckKind(
            "a press fit needs no more than the press gives", "take a lighter fit, or warm the hub"
        ),
        "hub": CheckKind("a hub holds the fit with its stresses below yield", "take a lighter fit, or a thicker hub"),
        "measured-size": CheckKind("a size that is measured is one that is there", "check the size, or the operation"),
        "finished-surface": CheckKind("a cut takes nothing of the finished part", "check its place and size"),
        "intended-part": CheckKind(
            "the finished work is the part of the `part` block", "change the cut, or the `part` block"
        ),
        "runs-true": CheckKind(
            "surfaces that are to run true are cut in one holding, or in holdings that run truly enough",
            "cut both in one holding, or hold it between centres",
        ),
        "program": CheckKind(
            "what the program failed at is known neither as right nor as wrong",
            "look at it yourself, and report the fault together with the method file",
        ),
        "follows-failed": CheckKind("an operation follows those before it", "mend the operation before it"),
    }
)
"""Every check by its key."""
