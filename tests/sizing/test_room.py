"""Room across the frames."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from sizing.accepted import accept
from sizing.fit import GapVerdict
from sizing.measures import Request, Spacer
from sizing.room import across
from sizing.workshop import Figures

Make = Callable[..., Request]
DEEP = Fraction(48)


@pytest.mark.parametrize(
    ("changes", "out", "nominal"),
    [
        ({}, 1, 12),  # 375 - 9 x 35 - 48, aim 2
        ({"inside_across": 365}, 1, 2),  # just the aim
        ({"inside_across": Fraction("364.9")}, 2, Fraction("36.9")),  # a hair short of it
        ({"inside_across": 372, "spacing": 36}, 2, 36),  # 0 left with one out
        ({"spacing": 32, "inside_across": 340}, 2, 36),  # 4 left with one out, aim 5
        ({"spacing": 32, "inside_across": 341}, 1, 5),  # aim 2 x (6.5 - (32 - 24) / 2)
        ({"frames_out": 3}, 3, 82),
        ({"frames_out": 1, "inside_across": 350}, 2, 22),  # too few given: the least is used
    ],
)
def test_places_given_up(
    make: Make, figures: Figures, changes: dict[str, object], out: int, nominal: Fraction | int
) -> None:
    """The least that reaches the aim, or what the beekeeper gives up if that is more."""
    found = across(accept(make(**changes)), DEEP, figures)
    assert (found.frames_out, found.gap.nominal) == (out, nominal)
    assert found.gap.verdict is GapVerdict.OK
    assert found.assumed == ()


@pytest.mark.parametrize(
    ("changes", "missing"),
    [
        ({"inside_across": None}, ("inside_across",)),
        ({"frames_held": None}, ("frames_held",)),
        ({"spacer": Spacer.STRAIGHT}, ("spacing",)),
        ({"widest_wood": None}, ("widest_wood",)),
    ],
)
def test_two_places_are_assumed_where_a_length_is_missing(
    make: Make, figures: Figures, changes: dict[str, object], missing: tuple[str, ...]
) -> None:
    """The usual number is used and said to be assumed; the gap is open and names the length."""
    depth = None if "widest_wood" in changes else DEEP
    found = across(accept(make(**changes)), depth, figures)
    assert found.frames_out == 2
    assert [one.measure for one in found.assumed] == ["frames_out"]
    assert found.assumed[0].value == Fraction(2)
    assert found.gap.verdict is GapVerdict.OPEN
    assert found.gap.missing == missing


def test_what_the_beekeeper_gives_up_is_used_where_a_length_is_missing(
    make: Make, figures: Figures
) -> None:
    """A number that was given is no assumption."""
    found = across(accept(make(inside_across=None, frames_out=3)), DEEP, figures)
    assert (found.frames_out, found.assumed) == (3, ())


def test_no_more_places_than_there_are(make: Make, figures: Figures) -> None:
    """A body too narrow for the cage alone gives up all its places, and is tight."""
    found = across(accept(make(inside_across=49, frames_held=2)), DEEP, figures)
    assert found.frames_out == 2
    assert found.gap.nominal == 1
    assert found.gap.verdict is GapVerdict.TIGHT
    more = across(accept(make(frames_held=3, frames_out=5, inside_across=110)), DEEP, figures)
    assert more.frames_out == 3
    assert more.gap.nominal == 62


def test_across_has_no_must(make: Make, figures: Figures) -> None:
    """It never decides: one more frame out cures it."""
    assert across(accept(make()), DEEP, figures).gap.must == (None, None)


@pytest.mark.parametrize(("spacing", "aim"), [(32, 5), (35, 2), (38, 2), (40, 2)])
def test_the_aim_across_is_a_passage_on_both_sides(
    make: Make, figures: Figures, spacing: int, aim: int
) -> None:
    """What neighbours leave by themselves counts, but at least 2 mm stay free."""
    gap = across(accept(make(spacing=spacing)), DEEP, figures).gap
    assert gap.aim[0] == aim
    assert gap.aim[1] is None
