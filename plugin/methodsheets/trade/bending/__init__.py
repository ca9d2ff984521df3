"""How is work held, how far do work and tools bend, and how do errors add up?"""

TITLE = "Holding and bending"
PLACE = 6
SUBJECTS = {
    "holding": "Holding",
    "slender-work": "Slender work",
    "stiffness": "Bending of work",
    "beams": "Bending of beams",
    "offset-shafts": "Offset shafts",
    "spread-loads": "Spread loads",
    "tool-overhang": "Bending of tools",
    "springs": "Springs",
    "stacks": "Chains of sizes",
}
"""The subjects, in the order in which one looks for them, as they are called on the page."""
