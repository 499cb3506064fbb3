"""What a drawing is made of: shapes in millimetres, arrows between faces, words by key.

A scene knows no pixels, no language and no font. Positions are floats, because a drawing is
looked at and never cut from; a length written on it stays exact (`sizing.units.Mm`).
In a view x runs to the right and y upwards, one unit is 1 mm of what is shown.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from math import cos, pi, sin
from typing import TypeAlias

from sizing.units import Mm

__all__ = [
    "Area", "Dimension", "Ink", "Note", "Path", "Point", "Role", "Row", "Scene", "Shape", "Side",
    "View", "ellipse", "inked", "moved", "rectangle",
]  # fmt: skip

Point: TypeAlias = tuple[float, float]
"""A position [mm] in the view."""


class Ink(StrEnum):
    """How much a shape stands out."""

    CONTEXT = "context"
    """There, but not asked for: light."""
    ASKED = "asked"
    """What is asked for: bold and hatched."""
    FAINT = "faint"
    """Hardly there: comb, wires seen from the side."""
    GHOST = "ghost"
    """Taken away or only thought of: dashed."""
    METAL = "metal"
    """Sheet or wire of a cage, or a tape: solid dark."""
    STRIPED = "striped"
    """The hind part of a bee."""


class Side(StrEnum):
    """On which side of a point or an arrow its words stand."""

    ABOVE = "above"
    BELOW = "below"
    LEFT = "left"
    RIGHT = "right"
    ON = "on"


class Role(StrEnum):
    """What a view tells."""

    RIGHT = "right"
    """This is how."""
    WRONG = "wrong"
    """The usual mistake: its arrow is struck out."""
    PLAIN = "plain"
    """A choice, or a part of a drawing."""


@dataclass(frozen=True, slots=True)
class Area:
    """A closed outline; `part` is the name by which arrows refer to it."""

    points: tuple[Point, ...]
    ink: Ink = Ink.CONTEXT
    part: str = ""


@dataclass(frozen=True, slots=True)
class Path:
    """An open line; `weight` times the usual thickness."""

    points: tuple[Point, ...]
    ink: Ink = Ink.CONTEXT
    part: str = ""
    weight: float = 1.0
    arrow: bool = False


Shape: TypeAlias = Area | Path


@dataclass(frozen=True, slots=True)
class Dimension:
    """An arrow from one face to another, across or upright.

    `start` and `end` lie on the faces of the parts named in `parts`. The arrow itself runs
    across at height `at` [mm], or `upright` at distance `at`, joined to the faces by thin
    lines; without `at` it runs through `start`.
    `label` is the key of its words, `length` [mm] the exact number to be written.
    """

    start: Point
    end: Point
    parts: tuple[str, str]
    label: str | None = None
    length: Mm | None = None
    upright: bool = False
    at: float | None = None
    words: Side = Side.ABOVE
    struck: bool = False
    tight: bool = False
    inward: bool = False
    """Two arrows from outside, for a length too short to hold one between its faces."""

    @property
    def line(self) -> tuple[Point, Point]:
        """The two ends [mm] of the arrow itself."""
        if self.upright:
            x = self.start[0] if self.at is None else self.at
            return (x, self.start[1]), (x, self.end[1])
        y = self.start[1] if self.at is None else self.at
        return (self.start[0], y), (self.end[0], y)


@dataclass(frozen=True, slots=True)
class Note:
    """Words, a number or a length beside a point, with a thin line to `to` if given."""

    at: Point
    label: str | None = None
    number: int | None = None
    length: Mm | None = None
    side: Side = Side.ON
    to: Point | None = None
    plain: bool = False


@dataclass(frozen=True, slots=True)
class View:
    """One drawing to its own scale, with the key of the words under it.

    `share` is its part of the width of its row.
    """

    shapes: tuple[Shape, ...]
    dimensions: tuple[Dimension, ...] = ()
    notes: tuple[Note, ...] = ()
    role: Role = Role.PLAIN
    caption: str | None = None
    share: float = 1.0

    def part(self, name: str) -> tuple[Shape, ...]:
        """All shapes that are called `name`."""
        return tuple(shape for shape in self.shapes if shape.part == name)


@dataclass(frozen=True, slots=True)
class Row:
    """Views side by side; `share` is its part of the height of the scene.

    With `one_scale` all its views are drawn to the same scale.
    """

    views: tuple[View, ...]
    share: float
    one_scale: bool = False


@dataclass(frozen=True, slots=True)
class Scene:
    """A whole picture: rows from top to bottom; `tallness` is height over width."""

    name: str
    rows: tuple[Row, ...]
    tallness: float

    @property
    def views(self) -> tuple[View, ...]:
        """All views, row by row."""
        return tuple(view for row in self.rows for view in row.views)


def rectangle(
    left: float, bottom: float, right: float, top: float, part: str = "", ink: Ink = Ink.CONTEXT
) -> Area:
    """An upright rectangle between four coordinates [mm]."""
    return Area(((left, bottom), (right, bottom), (right, top), (left, top)), ink, part)


def ellipse(
    centre: Point, half: Point, part: str = "", ink: Ink = Ink.CONTEXT, turn: float = 0.0
) -> Area:
    """An ellipse with half axes `half` [mm], turned by `turn` [radians], as a polygon."""
    corners = 18
    points = []
    for i in range(corners):
        angle = 2 * pi * i / corners
        x, y = half[0] * cos(angle), half[1] * sin(angle)
        points.append(
            (
                centre[0] + x * cos(turn) - y * sin(turn),
                centre[1] + x * sin(turn) + y * cos(turn),
            )
        )
    return Area(tuple(points), ink, part)


def inked(shapes: tuple[Shape, ...], ink: Ink, *parts: str) -> tuple[Shape, ...]:
    """The same shapes, those named in `parts` (or all, if none is named) in `ink`."""
    return tuple(
        replace(shape, ink=ink) if not parts or shape.part in parts else shape for shape in shapes
    )


def moved(shapes: tuple[Shape, ...], right: float, up: float) -> tuple[Shape, ...]:
    """The same shapes, `right` and `up` [mm] from where they were."""
    return tuple(
        replace(shape, points=tuple((x + right, y + up) for x, y in shape.points))
        for shape in shapes
    )
