"""So many messages in any minute."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from bot.channels import pace
from bot.channels.pace import Pace

START = datetime(2026, 3, 2, 9, tzinfo=UTC)


def after(seconds: float) -> datetime:
    """That long after the start."""
    return START + timedelta(seconds=seconds)


def test_twenty_pass_and_the_next_one_waits() -> None:
    """The wait is as long as the oldest of the last twenty is within the minute."""
    counted = Pace()
    assert [counted.wait("anna", after(second)) for second in range(20)] == [0] * 20
    assert counted.wait("anna", after(20)) == 40
    assert counted.wait("anna", after(60)) == 0
    assert counted.wait("anna", after(60)) == 1


def test_one_person_does_not_slow_another() -> None:
    """Everybody has their own count."""
    counted = Pace(most=1)
    assert [counted.wait(name, START) for name in ("anna", "berta", "anna")] == [0, 0, 60]


def test_a_clock_set_back_does_not_lock_anybody_out() -> None:
    """Messages from the future are none."""
    counted = Pace(most=1)
    counted.wait("anna", after(10_000))
    assert counted.wait("anna", START) == 0


def test_only_so_many_visitors_are_remembered(monkeypatch: object) -> None:
    """The one who was silent for longest is forgotten first."""
    counted = Pace(most=1)
    for number in range(pace.REMEMBERED + 1):
        counted.wait(f"visitor {number}", START)
    assert counted.wait("visitor 0", START) == 0
    assert counted.wait(f"visitor {pace.REMEMBERED}", START) == 60
