"""The flat patterns, folded up again: every outside size is the one on the drawing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import log10, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon, box  # type: ignore[import-untyped]

from sizing.cage import Design, design_cage
from sizing.errors import NotSizedError
from sizing.fabrication.flat import Bend, Part, Pattern
from sizing.fabrication.sheet import blanks, patterns, wire_length, wire_panels
from sizing.measures import Ears, Floor, LidChoice, LidKind, Request
from sizing.workshop import Figures

Make = Callable[..., Request]
CUT = 0.0011
"""Corrections are given to a thousandth; two of them meet in one size."""
TINY = 1e-6


@dataclass(frozen=True)
class Folded:
    """Outside sizes of a folded part: of what stays flat, and of the leg on each side of it."""

    along: float
    up: float
    legs: dict[str, float]


def folded(pattern: Pattern) -> Folded:
    """Fold a part up by arithmetic of its own, in floats.

    The zone of a bend is the quarter of a ring on the neutral line (k of DIN 6935 worked out
    here). What lies beyond it is straight, and the corner adds radius and thickness outside.
    """
    s = float(pattern.thickness)
    sides = {"left": 0.0, "right": float(pattern.width), "low": 0.0, "high": float(pattern.height)}
    inner, legs = dict(sides), {}
    for bend in pattern.bends:
        r = float(bend.radius)
        ring = pi / 2 * (r + s / 2 * min(1.0, 0.65 + 0.5 * log10(r / s)))
        assert float(bend.zone) == pytest.approx(ring, abs=CUT)
        side, at = side_of(bend, pattern)
        legs[side] = abs(at - sides[side]) - ring / 2 + r + s
        inwards = 1 if side in ("left", "low") else -1
        inner[side] = at + inwards * (ring / 2 - (r + s))
    return Folded(inner["right"] - inner["left"], inner["high"] - inner["low"], legs)


def side_of(bend: Bend, pattern: Pattern) -> tuple[str, float]:
    """On which side of the part a bend has its leg, and where its line lies."""
    (x0, y0), (x1, y1) = bend.line
    if x0 == x1:
        return ("left" if x0 < pattern.width / 2 else "right"), float(x0)
    assert y0 == y1
    if pattern.part is Part.END_WALL:
        return "high", float(y0)
    if pattern.part in (Part.GUIDE, Part.BOTTOM_EDGE):
        return "low", float(y0)
    return ("low" if y0 < pattern.height / 2 else "high"), float(y0)


def check_size(found: float, wanted: Fraction, bends: int = 1) -> None:
    """A folded size is the wanted one, as near as corrections are given."""
    assert found == pytest.approx(float(wanted), abs=CUT * bends)


def parts(design: Design, figures: Figures) -> dict[Part, Pattern]:
    """The patterns by part; no part comes twice."""
    found = patterns(design, figures)
    assert len({one.part for one in found}) == len(found)
    return {one.part: one for one in found}


def check_end_wall(pattern: Pattern, design: Design, figures: Figures) -> None:
    """Depth, drop and ear span."""
    cage, shape = design.cage, folded(pattern)
    assert cage.drop_below_ledge is not None
    assert pattern.width == cage.depth_outside
    check_size(shape.up, cage.drop_below_ledge + figures.end_sheet)
    ear = (cage.ear_span - cage.length_outside) / 2
    check_size(shape.legs["high"] - float(figures.end_sheet), ear)
    assert pattern.count == 2
    assert all(bend.outward for bend in pattern.bends)


def check_lid(pattern: Pattern, design: Design, figures: Figures) -> None:
    """Length, and the height that the overall height leaves over the rim."""
    lid, cage, shape = design.lid, design.cage, folded(pattern)
    assert lid.length is not None
    assert cage.drop_below_ledge is not None
    check_size(shape.along, lid.length, 2)
    over_ledge = cage.height_overall - cage.drop_below_ledge
    for leg in shape.legs.values():
        check_size(leg, over_ledge - figures.end_sheet)
    sides = {"low", "high"} | (set() if lid.kind is LidKind.END_OPEN else {"left", "right"})
    assert set(shape.legs) == sides


def check_width(made: dict[Part, Pattern], design: Design, figures: Figures) -> None:
    """Strip, play, lid, play, strip side by side are the depth of the cage."""
    assert design.cage.depth_outside is not None
    strip = made[Part.TOP_EDGE].thickness
    check_size(
        folded(made[Part.LID]).up + 2 * float(strip + figures.lid_play),
        design.cage.depth_outside,
        2,
    )


def check_length(made: dict[Part, Pattern], design: Design, figures: Figures) -> None:
    """Both strips lie between the end walls: with these they are as long as the cage.

    Their tabs reach to the guides, or no farther than the face where the floor has flanges.
    """
    for part in (Part.TOP_EDGE, Part.BOTTOM_EDGE):
        shape = folded(made[part])
        along = shape.along
        tab = figures.face_thickness
        if not (part is Part.BOTTOM_EDGE and design.cage.floor is Floor.FLAT):
            tab += design.cage.guide_each or 0
        check_size(shape.legs["left"], tab)
        check_size(shape.legs["right"], tab)
        check_size(along, design.cage.length_inside, 2)
        check_size(along + 2 * float(made[Part.END_WALL].thickness), design.cage.length_outside, 2)


def check_across(made: dict[Part, Pattern], design: Design, figures: Figures) -> None:
    """Two strips with the wire behind each leave the inside depth between them."""
    cage = design.cage
    assert cage.depth_inside is not None
    assert cage.depth_outside is not None
    face = made[Part.BOTTOM_EDGE].thickness + design.wire.diameter
    assert cage.depth_outside - 2 * face == cage.depth_inside
    if Part.GUIDE in made:
        shape = folded(made[Part.GUIDE])
        legs = sorted((shape.up, shape.legs["low"]))
        wanted = sorted((figures.guide_reach, figures.face_thickness + (cage.guide_each or 0)))
        for found, length in zip(legs, wanted, strict=True):
            check_size(found, length)
    else:
        assert not cage.guide_each


def check_floor(made: dict[Part, Pattern], design: Design, figures: Figures) -> None:
    """A flat floor fills the inside, and only a flat one is a sheet."""
    assert (Part.FLOOR in made) is (design.cage.floor is Floor.FLAT)
    if Part.FLOOR in made:
        shape = folded(made[Part.FLOOR])
        assert design.cage.depth_inside is not None
        check_size(shape.along, design.cage.length_inside, 2)
        check_size(shape.up, design.cage.depth_inside, 2)
        assert made[Part.FLOOR].thickness == design.cage.floor_thickness


def test_folded_up_it_is_the_cage_of_the_design(design: Design, figures: Figures) -> None:
    """Length, depth, drop, ear span, lid: each outside size is the one of the design."""
    made = parts(design, figures)
    check_end_wall(made[Part.END_WALL], design, figures)
    check_lid(made[Part.LID], design, figures)
    for check in (check_width, check_length, check_across, check_floor):
        check(made, design, figures)


@settings(max_examples=60)
@given(st.data())
def test_cages_of_any_size_fold_up_to_their_design(
    cages: st.SearchStrategy[Design], figures: Figures, data: st.DataObject
) -> None:
    """The same for drawn cages."""
    design = data.draw(cages)
    made = parts(design, figures)
    check_end_wall(made[Part.END_WALL], design, figures)
    check_lid(made[Part.LID], design, figures)
    for check in (check_width, check_length, check_across, check_floor):
        check(made, design, figures)


def flat_of(pattern: Pattern) -> Polygon:
    """The outline as a polygon."""
    return Polygon([(float(x), float(y)) for x, y in pattern.outline])


def check_sound(pattern: Pattern) -> None:
    """Closed, simple, at the origin; every bend whole on the sheet, clear of corners and bends."""
    shape = flat_of(pattern)
    assert shape.is_valid
    assert shape.exterior.is_ccw
    assert shape.bounds == (0, 0, float(pattern.width), float(pattern.height))
    zones: list[Polygon] = []
    for bend in pattern.bends:
        line = LineString([(float(x), float(y)) for x, y in bend.line])
        half = float(bend.zone) / 2
        zone = line.buffer(half, cap_style="flat")
        assert line.length > 0
        assert zone.difference(shape).area < TINY
        assert all(zone.intersection(other).area < TINY for other in zones)
        zones.append(zone)
        inside = zone.buffer(-TINY)
        assert not [
            point for point in pattern.outline if inside.contains(Point(*map(float, point)))
        ]


@settings(max_examples=60)
@given(st.data())
def test_every_outline_is_sound(
    cages: st.SearchStrategy[Design], figures: Figures, data: st.DataObject
) -> None:
    """Not self-crossing, counter-clockwise, no corner inside a bend, blank above nothing."""
    for pattern in patterns(data.draw(cages), figures):
        check_sound(pattern)
        assert pattern.width > 0
        assert pattern.height > 0


def lid_end(design: Design, figures: Figures) -> tuple[Pattern, list[Polygon]]:
    """A lid between the walls, and what its notches take away."""
    lid = parts(design, figures)[Part.LID]
    low = float(min(bend.line[0][1] for bend in lid.bends if bend.line[0][0] == bend.line[1][0]))
    whole = box(0, low, float(lid.width), float(lid.height) - low)
    gone = whole.difference(flat_of(lid)).geoms
    return lid, [notch for notch in gone if notch.area > TINY]


@pytest.mark.parametrize("hung", [{}, {"ledge_up": 12, "ledge_down": 260}])
def test_the_notch_goes_round_the_lug(make: Make, figures: Figures, hung: dict[str, int]) -> None:
    """As wide as the lug and 1.5, in the middle, and 0.5 over the lug when the lid stands."""
    design = design_cage(make(lid=LidChoice.CLOSED_BETWEEN_WALLS, **hung))
    assert design.lid.kind is LidKind.CLOSED_BETWEEN_WALLS
    lid, gone = lid_end(design, figures)
    assert len(gone) == 2
    for notch in gone:
        x0, y0, x1, y1 = notch.bounds
        assert y1 - y0 == pytest.approx(25 + 1.5)
        assert (y0 + y1) / 2 == pytest.approx(float(lid.height) / 2)
        lug_top = float(10 + design.cage.lift - figures.end_sheet)
        assert x1 - x0 == pytest.approx(lug_top + 0.5)
        zones = [bend for bend in lid.bends if bend.line[0][0] == bend.line[1][0]]
        edges = [float(bend.line[0][0] - bend.zone / 2) for bend in zones]
        assert x1 <= min(edges) or x0 >= max(edges)


def test_beside_the_lug_two_tabs_lie_on_the_ledge(make: Make, figures: Figures) -> None:
    """Each as wide as the design says, and the wall between them ends below the ledge."""
    design = design_cage(make(ledge_up=12, ledge_down=260))
    assert design.cage.ears is Ears.BESIDE_LUG
    wall = parts(design, figures)[Part.END_WALL]
    widths = [bend.line[1][0] - bend.line[0][0] for bend in wall.bends]
    assert widths == [design.cage.ear_width] * 2
    between = [y for x, y in wall.outline if design.cage.ear_width == x and y < wall.height]
    assert design.cage.drop_below_ledge is not None
    below = design.cage.drop_below_ledge - between[0]
    assert 0 < below < design.wire.gap_limit - figures.end_sheet


def test_no_corner_of_a_box_lid_is_wider_than_a_wire_gap(design: Design, figures: Figures) -> None:
    """Where two bends meet a corner stays open; nobody leaves through it."""
    for pattern in patterns(design, figures):
        for bend in pattern.bends:
            assert 2 * (bend.radius + pattern.thickness) ** 2 < figures.gap_least_introduce**2


def test_blanks_are_those_of_the_patterns(design: Design, figures: Figures) -> None:
    """One blank a pattern, with its count and thickness."""
    found = [(one.name, one.width, one.height, one.thickness, one.count)
             for one in blanks(design, figures)]  # fmt: skip
    assert found == [
        (one.part, one.width, one.height, one.thickness, one.count)
        for one in patterns(design, figures)
    ]


def test_wires_lie_as_the_row_says(design: Design, figures: Figures) -> None:
    """Every gap, the two at the end walls included, is the gap of the row."""
    for panel, made in zip(design.wire.panels, wire_panels(design, figures), strict=True):
        half = made.diameter / 2
        sides = [Fraction(0), *(x for line in made.wires for x in (line[0][0] - half,
                 line[0][0] + half)), panel.row.opening]  # fmt: skip
        gaps = {right - left for left, right in zip(sides[::2], sides[1::2], strict=True)}
        assert gaps == {panel.row.gap}
        assert (made.panel, made.count, len(made.wires)) == (
            panel.panel, panel.count, panel.row.wires,
        )  # fmt: skip


def test_stays_part_the_wires_equally(design: Design, figures: Figures) -> None:
    """As many as the design says, from end wall to end wall, all spans the same."""
    for panel, made in zip(design.wire.panels, wire_panels(design, figures), strict=True):
        assert panel.stays is not None
        assert len(made.stays) == panel.stays.count
        levels = [Fraction(0), *(start[1] for start, _ in made.stays), made.length]
        assert len({high - low for low, high in pairwise(levels)}) == 1
        for (left, low), (right, high) in made.stays:
            assert (left, right, low) == (Fraction(0), panel.row.opening, high)


def test_where_no_stay_helps_the_free_span_decides(make: Make, figures: Figures) -> None:
    """A gap that is at its limit is held by none; then no wire is free for longer than usual."""
    design = design_cage(make())
    face = replace(design.wire.panels[0], stays=None)
    bare = replace(design, wire=replace(design.wire, panels=(face,)))
    (made,) = wire_panels(bare, figures)
    parts = len(made.stays) + 1
    assert made.length / parts <= figures.wire_free_span < made.length / (parts - 1)


def test_the_length_of_all_wire_is_that_of_its_lines(design: Design, figures: Figures) -> None:
    """Line by line over all panels."""
    total = sum(
        panel.count * (end[0] - start[0] + end[1] - start[1])
        for panel in wire_panels(design, figures)
        for start, end in (*panel.wires, *panel.stays)
    )
    assert wire_length(design, figures) == total


def test_wires_reach_from_the_floor_to_the_rim(make: Make, figures: Figures) -> None:
    """Upright wires stand on the strip of a wired floor, or go down to a flat one."""
    wired, flat = design_cage(make()), design_cage(make(below_space=5))
    face, floor = wire_panels(wired, figures)
    # drop 256.7 and ear 0.8, less the strip of 0.5
    assert face.length == 257
    assert floor.length == wired.cage.depth_inside
    assert flat.cage.drop_below_ledge is not None
    assert wire_panels(flat, figures)[0].length == flat.cage.drop_below_ledge + figures.end_sheet


@pytest.mark.parametrize(
    ("changes", "size"),
    [
        ({"lug_thickness": None}, "drop_below_ledge"),
        ({"widest_wood": None}, "depth_inside"),
        ({"lug_room": None}, "lid"),
        ({"lid": LidChoice.CLOSED_BETWEEN_WALLS, "lug_width": None}, "notch_width"),
        ({"ledge_up": 12, "ledge_down": 260, "lug_width": None}, "ear_width"),
        ({"ledge_up": 12, "ledge_down": 260, "lug_width": 60}, "ear_width"),
        ({"lug_to_lug": 371, "lug_room": 373}, "ear_span"),
    ],
)
def test_what_is_open_or_leaves_no_sheet_is_named(
    make: Make, figures: Figures, changes: dict[str, object], size: str
) -> None:
    """No pattern is made up for a size that nobody knows."""
    with pytest.raises(NotSizedError) as raised:
        patterns(design_cage(make(**changes)), figures)
    assert size in raised.value.sizes


@pytest.mark.parametrize(
    ("changes", "size"),
    [
        ({"face_thickness": "2"}, "face_thickness"),
        ({"end_sheet": "5", "bend_radius": "0.2"}, "bend_radius"),
        ({"bend_rule": "test-strip", "strip_blank": "60"}, "strip_blank"),
        ({"bend_rule": "test-strip", "strip_blank": "40"}, "strip_blank"),
        ({"edge_strip": "1"}, "edge_strip"),
    ],
)
def test_figures_that_leave_no_sheet_are_named(
    make: Make, figures: Figures, changes: dict[str, str], size: str
) -> None:
    """A workshop's figures that do not go together stop the patterns, not the sizing."""
    odd = replace(
        figures,
        **{
            name: value if name == "bend_rule" else Fraction(value)
            for name, value in changes.items()
        },  # type: ignore[arg-type]
    )
    design = design_cage(make(), odd)
    with pytest.raises(NotSizedError) as raised:
        patterns(design, odd)
    assert raised.value.sizes == (size,)
    assert design.weight_g is None


def test_a_longer_k_makes_a_longer_blank_of_the_same_part(make: Make, figures: Figures) -> None:
    """The workshop's own K changes the blank and where it is bent, never the folded part."""
    design = design_cage(make())
    short, long = (
        patterns(design, replace(figures, bend_rule="own-k", bend_own_k=Fraction(k, 100)))[0]
        for k in (25, 45)
    )
    assert short.height < long.height
    for wall in (short, long):
        bend = wall.bends[0]
        leg = wall.height - bend.line[0][1] - bend.zone / 2 + bend.radius + wall.thickness
        assert leg == (design.cage.ear_span - design.cage.length_outside) / 2 + figures.end_sheet
