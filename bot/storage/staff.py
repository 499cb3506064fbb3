"""Who works at the desk: `staff`. A sign-in code is kept as a keyed hash and works once."""

from __future__ import annotations

import sqlite3
from datetime import datetime

from bot.storage.sealing import Sealer
from bot.storage.times import stamp

__all__ = ["invite", "is_active", "sign_in"]


def invite(
    connection: sqlite3.Connection, sealer: Sealer, name: str, role: str, code: str, at: datetime
) -> None:
    """`code` signs `name` in, once; any earlier code of that name no longer does."""
    connection.execute(
        "INSERT INTO staff (name, role, code_hash, code_made_at) VALUES (:name, :role, :hash, :at)"
        " ON CONFLICT (name) DO UPDATE SET role = :role, code_hash = :hash, code_made_at = :at,"
        " code_used_at = NULL",
        {"name": name, "role": role, "hash": sealer.digest(code), "at": stamp(at)},
    )


def sign_in(connection: sqlite3.Connection, sealer: Sealer, code: str, at: datetime) -> str | None:
    """Whom `code` signs in; None where it is unknown or was used."""
    row = connection.execute(
        "UPDATE staff SET code_used_at = ? WHERE code_hash = ? AND code_used_at IS NULL"
        " AND active = 1 RETURNING name",
        [stamp(at), sealer.digest(code)],
    ).fetchone()
    return None if row is None else str(row["name"])


def is_active(connection: sqlite3.Connection, name: str) -> bool:
    """Whether `name` works at the desk today."""
    row = connection.execute("SELECT active FROM staff WHERE name = ?", [name]).fetchone()
    return row is not None and bool(row["active"])
