"""Replies as they come: a stream that a page listens to, and that ends when we do.

Each piece is one bubble as HTML under its key. The page says which bubble it showed last, so
that after a lost connection or a restart it gets what is missing and nothing twice.
"""

from __future__ import annotations

import asyncio
from collections import Counter
from collections.abc import AsyncIterator, Callable, Sequence
from contextlib import suppress
from typing import TypeAlias

from starlette.concurrency import run_in_threadpool
from starlette.responses import StreamingResponse

from bot.bell import Ear
from bot.channels.web.bubbles import Mine, Ours, after
from bot.channels.web.identity import Visitor
from bot.channels.web.page import part
from bot.channels.web.parts import Parts
from bot.channels.web.trouble import Trouble

__all__ = ["STREAMS_EACH", "changes", "stream"]

STREAMS_EACH = 6
"""So many windows of one person are kept up to date at once."""
STILL_HERE = 15.0
"""[s] after so long without news a line goes out, so that nothing between takes us for dead."""
COME_BACK = 1500
"""[ms] so long a page waits before it asks again after the stream has ended."""

Stands: TypeAlias = Callable[[], tuple[str, list[Mine | Ours]]]


def stream(parts: Parts, who: Visitor, stands: Stands, shown: str) -> StreamingResponse:
    """The bubbles after the one whose key is `shown`, and all that come later."""
    return _counted(parts, who.person, _pieces(parts, who, stands, shown))


def _counted(parts: Parts, whose: str, pieces: AsyncIterator[str]) -> StreamingResponse:
    """A stream that counts as a window of its listener as long as it is open."""
    open_streams: Counter[str] = parts.streams
    if open_streams[whose] >= STREAMS_EACH:
        raise Trouble(429, "fast", seconds=60)

    async def counted() -> AsyncIterator[str]:
        open_streams[whose] += 1
        try:
            async for piece in pieces:
                yield piece
        finally:
            open_streams[whose] -= 1
            if not open_streams[whose]:
                del open_streams[whose]

    headers = {"X-Accel-Buffering": "no"}
    return StreamingResponse(counted(), media_type="text/event-stream", headers=headers)


async def _pieces(parts: Parts, who: Visitor, stands: Stands, shown: str) -> AsyncIterator[str]:
    yield f"retry: {COME_BACK}\n\n"
    changed: dict[str, str] | None = None
    with parts.bell.listen(who.person) as ear:
        while not parts.stop.is_set():
            language, all_bubbles = await run_in_threadpool(stands)
            fresh = after(all_bubbles, shown)
            if fresh is None:
                yield "event: reload\ndata:\n\n"
                return
            edits = {
                one.key: one.text for one in all_bubbles if isinstance(one, Mine) and one.changed
            }
            for bubble in _newly_changed(all_bubbles, edits, changed, fresh):
                yield _frame(bubble, who, language, kept=False)
            for bubble in fresh:
                yield _frame(bubble, who, language, kept=True)
                shown = bubble.key
            changed = edits
            if not await _news(ear, parts.stop):
                yield ": still here\n\n"


def changes(
    parts: Parts, mailbox: str, whose: str, welcome: Callable[[], bool]
) -> StreamingResponse:
    """One line each time something new is said to this mailbox, while its listener is welcome."""
    return _counted(parts, whose, _changes(parts, mailbox, welcome))


async def _changes(parts: Parts, mailbox: str, welcome: Callable[[], bool]) -> AsyncIterator[str]:
    yield f"retry: {COME_BACK}\n\n"
    with parts.bell.listen(mailbox) as ear:
        while not parts.stop.is_set():
            came = await _news(ear, parts.stop)
            if parts.stop.is_set() or not await run_in_threadpool(welcome):
                return
            yield "event: news\ndata:\n\n" if came else ": still here\n\n"


def _newly_changed(
    all_bubbles: Sequence[Mine | Ours],
    edits: dict[str, str],
    before: dict[str, str] | None,
    fresh: Sequence[Mine | Ours],
) -> list[Mine | Ours]:
    """The bubbles on the page that were changed since the stream last looked."""
    if before is None:
        return []
    new = {key for key, text in edits.items() if before.get(key) != text}
    return [one for one in all_bubbles if one.key in new and one not in fresh]


def _frame(bubble: Mine | Ours, who: Visitor, language: str, *, kept: bool) -> str:
    """One bubble on its way; `kept`: the page remembers it as the last one it showed."""
    html = part("bubble.html", language, {"bubble": bubble, "visitor": who})
    lines = "".join(f"data: {line}\n" for line in html.splitlines())
    return f"id: {bubble.key}\n{lines}\n" if kept else f"{lines}\n"


async def _news(ear: Ear, stop: asyncio.Event) -> bool:
    """Wait for the bell, or for the end; False where neither came for a while."""
    waits = [asyncio.ensure_future(ear.rung()), asyncio.ensure_future(stop.wait())]
    try:
        done, _ = await asyncio.wait(waits, timeout=STILL_HERE, return_when=asyncio.FIRST_COMPLETED)
        return bool(done)
    finally:
        for one in waits:
            one.cancel()
            with suppress(asyncio.CancelledError):
                await one
