"""Frames, bodies and bees keep the lengths they are drawn from."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable
from dataclasses import replace

import pytest

from sizing.drawings import parts
from sizing.drawings.model import MODEL
from sizing.drawings.shapes import Ink, Shape
from sizing.measures import Spacer


def extent(shapes: Iterable[Shape], name: str | None = None) -> tuple[float, float, float, float]:
    """Left, bottom, right, top [mm] of the shapes called `name`, or of all."""
    points = [p for s in shapes if name is None or s.part == name for p in s.points]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def test_the_front_of_a_frame_has_its_three_lengths() -> None:
    """Lug to lug over all, side to side between the side bars, top to bottom."""
    frame = parts.frame_front()
    left, bottom, right, top = extent(frame)
    assert right - left == MODEL.lug_to_lug
    assert top - bottom == MODEL.top_to_bottom
    assert extent(frame, "right_side_bar")[2] - extent(frame, "left_side_bar")[0] == 360


def test_the_body_leaves_its_lengths_free_between_the_walls() -> None:
    """Inside along below the ledge, lug room above it."""
    walls = parts.body_along()
    (left,) = [wall for wall in walls if wall.part == "left_wall"]
    assert (-MODEL.inside_along / 2, 0) in left.points
    assert (-MODEL.lug_room / 2, MODEL.ledge_up) in left.points
    assert extent(walls)[1] == -MODEL.ledge_down


@pytest.mark.parametrize(
    "corner", [parts.body_corner, parts.body_foot, parts.frame_corner, parts.frame_foot]
)
def test_a_corner_shows_only_the_left_end(corner: Callable[[], tuple[Shape, ...]]) -> None:
    """It is cut off long before the middle of the frame."""
    assert extent(corner())[2] < -MODEL.side_to_side / 4


@pytest.mark.parametrize(("spacer", "width"), [
    (Spacer.STRAIGHT, 25), (Spacer.LOOSE, 25), (Spacer.SHOULDERS, 35), (Spacer.PINS, 35),
])  # fmt: skip
def test_the_end_of_a_frame_is_as_wide_as_its_spacer_makes_it(spacer: Spacer, width: float) -> None:
    """Shoulders and pins reach the widest wood, straight bars do not."""
    left, _, right, _ = extent(parts.frame_end(spacer))
    assert right - left == width


def test_the_comb_is_fattest_at_its_thickness() -> None:
    """Symmetric, and as thick as the model or as asked."""
    left, _, right, _ = extent((parts.comb_end(),))
    assert (left, right) == (-MODEL.comb_thickness / 2, MODEL.comb_thickness / 2)
    assert extent((parts.comb_end(fat=40),))[2] == 20


def test_floor_and_cover_stand_off_by_the_space_they_leave() -> None:
    """Below: from the lower edge; above: from the rim."""
    assert extent(parts.floor(), "floor")[3] == -MODEL.ledge_down - MODEL.below_space
    assert extent(parts.floor_foot(), "floor")[3] == -MODEL.ledge_down - MODEL.below_space
    assert extent(parts.cover(80), "cover")[1] == MODEL.ledge_up + MODEL.above_space
    assert extent(parts.table(0, 9, -5))[3] == -5


def test_frames_from_above_lie_side_by_side_within_the_body() -> None:
    """All ten inside the walls, none on top of another."""
    frames = parts.frames_from_above()
    _, bottom, _, top = extent(frames)
    assert len(frames) == MODEL.frames
    assert -MODEL.inside_across / 2 < bottom < top < MODEL.inside_across / 2
    edges = [extent((frame,)) for frame in frames]
    assert all(upper[1] > lower[3] for upper, lower in itertools.pairwise(edges))
    _, _, _, far = extent(parts.body_from_above(), "far_wall")
    assert far == MODEL.inside_across / 2 + MODEL.wall


def test_a_pair_is_the_same_thing_twice_under_two_names() -> None:
    """As far apart as asked."""
    twice = parts.pair(parts.frame_end(), 35)
    assert extent(twice, "right_side_bar")[0] - extent(twice, "left_side_bar")[0] == 35


def test_highlighting_marks_the_named_part_alone() -> None:
    """Everything else keeps its ink."""
    frame = parts.highlighted(parts.frame_front(), "top_bar")
    assert [s.part for s in frame if s.ink is Ink.ASKED] == ["top_bar"]


def test_a_torn_edge_keeps_its_two_ends() -> None:
    """Between them it is ragged."""
    edge = parts.torn((0, 0), (10, 0))
    assert (edge[0], edge[-1]) == ((0, 0), (10, 0))
    assert len({y for _, y in edge}) > 1


def test_a_queen_is_longer_than_a_worker_and_carries_a_dot() -> None:
    """Both about as long as bees are [mm]."""
    queen, worker = parts.queen((0, 0)), parts.worker((0, 0))
    long, short = (extent(bee)[2] - extent(bee)[0] for bee in (queen, worker))
    assert 11 < short < 15 < long < 22
    assert any(shape.part == "dot" for shape in queen)


def test_a_worker_drawn_true_to_size_fits_through_a_wide_gap_only() -> None:
    """Its trunk is narrower than 4.3 mm and wider than 3.25 mm."""
    trunk = [s for s in parts.worker((0, 0)) if s.ink is Ink.METAL and len(s.points) > 2]
    _, low, _, high = extent(trunk)
    assert 3.25 < high - low < 4.3


def test_another_model_gives_other_lengths() -> None:
    """Nothing is fixed to the usual frame."""
    other = replace(MODEL, side_to_side=448.0, lug_to_lug=482.0)
    left, _, right, _ = extent(parts.frame_front(other, comb=False))
    assert right - left == 482
