"""The web application: its addresses, what guards them, what it says when something goes wrong."""

from __future__ import annotations

from importlib import resources

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from bot.channels.web import chat, desk, files, health, rehearsal, staff_page
from bot.channels.web.guard import AllowedHosts, BodyLimit, SafeHeaders
from bot.channels.web.parts import Parts
from bot.channels.web.posted import most
from bot.channels.web.trouble import (
    Trouble,
    show_http,
    show_ours,
    show_too_long,
    show_trouble,
    show_unavailable,
)
from bot.storage.errors import UnavailableError

__all__ = ["build"]


def build(parts: Parts) -> Starlette:
    """The application for this workshop."""
    app = Starlette(
        routes=[
            Route("/", _to_chat),
            *chat.routes(),
            *desk.routes(),
            *rehearsal.routes(),
            *staff_page.routes(),
            *files.routes(),
            *health.routes(),
            Mount("/static", _Static(directory=str(resources.files(__package__) / "static"))),
        ],
        middleware=[
            Middleware(SafeHeaders),
            Middleware(AllowedHosts, names=parts.hosts),
            Middleware(BodyLimit, most=most, refuse=show_too_long),
        ],
        exception_handlers={
            Trouble: show_trouble,
            HTTPException: show_http,
            UnavailableError: show_unavailable,
            Exception: show_ours,
        },
    )
    app.state.parts = parts
    return app


class _Static(StaticFiles):
    """Our own style and script: asked for anew each time, sent only when they changed."""

    def file_response(self, *args: object, **kwargs: object) -> Response:
        response = super().file_response(*args, **kwargs)  # type: ignore[arg-type]
        response.headers["Cache-Control"] = "no-cache"
        return response


def _to_chat(_request: Request) -> Response:
    return RedirectResponse("/chat")
