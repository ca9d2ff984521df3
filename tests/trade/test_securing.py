"""What a bead, a warm joint and a grub screw come to, against answers worked out another way."""

from __future__ import annotations

import math

import pytest

from methodsheets.trade.joining.joining import fillet_weld_length
from methodsheets.trade.joining.securing import bead_strength, bead_warms, grub_screw_holding


def test_a_bead_all_round_is_as_strong_as_a_run_of_its_length() -> None:
    """The published length for a force (textbook of strength of materials, example 17.3) turned round: 50 kN, leg 10."""
    length = fillet_weld_length(50_000, 10, 60, runs=1)
    bead = bead_strength(10 / math.sqrt(2), length / math.pi, 60)
    assert bead.force == pytest.approx(50_000, rel=1e-9)
    assert bead.torque == pytest.approx(50 * length / math.pi / 2)


def test_the_metal_of_a_bead_is_a_cone_frustum_less_a_cylinder() -> None:
    """V = π h / 3 (R² + R r + r²) - π r² h, with R = r + z and h = z."""
    bead = bead_strength(2, 16, 100)
    r, z = 8.0, bead.leg
    assert bead.volume == pytest.approx(math.pi * z / 3 * ((r + z) ** 2 + (r + z) * r + r * r) - math.pi * r * r * z)


def test_half_a_bead_carries_half() -> None:
    assert bead_strength(2, 16, 100, 0.5).force == pytest.approx(bead_strength(2, 16, 100).force / 2)


def test_work_and_bead_of_one_mass_share_the_heat() -> None:
    """A bead that melts with all of the heat, spread over its own mass, is as warm as its melt was."""
    assert bead_warms(10, 10, 2600, 1.0) == pytest.approx(2600)


def test_grub_screws_are_read_between_the_rows() -> None:
    """Textbook table of set-screw holding powers (from memory): 1/4 in 1000 lbf, 5/16 in 1500 lbf."""
    assert grub_screw_holding(6.35) == pytest.approx(1000 * 4.4482, rel=1e-3)
    assert grub_screw_holding(7.938) == pytest.approx(1500 * 4.4482, rel=1e-3)
    assert 4448 < grub_screw_holding(7) < 6672
    assert grub_screw_holding(7, 2) == 2 * grub_screw_holding(7)
