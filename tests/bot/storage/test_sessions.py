"""What is remembered of each conversation."""

from __future__ import annotations

from contextlib import suppress
from datetime import UTC, datetime

import pytest

from bot.storage import people, sessions
from bot.storage.database import Database
from bot.storage.errors import SealError
from bot.storage.sessions import Sessions
from conversations.session import Session

FIRST = datetime(2026, 3, 2, 9, tzinfo=UTC)
LATER = datetime(2026, 3, 3, 9, tzinfo=UTC)
ANNA = Session(person="anna", heard_count=3)
NEWER = ANNA.model_copy(update={"heard_count": 4})


@pytest.fixture
def kept(database: Database) -> Sessions:
    """Anna's session was kept a moment ago."""
    with database.transaction() as connection:
        people.meet(connection, "anna", "web", FIRST)
        kept = Sessions(database.sealer)
        kept.keep(connection, ANNA, FIRST)
    return kept


def test_somebody_new_has_a_fresh_session(database: Database) -> None:
    """Nothing is written for who only wrote once."""
    with database.reading() as connection:
        assert Sessions(database.sealer).of(connection, "anna") == Session(person="anna")


def test_a_session_comes_back_as_it_was(database: Database, kept: Sessions) -> None:
    """At hand, or opened by a program that starts anew; the newest counts."""
    with database.transaction() as connection:
        kept.keep(connection, NEWER, LATER)
        assert kept.of(connection, "anna") == NEWER
        assert Sessions(database.sealer).of(connection, "anna") == NEWER


def test_a_turn_that_was_rolled_back_is_not_remembered(database: Database, kept: Sessions) -> None:
    """What was at hand of it does not count."""
    with suppress(RuntimeError), database.transaction() as connection:
        kept.keep(connection, NEWER, LATER)
        raise RuntimeError
    with database.reading() as connection:
        assert kept.of(connection, "anna") == ANNA


def test_a_row_changed_by_others_is_read_anew(database: Database, kept: Sessions) -> None:
    """Also where it cannot be read any more."""
    with database.transaction() as connection:
        Sessions(database.sealer).keep(connection, NEWER, LATER)
        assert kept.of(connection, "anna") == NEWER
        connection.execute("UPDATE sessions SET session_sealed = x'00'")
        with pytest.raises(SealError):
            kept.of(connection, "anna")


def test_only_the_last_people_are_at_hand(
    database: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    """However many write, memory does not grow, and everybody's session comes back."""
    monkeypatch.setattr(sessions, "AT_HAND", 2)
    kept = Sessions(database.sealer)
    everybody = [Session(person=name, heard_count=len(name)) for name in ("al", "bea", "carl")]
    with database.transaction() as connection:
        for session in everybody:
            people.meet(connection, session.person, "web", FIRST)
            kept.keep(connection, session, FIRST)
        assert len(kept._at_hand) == 2
        assert [kept.of(connection, one.person) for one in everybody] == everybody
