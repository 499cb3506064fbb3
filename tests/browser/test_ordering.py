"""A whole order in a real browser, on a screen as large as a phone's."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest

pytestmark = pytest.mark.browser

NUMBER = re.compile(r"\d{3}\s\d{3}\s\d{2}")
TOUCHED = 44
"""[pixels] what a finger in a glove meets."""


@pytest.mark.parametrize(("language", "locale"), [("en", "en-GB"), ("pl", "pl-PL")])
def test_from_opening_the_page_to_the_number(
    new_chat: Callable[..., Any], a_photo: bytes, language: str, locale: str
) -> None:
    """Every question answered, a photo sent, handed in; nothing goes past the screen's edge."""
    chat = new_chat(locale=locale)
    chat.begin(language)
    assert chat.page.locator("html").get_attribute("lang") == language
    chat.tap("isolate")
    chat.tap("dont-know")
    chat.photo(a_photo)
    shown = chat.page.locator(".mine img.photo")
    shown.evaluate("image => image.decode()")
    assert shown.evaluate("image => image.naturalWidth") == 1600
    assert "361 mm" in chat.say("361 mm")
    assert NUMBER.search(chat.answer_the_rest())
    assert chat.width() <= 390
    assert chat.complaints == []


def test_everything_to_tap_is_large_enough(new_chat: Callable[..., Any]) -> None:
    """Buttons, fields and the menu can be met with gloves on."""
    chat = new_chat()
    chat.begin("en")
    chat.page.locator(".menu summary").click()
    things = chat.page.locator("button:visible, summary:visible, input[type=text]:visible")
    heights = [things.nth(place).bounding_box()["height"] for place in range(things.count())]
    assert len(heights) > 12
    assert min(heights) >= TOUCHED


def test_the_newest_message_is_in_sight(new_chat: Callable[..., Any]) -> None:
    """A reply that comes in is scrolled to; after a reload the page stands there again."""
    chat = new_chat()
    chat.begin("en")
    chat.tap("isolate")
    for _ in range(2):
        box = chat.page.locator(".ours").last.bounding_box()
        foot = chat.page.locator("footer").bounding_box()
        assert 0 < box["y"] < foot["y"]
        assert box["y"] + box["height"] <= foot["y"] + 1
        chat.page.reload()


def test_only_the_newest_message_has_buttons(new_chat: Callable[..., Any]) -> None:
    """An older message shows none: it is changed from the menu or by its own edit."""
    chat = new_chat()
    chat.begin("en")
    chat.tap("isolate")
    assert chat.page.locator(".choices").count() == 3
    assert chat.page.locator(".choices:visible").count() == 1


def test_an_own_message_is_changed_in_place(new_chat: Callable[..., Any]) -> None:
    """The edit opens in the bubble; afterwards the bubble says what it was changed to."""
    chat = new_chat()
    chat.begin("en")
    chat.tap("isolate")
    chat.tap("dont-know")
    chat.say("365 mm")
    bubble = chat.page.locator(".mine").last
    bubble.locator("a.edit").click()
    field = bubble.locator("input[name=text]")
    assert field.input_value() == "365 mm"
    field.fill("361 mm")
    count = chat.page.locator(".ours").count()
    field.press("Enter")
    chat.page.locator(".ours").nth(count).wait_for()
    assert "361 mm" in chat.newest()
    assert chat.page.locator(".mine .words").last.inner_text() == "361 mm"
    assert "changed" in chat.page.locator(".mine").last.inner_text()
    assert chat.complaints == []


def test_the_keyboard_is_enough(new_chat: Callable[..., Any]) -> None:
    """Menu and answers without a pointer; Escape closes the menu."""
    chat = new_chat()
    chat.begin("en")
    page = chat.page
    page.locator(".menu summary").focus()
    page.keyboard.press("Enter")
    page.locator(".menu button").first.wait_for()
    page.keyboard.press("Escape")
    assert page.locator(".menu button:visible").count() == 0
    page.locator(".choices button:visible").first.focus()
    count = page.locator(".ours").count()
    page.keyboard.press("Enter")
    page.locator(".ours").nth(count).wait_for()
    assert "Name of the frame" in chat.newest()


def test_two_windows_show_the_same(new_chat: Callable[..., Any], server: Any) -> None:
    """What is answered in one stands in the other without a reload."""
    chat = new_chat()
    chat.begin("en")
    other = chat.page.context.new_page()
    other.goto(f"{server.address}/chat")
    chat.tap("isolate")
    other.locator(".mine", has_text="Only the queen").wait_for()
    assert other.locator(".bubble").count() == chat.page.locator(".bubble").count()


def test_without_javascript_an_order_can_be_filled(new_chat: Callable[..., Any]) -> None:
    """Forms alone: taps, typed answers, the menu and the change of a message."""
    chat = new_chat(java_script_enabled=False)
    chat.begin("en")
    chat.tap("isolate")
    chat.tap("dont-know")
    assert "Top to bottom" in chat.say("365 mm")
    page = chat.page
    page.locator("a.edit").last.click()
    page.locator("#text").fill("361 mm")
    page.locator("button.strong").click()
    assert "361 mm" in chat.newest()
    page.locator(".menu summary").click()
    page.locator("button[value='/help']").click()
    assert page.url.endswith("/chat#newest")
    assert "361 mm" in page.locator(".mine .words").all_inner_texts()
    assert chat.width() <= 390


def test_a_photo_goes_without_javascript(new_chat: Callable[..., Any], a_photo: bytes) -> None:
    """The file is chosen, then sent with the form."""
    chat = new_chat(java_script_enabled=False)
    chat.begin("en")
    chat.tap("isolate")
    chat.tap("dont-know")
    file = {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": a_photo}
    chat.page.locator("#photo").set_input_files(file)
    chat.page.locator(".composer button").click()
    chat.page.locator(".mine img.photo").wait_for()
    assert chat.page.locator(".mine img.photo").count() == 1


def test_what_is_no_photo_is_told_in_the_chat(new_chat: Callable[..., Any]) -> None:
    """One line above the field; the chat goes on."""
    chat = new_chat()
    chat.begin("en")
    file = {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": b"no photo"}
    chat.page.locator("#photo").set_input_files(file)
    chat.page.locator("#state", has_text="no JPEG, PNG or WebP").wait_for()
    assert "Name of the frame" in chat.tap("isolate")


def test_the_order_is_seen_and_cleared_at_the_desk(
    new_chat: Callable[..., Any], new_context: Callable[..., Any], server: Any
) -> None:
    """Staff open the link, clear the order; the beekeeper's page says so by itself."""
    chat = new_chat()
    chat.begin("en")
    chat.tap("isolate")
    chat.tap("dont-know")
    chat.say("361 mm")
    chat.answer_the_rest()
    desk = new_context().new_page()
    desk.goto(server.link)
    desk.locator("button.strong").click()
    desk.locator(".queue a").first.click()
    picture = desk.locator("img.cage")
    picture.evaluate("image => image.decode()")
    assert desk.evaluate("document.documentElement.scrollWidth") <= 390
    desk.get_by_role("button", name="Clear version 1").click()
    desk.locator(".told.done").wait_for()
    chat.page.locator(".ours", has_text="is cleared:").wait_for()
    assert chat.complaints == []
