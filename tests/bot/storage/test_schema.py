"""The tables: strict, complete, and some of them for ever."""

from __future__ import annotations

import sqlite3
from typing import TYPE_CHECKING

import pytest

from bot.storage.database import Database
from bot.storage.schema import FOREVER, migrations

if TYPE_CHECKING:
    from tests.bot.conftest import Shop

PROMISED = {
    "people", "sessions", "orders", "versions", "cages", "answers", "findings", "photos",
    "inbox", "outbox", "due", "staff", "audit",
}  # fmt: skip
WRONG = [
    "INSERT INTO staff (name, role, active) VALUES ('maria', 'desk', 'yes')",
    "INSERT INTO staff (name, role) VALUES ('maria', x'00')",
    "INSERT INTO numbers (only, next) VALUES ('one', '1')",
]


def test_all_promised_tables_are_there_and_strict(database: Database) -> None:
    """Every table of ours refuses values of a wrong type."""
    with database.reading() as connection:
        strict = {
            row["name"]: row["strict"]
            for row in connection.execute("PRAGMA table_list")
            if row["schema"] == "main" and not row["name"].startswith(("sqlite_", "_sqlite_"))
        }
    assert set(strict) >= PROMISED
    assert [name for name, on in strict.items() if not on] == []


@pytest.mark.parametrize("statement", WRONG)
def test_a_value_of_a_wrong_type_is_refused(database: Database, statement: str) -> None:
    """Words where a number belongs, bytes where words belong."""
    with pytest.raises(sqlite3.IntegrityError), database.transaction() as connection:
        connection.execute(statement)


@pytest.mark.parametrize("table", FOREVER)
@pytest.mark.parametrize("statement", ["UPDATE {} SET by = 'x'", "DELETE FROM {}"])
def test_some_rows_never_change_and_never_go(shop: Shop, table: str, statement: str) -> None:
    """What was handed in, cut and decided stays as it was."""
    shop.send("order")
    change = statement.format(table).replace("cages SET by", "cages SET label")
    with (
        pytest.raises(sqlite3.IntegrityError, match="never change"),
        shop.database.transaction() as connection,
    ):
        connection.execute(change)
    assert shop.rows(f"SELECT count(*) FROM {table}") == [(1,)]


def test_a_row_that_refers_to_nothing_is_refused(database: Database) -> None:
    """A note needs its order."""
    with pytest.raises(sqlite3.IntegrityError), database.transaction() as connection:
        connection.execute(
            "INSERT INTO notes (number, at, by, what, text_sealed)"
            " VALUES ('48291742', '2026', 'maria', 'note', x'00')"
        )


def test_each_step_is_made_once() -> None:
    """The steps are the same object each time they are asked for."""
    assert migrations() is migrations()
