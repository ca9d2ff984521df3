"""Are the materials consistent, and are their names told apart?"""

from __future__ import annotations

import dataclasses

import pytest

from methodsheets.trade.cutting.cutting_tables import group_of
from methodsheets.trade.form.calculation import NotInTable
from methodsheets.trade.form.tables import read_table
from methodsheets.trade.metal.heat import hardness_after_temper, temper_for
from methodsheets.trade.metal.materials import material, material_names, tensile_from_hardness

WANTED = (
    "EN1A",
    "EN1A-Pb",
    "11SMn30",
    "EN3B",
    "EN8",
    "EN16T",
    "EN24T",
    "silver steel",
    "gauge plate",
    "EN-GJL-250",
    "CZ121",
    "CW614N",
    "CZ108",
    "PB1",
    "PB102",
    "SAE660",
    "LG2",
    "6082-T6",
    "2011",
    "7075",
    "copper",
    "303",
    "304",
    "316",
    "acetal",
    "nylon",
    "PTFE",
    "titanium",
    "S235",
    "1018",
    "6061",
)
EVERY = pytest.mark.parametrize("name", material_names())


@EVERY
def test_values_are_in_order_and_of_the_right_size(name: str) -> None:
    found = material(name)
    for field in ("density", "modulus", "poisson", "expansion"):
        low, likely, high = (getattr(found, field + end) for end in ("_low", "", "_high"))
        assert 0 < low <= likely <= high <= 4 * low
    assert found.yield_low <= found.yield_strength <= found.yield_high
    assert found.yield_strength <= found.tensile_strength
    assert 800 < found.density < 12000
    assert 300 < found.modulus < 250_000
    assert 0.1 < found.poisson < 0.5
    assert 5e-6 < found.expansion < 250e-6
    assert found.sources[-1].startswith(("all", "all other"))
    assert group_of(found.group).name == found.group


def test_no_name_belongs_to_two_materials() -> None:
    owners: dict[str, str] = {}
    for name in material_names():
        for spoken in (name, *material(name).equivalents):
            plain = "".join(letter for letter in spoken.lower() if letter.isalnum())
            assert owners.setdefault(plain, name) == name, spoken


@EVERY
def test_every_name_leads_home(name: str) -> None:
    found = material(name)
    for spoken in (found.name, *found.equivalents):
        for typed in (spoken, spoken.lower(), spoken.upper(), f" {spoken} "):
            assert material(typed) is found


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("en 1a", "EN1A"),
        ("EN-3B", "EN3B"),
        ("AISI 1020", "EN3B"),
        ("W.Nr. 1.0715", "EN1A"),
        ("BS 230M07", "EN1A"),
        ("DIN 42CrMo4", "EN19T"),
        ("mild steel", "EN3B"),
        ("brass", "CZ121"),
        ("cast iron", "GJL-250"),
        ("silver steel", "silver steel"),
        ("drill rod", "silver steel"),
        ("SAE 660", "SAE660"),
        ("delrin-like", None),
        ("en1b", None),
    ],
)
def test_names_people_type(typed: str, name: str | None) -> None:
    if name is None:
        with pytest.raises(NotInTable):
            material(typed)
    else:
        assert material(typed).name == name


def test_near_misses_are_suggested() -> None:
    with pytest.raises(NotInTable) as caught:
        material("aluminum alloy 6028")
    assert caught.value.what == "material"
    with pytest.raises(NotInTable, match="did you mean"):
        material("EN1B")


def test_the_materials_the_trade_asks_for_are_there() -> None:
    for name in WANTED:
        assert material(name).density > 0


def test_a_material_is_frozen() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        material("EN1A").density = 1.0  # type: ignore[misc]


def test_strength_from_hardness_agrees_with_the_table_of_steels() -> None:
    for name in ("EN3B", "C45", "EN9", "C60", "EN19T", "EN24T"):
        found = material(name)
        assert found.hardness is not None
        assert tensile_from_hardness(found.hardness) == pytest.approx(found.tensile_strength, rel=0.1)


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("aluminium 6082", "6082-T6"), ("6082 aluminium", "6082-T6"), ("acetal rod", "acetal"), ("gunmetal", "LG2"), ("leaded gunmetal", "LG2"),
        ("cast iron bar", "GJL-250"), ("silver steel", "silver steel"), ("gauge plate", "gauge plate"), ("brass bar", "CZ121"),
        ("phosphor bronze", "PB102"), ("mild steel", "EN3B"), ("bright bar", "EN3B"), ("black bar", "S235"), ("stainless", "304"),
        ("stainless steel 316", "316"), ("aluminium plate", "5083"), ("leaded mild steel", "EN1A-Pb"), ("copper tube", "C101"),
        ("Brass  Bar", "CZ121"), ("MILD STEEL", "EN3B"), ("cotton laminate", "phenolic laminate"),
        ("delrin", "acetal"), ("Delrin rod", "acetal"), ("black delrin", "acetal"), ("tufnol", "phenolic laminate"),
        ("tufnol sheet", "phenolic laminate"), ("perspex", "acrylic"), ("fibreglass", "glass laminate"), ("piano wire", "music wire"),
        ("316 stainless", "316"), ("steel EN8", "EN8"), ("EN24T steel", "EN24T"), ("brass CZ121", "CZ121"), ("6082 aluminium plate", "6082-T6"),
        ("aluminum 6061", "6061-T6"), ("LG2 gunmetal", "LG2"), ("bronze SAE660", "SAE660"), ("dural bar", "2014-T6"),
    ],
)  # fmt: skip
def test_names_as_people_say_them(said: str, name: str) -> None:
    assert material(said).name == name


FAMILIES = {"steel": "steel", "aluminium": "aluminium", "brass": "brass", "bronze": "bronze", "plastic": "plastic"}


@pytest.mark.parametrize("name", material_names())
def test_a_grade_is_found_with_its_family_and_its_form(name: str) -> None:
    """Whatever the grade: "EN8 bar", and before or behind it the name of its family; another family refuses it."""
    found = material(name)
    assert material(f"{name} bar").name == name
    for family, form in FAMILIES.items():
        if found.form == form:
            assert {material(f"{family} {name}").name, material(f"{name} {family}").name} == {name}
    other = "brass" if found.form != "brass" else "steel"
    with pytest.raises(NotInTable):
        material(f"{other} {name}")


def test_steel_is_softer_the_hotter_it_was_tempered() -> None:
    """Every row of the table, from memory, both ways; beyond a steel's rows nothing is known."""
    rows = read_table("temper_hardness").rows
    for steel in {row["material"] for row in rows}:
        curve = [(float(row["at"]), float(row["hrc"])) for row in rows if row["material"] == steel]
        assert curve == sorted(curve, key=lambda one: (one[0], -one[1]))
        assert [hard for _, hard in curve] == sorted({hard for _, hard in curve}, reverse=True)
        for at, hard in curve:
            assert hardness_after_temper(steel, at) == pytest.approx(hard)
            assert temper_for(steel, hard) == pytest.approx(at)
        assert hardness_after_temper(steel, curve[-1][0] + 1) is None
        assert temper_for(steel, curve[0][1] + 0.5) is None
    assert hardness_after_temper("EN8", 200) is None
