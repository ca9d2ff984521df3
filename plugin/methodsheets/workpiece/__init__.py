"""What does the half-made part look like to the shop: its ends, faces, angles, pieces and how it is held?"""

from .bodies import Body, Mark
from .datum import FACES, Ends, Holding, TurningFrame, VicePose
from .measures import sizes_of
from .rings import is_slit
from .seats import Clash, Fitting, Seat, Sits
from .state import State
from .stock import Stock, casting, flat_bar, hexagon_bar, plate, round_bar, square_bar, tube, turned_blank
from .surfaces import (
    Flat,
    finished_faces,
    flats,
    held_flats,
    held_in_vice,
    held_surface,
    held_taper,
    round_surfaces,
    skin_facing,
    skin_left,
    skin_of_diameter,
    skin_taken,
    touched_surfaces,
)
from .weight import Unbalance, Weight, mass, unbalance
from .work import Cut, Join, Kept, Workpiece, largest, towards

__all__ = [
    "FACES",
    "Body",
    "Clash",
    "Cut",
    "Ends",
    "Fitting",
    "Flat",
    "Holding",
    "Join",
    "Kept",
    "Mark",
    "Seat",
    "Sits",
    "State",
    "Stock",
    "TurningFrame",
    "Unbalance",
    "VicePose",
    "Weight",
    "Workpiece",
    "casting",
    "finished_faces",
    "flat_bar",
    "flats",
    "held_flats",
    "held_in_vice",
    "held_surface",
    "held_taper",
    "hexagon_bar",
    "is_slit",
    "largest",
    "mass",
    "plate",
    "round_bar",
    "round_surfaces",
    "sizes_of",
    "skin_facing",
    "skin_left",
    "skin_of_diameter",
    "skin_taken",
    "square_bar",
    "touched_surfaces",
    "towards",
    "tube",
    "turned_blank",
    "unbalance",
]
