"""What is remembered of each conversation: `sessions`."""

from __future__ import annotations

import sqlite3
from collections import OrderedDict
from datetime import datetime

from bot.storage.sealing import Sealer
from bot.storage.times import stamp
from conversations.session import Session, load

__all__ = ["Sessions"]

SESSION = "sessions.session_sealed"
AT_HAND = 200


class Sessions:
    """The sessions, those of the last people at hand.

    The row decides: a session at hand counts only while the row holds the very seal it was
    written with, so a turn that was rolled back, or a row changed by others, is read anew.
    """

    def __init__(self, sealer: Sealer) -> None:
        self._sealer = sealer
        self._at_hand: OrderedDict[str, tuple[bytes, Session]] = OrderedDict()

    def of(self, connection: sqlite3.Connection, person: str) -> Session:
        """What is remembered of the person's conversation; a fresh session for somebody new.

        Raises `SealError` or `ValueError` where it cannot be read.
        """
        row = connection.execute(
            "SELECT session_sealed FROM sessions WHERE person = ?", [person]
        ).fetchone()
        if row is None:
            return Session(person=person)
        sealed, session = self._at_hand.get(person, (b"", None))
        if session is None or sealed != row["session_sealed"]:
            session = load(self._sealer.open(row["session_sealed"], SESSION))
            self._have_at_hand(row["session_sealed"], session)
        return session

    def keep(self, connection: sqlite3.Connection, session: Session, at: datetime) -> None:
        """Remember the conversation as it now stands."""
        sealed = self._sealer.seal(session.model_dump_json(), SESSION)
        connection.execute(
            "INSERT INTO sessions (person, schema_version, stored_at, session_sealed)"
            " VALUES (:person, :version, :at, :sealed)"
            " ON CONFLICT (person) DO UPDATE SET"
            " schema_version = :version, stored_at = :at, session_sealed = :sealed",
            {
                "person": session.person,
                "version": session.schema_version,
                "at": stamp(at),
                "sealed": sealed,
            },
        )
        self._have_at_hand(sealed, session)

    def _have_at_hand(self, sealed: bytes, session: Session) -> None:
        self._at_hand[session.person] = (sealed, session)
        self._at_hand.move_to_end(session.person)
        while len(self._at_hand) > AT_HAND:
            self._at_hand.popitem(last=False)
