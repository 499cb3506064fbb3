"""Who writes very fast is slowed down, and told once."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from bot.channels.pace import Pace
from bot.channels.telegram.pacing import Pacing
from conversations.events import Choose, Text

START = datetime(2026, 3, 2, 9, tzinfo=UTC)


def text(name: str, seconds: float) -> Text:
    """A message sent so long after the start."""
    return Text(id=name, person="anna", at=START + timedelta(seconds=seconds), text="360")


def test_the_same_message_counts_once_and_has_the_same_fate() -> None:
    """A full disk brings it again and again; that is not fast."""
    pacing = Pacing(Pace(most=2))
    for _ in range(5):
        assert pacing.takes(text("m1", 0), START)
    assert pacing.takes(text("m2", 1), START)
    for _ in range(2):
        assert not pacing.takes(text("m3", 2), START)
    assert pacing.takes(text("m4", 61), START)


def test_what_piled_up_while_we_were_away_is_taken() -> None:
    """It was sent slowly, and comes at once."""
    pacing = Pacing(Pace(most=2))
    late = START + timedelta(hours=9)
    assert all(pacing.takes(text(f"m{k}", 60 * k), late) for k in range(30))


def test_taps_count_when_they_are_made() -> None:
    """The message they stand in may be old."""
    pacing = Pacing(Pace(most=2))
    taps = [Choose(id=f"c{k}", person="anna", at=START, choice="yes") for k in range(3)]
    later = START + timedelta(minutes=5)
    assert [pacing.takes(tap, later) for tap in taps] == [True, True, False]


def test_one_notice_until_something_is_taken_again() -> None:
    """Not one for each message."""
    pacing = Pacing(Pace(most=1))
    assert pacing.takes(text("m1", 0), START)
    assert not pacing.takes(text("m2", 1), START)
    assert [pacing.to_be_told("anna") for _ in range(3)] == [True, False, False]
    assert pacing.takes(text("m3", 90), START)
    assert pacing.to_be_told("anna")
