"""The disk is full: what was taken stays, what was not is delivered again."""

from __future__ import annotations

import resource
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import pytest

from bot.settings import load_settings
from bot.storage.errors import UnavailableError
from bot.wiring import Workshop, open_workshop
from bot.world import SeededChance, SetClock
from conversations.events import Choose, Event, Text

START = datetime(2026, 3, 2, 9, tzinfo=UTC)
PAGES = [0, 1, 4096, 3 * 4096, 20 * 4096]


@contextmanager
def files_at_most(size: int) -> Iterator[None]:
    """No file of this process grows beyond `size` bytes meanwhile."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


def events(count: int) -> list[Event]:
    """A conversation: hello, English, and then questions asked again and again."""
    chosen = Choose(id="1", person="anna", at=START, choice="en")
    hello = Text(id="0", person="anna", at=START, text="hello")
    rest = [Text(id=str(n), person="anna", at=START, text="/repeat") for n in range(2, count)]
    return [hello, chosen, *rest]


def open_in(folder: Path) -> Workshop:
    settings = load_settings(database=folder / "data" / "w.db", key_file=folder / "key" / "key")
    return open_workshop(settings, clock=SetClock(START), chance=SeededChance(0))


@pytest.mark.parametrize("room", PAGES)
def test_a_full_disk_loses_nothing(tmp_path: Path, room: int) -> None:
    """Each event is refused until there is room, then taken once; reading goes on meanwhile."""
    said = events(12)
    with open_in(tmp_path / "quiet") as workshop:
        undisturbed = [workshop.service.receive(event, "web") for event in said]
        expected = [letter.say for letter in workshop.outbox.since("anna")]
    with open_in(tmp_path / "full") as workshop:
        workshop.service.receive(said[0], "web")
        log = workshop.database.path.with_name("w.db-wal")
        refused = 0
        taken = [True]
        for event in said[1:]:
            with files_at_most(log.stat().st_size + room):
                try:
                    taken.append(workshop.service.receive(event, "web"))
                except UnavailableError:
                    refused += 1
                    assert len(workshop.outbox.since("anna")) == len(taken)
                    taken.append(False)
            if not taken[-1]:
                taken[-1] = workshop.service.receive(event, "web")
        assert taken == undisturbed
        assert (refused > 0) == (room < PAGES[-1])
        assert [letter.say for letter in workshop.outbox.since("anna")] == expected
        with workshop.database.reading() as connection:
            rows = connection.execute("SELECT DISTINCT state, tries FROM inbox").fetchall()
            assert [tuple(row) for row in rows] == [("done", 0)]
            assert connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
