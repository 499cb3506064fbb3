"""Who wrote, by which channel, in which language."""

from __future__ import annotations

from datetime import UTC, datetime

from bot.storage import people
from bot.storage.database import Database

FIRST = datetime(2026, 3, 2, 9, tzinfo=UTC)
LATER = datetime(2026, 3, 3, 9, tzinfo=UTC)


def test_a_person_is_reached_where_they_last_wrote(database: Database) -> None:
    """First seen stays, last seen and the channel follow."""
    with database.transaction() as connection:
        people.meet(connection, "anna", "web", FIRST)
        people.meet(connection, "anna", "terminal", LATER)
        row = connection.execute("SELECT first_seen, last_seen FROM people").fetchone()
        assert people.channel_of(connection, "anna") == "terminal"
    assert tuple(row) == ("2026-03-02T09:00:00.000Z", "2026-03-03T09:00:00.000Z")


def test_who_writes_again_can_be_reached_again(database: Database) -> None:
    """A person who was lost is found when they write."""
    with database.transaction() as connection:
        people.meet(connection, "anna", "web", FIRST)
        people.lose(connection, "anna")
        assert connection.execute("SELECT reachable FROM people").fetchone()[0] == 0
        people.meet(connection, "anna", "web", LATER)
        assert connection.execute("SELECT reachable FROM people").fetchone()[0] == 1


def test_nobody_is_known_before_they_wrote(database: Database) -> None:
    """No channel, no contact."""
    with database.reading() as connection:
        assert people.channel_of(connection, "anna") is None
        assert people.contact_of(connection, database.sealer, "anna") is None


def test_the_contact_is_kept_sealed(database: Database) -> None:
    """It comes back, and the table does not show it."""
    with database.transaction() as connection:
        people.meet(connection, "anna", "web", FIRST)
        people.keep_contact(connection, database.sealer, "anna", "anna@example.org")
        row = connection.execute("SELECT contact_sealed FROM people").fetchone()
        assert people.contact_of(connection, database.sealer, "anna") == "anna@example.org"
    assert b"anna" not in row["contact_sealed"]


def test_the_language_is_the_conversation_s(database: Database) -> None:
    """It follows what the person chose."""
    with database.transaction() as connection:
        people.meet(connection, "anna", "web", FIRST)
        people.speak(connection, "anna", "pl")
        assert connection.execute("SELECT language FROM people").fetchone()[0] == "pl"
