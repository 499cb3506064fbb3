"""The program is stopped and started again while a page is open."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest

pytestmark = pytest.mark.browser


def test_an_order_is_carried_on_after_a_restart(new_chat: Callable[..., Any], server: Any) -> None:
    """The page says that the connection is gone, finds it again by itself, and goes on."""
    chat = new_chat()
    chat.begin("en")
    chat.tap("isolate")
    chat.tap("dont-know")
    bubbles = chat.page.locator(".bubble").all_inner_texts()
    assert server.stop() == 0
    chat.page.locator("#state", has_text="No connection").wait_for()
    server.start()
    chat.page.locator("#state", has_text=re.compile("^$")).wait_for(state="attached")
    assert chat.page.locator(".bubble").all_inner_texts() == bubbles
    assert "Top to bottom" in chat.say("361 mm")
    chat.page.reload()
    assert len(chat.page.locator(".bubble").all()) == len(bubbles) + 2
    assert re.search(r"\d{3}\s\d{3}\s\d{2}", chat.answer_the_rest())


def test_what_is_sent_into_the_gap_arrives_once(new_chat: Callable[..., Any], server: Any) -> None:
    """An answer given while nobody listens is tried until it is taken, and counts once."""
    chat = new_chat()
    chat.begin("en")
    chat.tap("isolate")
    chat.tap("dont-know")
    assert server.stop() == 0
    count = chat.page.locator(".ours").count()
    chat.page.locator("#text").fill("361 mm")
    chat.page.locator("#text").press("Enter")
    chat.page.locator("#state", has_text="Not sent yet").wait_for()
    server.start()
    chat.page.locator(".ours").nth(count).wait_for()
    assert "Top to bottom" in chat.newest()
    assert chat.page.locator(".mine .words").all_inner_texts().count("361 mm") == 1
    assert chat.page.locator("#text").input_value() == ""
