"""What is accepted, and what is assumed for what is missing."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from sizing.accepted import accept, pitch, space_above, space_below
from sizing.measures import Above, Below, Length, Request, Spacer

Make = Callable[..., Request]


def test_rise_and_hang_follow_from_the_heights(make: Make) -> None:
    """Rise is ledge up less lug thickness; hang is what the frame ends above the lower edge."""
    lengths = accept(make())
    assert lengths.rise == 7
    assert lengths.hang == 3


@pytest.mark.parametrize("missing", ["lug_thickness", "ledge_up"])
def test_rise_is_not_known_without_its_lengths(make: Make, missing: str) -> None:
    """No length, no rise."""
    assert accept(make(**{missing: None})).rise is None


@pytest.mark.parametrize("missing", ["lug_thickness", "ledge_down"])
def test_hang_is_not_known_without_its_lengths(make: Make, missing: str) -> None:
    """No length, no hang."""
    assert accept(make(**{missing: None})).hang is None


def test_readings_count_as_their_mean(make: Make) -> None:
    """Two readings of one length are accepted as their mean."""
    request = make()
    twice = Length((Fraction(393), Fraction(394)))
    hive = type(request.hive)(lug_room=twice)
    assert accept(type(request)(request.purpose, request.frame, hive)).lug_room == Fraction(787, 2)


def test_over_a_box_of_the_same_kind_its_rise_is_assumed(make: Make) -> None:
    """The frames below lie as far under their rim as these."""
    under = space_below(accept(make()))
    assert under.value == 7
    assert under.assumed is not None
    assert under.assumed.value == Fraction(7)
    assert under.assumed.source == "box-of-the-same-kind"


@pytest.mark.parametrize(
    ("below", "missing"),
    [(None, ("below",)), (Below.FLOOR, ("below_space",))],
)
def test_nothing_else_is_assumed_below(
    make: Make, below: Below | None, missing: tuple[str, ...]
) -> None:
    """Over a floor, or where nobody said what is below, the space is asked for."""
    under = space_below(accept(make(below=below)))
    assert (under.value, under.missing, under.assumed) == (None, missing, None)


def test_a_space_that_was_given_is_not_assumed(make: Make) -> None:
    """A flat board gives 0, and 0 counts."""
    given = accept(make(below_space=0, above_space=0))
    for space in (space_below(given), space_above(given)):
        assert space.value == 0
        assert (space.assumed, space.missing) == (None, ())


def test_under_a_box_of_the_same_kind_its_hang_is_assumed(make: Make) -> None:
    """The frames above end as far over the rim as these over their lower edge."""
    above = space_above(accept(make()))
    assert above.value == 3
    assert above.assumed is not None


@pytest.mark.parametrize(
    ("above", "missing"),
    [(None, ("above",)), (Above.COVER, ("above_space",))],
)
def test_nothing_else_is_assumed_above(
    make: Make, above: Above | None, missing: tuple[str, ...]
) -> None:
    """Under a cover, or where nobody said what is above, the space is asked for."""
    space = space_above(accept(make(above=above)))
    assert (space.value, space.missing, space.unlimited) == (None, missing, False)


def test_cloth_sets_no_limit(make: Make) -> None:
    """Cloth gives way."""
    space = space_above(accept(make(above=Above.CLOTH)))
    assert space.unlimited
    assert space.missing == ()


def test_missing_heights_are_named(make: Make) -> None:
    """What the assumption would need is named, not the assumption."""
    assert space_below(accept(make(ledge_up=None))).missing == ("ledge_up",)
    assert space_above(accept(make(ledge_down=None))).missing == ("ledge_down",)


@pytest.mark.parametrize(
    ("changes", "value", "missing", "assumed"),
    [
        ({"spacing": 38}, 38, (), False),
        ({}, 35, (), False),
        ({"spacer": Spacer.PINS}, 35, (), False),
        ({"spacer": None}, 35, (), True),
        ({"spacer": Spacer.STRAIGHT}, None, ("spacing",), False),
        ({"spacer": Spacer.LOOSE}, None, ("spacing",), False),
        ({"widest_wood": None}, None, ("widest_wood",), False),
        ({"spacing": 38, "spacer": None}, 38, (), False),
    ],
)
def test_pitch_is_measured_or_the_widest_wood(
    make: Make,
    changes: dict[str, object],
    value: int | None,
    missing: tuple[str, ...],
    assumed: bool,
) -> None:
    """Frames that touch stand as far apart as they are wide; others have to be measured."""
    found = pitch(accept(make(**changes)))
    assert (found.value, found.missing, found.assumed is not None) == (value, missing, assumed)
