"""The picture of a cage is the cage: to scale, with the numbers of request and design."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from sizing.cage import design_cage
from sizing.drawings.cage import cage_scene
from sizing.drawings.shapes import Ink, Point, Scene, View
from sizing.measures import Request
from sizing.workshop import default_figures


def scene_for(request: Request) -> Scene:
    """The scene of the cage designed for `request`."""
    figures = default_figures()
    return cage_scene(request, design_cage(request, figures), figures)


CASES = [
    {},
    {"lid": "closed", "lug_room": "398"},
    {"ledge_up": "11", "above": "cover", "above_space": "8"},
    {"inside_along": "369"},
    {"top_to_bottom": "160", "ledge_down": "153"},
    {"spacer": "straight", "comb_thickness": "38"},
    {"below": "floor", "below_space": "25"},
]


@pytest.mark.parametrize("change", CASES)
def test_every_arrow_is_as_long_as_the_number_on_it(
    make: Callable[..., Request], change: dict[str, str]
) -> None:
    """To scale: what is written is what is drawn, in every view."""
    arrows = [a for view in scene_for(make(**change)).views for a in view.dimensions]
    assert len(arrows) > 8
    for arrow in arrows:
        (ax, ay), (bx, by) = arrow.line
        drawn = abs(by - ay) if arrow.upright else abs(bx - ax)
        assert arrow.length is not None
        assert drawn == pytest.approx(float(abs(arrow.length)), abs=1e-6), arrow


@pytest.mark.parametrize("change", CASES)
def test_both_ends_of_every_arrow_lie_on_the_faces_it_names(
    make: Callable[..., Request],
    change: dict[str, str],
    on_part: Callable[[View, str, Point], bool],
) -> None:
    """Also between cage, frame and hive an arrow touches what it says."""
    for view in scene_for(make(**change)).views:
        for arrow in view.dimensions:
            assert on_part(view, arrow.parts[0], arrow.start), arrow
            assert on_part(view, arrow.parts[1], arrow.end), arrow


def test_the_persons_own_numbers_stand_on_it(make: Callable[..., Request]) -> None:
    """Frame and hive as they were measured, cage as it will be made."""
    written = {a.length for view in scene_for(make()).views for a in view.dimensions}
    assert {360, 260, 391, 375, 253, 27} <= written
    assert {370, 270, 48} <= written


def test_a_tight_gap_is_set_off_with_words_and_a_wide_one_is_not(
    make: Callable[..., Request],
) -> None:
    """Where the design finds a gap tight, the arrow carries the word."""
    wide = scene_for(make())
    tight = scene_for(make(inside_along="369"))
    assert not any(a.tight for view in wide.views for a in view.dimensions)
    assert [a.label for view in tight.views for a in view.dimensions if a.tight] == [
        "picture.cage.tight"
    ]


def test_a_gap_that_fails_says_so(make: Callable[..., Request]) -> None:
    """A cage that does not go in is drawn where it would stand."""
    scene = scene_for(make(inside_along="362"))
    labels = [a.label for view in scene.views for a in view.dimensions if a.tight]
    assert "picture.cage.fails" in labels


def test_what_was_not_measured_is_dashed_and_carries_no_number(
    make: Callable[..., Request],
) -> None:
    """Only the frame is known: the hive is a dashed outline without lengths."""
    bare = make(
        inside_along=None, lug_room=None, ledge_down=None, ledge_up=None, widest_wood=None,
        comb_thickness=None, lug_thickness=None,
    )  # fmt: skip
    scene = scene_for(bare)
    walls = [wall for view in scene.views for wall in view.part("left_wall")]
    assert walls
    assert {wall.ink for wall in walls} == {Ink.GHOST}
    labels = {a.label for view in scene.views for a in view.dimensions}
    assert "picture.cage.hive" not in labels
    assert "picture.cage.cage" in labels


def test_the_upper_part_is_taller_for_a_tall_frame(make: Callable[..., Request]) -> None:
    """The sheet grows with the frame, within limits."""
    low = scene_for(make(top_to_bottom="160", ledge_down="153"))
    high = scene_for(make(top_to_bottom="420", ledge_down="413"))
    assert low.tallness < scene_for(make()).tallness < high.tallness < 1.4
