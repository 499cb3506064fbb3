"""How wood moves: across the grain with its moisture, along the grain not at all."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from math import sqrt
from typing import TYPE_CHECKING

from sizing.data import table
from sizing.measures import Measure

if TYPE_CHECKING:
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["ACROSS_BODY", "ACROSS_FRAME", "growth", "movement"]

ACROSS_BODY = frozenset({Measure.LEDGE_DOWN, Measure.LEDGE_UP})
"""Lengths across the grain of the boards of a hive body."""
ACROSS_FRAME = frozenset({Measure.LUG_THICKNESS, Measure.TOP_BAR_THICKNESS, Measure.WIDEST_WOOD})
"""Lengths across the grain of the wood of a frame."""


@cache
def _coefficient() -> Fraction:
    return Fraction(table("uncertainty.toml")["wood"]["movement"]["value"])


def growth(length: Mm, moisture: Fraction) -> Mm:
    """Growth [mm] across the grain of `length` [mm] when its moisture rises by `moisture` [%].

    Negative where it falls; holds from about 6 to 14 % of moisture.
    Source: Wood Handbook (FPL-GTR-190), chapter 13, 2010; coefficient in the data.
    """
    return length * _coefficient() * moisture


def movement(length: Mm, figures: Figures) -> float:
    """Standard uncertainty [mm] of `length` [mm] across the grain, measured on any day.

    Rectangular over the swing of moisture: its growth over √12.
    Source: Wood Handbook; the swing is the figure `moisture_swing`.
    """
    return float(growth(length, figures.moisture_swing)) / sqrt(12)
