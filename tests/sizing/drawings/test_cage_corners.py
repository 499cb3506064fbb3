"""The details of a cage picture show every gap that is known."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from sizing.cage import design_cage
from sizing.drawings.cage_corners import across, lower, upper
from sizing.drawings.cage_plan import Plan, plan_of
from sizing.drawings.shapes import View
from sizing.measures import Request
from sizing.workshop import default_figures


def planned(request: Request) -> Plan:
    """The plan of the cage designed for `request`."""
    figures = default_figures()
    return plan_of(request, design_cage(request, figures), figures)


def lengths(view: View) -> list[float]:
    """The numbers on the arrows of a view [mm]."""
    return [float(arrow.length) for arrow in view.dimensions if arrow.length is not None]


def test_the_corner_at_the_ledge_shows_both_ends_and_the_head_room(
    make: Callable[..., Request],
) -> None:
    """Frame to cage, cage to hive, lid to rim."""
    assert lengths(upper(planned(make()))) == pytest.approx([4.2, 2.5, 3.7])


def test_the_corner_at_the_bottom_shows_what_is_under_frame_and_cage(
    make: Callable[..., Request],
) -> None:
    """Frame to floor, floor to what lies below."""
    assert lengths(lower(planned(make()))) == pytest.approx([5, 3.3])


def test_the_cut_across_shows_cage_comb_and_the_way_of_the_bees(
    make: Callable[..., Request],
) -> None:
    """Outside of the cage, thickness of the comb, and comb to wire."""
    assert lengths(across(planned(make()))) == pytest.approx([48, 27, 8])


def test_a_wide_gap_has_its_arrow_inside(make: Callable[..., Request]) -> None:
    """A narrow one is pointed at from both sides."""
    wide = lower(planned(make(below="floor", below_space="40"))).dimensions[-1]
    narrow = lower(planned(make())).dimensions[-1]
    assert (wide.inward, narrow.inward) == (False, True)


def test_gaps_to_a_hive_that_was_not_measured_are_left_out(make: Callable[..., Request]) -> None:
    """Only the gap between frame and cage is known then."""
    plan = planned(make(inside_along=None, ledge_up=None, ledge_down=None))
    assert lengths(upper(plan)) == pytest.approx([4.2])
    assert lengths(lower(plan)) == pytest.approx([5])


def test_a_gap_of_nothing_still_has_an_arrow_with_a_direction(make: Callable[..., Request]) -> None:
    """Cage and wall touch: the arrow may not vanish."""
    (touching,) = [a for a in upper(planned(make(inside_along="366"))).dimensions if a.length == 0]
    assert touching.start != touching.end
