"""The views of a cage that the bench works from: front, side, from above, and its lid.

First angle: the side is seen from the left and stands right of the front, what is seen from
above stands below it. Everything comes from the numbers of the design, so the drawing is the
cage. x = 0 is the middle, in front and side y = 0 is the ledge.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING

from sizing.drawings.shapes import Area, Dimension, Ink, Path, Shape, Side, View, rectangle
from sizing.fabrication.sizes import lid_width
from sizing.measures import Ears, LidKind

if TYPE_CHECKING:
    from sizing.cage import Design
    from sizing.measures import Request
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["BenchViews", "bench_views"]


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
    figures: Figures
    low: float
    lid_top: float
    sheet: float
    end: float
    tip: float
    wires: tuple[float, ...]

    @property
    def strip(self) -> float:
        """Width of the strips along the edges of a face."""
        return float(self.figures.edge_strip)

    @property
    def upstand(self) -> float:
        """To where the upper strips stand up beside the lid."""
        return self.sheet + float(self.figures.lid_upstand)

    @property
    def edge(self) -> float:
        """Thickness of those strips."""
        return float(self.figures.face_thickness - self.figures.wire_diameter)

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


def bench_views(request: Request, design: Design, figures: Figures) -> BenchViews:
    """The views of the cage `design` [mm] for `request`; strips as the workshop's `figures` say."""
    solid = _solid(request, design, figures)
    wide = lid_width(design.cage, figures)
    if wide is None:
        return BenchViews(_front(solid), None, None, None)
    lid = None if design.lid.length is None else _lid(solid, design.lid.length, wide)
    return BenchViews(_front(solid), _side(solid, wide), _top(solid), lid)


def _solid(request: Request, design: Design, figures: Figures) -> _Solid:
    cage = design.cage
    lug = request.frame.lug_thickness
    top = (Fraction(0) if lug is None else lug.value) + cage.lift
    low = top - request.frame.top_to_bottom.value - cage.gap_under - cage.floor_thickness
    return _Solid(
        design=design,
        figures=figures,
        low=float(low),
        lid_top=float(low + cage.height_overall),
        sheet=float((cage.length_outside - cage.length_inside) / 2),
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
    inner = solid.end - solid.sheet
    shapes: tuple[Shape, ...] = (
        *_lines(solid.wires, solid.floor, solid.sheet),
        *(Path(((-inner, y), (inner, y)), Ink.FAINT, "stay") for y in _stays(solid)),
        rectangle(-inner, solid.sheet - solid.strip, inner, solid.upstand, "upper_strip"),
        rectangle(-inner, solid.low, inner, solid.low + solid.strip, "lower_strip"),
        rectangle(-solid.end, solid.low, -inner, solid.sheet, "left_end", Ink.METAL),
        rectangle(inner, solid.low, solid.end, solid.sheet, "right_end", Ink.METAL),
        *_ears(solid),
        rectangle(-reach, solid.sheet, reach, solid.lid_top, "lid", _lid_ink(solid)),
    )
    sizes = [
        _along(-solid.tip, solid.tip, solid.sheet, ("ear", "ear"), cage.ear_span, Side.ABOVE),
        _along(-inner, inner, solid.low, ("left_end", "right_end"), cage.length_inside, Side.BELOW),
        _along(-solid.end, solid.end, solid.low, ("left_end", "right_end"), cage.length_outside,
               Side.BELOW),
    ]  # fmt: skip
    if cage.drop_below_ledge is not None:
        sizes.append(
            _upright(
                solid.end, 0, solid.low, ("ear", "right_end"), cage.drop_below_ledge, Side.RIGHT
            )
        )
    sizes.append(
        Dimension((reach, solid.lid_top), (solid.end, solid.low), ("lid", "right_end"),
                  length=cage.height_overall, upright=True, words=Side.RIGHT)
    )  # fmt: skip
    return View(shapes, tuple(sizes), caption="paper.view.front")


def _stays(solid: _Solid) -> tuple[float, ...]:
    """At what heights cross wires lie: as many as the design has, or no span is too long [mm]."""
    high = solid.sheet - solid.floor
    held = solid.design.wire.panels[0].stays
    most = float(solid.figures.wire_free_span)
    spans = ceil(high / most) if held is None else held.count + 1
    return tuple(solid.floor + high * n / spans for n in range(1, spans))


def _lid_ink(solid: _Solid) -> Ink:
    unknown = solid.design.lid.kind is LidKind.OPEN_QUESTION
    return Ink.GHOST if unknown else Ink.CONTEXT


def _mirrored(solid: _Solid, low: float, high: float, part: str, ink: Ink) -> tuple[Shape, ...]:
    """Two rectangles as high as an ear, left and right of the middle."""
    return tuple(
        rectangle(min(a, b), 0, max(a, b), solid.sheet, part, ink)
        for a, b in ((-high, -low), (low, high))
    )


def _side(solid: _Solid, lid_wide: Mm) -> View:
    """What is seen when one looks at an end."""
    cage = solid.design.cage
    assert cage.depth_outside is not None
    half, inside, cover = solid.half_depth, solid.half_inside, float(lid_wide) / 2
    shapes: list[Shape] = [
        rectangle(-half, solid.low, half, solid.sheet, "end"),
        *(
            rectangle(min(a, b), solid.sheet, max(a, b), solid.upstand, "upper_strip", Ink.METAL)
            for a, b in ((-half, -half + solid.edge), (half - solid.edge, half))
        ),
        *_mirrored(solid, *solid.ear, "ear", Ink.METAL),
        *_lid_end(solid, cover),
    ]
    if cage.guide_each is not None:
        at = inside - float(cage.guide_each)
        shapes += [
            Path(((x, solid.floor), (x, 0.0)), Ink.GHOST, "guide")
            for x in (-at, at)
        ]  # fmt: skip
    sizes = [
        _along(-half, half, solid.low, ("end", "end"), cage.depth_outside, Side.BELOW),
    ]
    if cage.ear_width is not None:
        sizes.append(
            _along(solid.ear[0], half, solid.sheet, ("ear", "ear"), cage.ear_width, Side.ABOVE)
        )
    return View(tuple(shapes), tuple(sizes), caption="paper.view.side")


def _lid_end(solid: _Solid, half: float) -> tuple[Shape, ...]:
    """The lid seen from its end: a channel, or a wall, with its notch where it has one."""
    low, top, lid = solid.sheet, solid.lid_top, solid.design.lid
    if lid.kind in (LidKind.END_OPEN, LidKind.OPEN_QUESTION):
        ink = Ink.GHOST if lid.kind is LidKind.OPEN_QUESTION else Ink.CONTEXT
        return (Path(((-half, low), (-half, top), (half, top), (half, low)), ink, "lid"),)
    if lid.notch_width is None:
        return (rectangle(-half, low, half, top, "lid"),)
    notch = float(lid.notch_width) / 2
    clear = float(solid.design.cage.lid_clear - (lid.notch_over_lug or 0) + solid.figures.lid_sheet)
    deep = top - clear
    return (
        Area(((-half, low), (-half, top), (half, top), (half, low), (notch, low), (notch, deep),
              (-notch, deep), (-notch, low)), part="lid"),
    )  # fmt: skip


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
        guide, reach = float(cage.guide_each), float(solid.figures.guide_reach)
        shapes += [
            rectangle(min(x, x - s * reach), min(y, y - t * guide), max(x, x - s * reach),
                      max(y, y - t * guide), "guide")
            for s, x in ((-1, -inner), (1, inner)) for t, y in ((-1, -inside), (1, inside))
        ]  # fmt: skip
    sizes = (
        _upright(inner, inside, -inside, ("face", "face"), cage.depth_inside, Side.RIGHT),
        _upright(solid.end, half, -half, ("face", "face"), cage.depth_outside, Side.RIGHT),
    )
    return View(tuple(shapes), sizes, caption="paper.view.top")


def _lid(solid: _Solid, length: Mm, wide: Mm) -> View:
    """The lid from above, with the notch in its end walls where it has one."""
    lid = solid.design.lid
    half, reach = float(wide) / 2, float(length) / 2
    shapes: list[Shape] = [rectangle(-reach, -half, reach, half, "lid")]
    sizes = [
        _along(-reach, reach, -half, ("lid", "lid"), length, Side.BELOW),
        _upright(reach, half, -half, ("lid", "lid"), wide, Side.RIGHT),
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
