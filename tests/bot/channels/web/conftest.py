"""The pages, served for real on this machine, and a visitor without JavaScript."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from html.parser import HTMLParser
from pathlib import Path

import httpx
import pytest
import uvicorn

from bot.channels.web.app import build
from bot.channels.web.parts import Parts
from bot.desk import staff
from bot.photos import PhotoShelf
from bot.settings import Settings
from bot.wiring import Workshop, open_workshop
from bot.world import SeededChance, SetClock

START = datetime(2026, 3, 2, 9, tzinfo=UTC)
ORDER = (
    "361 mm", "261 mm", "391", "10", "35", "27", "376", "393", "253", "17",
)  # fmt: skip


class OwnStop(uvicorn.Server):
    """A server that leaves the signals of the test run alone."""

    def handle_exit(self, sig: int, frame: object) -> None:  # noqa: ARG002 - its signature
        raise AssertionError(sig)


@dataclass
class Site:
    """The served pages with the workshop behind them."""

    workshop: Workshop
    parts: Parts
    address: str
    loop: asyncio.AbstractEventLoop


def serve(workshop: Workshop) -> Iterator[Site]:
    """Serve the workshop's pages from a thread until the test is done with them."""
    ready = threading.Event()
    made: list[Site] = []

    async def main() -> None:
        stop = asyncio.Event()
        parts = Parts(
            database=workshop.database,
            service=workshop.service,
            outbox=workshop.outbox,
            bell=workshop.bell,
            presenter=workshop.presenter,
            renderer=workshop.renderer,
            papers=workshop.renderer.papers,
            shelf=PhotoShelf(workshop.settings.photo_folder),
            clock=workshop.clock,
            hosts=("127.0.0.1",),
            version="1.2.3",
            stop=stop,
        )
        config = uvicorn.Config(
            build(parts), port=0, lifespan="off", ws="none", log_config=None, access_log=False
        )
        server = OwnStop(config)
        running = asyncio.create_task(server.serve())
        while not server.started:
            await asyncio.sleep(0.01)
        port = server.servers[0].sockets[0].getsockname()[1]
        loop = asyncio.get_running_loop()
        made.append(Site(workshop, parts, f"http://127.0.0.1:{port}", loop))
        ready.set()
        await stop.wait()
        server.should_exit = True
        await running

    thread = threading.Thread(target=asyncio.run, args=[main()])
    thread.start()
    assert ready.wait(20), "the pages are not served"
    site = made[0]
    yield site
    site.loop.call_soon_threadsafe(site.parts.stop.set)
    thread.join(20)
    assert not thread.is_alive(), "the pages do not stop"


@dataclass
class Form:
    """A form on a page: where it goes, its fields, its buttons as (name, value)."""

    action: str
    fields: dict[str, str] = field(default_factory=dict)
    buttons: list[tuple[str, str]] = field(default_factory=list)


class Forms(HTMLParser):
    """The forms of a page."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: list[Form] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name: value or "" for name, value in attrs}
        if tag == "form":
            self.found.append(Form(values.get("action", "")))
        elif tag == "input" and self.found and values.get("type") == "hidden":
            self.found[-1].fields[values["name"]] = values.get("value", "")
        elif tag == "button" and self.found:
            self.found[-1].buttons.append((values.get("name", ""), values.get("value", "")))


@dataclass
class Visitor:
    """A browser without JavaScript: it keeps its cookie, fills in forms and follows on."""

    client: httpx.Client
    page: httpx.Response | None = None

    def open(self, path: str = "/chat") -> str:
        """Go to a page; its HTML."""
        self.page = self.client.get(path, follow_redirects=True)
        return self.page.text

    def enter(self, code: str) -> str:
        """Open a sign-in link and press its button, if it has one; the page after it."""
        shown = self.open(f"/desk/in/{code}")
        waiting = [form for form in self.forms() if form.action == f"/desk/in/{code}"]
        if waiting:
            shown = self.open(self.post(waiting[0]).headers["location"])
        return shown

    def forms(self) -> list[Form]:
        """The forms of the page that is open."""
        if self.page is None:
            self.open()
        assert self.page is not None
        return Forms(self.page.text).found

    def form(self, action: str = "/chat/send") -> Form:
        """The last form of the page that goes there: on the chat, where answers are typed."""
        return [form for form in self.forms() if form.action == action][-1]

    def post(self, form: Form, **values: str) -> httpx.Response:
        """Send a form; the answer itself, not what it leads to."""
        return self.client.post(form.action, data={**form.fields, **values})

    def say(self, text: str) -> str:
        """Type a message and send it; the page after it."""
        self.post(self.form(), text=text)
        return self.open()

    def tap(self, choice: str) -> str:
        """Tap the button of that choice, on the newest message that has it."""
        form = [one for one in self.forms() if ("choice", choice) in one.buttons][-1]
        self.post(form, choice=choice)
        return self.open()

    def begin(self, language: str = "en") -> str:
        """Open the chat, begin and choose a language."""
        self.open()
        self.say("/start")
        return self.tap(language)

    def order(self, contact: str = "Iwo, iwo@example.org", down: str = "253") -> str:
        """A whole order for a box so deep below its ledge; the page that shows its number."""
        self.begin()
        self.tap("isolate")
        self.tap("dont-know")
        for answer in ORDER:
            self.say(down if answer == "253" else answer)
        self.tap("box")
        self.say("10")
        self.say(contact)
        return self.tap("hand-in")


@pytest.fixture(scope="session")
def clock() -> SetClock:
    """The clock of the served workshop: it stands still."""
    return SetClock(START)


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory, clock: SetClock) -> Iterator[Site]:
    """The pages of one workshop, for all tests; each test brings its own visitors."""
    folder: Path = tmp_path_factory.mktemp("site")
    settings = Settings(
        database=folder / "data" / "workshop.db", key_file=folder / "secret" / "key"
    )
    with open_workshop(settings, clock=clock, chance=SeededChance(7)) as workshop:
        yield from serve(workshop)


@pytest.fixture
def new_visitor(site: Site) -> Iterator[Callable[..., Visitor]]:
    """Makes visitors that nobody has seen before."""
    clients: list[httpx.Client] = []

    def make(**headers: str) -> Visitor:
        client = httpx.Client(base_url=site.address, headers=headers, timeout=20)
        clients.append(client)
        return Visitor(client)

    yield make
    for client in clients:
        client.close()


@pytest.fixture
def visitor(new_visitor: Callable[..., Visitor], site: Site, clock: SetClock) -> Visitor:
    """One visitor, who may write as fast as the test does."""
    return new_visitor()


@pytest.fixture(autouse=True)
def unhurried(site: Site, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody is too fast, except where a test is about that."""
    monkeypatch.setattr(site.parts.pace, "most", 1000)


@pytest.fixture
def desk(new_visitor: Callable[..., Visitor], site: Site, clock: SetClock) -> Visitor:
    """A member of staff who is signed in."""
    code = staff.invite(site.workshop.database, clock.now())
    signed_in = new_visitor()
    signed_in.enter(code)
    return signed_in
