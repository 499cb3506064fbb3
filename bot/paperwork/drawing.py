"""The bench's views on paper: to a preferred scale, with dimension lines, in millimetres of paper.

A view says only on which side a dimension line stands. Lines of one side stand one outside the
other, the first nearest, whatever the scale. Text stands over its line, or beside it where the
line is shorter than the text; that of upright lines is read from the right (ISO 129-1).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from bot.pictures.style import FONT
from sizing.drawings.bench import BenchViews
from sizing.drawings.shapes import Area, Dimension, Ink, Path, Point, Side, View

__all__ = ["SCALES", "Box", "Drawing", "Label", "Stroke", "drawn"]

SCALES = (1, 2, 5, 10, 20, 50)
"""Preferred scales of reduction, 1 to so many (ISO 5455:1979)."""

Box = tuple[float, float, float, float]
"""Left, top, right, bottom [mm of paper]."""

TEXT = 3.4
"""Size of the letters [mm]; their capitals are 2.5 mm high (ISO 3098)."""
CAPITAL = 2.5
FIRST, NEXT = 6.5, 5.5
"""[mm] from the outline to the first dimension line, and from one to the next."""
_GAP, _BEYOND = 0.8, 1.5
"""[mm] an extension line keeps off the outline, and goes on past the dimension line."""
_HEAD = (2.5, 0.45)
"""Length and half width [mm] of an arrow head."""
_TAIL = 5.0
_OVER = 0.8
"""[mm] from the dimension line to its text."""
_CAPTION = 5.0
_BETWEEN = 7.0
_THICK, _THIN, _HAIR = 0.35, 0.18, 0.13
"""Widths [mm] of outlines, of dimension lines, and of wires seen from the side."""

Written = Callable[[Fraction], str]


@dataclass(frozen=True, slots=True)
class Stroke:
    """Lines of one width [mm]; `dash` where they are broken."""

    width: float
    points: tuple[Point, ...]
    dash: bool = False
    fill: str | None = None
    """A closed outline filled with this colour, where there is one."""
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Label:
    """Words on the drawing; `box` is what they fill, `upright` those that are read from right."""

    text: str
    box: Box
    size: float = TEXT
    upright: bool = False


@dataclass(slots=True)
class Drawing:
    """All views on one field of paper [mm], 1 to `scale`."""

    width: float
    height: float
    scale: int
    strokes: list[Stroke] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Sized:
    """A view with the room [mm of paper] it needs on each side of its own extents."""

    view: View
    caption: str
    left: float
    top: float
    right: float
    bottom: float

    def lows(self, scale: float) -> Point:
        xs, ys = _extents(self.view)
        return xs[0] * scale, ys[0] * scale

    def highs(self, scale: float) -> Point:
        xs, ys = _extents(self.view)
        return xs[1] * scale, ys[1] * scale


def _extents(view: View) -> tuple[Point, Point]:
    points = [point for shape in view.shapes for point in shape.points]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), max(xs)), (min(ys), max(ys))


def _text_width(text: str, size: float = TEXT) -> float:
    return FONT.advance * size * len(text)


def _sized(view: View, caption: str, scale: float, written: Written) -> _Sized:
    def lanes(side: Side) -> float:
        count = sum(one.words is side for one in view.dimensions)
        return FIRST + NEXT * (count - 1) + _OVER + CAPITAL + 0.3 if count else 1.0

    room = {side: lanes(side) for side in (Side.LEFT, Side.ABOVE, Side.RIGHT, Side.BELOW)}
    for one in view.dimensions:
        long = _drawn_length(one, scale)
        wide = _text_width(written(one.length)) if one.length is not None else 0.0
        if not _within(long, wide):
            before, behind = (Side.BELOW, Side.ABOVE) if one.upright else (Side.LEFT, Side.RIGHT)
            room[before] = max(room[before], _TAIL)
            room[behind] = max(room[behind], _TAIL + wide)
    below = room[Side.BELOW] + _CAPTION
    return _Sized(view, caption, room[Side.LEFT], room[Side.ABOVE], room[Side.RIGHT], below)


def _drawn_length(one: Dimension, scale: float) -> float:
    (ax, ay), (bx, by) = one.line
    return (abs(by - ay) if one.upright else abs(bx - ax)) * scale


def _within(long: float, wide: float) -> bool:
    """Whether arrows and text have room between the extension lines."""
    return long >= max(wide, 2 * _HEAD[0] + 1)


def drawn(
    views: BenchViews, width: float, height: float, written: Written, captions: Callable[[str], str]
) -> Drawing:
    """The views in a field of `width` by `height` [mm], at the largest preferred scale that fits.

    `written` says how a length is written, `captions` what the key of a caption says.
    """
    for scale in SCALES:
        sized = {
            name: None
            if view is None
            else _sized(view, captions(view.caption or ""), 1 / scale, written)
            for name, view in (
                ("front", views.front), ("side", views.side), ("top", views.top),
                ("lid", views.lid),
            )
        }  # fmt: skip
        placed, wide, high = _placed(sized, 1 / scale)
        if (wide <= width and high <= height) or scale == SCALES[-1]:
            break
    drawing = Drawing(width, height, scale)
    right, down = (width - wide) / 2, (height - high) / 2
    for one, (x, y) in placed:
        _draw(drawing, one, (x + right, y + down), 1 / scale, written)
    return drawing


def _placed(
    sized: dict[str, _Sized | None], scale: float
) -> tuple[list[tuple[_Sized, Point]], float, float]:
    """Where the origin of each view comes to lie, and how much room all of them need."""
    column = [one for name in ("front", "top", "lid") if (one := sized[name]) is not None]
    axis = max(one.left - one.lows(scale)[0] for one in column)
    wide = axis + max(one.highs(scale)[0] + one.right for one in column)
    placed: list[tuple[_Sized, Point]] = []
    side, high = sized["side"], 0.0
    for one in column:
        beside = [one, side] if one is column[0] and side is not None else [one]
        base = high + max(each.top + each.highs(scale)[1] for each in beside)
        placed.append((one, (axis, base)))
        if len(beside) > 1 and side is not None:
            at = wide + _BETWEEN + side.left - side.lows(scale)[0]
            placed.append((side, (at, base)))
        high = base + max(each.bottom - each.lows(scale)[1] for each in beside)
    for one, (x, _) in placed:
        caption = _text_width(one.caption) / 2
        middle = x + (one.lows(scale)[0] + one.highs(scale)[0]) / 2
        wide = max(wide, x + one.highs(scale)[0] + one.right, middle + caption)
    return placed, wide, high


def _draw(drawing: Drawing, one: _Sized, origin: Point, scale: float, written: Written) -> None:
    def place(point: Point) -> Point:
        return origin[0] + point[0] * scale, origin[1] - point[1] * scale

    for shape in one.view.shapes:
        drawing.strokes.append(_stroke(shape, tuple(place(point) for point in shape.points)))
    xs, ys = _extents(one.view)
    (left, bottom), (right, top) = place((xs[0], ys[0])), place((xs[1], ys[1]))
    edges = {Side.LEFT: left, Side.RIGHT: right, Side.ABOVE: top, Side.BELOW: bottom}
    lanes = dict.fromkeys(edges, 0)
    for dimension in one.view.dimensions:
        lane = FIRST + NEXT * lanes[dimension.words]
        lanes[dimension.words] += 1
        outward = 1 if dimension.words in (Side.RIGHT, Side.BELOW) else -1
        _dimension(drawing, dimension, place, edges[dimension.words] + outward * lane, written)
    wide = _text_width(one.caption)
    x = max(0.0, (left + right) / 2 - wide / 2)
    y = bottom + one.bottom - _CAPTION + 1.0
    drawing.labels.append(Label(one.caption, (x, y, x + wide, y + CAPITAL)))


def _stroke(shape: Area | Path, points: tuple[Point, ...]) -> Stroke:
    if shape.ink is Ink.GHOST:
        return Stroke(_THIN, points, dash=True, closed=isinstance(shape, Area))
    if isinstance(shape, Path):
        return Stroke(_HAIR if shape.ink is Ink.FAINT else _THICK, points)
    fill = "#000000" if shape.ink is Ink.METAL else None
    return Stroke(_THICK, points, fill=fill, closed=True)


def _dimension(
    drawing: Drawing, one: Dimension, place: Callable[[Point], Point], lane: float, written: Written
) -> None:
    """A dimension line at `lane` with its extension lines, arrows and text."""
    assert one.length is not None, "the bench's views carry a length at every arrow"
    start, end = place(one.start), place(one.end)
    if one.upright:
        a, b = sorted((start[1], end[1]))
        tips = (lane, a), (lane, b)
    else:
        a, b = sorted((start[0], end[0]))
        tips = (a, lane), (b, lane)
    for face in (start, end):
        drawing.strokes.append(Stroke(_THIN, _extension(face, lane, upright=one.upright)))
    text = written(one.length)
    wide = _text_width(text)
    within = _within(b - a, wide)
    drawing.strokes += _arrows(*tips, inside=within, upright=one.upright)
    along = (a + b - wide) / 2 if within else b + _TAIL - 1.5
    if one.upright:
        low = (a + b + wide) / 2 if within else a - _TAIL + 1.5
        box = (lane - _OVER - CAPITAL, low - wide, lane - _OVER, low)
    else:
        box = (along, lane - _OVER - CAPITAL, along + wide, lane - _OVER)
    drawing.labels.append(Label(text, box, upright=one.upright))


def _extension(face: Point, lane: float, *, upright: bool) -> tuple[Point, Point]:
    at = face[0] if upright else face[1]
    sign = 1 if lane > at else -1
    near, far = at + sign * _GAP, lane + sign * _BEYOND
    return ((near, face[1]), (far, face[1])) if upright else ((face[0], near), (face[0], far))


def _arrows(start: Point, end: Point, *, inside: bool, upright: bool) -> Iterable[Stroke]:
    reach = 0.0 if inside else _TAIL
    ux, uy = (0.0, 1.0) if upright else (1.0, 0.0)
    first = (start[0] - ux * reach, start[1] - uy * reach)
    last = (end[0] + ux * reach, end[1] + uy * reach)
    yield Stroke(_THIN, (first, last))
    turn = 1 if inside else -1
    for tip, sign in ((start, turn), (end, -turn)):
        back = (tip[0] + ux * sign * _HEAD[0], tip[1] + uy * sign * _HEAD[0])
        corners = tuple((back[0] + uy * w, back[1] + ux * w) for w in (_HEAD[1], -_HEAD[1]))
        yield Stroke(0.0, (tip, *corners), fill="#000000", closed=True)
