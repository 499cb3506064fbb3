"""How likely a length is, as a curve looked up in steps of half a millimetre.

A curve is a row of peaks of one width over a thin floor, so that what agrees with nothing is
unlikely and never impossible. Floats: these are weights, no length is made from them.
"""

from __future__ import annotations

from math import exp, pi, sqrt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["Bell", "Curve"]

_STEPS = 2
_REACH = 4.5
"""So many widths from its middle a peak is counted as over."""


class Curve:
    """Density [1/mm] over lengths [mm].

    Peaks at `middles` of width `width` [mm] share `1 - floor`; `floor` is spread evenly over
    `low` … `high` [mm].
    """

    __slots__ = ("_first", "_values", "floor")

    def __init__(
        self, middles: Sequence[float], width: float, floor: float, low: float, high: float
    ) -> None:
        self.floor = floor / (high - low)
        reach = _REACH * width
        self._first = round((min(middles) - reach) * _STEPS)
        last = round((max(middles) + reach) * _STEPS)
        values = [self.floor] * (last - self._first + 1)
        peak = (1 - floor) / len(middles) / (width * sqrt(2 * pi))
        for middle in middles:
            begin, end = round((middle - reach) * _STEPS), round((middle + reach) * _STEPS)
            for place in range(begin, end + 1):
                off = (place / _STEPS - middle) / width
                values[place - self._first] += peak * exp(-off * off / 2)
        self._values = values

    def at(self, length: float) -> float:
        """Density [1/mm] at `length` [mm]; the floor beyond the last peak."""
        place = int(length * _STEPS + 1000.5) - 1000 - self._first
        return self._values[place] if 0 <= place < len(self._values) else self.floor


class Bell:
    """Density [1/mm] of a normal spread of `width` [mm] round what is known."""

    __slots__ = ("_values",)

    def __init__(self, width: float) -> None:
        peak = 1 / (width * sqrt(2 * pi))
        last = int(_REACH * width * _STEPS * 2) + 1
        self._values = [peak * exp(-((n / (2 * _STEPS) / width) ** 2) / 2) for n in range(last + 1)]

    def at(self, off: float) -> float:
        """Density [1/mm] at the distance `off` [mm] from its middle, on either side."""
        place = int(abs(off) * 2 * _STEPS + 0.5)
        return self._values[place] if place < len(self._values) else 0.0
