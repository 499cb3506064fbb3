"""What every clock keeps."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from bot.ports import Clock
from bot.world import SetClock, SystemClock

START = datetime(2026, 3, 2, 9, tzinfo=UTC)


@pytest.fixture(params=[SystemClock, lambda: SetClock(START)], ids=["system", "set"])
def clock(request: pytest.FixtureRequest) -> Clock:
    """Each clock in turn."""
    made: Clock = request.param()
    return made


def test_a_clock_tells_utc(clock: Clock) -> None:
    """Moments carry their zone, and it is UTC."""
    assert clock.now().utcoffset() == timedelta(0)


def test_a_clock_does_not_go_back_by_itself(clock: Clock) -> None:
    """Looking twice, the second moment is not before the first."""
    first = clock.now()
    assert clock.now() >= first
