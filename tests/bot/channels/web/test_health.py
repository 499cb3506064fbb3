"""What a machine that watches the program gets to know."""

from __future__ import annotations

from typing import Any

import httpx


def test_health_names_the_oldest_that_waits(site: Any, visitor: Any, clock: Any) -> None:
    """The moment of the oldest unsent message, and nothing of what it says."""
    visitor.begin()
    answer = httpx.get(f"{site.address}/health").json()
    told = {
        "inbox_oldest_waiting": None,
        "outbox_oldest_waiting": "2026-03-02T09:00:00.000Z",
        "last_poll": None,
        "poll_trouble": None,
        "version": "1.2.3",
    }
    assert {name: answer[name] for name in told} == told


def test_health_is_quiet_when_all_is_out(site: Any, visitor: Any) -> None:
    """Nothing waits once the messages are marked as sent."""
    visitor.begin()
    outbox = site.workshop.outbox
    outbox.mark_sent([letter.seq for letter in outbox.backlog()])
    assert httpx.get(f"{site.address}/health").json()["outbox_oldest_waiting"] is None
