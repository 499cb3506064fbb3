"""Who works here, for the operator: somebody is invited with a code, or leaves."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from bot.channels.web.page import page
from bot.channels.web.parts import parts_of
from bot.channels.web.posted import value, whole_form
from bot.channels.web.signed_in import SignedIn, staff_of
from bot.channels.web.trouble import Trouble
from bot.desk import staff as door
from bot.storage import staff
from bot.storage.outbox import DESK
from conversations.review import Role

__all__ = ["routes"]


def routes() -> list[Route]:
    """The addresses of this page."""
    return [
        Route("/desk/staff", _staff),
        Route("/desk/staff", _do, methods=["POST"]),
    ]


def _operator(request: Request) -> SignedIn:
    """Who asks, if it is the operator."""
    who = staff_of(request)
    if who is None or who.role is not Role.OPERATOR:
        raise Trouble(403, "form")
    return who


def _staff(request: Request) -> Response:
    return _shown(request, _operator(request))


def _shown(request: Request, who: SignedIn, invited: tuple[str, str] | None = None) -> Response:
    with parts_of(request).database.reading() as connection:
        members = staff.members(connection)
    values = {
        "visitor": who.visitor,
        "members": members,
        "roles": list(Role),
        "invited": invited,
        "me": who.name,
        "address": f"{request.url.scheme}://{request.url.netloc}",
    }
    return page("staff.html", who.language, values)


async def _do(request: Request) -> Response:
    parts, signed = parts_of(request), staff_of(request)
    async with whole_form(request, signed.visitor if signed else None) as form:
        who = _operator(request)
        name, role, verb = value(form, "name").strip(), value(form, "role"), value(form, "verb")
        now = parts.clock.now()
        if verb == "remove":
            door.remove(parts.database, now, name, who.name)
            parts.bell.ring([DESK])  # a page that is still open learns of it
            return _shown(request, who)
        if verb == "renew":
            renewed = door.renew(parts.database, now, name, who.name)
            if renewed is None:
                raise Trouble(404, "missing")
            return _shown(request, who, (name, renewed))
        if role not in frozenset(Role):
            raise Trouble(400, "form")
        if not door.fits(name):
            raise Trouble(422, "name", most=door.LONGEST_NAME)
        if door.active(parts.database, name) is not None:
            # Inviting anew would change the role, and lock out who has it: perhaps oneself.
            raise Trouble(409, "name", "taken", name=name)
        code = door.invite(parts.database, now, name, Role(role), who.name)
        return _shown(request, who, (name, code))
