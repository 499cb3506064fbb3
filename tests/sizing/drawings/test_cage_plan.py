"""The plain numbers of a cage picture agree with the design."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from sizing.cage import design_cage
from sizing.drawings.cage_plan import Plan, hive, left_end, lid_ends, lid_ink, mirrored, plan_of
from sizing.drawings.parts import body_along
from sizing.drawings.shapes import Ink
from sizing.measures import Request
from sizing.workshop import default_figures


def planned(request: Request) -> Plan:
    """The plan of the cage designed for `request`."""
    figures = default_figures()
    return plan_of(request, design_cage(request, figures), figures)


def test_the_drop_is_the_designed_one(make: Callable[..., Request]) -> None:
    """From the ledge to the underside of the floor."""
    plan = planned(make())
    designed = plan.design.cage.drop_below_ledge
    assert designed is not None
    assert plan.drop == pytest.approx(float(designed))


def test_lid_top_to_floor_is_the_overall_height(make: Callable[..., Request]) -> None:
    """The stack of frame, gaps and sheets adds up to what the design says."""
    plan = planned(make())
    assert plan.lid_top + plan.drop == pytest.approx(float(plan.design.cage.height_overall))


def test_the_frame_is_lifted_by_the_ear(make: Callable[..., Request]) -> None:
    """Ears under the lugs raise it by their thickness."""
    plan = planned(make())
    assert plan.frame_top - plan.model.top == pytest.approx(float(plan.design.cage.lift))
    assert plan.frame_top - plan.frame_bottom == pytest.approx(260)
    assert plan.lid_under > plan.frame_top


def test_an_end_open_lid_has_no_end_wall_and_the_others_have(make: Callable[..., Request]) -> None:
    """Its ends lie at the tips of the ears."""
    tip, wall = lid_ends(planned(make()))
    assert wall == ()
    assert tip == pytest.approx(391 / 2)
    closed_tip, closed = lid_ends(planned(make(lid="closed", lug_room="398")))
    assert closed
    assert closed_tip > 391 / 2
    between_tip, between = lid_ends(planned(make(lid="closed-between-walls")))
    assert between
    assert between_tip == pytest.approx(370 / 2)


def test_the_lid_is_dashed_while_it_is_open_which(make: Callable[..., Request]) -> None:
    """Without the room for the lugs the lid is a question."""
    assert lid_ink(planned(make(lug_room=None))) is Ink.GHOST
    assert lid_ink(planned(make())) is Ink.METAL


def test_the_hive_is_dashed_where_a_length_of_it_is_missing(make: Callable[..., Request]) -> None:
    """One missing length is enough."""
    walls = body_along()
    assert {s.ink for s in hive(planned(make()), walls)} == {Ink.CONTEXT}
    assert {s.ink for s in hive(planned(make(ledge_up=None)), walls)} == {Ink.GHOST}


def test_the_right_end_mirrors_the_left(make: Callable[..., Request]) -> None:
    """Ear tips stand as far apart as the ears are long."""
    left = left_end(planned(make()), -100)
    right = mirrored(left)
    reach = max(x for s in right for x, _ in s.points) - min(x for s in left for x, _ in s.points)
    assert reach == pytest.approx(391)
