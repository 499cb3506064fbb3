"""How to measure a frame: one scene for every length of it."""

from __future__ import annotations

from dataclasses import replace

from sizing.drawings.model import MODEL
from sizing.drawings.pages import beside, how
from sizing.drawings.parts import (
    body_corner,
    comb_end,
    frame_corner,
    frame_end,
    frame_front,
    highlighted,
    table,
    torn,
)
from sizing.drawings.shapes import (
    Area,
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
from sizing.measures import Measure, Spacer

__all__ = ["FRAME_HINTS"]


def _side_to_side() -> Scene:
    m = MODEL
    half, low = m.side_to_side / 2, m.bottom
    bars = ("left_side_bar", "right_side_bar")
    frame = highlighted(frame_front(), *bars)
    right = View(
        frame,
        (
            Dimension(
                (-half, low), (half, low), bars, "picture.outside_outside", at=low - 34,
                words=Side.BELOW,
            ),
        ),
        role=Role.RIGHT,
    )  # fmt: skip
    inner = half - m.bar
    inside = View(
        frame_front(),
        (Dimension((-inner, -120), (inner, -120), bars, struck=True),),
        role=Role.WRONG,
        caption="picture.not_inside",
    )
    lug = m.lug_to_lug / 2
    with_lugs = View(
        frame_front(),
        (Dimension((-lug, m.top), (lug, m.top), ("top_bar", "top_bar"), at=50, struck=True),),
        role=Role.WRONG,
        caption="picture.not_with_lugs",
    )
    return how("side_to_side", right, inside, with_lugs)


def _top_to_bottom() -> Scene:
    m = MODEL
    half, low = m.side_to_side / 2, m.bottom
    right = View(
        (*highlighted(frame_front(), "top_bar", "bottom_bar"), *table(-215, 275, low)),
        (
            Dimension(
                (half, m.top), (half, low), ("top_bar", "table"), "picture.top_to_lowest",
                upright=True, at=225, words=Side.RIGHT,
            ),
        ),
        role=Role.RIGHT,
    )  # fmt: skip
    wrong = View(
        frame_front(),
        (
            Dimension(
                (0, m.top - m.top_bar_thickness), (0, low + m.bar), ("top_bar", "bottom_bar"),
                upright=True, struck=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_the_opening",
    )  # fmt: skip
    half_way = View(
        frame_front(),
        (
            Dimension(
                (40, m.top - m.top_bar_thickness), (40, low), ("top_bar", "bottom_bar"),
                upright=True, struck=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_without_top_bar",
    )  # fmt: skip
    return how("top_to_bottom", right, wrong, half_way)


def _lug_to_lug() -> Scene:
    m = MODEL
    lug, half = m.lug_to_lug / 2, m.side_to_side / 2
    right = View(
        highlighted(frame_front(), "top_bar"),
        (Dimension((-lug, m.top), (lug, m.top), ("top_bar", "top_bar"), "picture.tip_tip", at=44),),
        role=Role.RIGHT,
    )
    without = View(
        frame_front(),
        (
            Dimension(
                (-half, m.bottom), (half, m.bottom), ("left_side_bar", "right_side_bar"),
                at=m.bottom - 36, struck=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_without_lugs",
    )  # fmt: skip
    return how("lug_to_lug", right, without)


_ENDS = replace(MODEL, top_to_bottom=170.0, shoulder_length=70.0)
"""The same frame cut shorter, so that its width is seen larger."""
_THICK_BAR = replace(MODEL, top_bar_thickness=19.0, lug_thickness=9.5)


def _lug_thickness() -> Scene:
    m, lug = MODEL, MODEL.lug_to_lug / 2
    ruler = rectangle(-lug - 10, m.top, -lug + 46, m.top + 3.5, "ruler")
    right = View(
        (*highlighted(frame_corner(depth=30, reach=58), "top_bar"), ruler),
        (
            Dimension(
                (-lug - 8, m.top), (-lug, 0), ("ruler", "top_bar"),
                "picture.top_to_underside", upright=True, at=-lug - 8, words=Side.LEFT,
            ),
        ),
        (Note((-lug + 24, m.top + 10), "picture.word.ruler", to=(-lug + 20, m.top + 2)),),
        role=Role.RIGHT,
    )  # fmt: skip
    t = _THICK_BAR
    middle = -lug + 42
    wrong = View(
        (*body_corner(t, depth=30), *frame_corner(t, depth=30, reach=72)),
        (
            Dimension(
                (middle, t.top), (middle, t.top - t.top_bar_thickness), ("top_bar", "top_bar"),
                upright=True, struck=True, inward=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_the_bar",
    )  # fmt: skip
    return how("lug_thickness", right, wrong)


def _top_bar_thickness() -> Scene:
    t, lug = _THICK_BAR, MODEL.lug_to_lug / 2
    under, at = t.top - t.top_bar_thickness, -lug + 48
    right = View(
        highlighted(frame_corner(t, depth=40, reach=78), "top_bar"),
        (
            Dimension(
                (at, t.top), (at, under), ("top_bar", "top_bar"), upright=True, inward=True,
            ),
        ),
        role=Role.RIGHT,
        caption="picture.between_side_bars",
    )  # fmt: skip
    wrong = View(
        frame_corner(t, depth=30, reach=72),
        (
            Dimension(
                (-lug + 7, t.top), (-lug + 7, 0), ("top_bar", "top_bar"),
                upright=True, struck=True, inward=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_the_lug",
    )  # fmt: skip
    return how("top_bar_thickness", right, wrong)


def _bar_from_above() -> tuple[Shape, ...]:
    m = MODEL
    wide, lug, half = m.top_bar_width / 2, m.lug_to_lug / 2, m.side_to_side / 2
    narrow, stop = wide - 3, 64 - lug
    return (
        Area(((-half, -wide), *torn((stop, -wide), (stop, wide)), (-half, wide)), part="top_bar"),
        rectangle(-lug, -narrow, -half, narrow, "lug"),
    )


def _lug_width() -> Scene:
    m = MODEL
    wide, lug = m.top_bar_width / 2, m.lug_to_lug / 2
    narrow = wide - 3
    right = View(
        highlighted(_bar_from_above(), "lug"),
        (
            Dimension(
                (-lug, narrow), (-lug, -narrow), ("lug", "lug"),
                "picture.across_the_lug", upright=True, at=-lug - 8, words=Side.LEFT,
            ),
        ),
        (Note((-lug + 40, wide + 8), "picture.word.from_above", plain=True),),
        role=Role.RIGHT,
    )  # fmt: skip
    wrong = View(
        _bar_from_above(),
        (
            Dimension(
                (-lug + 40, wide),
                (-lug + 40, -wide),
                ("top_bar", "top_bar"),
                upright=True,
                struck=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_the_bar",
    )
    return how("lug_width", right, wrong)


def _widest_wood() -> Scene:
    m = _ENDS
    wide, narrow = m.widest_wood / 2, m.top_bar_width / 2
    right = View(
        highlighted(frame_end(m=m), "side_bar"),
        (
            Dimension(
                (-wide, -40), (wide, -40), ("side_bar", "side_bar"), at=26
            ),
        ),
        (Note((wide + 12, -60), "picture.word.shoulder", side=Side.RIGHT, to=(wide, -60)),),
        role=Role.RIGHT,
        caption="picture.widest",
        share=1.2,
    )  # fmt: skip
    wrong = View(
        frame_end(m=m),
        (
            Dimension(
                (-narrow, -120), (narrow, -120), ("side_bar", "side_bar"), struck=True,
                inward=True,
            ),
        ),
        role=Role.WRONG,
        caption="picture.not_where_narrow",
    )  # fmt: skip
    return beside("widest_wood", right, wrong)


def _comb_thickness() -> Scene:
    m = _ENDS
    fat = 38.0
    high = m.top - m.top_bar_thickness
    at = high + (m.bottom + m.bar - high) * 0.3
    body = (*frame_end(Spacer.STRAIGHT, m), comb_end(m, fat))
    half = fat / 2
    rulers = (
        rectangle(-half - 5, at - 56, -half, at + 40, "left_ruler", Ink.CONTEXT),
        rectangle(half, at - 56, half + 5, at + 40, "right_ruler", Ink.CONTEXT),
    )
    right = View(
        (*highlighted(body, "comb"), *rulers),
        (
            Dimension(
                (-half, at), (half, at), ("comb", "comb"), at=26,
            ),
        ),
        (Note((half + 16, at - 40), "picture.word.ruler", side=Side.RIGHT,
              to=(half + 5, at - 40)),),
        role=Role.RIGHT,
        caption="picture.fattest",
        share=1.2,
    )  # fmt: skip
    middle = Path(((0, high), (0, m.bottom + m.bar)), Ink.GHOST, "mid_wall")
    wrong = View(
        (*body, middle),
        (Dimension((0, at), (half, at), ("mid_wall", "comb"), struck=True, inward=True),),
        role=Role.WRONG,
        caption="picture.not_one_side",
    )
    return beside("comb_thickness", right, wrong)


FRAME_HINTS = {
    Measure.SIDE_TO_SIDE: _side_to_side,
    Measure.TOP_TO_BOTTOM: _top_to_bottom,
    Measure.LUG_TO_LUG: _lug_to_lug,
    Measure.LUG_THICKNESS: _lug_thickness,
    Measure.TOP_BAR_THICKNESS: _top_bar_thickness,
    Measure.LUG_WIDTH: _lug_width,
    Measure.WIDEST_WOOD: _widest_wood,
    Measure.COMB_THICKNESS: _comb_thickness,
}
