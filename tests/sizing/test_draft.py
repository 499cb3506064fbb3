"""One cage worked out: sizes, floor, what is open, the verdict."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.draft import Changes, Verdict, draft
from sizing.fit import GapVerdict
from sizing.measures import Above, Floor, GapName, LidChoice, Request
from sizing.workshop import Figures

Make = Callable[..., Request]


@pytest.mark.parametrize(
    ("room", "along"),
    [
        (None, 10), (20, 10), (14, 10), (Fraction("13.9"), Fraction("9.9")), (13, 9),
        (10, 6), (9, 6), (7, 6),
    ],
)  # fmt: skip
def test_a_narrow_body_gets_less_added_along(
    make: Make, figures: Figures, room: Fraction | int | None, along: Fraction | int
) -> None:
    """10 in all, less where the cage would come nearer to the walls than 2 mm, never under 6."""
    inside = None if room is None else 360 + room
    assert draft(make(inside_along=inside), figures).cage.length_outside == 360 + along


@pytest.mark.parametrize(
    ("space", "floor", "gap_under"),
    [
        ("6.94", Floor.WIRED, "5"),  # 3.24 left, the aim
        ("6.93", Floor.FLAT, "5"),
        ("5.24", Floor.FLAT, "5"),
        ("5.23", Floor.FLAT, "4.5"),
        ("4", Floor.FLAT, "4.5"),
        ("0", Floor.FLAT, "4.5"),
    ],
)
def test_a_tight_stack_gets_a_flat_floor(
    make: Make, figures: Figures, space: str, floor: Floor, gap_under: str
) -> None:
    """Wired while that reaches the aim below; then one flat sheet; then a smaller gap too."""
    cage = draft(make(below_space=space), figures).cage
    assert (cage.floor, cage.gap_under) == (floor, Fraction(gap_under))
    assert cage.floor_thickness == Fraction("2.5" if floor is Floor.WIRED else "0.8")


def test_an_open_gap_below_changes_no_floor(make: Make, figures: Figures) -> None:
    """What is not known is no reason for a worse floor."""
    cage = draft(make(below=None), figures).cage
    assert cage.floor is Floor.WIRED
    assert cage.gap_under == 5


def test_depth_goes_by_wood_or_by_comb(make: Make, figures: Figures) -> None:
    """The larger of the two decides; without either there is no depth."""
    assert draft(make(), figures).cage.depth_inside == 43
    assert draft(make(widest_wood=42), figures).cage.depth_inside == 45
    for missing in ("widest_wood", "comb_thickness"):
        cage = draft(make(**{missing: None}), figures).cage
        assert (cage.depth_inside, cage.depth_outside, cage.guide_each) == (None, None, None)


def test_beside_the_lugs_the_cage_has_two_tabs_and_no_lift(make: Make, figures: Figures) -> None:
    """Each tab takes half of what lug and clearance leave of the depth."""
    cage = draft(make(ledge_up=10), figures).cage
    assert cage.lift == 0
    assert cage.ear_width == 10  # (48 - 25 - 3) / 2
    assert draft(make(ledge_up=10, lug_width=None), figures).cage.ear_width is None


@given(st.integers(1200, 4000), st.integers(30, 200))
def test_the_frame_and_its_surroundings_add_up(
    make: Make, figures: Figures, height: int, lug: int
) -> None:
    """From lid to floor: everything that is stacked is the height, and the floor hangs right."""
    top_to_bottom, thick = Fraction(height, 10), Fraction(lug, 10)
    request = make(top_to_bottom=top_to_bottom, lug_thickness=thick, ledge_up=thick + 7,
                   ledge_down=top_to_bottom - thick + 3)  # fmt: skip
    cage = draft(request, figures).cage
    stacked = figures.lid_sheet + cage.lid_clear + top_to_bottom + cage.gap_under
    assert cage.height_overall == stacked + cage.floor_thickness
    top = thick + cage.lift + cage.lid_clear + figures.lid_sheet
    assert cage.drop_below_ledge is not None
    assert top + cage.drop_below_ledge == cage.height_overall


def test_the_width_of_the_lug_is_needed_only_for_a_notch(make: Make, figures: Figures) -> None:
    """A lid between the walls cannot be cut without it; no other lid asks for it."""
    assert draft(make(lug_width=None), figures).verdict is Verdict.MAKE
    walls = draft(make(lug_width=None, lid=LidChoice.CLOSED_BETWEEN_WALLS), figures)
    assert (walls.verdict, walls.open) == (Verdict.ASK, ("lug_width",))


def test_what_is_above_is_needed_only_between_the_walls(make: Make, figures: Figures) -> None:
    """Over the lugs nothing above the rim counts."""
    assert draft(make(above=None), figures).open == ()
    assert draft(make(above=None, ledge_up=10), figures).open == ("above",)
    assert draft(make(above=Above.COVER, ledge_up=10), figures).open == ("above_space",)


def test_room_across_is_open_but_not_needed(make: Make, figures: Figures) -> None:
    """The number of places given up is assumed and the cage can be made."""
    found = draft(make(inside_across=None), figures)
    assert (found.verdict, found.open, found.needed) == (Verdict.MAKE, ("inside_across",), ())


def test_a_failing_must_weighs_more_than_a_missing_length(make: Make, figures: Figures) -> None:
    """What cannot be made is not asked about."""
    found = draft(make(inside_along=365, comb_thickness=None), figures)
    assert found.verdict is Verdict.CANNOT
    assert found.needed == ("comb_thickness",)


@pytest.mark.parametrize(("rise", "verdict"), [("1.8", "cannot"), ("1.91", "ask"), ("3", "make")])
def test_an_end_open_lid_goes_under_a_low_rise_if_asked_for(
    make: Make, figures: Figures, rise: str, verdict: str
) -> None:
    """It is tight down to 1.9, where nobody can be sure of it, and not possible below."""
    request = make(lid=LidChoice.END_OPEN, ledge_up=10 + Fraction(rise), below_space=7)
    found = draft(request, figures)
    head = found.gap(GapName.HEAD_ROOM)
    assert head is not None
    assert found.verdict == verdict
    assert head.verdict is (GapVerdict.FAILS if verdict == "cannot" else GapVerdict.TIGHT)


def test_a_lid_that_is_not_made_cannot_be_ordered(make: Make, figures: Figures) -> None:
    """Then a low rise cannot be served, whatever the gaps say."""
    without = replace(figures, makes_lid_between_walls=False)
    low = make(ledge_up=10, ledge_down=260)
    assert draft(low, figures).verdict is Verdict.MAKE
    assert draft(low, without).verdict is Verdict.CANNOT


def test_changes_go_before_the_rules(make: Make, figures: Figures) -> None:
    """A draft with another allowance or other ears has these and nothing else changed."""
    usual = draft(make(), figures)
    other = draft(make(), figures, Changes(allowance_along=Fraction(7), ear_span=Fraction(390)))
    assert other.cage.length_outside == usual.cage.length_outside - 3
    assert other.cage.ear_span == 390
    assert other.cage.height_overall == usual.cage.height_overall
