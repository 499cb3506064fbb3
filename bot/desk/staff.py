"""Who may sit at the desk: a link that works once, then a pass that the browser keeps.

The pass names the staff member and the moment it ends and carries a keyed hash of both, so
that nothing stored opens the desk and the pass holds over a restart. Whether its holder still
works here is looked up every time.
"""

from __future__ import annotations

import hmac
import secrets
from datetime import UTC, datetime, timedelta

from bot.storage import staff
from bot.storage.database import Database
from bot.storage.staff import OPERATOR
from conversations.review import Role

__all__ = [
    "DESK", "LONGEST_NAME", "PASS_HOLDS", "active", "end_pass", "fits", "holder", "invite",
    "make_pass", "remove", "renew", "sign_in", "waits",
]  # fmt: skip

DESK = "workshop"
"""The staff member who is there from the beginning."""
PASS_HOLDS = timedelta(days=30)
LONGEST_NAME = 40


def fits(name: str) -> bool:
    """Whether somebody can be called that: short, and without the signs that part a pass."""
    return 1 <= len(name) <= LONGEST_NAME and name.isprintable() and not set(".:") & set(name)


def invite(
    database: Database,
    now: datetime,
    name: str = DESK,
    role: Role = Role.OPERATOR,
    by: str = OPERATOR,
) -> str:
    """A code with which `name` signs in once; an earlier one that was not used ends."""
    code = secrets.token_urlsafe(24)
    with database.transaction() as connection:
        staff.invite(connection, database.sealer, name, role, code, now, by)
    return code


def remove(database: Database, now: datetime, name: str, by: str = OPERATOR) -> bool:
    """`name` leaves, from the next action on; False where nobody of that name works here."""
    with database.transaction() as connection:
        return staff.remove(connection, name, now, by)


def sign_in(database: Database, code: str, now: datetime) -> str | None:
    """Whom this code signs in the first time it is used; None ever after."""
    with database.transaction() as connection:
        return staff.sign_in(connection, database.sealer, code, now)


def waits(database: Database, code: str, now: datetime) -> str | None:
    """Whom this code would sign in; it stays good."""
    with database.reading() as connection:
        return staff.waits(connection, database.sealer, code, now)


def active(database: Database, name: str) -> Role | None:
    """The role of who works here today under that name; None where nobody does."""
    with database.reading() as connection:
        found = staff.member(connection, name)
    return Role(found.role) if found is not None and found.active else None


def renew(database: Database, now: datetime, name: str, by: str = OPERATOR) -> str | None:
    """A new code for `name`, whose role stays; None where nobody of that name works here."""
    role = active(database, name)
    return None if role is None else invite(database, now, name, role, by)


def make_pass(database: Database, name: str, now: datetime) -> str:
    """What the browser of `name` shows from now on."""
    until = int((now + PASS_HOLDS).timestamp())
    body = f"{name}.{until}.{secrets.token_urlsafe(12)}"
    return f"{body}.{_proof(database, body)}"


def holder(database: Database, shown: str, now: datetime) -> str | None:
    """Whose pass this is; None if it is none, has ended, or its holder left."""
    body, _, proof = shown.rpartition(".")
    if not hmac.compare_digest(_proof(database, body).encode(), proof.encode()):
        return None
    name, until, _ = body.rsplit(".", 2)
    if now.timestamp() >= int(until):
        return None
    made = datetime.fromtimestamp(int(until), UTC) - PASS_HOLDS
    with database.reading() as connection:
        found = staff.member(connection, name)
        ended = staff.has_ended(connection, _ending(database, proof))
    if found is None or not found.active or ended:
        return None
    # Who left and came back was given a new code: a pass of before may be in other hands.
    return name if found.left_at is None or made > found.left_at else None


def end_pass(database: Database, shown: str, now: datetime) -> None:
    """The pass opens nothing any more, wherever else it was copied to."""
    if holder(database, shown, now) is None:
        return
    body, _, proof = shown.rpartition(".")
    until = datetime.fromtimestamp(int(body.rsplit(".", 2)[1]), UTC)
    with database.transaction() as connection:
        staff.end_pass(connection, _ending(database, proof), until, now)


def _ending(database: Database, proof: str) -> str:
    """What is kept of a pass that was ended: nothing that could be shown as one."""
    return database.sealer.digest(f"desk-pass-ended:{proof}")


def _proof(database: Database, body: str) -> str:
    return database.sealer.digest(f"desk-pass:{body}")
