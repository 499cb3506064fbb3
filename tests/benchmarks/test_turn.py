"""One whole turn against one bare commit on the same disk, in the same run.

On a busy machine whoever waits for the disk gets the processor back at the scheduler's next
tick, milliseconds later, and a median then measures the tick. So both are done in turns, and
of each kind of turn the least of many times counts; what the processor did is measured apart.
"""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from statistics import median

import pytest

from bot.settings import load_settings
from bot.wiring import open_workshop
from bot.world import SeededChance, SetClock
from conversations.events import Choose, Event, Text

START = datetime(2026, 3, 2, 9, tzinfo=UTC)
ORDERS = 30
LIMIT = 40.0
"""Times a bare commit: what a turn thinks weighs most where the disk is fast."""

SAID = [
    "hello", "#en", "#isolate", "#dont-know", "360", "260", "391", "10", "35", "27", "375",
    "393", "253", "17", "#box", "10", "Ewa Nowak, +48 601 234 567", "#hand-in",
]  # fmt: skip


def conversation(person: str) -> list[Event]:
    """What a person sends for one order."""
    made: list[Event] = []
    for count, words in enumerate(SAID):
        name = f"{person}-{count}"
        if words.startswith("#"):
            made.append(Choose(id=name, person=person, at=START, choice=words[1:]))
        else:
            made.append(Text(id=name, person=person, at=START, text=words))
    return made


def seconds(work: Callable[[], object]) -> float:
    """How long one piece of work takes."""
    before = time.perf_counter()
    work()
    return time.perf_counter() - before


def bare_commit(file: Path) -> Callable[[], object]:
    """Writes one row, as durably as a turn is written, and nothing else."""
    connection = sqlite3.connect(file, isolation_level=None)
    connection.execute("PRAGMA journal_mode = wal")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("CREATE TABLE rows (id INTEGER PRIMARY KEY, text TEXT) STRICT")
    return lambda: connection.execute("INSERT INTO rows (text) VALUES ('a row')")


def undisturbed(orders: list[list[float]]) -> list[float]:
    """The least time of each kind of turn over all orders."""
    return [min(times) for times in zip(*orders, strict=True)]


@pytest.mark.slow
def test_a_turn_costs_one_commit_and_some_thinking(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A turn, with reading, deciding, sizing and writing, commits once, stays within a multiple
    of a bare commit, and takes no longer when there are more people and orders."""
    settings = load_settings(database=tmp_path / "data" / "w.db", key_file=tmp_path / "key" / "key")
    commit = bare_commit(tmp_path / "bare.db")
    bare, wall, thinking = ([[0.0] * len(SAID) for _ in range(ORDERS)] for _ in range(3))
    statements: list[str] = []
    with open_workshop(settings, clock=SetClock(START), chance=SeededChance(0)) as workshop:
        for event in conversation("warm-up"):
            workshop.service.receive(event, "web")
        with workshop.database.reading() as connection:
            connection.set_trace_callback(statements.append)
        for order in range(ORDERS):
            for count, event in enumerate(conversation(f"p{order}")):
                bare[order][count] = seconds(commit)
                before = time.process_time()
                wall[order][count] = seconds(partial(workshop.service.receive, event, "web"))
                thinking[order][count] = time.process_time() - before
        with workshop.database.reading() as connection:
            connection.set_trace_callback(None)
            assert connection.execute("SELECT count(*) FROM orders").fetchone()[0] == ORDERS + 1
    assert statements.count("COMMIT") == ORDERS * len(SAID)
    one, turns = median(undisturbed(bare)), undisturbed(wall)
    early, late = (sum(undisturbed(some)) for some in (thinking[:10], thinking[-10:]))
    with capsys.disabled():
        print(
            f"\nundisturbed: bare commit {one * 1e6:.0f} µs, turn {median(turns) * 1e6:.0f} µs = "
            f"{median(turns) / one:.1f} ×, of it thinking "
            f"{median(undisturbed(thinking)) * 1e6:.0f} µs; handing in {turns[-1] * 1e6:.0f} µs; "
            f"thinking of the last ten orders / the first ten {late / early:.2f}"
        )
    assert median(turns) / one < LIMIT
    assert late / early < 2
