"""How fast, how deep and how hard does a tool cut?"""

TITLE = "Cutting"
PLACE = 1
SUBJECTS = {
    "cutting": "Speeds and feeds",
    "cutting-data": "Recommended speeds",
    "cutting-force": "Cutting force",
    "cutting-power": "Cutting power",
    "drilling-force": "Drilling force",
    "milling-force": "Milling force",
    "deepest-cut": "Deepest cut",
    "chips": "Thickness of chips",
    "finish": "Surface finish",
    "tool-life": "Tool life",
    "removal": "Metal removed",
    "cutting-time": "Cutting time",
    "milling-time": "Milling time",
}
"""The subjects, in the order in which one looks for them, as they are called on the page."""
