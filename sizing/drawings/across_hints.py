"""How to measure and count from comb to comb: one scene for each."""

from __future__ import annotations

from dataclasses import replace

from sizing.drawings.model import MODEL
from sizing.drawings.pages import beside, how
from sizing.drawings.parts import (
    body_from_above,
    frame_end,
    frames_from_above,
    highlighted,
    pair,
)
from sizing.drawings.shapes import (
    Dimension,
    Ink,
    Note,
    Path,
    Role,
    Scene,
    Side,
    View,
    inked,
)
from sizing.measures import Measure, Spacer

__all__ = ["ACROSS_HINTS"]

_WALLS = ("left_wall", "right_wall")
_ENDS = replace(MODEL, top_to_bottom=120.0, shoulder_length=58.0)
"""The same frame end cut shorter, so that its width is seen larger."""


def _inside_across() -> Scene:
    m = MODEL
    along, across = m.inside_along / 2, m.inside_across / 2
    walls = ("far_wall", "near_wall")
    frames = inked(frames_from_above(), Ink.FAINT)
    at = along + m.wall + 24
    right = View(
        (*highlighted(body_from_above(), *walls), *frames),
        (
            Dimension(
                (along, across), (along, -across), walls, "picture.across_frames",
                upright=True, at=at, words=Side.RIGHT,
            ),
        ),
        (Note((-along - m.wall - 10, across), "picture.word.from_above", side=Side.LEFT,
              plain=True),),
        role=Role.RIGHT,
    )  # fmt: skip
    outside = View(
        (*body_from_above(), *frames),
        (Dimension((0, across + m.wall), (0, -across - m.wall), walls, upright=True, struck=True),),
        role=Role.WRONG,
        caption="picture.not_outside",
    )
    wrong_way = View(
        (*body_from_above(), *frames),
        (Dimension((-along, 18), (along, 18), _WALLS, struck=True),),
        role=Role.WRONG,
        caption="picture.not_along",
    )
    return how("inside_across", right, outside, wrong_way, tallness=0.84)


def _spacing() -> Scene:
    m = _ENDS
    half, bar = m.widest_wood / 2, m.top_bar_width / 2
    ends = pair(frame_end(Spacer.SHOULDERS, m), m.widest_wood)
    middles = tuple(
        Path(((x, m.top + 4), (x, m.bottom)), Ink.GHOST, part)
        for x, part in ((-half, "left_middle"), (half, "right_middle"))
    )
    right = View(
        (*highlighted(ends, "left_top_bar", "right_top_bar"), *middles),
        (
            Dimension(
                (-half, m.top + 4), (half, m.top + 4), ("left_middle", "right_middle"),
                at=m.top + 14,
            ),
        ),
        role=Role.RIGHT,
        caption="picture.middle_middle",
        share=1.3,
    )  # fmt: skip
    gap = View(
        ends,
        (
            Dimension(
                (-half + bar, m.top), (half - bar, m.top), ("left_top_bar", "right_top_bar"),
                at=m.top + 14, struck=True, inward=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_the_gap",
    )  # fmt: skip
    both = View(
        ends,
        (
            Dimension(
                (-2 * half, -20), (2 * half, -20), ("left_side_bar", "right_side_bar"),
                at=m.top + 14, struck=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_both",
    )  # fmt: skip
    return beside("spacing", right, gap, both, tallness=0.72)


def _face(frame: int, side: int) -> float:
    """Height [mm] in the view of the far (1), middle (0) or near (-1) face of a frame."""
    m = MODEL
    middle = m.inside_across / 2 - m.inside_across / m.frames * (frame - 0.5)
    return middle + side * m.top_bar_width / 2


def _numbers(*frames: int) -> tuple[Note, ...]:
    """1, 2, 3 … on the frames of these places."""
    return tuple(
        Note((-40, _face(frame, 0)), number=count) for count, frame in enumerate(frames, 1)
    )


def _frames_held() -> Scene:
    m = MODEL
    every = tuple(f"frame_{i + 1}" for i in range(m.frames))
    right = View(
        (*body_from_above(), *highlighted(frames_from_above(), *every)),
        notes=_numbers(*range(1, m.frames + 1)),
        role=Role.RIGHT,
        caption="picture.when_full",
        share=1.25,
    )
    wrong = View(
        (*body_from_above(), *frames_from_above(count=m.frames - 3)),
        (
            Dimension(
                (0, _face(1, 1)),
                (0, _face(m.frames - 3, -1)),
                ("frame_1", "frame_7"),
                upright=True,
                struck=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_only_todays",
    )
    return beside("frames_held", right, wrong, tallness=0.6)


def _frames_out() -> Scene:
    body = body_from_above()
    frames = frames_from_above()
    caged = inked(highlighted(frames, "frame_5"), Ink.GHOST, "frame_6")
    right = View(
        (*body, *caged),
        notes=(*_numbers(5, 6),),
        role=Role.RIGHT,
        caption="picture.count_caged_too",
        share=1.25,
    )
    wrong = View(
        (*body, *caged),
        (
            Dimension(
                (60, _face(6, 1)), (60, _face(6, -1)), ("frame_6", "frame_6"), upright=True,
                struck=True,
            ),
        ),
        _numbers(6),
        role=Role.WRONG,
        caption="picture.not_only_the_extra",
    )  # fmt: skip
    return beside("frames_out", right, wrong, tallness=0.6)


ACROSS_HINTS = {
    Measure.INSIDE_ACROSS: _inside_across,
    Measure.SPACING: _spacing,
    Measure.FRAMES_HELD: _frames_held,
    Measure.FRAMES_OUT: _frames_out,
}
