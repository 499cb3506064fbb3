"""Replies that come by themselves."""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from typing import Any

import httpx
import pytest

from bot.channels.web.live import STREAMS_EACH
from bot.desk import staff
from conversations.review import Role


def keys(html: str) -> list[str]:
    """The keys of the bubbles on a page, in order."""
    return re.findall(r'<li class="bubble \w+" id="(\w+)"', html)


def pieces(stream: httpx.Response) -> Iterator[dict[str, str]]:
    """What comes over the stream, piece by piece, without the lines that only say "here"."""
    piece: dict[str, str] = {}
    for line in stream.iter_lines():
        name, colon, value = line.partition(": ")
        if line == "":
            if piece and set(piece) != {"retry"}:
                yield piece
            piece = {}
        elif colon and name:
            piece[name] = piece.get(name, "") + value


def test_the_page_gets_what_comes_after_what_it_shows(visitor: Any) -> None:
    """Nothing twice, nothing left out: the stream begins after the last bubble of the page."""
    shown = keys(visitor.begin())
    visitor.tap("isolate")
    now = keys(visitor.page.text)
    with visitor.client.stream("GET", f"/chat/live?after={shown[-1]}") as stream:
        assert stream.headers["content-type"].startswith("text/event-stream")
        news = pieces(stream)
        came = [next(news)["id"] for _ in now[len(shown) :]]
    assert came == now[len(shown) :]


def test_a_reply_comes_while_the_page_is_open(visitor: Any, monkeypatch: Any) -> None:
    """What is sent in another window shows in this one at once, and so does its reply."""
    monkeypatch.setattr("bot.channels.web.live.STILL_HERE", 60.0)
    visitor.client.timeout = 5
    visitor.begin()
    last = keys(visitor.page.text)[-1]
    with visitor.client.stream("GET", f"/chat/live?after={last}") as stream:
        came = pieces(stream)
        visitor.tap("isolate")
        assert "Only the queen" in next(came)["data"]
        assert "Name of the frame" in next(came)["data"]


def test_a_browser_that_comes_back_names_what_it_had(visitor: Any) -> None:
    """After a lost connection the browser's own header says where to go on."""
    visitor.begin()
    shown = keys(visitor.page.text)
    headers = {"last-event-id": shown[-2]}
    with visitor.client.stream("GET", "/chat/live?after=i1", headers=headers) as stream:
        assert next(pieces(stream))["id"] == shown[-1]


def test_a_page_that_shows_something_unknown_is_loaded_anew(visitor: Any) -> None:
    """A page from before an erasure, or a made-up key, cannot be carried on."""
    visitor.begin()
    with visitor.client.stream("GET", "/chat/live?after=o999999") as stream:
        assert "event: reload" in list(stream.iter_lines())


def test_a_changed_message_is_shown_changed(visitor: Any) -> None:
    """An edit replaces the bubble at its place and does not move where the stream stands."""
    visitor.begin()
    visitor.tap("isolate")
    visitor.tap("dont-know")
    visitor.say("365 mm")
    shown = keys(visitor.page.text)
    with visitor.client.stream("GET", f"/chat/live?after={shown[-1]}") as stream:
        came = pieces(stream)
        visitor.open("/chat/edit/2")
        visitor.post(visitor.form("/chat/edit"), text="361 mm")
        changed = next(came)
        assert "id" not in changed
        assert f'id="{shown[-2]}"' in changed["data"]
        assert "361 mm" in changed["data"]
        assert next(came)["id"] not in shown


def test_nobody_listens_to_a_stranger(new_visitor: Any) -> None:
    """Without a cookie there is no stream."""
    assert new_visitor().client.get("/chat/live").status_code == 403


def test_a_person_has_only_so_many_windows(visitor: Any, site: Any) -> None:
    """A script that opens streams without end is stopped, and closed ones count no more."""
    last = keys(visitor.begin())[-1]
    streams = [
        visitor.client.stream("GET", f"/chat/live?after={last}") for _ in range(STREAMS_EACH)
    ]
    for stream in streams:
        stream.__enter__()
    try:
        assert visitor.client.get(f"/chat/live?after={last}").status_code == 429
    finally:
        for stream in streams:
            stream.__exit__(None, None, None)
    until = time.monotonic() + 5
    while site.parts.streams and time.monotonic() < until:
        time.sleep(0.02)
    assert not site.parts.streams


@pytest.mark.slow
def test_a_silent_stream_says_that_it_is_still_there(visitor: Any, monkeypatch: Any) -> None:
    """Something between that closes silent lines must not close this one."""
    monkeypatch.setattr("bot.channels.web.live.STILL_HERE", 0.2)
    last = keys(visitor.begin())[-1]
    with visitor.client.stream("GET", f"/chat/live?after={last}") as stream:
        lines = stream.iter_lines()
        assert any(line == ": still here" for _, line in zip(range(10), lines, strict=False))


def test_the_desk_is_told_when_something_changed(desk: Any, visitor: Any, site: Any) -> None:
    """An order that comes in rings on every page of the desk that is open."""
    desk.client.timeout = 5
    desk.open("/desk")
    with desk.client.stream("GET", "/desk/live") as stream:
        came = pieces(stream)
        visitor.order()
        assert next(came)["event"] == "news"


def test_the_stream_of_who_leaves_ends(site: Any, clock: Any, new_visitor: Any, desk: Any) -> None:
    """With their next piece of news, which is that they left; then it does not open again."""
    code = staff.invite(site.workshop.database, clock.now(), "paula", Role.DESK)
    paula = new_visitor()
    paula.enter(code)
    paula.client.timeout = 5
    with paula.client.stream("GET", "/desk/live") as stream:
        lines = stream.iter_lines()
        assert next(lines).startswith("retry")
        desk.open("/desk/staff")
        form = next(
            form for form in desk.forms()
            if (form.fields.get("verb"), form.fields.get("name")) == ("remove", "paula")
        )  # fmt: skip
        desk.post(form)
        assert "event: news" not in list(lines)
    assert paula.client.get("/desk/live").status_code == 403


def test_a_member_of_staff_has_only_so_many_windows(desk: Any) -> None:
    """As everybody else."""
    streams = [desk.client.stream("GET", "/desk/live") for _ in range(STREAMS_EACH)]
    for stream in streams:
        stream.__enter__()
    try:
        with desk.client.stream("GET", "/desk/live") as one_more:
            assert one_more.status_code == 429
    finally:
        for stream in streams:
            stream.__exit__(None, None, None)
