"""How damp wood becomes in air, and how much a hive body grows and shrinks with that."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from sizing.data import table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sizing.units import Mm

__all__ = ["body_swing", "coefficient", "equilibrium"]

_FILE = "wood.toml"


def equilibrium(temperature: Fraction, humidity: Fraction) -> Fraction:
    """Moisture [%] of wood in air of `temperature` [°C] and relative `humidity` [1].

    Holds for about -10 to 70 °C. Raises `ValueError` for a humidity that is not from 0 to
    under 1. Source: Simpson, FPL-RN-0268, 1998; its constants in `data/wood.toml`.
    """
    if not 0 <= humidity < 1:
        raise ValueError(humidity)
    row = table(_FILE)["air"]["equilibrium"]
    w, k, k1, k2 = (_polynomial(row[name], temperature) for name in ("w", "k", "k1", "k2"))
    kh = k * humidity
    first, second = k1 * kh, k1 * k2 * kh**2
    bound = kh / (1 - kh) + (first + 2 * second) / (1 + first + second)
    return Fraction(row["scale"]) / w * bound


def _polynomial(terms: Sequence[Fraction], at: Fraction) -> Fraction:
    return sum((Fraction(term) * at**power for power, term in enumerate(terms)), Fraction(0))


def coefficient(shrinkage: Fraction) -> Fraction:
    """Change of a length across the grain [1 per % of moisture], from its whole shrinkage [%].

    `shrinkage` is that from green to oven-dry, above 0 and under 100; `ValueError` otherwise.
    Source: Wood Handbook, chapter 13, 2010; counted from the moisture in `data/wood.toml`.
    """
    if not 0 < shrinkage < 100:
        raise ValueError(shrinkage)
    rows = table(_FILE)["shrinkage"]
    saturation = Fraction(rows["saturation"]["value"])
    below = saturation - Fraction(rows["counted_from"]["value"])
    return shrinkage / (100 * saturation - shrinkage * below)


def body_swing(depth: Mm) -> Mm:
    """How much higher [mm] a hive body of `depth` [mm] is in its dampest air than in its driest.

    Source: softwood board and air of a hive in `data/wood.toml`.
    """
    return depth * _swing()


@cache
def _swing() -> Fraction:
    data = table(_FILE)
    dry, wet = (
        equilibrium(Fraction(air["temperature"]), Fraction(air["humidity"]))
        for air in (data["climate"]["dry"], data["climate"]["wet"])
    )
    return coefficient(Fraction(data["shrinkage"]["board"]["value"])) * (wet - dry)
