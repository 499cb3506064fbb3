"""The one file: how it is opened, guarded and changed."""

from __future__ import annotations

import os
import sqlite3
import stat
import threading
from pathlib import Path

import pytest

from bot.storage import database as module
from bot.storage.database import Database, in_use, open_database, open_read_only
from bot.storage.errors import (
    InUseError,
    KeyFileError,
    NoDatabaseError,
    PragmaError,
    UnavailableError,
)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where a database may be."""
    return tmp_path / "data" / "workshop.db"


@pytest.fixture
def key(tmp_path: Path) -> Path:
    """Where its key may be."""
    return tmp_path / "secret" / "key"


def add_to(opened: Database, *names: str) -> None:
    with opened.transaction() as connection:
        for name in names:
            connection.execute("INSERT INTO staff (name, role) VALUES (?, 'desk')", [name])


def names(opened: Database) -> list[str]:
    with opened.reading() as connection:
        return [row["name"] for row in connection.execute("SELECT name FROM staff ORDER BY name")]


def test_what_makes_it_safe_is_on(database: Database) -> None:
    """Asked of SQLite itself: log ahead, full sync, foreign keys, no trust in the schema."""
    with database.reading() as connection:
        seen = {
            name: connection.execute(f"PRAGMA {name}").fetchone()[0]
            for name in ("journal_mode", "synchronous", "foreign_keys", "trusted_schema")
        }
    assert seen == {
        "journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "trusted_schema": 0,
    }  # fmt: skip


def test_a_pragma_that_does_not_take_stops_the_start(
    path: Path, key: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The error names the pragma, what was asked and what stands there."""
    monkeypatch.setitem(module.PRAGMAS, "synchronous", 9)
    with pytest.raises(PragmaError) as caught:
        open_database(path, key)
    assert (caught.value.name, caught.value.asked, caught.value.seen) == ("synchronous", 9, 1)


def test_the_files_are_for_their_owner_alone(database: Database) -> None:
    """Database, log and lock file have no rights for others."""
    add_to(database, "maria")
    files = list(database.path.parent.iterdir())
    assert len(files) == 4
    assert {stat.S_IMODE(file.stat().st_mode) for file in files} == {0o600}


def test_a_transaction_is_all_or_nothing(database: Database) -> None:
    """What raises in the middle leaves nothing behind."""
    with pytest.raises(sqlite3.IntegrityError):
        add_to(database, "maria", "maria")
    assert names(database) == []
    add_to(database, "maria")
    assert names(database) == ["maria"]


def test_threads_wait_for_each_other(database: Database) -> None:
    """Transactions of several threads come one after another, none inside another."""

    def add_ten(thread: int) -> None:
        for count in range(10):
            add_to(database, f"{thread}-{count}")

    threads = [threading.Thread(target=add_ten, args=[number]) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(names(database)) == 40


def test_a_second_process_is_refused(path: Path, key: Path) -> None:
    """Whoever opens it for writing while it is open hears which process has it."""
    opened = open_database(path, key)
    with pytest.raises(InUseError) as caught:
        open_database(path, key)
    assert (caught.value.path, caught.value.pid) == (path, os.getpid())
    opened.close()
    open_database(path, key).close()


def test_a_failed_start_gives_the_file_free(
    path: Path, key: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After an error in opening, nothing is locked."""
    with monkeypatch.context() as patch:
        patch.setitem(module.PRAGMAS, "synchronous", 9)
        with pytest.raises(PragmaError):
            open_database(path, key)
    open_database(path, key).close()
    assert path.exists()


def test_others_may_look_while_it_is_open(path: Path, key: Path) -> None:
    """A reader sees what was committed, and cannot write."""
    writer = open_database(path, key)
    add_to(writer, "maria")
    reader = open_read_only(path, key)
    assert names(reader) == ["maria"]
    with pytest.raises((sqlite3.OperationalError, UnavailableError)):
        add_to(reader, "ola")
    reader.close()
    writer.close()


def test_others_may_look_while_it_is_closed(path: Path, key: Path) -> None:
    """Reading needs no running process."""
    writer = open_database(path, key)
    add_to(writer, "maria")
    writer.close()
    reader = open_read_only(path, key)
    assert names(reader) == ["maria"]
    reader.close()


def test_there_is_nothing_to_look_at(path: Path, key: Path) -> None:
    """Looking makes neither a database nor a key."""
    with pytest.raises(NoDatabaseError) as caught:
        open_read_only(path, key)
    assert caught.value.reason == "missing"
    assert not path.exists()
    assert not key.exists()


def test_other_files_are_left_alone(path: Path, key: Path) -> None:
    """A file of another program is neither opened nor changed."""
    path.parent.mkdir()
    path.write_text("a shopping list, long enough to be taken for a header " * 20)
    before = path.read_bytes()
    for opening in (open_database, open_read_only):
        key.parent.mkdir(exist_ok=True)
        key.write_bytes(bytes(32))
        key.chmod(0o600)
        with pytest.raises(NoDatabaseError) as caught:
            opening(path, key)
        assert caught.value.reason == "not-ours"
    assert path.read_bytes() == before


@pytest.mark.parametrize("opening", [open_database, open_read_only])
def test_another_program_s_database_is_left_alone(path: Path, key: Path, opening: object) -> None:
    """A SQLite file with other tables is not filled with ours."""
    path.parent.mkdir()
    with sqlite3.connect(path) as other:
        other.execute("CREATE TABLE shopping (item TEXT)")
    other.close()
    assert callable(opening)
    with pytest.raises(NoDatabaseError) as caught:
        opening(path, key)
    assert caught.value.reason == "not-ours"


@pytest.mark.parametrize("opening", [open_database, open_read_only])
def test_a_database_of_a_later_program_is_not_touched(
    path: Path, key: Path, opening: object
) -> None:
    """A step this program does not know stops it."""
    opened = open_database(path, key)
    with opened.transaction() as connection:
        connection.execute(
            "UPDATE _sqlite_migrations SET name = '9999_later' WHERE name LIKE '0001%'"
        )
    opened.close()
    assert callable(opening)
    with pytest.raises(NoDatabaseError) as caught:
        opening(path, key)
    assert caught.value.reason == "newer"


def test_an_older_database_is_brought_up_to_date_by_writing_only(path: Path, key: Path) -> None:
    """Looking at a database whose steps are not done changes nothing and says so."""
    path.parent.mkdir()
    path.touch()
    with pytest.raises(NoDatabaseError) as caught:
        open_read_only(path, key)
    assert caught.value.reason == "older"
    open_database(path, key).close()
    open_read_only(path, key).close()


def test_another_key_does_not_open_it(path: Path, key: Path) -> None:
    """The key file of another workshop is refused at the start, not at the first letter."""
    open_database(path, key).close()
    key.write_bytes(bytes(32))
    for opening in (open_database, open_read_only):
        with pytest.raises(KeyFileError) as caught:
            opening(path, key)
        assert caught.value.reason == "another"


def test_a_lost_key_is_not_replaced(path: Path, key: Path) -> None:
    """A new key would make believe that nothing is lost."""
    open_database(path, key).close()
    key.unlink()
    with pytest.raises(KeyFileError) as caught:
        open_database(path, key)
    assert caught.value.reason == "missing"
    assert not key.exists()


def test_whether_a_database_is_in_use_can_be_asked_without_taking_it(tmp_path: Path) -> None:
    """Asked before, while and after; asking is in nobody's way."""
    path, key = tmp_path / "data" / "w.db", tmp_path / "key"
    assert not in_use(path)
    opened = open_database(path, key)
    assert in_use(path)
    opened.close()
    assert not in_use(path)
    open_database(path, key).close()
