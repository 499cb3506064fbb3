"""Days to count."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.days import brood_break_ends, comb_changes, hatches, introduction

DAYS = st.dates(date(2000, 1, 1), date(2099, 12, 31))


@given(DAYS)
def test_after_a_brood_break_nothing_that_was_laid_before_is_capped(caged: date) -> None:
    """The last egg of the day before becomes a drone before the queen comes out."""
    ends = brood_break_ends(caged)
    assert all(hatches(one, caged - timedelta(1)) < ends for one in ("worker", "drone"))


@given(DAYS)
def test_a_trapping_comb_leaves_before_anything_hatches_from_it(caged: date) -> None:
    """A comb that hangs beside the cage for one more step is gone before its first worker."""
    changes = comb_changes(caged)
    into_the_cage = (caged, *changes)
    assert len(changes) == 4
    for put_in, one_step_later in zip(into_the_cage, into_the_cage[2:], strict=False):
        assert one_step_later < hatches("worker", put_in)
    assert changes[-1] == caged + timedelta(36)


@given(DAYS)
def test_an_introduction_is_looked_after_in_order(caged: date) -> None:
    """She is let out, then eggs are looked for; nothing on the day itself."""
    days = introduction(caged)
    assert caged < days.opened < days.latest < days.eggs_from < days.eggs_to


def test_a_leap_day_is_a_day() -> None:
    """Calendar days, whatever the month."""
    assert brood_break_ends(date(2028, 2, 10)) == date(2028, 3, 5)
    assert brood_break_ends(date(2027, 2, 10)) == date(2027, 3, 6)


def test_who_hatches_is_a_caste() -> None:
    """Nobody else does."""
    with pytest.raises(KeyError):
        hatches("moth", date(2026, 5, 1))
