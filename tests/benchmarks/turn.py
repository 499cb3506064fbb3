"""How long a turn takes, beside one bare commit on the same disk in the same run.

    python tests/benchmarks/turn.py [--orders 60] [--folder DIR]

Turns and bare commits are done one after the other, so that both meet the same disk. Three kinds
of turn are told apart: taking one answer, the read-back (it sizes a cage), and handing in.
"""

from __future__ import annotations

import argparse
import sqlite3
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from statistics import median

from bot.settings import load_settings
from bot.wiring import open_workshop
from bot.world import SeededChance, SetClock
from conversations.events import Choose, Event, Text

START = datetime(2026, 3, 2, 9, tzinfo=UTC)
SAID = [
    "hello", "#en", "#isolate", "#dont-know", "360", "260", "391", "10", "35", "27", "375",
    "393", "253", "17", "#box", "10", "Ewa Nowak, +48 601 234 567", "#hand-in",
]  # fmt: skip
KINDS = {len(SAID) - 2: "read-back", len(SAID) - 1: "handing in"}


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


def measure(folder: Path, orders: int) -> None:
    """Take `orders` orders and print what their turns took."""
    settings = load_settings(database=folder / "data" / "w.db", key_file=folder / "key" / "key")
    commit = bare_commit(folder / "bare.db")
    bare: list[float] = []
    wall, thinking = defaultdict(list), defaultdict(list)
    with open_workshop(settings, clock=SetClock(START), chance=SeededChance(0)) as workshop:
        for event in conversation("warm-up"):
            workshop.service.receive(event, "web")
        for order in range(orders):
            for count, event in enumerate(conversation(f"p{order}")):
                kind = KINDS.get(count, "answer")
                bare.append(seconds(commit))
                before = time.process_time()
                wall[kind].append(seconds(partial(workshop.service.receive, event, "web")))
                thinking[kind].append(time.process_time() - before)
    one = median(bare)
    print(f"{'bare commit':12} {one * 1e6:6.0f} µs (median of {len(bare)})")
    for kind, times in wall.items():
        whole, busy = median(times), median(thinking[kind])
        print(
            f"{kind:12} {whole * 1e6:6.0f} µs = {whole / one:4.1f} × a bare commit;"
            f" of it the processor's {busy * 1e6:.0f} µs"
        )
    tenth = max(1, len(wall["answer"]) // 10)
    growth = median(thinking["answer"][-tenth:]) / median(thinking["answer"][:tenth])
    print(f"thinking of the last tenth / the first tenth of the answers: {growth:.2f}")


def main() -> None:
    """Read the options, and measure in a folder of its own."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--orders", type=int, default=60)
    parser.add_argument("--folder", type=Path, help="on the disk to be measured")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory(dir=options.folder) as folder:
        measure(Path(folder), options.orders)


if __name__ == "__main__":
    main()
