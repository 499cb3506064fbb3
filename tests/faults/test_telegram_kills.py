"""The channel is killed again and again in the middle of conversations: nothing is lost."""

from __future__ import annotations

import itertools
import os
import re
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from bot_api import BotApi, Person, Running, Sent

from bot.settings import load_settings
from bot.storage import orders
from bot.wiring import open_workshop

KILLS = int(os.environ.get("CAGEWRIGHT_TELEGRAM_KILLS", "200"))
PATIENCE = 60.0
SCRIPT = (
    "/start", "[English]", "[Only the queen]", "[I don't know]", "360", "260", "391", "10 mm",
    "35", "27", "375", "393", "253", "17 mm", "[Another box]", "10", "anna@example.org",
    "[Hand in]",
)  # fmt: skip
HERE = Path(__file__).parent
_NUMBER = re.compile(r"\d{3}\u00a0\d{3}\u00a0\d{2}")


def plain(sent: Sent) -> str:
    """The text without the order number, which differs."""
    return _NUMBER.sub("NUMBER", sent.text)


def without_repeats(texts: list[str]) -> list[str]:
    """Each run of the same text once."""
    return [text for text, _ in itertools.groupby(texts)]


class Beekeeper:
    """Plays the script: each thing after a message came that was not there before."""

    def __init__(self, api: BotApi, user: int, kills: int = 0) -> None:
        self.api = api
        self.born = kills
        """So many kills there had been before the first message."""
        self.who = Person(user)
        self.done = 0
        self._answered = 0

    def finished(self) -> bool:
        """Whether the last reply is here."""
        return self.done == len(SCRIPT) and self._new()

    def _new(self) -> bool:
        texts = without_repeats([plain(one) for one in self.api.to(self.who)])
        return len(texts) >= self.done

    def step(self) -> None:
        """Do the next thing if it is time for it."""
        if self.done == len(SCRIPT) or not self._new():
            return
        act = SCRIPT[self.done]
        if act.startswith("["):
            label = act.strip("[]")
            offering = [
                one for one in self.api.to(self.who) if label in {text for text, _ in one.buttons}
            ]
            self.api.taps(self.who, offering[-1], label)
        else:
            self.api.says(self.who, act)
        self.done += 1


@pytest.fixture
def other_side() -> Iterator[Running]:
    """The Bot API, listening."""
    running = Running(BotApi())
    yield running
    running.stop()


def breed(other: Running, folder: Path, kills: int) -> tuple[subprocess.Popen[str], list[int]]:
    """The program that kills, and the count of kills as it grows."""
    script = str(HERE / "telegram_breeder.py")
    program = subprocess.Popen(
        [sys.executable, script, other.url, str(folder), str(kills), "5"],
        stdout=subprocess.PIPE, text=True, cwd=HERE.parents[1],
        env={**os.environ, "PYTHONPATH": str(HERE.parents[1])},
    )  # fmt: skip
    counts = [0]

    def read() -> None:
        assert program.stdout is not None
        for line in program.stdout:
            counts[0] = int(line)

    threading.Thread(target=read, daemon=True).start()
    return program, counts


def end(program: subprocess.Popen[str]) -> int:
    """Stop the last child as an operator would; the exit code."""
    program.terminate()
    code = program.wait(timeout=20)
    time.sleep(0.1)  # the reader sees the end of the stream
    assert program.stdout is not None
    program.stdout.close()
    return code


def play(api: BotApi, counts: list[int], kills: int, together: int = 3) -> list[Beekeeper]:
    """New beekeepers come as long as there are kills to come; all end their orders."""
    keepers: list[Beekeeper] = []
    quiet = time.monotonic()
    while counts[0] < kills or not all(keeper.finished() for keeper in keepers):
        busy = [keeper for keeper in keepers if not keeper.finished()]
        if counts[0] < kills and len(busy) < together:
            keepers.append(Beekeeper(api, 100 + len(keepers), counts[0]))
        before = sum(keeper.done for keeper in keepers)
        for keeper in busy:
            keeper.step()
        if sum(keeper.done for keeper in keepers) != before or counts[0] < kills:
            quiet = time.monotonic()
        assert time.monotonic() - quiet < PATIENCE, [keeper.done for keeper in keepers]
        time.sleep(0.005)
    return keepers


@pytest.mark.slow
def test_nothing_is_lost_and_nothing_ordered_twice(
    other_side: Running, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Every chat hears what it would have heard, in order; repeats stand next to each other, at
    most one a kill; every beekeeper has exactly one order."""
    api = other_side.api
    program, counts = breed(other_side, tmp_path / "killed", KILLS)
    keepers = play(api, counts, KILLS)
    time.sleep(1.2)
    assert end(program) == 0
    clean = [plain(one) for one in quiet_run(tmp_path / "clean")]
    repeats = 0
    for keeper in keepers:
        texts = [plain(one) for one in api.to(keeper.who)]
        assert without_repeats(texts) == clean
        again = len(texts) - len(clean)
        assert again <= KILLS - keeper.born, keeper.who.user
        repeats += again
    settings = load_settings(
        database=tmp_path / "killed" / "data" / "w.db", key_file=tmp_path / "killed" / "key"
    )
    with open_workshop(settings) as shop, shop.database.reading() as connection:
        found = orders.listed(connection)
    assert sorted(row["person"] for row in found) == sorted({row["person"] for row in found})
    assert len(found) == len(keepers)
    assert api.problems == []
    with capsys.disabled():
        print(f"\n{KILLS} kills, {len(keepers)} orders, {repeats} repeats, nothing lost")


def quiet_run(folder: Path) -> list[Sent]:
    """The same conversation with nobody killed."""
    other = Running(BotApi())
    program, _ = breed(other, folder, 0)
    keeper = Beekeeper(other.api, 100)
    latest = time.monotonic() + PATIENCE
    while not keeper.finished():
        keeper.step()
        assert time.monotonic() < latest
        time.sleep(0.005)
    end(program)
    other.stop()
    return other.api.to(keeper.who)
