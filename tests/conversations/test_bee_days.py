"""Days in the beekeeper's calendar."""

from __future__ import annotations

from datetime import date

from conversations.bee_days import bee_days
from conversations.effects import DateValue, Line
from sizing.measures import Purpose

TODAY = date(2026, 4, 20)


def days(line: Line) -> dict[str, date]:
    """The dates that go into a line."""
    return {name: one.day for name, one in line.values.items() if isinstance(one, DateValue)}


def test_a_brood_break_is_counted_from_the_day_the_queen_goes_in() -> None:
    """A week after posting as an example; out 24 days later, combs every 9 days."""
    first, combs, *_ = bee_days(Purpose.ISOLATE, TODAY)
    assert days(first) == {"start": date(2026, 4, 27), "out": date(2026, 5, 21)}
    assert days(combs) == {
        "first": date(2026, 5, 6), "second": date(2026, 5, 15), "third": date(2026, 5, 24),
        "last": date(2026, 6, 2),
    }  # fmt: skip


def test_an_introduction_has_days_to_open_and_to_look_for_eggs() -> None:
    """After 3 days, by 5 at the latest; eggs after 10 to 14."""
    first, eggs = bee_days(Purpose.INTRODUCE, TODAY)
    assert days(first) == {
        "start": date(2026, 4, 27), "opened": date(2026, 4, 30), "latest": date(2026, 5, 2),
    }  # fmt: skip
    assert days(eggs) == {"eggs_from": date(2026, 5, 7), "eggs_to": date(2026, 5, 11)}


def test_only_a_brood_break_speaks_of_treatment_and_only_to_send_elsewhere() -> None:
    """The rules and the veterinarian decide, where the beekeeper lives."""
    assert "days.law" in {one.key for one in bee_days(Purpose.ISOLATE, TODAY)}
    assert "days.law" not in {one.key for one in bee_days(Purpose.INTRODUCE, TODAY)}
