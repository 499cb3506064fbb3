"""How far lengths differ from one frame to the next, and from one hive body to the next."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sizing.measures import HIVE_LENGTHS, Measure

if TYPE_CHECKING:
    from sizing.workshop import Figures

__all__ = ["spread"]

_OF_FRAMES = {
    Measure.SIDE_TO_SIDE: "spread_side_to_side",
    Measure.TOP_TO_BOTTOM: "spread_top_to_bottom",
    Measure.LUG_TO_LUG: "spread_lug_to_lug",
    Measure.LUG_THICKNESS: "spread_lug_thickness",
    Measure.COMB_THICKNESS: "spread_comb_thickness",
}


def spread(measure: Measure, figures: Figures) -> float:
    """Standard deviation [mm] of `measure` between frames, or between hive bodies; 0 or more.

    Source: the `spread_…` figures of `data/workshop.toml`.
    """
    if measure in HIVE_LENGTHS:
        return float(figures.spread_box)
    name = _OF_FRAMES.get(measure)
    return 0.0 if name is None else float(getattr(figures, name))
