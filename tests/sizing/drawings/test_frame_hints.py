"""Each frame picture measures what its name says."""

from __future__ import annotations

import pytest

from sizing.drawings.frame_hints import FRAME_HINTS
from sizing.drawings.model import MODEL
from sizing.drawings.shapes import Dimension
from sizing.measures import Measure


def arrow_of(measure: Measure) -> Dimension:
    """The arrow of the view that says how."""
    (arrow,) = FRAME_HINTS[measure]().views[0].dimensions
    return arrow


def size(arrow: Dimension) -> float:
    """How long an arrow is [mm]."""
    (ax, ay), (bx, by) = arrow.line
    return abs(by - ay) if arrow.upright else abs(bx - ax)


@pytest.mark.parametrize(
    ("measure", "length"),
    [
        (Measure.SIDE_TO_SIDE, MODEL.side_to_side),
        (Measure.TOP_TO_BOTTOM, MODEL.top_to_bottom),
        (Measure.LUG_TO_LUG, MODEL.lug_to_lug),
        (Measure.LUG_THICKNESS, MODEL.lug_thickness),
        (Measure.WIDEST_WOOD, MODEL.widest_wood),
    ],
)
def test_the_arrow_is_as_long_as_the_length_it_shows(measure: Measure, length: float) -> None:
    """The picture is drawn from the same numbers that it asks for."""
    assert size(arrow_of(measure)) == pytest.approx(length)


def test_side_to_side_touches_the_outer_wood() -> None:
    """Not the inner faces: those are the mistake beside it."""
    scene = FRAME_HINTS[Measure.SIDE_TO_SIDE]()
    right, inside, with_lugs = scene.views
    outer = MODEL.side_to_side / 2
    assert right.dimensions[0].start[0] == -outer
    assert right.dimensions[0].end[0] == outer
    assert inside.dimensions[0].end[0] == outer - MODEL.bar
    assert with_lugs.dimensions[0].end[0] == MODEL.lug_to_lug / 2


def test_top_to_bottom_runs_from_the_top_face_to_what_the_frame_stands_on() -> None:
    """Both ends touch wood or table, none the opening."""
    arrow = arrow_of(Measure.TOP_TO_BOTTOM)
    assert arrow.upright
    assert {arrow.start[1], arrow.end[1]} == {MODEL.top, MODEL.bottom}


def test_the_bar_is_thicker_than_the_lug_where_the_two_could_be_mixed_up() -> None:
    """Each of the two pictures strikes out the other's length."""
    bar = FRAME_HINTS[Measure.TOP_BAR_THICKNESS]().views
    lug = FRAME_HINTS[Measure.LUG_THICKNESS]().views
    assert size(bar[0].dimensions[0]) > size(bar[1].dimensions[0])
    assert size(lug[0].dimensions[0]) < size(lug[1].dimensions[0])


def test_one_side_of_the_comb_is_half_of_it() -> None:
    """The struck arrow runs from the middle wall to one face."""
    whole, half = FRAME_HINTS[Measure.COMB_THICKNESS]().views
    assert size(half.dimensions[0]) == pytest.approx(size(whole.dimensions[0]) / 2)


def test_the_lug_is_measured_across_not_the_bar() -> None:
    """The lug is narrower than the bar it belongs to."""
    lug, bar = FRAME_HINTS[Measure.LUG_WIDTH]().views
    assert size(lug.dimensions[0]) < size(bar.dimensions[0])
