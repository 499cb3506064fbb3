"""The bench's views are the cage: to scale, in one projection, with the design's numbers."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from sizing.cage import design_cage
from sizing.drawings.bench import BenchViews, bench_views
from sizing.drawings.shapes import Dimension, Point, View
from sizing.measures import Request
from sizing.workshop import default_figures

FIGURES = default_figures()
CASES = [
    {},
    {"lid": "closed", "lug_room": "398"},
    {"ledge_up": "11", "above": "cover", "above_space": "8"},
    {"lid": "closed-between-walls"},
    {"top_to_bottom": "160", "ledge_down": "153"},
    {"below": "floor", "below_space": "2"},
    {"purpose": "introduce"},
]


def views_of(views: BenchViews) -> list[View]:
    """The views there are."""
    return [v for v in (views.front, views.side, views.top, views.lid) if v is not None]


def drawn(arrow: Dimension) -> float:
    """The length of the arrow itself [mm]."""
    (ax, ay), (bx, by) = arrow.line
    return abs(by - ay) if arrow.upright else abs(bx - ax)


@pytest.mark.parametrize("change", CASES)
def test_every_arrow_is_as_long_as_the_number_on_it(
    make: Callable[..., Request], change: dict[str, str]
) -> None:
    """What is written is what is drawn, in every view."""
    request = make(**change)
    arrows = [
        a
        for v in views_of(bench_views(request, design_cage(request), FIGURES))
        for a in v.dimensions
    ]
    assert len(arrows) >= 9
    for arrow in arrows:
        assert drawn(arrow) == pytest.approx(float(arrow.length or 0), abs=1e-6), arrow


@pytest.mark.parametrize("change", CASES)
def test_both_ends_of_every_arrow_lie_on_the_faces_it_names(
    make: Callable[..., Request],
    change: dict[str, str],
    on_part: Callable[[View, str, Point], bool],
) -> None:
    """An arrow touches the parts it runs between."""
    request = make(**change)
    for view in views_of(bench_views(request, design_cage(request), FIGURES)):
        for arrow in view.dimensions:
            assert on_part(view, arrow.parts[0], arrow.start), arrow
            assert on_part(view, arrow.parts[1], arrow.end), arrow


@pytest.mark.parametrize("change", CASES)
def test_each_wire_is_drawn_and_no_gap_is_wider_than_its_limit(
    make: Callable[..., Request], change: dict[str, str]
) -> None:
    """As many lines as wires, from end wall to end wall, equally far apart."""
    request = make(**change)
    design = design_cage(request)
    wires = bench_views(request, design, FIGURES).front.part("wire")
    row = design.wire.panels[0].row
    assert len(wires) == row.wires
    thick = float(design.wire.diameter)
    edges = [-float(row.opening) / 2 - thick / 2, *(wire.points[0][0] for wire in wires),
             float(row.opening) / 2 + thick / 2]  # fmt: skip
    gaps = [b - a - thick for a, b in itertools.pairwise(edges)]
    assert gaps == pytest.approx([float(row.gap)] * (row.wires + 1))
    assert max(gaps) <= float(design.wire.gap_limit) + 1e-9


def test_the_views_say_all_sizes_of_the_box(make: Callable[..., Request]) -> None:
    """Outside and inside, along, down and across, ears and lid: none is only in a table."""
    request = make()
    design = design_cage(request)
    said = {
        arrow.length
        for view in views_of(bench_views(request, design, FIGURES))
        for arrow in view.dimensions
    }
    cage = design.cage
    assert said >= {
        cage.length_outside, cage.length_inside, cage.height_overall, cage.drop_below_ledge,
        cage.depth_outside, cage.depth_inside, cage.ear_span, design.lid.length,
    }  # fmt: skip


def test_a_cage_without_a_depth_has_one_view(make: Callable[..., Request]) -> None:
    """What is not known across is not drawn."""
    request = make()
    unknown = replace(request, frame=replace(request.frame, comb_thickness=None))
    views = bench_views(unknown, design_cage(unknown), FIGURES)
    assert (views.side, views.top, views.lid) == (None, None, None)
    assert views.front.dimensions


def test_sheet_is_as_thick_as_the_design_leaves_it(make: Callable[..., Request]) -> None:
    """Taken from the design's own numbers, so that an old design stays itself."""
    request = make()
    design = design_cage(request)
    shorter = design.cage.length_inside - Fraction(1)
    thicker = replace(design, cage=replace(design.cage, length_inside=shorter))
    assert height(bench_views(request, design, FIGURES), "ear") == pytest.approx(0.8)
    assert height(bench_views(request, thicker, FIGURES), "ear") == pytest.approx(1.3)


def test_no_wire_is_free_over_more_than_its_span(make: Callable[..., Request]) -> None:
    """Cross wires lie between floor and rim, as many as the cut list has for a face."""
    request = make()
    design = design_cage(request)
    front = bench_views(request, design, FIGURES).front
    (floor, rim), *_ = [
        (low, high) for (_, low), (_, high) in (w.points for w in front.part("wire"))
    ]
    levels = [floor, *(stay.points[0][1] for stay in front.part("stay")), rim]
    spans = [b - a for a, b in itertools.pairwise(levels)]
    assert max(spans) <= float(FIGURES.wire_free_span)
    held = design.wire.panels[0].stays
    assert held is not None
    assert len(spans) == held.count + 1 == 3


def height(views: BenchViews, part: str) -> float:
    """How thick a lying part is drawn in the front [mm]."""
    ys = [y for shape in views.front.part(part) for _, y in shape.points]
    return max(ys) - min(ys)
