"""Sheet and wire a cage is made of (`data/materials.toml`)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from sizing.data import table
from sizing.errors import DataError

if TYPE_CHECKING:
    from sizing.measures import Material
    from sizing.units import Mm

__all__ = ["Sheet", "Steel", "sheet", "steel"]

_FILE = "materials.toml"


@dataclass(frozen=True, slots=True)
class Steel:
    """What sheet and wire are made of: `density` [g/cm³], `elasticity` [N/mm²]."""

    density: Fraction
    elasticity: Fraction


@dataclass(frozen=True, slots=True)
class Sheet:
    """What is known of one coated sheet.

    `zinc_share`: share of zinc in the mass of its coating, 0 to 1. `coating` is the name it is
    ordered by, `coating_mass` [g/m²] that of both sides together, `coating_density` [g/cm³].
    """

    material: Material
    zinc_share: Fraction
    source: str
    coating: str
    coating_mass: Fraction
    coating_density: Fraction

    @property
    def hurt_by_acid(self) -> bool:
        """Whether acid vapour in the hive attacks the coating: there is zinc in it."""
        return self.zinc_share > 0

    @property
    def coating_each(self) -> Mm:
        """Thickness of the coating on each side [mm], from its mass and density."""
        return self.coating_mass / 2 / self.coating_density / 1000

    def mass_per_area(self, thickness: Mm) -> Fraction:
        """Mass [g/m²] of sheet whose nominal `thickness` [mm] includes the coating.

        Raises `ValueError` for sheet that is thinner than its two coatings.
        Source: nominal thickness includes the coating (EN 10327:2004, scope).
        """
        core = thickness - 2 * self.coating_each
        if core < 0:
            raise ValueError(thickness)
        return core * steel().density * 1000 + self.coating_mass


@cache
def steel() -> Steel:
    """Density [g/cm³] and elasticity [N/mm²] of the steel.

    Source: `data/materials.toml`, each row with its own.
    """
    rows = table(_FILE)["steel"]
    return Steel(*(Fraction(rows[name]["value"]) for name in ("density", "elasticity")))


@cache
def sheet(material: Material) -> Sheet:
    """What is known of `material`: zinc as a share of the coating's mass [1], 0 to 1; the coating.

    Raises `DataError` for a material that is not in the data.
    Source: `data/materials.toml`, each row with its own.
    """
    data = table(_FILE)
    rows, coatings = data["material"], data["coating"]
    if material not in rows or material not in coatings:
        raise DataError(_FILE, material, "missing")
    row, coating = rows[material], coatings[material]
    return Sheet(
        material=material,
        zinc_share=Fraction(row["zinc_share"]),
        source=row["source"],
        coating=coating["name"],
        coating_mass=Fraction(coating["both_sides"]),
        coating_density=Fraction(coating["density"]),
    )
