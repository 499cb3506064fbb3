"""Runs the Telegram channel in children that are killed, one after the other.

Started by `test_telegram_kills.py` as a program of its own: it imports everything once, then each
child is a fork of it, so that a kill costs no new start. Arguments: the address of the other
side, the folder, how many kills, a seed. It prints the count of kills as it goes; the last child
runs until it is told to stop.
"""

from __future__ import annotations

import asyncio
import os
import random
import signal
import sys
import time
from pathlib import Path

from bot.channels.pace import Pace
from bot.channels.telegram.channel import TelegramChannel
from bot.channels.telegram.limiter import Limiter
from bot.photos import PhotoShelf
from bot.settings import load_settings
from bot.wiring import open_workshop

TOKEN = "1234:stand-in"
SHORTEST, LONGEST = 0.03, 0.3


async def _run(url: str, folder: Path) -> None:
    settings = load_settings(database=folder / "data" / "w.db", key_file=folder / "key")
    with open_workshop(settings) as shop:
        stop = asyncio.Event()
        asyncio.get_running_loop().add_signal_handler(signal.SIGTERM, stop.set)
        shop.service.resume()
        await TelegramChannel(
            TOKEN, url, database=shop.database, service=shop.service, outbox=shop.outbox,
            bell=shop.bell, presenter=shop.presenter, renderer=shop.renderer,
            shelf=PhotoShelf(settings.photo_folder), clock=shop.clock, long_poll=1,
            limiter=Limiter(time.monotonic, per_chat=0.0), pace=Pace(most=1000),
        ).run(stop)  # fmt: skip


def _child(url: str, folder: Path) -> int:
    child = os.fork()
    if child == 0:
        try:
            asyncio.run(_run(url, folder))
        finally:
            os._exit(0)
    return child


def main() -> None:
    """Kill so many children, then let one live."""
    url, folder, kills, seed = sys.argv[1], Path(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4])
    chance = random.Random(seed)
    for count in range(1, kills + 1):
        child = _child(url, folder)
        time.sleep(chance.uniform(SHORTEST, LONGEST))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        print(count, flush=True)
    last = _child(url, folder)
    signal.signal(signal.SIGTERM, lambda *_: os.kill(last, signal.SIGTERM))
    os.waitpid(last, 0)


if __name__ == "__main__":
    main()
