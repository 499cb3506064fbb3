"""How far one frame differs from the next."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from sizing.measures import FRAME_LENGTHS, HIVE_LENGTHS, Measure
from sizing.uncertainty.spread import spread
from sizing.workshop import Figures


def test_frames_differ_and_boxes_do_not_unless_told(figures: Figures) -> None:
    """Each length of the frame in a chain has its spread; the hive's is a figure of the shop."""
    assert spread(Measure.SIDE_TO_SIDE, figures) == float(figures.spread_side_to_side) > 0
    assert {name for name in FRAME_LENGTHS if not spread(name, figures)} == {
        Measure.TOP_BAR_THICKNESS, Measure.LUG_WIDTH, Measure.WIDEST_WOOD,
    }  # fmt: skip
    assert {spread(name, figures) for name in HIVE_LENGTHS} == {0.0}
    uneven = replace(figures, spread_box=Fraction(1))
    assert {spread(name, uneven) for name in HIVE_LENGTHS} == {1.0}
    assert spread(Measure.SIDE_TO_SIDE, uneven) == spread(Measure.SIDE_TO_SIDE, figures)
