"""The member of staff behind a request."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request

from bot.channels.web.identity import DESK_COOKIE
from bot.channels.web.signed_in import desk_language, staff_of
from bot.desk import staff


def request(site: Any, shown: str = "", language: str = "") -> Request:
    """A request to the served application with this pass."""
    headers = [(b"cookie", f"{DESK_COOKIE}={shown}".encode())] if shown else []
    headers.append((b"accept-language", language.encode()))

    class App:
        class state:  # noqa: N801 - what the framework calls it
            parts = site.parts

    return Request({"type": "http", "headers": headers, "app": App})


def test_a_pass_shows_who_it_is(site: Any, clock: Any) -> None:
    """Name, language and the mailbox that is theirs alone."""
    database = site.workshop.database
    staff.invite(database, clock.now(), "maria")
    shown = staff.make_pass(database, "maria", clock.now())
    who = staff_of(request(site, shown, "pl"))
    assert who is not None
    assert (who.name, who.language, who.mailbox) == ("maria", "pl", "desk:maria")


def test_without_a_pass_nobody_is_there(site: Any) -> None:
    """No cookie, or one that is no pass."""
    assert staff_of(request(site)) is None
    assert staff_of(request(site, "a.b.c.d")) is None


def test_the_desk_speaks_english_where_it_does_not_speak_the_language(site: Any) -> None:
    """As every page does."""
    languages = [desk_language(request(site, "", language)) for language in ("pl-PL", "xx")]
    assert languages == ["pl", "en"]
