"""The views of a cage that the bench works from: front, side, from above, and its lid.

First angle: the side is seen from the left and stands right of the front, what is seen from
above stands below it. Everything comes from the numbers of the design, so the drawing is the
cage. x = 0 is the middle, in front and side y = 0 is the ledge.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from sizing.drawings.shapes import Dimension, Ink, Path, Shape, Side, View, rectangle
from sizing.measures import Ears, LidKind

if TYPE_CHECKING:
    from sizing.cage import Design
    from sizing.measures import Request
    from sizing.units import Mm

__all__ = ["BenchViews", "bench_views"]

_GUIDE = 12.0
"""How far [mm] a guide is drawn into the cage."""


@dataclass(frozen=True, slots=True)
class BenchViews:
    """The views, each in mm; those across are None while a length for them is missing."""

    front: View
    side: View | None
    top: View | None
    lid: View | None


@dataclass(frozen=True, slots=True)
class _Solid:
    """The numbers of the cage as they are drawn [mm]; z = 0 on the ledge."""

    design: Design
    low: float
    frame_top: float
    lid_under: float
    lid_top: float
    sheet: float
    end: float
    tip: float
    wires: tuple[float, ...]

    @property
    def floor(self) -> float:
        return self.low + float(self.design.cage.floor_thickness)

    @property
    def half_depth(self) -> float:
        assert self.design.cage.depth_outside is not None
        return float(self.design.cage.depth_outside) / 2

    @property
    def half_inside(self) -> float:
        assert self.design.cage.depth_inside is not None
        return float(self.design.cage.depth_inside) / 2

    @property
    def ear(self) -> tuple[float, float]:
        """From where to where an ear reaches across, at the far side of the middle."""
        width = self.design.cage.ear_width
        inner = 0.0 if width is None else self.half_depth - float(width)
        return inner, self.half_depth


def bench_views(request: Request, design: Design) -> BenchViews:
    """The views of the cage `design` [mm] for `request`."""
    solid = _solid(request, design)
    if design.cage.depth_outside is None:
        return BenchViews(_front(solid), None, None, None)
    lid = None if design.lid.length is None else _lid(solid, design.lid.length)
    return BenchViews(_front(solid), _side(solid), _top(solid), lid)


def _solid(request: Request, design: Design) -> _Solid:
    cage = design.cage
    high = request.frame.top_to_bottom.value
    sheet = (cage.length_outside - cage.length_inside) / 2
    lid_sheet = cage.height_overall - high - cage.gap_under - cage.floor_thickness - cage.lid_clear
    lug = request.frame.lug_thickness
    top = (Fraction(0) if lug is None else lug.value) + cage.lift
    low = top - high - cage.gap_under - cage.floor_thickness
    return _Solid(
        design=design,
        low=float(low),
        frame_top=float(top),
        lid_under=float(top + cage.lid_clear),
        lid_top=float(top + cage.lid_clear + lid_sheet),
        sheet=float(sheet),
        end=float(cage.length_outside) / 2,
        tip=float(cage.ear_span) / 2,
        wires=_wires(design),
    )


def _wires(design: Design) -> tuple[float, ...]:
    """Where the middle of each wire of a face lies along the cage [mm]."""
    row, thick = design.wire.panels[0].row, design.wire.diameter
    first = -row.opening / 2 + row.gap + thick / 2
    return tuple(float(first + n * (row.gap + thick)) for n in range(row.wires))


def _lines(xs: tuple[float, ...], low: float, high: float) -> tuple[Shape, ...]:
    return tuple(Path(((x, low), (x, high)), Ink.FAINT, "wire") for x in xs)


def _upright(
    at: float, high: float, low: float, parts: tuple[str, str], length: Mm, side: Side
) -> Dimension:
    return Dimension((at, high), (at, low), parts, length=length, upright=True, words=side)


def _along(
    low: float, high: float, at: float, parts: tuple[str, str], length: Mm, side: Side
) -> Dimension:
    return Dimension((low, at), (high, at), parts, length=length, words=side)


def _ears(solid: _Solid) -> tuple[Shape, ...]:
    return tuple(
        rectangle(min(a, b), 0, max(a, b), solid.sheet, "ear", Ink.METAL)
        for a, b in ((-solid.tip, -solid.end), (solid.end, solid.tip))
    )


def _front(solid: _Solid) -> View:
    """What is seen when one looks at a wired face."""
    cage, lid = solid.design.cage, solid.design.lid
    reach = solid.tip if lid.length is None else float(lid.length) / 2
    shapes: tuple[Shape, ...] = (
        *_lines(solid.wires, solid.floor, solid.frame_top),
        Path(((-solid.end, solid.frame_top), (solid.end, solid.frame_top)), Ink.CONTEXT, "face"),
        rectangle(-solid.end, solid.low, -solid.end + solid.sheet, solid.frame_top,
                  "left_end", Ink.METAL),
        rectangle(solid.end - solid.sheet, solid.low, solid.end, solid.frame_top,
                  "right_end", Ink.METAL),
        rectangle(-solid.end, solid.low, solid.end, solid.floor, "floor", Ink.CONTEXT),
        *_ears(solid),
        rectangle(-reach, solid.lid_under, reach, solid.lid_top, "lid", _lid_ink(solid)),
    )  # fmt: skip
    inner = solid.end - solid.sheet
    sizes = [
        _along(-solid.tip, solid.tip, solid.sheet, ("ear", "ear"), cage.ear_span, Side.ABOVE),
        _along(-inner, inner, solid.low, ("left_end", "right_end"), cage.length_inside, Side.BELOW),
        _along(-solid.end, solid.end, solid.low, ("left_end", "right_end"), cage.length_outside,
               Side.BELOW),
    ]  # fmt: skip
    if cage.drop_below_ledge is not None:
        sizes.append(
            _upright(solid.end, 0, solid.low, ("ear", "floor"), cage.drop_below_ledge, Side.RIGHT)
        )
    sizes.append(
        Dimension((reach, solid.lid_top), (solid.end, solid.low), ("lid", "floor"),
                  length=cage.height_overall, upright=True, words=Side.RIGHT)
    )  # fmt: skip
    return View(shapes, tuple(sizes), caption="paper.view.front")


def _lid_ink(solid: _Solid) -> Ink:
    unknown = solid.design.lid.kind is LidKind.OPEN_QUESTION
    return Ink.GHOST if unknown else Ink.METAL


def _mirrored(solid: _Solid, low: float, high: float, part: str, ink: Ink) -> tuple[Shape, ...]:
    """Two rectangles as high as an ear, left and right of the middle."""
    return tuple(
        rectangle(min(a, b), 0, max(a, b), solid.sheet, part, ink)
        for a, b in ((-high, -low), (low, high))
    )


def _side(solid: _Solid) -> View:
    """What is seen when one looks at an end."""
    cage = solid.design.cage
    assert cage.depth_outside is not None
    half, inside = solid.half_depth, solid.half_inside
    shapes: list[Shape] = [
        rectangle(-half, solid.low, half, solid.sheet, "end", Ink.CONTEXT),
        *(
            rectangle(min(a, b), solid.low, max(a, b), solid.frame_top, "face", Ink.CONTEXT)
            for a, b in ((-half, -inside), (inside, half))
        ),
        rectangle(-half, solid.low, half, solid.floor, "floor", Ink.CONTEXT),
        *_mirrored(solid, *solid.ear, "ear", Ink.METAL),
        rectangle(-half, solid.lid_under, half, solid.lid_top, "lid", _lid_ink(solid)),
    ]
    if cage.guide_each is not None:
        at = inside - float(cage.guide_each)
        shapes += [
            Path(((x, solid.floor), (x, 0.0)), Ink.GHOST, "guide")
            for x in (-at, at)
        ]  # fmt: skip
    sizes = [
        _along(-half, half, solid.low, ("face", "face"), cage.depth_outside, Side.BELOW),
    ]
    if cage.ear_width is not None:
        sizes.append(
            _along(solid.ear[0], half, solid.sheet, ("ear", "ear"), cage.ear_width, Side.ABOVE)
        )
    return View(tuple(shapes), tuple(sizes), caption="paper.view.side")


def _top(solid: _Solid) -> View:
    """What is seen from above, the lid taken off; y = 0 is the middle."""
    cage = solid.design.cage
    assert cage.depth_outside is not None
    assert cage.depth_inside is not None
    half, inside, inner = solid.half_depth, solid.half_inside, solid.end - solid.sheet
    edge, far = solid.ear
    shapes: list[Shape] = [
        *(_lines(solid.wires, -inside, inside) if len(solid.design.wire.panels) > 1 else ()),
        *(
            rectangle(-solid.end, min(a, b), solid.end, max(a, b), "face", Ink.CONTEXT)
            for a, b in ((-half, -inside), (inside, half))
        ),
        *(
            rectangle(min(a, b), -half, max(a, b), half, "end", Ink.METAL)
            for a, b in ((-solid.end, -inner), (inner, solid.end))
        ),
    ]
    for a, b in ((-solid.tip, -solid.end), (solid.end, solid.tip)):
        if solid.design.cage.ears is Ears.UNDER_LUG:
            shapes.append(rectangle(a, -half, b, half, "ear"))
        else:
            shapes += [rectangle(a, y, b, y + far - edge, "ear") for y in (-far, edge)]
    if cage.guide_each is not None:
        guide = float(cage.guide_each)
        shapes += [
            rectangle(min(x, x - s * _GUIDE), min(y, y - t * guide), max(x, x - s * _GUIDE),
                      max(y, y - t * guide), "guide")
            for s, x in ((-1, -inner), (1, inner)) for t, y in ((-1, -inside), (1, inside))
        ]  # fmt: skip
    sizes = (
        _upright(inner, inside, -inside, ("face", "face"), cage.depth_inside, Side.RIGHT),
        _upright(solid.end, half, -half, ("face", "face"), cage.depth_outside, Side.RIGHT),
    )
    return View(tuple(shapes), sizes, caption="paper.view.top")


def _lid(solid: _Solid, length: Mm) -> View:
    """The lid from above; of one with end walls, those and their notch below it."""
    lid, depth = solid.design.lid, solid.design.cage.depth_outside
    assert depth is not None
    half, reach = solid.half_depth, float(length) / 2
    shapes: list[Shape] = [rectangle(-reach, -half, reach, half, "lid")]
    sizes = [
        _along(-reach, reach, -half, ("lid", "lid"), length, Side.BELOW),
        _upright(reach, half, -half, ("lid", "lid"), depth, Side.RIGHT),
    ]
    if lid.notch_width is not None:
        notch = float(lid.notch_width) / 2
        shapes += [
            rectangle(x, -notch, x + solid.sheet, notch, "notch", Ink.GHOST)
            for x in (-reach, reach - solid.sheet)
        ]
        sizes.append(
            _upright(-reach, notch, -notch, ("notch", "notch"), lid.notch_width, Side.LEFT)
        )
    return View(tuple(shapes), tuple(sizes), caption="paper.view.lid")
