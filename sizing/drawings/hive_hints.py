"""How to measure a hive body: one scene for every length and count of it."""

from __future__ import annotations

from dataclasses import replace

from sizing.drawings.model import MODEL
from sizing.drawings.pages import how
from sizing.drawings.parts import (
    body_along,
    body_corner,
    body_foot,
    cover,
    floor,
    floor_foot,
    frame_corner,
    frame_foot,
    frame_front,
    highlighted,
    table,
)
from sizing.drawings.shapes import (
    Dimension,
    Ink,
    Note,
    Path,
    Role,
    Scene,
    Shape,
    Side,
    View,
    rectangle,
)
from sizing.measures import Measure

__all__ = ["HIVE_HINTS"]

_WALLS = ("left_wall", "right_wall")
_LOW = replace(MODEL, ledge_down=130.0, top_to_bottom=137.0)
"""The same body cut shorter, where its depth does not matter."""


def _inside_along() -> Scene:
    m = MODEL
    inner, outer, ledge = m.inside_along / 2, m.inside_along / 2 + m.wall, m.lug_room / 2
    sticks = (
        rectangle(-inner, -82, 70, -72, "left_stick", Ink.ASKED),
        rectangle(-70, -94, inner, -84, "right_stick", Ink.ASKED),
    )
    right = View(
        (*body_along(_LOW), *sticks),
        (Dimension((-inner, -54), (inner, -54), _WALLS, "picture.wall_wall", words=Side.ABOVE),),
        (
            Note((-inner + 44, 12), "picture.word.ledge", side=Side.RIGHT, to=(-ledge + 4, 0)),
            Note((0, -98), "picture.word.two_sticks", side=Side.BELOW),
        ),
        role=Role.RIGHT,
    )
    low = -_LOW.ledge_down
    outside = View(
        body_along(_LOW),
        (Dimension((-outer, low), (outer, low), _WALLS, at=low - 40, struck=True),),
        role=Role.WRONG,
        caption="picture.not_outside",
    )
    above = View(
        body_along(_LOW),
        (Dimension((-ledge, 9), (ledge, 9), _WALLS, struck=True),),
        role=Role.WRONG,
        caption="picture.not_above_ledge",
    )
    case = (
        rectangle(inner - 62, -112, inner, -56, "case", Ink.ASKED),
        Path(((-inner, -102), (inner - 62, -102)), Ink.METAL, "tape", 2),
    )
    tape = View(
        (*body_along(_LOW), *case),
        (Dimension((-inner, -74), (inner - 62, -74), ("left_wall", "case"), struck=True),),
        role=Role.WRONG,
        caption="picture.not_without_case",
    )
    return how("inside_along", right, outside, above, tape, tallness=0.72, share=0.58)


def _stops(half: float, top: float) -> tuple[Shape, ...]:
    """The two faces that stop the lugs, standing out."""
    return tuple(
        Path(((sign * half, 0.0), (sign * half, top)), Ink.ASKED, part, 2.2)
        for sign, part in ((-1, "left_stop"), (1, "right_stop"))
    )


def _lug_room() -> Scene:
    m = _LOW
    inner, ledge, lug = m.inside_along / 2, m.lug_room / 2, m.lug_to_lug / 2
    right = View(
        (*body_along(m), *_stops(ledge, m.ledge_up)),
        (
            Dimension(
                (-ledge, 8), (ledge, 8), ("left_stop", "right_stop"), "picture.at_ledge_height",
                words=Side.ABOVE,
            ),
        ),
        (Note((-inner + 44, -40), "picture.word.ledge", side=Side.RIGHT, to=(-ledge + 5, 0)),),
        role=Role.RIGHT,
    )  # fmt: skip
    below = View(
        body_along(m),
        (Dimension((-inner, -60), (inner, -60), _WALLS, struck=True),),
        role=Role.WRONG,
        caption="picture.not_below_ledge",
    )
    frame = View(
        (*body_along(m), *frame_front(m)),
        (Dimension((-lug, m.top), (lug, m.top), ("top_bar", "top_bar"), at=44, struck=True),),
        role=Role.WRONG,
        caption="picture.not_the_frame",
    )
    return how("lug_room", right, below, frame)


def _ledge_face(level: float = 0.0) -> Path:
    inner, ledge = MODEL.inside_along / 2, MODEL.lug_room / 2
    return Path(((-ledge, level), (-inner, level)), Ink.ASKED, "ledge", 2.2)


def _ledge_down() -> Scene:
    m = MODEL
    inner, low = m.inside_along / 2, -m.ledge_down
    outer = inner + m.wall
    right = View(
        (
            *body_along(m),
            _ledge_face(),
            *table(-outer - 24, outer + 24, low),
            Path(((-outer, low), (-inner, low)), Ink.ASKED, "lower_edge", 2.2),
        ),
        (
            Dimension(
                (-inner, 0), (-inner, low), ("ledge", "lower_edge"), "picture.ledge_to_edge",
                upright=True, at=-inner + 40, words=Side.RIGHT,
            ),
        ),
        role=Role.RIGHT,
    )  # fmt: skip
    ground = low - m.below_space
    to_floor = View(
        (*body_along(m), *floor(m)),
        (
            Dimension(
                (-inner, 0), (-inner + 30, ground), ("left_wall", "floor"), upright=True,
                at=-inner + 30, struck=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_to_floor",
    )  # fmt: skip
    from_rim = View(
        (*body_along(m), *table(-outer - 24, outer + 24, low)),
        (
            Dimension(
                (-m.lug_room / 2, m.ledge_up), (-inner + 30, low), ("left_wall", "table"),
                upright=True, at=-inner + 30, struck=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_from_rim",
    )  # fmt: skip
    return how("ledge_down", right, to_floor, from_rim, tallness=0.88)


def _ledge_up() -> Scene:
    m = MODEL
    ledge = m.lug_room / 2
    right = View(
        (*body_corner(depth=44), _ledge_face(), Path(((-ledge, m.ledge_up), (-ledge + 46,
         m.ledge_up)), Ink.GHOST)),
        (
            Dimension(
                (-ledge + 6, 0), (-ledge, m.ledge_up), ("ledge", "left_wall"),
                "picture.ledge_to_rim", upright=True, at=-ledge + 16, words=Side.RIGHT,
            ),
        ),
        role=Role.RIGHT,
    )  # fmt: skip
    wrong = View(
        (*body_corner(depth=34), *frame_corner(depth=34, reach=70)),
        (
            Dimension(
                (-ledge + 30, m.top), (-ledge, m.ledge_up), ("top_bar", "left_wall"),
                upright=True, at=-ledge + 30, struck=True, inward=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_from_frame",
    )  # fmt: skip
    return how("ledge_up", right, wrong)


def _below_space() -> Scene:
    m = MODEL
    inner, low = m.inside_along / 2, -m.ledge_down
    outer, ground = inner + m.wall, low - m.below_space
    place = -inner + 48
    corner = (*body_foot(height=34), *frame_foot(height=30, reach=96))
    right = View(
        (*corner, *highlighted(floor_foot(reach=96), "floor"),
         Path(((-outer, low), (-inner, low)), Ink.ASKED, "lower_edge", 2.2)),
        (
            Dimension(
                (-outer, low), (-outer, ground), ("lower_edge", "floor"),
                "picture.edge_to_floor", upright=True, at=-outer - 8, words=Side.LEFT,
            ),
        ),
        role=Role.RIGHT,
    )  # fmt: skip
    wrong = View(
        (*corner, *floor_foot(reach=96)),
        (
            Dimension(
                (place, m.bottom), (place, ground), ("bottom_bar", "floor"), upright=True,
                struck=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_from_frame",
    )  # fmt: skip
    return how("below_space", right, wrong)


def _above_space() -> Scene:
    m = MODEL
    ledge, rim = m.lug_room / 2, m.ledge_up
    right = View(
        (
            *body_corner(depth=30),
            *frame_corner(depth=30, reach=100),
            *highlighted(cover(100), "cover"),
        ),
        (
            Dimension(
                (-ledge, rim), (-ledge + 40, rim + m.above_space), ("left_wall", "cover"),
                upright=True, at=-ledge + 40,
                inward=True,
            ),
        ),
        role=Role.RIGHT,
        caption="picture.rim_to_cover",
    )  # fmt: skip
    wrong = View(
        (*body_corner(depth=30), *frame_corner(depth=30, reach=100), *cover(100)),
        (
            Dimension(
                (-ledge + 60, m.top), (-ledge + 60, rim + m.above_space), ("top_bar", "cover"),
                upright=True, struck=True, inward=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_from_frame",
    )  # fmt: skip
    return how("above_space", right, wrong)


HIVE_HINTS = {
    Measure.INSIDE_ALONG: _inside_along,
    Measure.LUG_ROOM: _lug_room,
    Measure.LEDGE_DOWN: _ledge_down,
    Measure.LEDGE_UP: _ledge_up,
    Measure.BELOW_SPACE: _below_space,
    Measure.ABOVE_SPACE: _above_space,
}
