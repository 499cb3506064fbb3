"""The workshop in a process of its own, to be killed at any moment.

Started once; each line on its standard input makes it fork one life, which opens the workshop,
connects to the socket and serves: it takes events and says `ack`, it sends what waits and marks
it as sent. `plant` names a mistake to make, so that the test can show that it finds mistakes.

    python worker.py FOLDER SOCKET [PLANT]
"""

from __future__ import annotations

import json
import os
import signal
import socket
import sys
from datetime import UTC, datetime
from itertools import count
from pathlib import Path
from typing import Any

from bot.settings import load_settings
from bot.wiring import Workshop, open_workshop
from bot.world import SeededChance, SetClock
from conversations.events import event_from_json

START = datetime(2026, 3, 2, 9, tzinfo=UTC)
PLANTS = ("ack-first", "no-memory", "mark-first")


class Life:
    """One life of the worker: from its start to its end by a kill, or by the socket's end."""

    def __init__(self, workshop: Workshop, stream: socket.socket, plant: str) -> None:
        self._workshop = workshop
        self._stream = stream
        self._plant = plant
        self._lines = stream.makefile("r", encoding="utf-8")
        self._fresh = count()

    def run(self) -> None:
        """Serve until the other side ends the connection."""
        self._tell({"pid": os.getpid()})
        self._workshop.service.resume()
        self._send()
        for line in self._lines:
            self._take(line)
            self._send()

    def _take(self, line: str) -> None:
        event = event_from_json(line)
        self._tell({"got": event.id})
        acknowledgement = {"ack": event.id}
        if self._plant == "ack-first":
            self._tell(acknowledgement)
        if self._plant == "no-memory":
            event = event.model_copy(update={"id": f"{os.getpid()}-{next(self._fresh)}"})
        self._workshop.service.receive(event, "wire")
        if self._plant != "ack-first":
            self._tell(acknowledgement)

    def _send(self) -> None:
        outbox = self._workshop.outbox
        while letters := outbox.waiting(channel="wire"):
            seqs = [letter.seq for letter in letters]
            if self._plant == "mark-first":
                outbox.mark_sent(seqs)
            for letter in letters:
                message = self._workshop.presenter.present(letter.say)
                self._tell(
                    {
                        "seq": letter.seq,
                        "to": letter.to,
                        "k": letter.k,
                        "question": message.question,
                        "number": message.number,
                        "text": message.text,
                    }
                )
            outbox.mark_sent(seqs)

    def _tell(self, value: dict[str, Any]) -> None:
        self._stream.sendall(json.dumps(value).encode() + b"\n")


def live(folder: Path, path: str, plant: str) -> None:
    """Connect, open the workshop and serve."""
    with socket.socket(socket.AF_UNIX) as stream:
        stream.connect(path)
        settings = load_settings(database=folder / "data" / "w.db", key_file=folder / "key" / "key")
        with open_workshop(settings, clock=SetClock(START), chance=SeededChance(0)) as workshop:
            Life(workshop, stream, plant).run()


def main() -> None:
    """Fork a life for each line of input."""
    folder, path, plant = Path(sys.argv[1]), sys.argv[2], (*sys.argv[3:], "")[0]
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    for _ in sys.stdin:
        if os.fork() == 0:
            try:
                live(folder, path, plant)
            except BrokenPipeError:
                os._exit(1)
            os._exit(0)


if __name__ == "__main__":
    main()
