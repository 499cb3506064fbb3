"""The sheets a cage is made of (`data/materials.toml`)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from sizing.data import table
from sizing.errors import DataError

if TYPE_CHECKING:
    from sizing.measures import Material

__all__ = ["Sheet", "sheet"]

_FILE = "materials.toml"


@dataclass(frozen=True, slots=True)
class Sheet:
    """What is known of one coated sheet: share of zinc in the mass of its coating, 0 to 1."""

    material: Material
    zinc_share: Fraction
    source: str

    @property
    def hurt_by_acid(self) -> bool:
        """Whether acid vapour in the hive attacks the coating: there is zinc in it."""
        return self.zinc_share > 0


@cache
def sheet(material: Material) -> Sheet:
    """What is known of `material`; its zinc as a share of the coating's mass [1], 0 to 1.

    Raises `DataError` for a material that is not in the data.
    Source: `data/materials.toml`, each row with its own.
    """
    rows = table(_FILE)["material"]
    if material not in rows:
        raise DataError(_FILE, material, "missing")
    row = rows[material]
    return Sheet(material, Fraction(row["zinc_share"]), row["source"])
