"""What every request passes before a page sees it, and what every answer carries.

Names: a page of another site can make a browser ask this program, but only under that
site's own name, so that an allowed name in `Host` keeps it out. Sizes: no page reads more
than it is meant to. Headers: nothing but our own files may run, be shown or be framed.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterable
from typing import TypeAlias

from starlette.datastructures import MutableHeaders
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

__all__ = ["HEADERS", "AllowedHosts", "BodyLimit", "SafeHeaders", "host_name"]

HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; "
        "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
    "Referrer-Policy": "same-origin",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
}


def host_name(host: str) -> str:
    """The name in a `Host` header, without the port, in lower case."""
    name, colon, port = host.strip().lower().rpartition(":")
    return name if colon and port.isdigit() else host.strip().lower()


class AllowedHosts:
    """Answers 421 to every name but the allowed ones."""

    def __init__(self, app: ASGIApp, names: Iterable[str]) -> None:
        self.app = app
        self.names = frozenset(name.lower() for name in names)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "http":
            hosts = [value for name, value in scope["headers"] if name == b"host"]
            if len(hosts) != 1 or host_name(hosts[0].decode("latin-1")) not in self.names:
                await PlainTextResponse("Not a name of this page.", 421)(scope, receive, send)
                return
        await self.app(scope, receive, send)


Refuse: TypeAlias = Callable[[Request], Awaitable[Response]]

_DRAINED = 100 * 1024 * 1024
"""[bytes] read and thrown away for the sake of an answer; who sends more gets none."""


class _TooLong(Exception):  # noqa: N818 - never leaves this file
    """More came than this page reads."""


class BodyLimit:
    """Answers with `refuse` as soon as a body is longer than `most(path)` bytes."""

    def __init__(self, app: ASGIApp, most: Callable[[str], int], refuse: Refuse) -> None:
        self.app = app
        self.most = most
        self.refuse = refuse

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        most = self.most(scope["path"])
        told = next((value for name, value in scope["headers"] if name == b"content-length"), b"0")
        if not told.isdigit() or int(told) > most:
            await self._refuse(scope, receive, send)
            return
        read = 0
        answering = False

        async def counted() -> Message:
            nonlocal read
            message = await receive()
            if message["type"] == "http.request":
                read += len(message.get("body", b""))
                if read > most:
                    raise _TooLong
            return message

        async def noticed(message: Message) -> None:
            nonlocal answering
            answering = True
            await send(message)

        try:
            await self.app(scope, counted, noticed)
        except _TooLong:
            if answering:
                raise
            await self._refuse(scope, receive, send)

    async def _refuse(self, scope: Scope, receive: Receive, send: Send) -> None:
        # A browser that is still sending shows our answer only once we have let it finish.
        thrown_away = 0
        while thrown_away < _DRAINED:
            message = await receive()
            thrown_away += len(message.get("body", b""))
            if not message.get("more_body", False):
                break
        answer = await self.refuse(Request(scope))
        answer.headers["Connection"] = "close"
        await answer(scope, receive, send)


class SafeHeaders:
    """Puts the headers above on every answer."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers.setdefault(name, value)
                headers.setdefault("Cache-Control", "no-store")
            await send(message)

        await self.app(scope, receive, with_headers if scope["type"] == "http" else send)
