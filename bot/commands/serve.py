"""`serve`: the pages, the sender and the reminders, until we are told to stop.

The web server runs in our own event loop and leaves signals to us: one SIGTERM or SIGINT sets
the stop event, which every open stream and every task watches, so that all ends by itself.
"""

from __future__ import annotations

import asyncio
import contextlib
import errno
import signal
import socket
import sqlite3
import sys
from collections.abc import Awaitable, Callable, Iterator
from datetime import timedelta
from importlib.metadata import version
from pathlib import Path
from typing import TYPE_CHECKING

import uvicorn

from bot.channels.web.app import build
from bot.channels.web.parts import CHANNEL, Parts
from bot.commands import demo as demo_workshop
from bot.commands.address import EVERYWHERE, address
from bot.commands.trouble import trouble
from bot.desk import staff
from bot.logs import log, set_up_logs
from bot.outbox import Delivery, Letter, Outcome, Sender
from bot.photos import PhotoShelf
from bot.settings import Settings, SettingsError, load_settings
from bot.storage.answers import photo_shas
from bot.storage.errors import InUseError, StorageError, UnavailableError
from bot.storage.outbox import DESK
from bot.wiring import Workshop, open_workshop

if TYPE_CHECKING:
    from bot.channels.telegram.channel import TelegramChannel

__all__ = ["run"]

TICK = 3.0
"""[s] how often reminders are looked for."""
SWEEP_EVERY = timedelta(hours=1)
DRAIN = 5
"""[s] for answers under way when we stop; then they are cut off."""
NEARBY = 20
"""So many ports after the usual one are tried where nobody asked for a certain one."""


class CannotListenError(Exception):
    """The operator's: `field` (`host` or `port`) names what can't be had."""

    def __init__(self, field: str, host: str, port: int) -> None:
        super().__init__(field, host, port)
        self.field = field
        self.host = host
        self.port = port


def run(
    *,
    host: str | None,
    port: int | None,
    database: Path | None,
    telegram_api: str | None,
    web: bool,
    telegram: bool,
    demo: bool,
) -> int:
    """Serve until told to stop: 0. 1 where the database is in use, 2 where a setting or a
    file can't be used."""
    try:
        settings = load_settings(host=host, port=port, database=database, telegram_api=telegram_api)
        if demo:
            demo_workshop.make(settings)
        with open_workshop(settings) as workshop, contextlib.ExitStack() as stack:
            listening = stack.enter_context(_listen(settings)) if web else None
            # Not sooner: where we can't start, the one line that says why stands alone.
            set_up_logs("error" if demo else settings.log_level)
            log().info("serving", sqlite=sqlite3.sqlite_version)
            asyncio.run(_serve(workshop, listening, telegram=telegram))
    except CannotListenError as error:
        if error.field == "host":
            return _refuse(2, f"host: an address of this machine; {error.host} is none")
        return _refuse(2, f"port: one that is free; {error.port} on {error.host} is not")
    except InUseError as error:
        return _refuse(1, trouble(error))
    except (SettingsError, StorageError) as error:
        return _refuse(2, trouble(error))
    return 0


def _refuse(code: int, line: str) -> int:
    sys.stderr.write(f"cagewright serve: {line}\n")
    return code


# --- listening ------------------------------------------------------------------------


def _listen(settings: Settings) -> socket.socket:
    """The socket the pages are served on; raises `CannotListenError`."""
    asked = "port" in settings.model_fields_set
    ports = [settings.port]
    if not asked:
        ports += [*range(settings.port + 1, settings.port + NEARBY), 0]
    for port in ports:
        try:
            return _bound(settings.host, port)
        except OSError as error:
            if isinstance(error, socket.gaierror) or error.errno == errno.EADDRNOTAVAIL:
                raise CannotListenError("host", settings.host, port) from error
    raise CannotListenError("port", settings.host, settings.port)


def _bound(host: str, port: int) -> socket.socket:
    family, kind, protocol, _, address = socket.getaddrinfo(
        host, port, type=socket.SOCK_STREAM, flags=socket.AI_PASSIVE
    )[0]
    made = socket.socket(family, kind, protocol)
    try:
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind(address)
        made.listen(128)
    except OSError:
        made.close()
        raise
    return made


# --- running --------------------------------------------------------------------------


async def _serve(workshop: Workshop, listening: socket.socket | None, *, telegram: bool) -> None:
    stop = asyncio.Event()
    loop = asyncio.get_running_loop()
    for number in (signal.SIGTERM, signal.SIGINT):
        loop.add_signal_handler(number, stop.set)
    shelf = PhotoShelf(workshop.settings.photo_folder)
    async with asyncio.TaskGroup() as tasks:
        if listening is not None:
            tasks.create_task(_pages(workshop, listening, shelf, stop))
            for channel in (CHANNEL, DESK):
                sender = Sender(workshop.outbox, _on_the_page, channel=channel)
                tasks.create_task(sender.run(workshop.bell, stop))
        if telegram and workshop.settings.telegram_token is not None:
            tasks.create_task(_hold(lambda: _telegram(workshop, shelf).run(stop), stop))
        tasks.create_task(_keep_time(workshop, stop))
        tasks.create_task(_keep_tidy(workshop, shelf, stop))
    log().info("stopped")


async def _hold(run: Callable[[], Awaitable[None]], stop: asyncio.Event) -> None:
    """Keep a channel running: one that fails is begun anew, and the pages go on meanwhile."""
    pause = 1.0
    while not stop.is_set():
        try:
            await run()
        except Exception as error:  # noqa: BLE001 - whatever a channel raises, the others go on
            log().error("channel failed", code=type(error).__name__, exc_info=error)
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(stop.wait(), pause)
            pause = min(60.0, 2 * pause)


def _telegram(workshop: Workshop, shelf: PhotoShelf) -> TelegramChannel:
    # Imported when there is a token: the client alone takes as long as all the rest.
    from bot.channels.telegram.channel import TelegramChannel

    token = workshop.settings.telegram_token
    assert token is not None
    return TelegramChannel(
        token.get_secret_value(),
        workshop.settings.telegram_api,
        database=workshop.database,
        service=workshop.service,
        outbox=workshop.outbox,
        bell=workshop.bell,
        presenter=workshop.presenter,
        renderer=workshop.renderer,
        shelf=shelf,
        clock=workshop.clock,
    )


async def _pages(
    workshop: Workshop, listening: socket.socket, shelf: PhotoShelf, stop: asyncio.Event
) -> None:
    config = uvicorn.Config(
        build(_parts(workshop, shelf, stop)),
        lifespan="off",
        ws="none",
        log_config=None,
        access_log=False,
        server_header=False,
        proxy_headers=False,
        timeout_graceful_shutdown=DRAIN,
    )
    server = _OwnSignals(config)
    _tell(workshop, address(workshop.settings, listening.getsockname()[1]))
    serving = asyncio.create_task(server.serve(sockets=[listening]))
    ended = asyncio.create_task(stop.wait())
    await asyncio.wait((serving, ended), return_when=asyncio.FIRST_COMPLETED)
    server.should_exit = True
    stop.set()
    await serving
    await ended


def _parts(workshop: Workshop, shelf: PhotoShelf, stop: asyncio.Event) -> Parts:
    settings = workshop.settings
    own = () if settings.host in EVERYWHERE else (settings.host,)
    return Parts(
        database=workshop.database,
        service=workshop.service,
        outbox=workshop.outbox,
        bell=workshop.bell,
        presenter=workshop.presenter,
        renderer=workshop.renderer,
        papers=workshop.renderer.papers,
        shelf=shelf,
        clock=workshop.clock,
        hosts=(*settings.allowed_hosts, *own),
        version=version("cagewright"),
        stop=stop,
        figures=workshop.figures,
    )


def _tell(workshop: Workshop, address: str) -> None:
    """Print where the pages are; the desk's link works once and stands nowhere else."""
    code = staff.invite(workshop.database, workshop.clock.now())
    sys.stdout.write(f"Chat  {address}/chat\nDesk  {address}/desk/in/{code}\n")
    sys.stdout.flush()


class _OwnSignals(uvicorn.Server):
    """Leaves signals to us: its own handling would end the process with the signal's code."""

    @contextlib.contextmanager
    def capture_signals(self) -> Iterator[None]:
        yield


async def _on_the_page(_letter: Letter) -> Delivery:
    """A message for a page is out as soon as it is stored: the page reads it from there."""
    return Delivery(Outcome.SENT)


async def _keep_time(workshop: Workshop, stop: asyncio.Event) -> None:
    """Work off what an earlier run left, then have reminders happen when they are due."""
    while not stop.is_set():
        try:
            workshop.service.resume()
            workshop.service.tick()
        except UnavailableError as trouble:
            log().error("database unavailable", code=trouble.code)
        await _pause(stop, TICK)


async def _keep_tidy(workshop: Workshop, shelf: PhotoShelf, stop: asyncio.Event) -> None:
    """Remove the photos that nobody's order or notebook refers to any more."""
    while not stop.is_set():
        try:
            with workshop.database.reading() as connection:
                in_use = photo_shas(connection)
            gone = await asyncio.to_thread(shelf.sweep, in_use)
        except (UnavailableError, OSError) as trouble:
            log().error("photos not swept", code=type(trouble).__name__)
        else:
            if gone:
                log().info("photos removed", count=gone)
        await _pause(stop, SWEEP_EVERY.total_seconds())


async def _pause(stop: asyncio.Event, seconds: float) -> None:
    with contextlib.suppress(TimeoutError):
        await asyncio.wait_for(stop.wait(), seconds)
