"""Reminders."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from bot.storage import due, people
from bot.storage.database import Database

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)


def test_a_reminder_is_taken_once(database: Database) -> None:
    """Taking it again, or for another moment, takes nothing."""
    with database.transaction() as connection:
        people.meet(connection, "anna", "web", NOW)
        due.remind(connection, "anna", "look", NOW)
        assert not due.take(connection, "anna", "look", NOW + timedelta(seconds=1))
        assert due.take(connection, "anna", "look", NOW)
        assert not due.take(connection, "anna", "look", NOW)


def test_what_is_due_comes_in_order(database: Database) -> None:
    """The earliest first, nothing that is still to come; the next moment is known."""
    with database.transaction() as connection:
        people.meet(connection, "anna", "web", NOW)
        assert due.next_moment(connection) is None
        for what, hours in (("c", 3), ("a", 1), ("b", 2)):
            due.remind(connection, "anna", what, NOW + timedelta(hours=hours))
        found = due.due_until(connection, NOW + timedelta(hours=2))
        assert [reminder.what for reminder in found] == ["a", "b"]
        assert due.next_moment(connection) == NOW + timedelta(hours=1)


def test_cancelling_is_for_one_person(database: Database) -> None:
    """The same name of another person stays."""
    with database.transaction() as connection:
        for person in ("anna", "ola"):
            people.meet(connection, person, "web", NOW)
            due.remind(connection, person, "look-1", NOW)
        due.cancel(connection, "anna", "look-")
        assert [reminder.person for reminder in due.due_until(connection, NOW)] == ["ola"]
