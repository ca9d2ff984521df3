"""Does what undoes a calculation give back what went in, wherever on the way?

Each line names a calculation, the parameter that is sought again, the number that comes out, and the calculation that
undoes it with the parameter that takes that number. What both take goes into both.
"""

from __future__ import annotations

from typing import Any

import pytest

from methodsheets.trade.form.calculation import catalogue

from .examples import examples
from .walking import numbers_of

UNDONE = """
spindle_speed cutting_speed spindle_speed cutting_speed spindle_speed cutting_speed
spindle_speed diameter spindle_speed diameter_at_speed spindle_speed diameter_at_speed
cutting_speed diameter cutting_speed diameter_at_speed cutting_speed diameter_at_speed
feed_rate feed feed_rate feed_per_tooth feed_rate feed_per_tooth
feed_per_turn feed_rate feed_per_turn feed_rate feed feed_rate
power_of_torque torque power_of_torque torque_of_power power torque_of_power
pin_shear diameter pin_shear pin_diameter allowable_shear pin_diameter
interface_pressure interference interface_pressure interference_for_pressure pressure interference_for_pressure
boring_bar_bends overhang deflection longest_overhang deflection longest_overhang
thickest_chip feed thickest_chip feed_for_chip chip_thickness feed_for_chip
turned_roughness feed mean feed_for_roughness mean feed_for_roughness
turned_roughness nose_radius mean nose_radius_for_roughness mean nose_radius_for_roughness
tool_life_ratio speed_ratio tool_life_ratio speed_ratio_for_life life_ratio speed_ratio_for_life
sine_bar_height angle sine_bar_height sine_bar_angle height sine_bar_angle
radius_by_chord height radius_by_chord height_of_arc radius height_of_arc
over_wires effective over_wires effective_from_wires over effective_from_wires
four_jaw_reading throw four_jaw_reading four_jaw_move reading move
deepest_turning_cut motor_power depth_likely turning_load depth motor_power
deepest_milling_cut motor_power depth_likely milling_load depth motor_power
polygon_flats across_flats across_corners polygon_from_bar bar across_flats
bead_strength throat leg fillet_throat leg fillet_throat
drill_for_thread engagement wanted thread_engagement drill thread_engagement
angle_from_minutes degrees angle_from_minutes degrees_minutes_seconds angle degrees
"""
LINES = [line.split() for line in UNDONE.split("\n") if line]
FACTORS = (0.7, 0.83, 1.0, 1.13, 1.31)
ALL = catalogue()


def _same(name: str, said: dict[str, Any]) -> dict[str, Any]:
    return {p.name: said[p.name] for p in ALL[name].parameters if p.name in said}


@pytest.mark.parametrize("line", LINES, ids=lambda line: f"{line[0]}, {line[1]}")
def test_there_and_back(line: list[str]) -> None:
    there, sought, out, back, taken, given_back = line
    tried = 0
    for factor in FACTORS:
        example = examples()[there][0]
        start = example[sought] * factor
        said = {**example, sought: round(start) if isinstance(example[sought], int) and sought == "degrees" else start}
        try:
            found = numbers_of(ALL[there], ALL[there].function(**said))[out]
        except ValueError:
            continue
        returned = ALL[back].function(
            **{**_same(back, {k: v for k, v in said.items() if k != given_back}), taken: found}
        )
        assert numbers_of(ALL[back], returned)[given_back] == pytest.approx(said[sought], rel=1e-6)
        tried += 1
    assert tried >= 3
