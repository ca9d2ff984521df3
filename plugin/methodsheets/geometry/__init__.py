"""What does the metal look like: solids whose facets remember the surface and the operation they come from?"""

from .compare import Difference, compare, facet_film, faults, overlap
from .frame import Z_AXIS, Axis, Frame
from .grow import grown
from .kernel import SolidKernel
from .mass import MassProperties, mass_properties
from .mesh import Mesh
from .outline import Arc, Line, Outline
from .profile import Profile, profile, shape_changes, swing
from .section import SectionProperties, cross_section_properties, section, section_at, sections_along, silhouette
from .solid import GeometryError, Solid
from .surface import STOCK, Surface

__all__ = [
    "STOCK",
    "Z_AXIS",
    "Arc",
    "Axis",
    "Difference",
    "Frame",
    "GeometryError",
    "Line",
    "MassProperties",
    "Mesh",
    "Outline",
    "Profile",
    "SectionProperties",
    "Solid",
    "SolidKernel",
    "Surface",
    "compare",
    "cross_section_properties",
    "facet_film",
    "faults",
    "grown",
    "mass_properties",
    "overlap",
    "profile",
    "section",
    "section_at",
    "sections_along",
    "shape_changes",
    "silhouette",
    "swing",
]
