"""The sheet parts of a cage as flat patterns, from its sizes and the workshop's figures.

How a cage is built [ours]. Levels are over the ledge; the *rim* is the upper side of the ears.

- The two end walls reach from the lowest point of the cage to the rim and are as wide as the
  cage. Under the lug the whole upper edge is bent outward as the ear; beside the lug two tabs
  are, and between them the wall ends below the ledge, so that the lug lies on the wood.
- Each face is a row of upright wires behind two strips. The strips lie between the end walls;
  short tabs at their ends are soldered to these. The upper strip stands up beside the lid and
  keeps it in place, the lower one is an angle on whose second leg the wires of the floor lie.
- A flat floor is a tray between the faces, its flanges up, and the lower strips are plain.
- In each corner an angle on the end wall guides the frame to the middle, where there is more
  room than the frame needs.
- The lid stands on the rim: a channel as long as the ears, or a box over the tips of the lugs,
  or a box as long as the cage with a notch round each lug.

Bends are at right angles. Where two meet in a corner each leg ends where the other's bend begins.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING

from sizing.errors import NotSizedError
from sizing.fabrication.bending import Fold, fold_of
from sizing.fabrication.flat import Bend, Blank, Part, Pattern, WirePanel, cross, rectangle
from sizing.measures import Ears, Floor, LidKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sizing.fabrication.flat import Point
    from sizing.fabrication.sized import SizedCage, SizedPanel, WiredCage
    from sizing.fit import Cage
    from sizing.lids import Lid
    from sizing.units import Mm
    from sizing.workshop import Figures

__all__ = ["blanks", "patterns", "wire_length", "wire_panels"]

_ZERO = Fraction(0)
_RIGHT_ANGLE = 90


@dataclass(frozen=True, slots=True)
class _Build:
    """The lengths [mm] from which every part follows, none of them open."""

    cage: Cage
    lid: Lid
    figures: Figures
    drop: Mm
    depth_inside: Mm
    depth_outside: Mm

    @property
    def rim(self) -> Mm:
        return self.figures.end_sheet

    @property
    def edge(self) -> Mm:
        """Thickness of the strips: what the wire leaves of the thickness of a face."""
        return self.figures.face_thickness - self.figures.wire_diameter

    @property
    def skirt(self) -> Mm:
        """Outside height of the lid, from the rim to its top."""
        return self.cage.height_overall - self.drop - self.rim

    @property
    def lid_width(self) -> Mm:
        return self.depth_outside - 2 * (self.edge + self.figures.lid_play)

    @property
    def guide(self) -> Mm:
        return self.cage.guide_each or _ZERO


def _build(sized: SizedCage, figures: Figures) -> _Build:
    cage, lid = sized.cage, sized.lid
    drop, inside, outside = cage.drop_below_ledge, cage.depth_inside, cage.depth_outside
    if drop is None or inside is None or outside is None:
        sizes = {"drop_below_ledge": drop, "depth_inside": inside}
        raise NotSizedError(*(name for name, value in sizes.items() if value is None))
    if lid.length is None:
        raise NotSizedError("lid")
    if figures.face_thickness <= figures.wire_diameter:
        raise NotSizedError("face_thickness")
    return _Build(cage, lid, figures, drop, inside, outside)


def patterns(sized: SizedCage, figures: Figures) -> tuple[Pattern, ...]:
    """The flat pattern [mm] of every sheet part of the cage; guides only where there is room.

    Outside sizes of the folded parts are those of the cage. Raises `NotSizedError` with the
    names of the sizes that are open or leave no sheet for a leg.
    Source: own construction, above; bends as in `sizing.fabrication.bending`.
    """
    build = _build(sized, figures)
    made = [_end_wall(build), _top_edge(build), _bottom_edge(build)]
    if build.guide > 0:
        made.append(_guide(build))
    if build.cage.floor is Floor.FLAT:
        made.append(_floor(build))
    made.append(_lid(build))
    return tuple(made)


def blanks(sized: SizedCage, figures: Figures) -> tuple[Blank, ...]:
    """The rectangle of sheet [mm] for every part of one cage, in the order of `patterns`.

    Raises what `patterns` raises. Source: the extents of the flat patterns.
    """
    return tuple(
        Blank(one.part, one.width, one.height, one.thickness, one.count)
        for one in patterns(sized, figures)
    )


def wire_panels(sized: WiredCage, figures: Figures) -> tuple[WirePanel, ...]:
    """Where the wires of each panel lie, and how long they are [mm].

    Upright wires reach from the lower strip (or the flat floor) to the rim; those of the floor
    lie between the faces. Where no stay holds a gap there are as many as the free span wants.
    Raises `NotSizedError` as `patterns` does.
    Source: own construction, above; the rows come from `sizing.fabrication.wires`.
    """
    return tuple(
        _panel(panel, sized.wire.diameter, length, stays)
        for panel, length, stays in _wires(sized, figures)
    )


def wire_length(sized: WiredCage, figures: Figures) -> Mm:
    """All wire of one cage end to end, stays included [mm]; `wire_panels` says what is raised.

    Source: as there.
    """
    return sum(
        (
            panel.count * (panel.row.wires * length + stays * panel.row.opening)
            for panel, length, stays in _wires(sized, figures)
        ),
        _ZERO,
    )


def _wires(sized: WiredCage, figures: Figures) -> Iterator[tuple[SizedPanel, Mm, int]]:
    """Each panel with the length of its wires and the number of its stays."""
    build = _build(sized, figures)
    upright = build.rim + build.drop
    if build.cage.floor is Floor.WIRED:
        upright -= build.edge
    lengths = {"face": upright, "floor": build.depth_inside}
    for panel in sized.wire.panels:
        length = lengths[panel.panel]
        stays = ceil(length / figures.wire_free_span) - 1
        yield panel, length, stays if panel.stays is None else panel.stays.count


def _panel(panel: SizedPanel, diameter: Mm, length: Mm, stays: int) -> WirePanel:
    row = panel.row
    first, pitch = row.gap + diameter / 2, row.gap + diameter
    lines = tuple(
        ((first + i * pitch, _ZERO), (first + i * pitch, length)) for i in range(row.wires)
    )
    levels = [length * (i + 1) / (stays + 1) for i in range(stays)]
    across = tuple(((_ZERO, level), (row.opening, level)) for level in levels)
    return WirePanel(panel.panel, panel.count, diameter, row.opening, length, lines, across)


# --- the parts -------------------------------------------------------------------------


def _fold(thickness: Mm, figures: Figures) -> Fold:
    try:
        return fold_of(thickness, figures)
    except ValueError as error:
        strip = figures.bend_rule == "test-strip"
        raise NotSizedError("strip_blank" if strip else "bend_radius") from error


def _bend(fold: Fold, start: Point, end: Point, *, outward: bool = False) -> Bend:
    return Bend((start, end), outward, _RIGHT_ANGLE, fold.radius, fold.zone)


def _leg(fold: Fold, length: Mm, size: str) -> Mm:
    """`length` of a leg, outside, if some of it stays straight beside the bend."""
    if length <= fold.setback:
        raise NotSizedError(size)
    return length


def _end_wall(build: _Build) -> Pattern:
    fold = _fold(build.figures.end_sheet, build.figures)
    wall = build.drop + build.rim
    ear = (build.cage.ear_span - build.cage.length_outside) / 2 + build.figures.end_sheet
    height = wall + _leg(fold, ear, "ear_span") + fold.correction
    width, middle = build.depth_outside, wall + fold.correction / 2
    if build.cage.ears is Ears.UNDER_LUG:
        outline = rectangle(width, height)
        ears: tuple[tuple[Mm, Mm], ...] = ((_ZERO, width),)
    else:
        tab = build.cage.ear_width
        if tab is None or tab <= 0:
            raise NotSizedError("ear_width")
        low = wall - fold.setback
        outline = (
            (_ZERO, _ZERO), (width, _ZERO), (width, height), (width - tab, height),
            (width - tab, low), (tab, low), (tab, height), (_ZERO, height),
        )  # fmt: skip
        ears = ((_ZERO, tab), (width - tab, width))
    bends = tuple(_bend(fold, (a, middle), (b, middle), outward=True) for a, b in ears)
    return Pattern(Part.END_WALL, 2, fold.thickness, outline, bends)


def _guide(build: _Build) -> Pattern:
    """An angle: one leg on the end wall out to the outside of the face, one along the frame."""
    fold = _fold(build.edge, build.figures)
    on_wall = build.figures.face_thickness + build.guide
    height = _leg(fold, on_wall, "guide_each") + build.figures.guide_reach + fold.correction
    long = build.drop + build.rim - 2 * build.figures.edge_strip
    if long <= 0:
        raise NotSizedError("drop_below_ledge")
    middle = on_wall + fold.correction / 2
    bends = (_bend(fold, (_ZERO, middle), (long, middle)),)
    return Pattern(Part.GUIDE, 4, fold.thickness, rectangle(long, height), bends)


def _strip(build: _Build, fold: Fold, tab: Mm) -> tuple[Mm, Mm]:
    """Width of a strip with its tabs, and where from the left it is straight between them."""
    before = _leg(fold, tab, "face_thickness") + fold.correction
    return 2 * before + build.cage.length_inside, before + fold.setback


def _tab_bends(fold: Fold, width: Mm, tab: Mm, low: Mm, high: Mm) -> tuple[Bend, Bend]:
    left = tab + fold.correction / 2
    return (
        _bend(fold, (left, low), (left, high)),
        _bend(fold, (width - left, low), (width - left, high)),
    )


def _top_edge(build: _Build) -> Pattern:
    fold = _fold(build.edge, build.figures)
    tab, strip = build.figures.face_thickness + build.guide, build.figures.edge_strip
    width, straight = _strip(build, fold, tab)
    outline = cross(
        (straight, width - straight, strip + build.figures.lid_upstand), (_ZERO, strip, width)
    )
    return Pattern(
        Part.TOP_EDGE, 2, fold.thickness, outline, _tab_bends(fold, width, tab, _ZERO, strip)
    )


def _bottom_edge(build: _Build) -> Pattern:
    fold = _fold(build.edge, build.figures)
    strip, tab = build.figures.edge_strip, build.figures.face_thickness
    if build.cage.floor is Floor.FLAT:
        width, _ = _strip(build, fold, tab)
        bends = _tab_bends(fold, width, tab, _ZERO, strip)
        return Pattern(Part.BOTTOM_EDGE, 2, fold.thickness, rectangle(width, strip), bends)
    tab += build.guide
    width, straight = _strip(build, fold, tab)
    height = 2 * strip + fold.correction
    low = _leg(fold, strip, "edge_strip") + fold.correction + fold.setback
    along = strip + fold.correction / 2
    return Pattern(
        Part.BOTTOM_EDGE,
        2,
        fold.thickness,
        cross((straight, width - straight, height), (low, height, width)),
        (
            _bend(fold, (straight, along), (width - straight, along)),
            *_tab_bends(fold, width, tab, low, height),
        ),
    )


def _floor(build: _Build) -> Pattern:
    fold = _fold(build.cage.floor_thickness, build.figures)
    sides = (build.cage.length_inside, build.depth_inside, build.figures.floor_flange)
    return _tray(Part.FLOOR, fold, sides, "floor_flange")


def _lid(build: _Build) -> Pattern:
    fold = _fold(build.figures.lid_sheet, build.figures)
    length, width, skirt = build.lid.length, build.lid_width, build.skirt
    assert length is not None
    if build.lid.kind is not LidKind.END_OPEN:
        box = _tray(Part.LID, fold, (length, width, skirt), "lid_clear")
        return _notched(box, build) if build.lid.kind is LidKind.CLOSED_BETWEEN_WALLS else box
    height = 2 * (_leg(fold, skirt, "lid_clear") + fold.correction) + width
    low = skirt + fold.correction / 2
    bends = tuple(_bend(fold, (_ZERO, y), (length, y)) for y in (low, height - low))
    return Pattern(Part.LID, 1, fold.thickness, rectangle(length, height), bends)


def _tray(part: Part, fold: Fold, sides: tuple[Mm, Mm, Mm], flange: str) -> Pattern:
    """A bottom with a flange on each side: outside length, width and height."""
    long, wide, high = sides
    leg = _leg(fold, high, flange) + fold.correction
    width, height = 2 * leg + long, 2 * leg + wide
    free, line = leg + fold.setback, high + fold.correction / 2
    outline = cross((free, width - free, height), (free, height - free, width))
    bends = (
        *(_bend(fold, (free, y), (width - free, y)) for y in (line, height - line)),
        *(_bend(fold, (x, free), (x, height - free)) for x in (line, width - line)),
    )
    return Pattern(part, 1, fold.thickness, outline, bends)


def _notched(box: Pattern, build: _Build) -> Pattern:
    """`box` with a notch in each end, from its lower edge to a little over the lug."""
    wide, over = build.lid.notch_width, build.lid.notch_over_lug
    if wide is None or over is None:
        raise NotSizedError("notch_width")
    deep = build.skirt - build.figures.lid_sheet - build.cage.lid_clear + over
    low, high, right = (box.height - wide) / 2, (box.height + wide) / 2, box.width
    at_end = {
        _ZERO: ((_ZERO, high), (deep, high), (deep, low), (_ZERO, low)),
        right: ((right, low), (right - deep, low), (right - deep, high), (right, high)),
    }
    outline: list[Point] = []
    for i, point in enumerate(box.outline):
        outline.append(point)
        after = box.outline[(i + 1) % len(box.outline)]
        if point[0] == after[0] and point[0] in at_end:
            if not min(point[1], after[1]) < low < high < max(point[1], after[1]):
                raise NotSizedError("notch_width")
            outline += at_end[point[0]]
    return replace(box, outline=tuple(outline))
