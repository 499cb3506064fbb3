"""The desk's pages: signing in, the queue, one order on one screen, and what is done with it."""

from __future__ import annotations

import re

from babel import Locale
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from bot.channels.web.files import papers_for
from bot.channels.web.identity import (
    DESK_COOKIE,
    GUEST_COOKIE,
    fresh_visitor,
    set_cookie,
    visitor,
)
from bot.channels.web.live import changes
from bot.channels.web.page import Words, page
from bot.channels.web.parts import Parts, parts_of
from bot.channels.web.posted import desk_event, whole_form
from bot.channels.web.sheet import shown_sheet
from bot.channels.web.signed_in import SignedIn, desk_language, staff_of
from bot.channels.web.trouble import Trouble
from bot.desk import news, order, queue, staff
from bot.desk.asking import MEASURES
from bot.ports import Message
from bot.storage.outbox import DESK, Letter
from conversations import reference
from conversations.events import DeskVerb
from conversations.review import MAY, MOVES, REASON, Role, Stage

__all__ = ["routes"]


_SEQ = re.compile(r"[0-9]{1,18}")
KEYS = {
    "take": "t", "ask": "a", "clear": "c", "turn-down": "d", "note": "n", "bench": "b",
    "made": "m", "posted": "p",
}  # fmt: skip
"""The key of each verb on an order's page."""


def routes() -> list[Route]:
    """The desk's addresses."""
    return [
        Route("/desk", _queue),
        Route("/desk/live", _live),
        Route("/desk/in/{code}", _door),
        Route("/desk/in/{code}", _sign_in, methods=["POST"]),
        Route("/desk/out", _sign_out, methods=["POST"]),
        Route("/desk/order/{number}", _order),
        Route("/desk/order/{number}", _do, methods=["POST"]),
    ]


# --- who is here ----------------------------------------------------------------------


def _door(request: Request) -> Response:
    """What a sign-in link shows: a button. Who only looks, as a chat's preview, uses up nothing."""
    parts, code = parts_of(request), request.path_params["code"]
    name = staff.waits(parts.database, code, parts.clock.now())
    if name is None:
        return _no_entry(request)
    guest = visitor(request, GUEST_COOKIE) or fresh_visitor()
    values = {"visitor": guest, "code": code, "name": name}
    response = page("sign_in.html", desk_language(request), values)
    set_cookie(response, request, GUEST_COOKIE, guest.token)
    return response


async def _sign_in(request: Request) -> Response:
    parts = parts_of(request)
    async with whole_form(request, visitor(request, GUEST_COOKIE)):
        now = parts.clock.now()
        name = staff.sign_in(parts.database, request.path_params["code"], now)
    if name is None:
        return _no_entry(request)
    response = RedirectResponse("/desk", 303)
    set_cookie(response, request, DESK_COOKIE, staff.make_pass(parts.database, name, now))
    response.delete_cookie(GUEST_COOKIE, httponly=True, samesite="strict")
    return response


def _no_entry(request: Request) -> Response:
    if staff_of(request) is not None:
        return RedirectResponse("/desk", 303)
    return _signed_out(request, "desk.page.code_used")


def _signed_out(request: Request, how: str = "desk.page.signed_out_how") -> Response:
    return page("signed_out.html", desk_language(request), {"how": how}, 403)


async def _sign_out(request: Request) -> Response:
    parts, who = parts_of(request), staff_of(request)
    async with whole_form(request, who.visitor if who else None):
        assert who is not None, "a form is whole only for who is signed in"
        staff.end_pass(parts.database, who.visitor.token, parts.clock.now())
        response = RedirectResponse("/desk", 303)
        response.delete_cookie(DESK_COOKIE, httponly=True, samesite="strict")
        return response


# --- pages ----------------------------------------------------------------------------


def _queue(request: Request) -> Response:
    parts, who = parts_of(request), staff_of(request)
    if who is None:
        return _signed_out(request)
    now = parts.clock.now()
    rows = queue.queue(parts.database, now, who.role)
    values = {
        "visitor": who.visitor,
        "now": now,
        "open": [row for row in rows if not row.resting],
        "resting": [row for row in rows if row.resting],
        "closed": queue.closed(parts.database, now, who.role),
        "contacts": who.role is not Role.BENCH,
        "operator": who.role is Role.OPERATOR,
        "news": [
            (letter.at, letter.say.number, _in_language(parts, letter, who.language))
            for letter in news.latest(parts.database, role=who.role)
        ],
    }
    return page("desk.html", who.language, values)


def _in_language(parts: Parts, letter: Letter, language: str) -> Message:
    return parts.presenter.present(letter.say.model_copy(update={"language": language}))


def _order(request: Request) -> Response:
    parts, who = parts_of(request), staff_of(request)
    if who is None:
        return _signed_out(request)
    sheet = order.read(parts.database, reference.compact(request.path_params["number"]), who.role)
    if sheet is None:
        raise Trouble(404, "missing")
    words = Words(who.language)
    values = {
        "visitor": who.visitor,
        "now": parts.clock.now(),
        "me": who.name,
        "told": _told(parts, who, sheet.number, request.query_params.get("told", "")),
        "verbs": _verbs(sheet.stage, who.role, words),
        "keys": KEYS,
        "spoken_there": Locale(sheet.language).get_display_name(who.language),
        "asking": {
            DeskVerb.ASK,
            DeskVerb.TURN_DOWN,
            DeskVerb.NOTE,
            *([DeskVerb.CLEAR] if sheet.stopped else []),
        },
        "measures": MEASURES,
        "reason": REASON,
        "papers": papers_for(who.role),
        **shown_sheet(sheet, words, parts.figures),
    }
    return page("desk_order.html", who.language, values)


def _live(request: Request) -> Response:
    """Says that something changed, as long as the page is open and we run."""
    parts, who = parts_of(request), staff_of(request)
    if who is None:
        raise Trouble(403, "form")
    return changes(parts, DESK, who.mailbox, lambda: staff_of(request) is not None)


def _verbs(stage: str, role: Role, words: Words) -> list[str]:
    """What this role can do at this stage and has a form on the page."""
    return [
        verb.value
        for verb, move in MOVES.items()
        if Stage(stage) in move.source
        and verb in MAY[role]
        and words.has(f"desk.page.do.{verb.value}")
    ]


def _told(parts: Parts, who: SignedIn, number: str, seq: str) -> Message | None:
    """What the desk answered to the last thing this member of staff did with this order."""
    if not _SEQ.fullmatch(seq):
        return None
    letters = parts.outbox.since(who.mailbox, int(seq) - 1)
    if not letters or letters[0].seq != int(seq) or letters[0].say.number != number:
        return None
    return _in_language(parts, letters[0], who.language)


# --- what is done ---------------------------------------------------------------------


async def _do(request: Request) -> Response:
    parts, who = parts_of(request), staff_of(request)
    number = reference.compact(request.path_params["number"])
    async with whole_form(request, who.visitor if who else None) as form:
        assert who is not None, "a form is whole only for who is signed in"
        event = desk_event(parts, who, number, form)
    parts.service.receive(event, DESK)
    answer = news.answer_to(parts.database, event.id, who.mailbox)
    told = f"?told={answer}" if answer is not None else ""
    return RedirectResponse(f"/desk/order/{number}{told}", 303)
