"""Two processes on the same database: the second one does not start."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.storage.database import open_database
from bot.storage.errors import InUseError

HOLD = """
import sys
from pathlib import Path
from bot.storage.database import open_database
open_database(Path(sys.argv[1]), Path(sys.argv[2]))
print("open", flush=True)
sys.stdin.read()
"""


@pytest.fixture
def places(tmp_path: Path) -> tuple[Path, Path]:
    """A database and its key."""
    return tmp_path / "data" / "w.db", tmp_path / "key" / "key"


@pytest.fixture
def holder(places: tuple[Path, Path]) -> Iterator[subprocess.Popen[str]]:
    """Another process that has the database open."""
    with subprocess.Popen(
        [sys.executable, "-c", HOLD, *map(str, places)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])},
    ) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "open\n"
        yield process
        process.kill()


def test_the_second_one_is_refused_and_told_by_whom(
    holder: subprocess.Popen[str], places: tuple[Path, Path]
) -> None:
    """The error names the process that has it."""
    with pytest.raises(InUseError) as caught:
        open_database(*places)
    assert caught.value.pid == holder.pid


def test_a_killed_one_leaves_nothing_in_the_way(
    holder: subprocess.Popen[str], places: tuple[Path, Path]
) -> None:
    """The lock goes with the process, however it ends."""
    holder.send_signal(signal.SIGKILL)
    holder.wait()
    opened = open_database(*places)
    assert opened.path == places[0]
    opened.close()
