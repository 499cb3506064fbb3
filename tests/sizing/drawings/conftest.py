"""Every how-to scene by name, and a way to ask whether a point lies on the edge of a part."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from math import hypot

import pytest

from sizing.drawings import HINTS
from sizing.drawings.shapes import Area, Point, Scene, Shape, View

OnPart = Callable[[View, str, Point], bool]


@pytest.fixture(scope="session")
def scenes() -> dict[str, Scene]:
    """All scenes that need no request."""
    return {name: hint() for name, hint in HINTS.items()}


def _distance(point: Point, start: Point, end: Point) -> float:
    """How far `point` is from the straight line between two points [mm]."""
    along = (end[0] - start[0], end[1] - start[1])
    square = along[0] ** 2 + along[1] ** 2
    if square == 0:
        return hypot(point[0] - start[0], point[1] - start[1])
    part = ((point[0] - start[0]) * along[0] + (point[1] - start[1]) * along[1]) / square
    part = min(1.0, max(0.0, part))
    foot = (start[0] + along[0] * part, start[1] + along[1] * part)
    return hypot(point[0] - foot[0], point[1] - foot[1])


def _touches(shape: Shape, point: Point) -> bool:
    corners = (*shape.points, shape.points[0]) if isinstance(shape, Area) else shape.points
    edges = itertools.pairwise(corners)
    return any(_distance(point, start, end) < 1e-6 for start, end in edges)


@pytest.fixture(scope="session")
def on_part() -> OnPart:
    """Whether a point lies on the outline of a part of a view."""

    def found(view: View, part: str, point: Point) -> bool:
        return any(_touches(shape, point) for shape in view.part(part))

    return found
