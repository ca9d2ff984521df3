"""How are angles, tapers and divisions set and measured?"""

TITLE = "Dividing and angles"
PLACE = 5
SUBJECTS = {
    "rotary-table": "Rotary table",
    "dividing": "Dividing",
    "compound-indexing": "Compound indexing",
    "pitch-circles": "Pitch circles",
    "angles": "Angles",
    "gears": "Gears",
    "cams": "Cams",
    "tapers": "Tapers",
    "taper-measuring": "Taper measuring",
}
"""The subjects, in the order in which one looks for them, as they are called on the page."""
