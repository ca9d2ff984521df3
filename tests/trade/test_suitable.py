"""Which material takes which joint: the table is about joints and materials that there are, and heat spares no plastic.

Common practice, from memory, as the table says.
"""

from __future__ import annotations

import itertools

import pytest
from tests.method.bench import block, method, work_out

from methodsheets.trade.form.tables import read_table
from methodsheets.trade.joining.suitable import joint_suits
from methodsheets.vocabulary.joint import Joint

MATERIALS = read_table("materials").rows
PLASTICS = [row["name"] for row in MATERIALS if row["form"] == "plastic"]
HOT = [joint for joint in Joint if joint.row.hot]


def test_every_row_is_of_a_joint_and_a_material_that_there_are() -> None:
    words = {word for row in MATERIALS for word in (row["name"], row["group"], row["form"])}
    for row in read_table("joint_materials").rows:
        assert row["joint"] in set(Joint)
        assert row["of"] in words, row
        assert row["verdict"] in ("no", "care")
        assert row["note"]


@pytest.mark.parametrize(("joint", "name"), list(itertools.product(HOT, PLASTICS)))
def test_no_plastic_stands_a_hot_joint(joint: Joint, name: str) -> None:
    assert joint_suits(joint, name).verdict == "no"


@pytest.mark.parametrize("name", PLASTICS)
def test_no_plastic_is_pressed_without_a_word(name: str) -> None:
    assert joint_suits(Joint.PRESSED, name).note


def test_the_nearest_word_counts() -> None:
    assert joint_suits("pressed", "acrylic").verdict == "no", "its group, before its form"
    assert joint_suits("pressed", "delrin").verdict == "care"
    assert joint_suits("brazed", "EN1A").verdict == "yes"
    assert joint_suits("glued", "PTFE").verdict == "no", "its name, before its group"


PLUG = block("setup", "machine: lathe", "piece: plug", "stock: round 12 mm x 20 mm",
             "hold: three-jaw chuck, on 12 mm, grip 12 mm, end A out") + block("op", "chamfer: 0.5 mm")  # fmt: skip
MAIN = block("setup", "machine: lathe", "piece: main", "stock: round 40 mm x 60 mm",
             "hold: three-jaw chuck, on 40 mm, grip 15 mm, end A out")  # fmt: skip


@pytest.mark.parametrize(
    ("metal", "verb", "hole", "state", "tight"),
    [("delrin", "press in", 12, "passed", True), ("delrin", "silver-braze", 12.1, "failed", False),
     ("aluminium 6082", "silver-braze", 12.1, "failed", False), ("perspex", "press in", 12, "failed", False),
     ("EN1A", "silver-braze", 12.1, "", False), ("cast iron bar", "weld", 12, "passed", True)],
)  # fmt: skip
def test_a_joint_is_looked_at(metal: str, verb: str, hole: float, state: str, tight: bool) -> None:
    text = method(
        PLUG + MAIN + block("op", f"drill: {hole} mm, through") + block("op", f"{verb}: plug"), material=metal
    )
    done = work_out(text).live.operations[-1]
    found = [(check.state, check.tight) for check in done.checks if check.key == "joint-material"]
    assert found == ([(state, tight)] if state else [])
    told = {fact.key: str(fact.value) for fact in done.facts}
    if verb == "silver-braze":
        assert told["bond_force"].startswith("not known: the strength printed for butt joints"), "and why"
