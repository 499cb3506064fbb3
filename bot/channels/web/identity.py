"""Who is at the other end: a random token in a cookie that only this page gets to see.

A person is known by a hash of the token, so that nothing kept in the database opens a chat.
A form carries another hash of it: a page that cannot read the cookie cannot make the form.
"""

from __future__ import annotations

import hashlib
import hmac
import re
import secrets
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

__all__ = [
    "CHAT_COOKIE",
    "DESK_COOKIE",
    "GUEST_COOKIE",
    "Visitor",
    "fresh_visitor",
    "set_cookie",
    "visitor",
]

CHAT_COOKIE = "cagewright_chat"
DESK_COOKIE = "cagewright_desk"
GUEST_COOKIE = "cagewright_guest"
"""Of who holds a sign-in link and has not used it."""
KEPT = 400 * 24 * 3600
"""[s] the longest time browsers keep a cookie."""

_TOKEN = re.compile(r"[A-Za-z0-9_-]{43}")


def _hash(purpose: str, token: str) -> str:
    return hashlib.sha256(f"{purpose}:{token}".encode()).hexdigest()


@dataclass(frozen=True, slots=True)
class Visitor:
    """One browser."""

    token: str

    @property
    def person(self) -> str:
        """The person's id in the database."""
        return f"web-{_hash('person', self.token)[:20]}"

    @property
    def form_token(self) -> str:
        """What a form of this visitor carries."""
        return _hash("form", self.token)

    def made(self, form_token: str) -> bool:
        """Whether a form with this token was made for this visitor."""
        return hmac.compare_digest(self.form_token.encode(), form_token.encode())


def fresh_visitor() -> Visitor:
    """A visitor nobody has seen before."""
    return Visitor(secrets.token_urlsafe(32))


def visitor(request: Request, cookie: str) -> Visitor | None:
    """The visitor that the cookie of this name shows, or None."""
    token = request.cookies.get(cookie, "")
    return Visitor(token) if _TOKEN.fullmatch(token) else None


def set_cookie(response: Response, request: Request, cookie: str, token: str) -> None:
    """Have the browser keep the token."""
    response.set_cookie(
        cookie,
        token,
        max_age=KEPT,
        httponly=True,
        samesite="strict",
        secure=request.url.scheme == "https",
    )
