"""Days in the beekeeper's calendar that belong to a cage; no dose, no advice on treatment."""

from __future__ import annotations

from datetime import date, timedelta

from conversations.effects import DateValue, Line, Value
from sizing.days import brood_break_ends, comb_changes, introduction
from sizing.measures import Purpose

__all__ = ["ARRIVES_AFTER", "bee_days"]

ARRIVES_AFTER = timedelta(days=7)
"""The example begins so long after the day on which the cage is posted."""


def bee_days(purpose: Purpose, today: date) -> tuple[Line, ...]:
    """The days to count from the day on which the queen goes in, with an example of dates."""
    start = today + ARRIVES_AFTER
    if purpose is Purpose.ISOLATE:
        return (
            _line("days.break", start=start, out=brood_break_ends(start)),
            _line("days.combs", **_combs(start)),
            Line(key="days.drones"),
            Line(key="days.law"),
        )
    days = introduction(start)
    return (
        _line("days.introduce", start=start, opened=days.opened, latest=days.latest),
        _line("days.eggs", eggs_from=days.eggs_from, eggs_to=days.eggs_to),
    )


def _combs(start: date) -> dict[str, date]:
    first, second, third, last = comb_changes(start)
    return {"first": first, "second": second, "third": third, "last": last}


def _line(key: str, **days: date) -> Line:
    values: dict[str, Value] = {name: DateValue(day=day) for name, day in days.items()}
    return Line(key=key, values=values)
