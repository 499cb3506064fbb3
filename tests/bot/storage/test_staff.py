"""Who works at the desk."""

from __future__ import annotations

from datetime import UTC, datetime

from bot.storage import staff
from bot.storage.database import Database

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)


def test_a_code_signs_in_once(database: Database) -> None:
    """The second time it is as unknown as any other."""
    with database.transaction() as connection:
        staff.invite(connection, database.sealer, "maria", "desk", "open sesame", NOW)
        assert staff.sign_in(connection, database.sealer, "another", NOW) is None
        assert staff.sign_in(connection, database.sealer, "open sesame", NOW) == "maria"
        assert staff.sign_in(connection, database.sealer, "open sesame", NOW) is None


def test_a_new_code_ends_the_old_one(database: Database) -> None:
    """There is one way in for each name."""
    with database.transaction() as connection:
        staff.invite(connection, database.sealer, "maria", "desk", "old", NOW)
        staff.invite(connection, database.sealer, "maria", "desk", "new", NOW)
        assert staff.sign_in(connection, database.sealer, "old", NOW) is None
        assert staff.sign_in(connection, database.sealer, "new", NOW) == "maria"


def test_who_left_is_not_let_in(database: Database) -> None:
    """A code that was not used ends with the work of its holder."""
    with database.transaction() as connection:
        staff.invite(connection, database.sealer, "maria", "desk", "code", NOW)
        assert staff.remove(connection, "maria", NOW)
        assert not staff.remove(connection, "maria", NOW)
        assert staff.sign_in(connection, database.sealer, "code", NOW) is None


def test_the_code_itself_is_not_kept(database: Database) -> None:
    """The table holds a keyed hash."""
    with database.transaction() as connection:
        staff.invite(connection, database.sealer, "maria", "desk", "open sesame", NOW)
        row = connection.execute("SELECT * FROM staff").fetchone()
    assert "open sesame" not in tuple(row)


def test_who_comes_and_leaves_stands_in_the_journal(database: Database) -> None:
    """By whom, and in which role; with a second invitation also the role of before."""
    with database.transaction() as connection:
        staff.invite(connection, database.sealer, "maria", "desk", "one", NOW, "jan")
        staff.sign_in(connection, database.sealer, "one", NOW)
        staff.invite(connection, database.sealer, "maria", "bench", "two", NOW, "jan")
        staff.remove(connection, "maria", NOW, "jan")
        staff.invite(connection, database.sealer, "maria", "desk", "three", NOW)
        rows = connection.execute("SELECT what, by, person, before, after FROM audit ORDER BY seq")
        written = [tuple(row) for row in rows]
    assert written == [
        ("staff-invited", "jan", "desk:maria", None, "desk"),
        ("staff-signed-in", "maria", "desk:maria", None, None),
        ("staff-invited", "jan", "desk:maria", "desk", "bench"),
        ("staff-left", "jan", "desk:maria", None, None),
        ("staff-invited", staff.OPERATOR, "desk:maria", None, "desk"),
    ]
