"""Who may send which form, cell by cell, from the table `authorisation.toml`."""

from __future__ import annotations

import itertools
import re
import tomllib
from pathlib import Path
from typing import Any

import httpx
import pytest

from bot.channels.web.identity import (
    CHAT_COOKIE,
    DESK_COOKIE,
    GUEST_COOKIE,
    Visitor,
    fresh_visitor,
)
from bot.desk import staff
from conversations.review import Role

FILE = Path(__file__).parents[2] / "authorisation.toml"
PAGES: dict[str, list[str]] = tomllib.loads(FILE.read_text(encoding="utf-8"))["pages"]
ACTORS = ("visitor", "guest", *Role, "left", "nobody")
FIELDS = {
    "/chat/send": {"text": "hello"},
    "/chat/edit": {"message": "1", "text": "hello"},
    "/desk/in/{code}": {},
    "/desk/out": {},
    "/desk/order/{number}": {"verb": "note", "version": "1", "note": "looked at"},
    "/desk/order/{number}/ask": {"verb": "ask", "version": "1", "measure": "lug_room"},
    "/desk/staff": {"verb": "invite", "name": "zofia", "role": "bench"},
}
"""What a form of each address has in it."""


@pytest.fixture
def cookies(site: Any, clock: Any) -> dict[str, tuple[str, str]]:
    """The cookie each actor shows, by its name and its value."""
    database, now = site.workshop.database, clock.now()
    shown = {"visitor": (CHAT_COOKIE, fresh_visitor().token), "nobody": ("other", "x" * 43)}
    shown["guest"] = (GUEST_COOKIE, fresh_visitor().token)
    for name in (*Role, "left"):
        role = Role(name) if name in frozenset(Role) else Role.OPERATOR
        staff.invite(database, now, f"the-{name}", role)
        shown[name] = (DESK_COOKIE, staff.make_pass(database, f"the-{name}", now))
    staff.remove(database, now, "the-left")
    return shown


def sent(site: Any, path: str, cookie: tuple[str, str], made_for: tuple[str, str]) -> int:
    """Send the form that was made for somebody while showing a cookie; the status."""
    fields = {"form": Visitor(made_for[1]).form_token, "id": "12345678", **FIELDS[path]}
    number = site.number if "{" in path else ""
    code = staff.invite(site.workshop.database, site.workshop.clock.now(), "the-newest")
    url = site.address + path.format(number=number, code=code)
    headers = {"cookie": "=".join(cookie)}
    return int(httpx.post(url, data=fields, headers=headers, timeout=20).status_code)


@pytest.fixture
def ordered(site: Any, visitor: Any) -> Any:
    """The site, with the number of an order that was handed in there."""
    found = re.findall(r"number: <b>([^<]+)</b>", visitor.order())
    site.number = re.sub(r"\D", "", found[-1])
    return site


def test_every_page_has_its_fields() -> None:
    """A form that is not filled in here would be refused for another reason."""
    assert set(FIELDS) == set(PAGES)


@pytest.mark.parametrize("path", sorted(PAGES))
def test_a_form_is_taken_from_whom_the_table_names(
    ordered: Any, cookies: dict[str, tuple[str, str]], path: str
) -> None:
    """With their own form; everybody else is answered 403."""
    for actor in ACTORS:
        status = sent(ordered, path, cookies[actor], cookies[actor])
        assert (status in (200, 303)) == (actor in PAGES[path]), (path, actor, status)
        assert status in (200, 303, 403), (path, actor, status)


@pytest.mark.parametrize("path", sorted(PAGES))
def test_a_form_made_for_somebody_else_is_taken_from_nobody(
    ordered: Any, cookies: dict[str, tuple[str, str]], path: str
) -> None:
    """Also not one made for who might send it."""
    for actor, other in itertools.permutations(ACTORS, 2):
        assert sent(ordered, path, cookies[actor], cookies[other]) == 403, (path, actor, other)
