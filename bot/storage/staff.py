"""Who works at the workshop: `staff`.

A sign-in code is kept as a keyed hash, works once and ends after three days. `address` is the
person id under which a member of staff writes on another channel; names shown there are nobody.
Who comes, signs in and leaves is written into the journal.
"""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.storage import audit
from bot.storage.sealing import Sealer
from bot.storage.times import moment, stamp
from conversations.effects import Journal

__all__ = [
    "CODE_HOLDS", "OPERATOR", "Member", "bind", "end_pass", "has_ended", "invite", "member",
    "members", "of_address", "remove", "sign_in", "waits",
]  # fmt: skip

CODE_HOLDS = timedelta(days=3)
OPERATOR = "operator"
"""Who does something at the machine itself, in the journal."""


@dataclass(frozen=True, slots=True)
class Member:
    """Somebody who works here: `waiting` while their code was not used."""

    name: str
    role: str
    active: bool
    waiting: bool
    address: str | None
    left_at: datetime | None = None
    """When they last left, also if they came back: a pass of before holds no more."""

    @property
    def state(self) -> str:
        """`here`, `invited` while the code was not used, or `left`."""
        return "left" if not self.active else "invited" if self.waiting else "here"


def _member(row: sqlite3.Row) -> Member:
    return Member(
        name=row["name"],
        role=row["role"],
        active=bool(row["active"]),
        waiting=row["code_used_at"] is None,
        address=row["address"],
        left_at=None if row["left_at"] is None else moment(row["left_at"]),
    )


def _write(connection: sqlite3.Connection, entry: Journal, name: str, at: datetime) -> None:
    audit.journal(connection, f"desk:{name}", entry, at)


def invite(
    connection: sqlite3.Connection,
    sealer: Sealer,
    name: str,
    role: str,
    code: str,
    at: datetime,
    by: str = OPERATOR,
) -> None:
    """`code` signs `name` in, once; any earlier code of that name no longer does."""
    known = member(connection, name)
    before = known.role if known is not None and known.active else None
    connection.execute(
        "INSERT INTO staff (name, role, code_hash, code_made_at) VALUES (:name, :role, :hash, :at)"
        " ON CONFLICT (name) DO UPDATE SET role = :role, code_hash = :hash, code_made_at = :at,"
        " code_used_at = NULL, active = 1",
        {"name": name, "role": role, "hash": sealer.digest(code), "at": stamp(at)},
    )
    _write(connection, Journal(what="staff-invited", by=by, before=before, after=role), name, at)


def sign_in(connection: sqlite3.Connection, sealer: Sealer, code: str, at: datetime) -> str | None:
    """Whom `code` signs in; None where it is unknown, was used or has ended."""
    row = connection.execute(
        "UPDATE staff SET code_used_at = ? WHERE code_hash = ? AND code_used_at IS NULL"
        " AND active = 1 AND code_made_at > ? RETURNING name",
        [stamp(at), sealer.digest(code), stamp(at - CODE_HOLDS)],
    ).fetchone()
    if row is None:
        return None
    name = str(row["name"])
    _write(connection, Journal(what="staff-signed-in", by=name), name, at)
    return name


def bind(connection: sqlite3.Connection, name: str, address: str) -> None:
    """`name` writes under this address from now on, and nobody else does."""
    connection.execute("UPDATE staff SET address = NULL WHERE address = ?", [address])
    connection.execute("UPDATE staff SET address = ? WHERE name = ?", [address, name])


def remove(connection: sqlite3.Connection, name: str, at: datetime, by: str = OPERATOR) -> bool:
    """`name` no longer works here, from the next action on; False for who does not today."""
    cursor = connection.execute(
        "UPDATE staff SET active = 0, address = NULL, code_hash = NULL, left_at = ?"
        " WHERE name = ? AND active = 1",
        [stamp(at), name],
    )
    if cursor.rowcount == 0:
        return False
    _write(connection, Journal(what="staff-left", by=by), name, at)
    return True


def end_pass(connection: sqlite3.Connection, proof: str, until: datetime, at: datetime) -> None:
    """The pass of that proof, good until `until`, opens nothing any more."""
    connection.execute("DELETE FROM ended_passes WHERE until < ?", [stamp(at)])
    connection.execute(
        "INSERT INTO ended_passes (pass, until) VALUES (?, ?) ON CONFLICT (pass) DO NOTHING",
        [proof, stamp(until)],
    )


def has_ended(connection: sqlite3.Connection, proof: str) -> bool:
    """Whether the pass of that proof was ended by who had it."""
    row = connection.execute("SELECT 1 FROM ended_passes WHERE pass = ?", [proof]).fetchone()
    return row is not None


def waits(connection: sqlite3.Connection, sealer: Sealer, code: str, at: datetime) -> str | None:
    """Whom `code` would sign in now; it stays unused."""
    row = connection.execute(
        "SELECT name FROM staff WHERE code_hash = ? AND code_used_at IS NULL AND active = 1"
        " AND code_made_at > ?",
        [sealer.digest(code), stamp(at - CODE_HOLDS)],
    ).fetchone()
    return None if row is None else str(row["name"])


def member(connection: sqlite3.Connection, name: str) -> Member | None:
    """Who that is; None for somebody unknown."""
    row = connection.execute("SELECT * FROM staff WHERE name = ?", [name]).fetchone()
    return None if row is None else _member(row)


def members(connection: sqlite3.Connection) -> list[Member]:
    """Everybody who works here or did."""
    rows = connection.execute("SELECT * FROM staff ORDER BY active DESC, name")
    return [_member(row) for row in rows]


def of_address(connection: sqlite3.Connection, address: str) -> Member | None:
    """Who writes under this address and works here today; None for everybody else."""
    row = connection.execute(
        "SELECT * FROM staff WHERE address = ? AND active = 1", [address]
    ).fetchone()
    return None if row is None else _member(row)
