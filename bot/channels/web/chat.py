"""The beekeeper's pages: the chat, what is sent in it, and the change of an earlier message."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from bot.channels.web.bubbles import MENU, Mine, Ours, bubbles, language_of
from bot.channels.web.identity import CHAT_COOKIE, Visitor, fresh_visitor, set_cookie, visitor
from bot.channels.web.live import stream
from bot.channels.web.page import device_language, page, spoken
from bot.channels.web.parts import CHANNEL, Parts, parts_of
from bot.channels.web.posted import edit_event, said_event, whole_form
from bot.channels.web.trouble import Trouble, asks_for_json
from bot.photos import BYTES_AT_MOST
from conversations.events import Event

__all__ = ["routes"]


def routes() -> list[Route]:
    """The chat's addresses."""
    return [
        Route("/chat", _show),
        Route("/chat/send", _send, methods=["POST"]),
        Route("/chat/edit", _edit, methods=["POST"]),
        Route("/chat/edit/{k:int}", _edit_form),
        Route("/chat/live", _live),
    ]


def _stands(parts: Parts, person: str, hint: str | None) -> tuple[str, list[Mine | Ours]]:
    """The language of the conversation, and all of it."""
    entries = parts.outbox.transcript(person)
    language = language_of(entries) or spoken(hint)
    return language, bubbles(entries, parts.presenter, parts.renderer, language)


async def _show(request: Request) -> Response:
    parts = parts_of(request)
    known = visitor(request, CHAT_COOKIE)
    who = known or fresh_visitor()
    hint = device_language(request)
    language, shown = await run_in_threadpool(_stands, parts, who.person, hint)
    values = {"visitor": who, "bubbles": shown, "menu": MENU, "photo_most": BYTES_AT_MOST}
    response = page("chat.html", language, values)
    if known is None:
        set_cookie(response, request, CHAT_COOKIE, who.token)
    return response


async def _send(request: Request) -> Response:
    parts, who = parts_of(request), visitor(request, CHAT_COOKIE)
    async with whole_form(request, who) as form:
        assert who is not None, "a form is whole only for a visitor"
        _keep_pace(parts, who)
        return _taken(request, parts, await said_event(request, parts, who, form))


async def _edit(request: Request) -> Response:
    parts, who = parts_of(request), visitor(request, CHAT_COOKIE)
    async with whole_form(request, who) as form:
        assert who is not None, "a form is whole only for a visitor"
        _keep_pace(parts, who)
        return _taken(request, parts, edit_event(parts, who, form))


def _keep_pace(parts: Parts, who: Visitor) -> None:
    seconds = parts.pace.wait(who.person, parts.clock.now())
    if seconds:
        trouble = Trouble(429, "fast", seconds=seconds)
        trouble.headers = {"Retry-After": str(seconds)}
        raise trouble


def _taken(request: Request, parts: Parts, event: Event | None) -> Response:
    if event is not None:
        parts.service.receive(event, CHANNEL)
        parts.bell.ring([event.person])  # other windows of the same person show what was sent
    if asks_for_json(request):
        return Response(status_code=204)
    return RedirectResponse("/chat#newest", 303)


async def _edit_form(request: Request) -> Response:
    parts, who = parts_of(request), visitor(request, CHAT_COOKIE)
    if who is not None:
        hint, k = device_language(request), request.path_params["k"]
        language, shown = await run_in_threadpool(_stands, parts, who.person, hint)
        for bubble in shown:
            if isinstance(bubble, Mine) and bubble.k == k:
                values = {"visitor": who, "k": k, "text": bubble.text}
                return page("edit.html", language, values)
    raise Trouble(404, "missing")


async def _live(request: Request) -> Response:
    parts, who = parts_of(request), visitor(request, CHAT_COOKIE)
    if who is None:
        raise Trouble(403, "form")
    shown = request.headers.get("last-event-id") or request.query_params.get("after", "")
    hint = device_language(request)

    def stands() -> tuple[str, list[Mine | Ours]]:
        return _stands(parts, who.person, hint)

    return stream(parts, who, stands, shown)
