"""The sheets a cage is made of."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizing.materials import sheet, steel
from sizing.measures import Material


@pytest.mark.parametrize("material", Material)
def test_both_coatings_hold_zinc(material: Material) -> None:
    """Acid vapour attacks either sheet."""
    assert 0 < sheet(material).zinc_share <= 1
    assert sheet(material).hurt_by_acid


def test_aluminium_zinc_holds_less_zinc() -> None:
    """Less than half of the aluminium-zinc coating is zinc."""
    assert sheet(Material.ALUMINIUM_ZINC).zinc_share * 2 < sheet(Material.GALVANISED).zinc_share


@pytest.mark.parametrize("material", Material)
def test_coated_sheet_weighs_less_than_steel_of_the_same_thickness(material: Material) -> None:
    """The coating is counted in the nominal thickness, and it is lighter than steel."""
    thickness = Fraction(1)
    coated = sheet(material).mass_per_area(thickness)
    assert coated < steel().density * 1000
    assert 2 * sheet(material).coating_each < thickness / 10


def test_the_lighter_coating_is_as_thick() -> None:
    """150 g of aluminium-zinc are as thick as 275 g of zinc, to a few per cent."""
    zinc = sheet(Material.GALVANISED).coating_each
    assert abs(sheet(Material.ALUMINIUM_ZINC).coating_each / zinc - 1) < Fraction(1, 20)
