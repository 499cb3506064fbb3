"""Who may read what, cell by cell, from the table `authorisation.toml`."""

from __future__ import annotations

import io
import re
import tomllib
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import httpx
import pytest
from PIL import Image
from starlette.routing import Route

from bot.channels.web.app import build
from bot.channels.web.identity import CHAT_COOKIE, DESK_COOKIE, fresh_visitor
from bot.desk import staff
from conversations.review import Role

FILE = Path(__file__).parents[2] / "authorisation.toml"
TABLE = tomllib.loads(FILE.read_text(encoding="utf-8"))
READS: dict[str, list[str]] = TABLE["reads"]
SEES: dict[str, list[str]] = TABLE["sees"]
ACTORS = ("owner", "visitor", *Role, "left", "nobody")
CONTACT = "Iwo, iwo@example.org"


@pytest.fixture
def ordered(site: Any, visitor: Any) -> Any:
    """The site with an order that has a photo, and the cookies of all who may come."""
    if not hasattr(site, "read_by"):  # one order for all cells: nothing here changes it
        site.read_by = made(site, visitor)
    return site.read_by


def made(site: Any, visitor: Any) -> Any:
    """An order with a photo, and for each actor the cookie they show."""
    visitor.begin()
    visitor.tap("isolate")
    visitor.tap("dont-know")
    picture = io.BytesIO()
    Image.new("RGB", (64, 48), "wheat").save(picture, "JPEG")
    form = visitor.form()
    visitor.client.post(
        form.action,
        data={**form.fields, "text": ""},
        files={"photo": ("a.jpg", picture.getvalue())},
    )
    page = visitor.order()
    seq = re.findall(r"/files/picture/(\d+)\.png", page)[-1]
    number = re.sub(r"\D", "", re.findall(r"number: <b>([^<]+)</b>", page)[-1])
    database, now = site.workshop.database, site.workshop.clock.now()
    with database.reading() as connection:
        sha = connection.execute("SELECT sha FROM photos WHERE number = ?", [number]).fetchone()[0]
        k = connection.execute("SELECT max(k) FROM inbox WHERE kind = 'text'").fetchone()[0]
    cookies = {
        "owner": (CHAT_COOKIE, visitor.client.cookies[CHAT_COOKIE]),
        "visitor": (CHAT_COOKIE, fresh_visitor().token),
        "nobody": ("other", "x" * 43),
    }
    for name in (*Role, "left"):
        role = Role(name) if name in frozenset(Role) else Role.OPERATOR
        staff.invite(database, now, f"one-{name}", role)
        cookies[name] = (DESK_COOKIE, staff.make_pass(database, f"one-{name}", now))
    staff.remove(database, now, "one-left")
    code = staff.invite(database, now, "one-newest")
    paper = re.findall(r"/files/paper/(\d+)\.pdf", page)[-1]
    values = {
        "paper/{seq:int}": f"paper/{paper}", "{kind}": "work-order",
        "{number}": number, "{sha}": sha, "{seq:int}": seq, "{k:int}": str(k), "{code}": code,
        "{language}": "en", "{name}": "side_to_side", "{version:int}": "1", "{item:int}": "1",
    }  # fmt: skip
    return SimpleNamespace(address=site.address, cookies=cookies, values=values)


def asked(ordered: Any, path: str, actor: str) -> tuple[int, str]:
    """The status of this address for somebody, and the page; of a stream no more than its head."""
    for name, value in ordered.values.items():
        path = path.replace(name, value)
    headers = {"cookie": "=".join(ordered.cookies[actor])}
    with httpx.stream("GET", ordered.address + path, headers=headers, timeout=20) as answer:
        if "event-stream" in answer.headers.get("content-type", ""):
            return answer.status_code, ""
        answer.read()
        return answer.status_code, answer.text


def test_every_address_that_is_read_has_a_row() -> None:
    """One without is nobody's decision."""
    routes = build(SimpleNamespace(hosts=())).routes  # type: ignore[arg-type]
    read = {
        route.path for route in routes
        if isinstance(route, Route) and "GET" in (route.methods or ())
    }  # fmt: skip
    assert read == set(READS)


@pytest.mark.parametrize("path", sorted(READS))
def test_an_address_is_read_by_whom_the_table_names(ordered: Any, path: str) -> None:
    """Everybody else is refused, or finds no such file."""
    for actor in ACTORS:
        status, _ = asked(ordered, path, actor)
        allowed = "all" in READS[path] or actor in READS[path]
        assert (status in (200, 303, 307)) == allowed, (path, actor, status)
        assert status in (200, 303, 307, 403, 404), (path, actor, status)


@pytest.mark.parametrize("role", list(Role))
@pytest.mark.parametrize("path", ["/desk", "/desk/order/{number}"])
def test_of_an_order_each_role_sees_what_the_table_names(
    ordered: Any, path: str, role: Role
) -> None:
    """In the queue and on its own page."""
    status, page = asked(ordered, path, role)
    assert status == 200
    assert (CONTACT in page) == (role in SEES["contact"])
    if path != "/desk":
        assert (f"/files/photo/{ordered.values['{sha}']}" in page) == (role in SEES["photos"])
        status, _ = asked(ordered, f"/files/order/{ordered.values['{number}']}/labels.pdf", role)
        assert (status == 200) == (role in SEES["labels"])
        assert ("/labels.pdf" in page) == (role in SEES["labels"])
        assert ("361 mm" in page) == (role in SEES["sizes"])
