"""Arrows, rectangles and ellipses are where they are said to be."""

from __future__ import annotations

import pytest

from sizing.drawings.shapes import (
    Dimension,
    Ink,
    Path,
    Point,
    Row,
    Scene,
    View,
    ellipse,
    inked,
    moved,
    rectangle,
)


@pytest.mark.parametrize(
    ("arrow", "line"),
    [
        (Dimension((0, 5), (10, 5), ("a", "b"), at=-3), ((0, -3), (10, -3))),
        (Dimension((0, 5), (2, 15), ("a", "b"), upright=True, at=7), ((7, 5), (7, 15))),
    ],
)
def test_an_arrow_runs_at_its_own_height_between_the_faces(
    arrow: Dimension, line: tuple[Point, Point]
) -> None:
    """Across, `at` replaces the height of both ends; upright, their distance."""
    assert arrow.line == line


def test_without_a_height_of_its_own_an_arrow_runs_through_its_start() -> None:
    """Both ends then lie level with the start."""
    assert Dimension((0, 5), (10, 9), ("a", "b")).line == ((0, 5), (10, 5))


def test_a_rectangle_has_its_four_corners() -> None:
    """Left, bottom, right, top."""
    assert set(rectangle(1, 2, 3, 4).points) == {(1, 2), (3, 2), (3, 4), (1, 4)}


def test_an_ellipse_is_as_wide_and_high_as_it_was_asked() -> None:
    """Its extremes lie on its half axes, up to what a polygon of few corners loses."""
    points = ellipse((10, 20), (4, 2)).points
    assert max(x for x, _ in points) == pytest.approx(14)
    assert max(y for _, y in points) == pytest.approx(22, abs=0.1)


def test_only_the_named_parts_change_their_ink() -> None:
    """Without a name all of them do."""
    shapes = (rectangle(0, 0, 1, 1, "a"), rectangle(1, 0, 2, 1, "b"))
    assert [s.ink for s in inked(shapes, Ink.ASKED, "b")] == [Ink.CONTEXT, Ink.ASKED]
    assert [s.ink for s in inked(shapes, Ink.GHOST)] == [Ink.GHOST, Ink.GHOST]


def test_moving_shifts_every_point_and_nothing_else() -> None:
    """Part and ink stay."""
    (path,) = moved((Path(((0, 0), (1, 1)), Ink.METAL, "tape"),), 2, 3)
    assert path == Path(((2, 3), (3, 4)), Ink.METAL, "tape")


def test_a_scene_lists_its_views_row_by_row() -> None:
    """From top to bottom, left to right; a view finds its parts by name."""
    one, two = View((rectangle(0, 0, 1, 1, "a"),)), View(())
    scene = Scene("s", (Row((one,), 0.5), Row((two,), 0.5)), 1.0)
    assert scene.views == (one, two)
    assert len(one.part("a")) == 1
    assert one.part("b") == ()
