"""Tests of how results of calculations, sizes and tables of the whole part are put on the page."""

import json
from dataclasses import replace

import pytest
import samples
from sample_measures import mm
from sample_methods import method

from methodsheets.handbook.exchange import METHOD_FORMAT, method_schema
from methodsheets.pages import wording
from methodsheets.pages.closing import closing_blocks
from methodsheets.pages.data import data_text
from methodsheets.pages.elements import to_html
from methodsheets.pages.field_words import field_words, with_names
from methodsheets.pages.islands import Islands, lighter
from methodsheets.pages.operation import limit_fit
from methodsheets.pages.places import Places
from methodsheets.pages.working import calculation_blocks
from methodsheets.sheet.model import Calculation, Drawing, Limit, Table, Working
from methodsheets.sheet.words import Words
from methodsheets.trade.form.calculation import catalogue

ENTRY = samples.handbook().entries["eccentric-two-pieces"]


def test_every_field_of_every_result_has_words():
    names = {result.name for one in catalogue().values() for result in one.results if result.name}
    assert len(names) > 300
    for name in names:
        words = field_words(name)
        assert words.strip(), name
        assert "_" not in words, name


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("interference_max", "interference, greatest"),
        ("clearance_min", "clearance, least"),
        ("torque_min", "torque, least"),
        ("tpi", "threads to the inch"),
        ("hub_grows", "hub grows by"),
        ("by_power", "by power"),
        ("engagement_inch", "engagement, inch definition"),
        ("nominal", "nominal"),
    ],
)
def test_words_of_a_field(name, words):
    assert field_words(name) == words


def test_a_result_shows_words_and_the_name_to_call():
    fields = (("interference_max", mm(0.035)), ("note", "give hub_roughness too"))
    line = Calculation("seat", "bush in the frame", "", fields, Working("seat"), 5, 0)
    found = to_html(calculation_blocks([line]), Islands())
    assert "Interference, greatest" in found
    assert "<code>interference_max</code>" in found
    assert "give <code>hub_roughness</code> too" in found


def test_only_names_become_code():
    assert [type(piece).__name__ for piece in with_names("take 3/8 in, no names")] == ["Text"]
    assert [type(piece).__name__ for piece in with_names("hub_roughness and shaft_roughness")] == [
        "Code",
        "Text",
        "Code",
    ]


def test_tables_of_the_whole_part_are_printed():
    table = Table("Balancing the finished part", ("Plane", "Mass"), (("one", "3 g"), ("two", "4 g")))
    good = method("eccentric-two-pieces", samples.SMALL)
    found = to_html(
        closing_blocks(ENTRY, replace(good, totals=replace(good.totals, tables=(table,))), Places()), Islands()
    )
    assert "<caption>Balancing the finished part</caption>" in found
    assert "4 g" in found


def test_the_picture_of_a_fit_stands_with_its_calc_block_and_nowhere_else():
    fit = Drawing("fit-key", "fit", Words("seat: bush in the frame"), "Zones", scheme="calc-seat")
    other = replace(fit, key="balance-key", kind="balance", scheme="method")
    line = Calculation("seat", "bush in the frame", "", (), Working("seat"), 5, 0)
    good = method("eccentric-two-pieces", samples.SMALL)
    drawn = replace(good, calculations=(line,), drawings=(*good.drawings, fit, other))
    found = repr(closing_blocks(ENTRY, drawn, Places()))
    assert "fit-key" not in found
    assert "balance-key" in found


def test_names_with_commas_are_set_apart_by_semicolons():
    assert (
        wording.listed(["three-jaw chuck", "three-jaw chuck, soft jaws"])
        == "three-jaw chuck; three-jaw chuck, soft jaws"
    )
    assert wording.listed(["lathe", "mill", "lathe"]) == "lathe, mill"
    assert wording.listed([]) == "none"


@pytest.mark.parametrize(("name", "fit"), [("bore H7", ""), ("bore", "H7"), ('limits(16 mm, "H7")', "H7")])
def test_the_class_of_a_size_is_said_once(name, fit):
    assert limit_fit(Limit(name, mm(16), mm(16.018), mm(16), fit="H7")) == fit


def test_the_data_say_what_they_are():
    data = json.loads(data_text(ENTRY))
    assert data["format"] == METHOD_FORMAT
    assert set(method_schema()["required"]) <= set(data)


def test_formulas_are_put_in_light_and_keep_every_sign():
    heavy = (
        '<math xmlns="http://www.w3.org/1998/Math/MathML" displaystyle="true" alttext="f(3 mm)"><mi>f</mi><mo>&#x2061;</mo>'
        '<mn>3</mn><mspace width="0.2em"/><mtext>mm</mtext></math>'
    )
    assert lighter(heavy) == "<math><mi>f</mi><mo>\u2061</mo><mn>3</mn><mtext>\u202fmm</mtext></math>"
