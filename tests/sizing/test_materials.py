"""The sheets a cage is made of."""

from __future__ import annotations

import pytest

from sizing.materials import sheet
from sizing.measures import Material


@pytest.mark.parametrize("material", Material)
def test_both_coatings_hold_zinc(material: Material) -> None:
    """Acid vapour attacks either sheet."""
    assert 0 < sheet(material).zinc_share <= 1
    assert sheet(material).hurt_by_acid


def test_aluminium_zinc_holds_less_zinc() -> None:
    """Less than half of the aluminium-zinc coating is zinc."""
    assert sheet(Material.ALUMINIUM_ZINC).zinc_share * 2 < sheet(Material.GALVANISED).zinc_share
