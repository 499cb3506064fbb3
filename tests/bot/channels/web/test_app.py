"""The application as a whole."""

from __future__ import annotations

from typing import Any

import httpx


def test_the_bare_address_leads_to_the_chat(site: Any) -> None:
    """Whoever types only the name of the machine gets where they want."""
    assert httpx.get(f"{site.address}/").headers["location"] == "/chat"


def test_style_and_script_are_served_and_asked_for_anew(site: Any) -> None:
    """A new version of the program shows at once, and an unchanged file is not sent again."""
    for name, kind in (("look.css", "text/css"), ("chat.js", "javascript"), ("icon.svg", "svg")):
        answer = httpx.get(f"{site.address}/static/{name}")
        assert answer.status_code == 200
        assert kind in answer.headers["content-type"]
        assert answer.headers["cache-control"] == "no-cache"
        known = {"if-none-match": answer.headers["etag"]}
        assert httpx.get(f"{site.address}/static/{name}", headers=known).status_code == 304


def test_pages_are_never_kept_by_the_browser(visitor: Any) -> None:
    """Somebody else at the same machine does not see them by going back."""
    visitor.begin()
    assert visitor.page.headers["cache-control"] == "no-store"
