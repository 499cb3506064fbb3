"""The clock and the chance that a script sets; what all of them keep is in `contracts`."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

from bot.world import SeededChance, SetClock, SystemChance, SystemClock

START = datetime(2026, 3, 2, 9, tzinfo=UTC)


def test_a_set_clock_moves_only_when_it_is_moved() -> None:
    """Forward by a time, or to a moment of any zone."""
    clock = SetClock(START)
    assert clock.now() == START
    clock.advance(timedelta(days=3))
    assert clock.now() == START + timedelta(days=3)
    clock.set(datetime(2026, 3, 2, 10, tzinfo=timezone(timedelta(hours=1))))
    assert clock.now().isoformat() == "2026-03-02T09:00:00+00:00"


def test_the_same_seed_draws_the_same() -> None:
    """And another seed something else."""
    draws = [[SeededChance(seed).payload() for _ in range(3)] for seed in (0, 0, 1)]
    assert draws[0] == draws[1] != draws[2]


def test_the_real_world_is_not_foreseeable() -> None:
    """Two sources draw differently; the clock moves."""
    assert [SystemChance().payload() for _ in range(5)] != [
        SystemChance().payload() for _ in range(5)
    ]
    assert SystemClock().now().year >= 2026
