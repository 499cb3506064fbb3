"""The one function that joins all."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from sizing.cage import Caution, Verdict, design_cage
from sizing.measures import (
    Floor,
    LidChoice,
    Material,
    MeasuredWith,
    Purpose,
    Request,
    Tape,
)
from sizing.workshop import Figures

Make = Callable[..., Request]
LOW = {"ledge_up": 10, "ledge_down": 260}


def test_a_frame_that_fits_is_made(make: Make) -> None:
    """All lengths given, nothing in the way: make, nothing open, nothing doubted."""
    design = design_cage(make())
    assert design.verdict is Verdict.MAKE
    assert (design.open, design.findings, design.would_work) == ((), (), ())
    assert design.frame_kind.kind.id == "pl_wielkopolska"
    assert design.frame_kind.distance == 0
    assert design.workshop_version == "1"


@pytest.mark.parametrize("purpose", Purpose)
@pytest.mark.parametrize("material", Material)
def test_both_purposes_and_both_materials(
    make: Make, figures: Figures, purpose: Purpose, material: Material
) -> None:
    """Each is made, and no wire gap passes the limit of its purpose."""
    request = make(purpose=purpose, material=material, measured_with=MeasuredWith(Tape.II))
    design = design_cage(request)
    assert design.verdict is Verdict.MAKE
    limit = {
        Purpose.ISOLATE: figures.gap_limit_isolate,
        Purpose.INTRODUCE: figures.gap_limit_introduce,
    }[purpose]
    assert design.wire.gap_limit == limit
    assert all(panel.row.gap <= limit for panel in design.wire.panels)
    assert Caution.ZINC_AND_ACID in design.cautions


def test_the_floor_is_wired_or_a_sheet(make: Make) -> None:
    """A flat floor has no panel of wires; two faces there always are."""
    wired, flat = design_cage(make()), design_cage(make(below_space=5))
    assert (wired.cage.floor, flat.cage.floor) == (Floor.WIRED, Floor.FLAT)
    assert [(one.panel, one.count) for one in wired.wire.panels] == [("face", 2), ("floor", 1)]
    assert [(one.panel, one.count) for one in flat.wire.panels] == [("face", 2)]


@pytest.mark.parametrize(
    ("changes", "caution", "told"),
    [
        ({}, Caution.CUT_EDGES, True),
        ({}, Caution.LIFT_OUT, True),  # drop 256.7, ledge down 253
        ({"ledge_down": 257}, Caution.LIFT_OUT, False),
        ({"ledge_down": None}, Caution.LIFT_OUT, False),
        ({}, Caution.LOOSEN_BEFORE_LIFTING, True),  # 2.5 to the wall
        ({"inside_along": 379}, Caution.LOOSEN_BEFORE_LIFTING, False),  # 4.5
        ({"inside_along": None}, Caution.LOOSEN_BEFORE_LIFTING, False),
        ({}, Caution.MAKE_ONE_FIRST, False),
        (LOW, Caution.MAKE_ONE_FIRST, True),
    ],
)
def test_people_are_told_what_they_must_know(
    make: Make, changes: dict[str, object], caution: Caution, told: bool
) -> None:
    """A caution stands where its reason does, and nowhere else."""
    assert (caution in design_cage(make(**changes)).cautions) is told


def test_choices_nobody_made_are_listed_as_assumed(make: Make) -> None:
    """What stands at the workshop's default is said, with its value."""
    design = design_cage(make(left_to_us=("lid", "material", "pieces")))
    assert [(one.measure, one.value, one.source) for one in design.assumed[:3]] == [
        ("lid", "auto", "workshop-default"),
        ("material", "galvanised", "workshop-default"),
        ("pieces", 1, "workshop-default"),
    ]


def test_too_few_places_given_up_are_doubted(make: Make) -> None:
    """The least that holds is used, and the difference said."""
    design = design_cage(make(frames_out=1, inside_across=350))
    assert design.cage.frames_out == 2
    assert [(one.code, one.expected) for one in design.findings] == [
        ("frames-out-too-few", (Fraction(2), None)),
    ]
    assert design.findings[0].seen == 1
    assert design_cage(make(frames_out=2, inside_across=350)).findings == ()


def test_what_cannot_be_made_says_what_would_work(make: Make) -> None:
    """A must that fails comes with at least one way out where there is one."""
    design = design_cage(make(**LOW, lid=LidChoice.END_OPEN))
    assert design.verdict is Verdict.CANNOT
    assert design.would_work


def test_a_doubt_changes_no_verdict(make: Make) -> None:
    """A finding is for people; the fit decides."""
    design = design_cage(make(top_bar_thickness=8))
    assert [one.code for one in design.findings] == ["lug-under-bar"]
    assert design.verdict is Verdict.MAKE


def test_other_figures_give_another_cage(make: Make, figures: Figures) -> None:
    """The table is an argument: what a workshop settles is used everywhere."""
    other = replace(figures, version="other", allowance_along=figures.allowance_along - 1)
    design = design_cage(make(), other)
    assert design.workshop_version == "other"
    assert design.cage.length_outside == 369


def test_the_same_request_gives_the_same_design(make: Make) -> None:
    """Nothing but the request decides."""
    assert design_cage(make()) == design_cage(make())


def test_stays_keep_a_pressed_gap_within_its_limit(make: Make, figures: Figures) -> None:
    """Long wires of the faces are stayed, the short ones of the floor are not."""
    face, floor = design_cage(make()).wire.panels
    assert face.stays is not None
    assert floor.stays is not None
    assert face.free_length == 265
    assert floor.free_length == 43
    assert face.stays.count > 0 == floor.stays.count
    assert face.stays.span <= figures.wire_free_span
    low, high = face.made
    assert low < face.row.gap < high


def test_without_a_depth_the_wires_of_the_floor_have_no_length(make: Make) -> None:
    """What is missing is not made up."""
    floor = design_cage(make(widest_wood=None)).wire.panels[1]
    assert (floor.panel, floor.free_length, floor.stays) == ("floor", None, None)
