"""Frames, combs, hive bodies and bees as shapes, each part under the name arrows refer to."""

from __future__ import annotations

from sizing.drawings.model import MODEL, Model
from sizing.drawings.shapes import (
    Area,
    Ink,
    Path,
    Point,
    Shape,
    ellipse,
    inked,
    moved,
    rectangle,
)
from sizing.measures import Spacer

__all__ = [
    "body_along",
    "body_corner",
    "body_foot",
    "body_from_above",
    "comb_end",
    "cover",
    "floor",
    "floor_foot",
    "frame_corner",
    "frame_end",
    "frame_foot",
    "frame_front",
    "frames_from_above",
    "highlighted",
    "pair",
    "queen",
    "table",
    "torn",
    "worker",
]  # fmt: skip


def torn(start: Point, end: Point, teeth: int = 3, depth: float = 4.0) -> tuple[Point, ...]:
    """The ragged edge [mm] where a part is broken off because the rest does not matter."""
    length = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
    across = (-(end[1] - start[1]) / length * depth, (end[0] - start[0]) / length * depth)
    points = [start]
    for tooth in range(1, 2 * teeth):
        along = tooth / (2 * teeth)
        sign = 1 if tooth % 2 else -1
        points.append(
            (
                start[0] + (end[0] - start[0]) * along + across[0] * sign / 2,
                start[1] + (end[1] - start[1]) * along + across[1] * sign / 2,
            )
        )
    return (*points, end)


def frame_front(m: Model = MODEL, *, comb: bool = True) -> tuple[Shape, ...]:
    """The frame seen from the side of its comb; x = 0 is its middle, y = 0 the ledge."""
    half, lug, low = m.side_to_side / 2, m.lug_to_lug / 2, m.bottom
    under = m.top - m.top_bar_thickness
    shapes: list[Shape] = []
    if comb:
        inner = half - m.bar
        shapes.append(rectangle(-inner, low + m.bar, inner, under, "comb", Ink.FAINT))
    shapes += [
        rectangle(-half, low, -half + m.bar, under, "left_side_bar"),
        rectangle(half - m.bar, low, half, under, "right_side_bar"),
        rectangle(-half + m.bar, low, half - m.bar, low + m.bar, "bottom_bar"),
        Area(
            (
                (-lug, 0), (-half, 0), (-half, under), (half, under), (half, 0), (lug, 0),
                (lug, m.top), (-lug, m.top),
            ),
            part="top_bar",
        ),
    ]  # fmt: skip
    return tuple(shapes)


def body_along(m: Model = MODEL) -> tuple[Shape, ...]:
    """The hive body cut open along the frame: two walls, each with its ledge."""
    inner, ledge = m.inside_along / 2, m.lug_room / 2
    outer, low, rim = inner + m.wall, -m.ledge_down, m.ledge_up
    right = (
        (inner, low), (outer, low), (outer, rim), (ledge, rim), (ledge, 0), (inner, 0),
    )  # fmt: skip
    return (
        Area(tuple((-x, y) for x, y in right), part="left_wall"),
        Area(right, part="right_wall"),
    )


def body_corner(m: Model = MODEL, depth: float = 60) -> tuple[Shape, ...]:
    """The upper left corner of the body, down to `depth` [mm] below the ledge."""
    inner, ledge = m.inside_along / 2, m.lug_room / 2
    outer = inner + m.wall
    return (
        Area(
            (
                *torn((-outer, -depth), (-inner, -depth)),
                (-inner, 0), (-ledge, 0), (-ledge, m.ledge_up), (-outer, m.ledge_up),
            ),
            part="left_wall",
        ),
    )  # fmt: skip


def frame_corner(m: Model = MODEL, depth: float = 60, reach: float = 80) -> tuple[Shape, ...]:
    """The upper left corner of the frame, `reach` [mm] along and `depth` [mm] down."""
    half, lug = m.side_to_side / 2, m.lug_to_lug / 2
    under, stop = m.top - m.top_bar_thickness, reach - lug
    return (
        Area(
            (
                (-half, under), *torn((-half, -depth), (-half + m.bar, -depth), 2),
                (-half + m.bar, under),
            ),
            part="left_side_bar",
        ),
        Area(
            (
                (-lug, 0), (-half, 0), (-half, under),
                *torn((stop, under), (stop, m.top), 2), (-lug, m.top),
            ),
            part="top_bar",
        ),
    )  # fmt: skip


def body_foot(m: Model = MODEL, height: float = 60) -> tuple[Shape, ...]:
    """The lower left corner of the body, up to `height` [mm] above its lower edge."""
    inner, low = m.inside_along / 2, -m.ledge_down
    outer, stop = inner + m.wall, low + height
    return (
        Area(
            ((-outer, low), (-inner, low), *torn((-inner, stop), (-outer, stop))),
            part="left_wall",
        ),
    )


def frame_foot(m: Model = MODEL, height: float = 60, reach: float = 80) -> tuple[Shape, ...]:
    """The lower left corner of the frame, `reach` [mm] along and `height` [mm] up."""
    half, low = m.side_to_side / 2, m.bottom
    stop, end = low + height, reach - half
    return (
        Area(
            (
                (-half, low),
                (-half + m.bar, low),
                *torn((-half + m.bar, stop), (-half, stop), 2),
            ),
            part="left_side_bar",
        ),
        Area(
            (
                (-half + m.bar, low),
                *torn((end, low), (end, low + m.bar), 2),
                (-half + m.bar, low + m.bar),
            ),
            part="bottom_bar",
        ),
    )


def floor_foot(m: Model = MODEL, reach: float = 80) -> tuple[Shape, ...]:
    """The left end of the bottom board, `reach` [mm] along from the side bar."""
    inner, low = m.inside_along / 2, -m.ledge_down
    outer, ground, end = inner + m.wall, low - m.below_space, reach - m.side_to_side / 2
    return (
        rectangle(-outer, ground, -inner, low, "left_rail"),
        Area(
            (
                (-outer, ground - 14),
                *torn((end, ground - 14), (end, ground), 2),
                (-outer, ground),
            ),
            part="floor",
        ),
    )


def comb_end(m: Model = MODEL, fat: float | None = None) -> Area:
    """The comb cut across, fattest in its upper half; `fat` [mm] is its thickness there."""
    half = (m.comb_thickness if fat is None else fat) / 2
    high, low = m.top - m.top_bar_thickness, m.bottom + m.bar
    profile = ((0.0, 0.72), (0.08, 0.86), (0.2, 0.97), (0.3, 1.0), (0.42, 0.95), (0.6, 0.8),
               (0.8, 0.72), (0.94, 0.6), (1.0, 0.4))  # fmt: skip
    right = [(half * wide, high + (low - high) * down) for down, wide in profile]
    return Area(tuple(right + [(-x, y) for x, y in reversed(right)]), Ink.FAINT, "comb")


def frame_end(spacer: Spacer = Spacer.SHOULDERS, m: Model = MODEL) -> tuple[Shape, ...]:
    """One frame seen from its end: side bar, lug end on, and what keeps it apart."""
    narrow, wide = m.top_bar_width / 2, m.widest_wood / 2
    under, low = m.top - m.top_bar_thickness, m.bottom
    top = rectangle(-narrow, under, narrow, m.top, "top_bar")
    if spacer is not Spacer.SHOULDERS:
        shapes: tuple[Shape, ...] = (rectangle(-narrow, low, narrow, under, "side_bar"), top)
        if spacer is Spacer.PINS:
            shapes += tuple(
                rectangle(min(a, b), -26, max(a, b), -20, "pin", Ink.METAL)
                for a, b in ((-wide, -narrow), (narrow, wide))
            )
        return shapes
    step, taper = -m.shoulder_length, -m.shoulder_length - 14
    right = ((narrow, low), (narrow, taper), (wide, step), (wide, under))
    left = tuple((-x, y) for x, y in reversed(right))
    return (Area((*right, *left), part="side_bar"), top)


def body_from_above(m: Model = MODEL) -> tuple[Shape, ...]:
    """The body looked into from above: y is across the frames."""
    along, across = m.inside_along / 2, m.inside_across / 2
    return (
        rectangle(-along - m.wall, across, along + m.wall, across + m.wall, "far_wall"),
        rectangle(-along - m.wall, -across - m.wall, along + m.wall, -across, "near_wall"),
        rectangle(-along - m.wall, -across, -along, across, "left_wall"),
        rectangle(along, -across, along + m.wall, across, "right_wall"),
    )


def frames_from_above(m: Model = MODEL, count: int | None = None) -> tuple[Shape, ...]:
    """The top bars of `count` frames in the body, from far to near, called frame_1 and on."""
    pitch = m.inside_across / m.frames
    half, lug = m.top_bar_width / 2, m.lug_to_lug / 2
    shapes = []
    for i in range(m.frames if count is None else count):
        middle = m.inside_across / 2 - pitch * (i + 0.5)
        shapes.append(rectangle(-lug, middle - half, lug, middle + half, f"frame_{i + 1}"))
    return tuple(shapes)


def floor(m: Model = MODEL) -> tuple[Shape, ...]:
    """The bottom board under the body, with the rails on which the walls stand."""
    inner = m.inside_along / 2
    outer, low = inner + m.wall, -m.ledge_down
    ground = low - m.below_space
    return (
        rectangle(-outer, ground, -inner, low, "left_rail"),
        rectangle(inner, ground, outer, low, "right_rail"),
        rectangle(-outer - 20, ground - 16, outer + 20, ground, "floor"),
    )


def cover(reach: float, m: Model = MODEL) -> tuple[Shape, ...]:
    """The upper left corner of a cover that stands on the rim, `reach` [mm] from the lug."""
    ledge, lug = m.lug_room / 2, m.lug_to_lug / 2
    outer, under = m.inside_along / 2 + m.wall, m.ledge_up + m.above_space
    stop = reach - lug
    return (
        rectangle(-outer, m.ledge_up, -ledge, under, "cover_rail"),
        Area(
            ((-outer, under), *torn((stop, under), (stop, under + 14)), (-outer, under + 14)),
            part="cover",
        ),
    )


def table(left: float, right: float, level: float) -> tuple[Shape, ...]:
    """The top of a table [mm] under something that stands on it."""
    return (rectangle(left, level - 8, right, level, "table"),)


def worker(at: Point, size: float = 1.0) -> tuple[Shape, ...]:
    """A worker bee from above at a point [mm], head to the right, 13 mm long at `size` [1] 1."""
    return _bee(at, size, ((-3.6, 0), (4.0, 2.4)), wing=4.2)


def queen(at: Point, size: float = 1.0) -> tuple[Shape, ...]:
    """A queen from above at a point [mm], head to the right: longer behind, a painted dot.

    `size` [1] as that of a worker.
    """
    body = _bee(at, size, ((-6.2, 0), (7.0, 2.5)), wing=3.8)
    dot = ellipse((at[0] + 1.6 * size, at[1]), (1.1 * size, 1.1 * size), "dot", Ink.CONTEXT)
    return (*body, dot)


def _bee(at: Point, size: float, behind: tuple[Point, Point], wing: float) -> tuple[Shape, ...]:
    def placed(centre: Point, half: Point, ink: Ink, turn: float = 0.0) -> Area:
        where = (at[0] + centre[0] * size, at[1] + centre[1] * size)
        return ellipse(where, (half[0] * size, half[1] * size), "bee", ink, turn)

    legs: list[Shape] = [
        Path(
            (
                (at[0] + x * size, at[1] + 1.2 * side * size),
                (at[0] + (x + lean) * size, at[1] + 4.4 * side * size),
            ),
            Ink.METAL,
            "bee",
            0.8,
        )
        for side in (-1, 1)
        for x, lean in ((2.6, 1.6), (1.4, -0.2), (0.2, -1.8))
    ]
    return (
        *legs,
        placed(*behind, Ink.STRIPED),
        placed((-2.4, 2.1), (wing, 1.4), Ink.CONTEXT, -0.35),
        placed((-2.4, -2.1), (wing, 1.4), Ink.CONTEXT, 0.35),
        placed((1.6, 0), (2.3, 2.1), Ink.METAL),
        placed((4.6, 0), (1.3, 1.6), Ink.METAL),
    )


def pair(shapes: tuple[Shape, ...], pitch: float) -> tuple[Shape, ...]:
    """The same thing twice, `pitch` [mm] from centre to centre; parts prefixed left_, right_."""
    left, right = moved(shapes, -pitch / 2, 0), moved(shapes, pitch / 2, 0)
    return _called(left, "left_") + _called(right, "right_")


def _called(shapes: tuple[Shape, ...], prefix: str) -> tuple[Shape, ...]:
    return tuple(
        Area(s.points, s.ink, prefix + s.part)
        if isinstance(s, Area)
        else Path(s.points, s.ink, prefix + s.part, s.weight, s.arrow)
        for s in shapes
    )


def highlighted(shapes: tuple[Shape, ...], *parts: str) -> tuple[Shape, ...]:
    """The same shapes, the named parts standing out."""
    return inked(shapes, Ink.ASKED, *parts)
