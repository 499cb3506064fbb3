"""General tolerances: how far a made length may lie from the drawing's."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.data import table

if TYPE_CHECKING:
    from sizing.units import Mm

__all__ = ["deviation"]

_FILE = "tolerances.toml"


def deviation(length: Mm, tolerance_class: str) -> Mm | None:
    """Permissible deviation [mm], plus or minus, of a `length` [mm] made to a class (f or m).

    None below 0.5 mm and above 2000 mm, where the table has none. Raises `KeyError` for a class
    that is not in the table.
    Source: ISO 2768-1:1989, table 1; in `data/tolerances.toml`.
    """
    rules = table(_FILE)["general"]
    row = rules["deviation"][tolerance_class]
    if length < Fraction(rules["above"]):
        return None
    for bound, value in zip(rules["up_to"], row, strict=True):
        if length <= bound:
            return Fraction(value)
    return None
