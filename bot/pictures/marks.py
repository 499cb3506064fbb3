"""Lines, areas, arrows and signs in pixels, as the sheet's template takes them."""

from __future__ import annotations

from math import cos, hypot, pi, sin
from typing import Any

from bot.pictures.style import (
    ARROW,
    CROSS,
    GREEN,
    HALO,
    HATCH_STEP,
    HEAD,
    RED,
    STRUCK,
    WHITE,
    Look,
    Pen,
)

__all__ = ["Mark", "area", "arrow", "hatching", "paths", "shape_area", "sign", "strike"]

Mark = dict[str, Any]
"""One thing to draw, ready for JSON."""
Pixel = tuple[float, float]
_ROUND = 32
"""Corners of what is round."""


def _round(point: Pixel) -> list[float]:
    return [round(point[0], 2), round(point[1], 2)]


def _pen(pen: Pen | None) -> dict[str, Any] | None:
    if pen is None:
        return None
    return {"colour": pen.colour, "width": pen.width, "dash": pen.dash}


def area(points: tuple[Pixel, ...], fill: str | None, pen: Pen | None) -> Mark:
    """A closed outline."""
    return {
        "kind": "area",
        "fill": fill,
        "line": _pen(pen),
        "points": [_round(p) for p in points],
    }


def paths(lines: tuple[tuple[Pixel, ...], ...], pen: Pen) -> Mark:
    """Open lines of one pen."""
    return {
        "kind": "paths",
        "line": _pen(pen),
        "paths": [[_round(p) for p in line] for line in lines],
    }


def hatching(points: tuple[Pixel, ...], step: float = HATCH_STEP) -> tuple[tuple[Pixel, ...], ...]:
    """Rising strokes, `step` [px] apart, that fill the outline.

    A stroke is where x + y is constant; between its crossings with the outline, taken in
    pairs, it lies inside.
    """
    levels = [x + y for x, y in points]
    edges = list(zip(points, (*points[1:], points[0]), strict=True))
    strokes: list[tuple[Pixel, ...]] = []
    level = (min(levels) // step + 0.5) * step
    while level < max(levels):
        crossings = []
        for (ax, ay), (bx, by) in edges:
            a, b = ax + ay, bx + by
            if (a <= level) != (b <= level):
                part = (level - a) / (b - a)
                crossings.append((ax + (bx - ax) * part, ay + (by - ay) * part))
        crossings.sort()
        strokes += list(zip(crossings[::2], crossings[1::2], strict=True))
        level += step
    return tuple(strokes)


def shape_area(points: tuple[Pixel, ...], look: Look) -> list[Mark]:
    """An area in its ink: fill, hatching, outline."""
    if look.hatch is None:
        return [area(points, look.fill, look.line)]
    marks = [area(points, look.fill, None)]
    strokes = hatching(points)
    if strokes:
        marks.append(paths(strokes, look.hatch))
    return [*marks, area(points, None, look.line)]


def _head(tip: Pixel, towards: Pixel, colour: str, scale: float) -> Mark:
    """A filled head with its tip at `tip`, pointing along `towards` (a unit vector)."""
    length, half = HEAD[0] * scale, HEAD[1] * scale
    back = (tip[0] - towards[0] * length, tip[1] - towards[1] * length)
    side = (-towards[1] * half, towards[0] * half)
    return area(
        (tip, (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1])),
        colour,
        None,
    )


def arrow(
    start: Pixel,
    end: Pixel,
    *,
    struck: bool = False,
    inward: bool = False,
    scale: float = 1.0,
    both: bool = True,
) -> list[Mark]:
    """An arrow with a head at each end (or at `end` alone); `inward`: two from outside."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    unit = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    base = STRUCK if struck else ARROW
    pen = Pen(base.colour, base.width * scale, base.dash)
    head = HEAD[0] * scale * 0.8
    if inward:
        tail = 48 * scale
        lines = tuple(
            (
                (p[0] + unit[0] * sign * tail, p[1] + unit[1] * sign * tail),
                (p[0] + unit[0] * sign * head, p[1] + unit[1] * sign * head),
            )
            for p, sign in ((start, -1), (end, 1))
        )
        return [
            paths(lines, pen),
            _head(start, unit, pen.colour, scale),
            _head(end, (-unit[0], -unit[1]), pen.colour, scale),
        ]
    first = (start[0] + unit[0] * head, start[1] + unit[1] * head) if both else start
    last = (end[0] - unit[0] * head, end[1] - unit[1] * head)
    marks = [paths(((first, last),), pen), _head(end, unit, pen.colour, scale)]
    if both:
        marks.append(_head(start, (-unit[0], -unit[1]), pen.colour, scale))
    return marks


def strike(centre: Pixel, half: float) -> list[Mark]:
    """A cross over what is a mistake."""
    x, y = centre
    lines = (
        ((x - half, y - half), (x + half, y + half)),
        ((x - half, y + half), (x + half, y - half)),
    )
    return [paths(lines, HALO), paths(lines, CROSS)]


def sign(centre: Pixel, radius: float, *, right: bool) -> list[Mark]:
    """A tick in a full disc, or a cross in a ring: told apart without colour."""
    x, y = centre
    r = radius
    corners = tuple(
        (x + r * cos(2 * pi * i / _ROUND), y + r * sin(2 * pi * i / _ROUND)) for i in range(_ROUND)
    )
    if right:
        tick = (
            (x - 0.45 * r, y + 0.02 * r),
            (x - 0.12 * r, y + 0.4 * r),
            (x + 0.5 * r, y - 0.4 * r),
        )
        return [
            area(corners, GREEN, Pen(GREEN, 3)),
            paths((tick,), Pen(WHITE, 0.26 * r)),
        ]
    k = 0.42 * r
    lines = (((x - k, y - k), (x + k, y + k)), ((x - k, y + k), (x + k, y - k)))
    return [area(corners, WHITE, Pen(RED, 4)), paths(lines, Pen(RED, 0.26 * r))]
