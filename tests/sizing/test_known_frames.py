"""Which known frame it may be, and which others."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizing.known_frames import Likeness, apart, is_one_of_them, twins, wall_rules
from sizing.measures import Measure
from sizing.standards import Nearest, frame_kind, frame_kinds, nearest_kinds


def lengths(side: str, top: str, over_lugs: str | None = None) -> dict[Measure, Fraction]:
    """The lengths of a frame [mm]."""
    found = {Measure.SIDE_TO_SIDE: Fraction(side), Measure.TOP_TO_BOTTOM: Fraction(top)}
    if over_lugs is not None:
        found[Measure.LUG_TO_LUG] = Fraction(over_lugs)
    return found


def named(given: dict[Measure, Fraction]) -> tuple[Likeness, ...]:
    """The nearest kind and its twins."""
    return twins(given, nearest(given).kind)


def nearest(given: dict[Measure, Fraction]) -> Nearest:
    """The nearest kind by width, height and top bar."""
    (found,) = nearest_kinds(
        given[Measure.SIDE_TO_SIDE], given[Measure.TOP_TO_BOTTOM], given.get(Measure.LUG_TO_LUG)
    )
    return found


def test_the_distance_is_told_for_each_measure() -> None:
    """Longer is positive, shorter negative; what is not known of the kind is left out."""
    kind = frame_kind("pl_wielkopolska")
    given = {**lengths("362", "259", "391"), Measure.COMB_THICKNESS: Fraction(27)}
    assert apart(kind, given) == {
        Measure.SIDE_TO_SIDE: 2, Measure.TOP_TO_BOTTOM: -1, Measure.LUG_TO_LUG: 0,
    }  # fmt: skip


def test_the_nearest_kind_stands_first() -> None:
    """It is that of the standards, with the same distance."""
    asked = lengths("447.7", "231.8", "482.6")
    first = named(asked)[0]
    assert (first.kind.id, first.distance) == (nearest(asked).kind.id, nearest(asked).distance)


def test_a_frame_far_from_every_kind_is_none_of_them() -> None:
    """It has a nearest kind all the same."""
    assert is_one_of_them(nearest(lengths("360", "260", "391")))
    assert not is_one_of_them(nearest(lengths("380", "280", "411")))


def test_366_by_222_could_be_swedish_or_german() -> None:
    """Without the top bar both are named; the top bar tells them apart where it can."""
    found = named(lengths("368", "222"))
    assert {one.kind.id for one in found} >= {"se_lagnormal", "dnm"}
    other = found[1]
    assert other.tell_by is not None
    assert not other.turned


def test_365_by_260_is_neither_of_them() -> None:
    """Norwegian frames are as wide, but nobody takes 260 for 222."""
    found = {one.kind.id for one in named(lengths("365", "260", "398"))}
    assert "no_norsk" in found
    assert found & {"se_lagnormal", "dnm"} == set()


@pytest.mark.parametrize(
    ("side", "top", "usual", "turned"),
    [("435", "300", "dadant", "pl_warsz_poszerzana"), ("300", "435", "", "dadant_ro_stas")],
)
def test_435_by_300_and_300_by_435_are_kept_apart(
    side: str, top: str, usual: str, turned: str
) -> None:
    """The turned one is named, and named as turned."""
    found = named(lengths(side, top))
    assert usual in found[0].kind.id
    assert turned in {one.kind.id for one in found if one.turned}
    assert turned not in {one.kind.id for one in found if not one.turned}


def test_every_known_frame_is_among_its_own_twins() -> None:
    """And no other named as it stands is as far away as twins may be, in any length."""
    whole = [kind for kind in frame_kinds()
             if kind.value(Measure.SIDE_TO_SIDE) and kind.value(Measure.TOP_TO_BOTTOM)]  # fmt: skip
    for kind in whole:
        known = {name: kind.value(name) for name in lengths("1", "1", "1")}
        found = named({name: value for name, value in known.items() if value is not None})
        assert kind.id in {one.kind.id for one in found if not one.turned}
        assert all(one.distance < 5 for one in found[1:])
    assert len(whole) > 40


def test_rules_of_a_region_name_kinds_that_are_known() -> None:
    """South Australia asks for at least 8 mm from frame to wall."""
    rules = {rule.region: rule for rule in wall_rules()}
    assert rules["South Australia"].least == 8
    known = {kind.id for kind in frame_kinds()}
    assert all(rule.kinds and rule.kinds <= known for rule in rules.values())
