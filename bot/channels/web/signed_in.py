"""The member of staff behind a request."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request

from bot.channels.web.identity import DESK_COOKIE, Visitor
from bot.channels.web.page import device_language, spoken
from bot.channels.web.parts import parts_of
from bot.desk import staff
from bot.storage import staff as table
from conversations.review import Role

__all__ = ["SignedIn", "desk_language", "staff_of"]


@dataclass(frozen=True, slots=True)
class SignedIn:
    """Staff who showed their pass, with the language their browser speaks."""

    name: str
    visitor: Visitor
    language: str
    role: Role

    @property
    def mailbox(self) -> str:
        """Where messages to this member of staff alone are put."""
        return f"desk:{self.name}"


def desk_language(request: Request) -> str:
    """The language of the desk's pages for this browser."""
    return spoken(device_language(request))


def staff_of(request: Request) -> SignedIn | None:
    """Who shows a pass with this request that holds today, or None."""
    parts = parts_of(request)
    shown = request.cookies.get(DESK_COOKIE, "")
    name = staff.holder(parts.database, shown, parts.clock.now()) if shown else None
    if name is None:
        return None
    with parts.database.reading() as connection:
        member = table.member(connection, name)
    assert member is not None, "a pass holds only for a member"
    return SignedIn(name, Visitor(shown), desk_language(request), Role(member.role))
