"""What keeps strangers, other sites and too much of anything out."""

from __future__ import annotations

import socket
from typing import Any

import httpx
import pytest

from bot.channels.web.guard import HEADERS, host_name

LIMIT = 20 * 1024 * 1024


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example", "localhost:1", "", "@"])
def test_only_allowed_names_are_answered(site: Any, host: str) -> None:
    """A page of another site reaches us only under its own name, and gets nothing."""
    answer = httpx.get(f"{site.address}/health", headers={"host": host})
    assert answer.status_code in (400, 421)
    assert "version" not in answer.text


def test_an_allowed_name_may_carry_a_port(site: Any) -> None:
    """The port in `Host` is not part of the name."""
    answer = httpx.get(f"{site.address}/health", headers={"host": "127.0.0.1:9"})
    assert answer.status_code == 200


def test_two_host_headers_are_one_too_many(site: Any) -> None:
    """A request that names two hosts is not answered as either."""
    address = site.address.removeprefix("http://").split(":")
    with socket.create_connection((address[0], int(address[1])), timeout=5) as line:
        line.sendall(b"GET /health HTTP/1.1\r\nHost: 127.0.0.1\r\nHost: evil.example\r\n\r\n")
        assert line.recv(100).split()[1] in (b"400", b"421")


@pytest.mark.parametrize(
    ("host", "name"),
    [
        ("Localhost:8765", "localhost"),
        ("127.0.0.1", "127.0.0.1"),
        ("[::1]:8765", "[::1]"),
        ("[::1]", "[::1]"),
        (" a.example ", "a.example"),
        ("a:b", "a:b"),
    ],
)
def test_the_name_is_what_stands_before_the_port(host: str, name: str) -> None:
    """Only digits after the last colon are a port."""
    assert host_name(host) == name


@pytest.mark.parametrize("path", ["/chat", "/desk", "/health", "/static/look.css", "/nowhere"])
def test_every_answer_carries_the_headers(site: Any, path: str) -> None:
    """Nothing but our own files runs, is shown or framed, whatever the page."""
    answer = httpx.get(f"{site.address}{path}")
    assert {name: answer.headers.get(name) for name in HEADERS} == HEADERS
    assert "unsafe" not in answer.headers["content-security-policy"]
    assert "cache-control" in answer.headers


def test_pages_hold_no_script_or_style_of_their_own(visitor: Any) -> None:
    """The policy forbids them, so that none must be there."""
    html = visitor.begin()
    assert "<style" not in html
    assert " style=" not in html
    assert " onclick" not in html
    assert html.count("<script") == html.count('<script src="/static/')


def test_a_form_that_is_too_long_is_refused(visitor: Any) -> None:
    """What says it is too long is not read; the answer says what would do."""
    visitor.begin()
    answer = visitor.client.post("/chat/edit", data={"text": "x" * 100_000})
    assert answer.status_code == 413


def test_a_body_that_hides_its_length_is_cut_off(visitor: Any) -> None:
    """Sent in pieces without a length, it is refused as soon as it is too long."""
    visitor.begin()
    pieces = (b"x" * 10_000 for _ in range(20))
    headers = {"content-type": "application/x-www-form-urlencoded"}
    answer = visitor.client.post("/chat/edit", content=pieces, headers=headers)
    assert answer.status_code == 413


def test_nothing_is_read_from_who_has_no_cookie(site: Any) -> None:
    """A large body from nowhere is refused without a look at it."""
    pieces = (b"x" * 10_000 for _ in range(2))
    headers = {"content-type": "application/x-www-form-urlencoded"}
    answer = httpx.post(f"{site.address}/chat/send", content=pieces, headers=headers)
    assert answer.status_code == 403


def test_a_text_that_is_too_long_is_refused(visitor: Any) -> None:
    """No answer to any question has five thousand letters."""
    visitor.begin()
    answer = visitor.post(visitor.form(), text="x" * 5000)
    assert answer.status_code == 413
    assert "4000" in answer.text


def test_a_photo_that_is_too_large_is_refused(visitor: Any) -> None:
    """Above twenty megabytes, the form or the photo in it, the answer is the same kind line."""
    visitor.begin()
    form = visitor.form()
    for size in (LIMIT + 1, LIMIT + 200_000):
        answer = visitor.client.post(
            form.action, data=form.fields, files={"photo": ("a.jpg", b"x" * size, "image/jpeg")}
        )
        assert answer.status_code == 413
        assert "20 MB" in answer.text


def test_other_ways_to_ask_are_refused(site: Any) -> None:
    """Reading addresses take no forms, and sending addresses show no page."""
    assert httpx.post(f"{site.address}/chat").status_code == 405
    assert httpx.get(f"{site.address}/chat/send").status_code == 405
    assert httpx.get(f"{site.address}/static/../app.py").status_code == 404
    assert httpx.get(f"{site.address}/static/%2e%2e/app.py").status_code == 404
