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


def test_a_day_of_five_orders(busy: Any, new_context: Callable[..., Any]) -> None:
    """One clears, the other is told; each page follows what the other does; no script fails."""
    jan = new_context().new_page()
    complaints: list[str] = []
    jan.on("pageerror", lambda error: complaints.append(str(error)))
    jan.goto(busy.link)
    assert jan.locator(".queue a").count() == 5

    jan.get_by_role("link", name="Who works here").click()
    jan.get_by_label("Name").fill("maria")
    jan.get_by_role("button", name="Invite somebody").click()
    link = jan.locator(".told code").first.inner_text()
    maria = new_context().new_page()
    maria.on("pageerror", lambda error: complaints.append(str(error)))
    maria.goto(link)

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
    maria.get_by_role("button", name="Ask the beekeeper").last.click()
    maria.locator(".told.done").wait_for()
    maria.goto(f"{busy.address}/desk/order/{number}")
    for name in ("Give it to the bench", "It is made", "It is posted"):
        maria.get_by_role("button", name=name).click()
        maria.locator(".told.done").wait_for()
    jan.goto(f"{busy.address}/desk/order/{number}")
    jan.locator("strong", has_text="posted").first.wait_for()
    assert "Each chain" in jan.content()
    assert complaints == []
