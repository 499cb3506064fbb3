"""What the bees set: how wide the gaps between the wires may be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sizing.measures import Purpose

if TYPE_CHECKING:
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["GapBand", "gap_band"]


@dataclass(frozen=True, slots=True)
class GapBand:
    """The clear gap between two wires [mm]: `limit` must not be passed, `least` is aimed at."""

    least: Mm
    limit: Mm

    @property
    def middle(self) -> Mm:
        """Middle of the band [mm], the gap that is aimed at."""
        return (self.least + self.limit) / 2

    def holds(self, gap: Mm) -> bool:
        """Whether `gap` [mm] lies in the band, bounds included."""
        return self.least <= gap <= self.limit


def gap_band(purpose: Purpose, figures: Figures) -> GapBand:
    """The band of gaps [mm] that serves `purpose`: about 4.1 to 4.3, or 2.8 to 3.25.

    Source: the workshop figures `gap_least_…` and `gap_limit_…`.
    """
    if purpose is Purpose.ISOLATE:
        return GapBand(figures.gap_least_isolate, figures.gap_limit_isolate)
    return GapBand(figures.gap_least_introduce, figures.gap_limit_introduce)
