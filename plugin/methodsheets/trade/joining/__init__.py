"""What does a pinned, welded, brazed or bonded joint hold?"""

TITLE = "Joining"
PLACE = 4
SUBJECTS = {
    "joining": "Joining",
    "brazing": "Brazing",
    "securing": "Securing",
    "rivets": "Rivets",
    "suitable": "What takes which joint",
}
"""The subjects, in the order in which one looks for them, as they are called on the page."""
