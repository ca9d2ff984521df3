"""Which drill, which thread and which screw?"""

TITLE = "Holes, threads and screws"
PLACE = 2
SUBJECTS = {
    "drilling": "Drilling",
    "drills": "Drills",
    "hole-making": "Hole making",
    "threads": "Threads",
    "taper-threads": "Taper pipe threads",
    "tapping": "Tapping",
    "thread-limits": "Thread limits",
    "thread-measuring": "Thread measuring",
    "screw-cutting": "Screw cutting",
    "screws": "Screws",
    "rings": "Retaining rings",
}
"""The subjects, in the order in which one looks for them, as they are called on the page."""
