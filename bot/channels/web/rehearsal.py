"""The desk's question before it is sent: as the beekeeper will see it, and in other languages."""

from __future__ import annotations

from typing import Any

from babel import Locale
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from bot.channels.web.bubbles import picture_alt
from bot.channels.web.page import Words, page
from bot.channels.web.parts import Parts, parts_of
from bot.channels.web.posted import desk_event, whole_form
from bot.channels.web.signed_in import SignedIn, staff_of
from bot.channels.web.trouble import Trouble
from bot.desk import order
from bot.ports import Message
from conversations import reference
from conversations.effects import Say
from conversations.events import Desk, DeskVerb

__all__ = ["routes"]


def routes() -> list[Route]:
    """The address of this page."""
    return [Route("/desk/order/{number}/ask", _ask, methods=["POST"])]


async def _ask(request: Request) -> Response:
    parts, who = parts_of(request), staff_of(request)
    number = reference.compact(request.path_params["number"])
    async with whole_form(request, who.visitor if who else None) as form:
        assert who is not None, "a form is whole only for who is signed in"
        event = desk_event(parts, who, number, form)
    sheet = order.read(parts.database, number)
    if sheet is None or event.verb is not DeskVerb.ASK:
        raise Trouble(404, "missing")
    return page("desk_ask.html", who.language, _values(parts, who, event, sheet.language))


def _values(parts: Parts, who: SignedIn, event: Desk, theirs: str) -> dict[str, Any]:
    said = parts.service.rehearse(event)
    refused = next((say for say in said if say.refused), None)
    asked = [say for say in said if say.to == "person"]
    # Theirs first; English beside it, and what this member of staff reads if that is another.
    languages = dict.fromkeys((theirs, "en", who.language))
    return {
        "visitor": who.visitor,
        "event": event,
        "refused": _in_language(parts, refused, who.language).text if refused else None,
        "shown": [
            {
                "language": language,
                "name": Locale(language).get_display_name(who.language),
                "theirs": language == theirs,
                "messages": [_bubble(parts, say, language) for say in asked],
            }
            for language in languages
        ],
    }


def _bubble(parts: Parts, say: Say, language: str) -> dict[str, Any]:
    message = _in_language(parts, say, language)
    picture = message.picture
    return {
        "html": Markup(message.html),  # noqa: S704 - the presenter escapes every value
        "buttons": [button.label for button in message.buttons],
        "picture": picture.name if picture else None,
        "alt": picture_alt(picture, Words(language)) if picture else "",
    }


def _in_language(parts: Parts, say: Say, language: str) -> Message:
    return parts.presenter.present(say.model_copy(update={"language": language}))
