"""A day at the desk: five orders, two members of staff, and one order both want to clear."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from bot.commands import demo
from bot.settings import load_settings

pytestmark = pytest.mark.browser


@pytest.fixture
def busy(idle_server: Any) -> Any:
    """A server whose workshop has five orders."""
    server = idle_server
    database, key = server.folder / "data" / "shop.db", server.folder / "secret" / "key"
    database.parent.mkdir(parents=True)
    demo.make(load_settings(database=database, key_file=key))
    server.start()
    return server


def enter(page: Any, link: str) -> None:
    """Open a sign-in link and press its one button."""
    page.goto(link)
    page.locator("button.strong").click()
    page.wait_for_url("**/desk")


def invited(operator: Any, new_context: Callable[..., Any], name: str) -> Any:
    """A page of somebody whom the operator has just invited."""
    operator.get_by_role("link", name="Who works here").click()
    operator.get_by_label("Name").fill(name)
    operator.get_by_role("button", name="Invite somebody").click()
    page = new_context().new_page()
    enter(page, operator.locator(".told code").first.inner_text())
    return page


def test_a_day_of_five_orders(busy: Any, new_context: Callable[..., Any]) -> None:
    """One clears, the other is told; each page follows what the other does; no script fails."""
    jan = new_context().new_page()
    complaints: list[str] = []
    jan.on("pageerror", lambda error: complaints.append(str(error)))
    enter(jan, busy.link)
    assert jan.locator(".queue a").count() == 5

    maria = invited(jan, new_context, "maria")
    maria.on("pageerror", lambda error: complaints.append(str(error)))

    # Both open the order that waits longest. Jan clears it; Maria's page follows by itself.
    jan.goto(f"{busy.address}/desk")
    jan.locator(".queue a").first.click()
    maria.locator(".queue a").first.click()
    for page in (jan, maria):
        page.wait_for_url("**/desk/order/*")
    number = maria.url.rpartition("/")[2]
    maria.keyboard.press("n")
    maria.locator("#note-note").fill("walnut frames")
    jan.keyboard.press("c")
    jan.keyboard.press("Enter")
    jan.locator(".told.done").wait_for()

    # Maria was writing: her words stay, she is told, and her own clearing is refused.
    maria.locator("#changed").wait_for(state="visible")
    assert maria.locator("#note-note").input_value() == "walnut frames"
    maria.get_by_role("button", name="Clear version").click()
    maria.locator(".told", has_text="can't be done").wait_for()

    # The rest of the day: asked, turned down, given to the bench, made, posted.
    maria.goto(f"{busy.address}/desk")
    maria.locator(".queue tr", has_text="handed in").first.locator("a").click()
    maria.wait_for_url("**/desk/order/*")
    maria.keyboard.press("a")
    maria.locator("#measure").select_option("lug_room")
    maria.locator("#ask-note").fill("The lid has to close here.")
    maria.get_by_role("button", name="Show it first").click()
    maria.locator(".bubble", has_text="The lid has to close here.").first.wait_for()
    maria.locator(".bubble img").first.evaluate("image => image.decode()")
    maria.get_by_role("button", name="Send this question").click()
    maria.locator(".told.done").wait_for()
    maria.goto(f"{busy.address}/desk/order/{number}")
    for name in ("Give it to the bench", "It is made", "It is posted"):
        maria.get_by_role("button", name=name).click()
        maria.locator(".told.done").wait_for()
    jan.goto(f"{busy.address}/desk/order/{number}")
    jan.locator("strong", has_text="posted").first.wait_for()
    assert "Each chain" in jan.content()
    assert complaints == []


def signed_in(busy: Any, new_context: Callable[..., Any], **options: Any) -> Any:
    """A page of the desk; the link works once, so others come with the first one's pass."""
    state = getattr(busy, "state", None)
    context = new_context(storage_state=state, **options)
    page = context.new_page()
    if state is not None:
        page.goto(f"{busy.address}/desk")
    else:
        enter(page, busy.link)
        busy.state = context.storage_state()
    return page


def orders(page: Any) -> list[str]:
    """The addresses of the orders in the queue, in its order."""
    found = page.locator(".queue a").evaluate_all("links => links.map(link => link.href)")
    return [str(address) for address in found]


def test_news_leave_an_open_form_and_a_made_choice_alone(
    busy: Any, new_context: Callable[..., Any]
) -> None:
    """Not only words: whoever opened a form or chose a measure keeps it, and is told."""
    jan = signed_in(busy, new_context)
    maria = invited(jan, new_context, "maria")
    address = orders(maria)[0]
    maria.goto(address)
    maria.keyboard.press("a")
    maria.locator("#measure").select_option("lug_room")
    jan.goto(address)
    jan.get_by_role("button", name="Take it on").click()
    jan.locator(".told.done").wait_for()
    assert "told" not in jan.url
    maria.locator("#changed").wait_for(state="visible")
    assert maria.locator("#measure").input_value() == "lug_room"


def test_of_two_who_clear_at_once_one_is_told(busy: Any, new_context: Callable[..., Any]) -> None:
    """Both look at the same version and press; the order is cleared once."""
    jan = signed_in(busy, new_context)
    pages = [jan, invited(jan, new_context, "maria")]
    address = orders(pages[1])[0]
    for page in pages:
        page.route("**/desk/live", lambda route: route.abort())  # neither learns of the other
        page.goto(address)
    for page in pages:
        page.get_by_role("button", name="Clear version").click(no_wait_after=True)
    for page in pages:
        page.locator(".told:visible").wait_for()
    told = [page.locator(".told[role=status]:visible").inner_text() for page in pages]
    assert sorted(text.startswith("Not done:") for text in told) == [False, True]
    assert pages[0].locator("li", has_text="cleared").count() == 1


def test_the_keyboard_is_enough_to_clear(busy: Any, new_context: Callable[..., Any]) -> None:
    """Down the queue, into an order, clear it, back; a key typed into words is a letter."""
    page = signed_in(busy, new_context)
    first, second = orders(page)[:2]
    for key in ("j", "j", "k", "j", "Enter"):
        page.keyboard.press(key)
    page.wait_for_url(second)
    page.keyboard.press("n")
    page.keyboard.type("cqt")
    assert page.locator("#note-note").input_value() == "cqt"
    page.locator("#note-note").fill("")
    page.locator("h2").click()
    page.keyboard.press("c")
    page.keyboard.press("Enter")
    page.locator(".told.done").wait_for()
    page.keyboard.press("q")
    page.wait_for_url("**/desk")
    assert first in orders(page)


@pytest.mark.parametrize("locale", ["en-GB", "pl-PL"])
def test_all_of_it_fits_a_phone(busy: Any, new_context: Callable[..., Any], locale: str) -> None:
    """No page is wider than the screen, what is to be tapped is large, no script complains."""
    page = signed_in(busy, new_context, locale=locale, has_touch=True, is_mobile=True)
    complaints: list[str] = []
    page.on("pageerror", lambda error: complaints.append(str(error)))
    addresses = orders(page)
    for address in (f"{busy.address}/desk", f"{busy.address}/desk/staff", *addresses):
        page.goto(address)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390, address
    page.goto(addresses[0])
    page.locator("details[data-key=a] summary").click()
    page.locator("button[formaction]").click()
    page.locator(".bubble img").first.wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    things = page.locator("main button:visible, .verbs summary:visible")
    assert things.count() >= 2
    heights = [things.nth(place).bounding_box()["height"] for place in range(things.count())]
    assert min(heights) >= 44
    for address in (f"{busy.address}/desk", f"{busy.address}/desk/staff"):
        page.goto(address)
        things = page.locator("main a:visible, main button:visible, main input:visible, select")
        boxes = [things.nth(place).bounding_box() for place in range(things.count())]
        assert [box for box in boxes if box["height"] < 44] == [], address
    assert complaints == []


def test_without_javascript_an_order_goes_its_way(
    busy: Any, new_context: Callable[..., Any]
) -> None:
    """Read the question, send it, take the answer of another order, clear it, keep a note."""
    page = signed_in(busy, new_context, java_script_enabled=False)
    first, second = orders(page)[:2]
    page.goto(second)
    page.locator("details[data-key=a] summary").click()
    page.locator("button[formaction]").click()
    page.locator(".rehearsed button.strong").click()
    assert page.locator(".told.done").count() == 1
    page.goto(first)
    page.get_by_role("button", name="Clear version").click()
    assert page.locator(".told.done").count() == 1
    page.locator("details[data-key=n] summary").click()
    page.locator("#note-note").fill("walnut frames")
    page.get_by_role("button", name="Keep a note").last.click()
    assert page.locator(".words", has_text="walnut frames").count() == 1
