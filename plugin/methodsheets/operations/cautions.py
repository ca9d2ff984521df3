"""Which usual cautions belong to this set-up or operation, and in which words?

These are the customary warnings of the trade, from memory of common workshop teaching. They do not replace the
machine's manual, local rules or licensed practice, and every page that shows one says so.
"""

from __future__ import annotations

from methodsheets.sheet.model import Caution

DEFER = "Your machine's manual, local rules and licensed practice come first."

WORDS: dict[str, str] = {
    "eyes": "Wear eye protection. Stop the spindle before you clear swarf, and use a hook or a brush, never a hand.",
    "chuck-key": (
        "Take the chuck key out before the hand leaves it. Turn the work a full turn by hand before you start."
    ),
    "unbalanced": (
        "This work is out of balance. Start at the lowest speed, stay under the speed ceiling given here, "
        "stand clear of the plane of the chuck, and add a balance weight if the machine shakes."
    ),
    "offset": (
        "Work set off the axis sweeps a larger circle than its size. Turn it once by hand past the tool and the bed."
    ),
    "parting": (
        "Parting: blade at centre height and square, least overhang, slides locked, cut close to the chuck. "
        "Do not catch the piece by hand and do not part between centres."
    ),
    "slender": "Long slender work can climb out or whip. Support it as the set-up says before you start the spindle.",
    "dead-centre": (
        "A centre that does not turn rubs: grease it, set it without force, and ease it when the work grows warm."
    ),
    "travelling-steady": (
        "Set the fingers of a travelling steady to the diameter just turned, oil them, and keep swarf out from "
        "under them."
    ),
    "stock-behind": (
        "Bar that sticks out behind the spindle can bend and whip round. "
        "Keep it inside the spindle or support and guard it."
    ),
    "files": (
        "Filing in the lathe: handle on the file, sleeves rolled, left hand over the chuck side, guard and "
        "chuck key checked."
    ),
    "drilling": (
        "Hold the work in a vice or clamp it; a drill that breaks through can grab. Ease the feed at breakthrough."
    ),
    "filing": "A handle on the file, and the work low and firm in the vice: an edge that has just been filed cuts.",
    "riveting": (
        "Goggles on: heads, snaps and hammers chip. Hold the rivet's head in a dolly on a firm block, keep fingers out "
        "from between, and close the head with the snap square to the plate."
    ),
    "tapping": (
        "Tap by hand or at the lowest speed with a slipping drive; a tap that bottoms breaks. Blow no swarf "
        "out of holes."
    ),
    "thread": (
        "At the end of each thread pass be ready to disengage; try the pass once clear of the work with the "
        "spindle slow."
    ),
    "milling": "Clamp the work and set the cutter before you start; keep hands and rags away from a turning cutter.",
    "climb": (
        "Climb milling pulls the work under the cutter: take the backlash out of the slide or lock it, cut lightly, "
        "and never by hand feed on a slack screw."
    ),
    "sawing": (
        "Clamp the work both sides of the cut where you can; the loose end falls and is sharp. Hands clear "
        "of the blade."
    ),
    "pressing": (
        "Pressing: stand aside of the line of force, use a guard or a rag round brittle parts, press straight, "
        "and stop if the force rises over the figure given."
    ),
    "hot": (
        "Hot metal looks like cold metal. Mark it, use tongs and dry gloves, keep the hearth clear of "
        "anything that burns."
    ),
    "brazing": (
        "Brazing: good ventilation; use cadmium-free filler; flux fume and hot pickle harm eyes and lungs. "
        "Never heat a closed hollow part: it can burst. Keep water and an extinguisher at hand."
    ),
    "welding": (
        "Welding: shade for the eyes and for people near you, dry gloves, covered skin, fume drawn off, "
        "nothing that burns near. Clean zinc, oil and solvents off first. "
        "Where a licence is required, it is for the licensed welder."
    ),
    "bead-pulls": (
        "A bead pulls the work as it cools: run it in short lengths on opposite sides, let each cool, and finish "
        "bearings and faces afterwards."
    ),
    "hollow": (
        "A closed hollow bursts when it is heated: leave or drill a vent into every blind hole that is shut. Oil, "
        "coolant and compound in the joint burn off first, so draw the fume off."
    ),
    "hardening": (
        "Hardening: face shield and gloves; oil can flare up, so quench in a steel tank with a lid at hand "
        "and outdoors or under extraction."
    ),
    "blueing": "Heat or chemical blueing: fume and caustic burns; ventilate, wear gloves and eye protection.",
    "retaining": "Retaining compounds and solvents: ventilate and wear gloves; keep off the skin.",
    "fluids": "Cutting fluid splashes and can smoke: guard up, no open flame, wash the skin after work.",
    "swarf-fire": (
        "Fine magnesium or titanium swarf burns and must not be put out with water. Keep it swept up and dry "
        "sand at hand."
    ),
    "plastic-heat": (
        "Plastic melts before it burns: sharp tool with plenty of rake, no dwelling, draw the drill out often. "
        "Let the work cool before you measure it, and clear the string of swarf with the spindle stopped."
    ),
    "plastic-fume": (
        "Overheated PTFE and PVC give off poisonous fume: keep it cool, and never let the swarf burn or smoke near it."
    ),
    "brittle-plastic": (
        "Brittle plastic cracks and crazes: grip it lightly, take a blunt-lipped drill and ease it at "
        "breakthrough; no spirit, no oil that crazes it."
    ),
    "laminate-dust": (
        "Dust of laminates harms lungs and skin: draw it off at the tool, wear a mask, and do not blow it. Cut dry, "
        "and back the far side up where the tool comes out, or the layers split."
    ),
    "spring-wire": (
        "Spring wire uncoils with force: slowest speed, the end hooked fast, face shield, and let the tension down "
        "before you cut it. Cut ends fly: hold both."
    ),
    "soldering": (
        "Soft solder: lead-free for preference, wash hands after lead; rosin fume harms lungs, acid flux the skin and "
        "the work: wash it off."
    ),
    "adhesive": "Adhesives: gloves, air, and the maker's sheet. Hardened dust and hot fume harm; heat parts the joint.",
    "long-swarf": "Long swarf cuts to the bone. Break it by stopping the feed for a moment; never pull it.",
    "iron-dust": "Iron dust is abrasive and gets into slides and lungs: cover the ways, and do not blow it.",
}

TOPICS: dict[str, str] = {
    "eyes": "Swarf",
    "chuck-key": "Chuck key",
    "unbalanced": "Out of balance",
    "offset": "Offset work",
    "parting": "Parting",
    "slender": "Slender work",
    "stock-behind": "Bar behind the spindle",
    "files": "Filing in the lathe",
    "drilling": "Drilling",
    "tapping": "Tapping",
    "thread": "Screw-cutting",
    "milling": "Milling",
    "sawing": "Sawing",
    "pressing": "Pressing",
    "hot": "Hot metal",
    "brazing": "Brazing",
    "welding": "Welding",
    "bead-pulls": "Spring of a bead",
    "hollow": "Closed hollows",
    "hardening": "Hardening",
    "blueing": "Blueing",
    "retaining": "Retaining compound",
    "fluids": "Cutting fluid",
    "swarf-fire": "Swarf that burns",
    "plastic-heat": "Plastic melts",
    "plastic-fume": "Fume of plastics",
    "brittle-plastic": "Brittle plastic",
    "laminate-dust": "Dust of laminates",
    "spring-wire": "Spring wire",
    "soldering": "Soft solder",
    "adhesive": "Adhesives",
    "long-swarf": "Long swarf",
    "iron-dust": "Iron dust",
}


OWN = "own"
"""Key of a caution in the author's own words."""


def topic(said: Caution) -> str:
    """What a caution is about, in a word or three: never its sentences."""
    if said.key == OWN:
        return "The author's own words"
    return TOPICS.get(said.key, said.key.replace("-", " ").capitalize())


def caution(key: str) -> Caution:
    """The caution of that key, in the words the page prints."""
    return Caution(key, WORDS[key])
