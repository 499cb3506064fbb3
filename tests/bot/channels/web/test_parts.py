"""What the pages are made from."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request

from bot.channels.web.app import build
from bot.channels.web.parts import parts_of


def test_every_request_finds_the_parts_of_its_application(site: Any) -> None:
    """Two applications in one process do not mix."""
    app = build(site.parts)
    assert parts_of(Request({"type": "http", "app": app})) is site.parts
