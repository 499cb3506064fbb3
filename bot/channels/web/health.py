"""How the program does, for machines that watch it: moments and a version, nothing of anybody."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from bot.channels.web.parts import parts_of
from bot.storage import inbox, outbox, telegram
from bot.storage.times import stamp

__all__ = ["routes"]


def routes() -> list[Route]:
    """The address that is asked."""
    return [Route("/health", _health)]


def _health(request: Request) -> Response:
    parts = parts_of(request)
    with parts.database.reading() as connection:
        arrived, said = inbox.oldest_waiting(connection), outbox.oldest_waiting(connection)
        last = telegram.polled(connection, "telegram")
    return JSONResponse(
        {
            "inbox_oldest_waiting": stamp(arrived) if arrived else None,
            "outbox_oldest_waiting": stamp(said) if said else None,
            "last_poll": stamp(last.at) if last else None,
            "poll_trouble": last.trouble if last else None,
            "version": parts.version,
        }
    )
