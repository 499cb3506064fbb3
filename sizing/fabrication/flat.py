"""Flat patterns as plain values: outline, bends, wires to solder on; all lengths in exact mm.

The origin is the lower left corner of the blank, x to the right, y up. What is seen is the side
that lies outside on the finished cage.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sizing.units import Mm

__all__ = ["Bend", "Blank", "Line", "Part", "Pattern", "Point", "WirePanel", "cross", "rectangle"]

Point: TypeAlias = tuple[Fraction, Fraction]
Line: TypeAlias = tuple[Point, Point]


class Part(StrEnum):
    """The sheet parts of a cage; each value is also the key of its name in the texts."""

    END_WALL = "end-wall"
    """With the ear, or with two tabs beside the lug."""
    GUIDE = "guide"
    """The angle in a corner that keeps the frame in the middle."""
    TOP_EDGE = "top-edge"
    """The strip along the upper edge of a face; stands up beside the lid."""
    BOTTOM_EDGE = "bottom-edge"
    """The strip along the lower edge of a face; with a wired floor an angle that carries it."""
    FLOOR = "floor"
    """The flat floor."""
    LID = "lid"


@dataclass(frozen=True, slots=True)
class Bend:
    """A bend along a line in the middle of its zone; lengths in mm.

    `outward`: the leg beyond the line is bent towards the viewer, else away. `turned` is by how
    many degrees, `radius` inside, `zone` the width in the flat that becomes the bend.
    """

    line: Line
    outward: bool
    turned: int
    radius: Mm
    zone: Mm


@dataclass(frozen=True, slots=True)
class Pattern:
    """One part before bending, `count` times in a cage; lengths in mm.

    `outline` is one closed line without its first point repeated, counter-clockwise.
    """

    part: Part
    count: int
    thickness: Mm
    outline: tuple[Point, ...]
    bends: tuple[Bend, ...] = ()

    @property
    def width(self) -> Mm:
        """Extent of the blank along x [mm]."""
        return max(x for x, _ in self.outline)

    @property
    def height(self) -> Mm:
        """Extent of the blank along y [mm]."""
        return max(y for _, y in self.outline)


@dataclass(frozen=True, slots=True)
class Blank:
    """The rectangle of sheet [mm] that a part is cut from, `count` times in a cage."""

    name: Part
    width: Mm
    height: Mm
    thickness: Mm
    count: int


@dataclass(frozen=True, slots=True)
class WirePanel:
    """The wires of one panel, `count` times in a cage; lengths in mm.

    `panel` is `face` or `floor`; x from one end wall to the other. Each wire is its centre line.
    `stays` lie across the others, from end wall to end wall, at equal distances.
    """

    panel: str
    count: int
    diameter: Mm
    opening: Mm
    length: Mm
    wires: tuple[Line, ...]
    stays: tuple[Line, ...] = ()


def rectangle(width: Mm, height: Mm) -> tuple[Point, ...]:
    """The outline of a rectangle [mm] at the origin."""
    zero = Fraction(0)
    return ((zero, zero), (width, zero), (width, height), (zero, height))


def cross(upright: tuple[Mm, Mm, Mm], lying: tuple[Mm, Mm, Mm]) -> tuple[Point, ...]:
    """The outline [mm] of two rectangles that cross.

    `upright` is (from x, to x, height) from the lower edge on, `lying` (from y, to y, width)
    from the left edge on. Arms of no length leave no corners behind.
    """
    left, right, height = upright
    low, high, width = lying
    zero = Fraction(0)
    corners = (
        (left, zero), (right, zero), (right, low), (width, low), (width, high), (right, high),
        (right, height), (left, height), (left, high), (zero, high), (zero, low), (left, low),
    )  # fmt: skip
    return tuple(_without_idle(corners))


def _without_idle(corners: tuple[Point, ...]) -> Iterator[Point]:
    """The corners at which the line turns."""
    apart = [point for i, point in enumerate(corners) if point != corners[i - 1]]
    for i, (x, y) in enumerate(apart):
        before, after = apart[i - 1], apart[(i + 1) % len(apart)]
        if not (before[0] == x == after[0] or before[1] == y == after[1]):
            yield x, y
