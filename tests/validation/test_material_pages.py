"""Do the materials agree with stockists' sheets and course appendices?"""

from __future__ import annotations

import pytest

from methodsheets.trade.metal.materials import Material, material

from .cases import MEMORY, Case, cases
from .record import record

MATERIALS = tuple(cases("fits", "material"))
NAMES = {
    "mat-s235": "S235",
    "mat-en3b": "EN3B",
    "mat-1018": "AISI 1018 cold drawn",
    "mat-en1a": "EN1A",
    "mat-silver": "silver steel",
    "mat-304": "304",
    "mat-316": "316",
    "mat-cz121": "CZ121",
    "mat-lg2": "LG2",
    "mat-pb102": "PB102",
    "mat-gjl250": "EN-GJL-250",
    "mat-6061": "6061-T6",
    "mat-2011": "2011-T3",
    "mat-7075": "7075-T6",
    "mat-acetal": "acetal",
    "mat-ptfe": "PTFE",
}


def fields(found: Material) -> dict[str, tuple[float, float, float]]:
    """Return low, likely and high under the names and units of the published cases."""
    return {
        "density_kg_m3": (found.density_low, found.density, found.density_high),
        "E_GPa": (found.modulus_low / 1000, found.modulus / 1000, found.modulus_high / 1000),
        "nu": (found.poisson_low, found.poisson, found.poisson_high),
        "alpha_1e-6_K": (found.expansion_low * 1e6, found.expansion * 1e6, found.expansion_high * 1e6),
        "yield_MPa": (found.yield_low, found.yield_strength, found.yield_high),
    }


@pytest.mark.copied
@pytest.mark.parametrize("entry", MATERIALS, ids=lambda entry: entry.name)
def test_ranges(entry: Case) -> None:
    """Our likely value lies in the published range, and our range is the published one or wider."""
    ours = fields(material(NAMES[entry.name]))
    for key, (low, high) in entry.expected.items():
        least, likely, most = ours[key]
        assert low * (1 - 1e-9) <= likely <= high * (1 + 1e-9), (entry.name, key, likely)
        assert least <= low * (1 + 1e-9), (entry.name, key, least)
        assert most >= high * (1 - 1e-9), (entry.name, key, most)
        said = (
            f"{entry.source} (from memory)" if entry.seen == MEMORY and "MEMORY" not in entry.source else entry.source
        )
        record("Materials, ends of ranges", said, least, low)
        record("Materials, ends of ranges", said, most, high)


def test_names_of_the_published_cases_are_known() -> None:
    for entry in MATERIALS:
        for name in entry.inputs["material"].split(" / "):
            plain = name.removesuffix(" bright").removesuffix(" cold drawn")
            for lead in ("structural steel ", "silver steel ", "stainless ", "free-cutting brass ", "gunmetal "):
                plain = plain.removeprefix(lead)
            for lead in ("phosphor bronze ", "grey cast iron ", "aluminium "):
                plain = plain.removeprefix(lead)
            plain = plain.split(" (")[0]
            assert material(plain).name == material(NAMES[entry.name]).name, name


def test_a_database_page_for_grey_iron_is_not_believed() -> None:
    """One page gives 180 GPa, 7.5 g/cm^3 and 0.29 for GJL-250: not credible for flake graphite."""
    iron = material("GJL-250")
    assert iron.modulus_high < 130e3
    assert iron.density_high < 7400
    assert iron.poisson_high < 0.28
