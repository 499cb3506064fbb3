"""What the standard allows a cut (`data/uncertainty.toml`)."""

from __future__ import annotations

from bisect import bisect_left
from fractions import Fraction
from functools import cache
from math import sqrt
from typing import TYPE_CHECKING

from sizing.data import table

if TYPE_CHECKING:
    from sizing.units import Mm

__all__ = ["cut", "tolerance"]

_FILE = "uncertainty.toml"


@cache
def _bounds() -> tuple[Fraction, ...]:
    return tuple(Fraction(bound) for bound in table(_FILE)["tolerance"]["range"]["bounds"])


@cache
def _either_way(grade: str) -> tuple[Fraction, ...]:
    return tuple(Fraction(one) for one in table(_FILE)["tolerance"][grade]["either_way"])


def tolerance(grade: str, size: Mm) -> Mm:
    """Permissible deviation [mm], either way, of a cut of nominal `size` [mm].

    `grade`: f, m or c. Raises `KeyError` for another and `ValueError` for a size of less
    than 0.5 or more than 2000, for which the table has none.
    Source: ISO 2768-1, 1989.
    """
    bounds = _bounds()
    if not bounds[0] <= size <= bounds[-1]:
        raise ValueError(size)
    return _either_way(grade)[max(0, bisect_left(bounds, size) - 1)]


def cut(grade: str, size: Mm) -> float:
    """Standard uncertainty [mm] of a cut of nominal `size` [mm]: its tolerance over √3.

    Raises as `tolerance`. Source: ISO 2768-1, 1989; JCGM 100 (GUM), 4.3.7, 2008.
    """
    return float(tolerance(grade, size)) / sqrt(3)
