"""Who is at the other end."""

from __future__ import annotations

import pytest
from starlette.requests import Request
from starlette.responses import Response

from bot.channels.web.identity import CHAT_COOKIE, Visitor, fresh_visitor, set_cookie, visitor


def request(cookie: str = "", scheme: str = "http") -> Request:
    """A request with this cookie header."""
    headers = [(b"cookie", cookie.encode())] if cookie else []
    server = ("127.0.0.1", 80)
    return Request(
        {"type": "http", "scheme": scheme, "server": server, "path": "/", "headers": headers}
    )


def test_the_same_token_is_the_same_person() -> None:
    """A person's id says nothing about the token, and differs from the token of forms."""
    who = fresh_visitor()
    assert Visitor(who.token).person == who.person
    assert who.person.startswith("web-")
    assert who.token not in (who.person, who.form_token)
    assert fresh_visitor().person != who.person


def test_a_form_is_made_for_one_visitor() -> None:
    """Another visitor's token, or none, does not fit."""
    who, other = fresh_visitor(), fresh_visitor()
    assert who.made(who.form_token)
    assert not who.made(other.form_token)
    assert not who.made("")


def test_the_cookie_brings_the_visitor_back() -> None:
    """What the response sets is what the next request shows."""
    who, response = fresh_visitor(), Response()
    set_cookie(response, request(), CHAT_COOKIE, who.token)
    header = response.headers["set-cookie"]
    assert visitor(request(header.split(";")[0]), CHAT_COOKIE) == who
    assert "HttpOnly" in header
    assert "SameSite=strict" in header
    assert "Secure" not in header


def test_over_https_the_cookie_stays_there() -> None:
    """A page that came over a safe line is never asked for over an open one."""
    response = Response()
    set_cookie(response, request(scheme="https"), CHAT_COOKIE, "x")
    assert "Secure" in response.headers["set-cookie"]


@pytest.mark.parametrize("token", ["", "short", "x" * 42, "x" * 44, "x" * 42 + "!", "x" * 42 + "ü"])
def test_what_is_no_token_is_no_visitor(token: str) -> None:
    """A cookie that we never set stands for nobody."""
    assert visitor(request(f"{CHAT_COOKIE}={token}"), CHAT_COOKIE) is None
