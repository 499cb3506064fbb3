"""Pictures for choices: what each answer looks like, side by side."""

from __future__ import annotations

from dataclasses import replace

from sizing.drawings.model import MODEL
from sizing.drawings.parts import (
    body_along,
    body_corner,
    floor,
    frame_corner,
    frame_end,
    frame_front,
    highlighted,
    pair,
    queen,
    worker,
)
from sizing.drawings.shapes import (
    Area,
    Ink,
    Note,
    Path,
    Point,
    Row,
    Scene,
    Shape,
    View,
    ellipse,
    moved,
    rectangle,
)
from sizing.measures import Above, Below, LidChoice, Purpose, Spacer

__all__ = ["CHOICES"]

_ENDS = replace(MODEL, top_to_bottom=130.0, shoulder_length=58.0)
_LOW = replace(MODEL, ledge_down=160.0, top_to_bottom=167.0)


def _side_by_side(name: str, *views: View, tallness: float) -> Scene:
    return Scene(name, (Row(views, 1.0, one_scale=True),), tallness)


def _spacer() -> Scene:
    m = _ENDS
    wide, bar = m.widest_wood / 2, m.top_bar_width / 2
    gap = wide - bar
    loose = rectangle(-gap, -26, gap, m.top, "keeper", Ink.ASKED)
    keepers: dict[Spacer, tuple[Shape, ...]] = {
        Spacer.STRAIGHT: (),
        Spacer.SHOULDERS: tuple(
            Area(
                (
                    (x, 0), (x + turn * gap, 0), (x + turn * gap, -m.shoulder_length),
                    (x, -m.shoulder_length - 14),
                ),
                Ink.ASKED,
                "keeper",
            )
            for x, turn in ((-gap, 1), (gap, -1))
        ),
        Spacer.PINS: (),
        Spacer.LOOSE: (loose,),
    }  # fmt: skip
    views = tuple(
        View(
            (
                *highlighted(pair(frame_end(spacer, m), m.widest_wood), "left_pin", "right_pin"),
                *keepers[spacer],
            ),
            caption=f"picture.spacer.{spacer}",
        )
        for spacer in Spacer
    )
    return _side_by_side("spacer", *views, tallness=0.56)


def _this_body() -> tuple[Shape, ...]:
    return (*body_along(_LOW), *frame_front(_LOW))


def _here() -> Note:
    return Note((0, -75), "picture.word.this_box")


def _below() -> Scene:
    m = _LOW
    down = -m.ledge_down - m.ledge_up
    box = View(
        (*_this_body(), *moved(highlighted(_this_body(), "left_wall", "right_wall"), 0, down)),
        notes=(_here(),),
        caption=f"picture.below.{Below.BOX}",
    )
    ground = View(
        (*_this_body(), *highlighted(floor(m), "floor", "left_rail", "right_rail")),
        notes=(_here(),),
        caption=f"picture.below.{Below.FLOOR}",
    )
    return _side_by_side("below", box, ground, tallness=0.5)


def _above() -> Scene:
    m = _LOW
    up = m.ledge_down + m.ledge_up
    outer, rim, ledge = m.inside_along / 2 + m.wall, m.ledge_up, m.lug_room / 2
    box = View(
        (*_this_body(), *moved(highlighted(_this_body(), "left_wall", "right_wall"), 0, up)),
        notes=(_here(),),
        caption=f"picture.above.{Above.BOX}",
    )
    cover = View(
        (
            *_this_body(),
            rectangle(-outer, rim, -ledge, rim + 12, "cover_rail", Ink.ASKED),
            rectangle(ledge, rim, outer, rim + 12, "cover_rail", Ink.ASKED),
            rectangle(-outer - 8, rim + 12, outer + 8, rim + 30, "cover", Ink.ASKED),
        ),
        notes=(_here(),),
        caption=f"picture.above.{Above.COVER}",
    )
    hang = m.top + 3
    sheet = tuple(
        (x, hang if abs(x) < ledge - 4 else rim + 3)
        for x in (-outer, -ledge - 3, -ledge + 8, ledge - 8, ledge + 3, outer)
    )
    cloth = View(
        (*_this_body(), Path(sheet, Ink.ASKED, "cloth", 2.2)),
        notes=(_here(),),
        caption=f"picture.above.{Above.CLOTH}",
    )
    return _side_by_side("above", box, cover, cloth, tallness=0.44)


def _cage_corner(end: float, deep: float) -> tuple[Shape, ...]:
    """The end wall of the cage between side bar and hive, and its ear under the lug."""
    lug = MODEL.lug_to_lug / 2
    return (Path(((-lug, -0.9), (end, -0.9), (end, -deep)), Ink.METAL, "cage_end", 3),)


def _away(across: float, away: float, up: float) -> Point:
    """A point seen from the end of the cage: `away` [mm] runs back to the upper right."""
    return across + away * 0.62, up + away * 0.36


def _cage_from_end(lid: tuple[Shape, ...]) -> tuple[Shape, ...]:
    """The upper end of the cage with the frame in it, the lug towards the eye."""
    half, wood, deep, back, lug = 24.0, 12.5, -38.0, 62.0, -15.5
    top = MODEL.top
    side = tuple(
        Path((_away(half, away, deep), _away(half, away, 0)), Ink.METAL, "wire", 1.0)
        for away in range(8, int(back), 6)
    )
    lug_faces = (
        Area(
            (
                _away(-wood, 0, top), _away(-wood, lug, top), _away(wood, lug, top),
                _away(wood, 0, top),
            ),
            part="lug",
        ),
        Area(
            (
                _away(wood, lug, 0), _away(wood, 0, 0), _away(wood, 0, top),
                _away(wood, lug, top),
            ),
            part="lug",
        ),
        Area(
            (
                _away(-wood, lug, 0), _away(wood, lug, 0), _away(wood, lug, top),
                _away(-wood, lug, top),
            ),
            part="lug",
        ),
    )  # fmt: skip
    ear = (
        (-half + 2, lug), (half - 2, lug), (half - 2, 0.0), (-half + 2, 0.0),
    )  # fmt: skip
    return (
        *side,
        rectangle(-half, deep, half, 0, "cage_end", Ink.FAINT),
        Area(tuple(_away(x, d, -1.0) for x, d in ear), Ink.METAL, "ear"),
        *lug_faces,
        *lid,
    )  # fmt: skip


def _lid_from_end(choice: LidChoice) -> tuple[Shape, ...]:
    """The lid alone: its top, its long side, and its end where it has one."""
    half, back, level, low = 25.5, 62.0, MODEL.top + 3, 2.0
    front = 0.0 if choice is LidChoice.CLOSED_BETWEEN_WALLS else -17.0
    top = Area(
        (
            _away(-half, front, level), _away(half, front, level), _away(half, back, level),
            _away(-half, back, level),
        ),
        Ink.ASKED,
        "lid",
    )  # fmt: skip
    long_side = Area(
        (
            _away(half, front, low), _away(half, back, low), _away(half, back, level),
            _away(half, front, level),
        ),
        Ink.ASKED,
        "lid",
    )  # fmt: skip
    if choice is LidChoice.END_OPEN:
        edge = Path((_away(-half, front, level), _away(-half, front, low)), Ink.ASKED, "lid", 1.3)
        return (top, long_side, edge)
    outline: tuple[tuple[float, float], ...] = (
        (-half, low), (-half, level), (half, level), (half, low),
    )  # fmt: skip
    if choice is LidChoice.CLOSED_BETWEEN_WALLS:
        notch, over = 13.2, MODEL.top + 0.8
        outline = (*outline, (notch, low), (notch, over), (-notch, over), (-notch, low))
    end = Area(tuple(_away(x, front, z) for x, z in outline), Ink.ASKED, "lid_end")
    return (top, long_side, end)


def _lid() -> Scene:
    lug, end, stop = MODEL.lug_to_lug / 2, -185.0, -142.0
    level = MODEL.top + 3
    lids: dict[LidChoice, tuple[Point, ...]] = {
        LidChoice.END_OPEN: ((-lug, level), (stop, level)),
        LidChoice.CLOSED: ((-lug - 2.4, 1), (-lug - 2.4, level), (stop, level)),
        LidChoice.CLOSED_BETWEEN_WALLS: ((end, MODEL.top + 1), (end, level + 3),
                                         (stop, level + 3)),
    }  # fmt: skip
    roomy = replace(MODEL, lug_room=401.0, wall=24.0)
    close = replace(MODEL, wall=24.0)
    cut = tuple(
        View(
            (
                *body_corner(roomy if choice is LidChoice.CLOSED else close, depth=26),
                *frame_corner(depth=26, reach=54),
                *_cage_corner(end, 26),
                Path(points, Ink.ASKED, "lid", 2.2),
            ),
            caption=f"picture.lid.{choice}",
        )
        for choice, points in lids.items()
    )
    whole = tuple(View(_cage_from_end(_lid_from_end(choice))) for choice in lids)
    return Scene("lid", (Row(whole, 0.46, one_scale=True), Row(cut, 0.54, one_scale=True)), 0.72)


def _wires(gap: float, count: int) -> tuple[Shape, ...]:
    """Wires of 2 mm cut across, one over the other, the middle gap at y = 0."""
    pitch = gap + 2
    first = -pitch * (count - 1) / 2
    return tuple(
        ellipse((0, first + i * pitch), (1.0, 1.0), "wire", Ink.METAL) for i in range(count)
    )


def _purpose() -> Scene:
    passing = View(
        (
            *_wires(4.3, 8),
            *queen((-15, 0)),
            *worker((0.6, 6.3), 1.0),
            *worker((17, -7)),
            Path(((9, 6.3), (21, 6.3)), Ink.METAL, "way", 1.5, arrow=True),
        ),
        caption=f"picture.purpose.{Purpose.ISOLATE}",
    )
    kept_out = View(
        (
            *_wires(3.1, 10),
            *queen((-15, 0)),
            *_turned(worker((-20, -7)), 0),
            *_turned(worker((-20, 7)), 0),
            *(Path(((11, y), (3, y)), Ink.METAL, "way", arrow=True) for y in (-7.0, 7.0)),
        ),
        caption=f"picture.purpose.{Purpose.INTRODUCE}",
    )
    return _side_by_side("purpose", passing, kept_out, tallness=0.6)


def _turned(shapes: tuple[Shape, ...], about: float) -> tuple[Shape, ...]:
    """The same shapes mirrored left to right about x = `about` [mm]."""
    return tuple(
        replace(shape, points=tuple((2 * about - x, y) for x, y in shape.points))
        for shape in shapes
    )


CHOICES = {
    "spacer": _spacer,
    "below": _below,
    "above": _above,
    "lid": _lid,
    "purpose": _purpose,
}
