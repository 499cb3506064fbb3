"""From a scene to a sheet: scales, positions, words.

Shapes grow with the scale of their view, words and arrow heads do not. So the scale is the
largest at which everything, words included, fits into the room of the view.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from bot.pictures import marks
from bot.pictures.marks import Mark, Pixel
from bot.pictures.style import (
    BLACK,
    CAPTION,
    EDGE,
    EXTENSION,
    INKS,
    LABEL,
    LEADER,
    NOTE,
    STRIP,
    WHITE,
    WIDTH,
    Pen,
)
from bot.pictures.words import Block, Placed, say, wrapped
from sizing.drawings.shapes import Area, Dimension, Ink, Path, Point, Role, Row, Scene, Side, View

__all__ = ["Box", "Sheet", "compose"]

Box = tuple[float, float, float, float]
"""Left, top, right, bottom [px]."""
Span = tuple[float, float, float]
"""A coordinate [mm] and how far [px] something reaches before and behind it."""

Place = Callable[[Point], Pixel]
"""From a position [mm] of a view to one of the sheet [px]."""

_SIGN = 20.0
_GAP = 12.0
_LEAD = 2 * _SIGN + _GAP
_ARROWS = {Role.RIGHT: 1.0, Role.WRONG: 0.8, Role.PLAIN: 0.7}
"""Size of arrows: the answer first."""
_STRIKE = 21.0
_BESIDE = {Role.RIGHT: 0.42, Role.WRONG: 0.42, Role.PLAIN: 0.16}
"""How much of the width words beside an arrow may take."""
_TAIL = 52.0
"""How far [px] an arrow that comes from outside reaches out."""


@dataclass(slots=True)
class Sheet:
    """Everything on one sheet, in pixels; the lists of boxes and arrows are for checking."""

    width: float
    height: float
    marks: list[Mark] = field(default_factory=list)
    words: list[Placed] = field(default_factory=list)
    arrows: list[tuple[Pixel, Pixel]] = field(default_factory=list)
    signs: list[Box] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Tied:
    """Words tied to a point [mm]: `left` and `top` [px] from it to their corner.

    `lead` [px] is the room before them for the sign that says "this is how".
    """

    block: Block
    point: Point
    left: float
    top: float
    lead: float = 0.0
    colour: str = BLACK
    plate: str | None = None

    @property
    def right(self) -> float:
        """From the point to the right edge [px]."""
        return self.left + self.lead + self.block.width

    @property
    def bottom(self) -> float:
        """From the point to the lower edge [px]."""
        return self.top + max(self.block.height, self.lead - _GAP)


@dataclass(frozen=True, slots=True)
class _Fitted:
    """A view with its words and room, ready to be scaled."""

    view: View
    tied: tuple[_Tied, ...]
    room: Box
    across: tuple[Span, ...]
    down: tuple[Span, ...]

    @property
    def largest(self) -> float:
        """The largest scale [px per mm] at which all of it fits."""
        left, top, right, bottom = self.room
        return min(_largest(self.across, right - left), _largest(self.down, bottom - top))

    def placing(self, scale: float) -> Place:
        """The map from millimetres of the view to pixels of the sheet."""
        left, top, right, bottom = self.room
        x0 = (left + right) / 2 - _middle(self.across, scale)
        y0 = (top + bottom) / 2 - _middle(self.down, scale)
        return lambda point: (x0 + point[0] * scale, y0 - point[1] * scale)


def compose(scene: Scene, language: str) -> Sheet:
    """The sheet of `scene` with its words in `language`."""
    sheet = Sheet(WIDTH, round(WIDTH * scene.tallness))
    top = 0.0
    for row in scene.rows:
        bottom = top + sheet.height * row.share
        _row(sheet, row, top, bottom, language)
        top = bottom
    return sheet


def _row(sheet: Sheet, row: Row, top: float, bottom: float, language: str) -> None:
    whole = sum(view.share for view in row.views)
    boxes: list[Box] = []
    left = 0.0
    for view in row.views:
        right = left + sheet.width * view.share / whole
        boxes.append((left, top, right, bottom))
        left = right
    captions = [_caption(view, box, language) for view, box in zip(row.views, boxes, strict=True)]
    foot = max(height for _, height in captions)
    fitted = []
    for view, box, (caption, _) in zip(row.views, boxes, captions, strict=True):
        _ground(sheet, view, box)
        if caption is not None:
            _put_caption(sheet, view, caption, box, foot)
        fitted.append(_fit(view, box, foot, language))
    common = min(one.largest for one in fitted)
    for one in fitted:
        _draw(sheet, one, common if row.one_scale else one.largest)


def _ground_colour(view: View) -> str:
    return STRIP if view.role is Role.WRONG else WHITE


def _ground(sheet: Sheet, view: View, box: Box) -> None:
    if view.role is Role.WRONG:
        left, top, right, bottom = box
        corners = ((left, top), (right, top), (right, bottom), (left, bottom))
        sheet.marks.append(marks.area(corners, STRIP, Pen(WHITE, 6)))


def _fit(view: View, box: Box, foot: float, language: str) -> _Fitted:
    left, top, right, bottom = box
    below = foot + _GAP / 2 if foot else 0.0
    room = (left + EDGE, top + EDGE, right - EDGE, bottom - EDGE - below)
    ground = _ground_colour(view)
    tied = (
        *_label_words(view, room, language, ground),
        *_note_words(view, room, language, ground),
    )
    across, down = _spans(view, tied)
    return _Fitted(view, tied, room, across, down)


def _draw(sheet: Sheet, fitted: _Fitted, scale: float) -> None:
    view, place = fitted.view, fitted.placing(scale)
    _shapes(sheet, view, place)
    for dimension in view.dimensions:
        _dimension(sheet, dimension, place, scale=_ARROWS[view.role])
    for note in view.notes:
        if note.to is not None:
            sheet.marks.append(marks.paths(((place(note.at), place(note.to)),), LEADER))
    for words in fitted.tied:
        x, y = place(words.point)
        left, top, bottom = x + words.left, y + words.top, y + words.bottom
        if words.lead:
            _sign(sheet, (left + _SIGN, (top + bottom) / 2), right=True)
        y = (top + bottom - words.block.height) / 2
        sheet.words.append(Placed(words.block, left + words.lead, y, words.colour, words.plate))


def _sign(sheet: Sheet, centre: Pixel, *, right: bool) -> None:
    sheet.marks += marks.sign(centre, _SIGN - 2, right=right)
    sheet.signs.append(_around(centre, _SIGN))


def _caption(view: View, box: Box, language: str) -> tuple[Block | None, float]:
    """The words under a view and the height [px] they need."""
    if view.caption is None:
        return None, 0.0
    lead = _LEAD if view.role is not Role.PLAIN else 0.0
    size = LABEL if view.role is Role.RIGHT else CAPTION
    block = wrapped(say(language, view.caption), size, box[2] - box[0] - 2 * EDGE - lead)
    return block, max(block.height, lead - _GAP)


def _put_caption(sheet: Sheet, view: View, block: Block, box: Box, foot: float) -> None:
    """Puts the words under a view, with the sign that says right or wrong before them."""
    left, _, right, bottom = box
    lead = _LEAD if view.role is not Role.PLAIN else 0.0
    start = (left + right - lead - block.width) / 2
    middle = bottom - EDGE - foot / 2
    if lead:
        _sign(sheet, (start + _SIGN, middle), right=view.role is Role.RIGHT)
    sheet.words.append(Placed(block, start + lead, middle - block.height / 2))


def _label_words(view: View, room: Box, language: str, ground: str) -> Iterable[_Tied]:
    lead = _LEAD if view.role is Role.RIGHT and view.caption is None else 0.0
    for dimension in view.dimensions:
        text = say(language, dimension.label, dimension.length)
        if not text:
            continue
        beside = dimension.words in (Side.LEFT, Side.RIGHT)
        wide = (room[2] - room[0]) * (_BESIDE[view.role] if beside else 0.98) - lead
        block = wrapped(text, NOTE if view.role is Role.PLAIN else LABEL, wide)
        colour, plate = (WHITE, BLACK) if dimension.tight else (BLACK, ground)
        point, gap = _anchor(dimension, _ARROWS[view.role])
        yield _tie(block, point, dimension.words, gap, colour, plate, lead)
        lead = 0.0


def _anchor(dimension: Dimension, scale: float) -> tuple[Point, float]:
    """Where the words of an arrow are tied, and how far [px] they keep from there."""
    (ax, ay), (bx, by) = dimension.line
    beyond = _TAIL * scale + 8 if dimension.inward else 16.0
    if dimension.upright and dimension.words is Side.ABOVE:
        return (ax, max(ay, by)), beyond
    if dimension.upright and dimension.words is Side.BELOW:
        return (ax, min(ay, by)), beyond
    if not dimension.upright and dimension.words is Side.RIGHT:
        return (max(ax, bx), ay), beyond
    if not dimension.upright and dimension.words is Side.LEFT:
        return (min(ax, bx), ay), beyond
    return ((ax + bx) / 2, (ay + by) / 2), 16.0


def _note_words(view: View, room: Box, language: str, ground: str) -> Iterable[_Tied]:
    for note in view.notes:
        text = (
            str(note.number) if note.number is not None else say(language, note.label, note.length)
        )
        block = wrapped(text, NOTE, (room[2] - room[0]) * 0.6)
        plate = None if note.plain else ground
        yield _tie(block, note.at, note.side, 8, BLACK, plate, 0.0)


def _tie(
    block: Block,
    point: Point,
    side: Side,
    gap: float,
    colour: str,
    plate: str | None,
    lead: float,
) -> _Tied:
    width, height = block.width + lead, max(block.height, lead - _GAP)
    left, top = -width / 2, -height / 2
    if side is Side.LEFT:
        left = -gap - width
    elif side is Side.RIGHT:
        left = gap
    elif side is Side.ABOVE:
        top = -gap - height
    elif side is Side.BELOW:
        top = gap
    return _Tied(block, point, left, top, lead, colour, plate)


def _spans(view: View, tied: tuple[_Tied, ...]) -> tuple[tuple[Span, ...], tuple[Span, ...]]:
    points = [point for shape in view.shapes for point in shape.points]
    across: list[Span] = [(edge(x for x, _ in points), -3.0, 3.0) for edge in (min, max)]
    down: list[Span] = [(-edge(y for _, y in points), -3.0, 3.0) for edge in (min, max)]
    for dimension in view.dimensions:
        tail = _TAIL * _ARROWS[view.role] if dimension.inward else 4.0
        beside = _STRIKE + 4 if dimension.struck else 11.0
        for x, y in dimension.line:
            wide, high = (beside, tail) if dimension.upright else (tail, beside)
            across.append((x, -wide, wide))
            down.append((-y, -high, high))
    for words in tied:
        x, y = words.point
        across.append((x, words.left - 4, words.right + 4))
        down.append((-y, words.top - 2, words.bottom + 2))
    return tuple(across), tuple(down)


def _largest(spans: tuple[Span, ...], room: float) -> float:
    """The largest scale at which the spans need no more than `room` [px]."""
    return min(
        (room - behind + before) / (b - a)
        for a, before, _ in spans
        for b, _, behind in spans
        if b > a
    )


def _middle(spans: tuple[Span, ...], scale: float) -> float:
    low = min(a * scale + before for a, before, _ in spans)
    high = max(b * scale + behind for b, _, behind in spans)
    return (low + high) / 2


def _shapes(sheet: Sheet, view: View, place: Place) -> None:
    bold = [shape for shape in view.shapes if shape.ink is Ink.ASKED]
    for shape in [s for s in view.shapes if s.ink is not Ink.ASKED] + bold:
        points = tuple(place(point) for point in shape.points)
        look = INKS[shape.ink]
        if isinstance(shape, Area):
            sheet.marks += marks.shape_area(points, look)
        else:
            _path(sheet, shape, points)


def _path(sheet: Sheet, path: Path, points: tuple[Pixel, ...]) -> None:
    look = INKS[path.ink]
    if look.line is None:
        return
    heavy = Pen(look.line.colour, look.line.width * path.weight, look.line.dash)
    if path.arrow:
        sheet.marks += marks.arrow(points[0], points[-1], scale=0.75, both=False)
        return
    sheet.marks.append(marks.paths((points,), heavy))
    if path.ink is Ink.ASKED and look.fill is not None:
        sheet.marks.append(marks.paths((points,), Pen(look.fill, heavy.width * 0.4)))


def _dimension(
    sheet: Sheet,
    dimension: Dimension,
    place: Place,
    *,
    scale: float,
) -> None:
    start, end = (place(point) for point in dimension.line)
    joints = tuple(
        (face, _past(face, tip))
        for face, tip in ((place(dimension.start), start), (place(dimension.end), end))
        if face != tip
    )
    if joints:
        sheet.marks.append(marks.paths(joints, EXTENSION))
    sheet.marks += marks.arrow(
        start, end, struck=dimension.struck, inward=dimension.inward, scale=scale
    )
    sheet.arrows.append((start, end))
    if dimension.struck:
        centre = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        sheet.marks += marks.strike(centre, _STRIKE)


def _past(face: Pixel, tip: Pixel) -> Pixel:
    """A joint runs a little past the arrow, so that the head has something to touch."""
    if face[0] == tip[0]:
        return tip[0], tip[1] + (9 if tip[1] > face[1] else -9)
    return tip[0] + (9 if tip[0] > face[0] else -9), tip[1]


def _around(centre: Pixel, half: float) -> Box:
    return centre[0] - half, centre[1] - half, centre[0] + half, centre[1] + half
