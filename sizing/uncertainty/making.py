"""How sure a cut length is."""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING

from sizing.tolerances import deviation

if TYPE_CHECKING:
    from sizing.units import Mm

__all__ = ["cut"]


def cut(grade: str, size: Mm) -> float:
    """Standard uncertainty [mm] of a cut of nominal `size` [mm]: its tolerance over √3.

    Raises `KeyError` for a class that is not in the table and `ValueError` for a size for
    which the table has none (under 0.5, over 2000).
    Source: ISO 2768-1, 1989; JCGM 100 (GUM), 4.3.7, 2008.
    """
    either_way = deviation(size, grade)
    if either_way is None:
        raise ValueError(size)
    return float(either_way) / sqrt(3)
