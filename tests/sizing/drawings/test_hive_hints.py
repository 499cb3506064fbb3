"""Each hive picture measures what its name says."""

from __future__ import annotations

import pytest

from sizing.drawings.hive_hints import HIVE_HINTS
from sizing.drawings.model import MODEL
from sizing.drawings.shapes import Dimension, View
from sizing.measures import Measure


def arrow_of(view: View) -> Dimension:
    """The one arrow of a view."""
    (arrow,) = view.dimensions
    return arrow


def size(arrow: Dimension) -> float:
    """How long an arrow is [mm]."""
    (ax, ay), (bx, by) = arrow.line
    return abs(by - ay) if arrow.upright else abs(bx - ax)


@pytest.mark.parametrize(
    ("measure", "length"),
    [
        (Measure.INSIDE_ALONG, MODEL.inside_along),
        (Measure.LUG_ROOM, MODEL.lug_room),
        (Measure.LEDGE_DOWN, MODEL.ledge_down),
        (Measure.LEDGE_UP, MODEL.ledge_up),
        (Measure.BELOW_SPACE, MODEL.below_space),
        (Measure.ABOVE_SPACE, MODEL.above_space),
    ],
)
def test_the_arrow_is_as_long_as_the_length_it_shows(measure: Measure, length: float) -> None:
    """The picture is drawn from the same numbers that it asks for."""
    assert size(arrow_of(HIVE_HINTS[measure]().views[0])) == pytest.approx(length)


def test_inside_along_is_taken_below_the_ledge_and_the_mistakes_are_longer_or_shorter() -> None:
    """Outside and above the ledge give too much, a tape without its case too little."""
    right, outside, above, tape = HIVE_HINTS[Measure.INSIDE_ALONG]().views
    arrow = arrow_of(right)
    assert arrow.start[1] < 0
    assert size(arrow_of(outside)) == MODEL.inside_along + 2 * MODEL.wall
    assert size(arrow_of(above)) == MODEL.lug_room
    assert size(arrow_of(tape)) < MODEL.inside_along


def test_the_two_sticks_touch_both_walls() -> None:
    """Each stick reaches one wall, and they overlap in the middle."""
    right = HIVE_HINTS[Measure.INSIDE_ALONG]().views[0]
    (left,), (other,) = right.part("left_stick"), right.part("right_stick")
    assert min(x for x, _ in left.points) == -MODEL.inside_along / 2
    assert max(x for x, _ in other.points) == MODEL.inside_along / 2
    assert max(x for x, _ in left.points) > min(x for x, _ in other.points)


def test_lug_room_is_taken_over_the_ledge() -> None:
    """At the height of the lugs, between what stops them."""
    arrow = arrow_of(HIVE_HINTS[Measure.LUG_ROOM]().views[0])
    assert 0 < arrow.start[1] < MODEL.ledge_up


def test_ledge_down_ends_at_the_lower_edge_of_the_body() -> None:
    """Not on the floor under it and not from the rim: those are struck out."""
    right, to_floor, from_rim = HIVE_HINTS[Measure.LEDGE_DOWN]().views
    assert arrow_of(right).end[1] == -MODEL.ledge_down
    assert arrow_of(to_floor).end[1] == -MODEL.ledge_down - MODEL.below_space
    assert arrow_of(from_rim).start[1] == MODEL.ledge_up


def test_the_space_below_begins_at_the_body_not_at_the_frame() -> None:
    """The struck arrow begins at the frame's lowest wood."""
    right, wrong = HIVE_HINTS[Measure.BELOW_SPACE]().views
    assert arrow_of(right).start[1] == -MODEL.ledge_down
    assert arrow_of(wrong).start[1] == MODEL.bottom
