"""A server of its own for each test, and a browser that opens its pages."""

from __future__ import annotations

import io
import os
import shutil
import signal
import socket
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, sync_playwright

ROOT = Path(__file__).parents[2]
PHONE = {"width": 390, "height": 844}
ARGUMENTS = [
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip
ANSWERS = ("261 mm", "391", "10", "35", "27", "376", "393", "253", "17")


class Server:
    """The program on one database and one port; it can be stopped and started again."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        with socket.socket() as asked:
            asked.bind(("127.0.0.1", 0))
            self.port = asked.getsockname()[1]
        self.address = f"http://127.0.0.1:{self.port}"
        self.link = ""
        self.process: subprocess.Popen[str] | None = None

    def start(self) -> None:
        """Start it, and wait until it says where it is."""
        known = {"CAGEWRIGHT_DATABASE": str(self.folder / "data" / "shop.db")}
        known |= {"CAGEWRIGHT_KEY_FILE": str(self.folder / "secret" / "key")}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "bot", "serve", "--port", str(self.port)],
            cwd=ROOT,
            env={**os.environ, "HOME": str(self.folder), **known},
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        assert self.process.stdout is not None
        assert self.process.stdout.readline().startswith("Chat  ")
        self.link = self.process.stdout.readline().split()[1]

    def stop(self) -> int:
        """Ask it to stop, and wait ten seconds at most; its exit code."""
        assert self.process is not None
        self.process.send_signal(signal.SIGTERM)
        try:
            self.process.communicate(timeout=10)
        finally:
            self.process.kill()
            self.process.wait()
        return self.process.returncode


class Chat:
    """A page of the chat, and what a person does on it."""

    def __init__(self, page: Page, address: str) -> None:
        self.page = page
        self.address = address
        self.complaints: list[str] = []
        page.on("console", self._heard)
        page.on("pageerror", lambda error: self.complaints.append(str(error)))

    def _heard(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            self.complaints.append(message.text)

    def open(self) -> None:
        """Go to the chat."""
        self.page.goto(f"{self.address}/chat")

    def newest(self) -> str:
        """What the newest message to the person says."""
        return self.page.locator(".ours").last.inner_text()

    def _after(self, act: Callable[[], object]) -> str:
        """Do something, and wait for the message that answers it."""
        count = self.page.locator(".ours").count()
        act()
        self.page.locator(".ours").nth(count).wait_for()
        return self.newest()

    def begin(self, language: str) -> str:
        """Begin a chat in this language."""
        self.open()
        self._after(self.page.locator("button[value='/start']").click)
        return self.tap(language)

    def say(self, text: str) -> str:
        """Type a message and send it; the reply."""
        self.page.locator("#text").fill(text)
        return self._after(lambda: self.page.locator("#text").press("Enter"))

    def tap(self, choice: str) -> str:
        """Tap a button under the newest message; the reply."""
        button = self.page.locator(f".choices button[value='{choice}']:visible")
        return self._after(button.click)

    def photo(self, raw: bytes) -> str:
        """Send a photo; the reply."""
        file: Any = {"name": "frame.jpg", "mimeType": "image/jpeg", "buffer": raw}
        return self._after(lambda: self.page.locator("#photo").set_input_files(file))

    def answer_the_rest(self) -> str:
        """Answer everything after side to side, and hand in; the reply with the number."""
        for answer in ANSWERS:
            self.say(answer)
        self.tap("box")
        self.say("10")
        self.say("Iwo, iwo@example.org")
        return self.tap("hand-in")

    def width(self) -> int:
        """How wide the page is [pixels]."""
        return int(self.page.evaluate("document.documentElement.scrollWidth"))


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    """The browser, for the tests of one file: while it runs no other event loop can."""
    with sync_playwright() as playwright:
        path = shutil.which("chromium")
        browser = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield browser
        browser.close()


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """The program, serving a fresh workshop."""
    made = Server(tmp_path)
    made.start()
    yield made
    assert made.process is not None
    if made.process.poll() is None:
        assert made.stop() == 0


@pytest.fixture
def idle_server(tmp_path: Path) -> Iterator[Server]:
    """The program on a fresh folder, not started yet."""
    made = Server(tmp_path)
    yield made
    if made.process is not None and made.process.poll() is None:
        assert made.stop() == 0


@pytest.fixture
def new_context(chromium: Browser) -> Iterator[Callable[..., BrowserContext]]:
    """Makes browsers that have never been anywhere."""
    made: list[BrowserContext] = []

    def make(**options: Any) -> BrowserContext:
        options = {"locale": "en-GB", "viewport": PHONE, **options}
        made.append(chromium.new_context(**options))
        return made[-1]

    yield make
    for context in made:
        context.close()


@pytest.fixture
def new_chat(server: Server, new_context: Callable[..., BrowserContext]) -> Callable[..., Chat]:
    """Opens the chat in a browser that has never been there."""

    def make(**options: Any) -> Chat:
        return Chat(new_context(**options).new_page(), server.address)

    return make


@pytest.fixture
def a_photo() -> bytes:
    """A photo as a phone makes it."""
    made = io.BytesIO()
    Image.linear_gradient("L").resize((1600, 1200)).convert("RGB").save(made, "JPEG")
    return made.getvalue()
