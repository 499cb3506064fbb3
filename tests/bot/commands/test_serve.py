"""`serve`: what it prints, how it stops, when it refuses."""

from __future__ import annotations

import asyncio
import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest

from bot.commands import serve
from bot.settings import Settings

ROOT = Path(__file__).parents[3]
LINES = re.compile(r"Chat  (http://[\w.:\[\]]+)/chat\nDesk  (http://\S+/desk/in/[\w-]+)\n")


class Starter:
    """Starts the program on one database, as often as a test likes."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.started: list[subprocess.Popen[str]] = []

    def start(self, *arguments: str, **settings: str) -> subprocess.Popen[str]:
        """The running program."""
        known = {"CAGEWRIGHT_DATABASE": str(self.folder / "data" / "shop.db")}
        known |= {"CAGEWRIGHT_KEY_FILE": str(self.folder / "secret" / "key")}
        process = subprocess.Popen(
            [sys.executable, "-m", "bot", "serve", *arguments],
            cwd=ROOT,
            env={**os.environ, "HOME": str(self.folder), **known, **settings},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        self.started.append(process)
        return process

    def serving(self, *arguments: str, **settings: str) -> tuple[Any, str, str]:
        """The program, the address of its pages and the desk's link."""
        process = self.start(*arguments, **settings)
        assert process.stdout is not None
        told = process.stdout.readline() + process.stdout.readline()
        found = LINES.fullmatch(told)
        assert found, told + (process.stderr.read() if process.stderr and not told else "")
        return process, found[1], found[2]


def ended(process: Any, within: float = 10) -> tuple[int, str, str]:
    """Exit code and what was printed, once the program ends by itself."""
    out, err = process.communicate(timeout=within)
    return process.returncode, out, err


@pytest.fixture
def starter(tmp_path: Path) -> Iterator[Starter]:
    """Nothing started yet; whatever a test leaves running is ended after it."""
    made = Starter(tmp_path)
    yield made
    for process in made.started:
        if process.poll() is None:
            process.kill()
        process.communicate()


def free_port() -> int:
    """A port that nobody listens on just now."""
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return int(asked.getsockname()[1])


def test_both_addresses_are_printed_and_nothing_else(starter: Starter) -> None:
    """The chat and the desk's link, and with the demo nothing on stderr either."""
    process, address, link = starter.serving("--demo", "--port", str(free_port()))
    assert httpx.get(f"{address}/chat").status_code == 200
    assert "Sign in" in httpx.get(link).text
    process.send_signal(signal.SIGTERM)
    assert ended(process) == (0, "", "")


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT])
def test_a_stop_is_no_failure_even_with_pages_open(starter: Starter, number: int) -> None:
    """An open stream ends at once; the program exits with 0, well within ten seconds."""
    process, address, _ = starter.serving("--port", "0")
    with httpx.Client(base_url=address, timeout=20) as client:
        client.get("/chat")
        with client.stream("GET", "/chat/live?after=") as stream:
            lines = stream.iter_lines()
            assert next(lines) == "retry: 1500"
        begin(client)
        last = re.findall(r'id="([io]\d+)"', client.get("/chat").text)[-1]
        with client.stream("GET", f"/chat/live?after={last}") as stream:
            lines = stream.iter_lines()
            assert next(lines) == "retry: 1500"
            started = time.monotonic()
            process.send_signal(number)
            assert list(lines) == [""]
    code, _, log = ended(process)
    assert code == 0
    assert time.monotonic() - started < 5
    assert json.loads(log.splitlines()[-1])["event"] == "stopped"


def begin(client: httpx.Client) -> None:
    """Begin a chat."""
    html = client.get("/chat").text
    fields = dict(re.findall(r'name="(form|id)" value="([^"]+)"', html))
    client.post("/chat/send", data={**fields, "text": "/start"})


def test_a_chat_goes_on_after_a_restart(starter: Starter) -> None:
    """The same browser finds its conversation again, and the desk's pass still holds."""
    process, address, link = starter.serving("--port", "0")
    with httpx.Client(base_url=address) as before, httpx.Client() as staff:
        before.get("/chat")
        begin(before)
        fields = dict(re.findall(r'name="(form|id)" value="([^"]+)"', staff.get(link).text))
        assert staff.post(link, data=fields, follow_redirects=True).status_code == 200
        cookies, passes = dict(before.cookies), dict(staff.cookies)
    process.send_signal(signal.SIGTERM)
    assert ended(process)[0] == 0
    process, address, new_link = starter.serving("--port", "0")
    assert "Which language" in httpx.get(f"{address}/chat", cookies=cookies).text
    assert httpx.get(f"{address}/desk", cookies=passes).status_code == 200
    assert new_link.rpartition("/")[2] != link.rpartition("/")[2]


def test_the_desk_s_link_is_in_no_log(starter: Starter) -> None:
    """It is printed once; neither its making nor its use leaves a trace."""
    process, _, link = starter.serving("--port", "0", CAGEWRIGHT_LOG_LEVEL="debug")
    httpx.get(link)
    process.send_signal(signal.SIGTERM)
    code, out, log = ended(process)
    assert code == 0
    assert link.rpartition("/")[2] not in out + log


def test_messages_for_pages_do_not_wait(starter: Starter) -> None:
    """What the page reads from the table counts as sent, for the chat and for the desk."""
    _, address, _ = starter.serving("--port", "0")
    with httpx.Client(base_url=address) as client:
        client.get("/chat")
        begin(client)
    until = time.monotonic() + 5
    while time.monotonic() < until:
        health = httpx.get(f"{address}/health").json()
        if health["outbox_oldest_waiting"] is None:
            break
        time.sleep(0.02)
    assert health["outbox_oldest_waiting"] is None


def test_a_second_one_on_the_same_database_refuses(starter: Starter) -> None:
    """Exit 1 and one line that names the process; the first one goes on."""
    first, address, _ = starter.serving("--port", "0")
    code, out, err = ended(starter.start("--port", "0"))
    assert (code, out) == (1, "")
    assert err.count("\n") == 1
    assert str(first.pid) in err
    assert httpx.get(f"{address}/health").status_code == 200


def test_a_port_that_was_asked_for_is_taken_or_nothing(starter: Starter) -> None:
    """Exit 2 and one line that names the option; another port is no answer."""
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = str(taken.getsockname()[1])
        for arguments, settings in ((["--port", port], {}), ([], {"CAGEWRIGHT_PORT": port})):
            code, out, err = ended(starter.start(*arguments, **settings))
            assert (code, out) == (2, "")
            assert [word in err for word in ("port", port)] == [True, True]


def test_nothing_asked_for_means_any_port_that_is_free(tmp_path: Path) -> None:
    """Where the usual port is taken the pages are served on another one."""
    settings = Settings(database=tmp_path / "data" / "shop.db", key_file=tmp_path / "key")
    with serve._listen(settings) as first, serve._listen(settings) as second:
        ports = {first.getsockname()[1], second.getsockname()[1]}
    assert len(ports) == 2


@pytest.mark.parametrize(
    ("arguments", "settings", "word"),
    [
        (["--port", "99999"], {}, "port"),
        ([], {"CAGEWRIGHT_PORT": "many"}, "port"),
        ([], {"CAGEWRIGHT_SETTINGS": "nowhere"}, "settings"),
        (["--host", "256.1.1.1"], {}, "host"),
        (["--host", "192.0.2.1"], {}, "host"),
    ],
    ids=["port too high", "port no number", "no settings file", "no address", "not our address"],
)
def test_what_cannot_be_used_is_named(
    starter: Starter, arguments: list[str], settings: dict[str, str], word: str
) -> None:
    """Exit 2, one line on stderr, nothing on stdout."""
    code, out, err = ended(starter.start(*arguments, **settings))
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert word in err


def test_without_the_web_nothing_listens(starter: Starter) -> None:
    """No address is printed; a stop ends it all the same."""
    process = starter.start("--no-web")
    assert process.stderr is not None
    assert json.loads(process.stderr.readline())["event"] == "serving"
    time.sleep(0.3)
    process.send_signal(signal.SIGTERM)
    code, out, _ = ended(process)
    assert (code, out) == (0, "")


async def test_a_channel_that_dies_begins_anew_and_ends_nothing_else() -> None:
    """The task that keeps it never raises; it ends when the program is to stop."""
    stop = asyncio.Event()
    begun: list[int] = []

    async def dying() -> None:
        begun.append(1)
        if len(begun) == 2:
            stop.set()
        raise OverflowError

    await asyncio.wait_for(serve._hold(dying, stop), 5)
    assert len(begun) == 2


def test_photos_that_nobody_refers_to_are_removed(starter: Starter) -> None:
    """What a broken-off message left behind goes, once it is an hour old."""
    folder = starter.folder / "data" / "photos" / "00"
    folder.mkdir(parents=True)
    old, young = folder / f"{'0' * 64}.jpg", folder / f"{'0' * 63}1.jpg"
    for file in (old, young):
        file.write_bytes(b"x")
    os.utime(old, (time.time() - 4000,) * 2)
    starter.serving("--port", "0")
    until = time.monotonic() + 5
    while old.exists() and time.monotonic() < until:
        time.sleep(0.02)
    assert (old.exists(), young.exists()) == (False, True)
