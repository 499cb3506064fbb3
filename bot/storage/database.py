"""The one file: opened, checked, locked, and every change to it in one kind of transaction.

One connection writes, and it also reads for the whole process: a lock gives it to one thread
at a time. Others (a list of orders while the program serves) open the file read-only and never
move the log into the file: with SQLite before 3.51.3 two connections that do so may damage it.
"""

from __future__ import annotations

import fcntl
import os
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final

from sqlite_utils import Database as Tables

from bot.storage.errors import (
    InUseError,
    KeyFileError,
    NoDatabaseError,
    PragmaError,
    UnavailableError,
)
from bot.storage.schema import STEPS, migrations
from bot.storage.sealing import Sealer, make_key, read_key

__all__ = ["Database", "Row", "in_use", "open_database", "open_read_only"]

Row = sqlite3.Row

BUSY_MILLISECONDS = 5000
FULL = 2
PRAGMAS: Final = {
    "journal_mode": "wal",
    "synchronous": FULL,
    "foreign_keys": 1,
    "trusted_schema": 0,
    "busy_timeout": BUSY_MILLISECONDS,
}
PASSING = frozenset({
    sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_NOMEM, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_READONLY,
})  # fmt: skip
"""Errors of the machine and not of the program: the same may work later."""
PRIMARY = 0xFF
"""SQLite's error codes carry the kind in the lowest byte, the detail above it."""


class Database:
    """An open database with its key. Made by `open_database` and `open_read_only`."""

    def __init__(self, path: Path, connection: sqlite3.Connection, sealer: Sealer) -> None:
        self.path = path
        self.sealer = sealer
        self._connection = connection
        self._lock = threading.RLock()
        self._lock_file: int | None = None

    @contextmanager
    def transaction(self) -> Iterator[sqlite3.Connection]:
        """All or nothing: what is done inside is on the disk when the block ends.

        The write lock is taken at the beginning, so that what was read cannot have changed.
        Raises `UnavailableError` where the machine does not let it; then nothing was done.
        """
        with self._lock, _translated(self.path):
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                yield self._connection
                self._connection.execute("COMMIT")
            except BaseException:
                # SQLite may have rolled back by itself already, when the disk is full.
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")
                raise

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """The connection for questions that change nothing."""
        with self._lock, _translated(self.path):
            yield self._connection

    def close(self) -> None:
        """Close the file and give it free."""
        with self._lock:
            self._connection.close()
            if self._lock_file is not None:
                os.close(self._lock_file)
                self._lock_file = None


@contextmanager
def _translated(path: Path) -> Iterator[None]:
    try:
        yield
    except sqlite3.OperationalError as error:
        if error.sqlite_errorcode & PRIMARY in PASSING:
            raise UnavailableError(error.sqlite_errorname) from error
        raise
    except sqlite3.DatabaseError as error:
        if error.sqlite_errorcode & PRIMARY == sqlite3.SQLITE_NOTADB:
            raise NoDatabaseError(path, "not-ours") from error
        raise


def open_database(path: Path, key_file: Path) -> Database:
    """The database at `path`, for reading and writing; made with its key if there is none.

    Raises `InUseError` where another process writes to it, `NoDatabaseError`, `KeyFileError`,
    `PragmaError`, `UnavailableError`.
    """
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    lock_file = _take_lock(path)
    connection: sqlite3.Connection | None = None
    try:
        with _translated(path):
            path.touch(mode=0o600)
            connection = _connect(f"{path.as_uri()}?mode=rw")
            _set_pragmas(connection)
            _check_schema(connection, path)
            migrations().apply(Tables(connection))
            sealer = _matching_sealer(connection, key_file)
        database = Database(path, connection, sealer)
    except BaseException:
        if connection is not None:
            connection.close()
        os.close(lock_file)
        raise
    database._lock_file = lock_file
    return database


def open_read_only(path: Path, key_file: Path) -> Database:
    """The database at `path` for reading, also while another process writes to it.

    Raises `NoDatabaseError`, `KeyFileError`, `UnavailableError`.
    """
    if not path.is_file():
        raise NoDatabaseError(path, "missing")
    with _translated(path):
        connection = _connect(f"{path.as_uri()}?mode=ro")
        try:
            connection.execute("PRAGMA query_only = ON")
            if _check_schema(connection, path) != set(STEPS):
                raise NoDatabaseError(path, "older")
            sealer = Sealer(read_key(key_file))
            _check_key(connection, sealer, key_file)
        except BaseException:
            connection.close()
            raise
    return Database(path, connection, sealer)


def _connect(uri: str) -> sqlite3.Connection:
    connection = sqlite3.connect(
        uri,
        uri=True,
        isolation_level=None,
        check_same_thread=False,
        timeout=BUSY_MILLISECONDS / 1000,
    )
    connection.row_factory = sqlite3.Row
    return connection


def _set_pragmas(connection: sqlite3.Connection) -> None:
    for name, asked in PRAGMAS.items():
        connection.execute(f"PRAGMA {name} = {asked}")
    for name, asked in PRAGMAS.items():
        seen = connection.execute(f"PRAGMA {name}").fetchone()[0]
        if seen != asked:
            raise PragmaError(name, asked, seen)


def _check_schema(connection: sqlite3.Connection, path: Path) -> set[str]:
    """The names of the steps this database went through; none for an empty one."""
    tables = Tables(connection)
    applied = {step.name for step in migrations().applied(tables)}
    if not applied and tables.table_names():
        raise NoDatabaseError(path, "not-ours")
    if not applied <= set(STEPS):
        raise NoDatabaseError(path, "newer")
    return applied


def _key_hash(connection: sqlite3.Connection) -> str | None:
    row = connection.execute("SELECT key_hash FROM seal").fetchone()
    return None if row is None else str(row["key_hash"])


def _matching_sealer(connection: sqlite3.Connection, key_file: Path) -> Sealer:
    if _key_hash(connection) is not None:
        sealer = Sealer(read_key(key_file))
        _check_key(connection, sealer, key_file)
        return sealer
    sealer = Sealer(read_key(key_file) if key_file.exists() else make_key(key_file))
    connection.execute("INSERT INTO seal (only, key_hash) VALUES (1, ?)", [sealer.digest("seal")])
    return sealer


def _check_key(connection: sqlite3.Connection, sealer: Sealer, key_file: Path) -> None:
    if _key_hash(connection) != sealer.digest("seal"):
        raise KeyFileError(key_file, "another")


def in_use(path: Path) -> bool:
    """Whether some process has the database at `path` open for writing just now."""
    lock_path = path.with_name(f"{path.name}.lock")
    if not lock_path.is_file():
        return False
    handle = os.open(lock_path, os.O_RDONLY | os.O_CLOEXEC)
    try:
        fcntl.flock(handle, fcntl.LOCK_SH | fcntl.LOCK_NB)
    except BlockingIOError:
        return True
    else:
        return False
    finally:
        os.close(handle)


def _take_lock(path: Path) -> int:
    """The open lock file beside the database; the system gives it free when we end, however."""
    lock_path = path.with_name(f"{path.name}.lock")
    handle = os.open(lock_path, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o600)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        pid = None
        with suppress(ValueError):
            pid = int(os.pread(handle, 20, 0))
        os.close(handle)
        raise InUseError(path, pid) from None
    os.ftruncate(handle, 0)
    os.pwrite(handle, str(os.getpid()).encode(), 0)
    return handle
