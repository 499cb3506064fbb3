"""Moments as text."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

from hypothesis import given
from hypothesis import strategies as st

from bot.storage.times import moment, stamp

EPOCH = datetime(2000, 1, 1, tzinfo=UTC)
moments = st.timedeltas(timedelta(0), timedelta(days=36500)).map(EPOCH.__add__)


@given(moments, moments)
def test_stamps_sort_like_the_moments_they_stand_for(one: datetime, other: datetime) -> None:
    """Of two moments a millisecond apart, the earlier has the smaller text."""
    if abs(one - other) >= timedelta(milliseconds=1):
        assert (stamp(one) < stamp(other)) == (one < other)


@given(moments)
def test_a_stamp_is_read_back_to_the_millisecond(when: datetime) -> None:
    """Nothing but less than a millisecond gets lost."""
    assert timedelta(0) <= when - moment(stamp(when)) < timedelta(milliseconds=1)


def test_stamps_are_utc() -> None:
    """A moment of another zone is written as the same moment in UTC."""
    there = datetime(2026, 3, 2, 10, tzinfo=timezone(timedelta(hours=1)))
    assert stamp(there) == "2026-03-02T09:00:00.000Z"
