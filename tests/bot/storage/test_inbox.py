"""What arrived."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from bot.storage import inbox
from bot.storage.database import Database
from bot.storage.errors import SealError
from conversations.events import Desk, DeskVerb, Text

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)


def text(identity: str, words: str = "hello") -> Text:
    return Text(id=identity, person="anna", at=NOW, text=words)


def test_an_event_waits_until_it_is_finished(database: Database) -> None:
    """Kept, it waits; finished, it does not."""
    with database.transaction() as connection:
        kept = inbox.arrive(connection, database.sealer, text("a"), "web", NOW)
        assert kept is not None
        assert inbox.waiting(connection) == [kept.seq]
        assert inbox.oldest_waiting(connection) == NOW
        inbox.finish(connection, kept.seq, 1)
        assert inbox.waiting(connection) == []
        assert inbox.oldest_waiting(connection) is None


def test_an_event_is_kept_once_for_each_channel(database: Database) -> None:
    """The same id on the same channel is the same event."""
    with database.transaction() as connection:
        assert inbox.arrive(connection, database.sealer, text("a"), "web", NOW) is not None
        assert inbox.arrive(connection, database.sealer, text("a"), "web", NOW) is None
        assert inbox.arrive(connection, database.sealer, text("a"), "talk", NOW) is not None


def test_a_kept_event_is_read_back_whole(database: Database) -> None:
    """Its words are sealed in the table and open again."""
    with database.transaction() as connection:
        event = text("a", "435 x 300")
        kept = inbox.arrive(connection, database.sealer, event, "web", NOW)
        assert kept is not None
        assert inbox.arrived(connection, database.sealer, kept.seq) == kept
        raw = connection.execute("SELECT raw_sealed FROM inbox").fetchone()["raw_sealed"]
    assert b"435" not in raw


def test_a_damaged_event_is_known_by_its_sender_still(database: Database) -> None:
    """Who sent it stands beside the seal."""
    desk = Desk(id="d", person="anna", at=NOW, by="maria", verb=DeskVerb.TAKE, number="48291742")
    with database.transaction() as connection:
        kept = inbox.arrive(connection, database.sealer, desk, "web", NOW)
        assert kept is not None
        connection.execute("UPDATE inbox SET raw_sealed = x'01'")
        with pytest.raises(SealError):
            inbox.arrived(connection, database.sealer, kept.seq)
        sender = inbox.sender_of(connection, kept.seq)
    assert sender == inbox.Sender(person="anna", staff="maria", channel="web", kind="desk")


def test_tries_are_counted_until_it_is_dead(database: Database) -> None:
    """A dead event waits no more."""
    with database.transaction() as connection:
        kept = inbox.arrive(connection, database.sealer, text("a"), "web", NOW)
        assert kept is not None
        assert inbox.count_try(connection, kept.seq, "KeyError") == 1
        assert inbox.count_try(connection, kept.seq, "KeyError") == 2
        inbox.bury(connection, kept.seq)
        assert inbox.waiting(connection) == []


def test_what_a_person_sent_is_told_in_order(database: Database) -> None:
    """With the count of each message; what staff did about the person is left out."""
    desk = Desk(id="d", person="anna", at=NOW, by="maria", verb=DeskVerb.TAKE, number="48291742")
    with database.transaction() as connection:
        for event in (text("a", "one"), desk, text("b", "two")):
            kept = inbox.arrive(connection, database.sealer, event, "web", NOW)
            assert kept is not None
            inbox.finish(connection, kept.seq, kept.seq * 10)
        heard = inbox.heard_from(connection, database.sealer, "anna")
    assert [(one.event.id, one.k) for one in heard] == [("a", 10), ("b", 30)]
