"""What people typed to be reached is in no file, whatever happens."""

from __future__ import annotations

import sqlite3
import stat
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bot.storage.database import open_read_only

if TYPE_CHECKING:
    from tests.faults.conftest import Person, Wire

pytestmark = pytest.mark.slow

WORDS = (b"Nowak", b"601 234 567", b"601234567")


@pytest.fixture
def folder(new_wire: Callable[..., Wire], new_person: Callable[[str], Person]) -> Iterator[Path]:
    """A workshop's folder after two orders with kills in them, the second still in the log."""
    wire = new_wire()
    wire.play([new_person("Ewa")], kills=4)
    # A reader that stays keeps the log alive when the last writer ends.
    reader = open_read_only(wire.folder / "data" / "w.db", wire.folder / "key" / "key")
    wire.play([new_person("Ola")], kills=8)
    yield wire.folder
    reader.close()


def test_the_words_are_in_no_byte_of_the_files(folder: Path) -> None:
    """Neither in the database, nor in its log, nor in a copy of it; what is kept in the clear is
    found in each of them, so the words would be too."""
    data = folder / "data"
    with sqlite3.connect(data / "w.db") as source, sqlite3.connect(data / "copy.db") as copy:
        source.backup(copy)
    source.close()
    copy.close()
    files = {file.name: file.read_bytes() for file in data.iterdir()}
    assert all(b"side_to_side" in files[name] for name in ("w.db", "w.db-wal", "copy.db"))
    assert [
        (name, word) for name, content in files.items() for word in WORDS if word in content
    ] == []


def test_the_words_come_back_with_the_key(folder: Path) -> None:
    """They are sealed and not thrown away."""
    opened = open_read_only(folder / "data" / "w.db", folder / "key" / "key")
    with opened.reading() as connection:
        sealed = connection.execute(
            "SELECT contact_sealed FROM people WHERE person = 'Ewa'"
        ).fetchone()[0]
    assert opened.sealer.open(sealed, "people.contact_sealed") == "Ewa Nowak, +48 601 234 567"
    opened.close()


def test_the_key_lies_elsewhere_and_is_its_owner_s(folder: Path) -> None:
    """In another folder than the database, with mode 0600."""
    key = folder / "key" / "key"
    assert stat.S_IMODE(key.stat().st_mode) == 0o600
    content = key.read_bytes()
    for file in (folder / "data").iterdir():
        assert content not in file.read_bytes()
    assert list(key.parent.iterdir()) == [key]
