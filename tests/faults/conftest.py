"""The other side of the wire: it keeps what was not acknowledged, counts what came, and kills."""

from __future__ import annotations

import json
import os
import random
import re
import select
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from conversations.events import Choose, Event, Text

WORKER = Path(__file__).with_name("worker.py")
START = datetime(2026, 3, 2, 9, tzinfo=UTC)
NUMBER = re.compile("[0-9]{3}\u00a0[0-9]{3}\u00a0[0-9]{2}")
PATIENCE = 10.0
"""[s] without a word from a worker that has something to do, and it is called stuck."""

SAID = {
    "language": "#en", "purpose": "#isolate", "frame_name": "#dont-know",
    "side_to_side": "360", "top_to_bottom": "260", "lug_to_lug": "391", "lug_thickness": "10",
    "widest_wood": "35", "comb_thickness": "27", "inside_along": "375", "lug_room": "393",
    "ledge_down": "253", "ledge_up": "17", "below": "#box", "frames_held": "10",
    "contact": "{person} Nowak, +48 601 234 567", "read_back": "#hand-in",
}  # fmt: skip
"""What every person answers; `#` stands before a tap."""


class AstrayError(Exception):
    """Somebody waits for a message that never comes, or is asked what was not to be asked."""


@dataclass
class Person:
    """Somebody who orders a cage and answers each question once."""

    name: str
    event: Event | None = None
    """Sent, and not answered yet."""
    got: dict[int, dict[str, Any]] = field(default_factory=dict)
    """The messages that came, by their row."""
    done: bool = False
    count: int = 0

    def hello(self) -> Event:
        """The first word."""
        return self._remember(Text(id=self._id(), person=self.name, at=START, text="hello"))

    def hear(self, message: dict[str, Any]) -> Event | None:
        """Take a message; what to say to it, where it is new and asks something."""
        if message["seq"] in self.got:
            return None
        self.got[message["seq"]] = message
        self.event = None
        if message["question"] is None:
            self.done = message["number"] is not None
            return None
        if message["question"] not in SAID:
            raise AstrayError
        words = SAID[message["question"]].format(person=self.name)
        if words.startswith("#"):
            return self._remember(
                Choose(id=self._id(), person=self.name, at=START, choice=words[1:], of=message["k"])
            )
        return self._remember(Text(id=self._id(), person=self.name, at=START, text=words))

    @property
    def told(self) -> list[tuple[str | None, str]]:
        """All that came, in order, without the number and the name, which differ."""
        return [
            (message["question"], NUMBER.sub("NUMBER", message["text"]).replace(self.name, "NAME"))
            for _, message in sorted(self.got.items())
        ]

    def _id(self) -> str:
        self.count += 1
        return f"{self.name}-{self.count}"

    def _remember(self, event: Event) -> Event:
        self.event = event
        return event


@dataclass
class Tally:
    """What was counted."""

    kills: int = 0
    between: int = 0
    """Kills after the worker got an event and before its answer was out."""
    repeats: int = 0
    apart: int = 0
    """Repeats that were not adjacent to the first time."""


class Wire:
    """Starts lives of the worker, feeds them, kills them."""

    astray = AstrayError

    def __init__(self, folder: Path, plant: str, patience: float) -> None:
        self.folder = folder
        self.tally = Tally()
        self.people: list[Person] = []
        self._random = random.Random(0)
        self._patience = patience
        self._unacknowledged: dict[str, Event] = {}
        self._newest: dict[str, int] = {}
        self._turn_seconds = 0.002
        self._path = str(folder / "wire")
        self._listener = socket.socket(socket.AF_UNIX)
        self._listener.bind(self._path)
        self._listener.listen()
        self._listener.settimeout(patience)
        self._zygote = subprocess.Popen(
            [sys.executable, str(WORKER), str(folder), self._path, plant],
            stdin=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": str(WORKER.parents[2])},
        )

    def close(self) -> None:
        """End the worker for good."""
        assert self._zygote.stdin is not None
        self._zygote.stdin.close()
        self._zygote.wait(PATIENCE)
        self._listener.close()

    def play(self, people: list[Person], kills: int) -> None:
        """Have these people order; kill until the tally says `kills`, then let them end."""
        self.people = people
        for person in people:
            self._queue(person.hello())
        while not all(person.done for person in people) or self._unacknowledged:
            self._life(may_kill=self.tally.kills < kills)

    # --- one life ---------------------------------------------------------------------

    def _life(self, *, may_kill: bool) -> None:
        assert self._zygote.stdin is not None
        self._zygote.stdin.write(b"\n")
        self._zygote.stdin.flush()
        stream, _ = self._listener.accept()
        with stream:
            life = _Connection(stream)
            pid = life.expect(self._patience)["pid"]
            for event in list(self._unacknowledged.values()):
                life.send(event)
            if not may_kill:
                self._until_done(life)
            else:
                self._until_killed(life, pid)

    def _until_done(self, life: _Connection) -> None:
        while not all(person.done for person in self.people) or self._unacknowledged:
            self._hear(life.expect(self._patience), life)
        for line in life.end():
            self._hear(line, None)

    def _until_killed(self, life: _Connection, pid: int) -> None:
        """Serve for a while, then kill: at any moment, or in the middle of a turn."""
        in_a_turn = self.tally.between * 2 < self.tally.kills + 6 or self._random.random() < 0.6
        turns = self._random.randrange(4)
        end = time.monotonic() + self._random.uniform(0, 0.03)
        got: str | None = None
        while not all(person.done for person in self.people) or self._unacknowledged:
            line = life.expect(self._patience) if in_a_turn else life.read(end - time.monotonic())
            if line is None:
                break
            self._hear(line, life)
            if "got" in line:
                turns -= 1
                if in_a_turn and turns < 0:
                    got = line["got"]
                    time.sleep(self._random.uniform(0, self._turn_seconds))
                    break
        self._kill(life, pid, got)

    def _kill(self, life: _Connection, pid: int, got: str | None) -> None:
        os.kill(pid, signal.SIGKILL)
        self.tally.kills += 1
        answered = False
        for line in life.rest():
            got = line.get("got", got)
            answered = answered or "seq" in line
            self._hear(line, None)
        if got is not None and not answered:
            self.tally.between += 1

    def _hear(self, line: dict[str, Any], life: _Connection | None) -> None:
        if "ack" in line:
            self._unacknowledged.pop(line["ack"], None)
        elif "seq" in line:
            person = next(one for one in self.people if one.name == line["to"])
            if line["seq"] in person.got:
                self.tally.repeats += 1
                self.tally.apart += self._newest[person.name] != line["seq"]
            self._newest[person.name] = line["seq"]
            answer = person.hear(line)
            if answer is not None:
                self._queue(answer)
                if life is not None:
                    life.send(answer)

    def _queue(self, event: Event) -> None:
        self._unacknowledged[event.id] = event


class _Connection:
    """Lines of JSON both ways."""

    def __init__(self, stream: socket.socket) -> None:
        self._stream = stream
        self._buffer = b""

    def send(self, event: Event) -> None:
        """Deliver an event; a worker that has died meanwhile gets it in its next life."""
        try:
            self._stream.sendall(event.model_dump_json().encode() + b"\n")
        except BrokenPipeError:
            return

    def read(self, seconds: float) -> dict[str, Any] | None:
        """The next line; None where none comes in that time."""
        until = time.monotonic() + seconds
        while b"\n" not in self._buffer:
            ready, _, _ = select.select([self._stream], [], [], max(0, until - time.monotonic()))
            chunk = self._stream.recv(65536) if ready else b""
            if not chunk:
                return None
            self._buffer += chunk
        line, _, self._buffer = self._buffer.partition(b"\n")
        value: dict[str, Any] = json.loads(line)
        return value

    def expect(self, seconds: float) -> dict[str, Any]:
        """The next line; `AstrayError` where none comes in that time."""
        line = self.read(seconds)
        if line is None:
            raise AstrayError
        return line

    def end(self) -> Iterator[dict[str, Any]]:
        """Say that nothing more comes, and hear out the other side."""
        self._stream.shutdown(socket.SHUT_WR)
        return self.rest()

    def rest(self) -> Iterator[dict[str, Any]]:
        """All whole lines that came before the other side was gone."""
        with suppress(ConnectionResetError):
            while chunk := self._stream.recv(65536):
                self._buffer += chunk
        *lines, _half = self._buffer.split(b"\n")
        yield from map(json.loads, lines)


@pytest.fixture
def new_wire(tmp_path: Path) -> Iterator[Callable[..., Wire]]:
    """Makes wires, each to a workshop of its own, and ends their workers afterwards."""
    made: list[Wire] = []

    def make(plant: str = "", patience: float = PATIENCE) -> Wire:
        folder = tmp_path / str(len(made))
        folder.mkdir()
        made.append(Wire(folder, plant, patience))
        return made[-1]

    yield make
    for wire in made:
        wire.close()


@pytest.fixture
def new_person() -> Callable[[str], Person]:
    """Makes people who order a cage."""
    return Person
