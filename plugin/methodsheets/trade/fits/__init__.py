"""Which limits make two parts fit, and what does a pressed joint hold?"""

TITLE = "Fits"
PLACE = 3
SUBJECTS = {
    "iso286": "ISO 286 limits",
    "fits": "Fits",
    "recommended-fits": "Recommended fits",
    "general-tolerances": "General tolerances",
    "made-to-measured": "Made to a measured part",
    "press-fits": "Press fits",
    "shrink-fits": "Shrink fits",
    "lame": "Thick rings",
    "thin-walls": "Thin walls",
}
"""The subjects, in the order in which one looks for them, as they are called on the page."""
