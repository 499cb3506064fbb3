"""Lengths as whole numbers, so that planning is exact and fast."""

from __future__ import annotations

from math import lcm
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sizing.units import Mm

__all__ = ["parts_in_a_mm"]


def parts_in_a_mm(lengths: Iterable[Mm]) -> int:
    """The least number of parts of a millimetre in which all `lengths` [mm] are whole.

    Source: least common multiple of the denominators.
    """
    return lcm(*(length.denominator for length in lengths))
